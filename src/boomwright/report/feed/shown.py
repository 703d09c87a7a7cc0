"""The pictures and figures of the feed, as page and book both show them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownSubject, ShownTable
from boomwright.feed import (
    FieldMatch,
    HairpinShape,
    Leg,
    Stage,
    impedance_travel,
    standing_wave_ratio,
)
from boomwright.plan.resolve import feed_stages
from boomwright.report.feed.line_tables import braid_tables, line_table, phase_table, stack_table
from boomwright.report.feed.tables import comparison_table, rating_table, tries_table, turning_table
from boomwright.report.feed.texts import swr_text
from boomwright.solver import PatternCut
from boomwright.study.feed_results import BeamFeed, BraidCase, FeedResult

Floats = NDArray[np.float64]

_WIDTH = 520.0
#: SWR charts end here; a feed without match can be far above
_HIGHEST_SWR = 5.0
_POINTS = 61


def show_feed(
    result: FeedResult,
    *,
    number: int,
    palette: Palette,
    system: UnitSystem = "metric",
    width: float = _WIDTH,
) -> ShownSubject:
    """Draw everything the feed says about one beam.

    Parameters
    ----------
    width
        width of the pictures [user units]
    """
    each = result.beams[number]
    draw = _Drawing(each, palette=palette, system=system, width=width)
    pictures = draw.matches()
    pictures += [draw.swr(), draw.travel()]
    if each.adjustment is not None:
        pictures.append(draw.adjustment())
    pictures += [draw.pattern(case) for case in each.braids[-1:]]
    return ShownSubject(
        title=f"Feed of {each.beam.name}",
        facts=feed_facts(result, each),
        pictures=tuple(pictures),
        tables=feed_tables(result, each, system=system),
        notices=each.notices,
    )


def feed_tables(
    result: FeedResult, each: BeamFeed, *, system: UnitSystem
) -> tuple[ShownTable, ...]:
    """Write all tables of one beam's feed."""
    tables = (
        comparison_table(each, system=system),
        rating_table(result, each),
        turning_table(each),
        line_table(each, system=system),
        *braid_tables(each),
        tries_table(each, system=system),
        phase_table(each, system=system),
        stack_table(result, system=system),
    )
    return tuple(table for table in tables if table is not None)


def feed_facts(result: FeedResult, each: BeamFeed) -> tuple[tuple[str, str], ...]:
    """Write the figures of one beam's feed that count most."""
    facts = []
    for words, match in (("as drawn", each.drawn), ("proposed", each.proposed)):
        if match is not None:
            worst = float(band_swr(match)[1].max())
            facts.append(
                (
                    f"SWR {words}, design and worst in band",
                    f"{swr_text(match.swr)}, {swr_text(worst)}",
                )
            )
    before = float(np.max(each.before.swr))
    facts.append(("Worst without a match", swr_text(before)))
    if each.line is not None:
        facts.append(("Worst at the radio", swr_text(float(each.line.shack_swr.max()))))
        facts.append(("Most lost in the line", f"{each.line.loss_db.max():.2f} dB"))
    capacitors = [item for item in each.ratings if item.rated_voltage]
    if capacitors:
        needs = max(capacitors, key=lambda item: item.rated_voltage)
        facts.append(("Capacitor to buy", f"{needs.rated_voltage:.0f} V, {needs.current:.1f} A"))
    if each.braids:
        known = [case.enough for case in each.braids if case.enough is not None]
        all_known = len(known) == len(each.braids)
        facts.append(("Choke enough", f"{max(known):.0f} ohm" if all_known else "none found"))
    refusals = [
        f"{words}: {said}"
        for words, said in (("as drawn", each.drawn_words), ("proposed", each.proposed_words))
        if said
    ]
    power = f"{result.power:g} W peak envelope power" if result.power else "power not known"
    where = f"SWR against {each.reference:g} ohm over the plan's ground; {power}"
    facts.append(("At", "; ".join([where, *refusals])))
    return tuple(facts)


def band_swr(match: FieldMatch) -> tuple[Floats, Floats]:
    """Standing wave ratio over the band."""
    low = max(match.beam.band[0], float(match.load.frequency[0]))
    high = min(match.beam.band[1], float(match.load.frequency[-1]))
    at = np.unique(np.append(np.linspace(low, high, _POINTS), match.frequency))
    seen = match.match.transform(impedance=match.load.at(at), frequency=at)
    return at, standing_wave_ratio(seen, reference=match.reference)


class _Drawing:
    """Draws one beam's feed with one palette, one unit system and one width."""

    def __init__(
        self, each: BeamFeed, *, palette: Palette, system: UnitSystem, width: float
    ) -> None:
        self.each, self.palette, self.system, self.width = each, palette, system, width

    def _shown(
        self, name: str, words: str, svg: str, *, caption: str, table: ReadingTable
    ) -> ShownPicture:
        return ShownPicture(
            name=name,
            words=words,
            svg=svg,
            caption=caption,
            behind=ShownTable(name=name, caption=words, table=table),
            units=self.width,
        )

    def matches(self) -> list[ShownPicture]:
        """What to cut, and what the plan draws where that is something else."""
        found = []
        for name, match, words in (
            ("match", self.each.proposed, "Match to cut, proposed"),
            ("drawn", self.each.drawn, "Match as the plan draws it"),
        ):
            if match is None:
                continue
            svg = charts.match_schematic(
                match=match,
                title=f"{words}: {match.kind}",
                palette=self.palette,
                system=self.system,
                width=self.width,
            )
            found.append(
                self._shown(
                    name,
                    f"{words}: {match.kind}",
                    svg,
                    caption=f"SWR {swr_text(match.swr)} at the design frequency; dimensions "
                    "between axes.",
                    table=charts.schematic_table(match, system=self.system),
                )
            )
        return found

    def swr(self) -> ShownPicture:
        """SWR before and after."""
        each = self.each
        low, high = each.beam.band
        at = np.linspace(
            max(low, float(each.bare.frequency[0])), min(high, float(each.bare.frequency[-1])),
            _POINTS,
        )  # fmt: skip
        curves: list[tuple[str, Floats]] = []
        for name, match in (("proposed", each.proposed), ("as drawn", each.drawn)):
            if match is not None:
                seen = match.match.transform(impedance=match.load.at(at), frequency=at)
                curves.append((name, standing_wave_ratio(seen, reference=each.reference)))
        if each.line is not None:
            curves.append(("at the radio", np.interp(at, each.line.frequency, each.line.shack_swr)))
        bare = standing_wave_ratio(each.bare.at(at), reference=each.reference)
        if each.beam.feed.kind != "split" or each.beam.feed.balun is not None:
            curves.append(("no match", bare))
        said = "; ".join(f"{name} {y.min():.2f} to {y.max():.2f}" for name, y in curves)
        svg = charts.line_chart(
            kind="swr-before-after",
            title="Standing wave ratio before and after",
            description=f"Against {each.reference:g} ohm over the band: {said}.",
            x=at / 1e6,
            curves=[(name, np.minimum(y, _HIGHEST_SWR)) for name, y in curves],
            x_label="frequency, MHz",
            y_label="standing wave ratio",
            x_name="frequency",
            mark=(each.beam.design_frequency / 1e6, "design"),
            palette=self.palette,
            width=self.width,
        )
        return self._shown(
            "swr",
            "Standing wave ratio before and after",
            svg,
            caption=f"Standing wave ratio over the band against {each.reference:g} ohm, over the "
            "plan's ground: without a match, with it, and at the radio.",
            table=ReadingTable(
                header=("MHz", *(name for name, _ in curves)),
                rows=tuple(
                    (f"{at[i] / 1e6:.3f}", *(swr_text(float(y[i])) for _, y in curves))
                    for i in range(0, _POINTS, 5)
                ),
            ),
        )

    def travel(self) -> ShownPicture:
        """Impedances in the plane of the reflection coefficient."""
        each, match = self.each, self.each.used
        low, high = each.beam.band
        at = np.linspace(
            max(low, float(each.bare.frequency[0])), min(high, float(each.bare.frequency[-1])), 41
        )
        traces: list[tuple[str, Floats, NDArray[np.complex128]]] = [
            ("driven element as if split", at, each.bare.at(at))
        ]
        legs: tuple[Leg, ...] = ()
        if match is not None:
            seen = match.match.transform(impedance=match.load.at(at), frequency=at)
            traces.append((f"behind the match: {match.kind}", at, seen))
            stages, start = _way(each, match)
            legs = impedance_travel(stages=stages, impedance=start, frequency=match.frequency)
        if each.line is not None:
            traces.append(("at the radio", each.line.frequency, each.line.shack_impedance))
        svg = charts.reflection_chart(
            traces=traces,
            reference=each.reference,
            legs=legs,
            leg_names=[" ".join(charts.stage_words(leg.stage, system=self.system)) for leg in legs],
            palette=self.palette,
            width=self.width,
        )
        return self._shown(
            "travel",
            "Impedance on its way to the line",
            svg,
            caption="Impedances in the plane of the reflection coefficient over the band; the "
            "numbered way is that of the design frequency through the pieces of the match.",
            table=ReadingTable(
                header=("curve", "MHz", "resistance, ohm", "reactance, ohm"),
                rows=tuple(
                    (name, f"{f / 1e6:.3f}", f"{z.real:.1f}", f"{z.imag:+.1f}".replace("-", "−"))
                    for name, fs, zs in traces
                    for f, z in list(zip(fs, zs, strict=True))[:: max(1, len(fs) // 8)]
                ),
            ),
        )

    def adjustment(self) -> ShownPicture:
        """Strap and capacitor of a gamma."""
        picture = self.each.adjustment
        if picture is None:
            msg = "no gamma, so no strap and capacitor to draw"
            raise ValueError(msg)
        svg = charts.adjustment_map(
            adjustment=picture, palette=self.palette, system=self.system, width=self.width
        )
        return self._shown(
            "adjustment",
            "Gamma: strap and capacitor",
            svg,
            caption="Standing wave ratio against strap and capacitor. The strap moves resistance "
            "and reactance, the capacitor the reactance only: strap first, capacitor last.",
            table=charts.adjustment_table(picture, system=self.system),
        )

    def pattern(self, case: BraidCase) -> ShownPicture:
        """Azimuth pattern with the braid bypassed and choked."""
        solution = case.solution
        chosen = [case.readings[0], case.readings[-1]]
        cuts = [_cut(solution.azimuth, solution.plain_gain_dbi, solution.elevation)]
        labels = ["no braid"]
        for name, reading in chosen:
            cuts.append(_cut(solution.azimuth, reading.gain_dbi, solution.elevation))
            labels.append(f"choke: {name}")
        svg = charts.azimuth_pattern(
            cuts=cuts,
            labels=labels,
            title="Pattern with current on the line's outside",
            palette=self.palette,
            width=self.width,
            notes=False,
        )
        rows = tuple(
            (f"{angle:.0f}", *(f"{np.interp(angle, c.angle_deg, c.gain_dbi):.2f}" for c in cuts))
            for angle in range(0, 361, 10)
        )
        return self._shown(
            "braid-pattern",
            "Pattern with current on the line's outside",
            svg,
            caption=f"At the main lobe's elevation, line {case.words}. Solid: {labels[0]}; "
            f"dashed: {labels[1]}; dotted: {labels[2]}.",
            table=ReadingTable(
                header=("azimuth, degrees", *(f"{label}, dBi" for label in labels)), rows=rows
            ),
        )


def _cut(azimuth: Floats, gain: Floats, elevation: float) -> PatternCut:
    return PatternCut(
        plane="azimuth",
        at_deg=math.degrees(elevation),
        angle_deg=np.append(np.degrees(azimuth), 360.0),
        gain_dbi=np.append(gain, gain[0]),
    )


def _way(each: BeamFeed, match: FieldMatch) -> tuple[tuple[Stage, ...], complex]:
    """Pieces and start of the way on the chart; a hairpin's wires count as the stub they are."""
    frequency = match.frequency
    bare = complex(each.bare.at(frequency))
    if isinstance(match.shape, HairpinShape):
        if match is each.drawn:
            return feed_stages(each.beam) or (), bare
        found = next((t.match for t in each.tries if t.kind == "hairpin" and t.match), None)
        return (found.stages if found else ()), bare
    return match.match.stages, complex(match.load.at(frequency))

"""The pictures of a feed: match, SWR, the way of the impedance, gamma, pattern with braid."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright import charts
from boomwright.base.array_types import Floats
from boomwright.base.quantity import phrase
from boomwright.feed import FieldMatch, HairpinShape, Leg, Stage, impedance_travel
from boomwright.feed import standing_wave_ratio as ratio_of
from boomwright.plan.resolve import feed_stages
from boomwright.report.feed.answer import swr
from boomwright.report.model import Canvas, Picture, Table, column, drawing
from boomwright.solver import PatternCut
from boomwright.study.feed_parts.power import POINTS
from boomwright.study.feed_parts.results import BeamFeed, BraidCase

#: SWR charts end here; a feed without match can be far above
_HIGHEST_SWR = 5.0


def feed_pictures(each: BeamFeed) -> tuple[Picture, ...]:
    """Gather all pictures of one beam's feed."""
    pictures = [*_matches(each), _swr(each), _travel(each)]
    if each.adjustment is not None:
        pictures.append(_adjustment(each))
    pictures += [_pattern(case) for case in each.braids[-1:]]
    return tuple(pictures)


def _matches(each: BeamFeed) -> list[Picture]:
    """The plan's own match, which is cut, and what is proposed."""
    own = each.drawn is not None
    drawn = (
        ("drawn", each.drawn, "Match of the plan"),
        ("match", each.proposed, "Match proposed, not in the plan" if own else "Match proposed"),
    )
    return [_match(name, match, words) for name, match, words in drawn if match is not None]


def _match(name: str, match: FieldMatch, words: str) -> Picture:
    title = f"{words}: {match.kind}"
    return Picture(
        name=name,
        title=title,
        group="match",
        draw=drawing(charts.match_schematic, match=match, title=title),
        caption=phrase("SWR {} at the design frequency; dimensions between axes.", swr(match.swr)),
        behind=lambda system: charts.schematic_table(match, system=system),
    )


def _band(each: BeamFeed, points: int) -> Floats:
    low, high = each.beam.band
    first, last = float(each.bare.frequency[0]), float(each.bare.frequency[-1])
    return np.linspace(max(low, first), min(high, last), points)


def _swr(each: BeamFeed) -> Picture:
    """SWR before and after."""
    at = _band(each, POINTS)
    curves: list[tuple[str, Floats]] = []
    for name, match in (("proposed", each.proposed), ("as drawn", each.drawn)):
        if match is not None:
            seen = match.match.transform(impedance=match.load.at(at), frequency=at)
            curves.append((name, ratio_of(seen, reference=each.reference)))
    if each.line is not None:
        curves.append(("at the radio", np.interp(at, each.line.frequency, each.line.shack_swr)))
    if each.beam.feed.kind != "split" or each.beam.feed.balun is not None:
        curves.append(("no match", ratio_of(each.bare.at(at), reference=each.reference)))
    said = "; ".join(f"{name} {y.min():.2f} to {y.max():.2f}" for name, y in curves)
    title = "Standing wave ratio before and after"

    def curve(name: str, y: Floats) -> Any:
        return column(name, lambda i: y[i], kind="swr")

    return Picture(
        name="swr",
        title=title,
        group="match",
        draw=drawing(
            charts.line_chart,
            units=False,
            kind="swr-before-after",
            title=title,
            description=f"Against {each.reference:g} ohm over the band: {said}.",
            x=at / 1e6,
            curves=[(name, np.minimum(y, _HIGHEST_SWR)) for name, y in curves],
            x_label="frequency, MHz",
            y_label="standing wave ratio",
            x_name="frequency",
            mark=(each.beam.design_frequency / 1e6, "design"),
        ),
        caption=phrase(
            "Standing wave ratio over the band against {line:nominal resistance}, over the plan's "
            "ground: without a match, with it, and at the radio.",
            line=each.reference,
        ),
        behind=Table(
            name="swr",
            caption=title,
            columns=(
                column("frequency", lambda i: at[i], kind="frequency"),
                *(curve(name, y) for name, y in curves),
            ),
            items=range(0, POINTS, 5),
        ),
    )


def _travel(each: BeamFeed) -> Picture:
    """Impedances in the plane of the reflection coefficient."""
    match, at = each.used, _band(each, 41)
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

    def draw(canvas: Canvas) -> str:
        return charts.reflection_chart(
            traces=traces,
            reference=each.reference,
            legs=legs,
            leg_names=[
                " ".join(charts.stage_words(leg.stage, system=canvas.system)) for leg in legs
            ],
            palette=canvas.palette,
            width=canvas.width,
        )

    return Picture(
        name="travel",
        title="Impedance on its way to the line",
        group="match",
        draw=draw,
        caption="Impedances in the plane of the reflection coefficient over the band; the numbered "
        "way is that of the design frequency through the pieces of the match.",
        behind=Table(
            name="travel",
            caption="Impedance on its way to the line",
            columns=(
                column("curve", lambda row: row[0]),
                column("frequency", lambda row: row[1], kind="frequency"),
                column("resistance", lambda row: row[2].real, kind="resistance"),
                column("reactance", lambda row: row[2].imag, kind="reactance"),
            ),
            items=[
                (name, f, complex(z))
                for name, fs, zs in traces
                for f, z in list(zip(fs, zs, strict=True))[:: max(1, len(fs) // 8)]
            ],
        ),
    )


def _adjustment(each: BeamFeed) -> Picture:
    """Strap and capacitor of a gamma."""
    found = each.adjustment
    if found is None:
        raise ValueError("no gamma, so no strap and capacitor to draw")

    return Picture(
        name="adjustment",
        title="Gamma: strap and capacitor",
        group="turning",
        draw=drawing(charts.adjustment_map, adjustment=found),
        caption="Standing wave ratio against strap and capacitor. The strap moves resistance and "
        "reactance, the capacitor the reactance only: strap first, capacitor last.",
        behind=lambda system: charts.adjustment_table(found, system=system),
    )


def _pattern(case: BraidCase) -> Picture:
    """Azimuth pattern with the braid bypassed and choked."""
    solution = case.solution
    chosen = [case.readings[0], case.readings[-1]]
    cuts = [_cut(solution.azimuth, solution.plain_gain_dbi, solution.elevation)]
    cuts += [_cut(solution.azimuth, read.gain_dbi, solution.elevation) for _, read in chosen]
    labels = ["no braid", *(f"choke: {name}" for name, _ in chosen)]
    title = "Pattern with current on the line's outside"

    def gain(label: str, cut: PatternCut) -> Any:
        return column(
            label, lambda angle: float(np.interp(angle, cut.angle_deg, cut.gain_dbi)), kind="gain"
        )

    return Picture(
        name="braid-pattern",
        title=title,
        group="braid",
        draw=drawing(
            charts.azimuth_pattern, units=False, cuts=cuts, labels=labels, title=title, notes=False
        ),
        caption=phrase(
            "At the main lobe's elevation, line {}. Solid: {}; dashed: {}; dotted: {}.",
            case.words,
            labels[0],
            labels[1],
            labels[2],
        ),
        behind=Table(
            name="braid-pattern",
            caption=title,
            columns=(
                column("azimuth", lambda angle: angle, kind="whole angle"),
                *(gain(label, cut) for label, cut in zip(labels, cuts, strict=True)),
            ),
            items=range(0, 361, 10),
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

"""The pictures and tables of reach, as page and book both show them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright import figures
from boomwright.app.reach import read_coastlines
from boomwright.app.reach_people_pictures import people_pictures
from boomwright.app.reach_results import BeamReach, ReachResult, StackResult
from boomwright.app.reach_shown_tables import (
    advantage_table,
    check_table,
    distance_table,
    hop_table,
    path_table,
    pointing_table,
    stack_table,
)
from boomwright.base import UnitSystem
from boomwright.figures import Palette, ReadingTable, ShownPicture, ShownSubject, ShownTable
from boomwright.reach import Place, TerrainPattern
from boomwright.solver import PatternCut

Floats = NDArray[np.float64]

#: width of a picture on the page and in the book [user units]
_WIDTH = 520.0


def show_reach(
    result: ReachResult,
    *,
    number: int,
    palette: Palette,
    system: UnitSystem = "metric",
    width: float = _WIDTH,
) -> ShownSubject:
    """Draw everything reach says about one beam, with the stack it belongs to.

    Parameters
    ----------
    result
        the result [-]
    number
        number of the beam [-]
    palette
        colours [-]
    system
        units of lengths [-]
    width
        width of the pictures [user units]

    Returns
    -------
    ShownSubject
        facts, pictures, tables and notices [-]
    """
    each = result.beams[number]
    draw = _Drawing(palette=palette, system=system, width=width)
    pictures = [draw.heights(each), draw.height_map(each), draw.comparison(each)]
    tables = [advantage_table(each), pointing_table(each)]
    if result.station is not None:
        pictures.append(draw.map(result.station, each))
    if each.paths:
        tables += [path_table(each), hop_table(each)]
    if each.terrain is not None:
        pictures.append(draw.terrain(each, each.terrain))
    if result.stack is not None:
        pictures += draw.stack(result.stack)
        tables.append(stack_table(result))
    if each.exposure is not None:
        pictures += people_pictures(
            result, each.exposure, each, palette=palette, system=system, width=width
        )
        if each.exposure.checks:
            tables.append(check_table(each.exposure))
        tables.append(distance_table(each.exposure))
    return ShownSubject(
        title=f"Reach of {each.beam.name}",
        facts=_facts(result, each, system),
        pictures=tuple(pictures),
        tables=tuple(tables),
        notices=result.notices,
    )


def _height(height: float, system: UnitSystem) -> str:
    return f"{height:.1f} m" if system == "metric" else f"{height / 0.3048:.0f} ft"


def _facts(result: ReachResult, each: BeamReach, system: UnitSystem) -> tuple[tuple[str, str], ...]:
    facts = [("Take-off angle", f"{each.take_off_deg:.1f}°")]
    if each.scan.splits:
        first = each.scan.splits[0]
        facts.append(("Second lobe from", _height(first.height, system)))
    wanted = each.wanted_deg[0]
    own = each.advantages[1]
    facts.append(
        (f"Over a dipole at 10 m, at {wanted:g}°", f"{own.decibels:+.1f} dB, {own.s_units:+.1f} S")
    )
    if result.stack is not None:
        gain = result.stack.gain
        facts.append(("Stack, in phase", f"{gain.decibels:+.2f} ± {gain.error_db:.2f} dB"))
    checks = each.exposure.checks if each.exposure else ()
    applying = [check for check in checks if check.applies]
    if applying:
        worst = max(applying, key=lambda check: check.governing)
        facts.append((f"Most used limit, {worst.place.place}", f"{100.0 * worst.governing:.0f} %"))
    return tuple(facts)


class _Drawing:
    """Draws with one palette, one unit system and one width."""

    def __init__(self, *, palette: Palette, system: UnitSystem, width: float) -> None:
        self.palette, self.system, self.width = palette, system, width

    def _shown(
        self, name: str, words: str, svg: str, *, caption: str, table: ReadingTable, about: str
    ) -> ShownPicture:
        return ShownPicture(
            name=name,
            words=words,
            svg=svg,
            caption=caption,
            behind=ShownTable(name=name, caption=about, table=table),
            units=self.width,
        )

    def heights(self, each: BeamReach) -> ShownPicture:
        svg = figures.height_chart(
            scan=each.scan,
            wanted_deg=each.wanted_deg,
            palette=self.palette,
            system=self.system,
            width=self.width,
        )
        return self._shown(
            "heights",
            "Gain at wanted angles against height",
            svg,
            caption=(
                "Gain towards the heading at wanted angles against the height of the boom. Dashed: "
                "from there up the pattern has one more lobe."
            ),
            table=figures.height_table(each.scan, each.wanted_deg),
            about="Lobes, minima and gains against height",
        )

    def height_map(self, each: BeamReach) -> ShownPicture:
        svg = figures.height_map(
            scan=each.scan, palette=self.palette, system=self.system, width=self.width
        )
        return self._shown(
            "height-map",
            "Elevation pattern against height",
            svg,
            caption=(
                "Elevation patterns side by side, shaded by gain below the strongest. Dots trace "
                "the lobes, dashes the minima."
            ),
            table=figures.height_table(each.scan, each.wanted_deg),
            about="Lobes, minima and gains against height",
        )

    def comparison(self, each: BeamReach) -> ShownPicture:
        angle = each.scan.elevation_deg
        curves = [("beam", _front(each.cut, angle))]
        curves += [(plain.name, plain.cut.gain_dbi) for plain in each.plain]
        svg = figures.line_chart(
            kind="plain-antennas",
            title="Against plain antennas over the same ground",
            description="; ".join(
                f"over {a.over} at {a.elevation_deg:g} degrees {a.decibels:+.1f} dB"
                for a in each.advantages
            )
            + ".",
            x=angle,
            curves=[(_SHORT.get(name, name), y) for name, y in curves],
            x_label="elevation above the horizon, degrees",
            y_label="gain, dBi",
            x_name="elevation",
            deepest=35.0,
            palette=self.palette,
            width=self.width,
        )
        rows = tuple(
            (f"{a:.0f}", *(f"{np.interp(a, angle, y):.1f}" for _, y in curves))
            for a in range(0, 91, 2)
        )
        return self._shown(
            "plain-antennas",
            "Gain against plain antennas",
            svg,
            caption=(
                "The beam against a half-wave dipole at its height, one at 10 m, and a quarter-"
                "wave vertical on a lossless radial system, all over the same ground."
            ),
            table=ReadingTable(
                header=("elevation, degrees", *(f"{name}, dBi" for name, _ in curves)), rows=rows
            ),
            about="Gain against elevation",
        )

    def map(self, station: Place, each: BeamReach) -> ShownPicture:
        targets = [
            (path.target, path.place, path.path) for path in each.paths if path.path.way == "short"
        ]
        svg = figures.station_map(
            station=station,
            coastlines=read_coastlines(),
            footprint=each.footprint,
            heading=each.beam.heading,
            targets=targets,
            palette=self.palette,
            width=self.width,
        )
        return self._shown(
            "map",
            "Where it goes",
            svg,
            caption=(
                "Azimuthal map centred on the station. Shaded: gain towards each place, by the "
                "fewest hops off the highest layer at its middle height, below the strongest."
            ),
            table=path_table(each).table,
            about="Paths, the short and the long way",
        )

    def terrain(self, each: BeamReach, terrain: TerrainPattern) -> ShownPicture:
        angle = terrain.elevation_deg
        flat = _front(each.cut, angle)
        svg = figures.line_chart(
            kind="terrain-pattern",
            title="Over the owner's terrain",
            description=(
                f"Strongest over the terrain {terrain.gain_dbi.max():.1f} dBi at "
                f"{angle[int(terrain.gain_dbi.argmax())]:.1f} degrees."
            ),
            x=angle,
            curves=[("over the terrain", terrain.gain_dbi), ("over flat ground", flat)],
            x_label="elevation above the horizon, degrees",
            y_label="gain, dBi",
            x_name="elevation",
            deepest=35.0,
            palette=self.palette,
            width=self.width,
        )
        rows = tuple(
            (f"{a:g}", f"{g:.1f}", f"{f:.1f}")
            for a, g, f in zip(angle[::2], terrain.gain_dbi[::2], flat[::2], strict=True)
        )
        return self._shown(
            "terrain",
            "Over the owner's terrain",
            svg,
            caption=(
                "Reflection and diffraction in two dimensions along the heading, against flat "
                "ground."
            ),
            table=ReadingTable(
                header=("elevation, degrees", "terrain, dBi", "flat, dBi"), rows=rows
            ),
            about="Gain against elevation",
        )

    def stack(self, stack: StackResult) -> list[ShownPicture]:
        made = [
            self._curves(
                "stack",
                "Beams fed alone and together",
                x=stack.cuts[0][1].angle_deg,
                curves=[(name, cut.gain_dbi) for name, cut in stack.cuts],
                x_label="elevation above the horizon, degrees",
                x_name="elevation",
                caption="An idle beam stays on the tower, its feed open; coupling is solved.",
                deepest=35.0,
            )
        ]
        if stack.phase is not None:
            made.append(
                self._curves(
                    "stack-phase",
                    f"Phase between two beams, gain at {stack.phase.elevation_deg:.1f}°",
                    x=stack.phase.phase_deg,
                    curves=[("equal feed currents", stack.phase.gain_dbi)],
                    x_label="upper beam behind the lower, degrees",
                    x_name="turn",
                    caption=(
                        f"No feeding of any size and phase exceeds {stack.phase.bound_dbi:.2f} dBi."
                    ),
                )
            )
        if stack.spacing is not None:
            made.append(
                self._curves(
                    "stack-spacing",
                    f"Height of the lower beam, gain at {stack.spacing.elevation_deg:.1f}°",
                    x=stack.spacing.heights,
                    curves=[
                        ("both in phase", stack.spacing.gain_dbi),
                        ("upper alone, lower idle", stack.spacing.alone_dbi),
                    ],
                    x_label="lower boom above ground, m",
                    x_name="height",
                    caption="The upper beam stays where the plan has it.",
                )
            )
        return made

    def _curves(
        self,
        name: str,
        words: str,
        *,
        x: Floats,
        curves: list[tuple[str, Floats]],
        x_label: str,
        caption: str,
        x_name: str = "x",
        deepest: float | None = None,
    ) -> ShownPicture:
        svg = figures.line_chart(
            kind=name,
            title=words,
            description="; ".join(
                f"{label}: at most {y.max():.1f} dBi at {x[int(y.argmax())]:.1f}"
                for label, y in curves
            )
            + ".",
            x=x,
            curves=curves,
            x_label=x_label,
            y_label="gain, dBi",
            x_name=x_name,
            deepest=deepest,
            palette=self.palette,
            width=self.width,
        )
        step = max(1, len(x) // 45)
        return self._shown(
            name,
            words,
            svg,
            caption=caption,
            table=ReadingTable(
                header=(x_label, *(f"{label}, dBi" for label, _ in curves)),
                rows=tuple(
                    (f"{x[i]:g}", *(f"{y[i]:.2f}" for _, y in curves))
                    for i in range(0, len(x), step)
                ),
            ),
            about=words,
        )


_SHORT = {
    "half-wave dipole at the same height": "dipole, same height",
    "half-wave dipole at 10 m": "dipole at 10 m",
    "quarter-wave vertical": "vertical",
}


def _front(cut: PatternCut, angle: Floats) -> Floats:
    gain: Floats = np.interp(angle, cut.angle_deg, cut.gain_dbi)
    return gain

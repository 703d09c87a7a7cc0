"""The numbers behind a picture as rows of text, for tables beside or below it."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from boomwright.base import UnitSystem, length_text
from boomwright.charts.element_names import element_labels
from boomwright.charts.scale import signed
from boomwright.charts.sentences import centre_current
from boomwright.parts import Beam
from boomwright.reach import OverGround
from boomwright.solver import ElementCurrent, PatternCut, SweepPoint


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingTable:
    """A small table of text."""

    header: tuple[str, ...]  #: heads of the columns, with units (n_columns,)
    rows: tuple[tuple[str, ...], ...]  #: rows, as many texts as heads (n_rows, n_columns)


def reading_table(
    reading: Beam | PatternCut | OverGround | Sequence[SweepPoint] | Sequence[ElementCurrent],
    *,
    system: UnitSystem = "metric",
    step_deg: float = 5.0,
) -> ReadingTable:
    """Write the numbers behind a picture as a table.

    Parameters
    ----------
    system
        ``metric`` or ``us`` lengths
    step_deg
        least angle between two rows of a pattern cut [deg]
    """
    if isinstance(reading, Beam):
        return _beam_table(reading, system=system)
    if isinstance(reading, PatternCut):
        return _cut_table(reading, step_deg=step_deg)
    if isinstance(reading, OverGround):
        return _lobe_table(reading)
    items = tuple(reading)
    currents = [item for item in items if isinstance(item, ElementCurrent)]
    if currents:
        return _current_table(currents, system=system)
    return _sweep_table([item for item in items if isinstance(item, SweepPoint)])


def _beam_table(beam: Beam, *, system: UnitSystem) -> ReadingTable:
    origin = min((element.position for element in beam.elements), default=0.0)
    return ReadingTable(
        header=("element", "from the first element", "half length", "full length"),
        rows=tuple(
            (
                label,
                length_text(element.position - origin, system=system),
                length_text(element.half_length, system=system),
                length_text(element.length, system=system),
            )
            for label, element in zip(element_labels(beam), beam.elements, strict=True)
        ),
    )


def _cut_table(cut: PatternCut, *, step_deg: float) -> ReadingTable:
    rows = []
    due = -math.inf
    for angle, gain in zip(cut.angle_deg.tolist(), cut.gain_dbi.tolist(), strict=True):
        if angle >= due - 1e-9:
            rows.append((signed(angle, decimals=1), signed(gain, decimals=2)))
            due = angle + step_deg
    return ReadingTable(header=(f"{cut.plane}, degrees", "gain, dBi"), rows=tuple(rows))


def _sweep_table(points: Sequence[SweepPoint]) -> ReadingTable:
    return ReadingTable(
        header=(
            "frequency, MHz", "resistance, ohm", "reactance, ohm", "± ohm", "SWR", "± SWR",
            "gain, dBi", "± dB", "front-to-back, dB", "± dB", "front-to-rear, dB",
            "efficiency, %",
        ),
        rows=tuple(
            (
                f"{p.frequency / 1e6:.3f}",
                signed(p.impedance.real, decimals=1),
                signed(p.impedance.imag, decimals=1),
                signed(p.impedance_error, decimals=1),
                signed(p.swr, decimals=2),
                signed(p.swr_error, decimals=2),
                signed(p.gain_dbi, decimals=2),
                signed(p.gain_error_db, decimals=2),
                signed(p.front_to_back_db, decimals=1),
                signed(p.front_to_back_error_db, decimals=1),
                signed(p.front_to_rear_db, decimals=1),
                signed(100.0 * p.efficiency, decimals=1),
            )
            for p in points
        ),
    )  # fmt: skip


def _current_table(currents: Sequence[ElementCurrent], *, system: UnitSystem) -> ReadingTable:
    rows = []
    for item in currents:
        value = centre_current(item)
        rows.append(
            (
                item.label,
                length_text(item.place, system=system),
                f"{abs(value):.3f}",
                signed(math.degrees(cmath.phase(value)), decimals=1),
            )
        )
    return ReadingTable(
        header=("element", "place", "centre current, A", "phase, degrees"), rows=tuple(rows)
    )


def _lobe_table(over_ground: OverGround) -> ReadingTable:
    marks = [
        (lobe.elevation_deg, "lobe", signed(lobe.gain_dbi, decimals=1))
        for lobe in over_ground.lobes
    ]
    gain = over_ground.elevation_pattern
    for null in over_ground.nulls_deg:
        nearest = min(range(len(gain.angle_deg)), key=lambda i: abs(gain.angle_deg[i] - null))
        marks.append((null, "minimum", signed(float(gain.gain_dbi[nearest]), decimals=1)))
    return ReadingTable(
        header=("elevation, degrees", "kind", "gain, dBi"),
        rows=tuple((f"{angle:.1f}", kind, value) for angle, kind, value in sorted(marks)),
    )

"""The figures of a beam as tables: over the band, lobes, cuts of the pattern, currents, sizes."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from boomwright.base.quantity import Quantity
from boomwright.parts import Beam
from boomwright.reach import OverGround
from boomwright.report.model import Column, Table, column
from boomwright.solver import ElementCurrent, PatternCut, SweepPoint

#: least angle between two rows of a cut [deg]
_STEP = 5.0


def sweep_table(points: Sequence[SweepPoint], *, reference: float) -> Table[SweepPoint]:
    """All figures over the band, each with its error band.

    Args:
        reference: resistance that the standing wave ratio is held against [ohm]
    """
    return Table(
        name="sweep",
        caption="Free-space figures over the band",
        columns=(
            column("frequency", lambda p: p.frequency, kind="frequency"),
            _banded(
                "impedance", "impedance", lambda p: (p.impedance, p.impedance_error), full=True
            ),
            _banded(f"SWR to {reference:g} ohm", "swr", lambda p: (p.swr, p.swr_error)),
            _banded("gain", "gain", lambda p: (p.gain_dbi, p.gain_error_db)),
            _banded(
                "front-to-back",
                "ratio",
                lambda p: (p.front_to_back_db, p.front_to_back_error_db),
                full=True,
            ),
            column("front-to-rear", lambda p: p.front_to_rear_db, kind="ratio"),
            column("efficiency", lambda p: p.efficiency, kind="efficiency", full=True),
        ),
        items=points,
    )


def _banded(head: str, kind: str, get: Any, *, full: bool = False) -> Column[SweepPoint]:
    def told(point: SweepPoint) -> Quantity:
        value, error = get(point)
        return Quantity(value, kind, 0.0 if math.isnan(error) else error)

    return Column(head=head, get=told, kind=kind, full=full)


def lobe_table(over: OverGround) -> Table[Any]:
    """Lobes and the minima between them, towards the heading."""
    cut = over.elevation_pattern

    def gain_at(angle: float) -> float:
        return float(cut.gain_dbi[int(np.argmin(np.abs(cut.angle_deg - angle)))])

    marks = [(lobe.elevation_deg, "lobe", lobe.gain_dbi) for lobe in over.lobes]
    marks += [(null, "minimum", gain_at(null)) for null in over.nulls_deg]
    return Table(
        name="lobes",
        caption="Lobes and minima towards the heading",
        columns=(
            column("elevation", lambda mark: mark[0], kind="angle"),
            column("kind", lambda mark: mark[1]),
            column("gain", lambda mark: mark[2], kind="gain"),
        ),
        items=sorted(marks),
    )


def cut_table(cut: PatternCut) -> Table[Any]:
    """A cut of the pattern, every few degrees."""
    pairs = list(zip(cut.angle_deg.tolist(), cut.gain_dbi.tolist(), strict=True))
    rows, due = [], -math.inf
    for angle, gain in pairs:
        if angle >= due - 1e-9:
            rows.append((angle, gain))
            due = angle + _STEP
    caption = (
        "Elevation pattern, through the heading"
        if cut.plane == "elevation"
        else f"Azimuth pattern at elevation {cut.at_deg:.1f}°"
    )
    return Table(
        name=cut.plane,
        caption=caption,
        columns=(
            column(cut.plane, lambda row: row[0], kind="angle"),
            column("gain", lambda row: row[1], kind="gain"),
        ),
        items=rows,
    )


def current_table(currents: Sequence[ElementCurrent]) -> Table[ElementCurrent]:
    """Current at the middle of each element, for one ampere at the feed."""
    return Table(
        name="currents",
        caption="Currents for 1 A at the feed",
        columns=(
            column("element", lambda one: one.label),
            column("place", lambda one: one.place, kind="sawn length"),
            column("centre current", lambda one: abs(one.middle), kind="small current"),
            column("phase", lambda one: math.degrees(cmath.phase(one.middle)), kind="angle"),
        ),
        items=currents,
    )


def size_table(beam: Beam) -> Table[Any]:
    """Places and lengths of the elements."""
    origin = min((element.position for element in beam.elements), default=0.0)
    rows = zip(beam.element_labels, beam.elements, strict=True)
    return Table(
        name="sizes",
        caption="Places and lengths of the elements",
        columns=(
            column("element", lambda row: row[0]),
            column(
                "from the first element", lambda row: row[1].position - origin, kind="sawn length"
            ),
            column("half length", lambda row: row[1].half_length, kind="sawn length"),
            column("full length", lambda row: row[1].length, kind="sawn length"),
        ),
        items=list(rows),
    )

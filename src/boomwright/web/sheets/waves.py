"""The Waves sheet: how the elements' waves add up, moving, and the pattern they make in space."""

from __future__ import annotations

import base64
from dataclasses import asdict
from typing import TYPE_CHECKING

import numpy as np

from boomwright import charts
from boomwright.base import SPEED_OF_LIGHT, SolverError
from boomwright.web.colours import page_palette
from boomwright.web.quick_figures import look_at
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Paint, Sheet
from boomwright.web.sheets.waves_context import FieldGrid, ShareRow, Solid, WavesContext
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.reach import PatternGrid, WavePicture, WavePlane

_PALETTE = page_palette()
_WIDE, _NARROW = 880.0, 350.0


def _picture(desk: PlanDesk, view: View) -> WavePicture | None:
    """Compute the wave, once for each state of the plan and frequency."""
    look = look_at(desk, view)
    if look.quick is None:
        return None
    name = ("waves", view.beam, look.frequency, look.revision)
    kept = desk.kept.get(name)
    if kept is None:
        try:
            kept = desk.session.waves(
                beam=look.beam, ground=look.plan.site.ground, frequency=look.frequency
            )
        except SolverError:
            return None
        desk.kept.put(name, kept)
    return kept  # type: ignore[return-value]


def _grid(picture: WavePicture, plane: WavePlane) -> FieldGrid:
    pairs = np.stack([plane.shares.real, plane.shares.imag], axis=-1).astype("<f4")
    return FieldGrid(
        along=(float(plane.along[0]), float(plane.along[-1]), len(plane.along)),
        across=(float(plane.across[0]), float(plane.across[-1]), len(plane.across)),
        places=tuple(element.position for element in picture.beam.elements),
        full_colour=charts.full_colour(picture),
        values=base64.b64encode(pairs.tobytes()).decode("ascii"),
    )


def _solid(picture: WavePicture) -> Solid:
    grid: PatternGrid = picture.pattern
    return Solid(
        azimuth_deg=tuple(grid.azimuth_deg.tolist()),
        elevation_deg=tuple(grid.elevation_deg.tolist()),
        gain_dbi=tuple(tuple(row) for row in np.round(grid.gain_dbi, 2).tolist()),
        elements=tuple((e.position, e.half_length, e.role) for e in picture.beam.elements),
        wavelength=SPEED_OF_LIGHT / picture.frequency,
    )


def context(desk: PlanDesk, view: View, *, whole: bool) -> WavesContext:
    """Build the context of the Waves sheet."""
    picture = _picture(desk, view) if whole else None
    if picture is None:
        return WavesContext(sentence="", shares=(), figures={}, grids={}, solid=None, power=0.0)
    planes = {"level": picture.level, "upright": picture.upright}
    return WavesContext(
        sentence=charts.wave_sentence(picture),
        shares=tuple(
            ShareRow(label=share.label, role=share.role, sentence=charts.share_sentence(picture, i))
            for i, share in enumerate(picture.shares)
        ),
        figures={
            name: charts.wave_frame(
                picture,
                plane,
                palette=_PALETTE,
                system=view.system,
                width=_NARROW if view.narrow else _WIDE,
            )
            for name, plane in planes.items()
        },
        grids={name: _grid(picture, plane) for name, plane in planes.items()},
        solid=_solid(picture),
        power=picture.power,
    )


def full(desk: PlanDesk, view: View) -> Paint:
    """Compute and paint the wave."""
    return {"waves": asdict(context(desk, view, whole=True))}


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say whether there is a wave to show."""
    # Read from what is kept: a mark computes nothing.
    readings = desk.known_readings(view.beam, revision=desk.revision)
    if readings is None:
        return Mark(state="doubtful", text="being computed")
    return Mark(state="done", text="nothing to fill in: it follows from the beam")


WAVES = Sheet(
    noun="Waves",
    slug="waves",
    template="waves.html",
    doing="Computing the wave",
    context=context,
    full=full,
    mark=mark,
)

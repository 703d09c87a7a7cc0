"""Ledger lines for beams that turn between guys."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache, lru_cache, partial
from math import hypot, isfinite
from typing import Literal

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.quantity import phrase
from boomwright.parts import Solid, edges_of
from boomwright.structure.beam.frame import still_droops
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.elements import element_label, element_trouble
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.frame import frame_unsaid
from boomwright.structure.checks.margins import Margin, margin
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.report import BeamReport
from boomwright.structure.support.clearance import (
    GUY_CLEARANCE,
    HEAD_ROOM,
    GuyRoom,
    SweptPoints,
    guy_room,
    guy_sag,
)
from boomwright.structure.wording import span, stretch

#: how a beam hangs: in still air, with ice on it, or straight, as a gust may lift its tips
Shape = Literal["bare", "iced", "straight"]
_HANGING: tuple[Shape, ...] = ("bare", "iced")
#: places along a part are looked at this close to each other [m]
_STEP = 0.25


# A beam is looked at hanging in several ways, and most edits leave most of its parts alone.
@lru_cache(maxsize=1024)
def _outside(solid: Solid) -> Floats:
    """Points all along the four edges of a solid, on the beam's axes [m] (4, n_places, 3)."""
    edges = np.array(edges_of(solid))
    long = float(np.linalg.norm(edges[0, 1] - edges[0, 0]))
    share = np.linspace(0.0, 1.0, 2 + int(long / _STEP))[:, None]
    points: Floats = edges[:, None, 0] + share * (edges[:, None, 1] - edges[:, None, 0])
    return points


def _sunk(points: Floats, element: int | None, report: BeamReport, shape: Shape) -> Floats:
    """How far boom and element let points hang down [m] (4, n_places)."""
    down = np.zeros(points.shape[:2])
    if shape == "straight":
        return down
    course = report.iced_course if shape == "iced" else report.course
    if course is not None:
        nearest = np.abs(course.place - points[..., :1]).argmin(axis=-1)
        down += np.maximum(0.0, course.sag[nearest])
    found = next((each.course for each in report.elements if each.index == element), None)
    if found is not None:
        droop = found.iced_droop if shape == "iced" else found.dead_droop
        down += np.interp(np.abs(points[..., 1]), found.place, droop)
    return down


def _frame_droop(mounted: MountedBeam, site: SiteLoads) -> float:
    """How much further ice lets the tips of a frame hang than still air does [m]."""
    beam = mounted.beam
    ice = site.coat(height=beam.height) if beam.bent else None
    if ice is None:
        return 0.0
    still, iced = still_droops(beam=beam), still_droops(beam=beam, ice=ice)
    return max((iced[name] - still[name] for name in still), default=0.0)


def swept_points(
    shape: Shape, *, mounted: MountedBeam, report: BeamReport, site: SiteLoads
) -> SweptPoints:
    """List what a beam sweeps as it turns: the outside of all its parts, as boom and tubes sag.

    Wires and spreaders stand as they hang in still air; ice bends the spreaders of a frame further,
    by s^2 (3 - s) / 2 of what it adds at their tips {beam-theory}.
    """
    beam = mounted.beam
    further = _frame_droop(mounted, site) if shape == "iced" else 0.0
    outline = (corner for element in beam.elements for corner in element.outline)
    longest = max((hypot(x - beam.boom_middle, y) for x, y, _ in outline), default=0.0)
    names, reach, height = [f"clamp of {beam.name}"], [np.zeros(1)], [np.full(1, beam.height)]
    for each in mounted.swept:
        points = _outside(each.solid)
        level = beam.height + points[..., 2] - _sunk(points, each.element, report, shape)
        if further:
            share = np.hypot(points[..., 0] - beam.boom_middle, points[..., 1]) / longest
            level -= further * share**2 * (3.0 - share) / 2.0
        # Whichever comes closest: inner or outer side, top or bottom.
        low, high = level.min(axis=0), level.max(axis=0)
        name = each.name
        if not name and each.element is not None:
            name = element_label(beam=beam, index=each.element)
        for x, y in mounted.axes:
            far = np.hypot(points[..., 0] - x, points[..., 1] - y)
            names += [name] * 4 * len(low)
            reach += [far.min(axis=0), far.max(axis=0)] * 2
            height += [low, low, high, high]
    return SweptPoints(
        names=tuple(names), reach=np.concatenate(reach), height=np.concatenate(height)
    )


def _trouble(mounted: MountedBeam, report: BeamReport | None, site: SiteLoads) -> str:
    levels = site.inputs.guying
    if not levels:
        return "no guy levels are given for a guyed tower"
    beam = mounted.beam
    if report is None or not (beam.elements or beam.wires):
        return "its sizes make no beam"
    if not all(isfinite(element.position) for element in beam.elements):
        return "the place of an element is no number"
    if all(beam.height < level.height for level in levels):
        return ""
    unsaid = frame_unsaid(beam=beam, on_boom=mounted.boom is not None)
    if unsaid:
        return f"how far its wires hang down to the guys is not known ({unsaid})"
    for number, element in enumerate(beam.elements, start=1):
        trouble = "" if element.bent else element_trouble(element=element, material=beam.material)
        if trouble:
            return f"how far element {number} hangs down to the guys is not known ({trouble})"
    return ""


def _rooms(
    mounted: MountedBeam, sweep: Callable[[Shape], SweptPoints], case: LoadCase
) -> list[GuyRoom]:
    shapes: tuple[Shape, ...] = ("iced",) if case.iced else ("bare", "straight")
    every = [sweep(shape) for shape in shapes]
    return [
        guy_room(
            level=level,
            boom_height=mounted.beam.height,
            swept=swept,
            sag=guy_sag(level=level, weight_per_length=case.guy_weight(level=level)),
        )
        for level in case.site.inputs.guying
        for swept in every
    ]


def _line(name: str, room: GuyRoom) -> Margin:
    anchors, reach, height = span(room.level.anchor_radius), span(room.reach), span(room.height)
    kept = phrase("{free} kept free (common practice)", free=stretch(GUY_CLEARANCE))
    words = "{level}, straight to their anchors at {anchors}"
    guys = phrase(words, level=room.level.name, anchors=anchors)
    words = "{point} comes down to {height}, {reach} out"
    if room.below:
        words, sag = "{point} sweeps {reach} out at {height}", stretch(room.sag)
        guys = phrase("{guys}, with a sag of {sag} at their initial tension", guys=guys, sag=sag)
    elif room.reach == 0.0:
        words = "{point} at {height}"
    what = phrase(words, point=room.name, reach=reach, height=height)
    return margin(
        name=name,
        demand=max(0.0, room.needed),
        capacity=room.given,
        unit="m",
        basis=phrase("{what}, and {kept}; {guys}", what=what, kept=kept, guys=guys),
        change="hang the beam higher or lower, hold the guys elsewhere on the support, or set "
        "the anchors further out",
    )


def _low_doubt(
    mounted: MountedBeam, sweep: Callable[[Shape], SweptPoints], findings: Findings
) -> None:
    """Doubt a beam whose parts hang down to where people are, though its boom does not."""
    swept = min(map(sweep, _HANGING), key=lambda each: float(each.height.min()))
    lowest = int(swept.height.argmin())
    if swept.height[lowest] < HEAD_ROOM <= mounted.beam.height:
        findings.doubt(
            "hangs-low",
            f"{swept.names[lowest]} hangs down to where people are, with its own weight and the "
            "ice entered.",
            value=span(float(swept.height[lowest])),
            limit=phrase("{head_room} (common practice)", head_room=span(HEAD_ROOM)),
        )


def check_clearance(
    *, beams: Sequence[BeamReport | None], site: SiteLoads, findings: Findings
) -> None:
    """Hold every beam against every ring of guys, as if it turned all round, and the ground."""
    inputs = site.inputs
    cases = [LoadCase(site=site)]
    if inputs.ice is not None and inputs.ice.thickness > 0.0:
        cases.append(LoadCase(site=site, iced=True))
    sweeps: dict[int, Callable[[Shape], SweptPoints]] = {}
    for number, (mounted, report) in enumerate(zip(inputs.beams, beams, strict=True)):
        if report is not None and (mounted.beam.elements or mounted.beam.wires):
            sweep = cache(partial(swept_points, mounted=mounted, report=report, site=site))
            sweeps[number] = sweep
            _low_doubt(mounted, sweep, findings)
    if not inputs.guying and (inputs.tower is None or inputs.tower.kind != "guyed"):
        return
    for number, (mounted, report) in enumerate(zip(inputs.beams, beams, strict=True)):
        name = f"{mounted.beam.name}: room to turn"
        trouble = _trouble(mounted, report, site)
        if trouble or report is None:
            findings.skip(name, trouble)
            continue
        rooms = [room for case in cases for room in _rooms(mounted, sweeps[number], case)]
        findings.add(_line(name, max(rooms, key=lambda room: room.use)))

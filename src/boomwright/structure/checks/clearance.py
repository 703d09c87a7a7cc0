"""Ledger lines for beams that turn between guys."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot, isfinite
from typing import Literal

from boomwright.base.quantity import phrase
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.elements import element_label, element_trouble
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.margins import Margin, margin
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.report import BeamReport
from boomwright.structure.support.clearance import (
    GUY_CLEARANCE,
    HEAD_ROOM,
    GuyRoom,
    SweptPoint,
    guy_room,
    guy_sag,
)
from boomwright.structure.wording import span, stretch

#: how a beam hangs: in still air, with ice on it, or straight, as a gust may lift its tips
Shape = Literal["bare", "iced", "straight"]
_HANGING: tuple[Shape, ...] = ("bare", "iced")


def _stands(mounted: MountedBeam, report: BeamReport) -> tuple[float, ...]:
    """Places on the beam's x axis where the mast may stand; both ends when nobody knows."""
    boom = mounted.boom
    known = report.clamp if boom is None or boom.clamp is None else boom.clamp
    if known is not None:
        return (known,)
    places = [x for element in mounted.beam.elements for x, _, _ in element.outline]
    places += [float(x) for wire in mounted.beam.wires for x in wire.points[:, 0]]
    places += [] if boom is None else [boom.rear_end, boom.rear_end + boom.length]
    return (min(places), max(places))


def _boom_sag(report: BeamReport, place: float, shape: Shape) -> float:
    course = report.iced_course if shape == "iced" else report.course
    if course is None or shape == "straight":
        return 0.0
    return max(0.0, float(course.sag[abs(course.place - place).argmin()]))


def _outline(
    mounted: MountedBeam, report: BeamReport, shape: Shape
) -> Iterator[tuple[str, float, float, float]]:
    """Give the points of a beam: part, place along the boom, across it, and above the clamp."""
    beam, boom = mounted.beam, mounted.boom
    courses = {each.index: each.course for each in report.elements}
    for index, element in enumerate(beam.elements):
        name, x = element_label(beam=beam, index=index), element.position
        if element.bent:
            yield from ((name, px, abs(py), pz) for px, py, pz in element.outline)
            continue
        low, course = _boom_sag(report, x, shape), courses.get(index)
        if course is None or shape == "straight":
            yield name, x, element.half_length, -low
            continue
        droop = course.iced_droop if shape == "iced" else course.dead_droop
        for y, down in zip(course.place, droop, strict=True):
            yield name, x, float(y), -low - float(down)
    for wire in beam.wires:
        for x, y, z in wire.points:
            yield wire.name, float(x), abs(float(y)), float(z)
    if boom is not None:
        for x in (boom.rear_end, boom.rear_end + boom.length):
            yield f"boom of {beam.name}", x, 0.0, -_boom_sag(report, x, shape)


def swept_points(
    *, mounted: MountedBeam, report: BeamReport, shape: Shape
) -> tuple[SweptPoint, ...]:
    """List what a beam sweeps as it turns: elements, wires, boom, its clamp and its tie's post."""
    beam, boom = mounted.beam, mounted.boom
    offset = 0.0 if boom is None else abs(boom.offset)
    points = [SweptPoint(name=f"clamp of {beam.name}", reach=0.0, height=beam.height)]
    if boom is not None and boom.tie is not None:
        top = beam.height + boom.tie.rise
        points.append(SweptPoint(name=f"tie of {beam.name}", reach=0.0, height=top))
    points += [
        SweptPoint(name=name, reach=hypot(x - stand, y + offset), height=beam.height + z)
        for stand in _stands(mounted, report)
        for name, x, y, z in _outline(mounted, report, shape)
    ]
    return tuple(points)


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
    for number, element in enumerate(beam.elements, start=1):
        trouble = "" if element.bent else element_trouble(element=element, material=beam.material)
        if trouble:
            return f"how far element {number} hangs down to the guys is not known ({trouble})"
    return ""


def _has_ice(site: SiteLoads) -> bool:
    return site.inputs.ice is not None and site.inputs.ice.thickness > 0.0


def _rooms(mounted: MountedBeam, report: BeamReport, case: LoadCase) -> list[GuyRoom]:
    shapes: tuple[Shape, ...] = ("iced",) if case.iced else ("bare", "straight")
    return [
        guy_room(
            level=level,
            boom_height=mounted.beam.height,
            points=swept_points(mounted=mounted, report=report, shape=shape),
            sag=guy_sag(level=level, weight_per_length=case.guy_weight(level=level)),
        )
        for level in case.site.inputs.guying
        for shape in shapes
    ]


def _line(name: str, room: GuyRoom) -> Margin:
    point, level = room.point, room.level
    kept = phrase(
        "{guy_clearance} kept free (common practice)", guy_clearance=stretch(GUY_CLEARANCE)
    )
    guys = phrase(
        "{level}, straight to their anchors at {anchor_radius}",
        level=level.name,
        anchor_radius=span(level.anchor_radius),
    )
    if room.below:
        what = phrase(
            "{point} sweeps {reach} out at {height}", point=point.name, reach=span(point.reach),
            height=span(point.height),
        )  # fmt: skip
        guys = phrase(
            "{guys}, with a sag of {sag} at their initial tension",
            guys=guys,
            sag=stretch(room.sag),
        )
    elif point.reach == 0.0:
        what = phrase("{point} at {height}", point=point.name, height=span(point.height))
    else:
        what = phrase(
            "{point} comes down to {height}, {reach} out", point=point.name,
            height=span(point.height), reach=span(point.reach),
        )  # fmt: skip
    return margin(
        name=name,
        demand=max(0.0, room.needed),
        capacity=room.given,
        unit="m",
        basis=phrase("{what}, and {kept}; {guys}", what=what, kept=kept, guys=guys),
        change="hang the beam higher or lower, hold the guys elsewhere on the support, or set "
        "the anchors further out",
    )


def _low_doubt(mounted: MountedBeam, report: BeamReport, findings: Findings) -> None:
    """Doubt a beam whose parts hang down to where people are, though its boom does not."""
    lowest = min(
        (
            point
            for shape in _HANGING
            for point in swept_points(mounted=mounted, report=report, shape=shape)
        ),
        key=lambda point: point.height,
    )
    if lowest.height < HEAD_ROOM <= mounted.beam.height:
        findings.doubt(
            "hangs-low",
            f"{lowest.name} hangs down to where people are, with its own weight and the ice "
            "entered.",
            value=span(lowest.height),
            limit=phrase("{head_room} (common practice)", head_room=span(HEAD_ROOM)),
        )


def check_clearance(
    *, beams: Sequence[BeamReport | None], site: SiteLoads, findings: Findings
) -> None:
    """Hold every beam against every ring of guys, as if it turned all round, and the ground.

    Args:
        beams: what was found of each beam of the inputs; None where its sizes make no beam
            (n_beams,)
    """
    inputs = site.inputs
    for mounted, report in zip(inputs.beams, beams, strict=True):
        if report is not None and (mounted.beam.elements or mounted.beam.wires):
            _low_doubt(mounted, report, findings)
    if not inputs.guying and (inputs.tower is None or inputs.tower.kind != "guyed"):
        return
    for mounted, report in zip(inputs.beams, beams, strict=True):
        name = f"{mounted.beam.name}: room to turn"
        trouble = _trouble(mounted, report, site)
        if trouble or report is None:
            findings.skip(name, trouble)
            continue
        rooms = [
            room
            for iced in ((False, True) if _has_ice(site) else (False,))
            for room in _rooms(mounted, report, LoadCase(site=site, iced=iced))
        ]
        findings.add(_line(name, max(rooms, key=lambda room: room.use)))

"""What mast, rotator, guys, anchors and footing must carry, bare and iced."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final

import numpy as np

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import PerSystem, Quantity, Value, listed, phrase
from boomwright.report.model import Table, column
from boomwright.report.structure.cases import LoadCases
from boomwright.structure import (
    BaseReport,
    BeamReport,
    GuyLevel,
    GuyReport,
    RotatorDemand,
    StructureReport,
    SupportCourse,
    Tower,
    braking_torque_by_time,
    leg_course,
)

#: time in which a turning beam is stopped, beside the rotator's own angle [s]
_STOP_TIME: Final = 0.5

#: what, its load, what the figure rests on
Row = tuple[Value, Value, Value]


def loads(report: StructureReport, *, cases: LoadCases) -> Table[Row]:
    """List what each part must carry."""
    return Table(
        name="loads",
        caption="What must be carried",
        columns=(
            column("what", lambda row: row[0]),
            column("load", lambda row: row[1]),
            column("basis", lambda row: cases.name_in(row[2])),
        ),
        note="The load cases have a list of their own.",
        items=tuple(_rows(report)),
        group="support",
        sentences=True,
    )


def _rows(report: StructureReport) -> Iterator[Row]:
    for beam in report.beams:
        yield from _beam(beam)
    if report.mast is not None:
        moment = Quantity(report.mast.moment, "turning load")
        yield "Mast, bending at the top bearing", moment, report.basis
    if report.rotator is not None:
        rate = None if report.inputs.rotator is None else report.inputs.rotator.turning_rate
        yield from _rotator(report.rotator, rate)
    cases: tuple[tuple[str, Any], ...] = (("", report), (", iced", report.iced))
    known = [(iced, found) for iced, found in cases if found is not None]
    for iced, found in known:
        if found.gusts is not None:
            factor = Quantity(found.gusts.factor, "factor")
            yield f"Support, gust factor{iced}", factor, found.gusts.text
    for iced, found in known:
        course = found.tower_course or (None if found.tube is None else found.tube.course)
        if course is not None:
            yield from _course(course, report.inputs.tower, iced)
        if found.guys is not None:
            yield from _guys(found.guys, report.inputs.guying, iced)
        if found.base is not None:
            yield from _base(found.base, iced)


def _mass(weight: float) -> Quantity:
    return Quantity(weight / STANDARD_GRAVITY, "mass")


def _beam(beam: BeamReport) -> Iterator[Row]:
    """Weight, wind, balance, torque and what cancels it."""
    name = beam.name
    if beam.weight is not None:
        weight: Value = _mass(beam.weight)
        if beam.iced_weight is not None:
            iced = _mass(beam.iced_weight)
            weight = phrase("{bare}, with ice {iced}", bare=weight, iced=iced)
        yield f"{name}, weight", weight, "elements, boom, fittings"
    if beam.force is not None:
        force = Quantity(beam.force, "load")
        yield f"{name}, wind force", force, "no load factor, worst direction"
    if beam.clamp is not None and beam.balance is not None:
        places = phrase("{:span}, clamp at {:span}", beam.balance, beam.clamp)
        yield (
            f"{name}, balance point",
            places,
            "along the boom from the plan's zero; the build sheets count from its rear end",
        )
    yield from _torque(beam)
    if beam.inertia is not None:
        yield f"{name}, moment of inertia", Quantity(beam.inertia, "inertia"), "about the mast"
    for which, arm in zip(("rear", "front"), beam.arms, strict=False):
        if arm.tie is not None:
            pull = phrase("{:load}, boom pressed with {:load}", arm.tie.pull, arm.tie.push)
            yield f"{name}, {which} tie", pull, "weights alone"


def _torque(beam: BeamReport) -> Iterator[Row]:
    for iced, torque in (("", beam.torque), (", iced", beam.iced_torque)):
        if torque is None:
            continue
        worst = phrase("{:turning load} at {:whole angle}", torque.worst, torque.worst_angle_deg)
        parts = listed(
            [
                phrase(what + " {part:turning load}", part=part)
                for what, part in (
                    ("boom", torque.boom),
                    ("offset", torque.offset),
                    ("uneven gust on elements", torque.gust_elements),
                    ("on the boom", torque.gust_boom),
                )
            ]
        )
        yield f"{beam.name}, wind torque{iced}", worst, parts
    if beam.torque is not None and beam.vane_drag_area is not None:
        area = Quantity(beam.vane_drag_area, "vane area")
        vane = phrase("a vane of {area} drag area at the end of the short arm", area=area)
        if beam.ballast is not None:
            words = "{}, or the clamp at mid boom with {:mass} at the end of the light arm"
            vane = phrase(words, vane, beam.ballast)
        yield f"{beam.name}, to cancel the boom's torque", vane, ""


def _rotator(demand: RotatorDemand, rate: float | None) -> Iterator[Row]:
    """Torque, inertia, stopping and weight."""
    yield (
        "Rotator, wind torque",
        Quantity(demand.survival_torque, "turning load"),
        "no load factor on the wind",
    )
    yield "Rotator, moment of inertia", Quantity(demand.inertia, "inertia"), ""
    yield "Rotator, weight on it", Quantity(demand.vertical_load, "load"), "without ice"
    if demand.stopping_torque is not None and rate is not None:
        soft = braking_torque_by_time(inertia=demand.inertia, rate=rate, time=_STOP_TIME)
        told = phrase(
            f"{{:turning load}} within its stop angle, {{:turning load}} within {_STOP_TIME:g} s",
            demand.stopping_torque,
            soft,
        )
        yield "Rotator, torque to stop", told, "no wind"
    if demand.side_force is not None:
        side = Quantity(demand.side_force, "load")
        yield "Rotator, side force", side, "no load factor on the wind, below the bearing"


def _course(course: SupportCourse, tower: Tower | None, iced: str) -> Iterator[Row]:
    """Moment, shear, compression and leg load where they are largest."""
    what = "Support tube" if tower is None else "Tower"
    legs = None if tower is None else leg_course(tower=tower, course=course)
    for name, values, kind in (
        ("bending moment", course.moment, "large moment"),
        ("shear", course.shear, "large force"),
        ("pressed down", course.compression, "large force"),
        ("in the most pressed leg", legs, "large force"),
    ):
        if values is not None:
            at = int(np.argmax(values))
            load = phrase(
                "{} at {:span}", Quantity(float(values[at]), kind), float(course.heights[at])
            )
            yield f"{what}, {name}{iced}", load, "worst wind direction"


def _guys(guys: GuyReport, levels: Sequence[GuyLevel], iced: str) -> Iterator[Row]:
    """Tensions and anchors."""
    for level, tension in zip(levels, guys.highest_tensions, strict=True):
        place = phrase("Guys at {height:span}" + iced, height=level.height)
        yield place, Quantity(tension, "large force"), "highest, every wind direction"
    for anchor in guys.anchors:
        pull = phrase("{:large force} up, {:large force} sideways", anchor.uplift, anchor.slide)
        place = phrase("Anchors at {radius:span}" + iced, radius=anchor.radius)
        yield place, pull, "worst wind direction"


def _base(base: BaseReport, iced: str) -> Iterator[Row]:
    """Reactions and concrete."""
    found = base.reactions
    yield f"Footing, moment{iced}", Quantity(found.moment, "large moment"), found.text
    yield f"Footing, sideways{iced}", Quantity(found.shear, "large force"), "the same"
    yield f"Footing, straight down{iced}", Quantity(found.axial, "large force"), "the same"
    if not iced:
        bags = phrase(
            "{volume:concrete}{bags}", volume=base.concrete.volume,
            bags=PerSystem(metric="", us=f", {base.concrete.bags} bags of 0.6 ft³ (80 lb)"),
        )  # fmt: skip
        yield "Concrete of the footing", bags, "without waste"

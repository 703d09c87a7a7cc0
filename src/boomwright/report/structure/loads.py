"""What must be carried, and the wind areas, as page and book both show them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import numpy as np

from boomwright.base import STANDARD_GRAVITY, UnitSystem, quantity_text
from boomwright.charts import ReadingTable, ShownTable
from boomwright.report.structure.texts import span_text
from boomwright.structure import (
    AreaConventions,
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
_STOP_TIME = 0.5

Row = tuple[str, str, str]


def load_table(report: StructureReport, *, system: UnitSystem) -> ShownTable:
    """List what mast, rotator, guys, anchors and footing must carry, bare and iced.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    write = _Writer(system)
    rows: list[Row] = []
    for beam in report.beams:
        rows += write.beam(beam)
    if report.mast is not None:
        moment = write.whole(report.mast.moment, unit="N m")
        rows.append(("Mast, bending at the top bearing", moment, report.basis))
    if report.rotator is not None:
        rate = None if report.inputs.rotator is None else report.inputs.rotator.turning_rate
        rows += write.rotator(report.rotator, rate)
    for iced, gusts in (
        ("", report.gusts),
        (", iced", None if report.iced is None else report.iced.gusts),
    ):
        if gusts is not None:
            rows.append((f"Support, gust factor{iced}", f"{gusts.factor:.2f}", gusts.text))
    levels = report.inputs.guying
    for iced, found in (("", report), (", iced", report.iced)):
        if found is None:
            continue
        tube = None if found.tube is None else found.tube.course
        course, guys, base = found.tower_course or tube, found.guys, found.base
        if course is not None:
            rows += write.course(course, report.inputs.tower, iced)
        if guys is not None:
            rows += write.guys(guys, levels, iced)
        if base is not None:
            rows += write.base(base, iced)
    return ShownTable(
        name="loads",
        caption="What must be carried",
        table=ReadingTable(header=("What", "Load", "From"), rows=tuple(rows)),
    )


def area_table(beam: BeamReport, *, system: UnitSystem) -> ShownTable:
    """Write the wind areas of a beam in the three conventions, by both rules.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    wind, iced = beam.wind, beam.iced_wind
    rows: list[tuple[str, AreaConventions]] = [
        ("Elements, wind along the boom", wind.elements),
        ("Boom, wind across it", wind.boom),
        (f"Square to the wind, worst at {wind.worst_angle_deg:.0f}°", wind.worst),
        (f"Older sum rule, worst at {wind.older_worst_angle_deg:.0f}°", wind.older_worst),
    ]
    if iced is not None:
        rows.append((f"With ice, worst at {iced.worst_angle_deg:.0f}°", iced.worst))
    write = partial(quantity_text, unit="m2", system=system, form=".2f")
    return ShownTable(
        name="areas",
        caption=f"{beam.name}: wind area in the three conventions of ratings",
        table=ReadingTable(
            header=("Area", "Projected", "Drag, 1.2 times", "Flat plate, 2/3"),
            rows=tuple(
                (name, write(area.projected), write(area.drag), write(area.flat))
                for name, area in rows
            ),
        ),
        note="A tower's or rotator's rating means one of the three: ask its maker which, and at "
        "what wind speed, exposure and edition.",
    )


def course_table(
    courses: Sequence[tuple[str, SupportCourse]], *, system: UnitSystem
) -> ReadingTable:
    """Write what a support carries at every height.

    Parameters
    ----------
    courses
        case, such as ``bare``, and what it carries then (n_cases,)
    system
        ``metric`` or ``us``
    """
    write = _Writer(system)
    return ReadingTable(
        header=("Case", "Height", "Moment", "Shear", "Pressed down"),
        rows=tuple(
            (
                name,
                span_text(float(height), system=system),
                write.fine(float(moment) / 1e3, unit="kN m"),
                write.fine(float(shear) / 1e3, unit="kN"),
                write.fine(float(down) / 1e3, unit="kN"),
            )
            for name, course in courses
            for height, moment, shear, down in zip(
                course.heights, course.moment, course.shear, course.compression, strict=True
            )
        ),
    )


class _Writer:
    """Writes loads in one unit system."""

    def __init__(self, system: UnitSystem) -> None:
        self.system: UnitSystem = system
        self.whole = partial(quantity_text, system=system, form=".0f")
        self.fine = partial(
            quantity_text, system=system, form=".2f" if system == "metric" else ".0f"
        )
        self.mass = partial(quantity_text, unit="kg", system=system, form=".1f")

    def beam(self, beam: BeamReport) -> list[Row]:
        """Weight, wind, balance, torque and what cancels it."""
        rows: list[Row] = []
        if beam.weight is not None:
            iced = ""
            if beam.iced_weight is not None:
                iced = f", with ice {self.mass(beam.iced_weight / STANDARD_GRAVITY)}"
            weight = f"{self.mass(beam.weight / STANDARD_GRAVITY)}{iced}"
            rows.append((f"{beam.name}, weight", weight, "elements, boom, fittings"))
        if beam.force is not None:
            force = self.whole(beam.force, unit="N")
            rows.append((f"{beam.name}, wind force", force, "no load factor, worst direction"))
        if beam.clamp is not None and beam.balance is not None:
            places = (
                f"{span_text(beam.balance, system=self.system)}, clamp at "
                f"{span_text(beam.clamp, system=self.system)}"
            )
            rows.append((f"{beam.name}, balance point", places, "along the boom"))
        rows += self._torque(beam)
        if beam.inertia is not None:
            inertia = self.whole(beam.inertia, unit="kg m2")
            rows.append((f"{beam.name}, moment of inertia", inertia, "about the mast"))
        for which, arm in zip(("rear", "front"), beam.arms, strict=False):
            if arm.tie is not None:
                push = self.whole(arm.tie.push, unit="N")
                pull = f"{self.whole(arm.tie.pull, unit='N')}, boom pressed with {push}"
                rows.append((f"{beam.name}, {which} tie", pull, "weights alone"))
        return rows

    def _torque(self, beam: BeamReport) -> list[Row]:
        rows: list[Row] = []
        torques = ((", iced", beam.iced_torque), ("", beam.torque))
        for name, torque in reversed(torques):
            if torque is None:
                continue
            worst = self.whole(torque.worst, unit="N m")
            parts = ", ".join(
                f"{what} {self.whole(part, unit='N m')}"
                for what, part in (
                    ("boom", torque.boom),
                    ("offset", torque.offset),
                    ("uneven gust on elements", torque.gust_elements),
                    ("on the boom", torque.gust_boom),
                )
            )
            told = f"{worst} at {torque.worst_angle_deg:.0f}°"
            rows.append((f"{beam.name}, wind torque{name}", told, parts))
        if beam.torque is not None and beam.vane_drag_area is not None:
            area = quantity_text(beam.vane_drag_area, unit="m2", system=self.system, form=".3f")
            vane = f"a vane of {area} drag area at the end of the short arm"
            if beam.ballast is not None:
                vane += (
                    f", or the clamp at mid boom with {self.mass(beam.ballast)} at the end of "
                    "the light arm"
                )
            rows.append((f"{beam.name}, to cancel the boom's torque", vane, ""))
        return rows

    def rotator(self, demand: RotatorDemand, rate: float | None) -> list[Row]:
        """Torque, inertia, stopping and weight."""
        rows: list[Row] = [
            ("Rotator, wind torque", self.whole(demand.survival_torque, unit="N m"),
             "no load factor on the wind"),
            ("Rotator, moment of inertia", self.whole(demand.inertia, unit="kg m2"), ""),
            ("Rotator, weight on it", self.whole(demand.vertical_load, unit="N"), "without ice"),
        ]  # fmt: skip
        if demand.stopping_torque is not None and rate is not None:
            soft = braking_torque_by_time(inertia=demand.inertia, rate=rate, time=_STOP_TIME)
            told = (
                f"{self.whole(demand.stopping_torque, unit='N m')} within its stop angle, "
                f"{self.whole(soft, unit='N m')} within {_STOP_TIME:g} s"
            )
            rows.append(("Rotator, torque to stop", told, "no wind"))
        if demand.side_force is not None:
            side = self.whole(demand.side_force, unit="N")
            rows.append(
                ("Rotator, side force", side, "no load factor on the wind, below the bearing")
            )
        return rows

    def course(self, course: SupportCourse, tower: Tower | None, iced: str) -> list[Row]:
        """Moment, shear, compression and leg load where they are largest."""
        what = "Support tube" if tower is None else "Tower"
        legs = None if tower is None else leg_course(tower=tower, course=course)
        parts = (
            ("bending moment", course.moment, "kN m"),
            ("shear", course.shear, "kN"),
            ("pressed down", course.compression, "kN"),
            ("in the most pressed leg", legs, "kN"),
        )
        rows: list[Row] = []
        for name, values, unit in parts:
            if values is not None:
                at = int(np.argmax(values))
                place = span_text(float(course.heights[at]), system=self.system)
                load = self.fine(float(values[at]) / 1e3, unit=unit)
                rows.append((f"{what}, {name}{iced}", f"{load} at {place}", "worst wind direction"))
        return rows

    def guys(self, guys: GuyReport, levels: Sequence[GuyLevel], iced: str) -> list[Row]:
        """Tensions and anchors."""
        rows: list[Row] = []
        for level, tension in zip(levels, guys.highest_tensions, strict=True):
            place = span_text(level.height, system=self.system)
            pull = self.fine(tension / 1e3, unit="kN")
            rows.append((f"Guys at {place}{iced}", pull, "highest, every wind direction"))
        for anchor in guys.anchors:
            place = span_text(anchor.radius, system=self.system)
            up = self.fine(anchor.uplift / 1e3, unit="kN")
            pull = f"{up} up, {self.fine(anchor.slide / 1e3, unit='kN')} sideways"
            rows.append((f"Anchors at {place}{iced}", pull, "worst wind direction"))
        return rows

    def base(self, base: BaseReport, iced: str) -> list[Row]:
        """Reactions and concrete."""
        loads = base.reactions
        rows: list[Row] = [
            (f"Footing, moment{iced}", self.fine(loads.moment / 1e3, unit="kN m"), loads.text),
            (f"Footing, sideways{iced}", self.fine(loads.shear / 1e3, unit="kN"), "the same"),
            (f"Footing, straight down{iced}", self.fine(loads.axial / 1e3, unit="kN"),
             "the same"),
        ]  # fmt: skip
        if not iced:
            volume = quantity_text(base.concrete.volume, unit="m3", system=self.system, form=".2f")
            bags = f"{volume}, {base.concrete.bags} bags of 0.6 ft3 (80 lb)"
            rows.append(("Concrete", bags, "without waste"))
        return rows

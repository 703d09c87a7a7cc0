"""What the raising room needs of a plan."""

from __future__ import annotations

from boomwright.base import STANDARD_GRAVITY
from boomwright.parts import Beam
from boomwright.permits import least_clearance
from boomwright.plan.model import Plan
from boomwright.plan.model_permits import PowerLinePlan
from boomwright.plan.model_work import GinPolePlan, RaisingPlan, TramPlan
from boomwright.plan.resolve.places import support_height
from boomwright.raising import (
    Crane,
    Crew,
    GinPole,
    HaulLine,
    LiftTruck,
    LineNear,
    Load,
    Raising,
    Tram,
)
from boomwright.structure.report import BeamReport


def raising_gaps(plan: Plan, beam: Beam, report: BeamReport | None) -> tuple[str, ...]:
    """Say what is missing before the raising of a beam can be planned.

    Parameters
    ----------
    report
        what the structure room found about it; None without

    Returns
    -------
    tuple of str
        missing inputs in words, none when all is there
    """
    gaps = []
    if plan.raising is None:
        gaps.append("the plan has no [raising] table: who is there, with what gear")
    if support_height(plan) is None:
        gaps.append("neither [support.tower] nor [support.tube] is given")
    if beam.height <= 0.0:
        gaps.append(f"{beam.name} has no height above ground")
    if report is None:
        gaps.append(f"the wind area of {beam.name} is not known")
    if _mass(plan, report) is None:
        gaps.append(f"the mass of {beam.name} is not known: give walls and boom, or weigh it")
    return tuple(gaps)


def _mass(plan: Plan, report: BeamReport | None) -> float | None:
    if plan.raising is not None and plan.raising.mass is not None:
        return plan.raising.mass
    if report is None or report.weight is None:
        return None
    return report.weight / STANDARD_GRAVITY


def raising_job(plan: Plan, beam: Beam, report: BeamReport | None) -> Raising | None:
    """Turn a plan into the raising job of one beam.

    Parameters
    ----------
    report
        what the structure room found about it; its weight counts where none was weighed

    Returns
    -------
    Raising or None
        the job; None when ``raising_gaps`` names something
    """
    job, height, mass = plan.raising, support_height(plan), _mass(plan, report)
    if raising_gaps(plan, beam, report) or job is None or report is None:
        return None
    if height is None or mass is None:
        return None
    boom = plan.boom_of(beam.name)
    balance = None if boom is None or report.balance is None else report.balance - boom.rear_end
    asked = plan.permits
    return Raising(
        load=Load(
            name=beam.name,
            mass=mass,
            drag_area=report.wind.worst.drag,
            element_span=max(element.length for element in beam.elements),
            boom_length=beam.boom_length if boom is None else boom.length,
            balance_place=balance,
        ),
        tower_height=height,
        lift_height=beam.height,
        crew=Crew(
            trained_climbers=job.trained_climbers,
            ground=job.ground_crew,
            rescue_plan=job.rescue_plan,
            trained_rigger=job.trained_rigger,
        ),
        lines_surveyed=asked is not None and asked.power_lines_surveyed,
        power_lines=() if asked is None else tuple(_line(line) for line in asked.power_line),
        guys_in_the_way=job.guys_in_the_way,
        level_access=job.level_access,
        tilt_over=job.tilt_over,
        tower_top_horizontal_rating=job.top_rating,
        forecast_gust=job.forecast_gust,
        haul_line=_haul_line(job),
        gin_pole=None if job.gin_pole is None else _gin_pole(job.gin_pole),
        tram=None if job.tram is None else _tram(job.tram),
        crane=_crane(job),
        lift_truck=_lift_truck(job),
    )


def _line(line: PowerLinePlan) -> LineNear:
    clearance = least_clearance(voltage=line.voltage)
    return LineNear(
        name=line.name,
        distance=line.distance,
        height=line.height,
        required_clearance=clearance.distance,
        basis=clearance.basis,
        voltage_known=line.voltage is not None,
    )


def _haul_line(job: RaisingPlan) -> HaulLine | None:
    rope = job.haul_line
    if rope is None:
        return None
    return HaulLine(
        breaking_strength=rope.breaking_strength,
        block_breaking_strength=rope.block_breaking_strength,
    )


def _gin_pole(pole: GinPolePlan) -> GinPole:
    angles = {"offset_angle": pole.offset_angle, "tag_slope": pole.tag_slope}
    return GinPole(
        overhang=pole.overhang,
        rated_load=pole.rated_load,
        maximum_overhang=pole.maximum_overhang,
        **{key: value for key, value in angles.items() if value is not None},
    )


def _tram(tram: TramPlan) -> Tram:
    return Tram(
        span=tram.span,
        sag=tram.sag,
        breaking_strength=tram.breaking_strength,
        line_weight=tram.line_mass * STANDARD_GRAVITY,
        back_guyed=tram.back_guyed,
    )


def _crane(job: RaisingPlan) -> Crane | None:
    crane = job.crane
    if crane is None:
        return None
    return Crane(radius=crane.radius, hook_height=crane.hook_height, capacity=crane.capacity)


def _lift_truck(job: RaisingPlan) -> LiftTruck | None:
    truck = job.lift_truck
    if truck is None:
        return None
    return LiftTruck(
        platform_height=truck.platform_height,
        outreach=truck.outreach,
        needed_outreach=truck.needed_outreach,
        platform_capacity=truck.platform_capacity,
    )

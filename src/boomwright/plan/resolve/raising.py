"""What the raising room needs of a plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import InPlan, Value, phrase, settled
from boomwright.parts import GROUND, MAST, RIGGING_MASS, Beam, centre_of
from boomwright.permits import PowerLine, least_clearance
from boomwright.plan.model import Plan
from boomwright.plan.model_permits import PermitsPlan
from boomwright.plan.model_work import RaisingPlan
from boomwright.plan.resolve.assembly import beam_rise, station_assembly, swing_radius
from boomwright.plan.resolve.places import support_height
from boomwright.plan.resolve.structure import structure_inputs
from boomwright.raising import (
    Crew,
    LineNear,
    Load,
    Part,
    Raising,
    SupportLift,
    Tilt,
    WeatherStops,
    wind_force,
)
from boomwright.raising.rigging import GUST_FACTOR
from boomwright.structure import StructureInputs, allowable_stress
from boomwright.structure.report import BeamReport

#: drag coefficient of a bare tube {asce-7-16}
_TUBE_DRAG = 1.2


def raising_gaps(plan: Plan, beam: Beam, report: BeamReport | None) -> tuple[Value, ...]:
    """Say what is missing before the raising of a beam can be planned; none when all is there.

    Args:
        report: what the structure room found about it; None without
    """
    gaps: list[Value] = []
    if plan.raising is None:
        gaps.append(settled("the plan does not say who is there, with what gear", "raising"))
    if support_height(plan) is None and not beam.hung:
        gaps.append(
            phrase(
                "neither a tower{tower} nor a tube{tube} is given",
                tower=InPlan("support.tower"),
                tube=InPlan("support.tube"),
            )
        )
    if _top(beam) <= 0.0:
        gaps.append(f"{beam.name} has no height above ground")
    if report is None:
        gaps.append(f"the wind area of {beam.name} is not known")
    if _mass(plan, beam, report, rigging=_rigging(beam)) is None:
        gaps.append(f"the mass of {beam.name} is not known: give walls and boom, or weigh it")
    return tuple(gaps)


def _rigging(beam: Beam) -> float:
    """Bridle, hook and shackles; ropes lift hung wire by its ends [kg]."""
    return 0.0 if beam.hung else RIGGING_MASS


def _top(beam: Beam) -> float:
    """Height that it is lifted to: its clamp, or the highest point of hung wire [m]."""
    if not beam.hung:
        return beam.height
    return beam.height + max(z for element in beam.elements for _, _, z in element.outline)


def _seen(beam: Beam) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Each wire of a beam from behind; upright ones from the side, where they stand in a row."""
    return tuple(
        tuple((x if beam.upright else y, beam.height + z) for x, y, z in element.outline)
        for element in beam.elements
    )


def _mass(plan: Plan, beam: Beam, report: BeamReport | None, *, rigging: float) -> float | None:
    """Mass to be lifted: as weighed, else every part of the beam and what hangs it on its hook.

    Args:
        rigging: bridle, hook and shackles; none for a beam that goes up with its support [kg]
    """
    if plan.raising is not None and plan.raising.mass is not None:
        return plan.raising.mass
    if report is None or report.weight is None:
        return None
    masses = [station_assembly(plan).mass(each.name) for each in (beam, *_mates(plan, beam))]
    known = [mass for mass in masses if mass is not None]
    return sum(known) + rigging if len(known) == len(masses) else None


def _mates(plan: Plan, beam: Beam) -> tuple[Beam, ...]:
    """Beams on the same boom or spreaders, which go up with it (n,)."""
    return tuple(
        other for other in plan.beams if other.name != beam.name and beam.shares_boom(other)
    )


def _balance(reports: Sequence[BeamReport]) -> float | None:
    """Balance point of beams on one boom, on its x axis; None while one is not known [m]."""
    known = [
        (each.weight, each.balance)
        for each in reports
        if each.weight is not None and each.balance is not None
    ]
    whole = sum(weight for weight, _ in known)
    if len(known) < len(reports) or whole <= 0.0:
        return None
    return sum(weight * place for weight, place in known) / whole


def _load(plan: Plan, beam: Beam, reports: Sequence[BeamReport], mass: float) -> Load:
    """What goes up: a beam with all that shares its boom or spreaders.

    Args:
        reports: what the structure room found about each (n,)
        mass: of all together [kg]
    """
    every = (beam, *_mates(plan, beam))
    boom, together = plan.boom_of(beam.name), _balance(reports)
    return Load(
        name=beam.name,
        mass=mass,
        heading=beam.heading,
        drag_area=sum(each.wind.worst.drag for each in reports),
        element_span=max(
            element.length if element.upright else 2.0 * element.reach
            for each in every
            for element in each.elements
        ),
        boom_length=beam.boom_length if boom is None else boom.length,
        reach=max(swing_radius(plan, each) for each in every),
        balance_place=None if boom is None or together is None else together - boom.rear_end,
        hung=beam.hung,
        upright=beam.upright,
        at_hub=beam.frame is not None and beam.frame.hub is not None,
        pull=0.0 if beam.frame is None else beam.frame.pull or 0.0,
        rise=0.0 if beam.hung else max(0.0, *(beam_rise(plan, each) for each in every)),
        seen=tuple(wire for each in every if each.bent for wire in _seen(each)),
    )


def raising_job(
    plan: Plan, beam: Beam, report: BeamReport | None, *, beside: Sequence[BeamReport] = ()
) -> Raising | None:
    """Turn a plan into the raising job of one beam, with all that shares its boom or spreaders.

    Args:
        beside: the same of those that go up with it (n,)

    Returns:
        the job; None when ``raising_gaps`` names something
    """
    job, mass = plan.raising, _mass(plan, beam, report, rigging=_rigging(beam))
    top = _top(beam)
    height = support_height(plan)
    stands = height is not None
    if not stands and beam.hung:
        height = top
    if raising_gaps(plan, beam, report) or job is None or report is None:
        return None
    if height is None or mass is None:
        return None
    every, asked = (beam, *_mates(plan, beam)), plan.permits or PermitsPlan()
    support, clear = plan.stand, job.guys_in_the_way
    mast, tube = support.mast, support.tube
    return Raising(
        load=_load(plan, beam, (report, *beside), mass),
        tower_height=height,
        stands=stands,
        lift_height=top,
        mast_top=0.0 if mast is None else mast.top,
        crew=Crew(
            trained_climbers=job.trained_climbers,
            ground=job.ground_crew,
            training=job.training,
            rescue_plan=job.rescue_plan,
            trained_rigger=job.trained_rigger,
        ),
        lines_surveyed=asked.power_lines_surveyed,
        power_lines=tuple(map(_line, asked.power_line)),
        guys=support.guy,
        clear_of_guys=None if clear is None else replace(clear, yes=not clear.yes),
        support_stands=job.support_stands,
        support_lift=_support_lift(plan, job),
        level_access=job.level_access,
        on_tube=tube is not None,
        climbable=job.climbable,
        foot_set=tube is not None and not tube.hinged,
        boundary=asked.boundary,
        walkway=asked.walkway,
        ground_beyond=job.ground_beyond,
        pulleys_up=job.pulleys_up,
        holds_sound=job.holds_sound,
        ropes_clear=job.ropes_clear,
        others=tuple((other.name, other.height) for other in plan.beams if other not in every),
        tower_top_horizontal_rating=job.top_rating,
        forecast_gust=job.forecast_gust,
        haul_line=job.haul_line,
        gin_pole=job.gin_pole,
        tram=job.tram,
        crane=job.crane,
        lift_truck=job.lift_truck,
        tilt=None if job.tilt is None else _tilt(plan, job.tilt, beam, report),
    )


#: what goes up with a pole on a hook: fitted while it lies, as nobody climbs it
_WITH_THE_POLE = ("pole", "guy ring", "guy", "guy grip", "bearing", "rotator", "shelf")


def _support_lift(plan: Plan, job: RaisingPlan) -> SupportLift | None:
    """A pole on the ground with all that is fitted before it is lifted."""
    support, tube = plan.stand, plan.stand.tube
    if tube is None or tube.brackets is not None:
        return None
    assembly, inputs = station_assembly(plan), structure_inputs(plan)
    fitted = (*assembly.of(GROUND, *_WITH_THE_POLE), *assembly.of(MAST, "mast"))
    (pole,) = (part for part in fitted if part.role == "pole")
    if pole.cut is None or inputs.tube is None:
        return None
    long, low = pole.cut.sawn, pole.cut.overlap
    # A guy hangs from its ring until it is made fast.
    rings = {f"guy {level}": guy.height for level, guy in enumerate(support.guy, start=1)}
    parts = tuple(
        Part(
            name=part.name,
            mass=part.mass or 0.0,
            at=low + rings.get(part.group.split(".")[0], centre_of(part)[2]),
            length=long if part is pole else 0.0,
        )
        for part in fitted
    )
    return SupportLift(
        parts=parts,
        length=long,
        top=low + max(tube.height, 0.0 if support.mast is None else support.mast.top),
        buried=max(low, 0.0),
        allowed_moment=_steel_moment(inputs),
        unknown=tuple(f"mass of the {part.name}" for part in fitted if part.mass is None),
        whole=tube.whole,
        crane=job.support_crane,
    )


def _line(line: PowerLine) -> LineNear:
    clearance = least_clearance(voltage=line.voltage)
    return LineNear(
        name=line.name,
        distance=line.distance,
        height=line.height,
        required_clearance=clearance.distance,
        basis=clearance.basis,
        voltage_known=line.voltage is not None,
    )


def _tilt(plan: Plan, tilt: Tilt, beam: Beam, report: BeamReport) -> Tilt:
    mass = _mass(plan, beam, report, rigging=0.0) or 0.0
    height = support_height(plan) or 0.0
    long = tilt.length or height
    # What stands above the support keeps its distance from the top when it is cranked in.
    load = Part(
        name=beam.name,
        mass=mass,
        at=max(0.0, report.centre - height + long),
        wind=_wind(report.wind.worst.drag),
    )
    inputs = structure_inputs(plan)
    parts, unknown = _support_parts(inputs, height=height, long=long)
    rings = [
        Part(name=part.name, mass=part.mass or 0.0, at=centre_of(part)[2])
        for part in station_assembly(plan).of(GROUND, "guy ring")
    ]
    named = {part.name for part in tilt.parts}
    unknown += [
        f"weight of {other.name}"
        for other in plan.beams
        if other is not beam and other.name not in named
    ]
    if inputs.rotator is not None and not tilt.parts:
        if inputs.rotator.mass is None or inputs.mast is None:
            unknown.append("weight of rotator and what carries it")
        else:
            at = max(0.0, inputs.mast.bearing_height - height + long)
            gear = inputs.gear_weight / STANDARD_GRAVITY - sum(ring.mass for ring in rings)
            parts.append(Part(name="rotator and what carries it", mass=gear, at=at))
    parts += () if tilt.parts else rings
    # The lower of what its maker allows and its steel.
    may_take = (tilt.allowed_moment, _steel_moment(inputs))
    return replace(
        tilt,
        parts=(*parts, *tilt.parts, load),
        unknown_parts=tuple(unknown),
        allowed_moment=min((each for each in may_take if each is not None), default=None),
    )


def _wind(drag_area: float) -> float:
    """Wind at the hoisting limit, gusts included, on what stands upright [N]."""
    return wind_force(
        drag_area=drag_area, wind_speed=WeatherStops().stop_hoist_at, factor=GUST_FACTOR
    )


def _support_parts(
    inputs: StructureInputs, *, height: float, long: float
) -> tuple[list[Part], list[str]]:
    """Weigh support and mast as parts of what turns; name what is not known of them.

    Args:
        height: height of the support [m]
        long: its length while it turns [m]
    """
    parts: list[Part] = []
    unknown: list[str] = []
    tower, tube, mast = inputs.tower, inputs.tube, inputs.mast
    if tube is not None:
        drag = _TUBE_DRAG * tube.diameter * tube.length
        parts.append(
            Part(
                name="support",
                mass=tube.weight / STANDARD_GRAVITY,
                at=0.5 * long,
                length=long,
                wind=_wind(drag),
            )
        )
    elif tower is not None and tower.mass is not None:
        if tower.drag_area_per_length is None:
            unknown.append("wind area of the support")
        drag = (tower.drag_area_per_length or 0.0) * long
        parts.append(
            Part(name="support", mass=tower.mass, at=0.5 * long, length=long, wind=_wind(drag))
        )
    else:
        unknown.append("weight of the support")
    if mast is not None:
        tall = mast.weight / mast.weight_per_length
        foot = mast.top_height - tall
        middle = max(0.5 * tall, foot + 0.5 * tall - height + long)
        parts.append(Part(name="mast", mass=mast.weight / STANDARD_GRAVITY, at=middle, length=tall))
    return parts, unknown


def _steel_moment(inputs: StructureInputs) -> float | None:
    """Bending moment that the steel of a pole may take; None while it does not tell [N m]."""
    tube = inputs.tube
    if tube is None or tube.yield_strength is None:
        return None
    limit = allowable_stress(yield_strength=tube.yield_strength, steel=tube.steel)
    return limit.value * tube.shape.modulus

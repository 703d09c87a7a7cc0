"""What the permits room needs of a plan."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.parts import Beam
from boomwright.permits import (
    EMISSION_DUTY,
    Airport,
    Installation,
    Jurisdiction,
    Neighbourhood,
    Runway,
    RunwayEnd,
    StructureHeights,
    average_power,
    transmit_share,
    with_entered_runways,
)
from boomwright.plan.model import Plan
from boomwright.plan.model_permits import PermitsPlan, RunwayPlan
from boomwright.plan.resolve.assembly import swing_radius
from boomwright.plan.resolve.places import antenna_top, structure_top, turned


def installation(
    plan: Plan,
    *,
    airports: tuple[Airport, ...] | None = None,
    lies_in: tuple[str, ...] | None = None,
    tables: str = "",
    jurisdictions: tuple[Jurisdiction, ...] = (),
) -> Installation:
    """Turn a plan into the inputs of the permits room.

    Args:
        airports: airfields and heliports around; None when nobody looked them up (n_airports,)
        lies_in: countries whose rules the position asks for; None when nobody looked (n_countries,)
        tables: how old the tables are in which they were looked up
    """
    asked = plan.permits or PermitsPlan()
    site = plan.site
    return Installation(
        heights=StructureHeights(
            structure_top=structure_top(plan),
            antenna_top=antenna_top(plan),
            lightning_rod_top=asked.lightning_rod,
            crane_top=asked.crane,
            raises_another_structure=asked.on_another_structure,
        ),
        around=Neighbourhood(
            swing_radius=max(swing_radius(plan, beam) for beam in plan.beams),
            boundary_distance=asked.boundary,
            walkway_distance=asked.walkway,
        ),
        country=asked.country,
        latitude=site.latitude,
        longitude=site.longitude,
        site_elevation=site.elevation,
        lies_in=lies_in,
        airports=None if airports is None else with_planned_runways(plan, airports),
        tables=tables,
        lines_surveyed=asked.lines_surveyed,
        power_lines=asked.power_line,
        local_limits=asked.local_limit,
        jurisdictions=jurisdictions,
    )


def _runways(planned: list[RunwayPlan]) -> tuple[Runway, ...]:
    ends = [
        [RunwayEnd(latitude=at[0], longitude=at[1], elevation=height) for at, height in each.ends]
        for each in planned
    ]
    return tuple(Runway(first=first, second=second) for first, second in ends)


def with_planned_runways(plan: Plan, airports: tuple[Airport, ...]) -> tuple[Airport, ...]:
    """Put the runways of the plan to their airfields; an airfield not listed is added.

    Args:
        airports: airports looked up (n_airports,)
    """
    runways: dict[str, list[RunwayPlan]] = {}
    for each in plan.permits.runway if plan.permits else ():
        runways.setdefault(each.airport.upper(), []).append(each)
    found = [
        with_entered_runways(airport, _runways(runways.pop(airport.code.upper(), [])))
        for airport in airports
    ]
    for code, own in runways.items():
        places = [end for runway in own for end in runway.ends]
        found.append(
            Airport(
                code=code,
                name=code,
                latitude=sum(at[0] for at, _ in places) / len(places),
                longitude=places[0][0][1],
                elevation=max(height for _, height in places),
                runways=_runways(own),
            )
        )
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposurePoint:
    """A place with people, seen from one beam."""

    place: str  #: owner's name for it
    group: str  #: ``general`` or ``occupational``
    #: x along the boom, y along the elements, both in the beam's axes, and height above ground [m]
    #: (3,)
    point: tuple[float, float, float]
    distance: float  #: horizontal distance from the mast [m]


def exposure_points(plan: Plan, beam: Beam, *, mast: float) -> tuple[ExposurePoint, ...]:
    """Put the places with people into a beam's axes.

    Args:
        mast: where the mast stands on the beam's x axis, from ``mast_place`` [m]

    Returns:
        places; without a bearing the beam is turned towards them (n_places,)
    """
    boom = plan.boom_of(beam.name)
    # The mast stands beside the boom axis by the offset; which side does not matter here.
    beside = 0.0 if boom is None else -(boom.offset or 0.0)
    found = []
    for each in plan.permits.exposure if plan.permits else ():
        bearing = beam.heading if each.bearing is None else each.bearing
        along, across = turned(bearing, beam.heading)
        found.append(
            ExposurePoint(
                place=each.place,
                group=each.group,
                point=(mast + each.distance * along, beside + each.distance * across, each.height),
                distance=each.distance,
            )
        )
    return tuple(found)


def average_transmitter_power(plan: Plan, *, averaging_time: float) -> float | None:
    """Power averaged over the window of a standard; what is not said counts in full.

    Args:
        averaging_time: window of the standard [s]

    Returns:
        mean power into the line, None when the plan gives no power [W]
    """
    sent = plan.transmitter
    if sent is None:
        return None
    share = 1.0
    if sent.transmit is not None and sent.listen is not None:
        share = transmit_share(
            transmit=sent.transmit, listen=sent.listen, averaging_time=averaging_time
        )
    duty = EMISSION_DUTY[sent.emission] if sent.emission else 1.0
    return average_power(peak_envelope_power=sent.power, emission_duty=duty, share=share)

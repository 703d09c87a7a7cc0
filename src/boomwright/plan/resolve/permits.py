"""What the permits room needs of a plan."""

from __future__ import annotations

from dataclasses import replace

from boomwright.permits import (
    EMISSION_DUTY,
    Airport,
    Installation,
    Jurisdiction,
    LocalLimits,
    Neighbourhood,
    Overhead,
    Runway,
    RunwayEnd,
    StructureHeights,
    average_power,
    transmit_share,
    with_entered_runways,
)
from boomwright.plan.model import Plan
from boomwright.plan.model_permits import PermitsPlan, RunwayPlan
from boomwright.plan.model_station import TransmitterPlan
from boomwright.plan.resolve.assembly import antenna_top, station_assembly, swing_radius
from boomwright.plan.resolve.places import structure_top


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
            overhead=_overhead(plan, asked),
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
        local_limits=(*asked.local_limit, *_of_place(plan, asked)),
        jurisdictions=jurisdictions,
    )


def _of_place(plan: Plan, asked: PermitsPlan) -> tuple[LocalLimits, ...]:
    """What the place allows, unless a limit with its source and date is as strict."""
    highest = None if plan.place is None else plan.place.highest
    limits = (each.maximum_height for each in asked.local_limit)
    if highest is None or any(limit is not None and limit <= highest for limit in limits):
        return ()
    return (
        LocalLimits(
            basis="highest part that the place allows",
            dated="no date given",
            maximum_height=highest,
        ),
    )


def _overhead(plan: Plan, asked: PermitsPlan) -> tuple[Overhead, ...]:
    """What of the beams turns over each roof, and over the public way."""
    if not asked.roof and asked.walkway is None:
        return ()
    station = station_assembly(plan)
    missing = next((each.missing for each in station.carriers if each.origin is None), "")
    places = [Overhead(kind="roof", name=roof.name, height=roof.height, lowest=None)
              for roof in asked.roof]  # fmt: skip
    distances = [roof.distance for roof in asked.roof]
    if asked.walkway is not None:
        places.append(Overhead(kind="public way", name="the public way", height=0.0, lowest=None))
        distances.append(asked.walkway)
    found = []
    for place, distance in zip(places, distances, strict=True):
        lowest = station.lowest_beyond(distance)
        if lowest is not None:
            height, part = lowest
            place = replace(place, lowest=height, part=f"{part.name} of {part.carrier}")
        found.append(replace(place, missing=missing))
    return tuple(found)


def _runways(planned: list[RunwayPlan]) -> tuple[Runway, ...]:
    ends = [
        [RunwayEnd(latitude=at[0], longitude=at[1], elevation=height) for at, height in each.ends]
        for each in planned
    ]
    return tuple(Runway(first=first, second=second) for first, second in ends)


def with_planned_runways(plan: Plan, airports: tuple[Airport, ...]) -> tuple[Airport, ...]:
    """Put the runways of the plan to their airfields; an airfield not listed is added."""
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
    duty, share = _shares(sent, averaging_time)
    return average_power(peak_envelope_power=sent.power, emission_duty=duty, share=share)


def average_power_told(plan: Plan, *, averaging_time: float) -> str:
    """Say how the peak envelope power becomes the average; empty when the plan gives no power.

    Args:
        averaging_time: window of the standard [s]
    """
    sent = plan.transmitter
    if sent is None:
        return ""
    duty, share = _shares(sent, averaging_time)
    mean = average_power(peak_envelope_power=sent.power, emission_duty=duty, share=share)
    peak, average = (f"{each:.{0 if each >= 10.0 else 1}f} W" for each in (sent.power, mean))
    return (
        f"{peak} peak envelope power, times {duty:g} for the emission, times {share:.2g} for the "
        f"time spent transmitting: {average} averaged over {averaging_time / 60.0:g} min"
    )


def _shares(sent: TransmitterPlan, averaging_time: float) -> tuple[float, float]:
    """Average over peak power while transmitting, and share of the window spent so [-] (2,)."""
    share = 1.0
    if sent.transmit is not None and sent.listen is not None:
        share = transmit_share(
            transmit=sent.transmit, listen=sent.listen, averaging_time=averaging_time
        )
    return EMISSION_DUTY[sent.emission] if sent.emission else 1.0, share

"""From the job to the lift plan: methods ranked, with everything the crew sheet needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from boomwright.base import Notice
from boomwright.raising.falls import FallFigures, fall_figures
from boomwright.raising.job import Raising
from boomwright.raising.machines import crane, lift_truck, tilt_over
from boomwright.raising.methods import gin_pole, hand_line, tram_line
from boomwright.raising.sheets import (
    EMERGENCY,
    HOLD_POINTS,
    SEQUENCE,
    SIGNALS,
    STOP_RULE,
    TRAINED_PEOPLE,
    CrewRole,
    HoldPoint,
    Signal,
    SwrExpectation,
    crew_roles,
)
from boomwright.raising.surroundings import (
    LineCheck,
    dropped_tool_radius,
    exclusion_radius,
    line_checks,
)
from boomwright.raising.weather import Answer, WeatherAnswer, WeatherStops, weather_answer
from boomwright.raising.weighing import MethodChoice
from boomwright.raising.wording import span

# Fewer people above ground first {common-practice-raising}.
_BY_PREFERENCE: Final = (tilt_over, lift_truck, crane, tram_line, gin_pole, hand_line)
_RANK: Final[dict[Answer, int]] = {"go": 0, "ask": 1, "no-go": 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftPlan:
    """Everything for the raising sheet.

    Parameters
    ----------
    job
        the job it belongs to
    trained_people
        who may do this at all
    verdict
        whether there is a method that fits, power lines counted
    methods
        all methods, best first (6,)
    power_lines
        power lines held against the whole job
    weather
        answer for the forecast
    stops
        weather limits of the day
    exclusion_radius
        ground kept empty around the foot [m]
    dropped_tool_radius
        ground nobody enters while people work above [m]
    falls
        figures for climbers
    crew
        roles for the best method
    signals
        hand signals with their words
    stop_rule
        who may stop
    hold_points
        points where work stops until somebody says on
    sequence
        order of the day
    emergency
        what is written down and ready
    swr_check
        what the SWR should do on stands; None when no sweep was computed
    notices
        cautions and limits
    """

    job: Raising
    trained_people: str
    verdict: Answer
    methods: tuple[MethodChoice, ...]
    power_lines: tuple[LineCheck, ...]
    weather: WeatherAnswer
    stops: WeatherStops
    exclusion_radius: float
    dropped_tool_radius: float
    falls: FallFigures
    crew: tuple[CrewRole, ...]
    signals: tuple[Signal, ...]
    stop_rule: str
    hold_points: tuple[HoldPoint, ...]
    sequence: tuple[str, ...]
    emergency: tuple[str, ...]
    swr_check: SwrExpectation | None
    notices: tuple[Notice, ...]


def rank_methods(job: Raising) -> tuple[MethodChoice, ...]:
    """Weigh all methods: go before ask before no-go, then fewer people above ground."""
    choices = [method(job) for method in _BY_PREFERENCE]
    return tuple(sorted(choices, key=lambda choice: _RANK[choice.verdict]))


def _notices(
    job: Raising, best: MethodChoice, lines: tuple[LineCheck, ...], weather: WeatherAnswer
) -> tuple[Notice, ...]:
    notices = [
        Notice(
            code="raising.trained-people",
            text=TRAINED_PEOPLE,
            severity="caution",
            source="common-practice-raising",
        )
    ]
    notices += [
        Notice(
            code="raising.power-line",
            text=f"{check.name}: {check.reason}.",
            severity="limit" if check.verdict == "no-go" else "caution",
            value=span(check.gap) if check.required > 0.0 else "",
            limit=span(check.required) if check.required > 0.0 else "",
            source="cfr-29-1926-1408",
        )
        for check in lines
        if check.verdict != "go"
    ]
    if best.verdict != "go":
        notices.append(
            Notice(
                code="raising.no-method",
                text=f"No method fits as entered; nearest is {best.name}: "
                + "; ".join(best.reasons)
                + ".",
                severity="limit" if best.verdict == "no-go" else "caution",
            )
        )
    if weather.hoist != "go":
        notices.append(
            Notice(code="raising.weather", text=f"Weather: {weather.reason}.", severity="caution")
        )
    if job.load.balance_place is None:
        notices.append(
            Notice(
                code="raising.balance-unknown",
                text="The balance point is not computed: find it by lifting the beam on one sling.",
                severity="doubt",
            )
        )
    return tuple(notices)


def plan_lift(job: Raising, *, swr_check: SwrExpectation | None = None) -> LiftPlan:
    """Make the lift plan.

    Parameters
    ----------
    swr_check
        what the SWR should do on stands; None when no sweep was computed

    Notes
    -----
    A power line that anything could reach makes the whole plan ``no-go`` whatever the method;
    nobody having looked for lines makes it ``ask`` at best. The forecast is shown beside the
    verdict, not in it: it changes by the hour.
    """
    methods, lines = rank_methods(job), line_checks(job)
    best = methods[0]
    stops = WeatherStops()
    weather = weather_answer(gust=job.forecast_gust, stops=stops)
    answers: list[Answer] = [best.verdict, *(check.verdict for check in lines)]
    climbers, ground = best.people
    return LiftPlan(
        job=job,
        trained_people=TRAINED_PEOPLE,
        verdict=max(answers, key=lambda answer: _RANK[answer]),
        methods=methods,
        power_lines=lines,
        weather=weather,
        stops=stops,
        exclusion_radius=exclusion_radius(job),
        dropped_tool_radius=dropped_tool_radius(job),
        falls=fall_figures(people_on_anchor=1),
        crew=crew_roles(climbers=climbers, ground=max(ground, job.crew.ground)),
        signals=SIGNALS,
        stop_rule=STOP_RULE,
        hold_points=HOLD_POINTS,
        sequence=SEQUENCE,
        emergency=EMERGENCY,
        swr_check=swr_check,
        notices=_notices(job, best, lines, weather),
    )

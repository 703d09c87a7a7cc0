"""From the job to the lift plan: methods ranked, with everything the crew sheet needs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from boomwright.base import Finding, Notice, VerdictWord
from boomwright.base.quantity import Phrase, Quantity, Value, listed, phrase
from boomwright.base.records import dataclass, replace
from boomwright.raising.answers import POWER_LINES, Answered
from boomwright.raising.by_hand import by_hand
from boomwright.raising.day import (
    TakingDown,
    crew_roles,
    emergency,
    hold_points,
    sequence,
    signals,
    taking_down,
)
from boomwright.raising.falls import FallFigures, fall_figures
from boomwright.raising.job import Raising
from boomwright.raising.machines import crane, lift_truck
from boomwright.raising.methods import gin_pole, hand_line, tram_line
from boomwright.raising.sheets import (
    STOP_RULE,
    TRAINED_PEOPLE,
    CrewRole,
    HoldPoint,
    Signal,
    SwrExpectation,
)
from boomwright.raising.support_lift import SupportRaising, raise_support
from boomwright.raising.surroundings import (
    GUYS,
    GroundCheck,
    LineCheck,
    ground_checks,
    line_checks,
)
from boomwright.raising.tilting import tilt_over
from boomwright.raising.way import LoadWay, dropped_tool_radius, exclusion_radius, load_way
from boomwright.raising.weather import Answer, WeatherAnswer, WeatherStops, weather_answer
from boomwright.raising.weighing import MethodChoice
from boomwright.raising.wording import span

# Fewer people above ground first {common-practice-raising}.
_BY_PREFERENCE: Final = (tilt_over, lift_truck, crane, tram_line, gin_pole, hand_line)
# Nobody takes a crane for a few kilograms of wire.
_FOR_WIRE: Final = (by_hand, tilt_over, lift_truck, hand_line)
#: of many open checks of what holds the beam up, so many are named
_NAMED: Final = 3
_RANK: Final[dict[Answer, int]] = {"go": 0, "ask": 1, "no-go": 2}
_WORDS: Final[dict[Answer, VerdictWord]] = {"go": "within", "ask": "ask", "no-go": "exceeded"}
#: what turns a no-go, by the code of its notice
_CHANGES: Final = {
    "raising.weather": "wait for a calmer day",
    "raising.power-line": "have the line switched off or moved by its owner before any work",
    "raising.ground": "keep more ground empty, or take another way up",
    "raising.support": "take a machine that its chart lets raise the support",
    "raising.no-method": "bring what the way up lacks, or take another one",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftPlan:
    """Everything for the raising sheet."""

    job: Raising  #: the job it belongs to
    trained_people: str  #: who may do this at all
    #: whether it can go as entered: method, power lines, ground, weather, and what carries it
    verdict: Answer
    reasons: tuple[Value, ...]  #: why it is not a go, the deciding ones first; empty for a go
    methods: tuple[MethodChoice, ...]  #: all methods that suit it, best first (n_methods,)
    power_lines: tuple[LineCheck, ...]  #: power lines held against the whole job
    #: ground kept empty, held against boundary, ways, guys and anchors
    ground: tuple[GroundCheck, ...]
    #: checks of what holds the beam up that are exceeded or were not made
    carried: tuple[Finding, ...]
    answers: tuple[Answered, ...]  #: questions that the best method and the ground hang on
    weather: WeatherAnswer  #: answer for the forecast
    stops: WeatherStops  #: weather limits of the day, those of the machine included
    support: SupportRaising  #: how the support itself gets up
    way: LoadWay  #: where the load goes up by the best method
    exclusion_radius: float  #: ground kept empty around foot and way of the load [m]
    dropped_tool_radius: float  #: ground nobody enters while people work above [m]
    falls: FallFigures | None  #: figures for climbers; None when nobody climbs
    crew: tuple[CrewRole, ...]  #: roles for the best method
    signals: tuple[Signal, ...]  #: hand signals with their words
    stop_rule: str  #: who may stop
    hold_points: tuple[HoldPoint, ...]  #: points where work stops until somebody says on
    sequence: tuple[str, ...]  #: order of the day
    emergency: tuple[str, ...]  #: what is written down and ready
    taking_down: TakingDown  #: the day on which it comes down
    #: what the SWR should do on stands; None when no sweep was computed
    swr_check: SwrExpectation | None
    findings: tuple[Finding, ...]  #: what counts in the verdict of the plan
    notices: tuple[Notice, ...]  #: cautions and limits

    def answer(self, method: MethodChoice) -> Answer:
        """Answer for a way up: none goes while what carries it, or the day, does not."""
        return self.verdict if method.verdict == "go" else method.verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class _Point:
    """One thing that decides the lift."""

    name: str  #: what it is
    code: str  #: code of its notice
    verdict: Answer  #: ``go``, ``no-go`` or ``ask``
    reason: Value  #: why
    use: float | None = None  #: demand over limit; None when there is none [-]
    value: Value = ""  #: demand, or empty
    limit: Value = ""  #: limit, or empty
    source: str = ""  #: key in the register of sources, or empty

    def finding(self, beam: str) -> Finding:
        """What counts of it in the verdict of the plan."""
        word = _WORDS[self.verdict]
        return Finding(
            subject="raising",
            name=f"{beam}: {self.name}",
            verdict=word,
            use=self.use,
            change=_CHANGES[self.code] if word == "exceeded" else "",
            reason="" if word == "within" else self.reason,
        )

    @property
    def notice(self) -> Notice:
        """The same as a notice."""
        return Notice(
            code=self.code,
            text=phrase(
                "{name}: {reason}.",
                name=self.name[:1].upper() + self.name[1:],
                reason=self.reason,
            ),
            severity="limit" if self.verdict == "no-go" else "caution",
            value=self.value,
            limit=self.limit,
            source=self.source,
        )


def rank_methods(job: Raising) -> tuple[MethodChoice, ...]:
    """Weigh all methods: go before ask before no-go, gear that is there, fewer people up."""
    choices = [method(job) for method in (_FOR_WIRE if job.load.hung else _BY_PREFERENCE)]
    return tuple(sorted(choices, key=lambda choice: (_RANK[choice.verdict], not choice.planned)))


def _use(demand: float, limit: float | None) -> float | None:
    """Demand over limit; None without a limit [-]."""
    return demand / limit if limit else None


def _line_point(check: LineCheck) -> _Point:
    looked = check.required > 0.0
    return _Point(
        name="power lines" if not looked else f"power line, {check.name}",
        code="raising.power-line",
        verdict=check.verdict,
        reason=check.reason,
        use=_use(check.required, check.gap) if looked else None,
        value=span(check.gap) if looked else "",
        limit=span(check.required) if looked else "",
        source="cfr-29-1926-1408",
    )


def _support_point(support: SupportRaising) -> _Point:
    return _Point(
        name="raising the support",
        code="raising.support",
        verdict=support.verdict,
        reason=listed(support.reasons, between="; "),
    )


def _weather_point(
    job: Raising, best: MethodChoice, weather: WeatherAnswer, stops: WeatherStops
) -> _Point:
    answers = [weather.hoist, weather.climb] if best.people[0] else [weather.hoist]
    gust = job.forecast_gust
    return _Point(
        name="forecast for the lift",
        code="raising.weather",
        verdict=max(answers, key=lambda answer: _RANK[answer]),
        reason=weather.reason,
        use=None if gust is None else _use(gust, stops.begin_hoist_below),
        source="common-practice-raising",
    )


def _carried_points(carried: tuple[Finding, ...]) -> tuple[_Point, ...]:
    """Say what of the structure stands against the lift, for verdict and notices alone.

    Its findings count in the verdict of the plan by themselves.
    """
    exceeded = [finding for finding in carried if finding.verdict == "exceeded"]
    open_ = [finding for finding in carried if finding.verdict != "exceeded"]
    groups: tuple[tuple[Answer, str, list[Finding]], ...] = (
        ("no-go", "past its limit", exceeded),
        ("ask", "not checked", open_),
    )
    return tuple(
        _Point(
            name=f"what holds the beam up is {words}",
            code="raising.structure",
            verdict=verdict,
            reason=listed(_names(group, whole=verdict == "no-go"), between="; "),
        )
        for verdict, words, group in groups
        if group
    )


def _names(group: Sequence[Finding], *, whole: bool) -> list[Value]:
    """Name checks: what is past its limit each, of many open ones the first few."""
    shown = group if whole or len(group) <= _NAMED + 1 else group[:_NAMED]
    names = [_told(finding) for finding in shown]
    left = len(group) - len(shown)
    return [*names, f"{left} more that the structure names"] if left else names


def _told(finding: Finding) -> Value:
    name = finding.name
    if isinstance(name, str):
        # The names stand behind a colon of their own.
        name = name.replace(": ", " ")
    if finding.use is None:
        return name
    return phrase("{name}, {use}", name=name, use=Quantity(finding.use, "use"))


def _points(
    job: Raising,
    best: MethodChoice,
    lines: tuple[LineCheck, ...],
    ground: tuple[GroundCheck, ...],
    weather: _Point,
) -> tuple[_Point, ...]:
    """Everything of the raising itself that decides, in the order of the sheet."""
    method: Phrase = listed(best.deciding, between="; ")
    if best.verdict == "no-go":
        method = phrase(
            "no method fits as entered; nearest is {best}: {method}", best=best.name, method=method
        )
    return (
        _Point(
            name=f"lift by {best.name}",
            code="raising.no-method",
            verdict=best.verdict,
            reason=method,
        ),
        *(_line_point(check) for check in lines),
        *(
            _Point(
                name=f"ground kept empty, {check.name}",
                code="raising.ground",
                verdict=check.verdict,
                reason=check.reason,
                # Anchors may stand in it; a boundary may not.
                use=None if check.name == GUYS else _use(check.reach, check.distance),
                source="common-practice-raising",
            )
            for check in ground
        ),
        weather,
    )


def _notices(job: Raising, points: tuple[_Point, ...]) -> tuple[Notice, ...]:
    notices = [
        Notice(
            code="raising.trained-people",
            text=TRAINED_PEOPLE,
            severity="caution",
            source="common-practice-raising",
        )
    ]
    notices += [point.notice for point in points if point.verdict != "go"]
    if job.load.balance_place is None and not (job.load.hung or job.load.at_hub):
        notices.append(
            Notice(
                code="raising.balance-unknown",
                text="The balance point is not computed: find it by lifting the beam on one sling.",
                severity="doubt",
            )
        )
    return tuple(notices)


def _stops(best: MethodChoice) -> WeatherStops:
    """Limits of the day: a machine's own, when lower, goes first."""
    usual, own = WeatherStops(), best.wind_limit
    if own is None:
        return usual
    return replace(
        usual,
        begin_hoist_below=min(usual.begin_hoist_below, own),
        stop_hoist_at=min(usual.stop_hoist_at, own),
    )


def plan_lift(
    job: Raising, *, carried: Iterable[Finding] = (), swr_check: SwrExpectation | None = None
) -> LiftPlan:
    """Make the lift plan.

    Args:
        carried: checks of what holds the beam up that are exceeded (no-go) or were not made (ask)
        swr_check: what the SWR should do on stands; None when no sweep was computed

    Notes:
        The plan is as bad as the worst of its parts: the best method, every power line, the ground,
        the forecast, and what carries the beam. A power line that anything could reach makes it
        ``no-go`` whatever the method.
    """
    held = tuple(carried)
    methods, lines = rank_methods(job), line_checks(job)
    best = methods[0]
    way, support = load_way(best.way, job), raise_support(job)
    ground = ground_checks(job, way)
    stops = _stops(best)
    weather = weather_answer(gust=job.forecast_gust, stops=stops)
    points = (
        _support_point(support),
        *_points(job, best, lines, ground, _weather_point(job, best, weather, stops)),
    )
    deciding = sorted(
        (*_carried_points(held), *points), key=lambda point: _RANK[point.verdict], reverse=True
    )
    answers = (
        Answered(question=POWER_LINES, said=job.lines_surveyed),
        *support.answers,
        *best.answers,
        *(answer for check in ground for answer in check.answers),
    )
    return LiftPlan(
        job=job,
        trained_people=TRAINED_PEOPLE,
        verdict=deciding[0].verdict,
        reasons=tuple(
            phrase("{point}: {reason}", point=point.name, reason=point.reason)
            for point in deciding
            if point.verdict != "go"
        ),
        methods=methods,
        power_lines=lines,
        ground=ground,
        carried=held,
        answers=tuple(dict.fromkeys(answers)),
        weather=weather,
        stops=stops,
        support=support,
        way=way,
        exclusion_radius=exclusion_radius(job, way),
        dropped_tool_radius=dropped_tool_radius(job, way),
        falls=fall_figures(people_on_anchor=1) if best.people[0] else None,
        crew=crew_roles(best, job),
        signals=signals(best.way),
        stop_rule=STOP_RULE,
        hold_points=hold_points(best, job),
        sequence=sequence(best, job),
        emergency=emergency(best),
        taking_down=taking_down(best, job),
        swr_check=swr_check,
        findings=tuple(point.finding(job.load.name) for point in points),
        notices=_notices(job, (*_carried_points(held), *points)),
    )

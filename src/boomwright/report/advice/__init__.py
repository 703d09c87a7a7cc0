"""What there is to say of which station suits a place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from boomwright.base.quantity import PerReader, Quantity, Value, listed, phrase, write
from boomwright.report.advice.picture import advice_picture
from boomwright.report.advice.words import (
    DIPOLE,
    MARKS,
    at_height,
    cost_of,
    element_of,
    kinds_of,
    metre_of,
    people_of,
    reasons,
    stops_of,
    target_words,
)
from boomwright.report.model import Column, Fact, Report, Table, cells, column, fact
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.judged import Candidate
from boomwright.study.advice.ranking import Pick

#: most lines without a price that a next step names
_NAMED = 3

#: number of a candidate, from 0, and the candidate
Row = tuple[int, Candidate]


def advice_report(advice: Advice) -> Report:
    """Say which stations were tried, what each gives, and which are put forward."""
    picture = advice_picture(advice)
    return Report(
        subject="advise",
        title=f"Which station: {', '.join(advice.bands)}",
        answer=(
            fact("Put forward", put_forward_words(advice)),
            *(_picked(advice, pick) for pick in advice.picks),
            _wanted(advice),
        ),
        next=tuple(_steps(advice)),
        pictures=() if picture is None else (picture,),
        tables=(_stations(advice), questions_table(advice), *_unmade(advice)),
        brief=(unbeaten_table(advice), questions_table(advice, most=2)),
    )


def put_forward_words(advice: Advice) -> str:
    """How many stations are put forward of how many, and how far they are checked."""
    count, tried = len(advice.picks), len(advice.candidates)
    if not count:
        if tried == 1:
            return "none: the one station tried breaks a limit or a check"
        return f"none of {tried} stations; every station breaks a limit or a check"
    checked = sum(pick.checked for pick in advice.picks)
    how = {0: "none of them checked throughout", count: "checked throughout"}
    said = how.get(checked, f"{checked} of them checked throughout")
    return f"{count} of {tried} stations, {said}"


def _picked(advice: Advice, pick: Pick) -> Fact:
    one = advice.candidates[pick.number]
    words = "no. {}, {}: {:advantage} against {}, {}."
    told = phrase(words, pick.number + 1, at_height(one), one.served.mean_db, DIPOLE, cost_of(one))
    return fact(kinds_of(pick), listed([told, *reasons(advice, pick)], between=" "))


def _wanted(advice: Advice) -> Fact:
    wanted: Value = listed([target_words(each) for each in advice.wanted])
    if all(each.terrain is None for each in advice.wanted):
        wanted = phrase("{wanted}; flat ground assumed", wanted=wanted)
    return fact("Wanted", wanted)


def _steps(advice: Advice) -> Iterator[Value]:
    if not advice.picks:
        yield phrase(
            "ease a limit or a wish: the table says what stops each station{full}",
            full=PerReader(file=" (--full)", forms=""),
        )
        return
    if all(each.cost is None for each in advice.candidates):
        yield PerReader(
            file="costs cannot be compared yet: write the price list with --blank prices.csv, "
            "fill it in, name it as list in [prices]",
            forms="costs cannot be compared yet: give a price list with the form, and ask again",
        )
    elif missing := _missing(advice):
        yield phrase(
            "still without a price: {missing}. {say}",
            missing=missing,
            say=PerReader(
                file="Say how much in [prices] or its list",
                forms="Give it in the price list, and ask again",
            ),
        )
    yield "show it to whoever pays and helps: --proposal proposal.pdf"
    yield "write the plan of the one you choose: --choose NUMBER --out plan.toml"


def _missing(advice: Advice) -> str:
    """What has no price yet of those put forward, the first of it by name; empty where nothing."""
    picked = [advice.candidates[pick.number] for pick in advice.picks]
    names = [*dict.fromkeys(name for one in picked for name in one.unpriced)]
    left = len(names) - _NAMED
    return ", ".join([*names[:_NAMED], *([f"{left} more"] if left > 0 else [])])


def _rows(advice: Advice) -> list[Row]:
    """Candidates with their numbers, strongest first."""
    return sorted(enumerate(advice.candidates), key=lambda row: -row[1].served.mean_db)


def _columns(advice: Advice) -> tuple[Column[Row], ...]:
    def beside(told: Callable[[Advice, int], Value]) -> Callable[[Row], Value]:
        return lambda row: told(advice, row[0])

    return (
        column("no.", lambda row: row[0] + 1),
        column("station", lambda row: row[1].name),
        column("height", lambda row: row[1].station.height, kind="height"),
        column("mean", lambda row: row[1].served.mean_db, kind="advantage"),
        column("worst", lambda row: row[1].served.worst_db, kind="advantage"),
        column("over dipole", lambda row: row[1].served.s_units, kind="s units", full=True),
        column("over best cheaper", beside(_over_cheaper), kind="s units", full=True),
        column("sure of that", beside(_sure), full=True),
        column("cost", lambda row: cost_of(row[1])),
        column("a step higher", beside(metre_of), full=True),
        column("an element more", beside(element_of), full=True),
        column("hours of work", lambda row: _hours(row[1]), full=True),
        column("people", lambda row: people_of(row[1]), full=True),
        column("closest to its limit", lambda row: stops_of(row[1]), full=True),
        column("verdict", lambda row: MARKS[row[1].verdict.word]),
    )


def _over_cheaper(advice: Advice, number: int) -> Any:
    cheaper = advice.compared[number].cheaper
    return None if cheaper is None else cheaper.s_units


def _sure(advice: Advice, number: int) -> Value:
    """How sure it is that a station gives more than the best cheaper one."""
    sure = advice.sure(number)
    return "" if sure is None else Quantity(sure, "share")


def _hours(one: Candidate) -> Value:
    return "" if one.hours is None else round(one.hours)


def stations_table(advice: Advice, *, name: str, caption: str, rows: list[Row]) -> Table[Row]:
    """Tell stations column by column."""
    return Table(
        name=name,
        caption=caption,
        columns=_columns(advice),
        items=rows,
        basis=phrase(
            "Mean over {what} that reach them, and the worst of them, after the line's loss, "
            "against {dipole}.{estimates}",
            estimates=_estimates(advice),
            what="bands, targets and the angles" if len(advice.bands) > 1 else "targets and angles",
            dipole=DIPOLE,
        ),
    )


def _estimates(advice: Advice) -> Value:
    """How far off those are that were not computed in full; empty where all were."""
    if advice.estimate_error_db is None:
        return ""
    words = " Weaker stations are estimated without guys and feed, to within {:ratio}."
    return phrase(words, max(advice.estimate_error_db, 0.1))


def unbeaten_table(advice: Advice) -> Table[Row]:
    """Those put forward first, then the others that no other beats.

    Where costs are not known in full none is known to be beaten, and its caption says so.
    """
    rows = _rows(advice)
    picked = {pick.number for pick in advice.picks}
    front = set(advice.front) - picked
    first = [row for row in rows if row[0] in picked] + [row for row in rows if row[0] in front]
    compare = all(row[1].priced_in_full for row in first)
    caption = "Stations that no other beats" if compare else "Stations that nothing stops"
    return stations_table(advice, name="unbeaten", caption=caption, rows=first)


def _stations(advice: Advice) -> Table[Row]:
    caption = "Every station tried, strongest first"
    return stations_table(advice, name="stations", caption=caption, rows=_rows(advice))


#: who is asked, and what is asked with the stations put forward that it is about
Asked = tuple[str, Value]


def questions_table(advice: Advice, *, most: int | None = None) -> Table[Asked]:
    """What must be asked of whom before one of those put forward is built.

    Args:
        most: most questions to name of each; None for all
    """
    return Table(
        name="questions",
        caption="To be asked or settled",
        columns=cells("of whom", "what"),
        items=[(whom, _asked(advice, names, most)) for whom, names in _questions(advice).items()],
        sentences=True,
    )


def _questions(advice: Advice) -> dict[str, dict[str, tuple[Value, set[int]]]]:
    """Whom to ask, and by its words what to ask with the numbers of the stations it is about."""
    asked: dict[str, dict[str, tuple[Value, set[int]]]] = {}
    for pick in reversed(advice.picks):
        for each in advice.candidates[pick.number].questions:
            name = each.finding.name
            of_whom = asked.setdefault(each.whom, {})
            of_whom.setdefault(write(name, system="metric"), (name, set()))[1].add(pick.number)
    return asked


def _asked(advice: Advice, names: dict[str, tuple[Value, set[int]]], most: int | None) -> Value:
    """What is asked, by the stations that it is about unless it is about all of them."""
    groups: dict[tuple[int, ...], list[Value]] = {}
    for name, numbers in [*names.values()][:most]:
        groups.setdefault(tuple(sorted(numbers)), []).append(name)
    told = [
        _of_stations(numbers, listed(group, between="; "), every=len(advice.picks))
        for numbers, group in groups.items()
    ]
    left = 0 if most is None else len(names) - most
    return listed([*told, *([f"{left} more (--full)"] if left > 0 else [])], between=". ")


def _of_stations(numbers: tuple[int, ...], what: Value, *, every: int) -> Value:
    if len(numbers) == every:
        return what
    which = " and ".join(str(number + 1) for number in numbers)
    return phrase("no. {which}: {what}", which=which, what=what)


def _unmade(advice: Advice) -> tuple[Table[tuple[str, Value]], ...]:
    rows = {
        (each.station.antennas, write(each.reason, system="metric")): each.reason
        for each in advice.unmade
    }
    if not rows:
        return ()
    return (
        Table(
            name="unmade",
            caption="Not put together",
            columns=cells("antenna", "why"),
            items=[(name, reason) for (name, _), reason in rows.items()],
            sentences=True,
        ),
    )

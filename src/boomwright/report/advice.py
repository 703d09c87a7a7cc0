"""What there is to say of which station suits a place."""

from __future__ import annotations

import math
from typing import Final

from boomwright.base import VerdictWord
from boomwright.base.quantity import Quantity, Value, listed, phrase, write
from boomwright.cost import in_currency
from boomwright.report.model import Fact, Report, Table, column
from boomwright.study.advice.advise import DIPOLE_HEIGHT, Advice
from boomwright.study.advice.judged import Candidate
from boomwright.study.advice.ranking import Pick, PickKind
from boomwright.study.advice.served import Wanted

_KINDS: Final[dict[PickKind, str]] = {
    "cheapest that serves": "Cheapest that serves",
    "knee": "Most for its money",
    "best that is allowed": "Best that is allowed",
    "strongest, checks open": "Strongest, with checks open",
}
#: marks of the verdicts, apart without colour
_MARKS: Final[dict[VerdictWord, str]] = {
    "exceeded": "✗ exceeded",
    "not checked": "? not checked",
    "ask": "! ask",
    "within": "✓ within",
}


def advice_report(advice: Advice) -> Report:
    """Say which stations were tried, what each gives, and which are put forward."""
    return Report(
        subject="advise",
        title=f"Which station: {', '.join(advice.bands)}",
        answer=(*(_picked(advice, pick) for pick in advice.picks), _wanted(advice)),
        next=_steps(advice),
        tables=(_stations(advice), _questions(advice), *_unmade(advice)),
        brief=(_put_forward(advice), _questions(advice)),
    )


def _at(candidate: Candidate) -> Value:
    return phrase(
        "{name} at {height}",
        name=candidate.name,
        height=Quantity(candidate.station.height, "height"),
    )


def _picked(advice: Advice, pick: Pick) -> Fact:
    one = advice.candidates[pick.number]
    words: list[Value] = [
        _at(one),
        phrase(
            "{over} against a flat dipole at {height}",
            over=Quantity(one.served.mean_db, "advantage"),
            height=Quantity(DIPOLE_HEIGHT, "whole length"),
        ),
    ]
    if one.cost is not None:
        words.append(_cost(one))
    cheaper = advice.compared[pick.number].cheaper
    if cheaper is not None:
        more = Quantity(cheaper.gain_db, "advantage")
        other = _at(advice.candidates[cheaper.number])
        words.append(phrase("{more} over {other}", more=more, other=other))
    if not pick.checked:
        count = one.verdict.counts["not checked"]
        words.append(f"{count} check{'' if count == 1 else 's'} open")
    label = listed([_KINDS[kind] for kind in pick.kinds], between=", ")
    return Fact(label=label, value=listed(words))


def _cost(one: Candidate) -> Value:
    made = None if one.costing is None else one.costing.estimate
    if made is None or one.cost is None:
        return "not priced"
    sum_ = in_currency(one.cost, made.currency)
    return sum_ if one.priced_in_full else phrase("at least {sum}", sum=sum_)


def _people(one: Candidate) -> Value:
    """Who the way up needs, those who climb apart."""
    if one.people is None:
        return "not known"
    climbers, ground = one.people
    return f"{climbers} up, {ground} below" if climbers else ground


def _wanted(advice: Advice) -> Fact:
    names: list[Value] = [_target(each) for each in advice.wanted]
    return Fact(label="Wanted", value=listed(names))


def _target(wanted: Wanted) -> Value:
    low, high = (
        Quantity(math.degrees(edge), "whole angle")
        for edge in (min(wanted.elevation), max(wanted.elevation))
    )
    name = wanted.name or "any direction"
    return phrase("{name}, {low} to {high} up", name=name, low=low, high=high)


def _steps(advice: Advice) -> tuple[Value, ...]:
    if not advice.picks:
        return ("every station breaks a limit or a check: the table says which (--full)",)
    steps: list[Value] = []
    if not any(each.priced_in_full for each in advice.candidates):
        steps.append(
            "costs cannot be compared yet: write the price list with --blank prices.csv, fill it "
            "in, name it as list in [prices]"
        )
    return (*steps, "write the plan of the one you choose: --choose NUMBER --out plan.toml")


_Row = tuple[int, Candidate]


def _rows(advice: Advice) -> list[_Row]:
    """Candidates with their numbers, strongest first."""
    return sorted(enumerate(advice.candidates, 1), key=lambda row: -row[1].served.mean_db)


def _table(advice: Advice, name: str, caption: str, rows: list[_Row]) -> Table[_Row]:
    return Table(
        name=name,
        caption=caption,
        columns=(
            column("no.", lambda row: row[0]),
            column("station", lambda row: row[1].name),
            column("height", lambda row: row[1].station.height, kind="height"),
            column("mean", lambda row: row[1].served.mean_db, kind="advantage"),
            column("worst target", lambda row: row[1].served.worst_db, kind="advantage"),
            column("cost", lambda row: _cost(row[1])),
            column("people", lambda row: _people(row[1]), full=True),
            column("verdict", lambda row: _MARKS[row[1].verdict.word]),
        ),
        items=rows,
        basis=phrase(
            "Mean over bands, targets and the angles that reach them, after the line's loss; worst "
            "target on the worst band; both against a flat dipole at {height}.",
            height=Quantity(DIPOLE_HEIGHT, "whole length"),
        ),
    )


def _put_forward(advice: Advice) -> Table[_Row]:
    rows = _rows(advice)
    picked = {pick.number + 1 for pick in advice.picks}
    front = {number + 1 for number in advice.front} - picked
    first = [row for row in rows if row[0] in picked] + [row for row in rows if row[0] in front]
    return _table(advice, "unbeaten", "Stations that no other beats", first)


def _stations(advice: Advice) -> Table[_Row]:
    return _table(advice, "stations", "Every station tried, strongest first", _rows(advice))


def _questions(advice: Advice) -> Table[tuple[int, Value, Value]]:
    rows: list[tuple[int, Value, Value]] = [
        (pick.number + 1, each.finding.name, each.finding.change or each.finding.reason)
        for pick in reversed(advice.picks)
        for each in advice.candidates[pick.number].questions
    ]
    return Table(
        name="questions",
        caption="To be asked or settled",
        columns=(
            column("no.", lambda row: row[0]),
            column("check", lambda row: row[1]),
            column("settled by", lambda row: row[2]),
        ),
        items=rows,
        sentences=True,
    )


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
            columns=(column("antenna", lambda row: row[0]), column("why", lambda row: row[1])),
            items=[(name, reason) for (name, _), reason in rows.items()],
            sentences=True,
        ),
    )

"""What there is to say of a change before it is taken."""

from __future__ import annotations

from collections.abc import Callable

from boomwright.base import counts_text
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.report.beam.measured import measured_words
from boomwright.report.model import Report, Table, column
from boomwright.study.feed_parts.results import AsMeasured
from boomwright.study.weighing import Weighed, WeighedPlan

#: values named one by one; more are counted
_MOST_NAMED = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    name: str
    before: Value
    after: Value


def weighed_report(weighed: Weighed) -> Report:
    """Say what the owner will measure before and after a change, and what it touches."""
    more = len(weighed.changes) - _MOST_NAMED
    return Report(
        subject="change",
        title="Before and after",
        tables=(
            Table(
                name="measured",
                caption="What you will measure, and the verdict",
                columns=(
                    column("figure", lambda row: row.name),
                    column("now", lambda row: row.before),
                    column("with the change", lambda row: row.after),
                ),
                items=_rows(weighed),
                note=phrase("As measured: {words}.", words=measured_words(weighed.after.measured)),
            ),
            Table(
                name="changes",
                caption="What changes in the plan: to be cut or set anew",
                columns=(
                    column("what", lambda each: each.name),
                    column("now", lambda each: each.before or "not given"),
                    column("then", lambda each: each.after or "taken out"),
                ),
                items=weighed.changes[:_MOST_NAMED],
                note=f"{more} more values change." if more > 0 else None,
            ),
        ),
    )


def _rows(weighed: Weighed) -> list[_Row]:
    def both(name: str, get: Callable[[AsMeasured], Value]) -> _Row:
        def side(of: WeighedPlan) -> Value:
            return get(of.measured) if isinstance(of.measured, AsMeasured) else "not computed"

        return _Row(name=name, before=side(weighed.before), after=side(weighed.after))

    counts = [counts_text(side.verdict) for side in (weighed.before, weighed.after)]
    return [
        both("SWR as measured, worst in the band", lambda m: Quantity(m.swr_worst[0], "swr")),
        both(
            "Front-to-rear, worst in the band",
            lambda m: Quantity(m.front_to_rear_worst[0], "ratio"),
        ),
        both("Modelled gain, over ground", lambda m: Quantity(m.gain_dbi, "gain")),
        both("Take-off angle", _angle),
        _Row(name="Verdict of the plan", before=counts[0], after=counts[1]),
    ]


def _angle(measured: AsMeasured) -> Value:
    if measured.take_off_deg is None:
        return "none (free space)"
    return Quantity(measured.take_off_deg, "angle")

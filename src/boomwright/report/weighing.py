"""What there is to say of a change before it is taken."""

from __future__ import annotations

from boomwright.base import counts_text
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.report.beam.measured import measured_words
from boomwright.report.model import Report, Table, cells, column
from boomwright.study.feed_parts.results import AsMeasured
from boomwright.study.weighing import Weighed, WeighedPlan

#: values named one by one; more are counted
_MOST_NAMED = 40


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
                columns=cells("figure", "now", "with the change"),
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


def _rows(weighed: Weighed) -> list[tuple[Value, ...]]:
    names = (
        "SWR as measured, worst in the band",
        "Front-to-rear, worst in the band",
        "Modelled gain, over ground",
        "Take-off angle",
        "Verdict of the plan",
    )
    return list(zip(names, _figures(weighed.before), _figures(weighed.after), strict=True))


def _figures(side: WeighedPlan) -> tuple[Value, ...]:
    told, verdict = side.measured, counts_text(side.verdict)
    if not isinstance(told, AsMeasured):
        return (*["not computed"] * 4, verdict)
    lobe = told.take_off_deg
    return (
        Quantity(told.swr_worst[0], "swr"),
        Quantity(told.front_to_rear_worst[0], "ratio"),
        Quantity(told.gain_dbi, "gain"),
        "none (free space)" if lobe is None else Quantity(lobe, "angle"),
        verdict,
    )

"""A match before and after it is adopted."""

from __future__ import annotations

from typing import Any

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.report.beam.measured import measured_words
from boomwright.report.model import Fact, Report, Table, cells, fact
from boomwright.study.adopting import Adoption
from boomwright.study.feed_parts.results import SEEN, AsMeasured, NotMeasured


def adoption_report(made: Adoption) -> Report:
    """Say what adopting a match changes."""
    return Report(
        subject="feed",
        title=f"Match of {made.after.beam.name}: before and after",
        answer=_worse(made.before, made.after),
        tables=(comparison_table(made.before, made.after),),
    )


def _worse(before: AsMeasured | NotMeasured, after: AsMeasured | NotMeasured) -> tuple[Fact, ...]:
    """Say it when the match is better at the design frequency only."""
    if isinstance(before, NotMeasured) or isinstance(after, NotMeasured):
        return ()
    if after.swr_worst[0] <= before.swr_worst[0] + SEEN:
        return ()
    words = "the worst SWR in the band rises from {:swr} to {:swr}"
    value = phrase(words, before.swr_worst[0], after.swr_worst[0])
    return (fact("Consider", value),)


def comparison_table(
    before: AsMeasured | NotMeasured, after: AsMeasured | NotMeasured
) -> Table[Any]:
    """Hold what will be measured with a match against what is measured without it."""
    pairs = zip(_figures(before), _figures(after), strict=True)
    return Table(
        name="comparison",
        group="match",
        caption="Before and after adopting the match, as measured",
        columns=cells("figure", "before", "after"),
        items=[(*was, then) for was, (_, then) in pairs],
        note=phrase("As measured: {words}.", words=measured_words(after)),
    )


def _figures(measured: AsMeasured | NotMeasured) -> tuple[tuple[str, Value], ...]:
    names = ("SWR, worst in band", "SWR at design", "Front-to-rear, worst in band", "Modelled gain")
    figures: tuple[Value, ...] = ("not computed",) * len(names)
    beam = measured.beam
    if isinstance(measured, AsMeasured):
        beam = measured.match.beam
        figures = (
            Quantity(measured.swr_worst[0], "swr"),
            Quantity(measured.swr_design, "swr"),
            Quantity(measured.front_to_rear_worst[0], "ratio"),
            Quantity(measured.gain_dbi, "gain"),
        )
    length = Quantity(beam.elements[beam.driven_index].length, "sawn length")
    return (*zip(names, figures, strict=True), ("Driven element, tip to tip", length))

"""A search over several bands at once on one boom."""

from __future__ import annotations

from boomwright.base.quantity import Quantity, phrase
from boomwright.plan.resolve import boom_order
from boomwright.report.beam.measured import measured_line, measured_words
from boomwright.report.improve.search import worst_columns
from boomwright.report.model import Fact, Report, Table, column, fact
from boomwright.study.several_bands import BandsResult


def bands_report(result: BandsResult) -> Report:
    """Say what the array does in each band before and after, and where its elements stand."""
    order = boom_order(result.before)
    fed = {order[use.driven]: use for use in result.uses}
    bands = [
        {
            "band": phrase("{:frequency} to {:frequency}", use.band[0], use.band[1]),
            "name": name,
            "worst": figures.worst,
        }
        for use, both in zip(result.uses, result.figures, strict=True)
        for name, figures in zip(("before", "after"), both, strict=True)
    ]
    match = _match_words(result)
    elements = list(zip(result.before.elements, result.after.elements, strict=True))
    return Report(
        subject="improve",
        title=f"Size and spacing of {result.before.name}",
        answer=_answer(result),
        tables=(
            Table(
                name="searched",
                caption="Worst in each band before and after the search, free space, by the full "
                "solver",
                columns=(
                    column("band", lambda item: item["band"]),
                    column("", lambda item: item["name"]),
                    *worst_columns(lambda item: item["worst"], match=match),
                ),
                items=bands,
            ),
            Table(
                name="moved",
                caption="Places and lengths",
                columns=(
                    column("element", lambda i: i + 1),
                    column(
                        "fed at",
                        lambda i: (
                            Quantity(fed[i].design_frequency, "frequency") if i in fed else ""
                        ),
                    ),
                    column("along the boom", lambda i: elements[i][1].position, kind="sawn length"),
                    column("tip to tip", lambda i: elements[i][1].length, kind="sawn length"),
                    column("was", lambda i: elements[i][0].length, kind="sawn length"),
                ),
                items=range(len(elements)),
            ),
        ),
    )


def _match_words(result: BandsResult) -> str:
    """Where the standing wave ratio of the table holds."""
    placed = [use.fed is not None for use in result.uses]
    if any(placed):
        return " as measured" if all(placed) else " as measured; fed straight, after an ideal match"
    matched = result.plan.wish is not None and result.plan.wish.matched
    return " after an ideal match" if matched else " at the bare feed"


def _answer(result: BandsResult) -> tuple[Fact, ...]:
    searched = f"{len(result.uses)} bands at once, {result.starts} starts a round"
    measured = [
        fact(
            phrase(f"At {{frequency:frequency}}, {name}", frequency=use.design_frequency),
            measured_line(seen),
        )
        for use, both in zip(result.uses, result.measured, strict=True)
        for name, seen in zip(("before", "after"), both, strict=True)
    ]
    return (
        *measured,
        fact("Search", f"{searched}, seed {result.seed}"),
        fact("As measured", measured_words(result.measured[0][1])),
    )

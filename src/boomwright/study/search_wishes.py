"""What surrounds the wishes of a search: prices read for them, defaults said, limits checked."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from boomwright.base import Notice
from boomwright.base.files import ReadFile
from boomwright.cost import DEFAULT_STOCK, Price, beam_bill, estimate
from boomwright.parts import Beam, element_parts
from boomwright.plan import Plan
from boomwright.plan.format import SIXTEENTH, in_sixteenths, sixteenths_suffice
from boomwright.plan.model_work import PricesPlan
from boomwright.plan.read import parse_toml
from boomwright.plan.resolve import beam_frame, usual_wishes
from boomwright.study.cost import day_without_clock, listed_prices
from boomwright.study.requests import RequestError


def wish_prices(plan: Plan, *, files: ReadFile) -> tuple[Price, ...]:
    """Read the owner's price list when his wishes limit the cost; none when no limit needs them.

    Raises:
        RequestError: when the cost is limited and there is no list
        PlanError: with every fault of the list
        FileRefusedError: when it is no file that may be read
        OSError: when it cannot be read
    """
    if plan.wish is None or plan.wish.cost is None:
        return ()
    found = listed_prices(plan, files=files)
    if found is None:
        listed = plan.prices.price_list if plan.prices is not None else ""
        raise RequestError(
            f"wish.cost limits the cost, but no price list is at hand ({listed or 'none named'})",
            remedy="name one beside the plan as list in [prices], or take the cost out of [wish]",
        )
    return found.prices


def usual_notices(plan: Plan) -> tuple[Notice, ...]:
    """Say what was taken as usual because the plan's wishes do not speak of it."""
    phrases = usual_wishes(plan)
    if not phrases:
        return ()
    begin = "The plan has no wishes" if plan.wish is None else "Not said among the wishes"
    return (
        Notice(
            code="design.usual-wishes",
            text=f"{begin}, so taken as usual: {'; '.join(phrases)}.",
            how="Write under [wish] what you want otherwise.",
            source="common-practice-usual-wishes",
        ),
    )


def cost_notices(plan: Plan, beam: Beam, *, prices: tuple[Price, ...]) -> tuple[Notice, ...]:
    """Hold the tubes of a found beam, bought in whole lengths, against the limit on their cost.

    The search counts them by the metre at the cheapest length; what is left over when whole
    lengths are bought comes on top.

    Returns:
        none when no cost is limited
    """
    if plan.wish is None or plan.wish.cost is None:
        return ()
    paid = plan.prices or PricesPlan(currency="")
    cut: dict[str, Any] = {} if paid.kerf is None else {"kerf": paid.kerf}
    bill = beam_bill(
        element_parts(beam_frame(plan, beam)), stock_lengths=paid.stock or DEFAULT_STOCK, **cut
    )
    tubes = replace(bill, lines=tuple(line for line in bill.lines if line.group == "Tube"))
    day = day_without_clock(plan, prices=prices)
    made = estimate(tubes, prices=prices, currency=paid.currency, today=day, contingency=0.0)
    likely, most = made.priced.likely, plan.wish.cost
    over = likely > most
    return (
        Notice(
            code="design.tube-cost",
            text="Bought in whole lengths, offcuts included, the element tubes "
            + ("cost more than wished: the search counts them by the metre. Lower the limit by "
               "the difference, or buy the offcuts' worth in shorter lengths."
               if over else "cost no more than wished."),
            severity="limit" if over else "note",
            value=f"{likely:.2f} {paid.currency}",
            limit=f"{most:.2f} {paid.currency}",
        ),
    )  # fmt: skip


def written_grid(text: str, plan: Plan, beam: Beam) -> float | None:
    """Step that lengths of a beam's elements are written to in its owner's plan [m].

    Returns:
        the step; None where any step of the shop's can be written [m]
    """
    if not sixteenths_suffice(beam.wavelength):
        return None
    entries = parse_toml(text)["beam"][plan.beams.index(beam)]["element"]
    tips = [entry["half"][-1][1] for entry in entries if "half" in entry]
    others = [entry.get(key) for entry in entries for key in ("at", "length")]
    written = [value for value in (*tips, *others) if isinstance(value, str)]
    return SIXTEENTH if any(in_sixteenths(value) for value in written) else None

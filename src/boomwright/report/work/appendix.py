"""How each figure of the work sheets was computed, with its numbers put in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from boomwright.base.quantity import PerSystem, Quantity, Value, cited, phrase
from boomwright.charts.blocks import Heading, Words
from boomwright.cost import Bill, Estimate, in_currency
from boomwright.report.build.dimensions import CutLength
from boomwright.report.build.shop import ShopTube
from boomwright.report.model import Part, Table, cells
from boomwright.report.wording import clean
from boomwright.report.work.build import Build

Row = tuple[Value, Value, Value]
_PRACTICE: Final = "common practice"


def _reasons(name: str, rows: Sequence[Row]) -> Table[Row]:
    return Table(
        name=name, caption="", columns=cells("figure", "computed as", "source"), items=rows
    )


def build_appendix(build: Build) -> tuple[Part, ...]:
    """Show how the shop figures of one beam were computed."""
    rows: list[Row] = [
        (f"{tube.marks[0]}, saw to", *_cut_reason(element.half_gap, tube))
        for element in build.elements
        for tube in element.tubes
    ]
    marks = ", ".join(mark for plate in build.plates for mark in plate.marks)
    if marks:
        words = (
            "across each tube: tube, with its shells where it is insulated, + thread, halves "
            "rounded to {}; along each tube: beyond the other tube's bolts by 2.5 threads; edge "
            "two hole diameters"
        )
        step = PerSystem(metric="0.5 mm", us="0.02 in")
        rows.append((f"Holes of {marks}", phrase(words, step), _PRACTICE))
    return (
        Heading(text=f"Build sheets of {clean(build.beam.name)}"),
        Words(
            text="A place is rounded as one distance, from the boom centre line or from the rear "
            "end of the boom, to whole millimetres and on its own to sixteenths of an inch; all "
            "lengths are sums and differences of such distances. So they add up, and no mark is "
            "more than half a unit from the computed place. A station on the boom is its place in "
            "the plan less the rear end of the boom. An overlap is the plan's least, or three "
            "diameters of the inner tube where that is more."
        ),
        _reasons("build-reasons", rows),
    )


def _cut_reason(half_gap: CutLength, tube: ShopTube) -> tuple[Value, Value]:
    reaches, cut = tube.reaches.bare, tube.cut.told
    if tube.overlap.millimetres:
        return phrase(
            "shows {} + overlap {} = {}", tube.exposed.bare, tube.overlap.bare, cut
        ), _PRACTICE
    if half_gap.millimetres:
        said = "ends at {reaches} less half the gap {gap} = {cut}"
        return phrase(said, reaches=reaches, gap=half_gap.bare, cut=cut), "plan"
    if len(tube.marks) == 1:
        return phrase("through the boom, twice {reaches} = {cut}", reaches=reaches, cut=cut), "plan"
    said = "from the boom centre line, {reaches} = {cut}; joined by a sleeve"
    return phrase(said, reaches=reaches, cut=cut), "plan"


def cost_appendix(bill: Bill, estimate: Estimate | None) -> tuple[Part, ...]:
    """Show how the sums of the estimate were computed; the bill says what drives a quantity."""
    rows: list[Row] = [
        (
            order.kind.told,
            phrase(
                "pieces: {}, {:bought length}; bought {:bought length}; least {:bought length}",
                len(order.pieces),
                order.packing.needed,
                order.packing.bought,
                order.packing.lower_bound,
            ),
            cited("Gilmore and Gomory 1961", "gilmore-gomory-1961"),
        )
        for order in bill.tubes
    ]
    if estimate is not None:
        amounts = {
            "priced": estimate.priced.likely,
            "added": estimate.contingency,
            "low": estimate.total.low,
            "high": estimate.total.high,
        }
        money: dict[str, Value] = {
            name: Quantity(amount, "money") for name, amount in amounts.items()
        }
        money["likely"] = in_currency(estimate.total.likely, estimate.currency)
        rows += [
            (
                "Likely estimate",
                phrase("sum of likely amounts {priced} + contingency {added} = {likely}", **money),
                "common practice",
            ),
            (
                "Low and high",
                phrase(
                    "likely less, and plus, the root of the sum of squares of each line's distance "
                    "to its low and high: {low} and {high}",
                    **money,
                ),
                "common practice",
            ),
        ]
    return (
        Heading(text="Quantities and cost"),
        Words(
            text="Least: no cutting plan needs less (linear relaxation, then whole-number search)."
        ),
        _reasons("cost-reasons", rows),
    )

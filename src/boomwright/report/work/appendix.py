"""How each figure of the work sheets was computed, with its numbers put in."""

from __future__ import annotations

from boomwright.charts.blocks import Block, Grid, Heading, Words
from boomwright.cost import Bill, Estimate
from boomwright.parts import Joints
from boomwright.report.build.dimensions import CutLength
from boomwright.report.build.shop import ShopRules, ShopTube
from boomwright.report.wording import clean, first_upper
from boomwright.report.work.build import Build

Row = tuple[str, str, str]


def _grid(rows: list[Row]) -> Grid:
    return Grid(
        columns=("Figure", "Computed as", "Source"),
        rows=tuple(rows),
        align="lll",
        shares=(2.2, 5.4, 1.6),
    )


def build_appendix(build: Build, *, rules: ShopRules) -> tuple[Block, ...]:
    """Show how the shop figures of one beam were computed."""
    joints = rules.joints
    rows: list[Row] = [
        (f"{tube.marks[0]}, saw to", *_cut_reason(element.half_gap, tube, joints))
        for element in build.elements
        for tube in element.tubes
    ]
    rows += [
        (
            f"Boom, {clean(station.name)}",
            f"place in the plan less the rear end of the boom, rounded once: "
            f"{station.tape.metric_text}, {station.tape.sixteenths_text} in",
            "plan",
        )
        for station in build.boom.stations
    ]
    rows += [
        (
            first_upper(plate.name),
            f"holes across each tube: tube + thread, {plate.level_diameter:g} + "
            f"{plate.level_bolt:g} and {plate.upright_diameter:g} + {plate.upright_bolt:g} mm, "
            "halves rounded to 0.5 mm; holes along each tube: beyond the other tube's bolts by "
            "2.5 threads; edge two hole diameters",
            "common practice",
        )
        for plate in build.plates
    ]
    return (
        Heading(text=f"Build sheets of {clean(build.beam.name)}"),
        Words(
            text="A place is rounded as one distance, from the boom centre line or from the rear "
            "end of the boom, to whole millimetres and on its own to sixteenths of an inch; all "
            "lengths are sums and differences of such distances. So they add up, and no mark is "
            "more than half a unit from the computed place."
        ),
        _grid(rows),
    )


def _cut_reason(half_gap: CutLength, tube: ShopTube, joints: Joints) -> tuple[str, str]:
    reaches, cut = tube.reaches.millimetres, tube.cut.millimetres
    if tube.overlap.millimetres:
        inner = 1000.0 * tube.diameter
        return (
            f"shows {tube.exposed.millimetres} + overlap {tube.overlap.millimetres} = {cut} mm; "
            f"overlap: the greater of {1000.0 * joints.least_overlap:.0f} mm and "
            f"{joints.overlap_diameters:g} x {inner:.2f} mm",
            "common practice",
        )
    if half_gap.millimetres:
        return f"ends at {reaches} less half the gap {half_gap.millimetres} = {cut} mm", "plan"
    if len(tube.marks) == 1:
        return f"through the boom, twice {reaches} = {cut} mm", "plan"
    return f"from the boom centre line, {reaches} = {cut} mm; joined by a sleeve", "plan"


def cost_appendix(bill: Bill, estimate: Estimate | None) -> tuple[Block, ...]:
    """Show how the sums of the estimate were computed.

    Parameters
    ----------
    estimate
        the estimate; None without prices

    Returns
    -------
    tuple of Block
        a grid of figures; what drives each quantity stands in the bill itself
    """
    rows: list[Row] = [
        (
            order.kind.name,
            f"pieces: {len(order.pieces)}, {order.packing.needed:.3f} m; bought "
            f"{order.packing.bought:.3f} m; no cutting plan needs less than "
            f"{order.packing.lower_bound:.3f} m (linear relaxation, then whole-number search)",
            "gilmore-gomory-1961",
        )
        for order in bill.tubes
    ]
    if estimate is not None:
        total = estimate.total
        rows += [
            (
                "Likely estimate",
                f"sum of likely amounts {estimate.priced.likely:.2f} + set aside "
                f"{estimate.contingency:.2f} = {total.likely:.2f} {estimate.currency}",
                "common practice",
            ),
            (
                "Low and high",
                f"likely less, and plus, the root of the sum of squares of each line's distance to "
                f"its low and high: {total.low:.2f} and {total.high:.2f} {estimate.currency}",
                "common practice",
            ),
        ]
    return (Heading(text="Quantities and cost"), _grid(rows))

"""How each figure of the work sheets was computed, with its numbers put in."""

from __future__ import annotations

from boomwright.charts.blocks import Block, Grid, Heading, Words
from boomwright.cost import Bill, Estimate
from boomwright.parts import Joints
from boomwright.raising import LiftPlan, MethodChoice, PickPlan
from boomwright.raising.rigging import BREAKING_FACTOR, HAND_SHOCK, weight
from boomwright.raising.tackle import JERK, SHEAVE_SHARE
from boomwright.report.build.dimensions import CutLength
from boomwright.report.build.shop import ShopRules, ShopTube
from boomwright.report.wording import clean, first_upper
from boomwright.report.work.build import Build
from boomwright.report.work.raising import RaisingPages

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


def raising_appendix(pages: RaisingPages) -> tuple[Block, ...]:
    """Show how the figures of the raising sheet were computed."""
    lift = pages.lift
    if lift is None:
        return ()
    rows = _lift_rows(lift)
    if pages.picks is not None:
        rows += _pick_rows(pages.picks)
    return (Heading(text=f"Raising of {clean(pages.name)}"), _grid(rows))


def _lift_rows(lift: LiftPlan) -> list[Row]:
    job = lift.job
    top = max(job.tower_height, job.lift_height)
    rows: list[Row] = [
        ("Turns within", f"half the diagonal of {job.load.element_span:.2f} m by "
         f"{job.load.boom_length:.2f} m = {job.swing_radius:.2f} m", "geometry"),
        ("Kept empty", f"higher of support and clamp, {top:.2f} m, + {job.swing_radius:.2f} m = "
         f"{lift.exclusion_radius:.2f} m", "common practice"),
        ("Nobody at all", f"half of {top:.2f} m = {lift.dropped_tool_radius:.2f} m",
         "common practice"),
    ]  # fmt: skip
    if lift.falls is not None:
        text = "free fall + deceleration + 1.52 m of body and stretch + 0.91 m margin = "
        text += f"{lift.falls.clearance_below:.2f} m"
        rows.append(("Clear below the anchor", text, "cfr-29-1926-502"))
    rows += [
        (
            f"Power line {clean(check.name)}",
            f"{check.gap:.2f} m left at the nearest against {check.required:.2f} m; {check.reason}",
            "cfr-29-1926-1408",
        )
        for check in lift.power_lines
        if check.required > 0.0
    ]
    rows += [
        (
            f"{method.name}, {force.name}",
            f"{force.value:.0f} N from the weight {weight(mass=job.load.mass):.0f} N; "
            f"{_rule(method)}; least breaking strength: times {BREAKING_FACTOR:g}",
            "common practice",
        )
        for method in lift.methods
        for force in method.forces
    ]
    return rows


def _rule(method: MethodChoice) -> str:
    """Factors on the forces of a method, in words."""
    if method.way == "tilt":
        return f"plane statics at every degree, times {JERK:g} for friction and jerks"
    return (
        f"a hauling rope: times {HAND_SHOCK:g} for jerks, and {SHEAVE_SHARE:.0%} of the load a "
        "sheave where its bearing is not known"
    )


def _pick_rows(picks: PickPlan) -> list[Row]:
    reach = picks.front - picks.balance
    return [
        ("Picks", f"{reach:.3f} m to either side of the balance point {picks.balance:.3f} m",
         "common practice"),
        ("Legs of the bridle", f"hook {picks.rise:.3f} m above the boom; "
         f"{picks.weight:.0f} N / 2 over the sine of the leg = {picks.forces.left:.0f} N",
         "statics"),
    ]  # fmt: skip

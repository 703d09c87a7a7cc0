"""How each figure of the raising was computed, with its numbers put in."""

from __future__ import annotations

from collections.abc import Iterator

from boomwright.base.quantity import Quantity, Value, cited, phrase
from boomwright.raising import LiftPlan, MethodChoice, PickPlan
from boomwright.raising.rigging import BREAKING_FACTOR, HAND_SHOCK, weight
from boomwright.raising.tackle import JERK, SHEAVE_SHARE
from boomwright.raising.way import highest
from boomwright.report.model import Table, column
from boomwright.study.raising import BeamLift

#: what, how it was computed, where the rule is from
Row = tuple[Value, Value, Value]


def computed(each: BeamLift) -> Table[Row]:
    """Show how the figures of a beam's raising were computed; no rows where it is not planned."""
    rows: list[Row] = [] if each.lift is None else [*_lift(each.lift)]
    if each.lift is not None and each.picks is not None and each.lift.methods[0].hoists:
        rows += _picks(each.picks)
    return Table(
        name="computed",
        caption=f"Raising of {each.beam.name}",
        columns=(
            column("figure", lambda row: row[0]),
            column("computed as", lambda row: row[1]),
            column("source", lambda row: row[2]),
        ),
        items=rows,
        sentences=True,
    )


def _span(length: float) -> Quantity:
    return Quantity(length, "span")


def _lift(lift: LiftPlan) -> Iterator[Row]:
    job = lift.job
    top, swing = _span(highest(job, lift.way)), _span(job.swing_radius)
    farthest = phrase("{swing} from the mast to the farthest part of the beam", swing=swing)
    kept = phrase(
        "highest part of support, mast and lift, {top}, + {swing} = {radius}",
        top=top, swing=swing, radius=_span(lift.exclusion_radius),
    )  # fmt: skip
    nobody = phrase(
        "half of {top}, at least what turns{beside} = {radius}", top=top,
        beside="" if lift.way.machine else " beside the foot",
        radius=_span(lift.dropped_tool_radius),
    )  # fmt: skip
    yield "Turning radius", farthest, "geometry"
    yield "Kept empty", kept, "common practice"
    yield "Nobody at all", nobody, "common practice"
    if lift.falls is not None:
        clear = phrase(
            "free fall + deceleration + {body} of body and stretch + {margin} margin = {clear}",
            body=_span(1.52), margin=_span(0.91), clear=_span(lift.falls.clearance_below),
        )  # fmt: skip
        yield "Clear below the anchor", clear, cited("29 CFR 1926.502", "cfr-29-1926-502")
    for check in lift.power_lines:
        if check.required > 0.0:
            left = phrase(
                "{gap} left at the nearest against {required}; {reason}",
                gap=_span(check.gap), required=_span(check.required), reason=check.reason,
            )  # fmt: skip
            yield f"Power line {check.name}", left, cited("29 CFR 1926.1408", "cfr-29-1926-1408")
    heavy = Quantity(weight(mass=job.load.mass), "load")
    for method in lift.methods:
        for force in method.forces:
            how = phrase("{:load} from the weight {}; {}; least breaking strength: times "
                "{}", force.value, heavy, _rule(method), f"{BREAKING_FACTOR:g}")  # fmt: skip
            yield f"{method.name}, {force.name}", how, "common practice"


def _rule(method: MethodChoice) -> str:
    """Factors on the forces of a method, in words."""
    if method.way == "tilt":
        return f"plane statics at every degree, times {JERK:g} for friction and jerks"
    return (
        f"a hauling rope: times {HAND_SHOCK:g} for jerks, and {SHEAVE_SHARE:.0%} of the load a "
        "sheave where its bearing is not known"
    )


def _picks(picks: PickPlan) -> Iterator[Row]:
    reach = phrase(
        "{reach} to either side of the balance point {balance}",
        reach=_span(picks.front - picks.balance), balance=_span(picks.balance),
    )  # fmt: skip
    legs = phrase(
        "hook {rise} above the boom; {weight:load} / 2 over the sine of the leg = {leg:load}",
        rise=_span(picks.rise), weight=picks.weight,
        leg=picks.forces.left,
    )  # fmt: skip
    yield "Picks", reach, "common practice"
    yield "Legs of the bridle", legs, "statics"

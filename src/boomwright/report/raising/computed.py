"""How each figure of the raising was computed, with its numbers put in."""

from __future__ import annotations

from collections.abc import Iterator

from boomwright.base.quantity import Quantity, Value, cited, phrase
from boomwright.raising import LiftPlan, MethodChoice, PickPlan
from boomwright.raising.rigging import BREAKING_FACTOR, HAND_SHOCK, weight
from boomwright.raising.tackle import JERK, SHEAVE_SHARE
from boomwright.raising.way import highest
from boomwright.report.model import Table, cells
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
        columns=cells("figure", "computed as", "source"),
        items=rows,
        sentences=True,
    )


def _lift(lift: LiftPlan) -> Iterator[Row]:
    job, practice = lift.job, "common practice"
    top, swing = Quantity(highest(job, lift.way), "span"), Quantity(job.swing_radius, "span")
    yield (
        "Turning radius",
        phrase("{} from the mast to the farthest part of the beam", swing),
        "geometry",
    )
    kept = "highest part of support, mast and lift, {}, + {} = {:span}"
    yield "Kept empty", phrase(kept, top, swing, lift.exclusion_radius), practice
    beside = "" if lift.way.machine else " beside the foot"
    nobody = "half of {}, at least what turns{} = {:span}"
    yield "Nobody at all", phrase(nobody, top, beside, lift.dropped_tool_radius), practice
    if lift.falls is not None:
        words = "free fall + deceleration + {:span} of body and stretch + {:span} margin = {:span}"
        clear = phrase(words, 1.52, 0.91, lift.falls.clearance_below)
        yield "Clear below the anchor", clear, cited("29 CFR 1926.502", "cfr-29-1926-502")
    for check in lift.power_lines:
        if check.required > 0.0:
            words = "{:span} left at the nearest against {:span}; {}"
            left = phrase(words, check.gap, check.required, check.reason)
            yield f"Power line {check.name}", left, cited("29 CFR 1926.1408", "cfr-29-1926-1408")
    heavy = Quantity(weight(mass=job.load.mass), "load")
    words = "{:load} from the weight {}; {}; least breaking strength: times {}"
    for method in lift.methods:
        for force in method.forces:
            how = phrase(words, force.value, heavy, _rule(method), f"{BREAKING_FACTOR:g}")
            yield f"{method.name}, {force.name}", how, practice


def _rule(method: MethodChoice) -> str:
    """Factors on the forces of a method, in words."""
    if method.way == "tilt":
        return f"plane statics at every degree, times {JERK:g} for friction and jerks"
    return (
        f"a hauling rope: times {HAND_SHOCK:g} for jerks, and {SHEAVE_SHARE:.0%} of the load a "
        "sheave where its bearing is not known"
    )


def _picks(picks: PickPlan) -> Iterator[Row]:
    words = "{:span} to either side of the balance point {:span}"
    reach = phrase(words, picks.front - picks.balance, picks.balance)
    yield "Picks", reach, "common practice"
    words = "hook {:span} above the boom; {:load} / 2 over the sine of the leg = {:load}"
    legs = phrase(words, picks.rise, picks.weight, picks.forces.left)
    yield "Legs of the bridle", legs, "statics"

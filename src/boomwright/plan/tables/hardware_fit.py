"""Hardware of the owner that does not fit the parts around it: plates and rods too short."""

from __future__ import annotations

from boomwright.parts import EDGE_LEAST, Bar, Block, Part, short_sides
from boomwright.plan.faults import Place
from boomwright.plan.model import Plan
from boomwright.plan.spec import Values

#: plates by the keys they are written at, and the roles of their parts
_PLATES = {"element_plate": "element plate", "mast_plate": "mast plate"}
_ROD = "insulating_rod"


def check_hardware(plan: Plan, values: Values, root: Place) -> None:
    """Report plates and rods of the owner that are too short for their holes and clamps.

    Args:
        values: what ``ROOT`` read, free of faults [SI]
        root: the plan
    """
    for number, (beam, written) in enumerate(zip(plan.beams, values.get("beam", ()), strict=True)):
        given = (written.get("boom") or {}).get("hardware") or {}
        if not {*_PLATES, _ROD} & {*given}:
            continue
        from boomwright.plan.resolve.assembly import station_assembly

        parts = station_assembly(plan).of(beam.name)
        at = root.child("beam", number, "boom", "hardware")
        # A ring mount's maker drills the plate of a beam that turns on one.
        ringed = beam.name in {ring.beam for ring in plan.rings}
        for key, role in _PLATES.items():
            if key in given and not (ringed and key == "mast_plate"):
                # A mount may give an element a plate of its own.
                mine = [part for part in parts if part.role == role and part.holes
                        and sorted(_sides(part)) == sorted(given[key])]  # fmt: skip
                _check_plate(mine, at.child(key))
        if _ROD in given:
            _check_rod(parts, at.child(_ROD))


def _sides(part: Part) -> tuple[float, ...]:
    return next(each.size for each in part.solids if isinstance(each, Block))


def _check_plate(plates: list[Part], at: Place) -> None:
    found = [(each.need, each, part) for part in plates for each in short_sides(part)]
    for side in (0, 1):
        mine = [each for each in found if each[1].side == side]
        if not mine:
            continue
        need, short, part = max(mine, key=lambda each: each[0])
        where = f"{at.wide(abs(short.edge))} {'from its edge' if short.edge > 0 else 'outside it'}"
        at.child(side).fault(
            f"{part.name} is too short for its holes of {at.wide(short.hole.diameter)} for the "
            f"{short.hole.purpose}: their middle lies {where}, and {EDGE_LEAST:g} hole diameters "
            "of metal are needed",
            remedy=f"write {at.wide(need)} or more here, or take thinner U-bolts (u_bolt in "
            "[beam.boom.hardware])",
        )


def _check_rod(parts: tuple[Part, ...], at: Place) -> None:
    """Report an insulating rod that ends before the U-bolts that squeeze its tube."""
    for rod in (part for part in parts if part.role == "insulator" and part.solids):
        (bar,) = rod.solids
        mine = rod.group.replace("element", "mount")
        bolts = [each for each in parts if each.group == mine and each.name.endswith("the element")]
        outer = max((abs(each.solids[0].middle[1]) for each in bolts), default=0.0)
        if isinstance(bar, Bar) and bar.end[1] < outer:
            at.fault(
                f"{rod.name} ends before the U-bolts at {at.wide(outer)} from the middle, which "
                "squeeze the empty tube there",
                remedy=f"write {at.wide(2.0 * outer)} or more",
            )

"""Hardware of the owner that does not fit the parts around it: plates and rods too short."""

from __future__ import annotations

from boomwright.base.quantity import settled
from boomwright.parts import EDGE_LEAST, Bar, Block, Part, short_sides
from boomwright.plan.faults import Place
from boomwright.plan.model import Plan
from boomwright.plan.spec import Values

#: clamp and tube that differ by more do not grip [m] {common-practice-clamps}
_GRIP = 0.003
#: thickest plate that is meant [m]
_THICKEST = 0.05
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
        if not {*_PLATES, _ROD, "shell", "boom_clamp", "mast_clamp"} & {*given}:
            continue
        from boomwright.plan.resolve.assembly import station_assembly

        parts = station_assembly(plan).of(beam.name)
        at = root.child("beam", number, "boom", "hardware")
        # A ring mount's maker drills the plate of a beam that turns on one.
        ringed = beam.name in {ring.beam for ring in plan.rings}
        for key, role in _PLATES.items():
            if key in given and not (ringed and key == "mast_plate"):
                _check_plate(_plates(parts, role, given[key]), at.child(key))
        if _ROD in given:
            _check_rod(parts, at.child(_ROD))
        _check_room(parts, given, at)
        holders = {"boom_clamp": written["boom"]["diameter"]}
        if plan.stand.mast is not None and not ringed:
            holders["mast_clamp"] = plan.stand.mast.diameter
        for key, tube in holders.items():
            if key in given and given[key] > tube + _GRIP:
                what = key.removesuffix("_clamp")
                at.child(key).fault(
                    f"clamps for a tube of {at.wide(given[key])} do not grip a {what} of "
                    f"{at.wide(tube)}",
                    remedy=f"write {at.wide(tube)}, or pack the {what} and write its clamps so",
                )


def _plates(parts: tuple[Part, ...], role: str, sides: list[float]) -> list[Part]:
    """Plates of those sides; a mount may give an element another."""
    found = (part for part in parts if part.role == role and part.holes)
    return [part for part in found if _sides(part)[1:] == sorted(sides[:2])]


def _sides(part: Part) -> list[float]:
    """Thickness and both sides of a plate [m] (3,)."""
    return sorted(next(each.size for each in part.solids if isinstance(each, Block)))


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
            remedy=settled(
                f"write {at.wide(need)} or more here, or take thinner U-bolts",
                "beam.boom.hardware",
                "u_bolt",
            ),
        )


def _check_room(parts: tuple[Part, ...], given: Values, at: Place) -> None:
    """Report shells and plates for which there is no room between boom and elements."""
    for part in parts:
        (first, *_) = part.solids or (None,)
        if part.role == "shell" and isinstance(first, Bar) and "shell" in given:
            thick = 0.5 * (first.diameter - first.bore)
            if part.group.startswith("mount") and thick < given["shell"] - 1e-6:
                _no_room(at.child("shell"), part, thick)
                break
    for key, role in _PLATES.items():
        if key not in given:
            continue
        for part in _plates(parts, role, given[key]):
            thick = _sides(part)[0]
            if given[key][2] > _THICKEST or thick < given[key][2] - 1e-6:
                _no_room(at.child(key, 2), part, min(thick, _THICKEST))
                break


def _no_room(at: Place, part: Part, thick: float) -> None:
    at.fault(
        f"{part.name}: there is room for a thickness of {at.wide(thick)}",
        remedy=f"write {at.wide(thick)} or less"
        + ("" if part.role == "mast plate" else ", or raise the element (clearance of its mount)"),
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

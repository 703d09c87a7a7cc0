"""Which parts of a plan's station run into each other, as findings of its verdict."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

from boomwright.base import Finding
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import (
    GROUND,
    MAST,
    SCREW,
    TOUCH,
    Assembly,
    Bar,
    Clash,
    Part,
    find_clashes,
    left_tubes,
    short_sides,
)
from boomwright.plan import Plan
from boomwright.plan.faults import table_named
from boomwright.structure import StructureReport

_ROOM = "room for every part"
_exceeded = partial(Finding, subject="build", verdict="exceeded", holds_up=True)
_open = partial(Finding, subject="build", verdict="ask")


def clash_findings(plan: Plan, *, structure: StructureReport | None = None) -> tuple[Finding, ...]:
    """Hold every part against every other, what turns through a full turn.

    Args:
        structure: what the structure room found, for balance points; None takes those of the parts

    Returns:
        one for each tube that slides in too deep, for each two parts that meet, and for each beam
        whose place is not known; a single one when there is none; only tubes are looked at in a
        plan that does not say what carries its beams
    """
    from boomwright.plan.resolve import station_assembly

    assembly = station_assembly(plan, structure=structure)
    found = [*_too_deep(plan, assembly), *_short_plates(assembly), *_hold_nothing(plan, assembly)]
    if plan.support is None:
        return tuple(found)
    found += [_finding(clash) for clash in find_clashes(assembly)]
    found += [
        Finding(
            subject="build",
            name=f"{carrier.name}: {_ROOM}",
            verdict="not checked",
            reason=carrier.missing,
            change="give tube and clamp of the boom, and what holds it",
        )
        for carrier in assembly.carriers
        if carrier.origin is None
    ]
    return tuple(found) or (Finding(subject="build", name=_ROOM, verdict="within"),)


def _poles(assembly: Assembly, beam: str) -> list[list[Part]]:
    """Spreaders of a beam, each from the hub outwards; those to the right are alike."""
    found: dict[str, list[Part]] = {}
    for part in assembly.of(beam, "spreader"):
        if part.mark[-1] in "LC":
            found.setdefault(part.mark.partition(".")[0], []).append(part)
    return list(found.values())


def _short_plates(assembly: Assembly) -> list[Finding]:
    """Plates of the owner that leave too little metal beside the holes drawn for them."""
    return [
        _exceeded(
            name=f"{part.carrier}: {part.name} too short for its holes",
            reason=phrase(
                "the holes for the {what} need a side of {need}",
                what=short.hole.purpose,
                need=_small(short.need),
            ),
            change="enter a larger plate, or drill yours by the pattern of its maker",
        )
        for part in assembly.parts
        if part.role == "element plate" and part.known == "plan"
        for short in short_sides(part)
    ]


def _hold_nothing(plan: Plan, assembly: Assembly) -> list[Finding]:
    """Element plates beyond the end of their boom, and trusses from above the top of their mast."""
    found, mast = [], None if plan.support is None else plan.support.mast
    for boom in plan.booms:
        off = [
            part
            for part in assembly.of(boom.beam, "U-bolt")
            if part.group.startswith("mount") and part.name.endswith("round the boom")
            for x in [part.solids[0].middle[0]]
            if not 0.0 <= x <= boom.length
        ]
        found += [
            _exceeded(
                name=f"{boom.beam}: {name} beyond the end of the boom",
                reason="a U-bolt of its plate has no boom to close round",
                change="make the boom longer, or move the element (at) or rear_end",
            )
            for name in dict.fromkeys(part.name.partition(",")[0] for part in off)
        ]
        (beam,) = (each for each in plan.beams if each.name == boom.beam)
        if boom.tie is None or mast is None:
            continue
        over = beam.height + boom.tie.rise - mast.top
        if over > TOUCH and boom.beam not in {ring.beam for ring in plan.rings}:
            found.append(
                _open(
                    name=f"{boom.beam}: upper end of the boom truss",
                    reason=phrase(
                        "it lies {over} above the top of the mast, and no part holds it there",
                        over=_small(over),
                    ),
                    change="let the mast end above it (top in [support.mast]), or lower it (rise)",
                )
            )
    return found


def _too_deep(plan: Plan, assembly: Assembly) -> list[Finding]:
    """Tubes of elements and spreaders that slide further in than what is around them is long."""
    return [
        _exceeded(
            name=f"{beam.name}: {inner.name} into {outer.name}",
            reason=phrase(
                "it is to slide {deep} into a tube that is {long} long",
                deep=_small(inner.cut.overlap),
                long=_small(outer.cut.sawn),
            ),
            change="make the tube towards the boom longer, or enter a shorter overlap in [prices]",
        )
        for beam in plan.beams
        for half in (*left_tubes(assembly.of(beam.name)).values(), *_poles(assembly, beam.name))
        for outer, inner in pairwise(half)
        if outer.cut is not None
        and inner.cut is not None
        and inner.cut.overlap > outer.cut.sawn + TOUCH
    ]


def _finding(clash: Clash) -> Finding:
    one, other = clash.one, clash.other
    deep = _small(clash.overlap)
    turning = "" if clash.heading is None else " as it turns"
    name = f"{one.carrier}: {one.name} into {_named(other, one)}"
    if clash.assumed:
        guessed: Value = one.name if one.known == "assumed" else other.name
        if one.known == other.known:
            guessed = phrase("{one} and the {other}", one=one.name, other=other.name)
        return _open(
            name=name,
            reason=phrase(
                "They overlap by {deep}{turning}; what is assumed: the {guessed}",
                deep=deep,
                turning=turning,
                guessed=guessed,
            ),
            change=phrase(
                "measure yours and enter it under {hardware}, or {remedy}",
                hardware=table_named("beam.boom.hardware"),
                remedy=_remedy(clash),
            ),
        )
    reason = phrase("they overlap by {deep}{turning}", deep=deep, turning=turning)
    return _exceeded(name=name, reason=reason, change=_remedy(clash))


def _named(part: Part, beside: Part) -> str:
    if part.carrier in {beside.carrier, GROUND, MAST}:
        return part.name
    return f"{part.name} of {part.carrier}"


def _small(length: float) -> Quantity:
    return Quantity(length, "whole millimetres")


def _remedy(clash: Clash) -> Value:
    one, other, deep = clash.one, clash.other, _small(clash.overlap)
    if other.carrier == GROUND:
        what = "the guys" if other.role == "guy" else f"the {other.name}"
        return phrase(
            "hang the beam {deep} or more higher or lower, or bring {what} out of its way",
            deep=deep,
            what=what,
        )
    if other.carrier not in {one.carrier, MAST}:
        return phrase("hang the two beams {deep} or more further apart in height", deep=deep)
    roles = {one.role, other.role}
    if "truss eye" in roles:
        return phrase(
            "move the foot of the truss {deep} or more along the boom (share of tie in "
            "[beam.boom])", deep=deep,
        )  # fmt: skip
    if SCREW in roles:
        if "boom" in {one.group, other.group}:
            return phrase(
                "move that joint {deep} or more along the boom (joints in [beam.boom])", deep=deep
            )
        return phrase(
            "raise the element {deep} or more (clearance of its mount), or take the other part "
            "smaller", deep=deep,
        )  # fmt: skip
    if "U-bolt" in roles and "mast plate" in {one.group, other.group}:
        held = next((part for part in (one, other) if part.role in {"boom", "mast"}), None)
        if held is not None and isinstance(held.solids[0], Bar):
            size = _small(held.solids[0].diameter)
            return phrase("take clamps made for a tube of {size}", size=size)
    if roles == {"boom", "mast"}:
        return phrase(
            "set the boom {deep} or more further beside the mast (offset in [beam.boom])", deep=deep
        )
    if "match" in roles:
        return (
            "let its rods run the other way (rods in [beam.boom.hardware]), or move the mast "
            "clamp beyond their end"
        )
    return phrase("move the mast clamp or that part {deep} or more along the boom", deep=deep)

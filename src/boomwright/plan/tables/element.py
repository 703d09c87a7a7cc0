"""``[[beam.element]]``: one straight element, by sections of its half or in the short form."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from boomwright.base import both_quantities
from boomwright.base.quantity import Value, phrase
from boomwright.parts import Element, PhasingLine, PostLine, Trap, TubeSection
from boomwright.plan.building import build_given, build_table, build_value
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import (
    THINNEST_WALL,
    above_zero,
    choice,
    either_sign,
    entry,
    number,
    within,
)
from boomwright.plan.kinds import Text
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.mount import (
    INSULATION,
    MOUNT,
    MOUNT_EXAMPLE,
)

HALF_EXAMPLE = '[["25.4 mm", "1.83 m"], ["22.2 mm", "3.3 m"]]'

#: widest conductor accepted; a bare 25.4 meant as millimetres falls well outside [m]
WIDEST = 2.0
#: longest length of any part accepted [m]
LONGEST = 2000.0

_DIAMETER = Quantity(dimension="length", low=0.0, high=WIDEST, above_low=True)
_LENGTH = Quantity(dimension="length", low=0.0, high=LONGEST, above_low=True)
_WALL = Quantity(dimension="length", low=THINNEST_WALL, high=WIDEST)


def tube_section(diameter: float, length: float, wall: float = 0.0) -> TubeSection:
    """Make a section of the row that a plan gives it in.

    Args:
        diameter: outer diameter [m]
        length: exposed [m]
        wall: 0 when not given [m]
    """
    return TubeSection(diameter=diameter, length=length, wall=wall)


_SECTION = Row(
    items=(_DIAMETER, _LENGTH, _WALL),
    least=2,
    example='["25.4 mm", "1.83 m", "1.47 mm"]',
    names=("outer diameter", "exposed length", "wall"),
    makes=tube_section,
)

# In wavelengths: beyond these a unit was forgotten or mistyped. The widest is also where
# a thin-tube field computation ends {common-practice-magnitudes}.
_LONGEST_WL = 10.0
_SHORTEST_WL = 0.02
_WIDEST_WL = 0.1


def _half_length(values: Values) -> float | None:
    half = values.get("half")
    if half is not None:
        lengths = [row[1] for row in half if row and row[1] is not None]
        return float(sum(lengths)) if len(lengths) == len(half) else None
    length = values.get("length")
    return None if length is None else length / 2


def centre_section(values: Values) -> tuple[float, float] | None:
    """Diameter and length on one side of the section at the boom, None when at fault [m] (2,)."""
    half = values.get("half")
    diameter, length = values.get("diameter"), values.get("length")
    if half is not None:
        diameter, length = half[0][:2] if half[0] else (None, None)
    elif length is not None:
        length = length / 2
    return None if diameter is None or length is None else (diameter, length)


def _check_form(values: Values, at: Place) -> None:
    short = {"diameter", "length"} & values.keys()
    if "half" in values:
        if short:
            message = "half stands beside diameter or length; they say the same thing twice"
            at.child("half").fault(message, remedy="keep half, or diameter and length, not both")
        return
    for key, example in (("diameter", '"22 mm"'), ("length", '"10.1 m"')):
        if key not in values:
            remedy: Value = phrase("add {one}", one=written(key, example))
            if not short:
                remedy = phrase("{one}, or in place of diameter and length {half}", one=remedy,
                                half=written("half", HALF_EXAMPLE))  # fmt: skip
            at.child(key).fault(f"{key} is missing in this element", remedy=remedy, missing=True)


def _check_sections(values: Values, at: Place) -> None:
    if len(values.get("half") or []) > 1 and values.get("insulation") is not None:
        message = "insulation is for an element of one diameter, made of wire"
        at.child("insulation").fault(message, remedy="take it out, or write diameter and length")
    before = math.inf
    half = values.get("half") or []
    for index, row in enumerate(half):
        place = at.child("half", index)
        diameter = row[0] if row else None
        if diameter is None:
            continue
        if diameter > before * (1 + 1e-9):
            message = "this section is wider than the one inside it"
            remedy = (
                "list the sections from the boom outwards, each as wide as the last or narrower"
            )
            place.child(0).fault(message, remedy=remedy)
        wall = row[2] if len(row) > 2 else None
        if index > 0 and diameter <= before * (1 + 1e-9):
            check_fit(half[index - 1], diameter, wall, place)
        before = diameter
        if wall is not None and wall >= diameter / 2:
            message = "the wall is as thick as the radius of the tube, or thicker"
            remedy = "write outer diameter, exposed length, wall, in this order"
            place.child(2).fault(message, remedy=remedy)


def check_fit(
    outer: list[float | None] | None, inner: float, wall: float | None, place: Place
) -> None:
    """Report a tube that does not go into the one inside it on the boom's side.

    Args:
        outer: diameter, exposed length and, if known, wall of the tube before [m] (2 or 3,)
        inner: diameter of this tube [m]
        wall: its wall; None when not given [m]
    """
    if not outer or outer[0] is None:
        return
    around = (outer[2] if len(outer) > 2 else None) or 0.0
    tube = TubeSection(diameter=outer[0], length=0.0, wall=around)
    if tube.takes(TubeSection(diameter=inner, length=0.0, wall=wall or 0.0)):
        return
    if math.isclose(outer[0], inner, rel_tol=1e-9):
        message = "this tube is as wide as the one before it and does not go into it"
        remedy = "write both as one section, or a smaller diameter"
    elif outer[0] <= 2.0 * around:
        return  # that wall has its own fault
    else:
        bore = both_quantities(
            1e3 * (outer[0] - 2.0 * around), unit="mm", form=".2f", us_form=".3f"
        )
        message = f"this tube does not go into the bore of the one before it, {bore}"
        remedy = "write a smaller diameter, or a thinner wall or a larger diameter before it"
    place.child(0).fault(message, remedy=remedy)


def _check_magnitudes(values: Values, at: Place) -> None:
    wavelength = at.wavelength
    if wavelength is None or math.isnan(wavelength):
        return
    length_key = "half" if "half" in values else "length"
    half = _half_length(values)
    if half is not None and not _SHORTEST_WL <= 2 * half / wavelength <= _LONGEST_WL:
        message = f"the element is {2 * half / wavelength:.3g} wavelengths long"
        remedy = f"write the unit: half a wavelength is {wavelength / 2:.2f} m here"
        at.child(length_key).fault(message, remedy=f"was a unit forgotten? {remedy}")
    centre = centre_section(values)
    if centre is not None and centre[0] > _WIDEST_WL * wavelength:
        place = at.child("half", 0, 0) if "half" in values else at.child("diameter")
        message = f"the element is {centre[0] / wavelength:.3g} wavelengths thick"
        place.fault(message, remedy='was a unit forgotten? write it such as "25.4 mm" or "1 in"')
    place_along = values.get("at") or 0.0
    if abs(place_along) > 5 * _LONGEST_WL * wavelength:
        message = f"the element stands {place_along / wavelength:.3g} wavelengths along the boom"
        at.child("at").fault(message, remedy='was a unit forgotten? write it such as "2.6 m"')


def _check_through(values: Values, at: Place) -> None:
    if "through" not in values:
        return
    for key in ("half", "mount"):
        if key in values:
            message = f"a wire with corners has no {key}"
            remedy = (
                "take it out, and write diameter and length" if key == "half" else "take it out"
            )
            at.child(key).fault(message, remedy=remedy)


def _check(values: Values, at: Place) -> None:
    _check_through(values, at)
    _check_form(values, at)
    _check_sections(values, at)
    _check_magnitudes(values, at)
    # How long the side of a wire with corners is, its points say.
    half = None if "through" in values else _half_length(values)
    check_trap_places(values.get("traps") or [], half, at)


def _check_trap(values: Values, at: Place) -> None:
    place, width = values.get("at"), values.get("width")
    if place is not None and width is not None and place <= width / 2:
        message = "the trap reaches to the boom"
        at.child("at").fault(message, remedy="give the place of its middle, from the boom outwards")
    length = values.get("length")
    if length is not None and width is not None and length < width:
        message = "the body of the trap is shorter than the gap in the tube that it bridges"
        at.child("length").fault(message, remedy=f"write {1000 * width:g} mm or more")


TRAP_EXAMPLE = (
    '[{ at = "3.2 m", width = "0.1 m", inductance = "3 uH", capacitance = "19 pF", quality = 200 }]'
)
TRAP = TableSpec(
    noun="trap",
    model=Trap,
    check=_check_trap,
    fields=(
        entry("at", "Distance of its middle from the boom.", _LENGTH, attribute="place",
              required=True, example='at = "3.2 m"'),
        above_zero("width", "length", "Length of tube that it replaces.", high=WIDEST,
                   required=True, example="0.1 m"),
        above_zero("inductance", "inductance", "Inductance of its coil.", high=1.0,
                   required=True, example="3 uH"),
        above_zero("capacitance", "capacitance", "Capacitance beside the coil.", high=1.0,
                   required=True, example="19 pF"),
        number("quality", "Quality factor of the coil.", low=1.0, high=1e5, required=True,
               example="200"),
        above_zero("mass", "mass", "Mass of one trap; left out, 0.5 kg.", high=50.0,
                   example="0.4 kg"),
        above_zero("diameter", "length", "Diameter of its body; left out, 60 mm.", high=WIDEST,
                   example="50 mm"),
        above_zero("length", "length", "Length of its body; left out, that of the tube it "
                   "replaces.", high=WIDEST, example="0.2 m"),
        above_zero("allowed_moment", "torque", "Bending moment that its maker rates its body "
                   "for.", high=1e5, example="60 N m"),
    ),
)  # fmt: skip


def check_trap_places(traps: Sequence[Values | None], half: float | None, at: Place) -> None:
    """Report traps beyond the tip.

    Args:
        half: from the boom or the foot to the tip; None while it is not known [m]
    """
    for index, trap in enumerate(traps):
        if half is None or trap is None or None in (trap.get("at"), trap.get("width")):
            continue
        if trap["at"] + trap["width"] / 2 >= half:
            message = f"the trap reaches beyond the tip, which lies {half:.3f} m from the boom"
            remedy = "place it within one tube of the half, or within the wire"
            at.child("traps", index).child("at").fault(message, remedy=remedy)


PHASING_LINE = TableSpec(
    noun="phasing line",
    model=PhasingLine,
    fields=(
        above_zero("impedance", "resistance", "Characteristic impedance.", high=2000.0,
                   required=True, example="75 ohm"),
        above_zero("length", "length", "Physical length.", required=True, example="3.4 m"),
        within("velocity_factor", "ratio", "Speed on it over that of light; left out, 1.", 0.2, 1.0,
               example="0.66"),
    ),
)  # fmt: skip


def _check_post_line(values: Values, at: Place) -> None:
    wire, spacing = values.get("wire"), values.get("spacing")
    told = "impedance" in values, "wire" in values, "spacing" in values
    if told not in {(True, False, False), (False, True, True)}:
        at.fault(
            "a line along a post is told by its impedance, or by its two wires",
            remedy="write impedance for a bought line, or wire and spacing for two bare wires",
        )
    if wire is not None and spacing is not None and spacing <= wire:
        message = "the two wires touch"
        remedy = f"write a spacing above {at.wide(wire)}, axis to axis"
        at.child("spacing").fault(message, remedy=remedy)


POST_LINE_EXAMPLE = '{ impedance = "50 ohm", length = "0.5 m", velocity_factor = 0.66 }'
POST_LINE = TableSpec(
    noun="line along a post",
    model=PostLine,
    check=_check_post_line,
    fields=(
        above_zero("impedance", "resistance", "Characteristic impedance of a bought line.",
                   high=2000.0, example="50 ohm"),
        above_zero("wire", "length", "In place of its impedance: diameter of each of two bare "
                   "wires.", high=0.05, example="2 mm"),
        above_zero("spacing", "length", "Between the axes of the two wires.", high=0.5,
                   example="30 mm"),
        above_zero("length", "length", "Along the post, from the feed point that the line to the "
                   "radio ends at.", required=True, example="0.5 m"),
        within("velocity_factor", "ratio", "Speed on it over that of light; left out, 1.", 0.2, 1.0,
               example="0.95"),
    ),
)  # fmt: skip


ELEMENT = TableSpec(
    noun="element",
    check=_check,
    fields=(
        choice("role", ("reflector", "driven", "director"), "role",
               "What the element does in the beam.", required=True, example="director"),
        either_sign("at", "length", "Place along the boom, growing towards the heading.",
                    required=True, example="2.6 m"),
        entry("half", "Sections of one half, from the boom outwards: outer diameter, exposed "
              "length, and if known the wall.",
              ListOf(item=_SECTION, most=40, example=HALF_EXAMPLE)),
        entry("diameter", "Outer diameter, when it is the same from tip to tip.", _DIAMETER),
        entry("length", "Full length from tip to tip, when the diameter is the same all along.",
              _LENGTH),
        entry("through",
              "For a wire with corners: points of the frame that each half runs through, from its "
              "middle. It is cut to its length; a loop, which comes back to the boom, grows or "
              "shrinks to it.",
              ListOf(item=Text(longest=64), most=40, example='["front", "side"]')),
        entry("phasing_line",
              "Where several elements are driven: line from this one to the point where all of "
              "them are fed. Taken as without loss.", PHASING_LINE,
              example='phasing_line = { impedance = "75 ohm", length = "3.4 m" }'),
        entry("traps", "Traps in both halves alike, or in a wire that stands upright: a coil and a "
              "capacitor side by side.",
              ListOf(item=TRAP, least=0, most=10, example=TRAP_EXAMPLE)),
        entry("mount", "How this element is held on the boom; left out, as the beam says.", MOUNT,
              example=f"mount = {MOUNT_EXAMPLE}"),
        entry("insulation", "Layer around an element made of wire.", INSULATION,
              example='insulation = { thickness = "0.8 mm", permittivity = 2.3 }'),
    ),
)  # fmt: skip


def build_element(
    values: Values, *, mount: Values | None, bent: dict[str, Any] | None = None
) -> Element:
    """Make an element out of fault-free values.

    Args:
        mount: what ``MOUNT`` read, with its boom; None when the plan does not say [SI]
        bent: half, path and middle of a wire with corners; None for a straight element
    """
    if bent is None:
        rows = values.get("half") or [[values["diameter"], values["length"] / 2]]
        half = tuple(build_value(_SECTION, row) for row in rows)
        bent = {"half": half, "mount": build_given(MOUNT, mount)}
    return Element(
        role=values["role"],
        position=values["at"],
        traps=tuple(build_table(TRAP, trap) for trap in values.get("traps") or []),
        insulation=build_given(INSULATION, values.get("insulation")),
        phasing_line=build_given(PHASING_LINE, values.get("phasing_line")),
        **bent,
    )

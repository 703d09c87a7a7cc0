"""``[[beam]]``: one antenna with its band, height, heading, feed, elements and wires."""

from __future__ import annotations

from itertools import combinations

from boomwright.base.quantity import PerReader, Value, phrase
from boomwright.parts import MATERIALS, Beam, IdleFeed
from boomwright.plan.building import build_given
from boomwright.plan.directions import HEADING_EXAMPLE
from boomwright.plan.faults import Place, write_one, written
from boomwright.plan.fields import choice, entry, from_zero, tables, words
from boomwright.plan.lists import Row
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import Tables, TableSpec, Values
from boomwright.plan.tables.boom import BOOM
from boomwright.plan.tables.element import (
    ELEMENT,
    POST_LINE,
    POST_LINE_EXAMPLE,
    build_element,
    centre_section,
)
from boomwright.plan.tables.feed import FEED, FEED_EXAMPLE, build_feed
from boomwright.plan.tables.frame import (
    BENT_FEEDS,
    FRAME,
    RADIALS,
    bent_element,
    check_bent,
)
from boomwright.plan.tables.heading import HEADING
from boomwright.plan.tables.mount import MOUNT, MOUNT_EXAMPLE, check_mounts, mount_of
from boomwright.plan.tables.wire import WIRE, build_wire

#: how far outside the band the design frequency may lie, as a part of the band edge
DESIGN_SLACK = 0.2

#: what may hang on the feed of a beam that is not in use
IDLE_FEEDS: tuple[IdleFeed, ...] = ("open", "shorted", "matched")

_FREQUENCY = Quantity(dimension="frequency", low=1e4, high=1e11)
_BAND_EXAMPLE = '["14.000 MHz", "14.350 MHz"]'


def _check_band(values: Values, at: Place) -> None:
    band = values.get("band")
    if band is None or None in band:
        return
    low, high = band
    if low >= high:
        remedy = "write the lower edge first" if low > high else "write two different edges"
        message = "the band runs from high to low" if low > high else "the band has no width"
        how = phrase(f"{remedy}: {{band}}", band=written("band", _BAND_EXAMPLE))
        at.child("band").fault(message, remedy=how)
        return
    design = values.get("design")
    if design is not None and not low * (1 - DESIGN_SLACK) <= design <= high * (1 + DESIGN_SLACK):
        message = "the design frequency lies more than 20 % outside the band"
        remedy = f'write one within it, such as "{(low + high) / 2e6:.6g} MHz"'
        at.child("design").fault(message, remedy=remedy)


def _check_driven(values: Values, at: Place) -> None:
    elements: list[Values] = values.get("element") or []
    roles = [element.get("role") for element in elements]
    driven = [index for index, role in enumerate(roles) if role == "driven"]
    _check_phasing(elements, driven, values, at)
    if elements and not driven and None not in roles:
        message = "no element is driven"
        remedy: Value = phrase("give one element {role}", role=written("role", '"driven"'))
        at.child("element").fault(message, remedy=remedy)
    gap = (values.get("feed") or {}).get("gap")
    for index in driven:
        if gap is None:
            return
        centre = centre_section(elements[index])
        if centre is not None and "through" not in elements[index] and gap >= 2 * centre[1]:
            wide = at.wide(2.0 * centre[1])
            message = f"the gap is as wide as the centre section ({wide}) or wider"
            remedy = 'write a smaller gap, such as "40 mm", or a longer centre section'
            at.child("feed", "gap").fault(message, remedy=remedy)


def _check_phasing(elements: list[Values], driven: list[int], values: Values, at: Place) -> None:
    """Several driven elements each hang on a phasing line, and nothing else does."""
    for index, element in enumerate(elements):
        place = at.child("element", index)
        if "phasing_line" in element and (index not in driven or len(driven) < 2):
            message: Value = "a phasing line is for one of several driven elements"
            place.child("phasing_line").fault(message, remedy="take it out, or drive another one")
    without = [index for index in driven if "phasing_line" not in elements[index]]
    if len(without) == len(driven):
        # None has a line: one of them was meant to be something else.
        without = without[1:]
    for index in without if len(driven) > 1 else ():
        first = next(other for other in driven if other != index)
        message = phrase("{other} is driven too, and this one has no phasing line",
                         other=_element(first))  # fmt: skip
        at.child("element", index, "role").fault(
            message,
            remedy=phrase(
                'keep one "driven", make the others "reflector" or "director", or give each {line}',
                line=PerReader(
                    file='phasing_line = { impedance = "75 ohm", length = "3.4 m" }',
                    forms="a phasing line with impedance and length",
                ),
            ),
        )
    kind = (values.get("feed") or {}).get("kind")
    if len(driven) > 1 and kind is not None and kind not in BENT_FEEDS:
        options = " or ".join(f'"{name}"' for name in BENT_FEEDS)
        message = f"a {kind} feeds one element, and this beam drives {len(driven)}"
        at.child("feed", "kind").fault(message, remedy=write_one("kind", options))


def _element(index: int) -> PerReader:
    """Name an element by its place in the file, or as it is counted in a form."""
    return PerReader(file=f"element[{index}]", forms=f"element {index + 1} of the list")


def _check_overlap(values: Values, at: Place) -> None:
    placed = [
        (index, element["at"], centre[0] / 2)
        for index, element in enumerate(values.get("element") or [])
        if element.get("at") is not None
        and "through" not in element
        and (centre := centre_section(element))
    ]
    for (first, x1, r1), (second, x2, r2) in combinations(placed, 2):
        if abs(x1 - x2) <= r1 + r2:
            same = "stands at the same place as" if x1 == x2 else "touches"
            message = phrase(f"this element {same} {{other}}", other=_element(first))
            remedy = f"move it along the boom by more than {at.wide(r1 + r2)}"
            at.child("element", second, "at").fault(message, remedy=remedy)


def _check_names(values: Values, at: Place) -> None:
    seen: dict[str, int] = {}
    for index, wire in enumerate(values.get("wire") or []):
        name = wire.get("name")
        if name is None:
            continue
        if name in seen:
            message = f"wire {seen[name] + 1} of this beam has the same name"
            at.child("wire", index, "name").fault(message, remedy="give each wire its own name")
        seen.setdefault(name, index)


def _check(values: Values, at: Place) -> None:
    if "post_line" in values and "fed_with" not in values:
        message = "a line along a post leads from the feed point of another beam"
        remedy = phrase("write {host}, or take {line} out", host=written("fed_with"),
                        line=written("post_line"))  # fmt: skip
        at.child("post_line").fault(message, remedy=remedy)
    _check_band(values, at)
    _check_driven(values, at)
    _check_overlap(values, at)
    _check_names(values, at)
    check_mounts(values, at)
    check_bent(values, at)


BEAM = TableSpec(
    noun="beam",
    check=_check,
    wavelength_key="design",
    fields=(
        words("name", "Owner's name for the beam, different from all others.", longest=64,
              required=True, example="20m"),
        entry("band", "Lowest and highest frequency of use.",
              Row(items=(_FREQUENCY, _FREQUENCY), least=2, example=_BAND_EXAMPLE,
                  names=("lowest", "highest")), required=True),
        entry("design", "Frequency the beam is designed for; wl is the wavelength here.",
              _FREQUENCY, required=True, example='design = "14.175 MHz"'),
        from_zero("height", "length", "Boom above ground.", high=2000.0, required=True,
                  example="16 m"),
        entry("heading", "Direction of fire, clockwise from true north.", HEADING, required=True,
              example=f'heading = "{HEADING_EXAMPLE}"'),
        choice("material", tuple(MATERIALS), "material",
               "Conductor of all elements; perfect has no loss.", required=True, example="6061-T6"),
        entry("feed", "How the driven element is fed.", FEED, required=True,
              example=f"feed = {FEED_EXAMPLE}"),
        entry("element", "The elements.", Tables(spec=ELEMENT, header="[[beam.element]]"),
              required=True, example="[[beam.element]] with role, at, diameter and length"),
        entry("boom", "Boom that carries the elements.", BOOM),
        entry("frame", "Points that wire elements with corners run along.", FRAME),
        entry("radials", "Wires at the foot of upright elements.", RADIALS),
        entry("mount",
              "How the elements are held on the boom, but for those that say it themselves.", MOUNT,
              example=f"mount = {MOUNT_EXAMPLE}"),
        choice("idle_feed", IDLE_FEEDS, "feed", "What hangs on its feed while another beam is in "
               "use: nothing, a short or a line that ends in 50 ohm.", example="open"),
        words("fed_with", "Name of the beam whose feed point it shares: the driven elements of "
              "both hang on the same two terminals, one line feeds both.", longest=64,
              example="40m").names("beam"),
        entry("post_line",
              "With fed_with: line along a post, bought or of two wires, from that beam's feed "
              "point to this one's; several beams hang on one. Taken as without loss.",
              POST_LINE, example=f"post_line = {POST_LINE_EXAMPLE}"),
        words("on_boom_of",
              "Name of the beam on whose boom its elements sit, places counted alike.", longest=64,
              example="20m").names("beam"),
        tables("wire", "Further wires in the beam's own axes.", WIRE, "beam"),
    ),
)  # fmt: skip


def build_beam(values: Values) -> Beam:
    """Make a beam out of fault-free values."""
    low, high = values["band"]
    elements = tuple(
        build_element(
            element,
            mount=mount_of(values, element=element),
            bent=bent_element(element, values=values, driven=element["role"] == "driven")
            if "through" in element
            else None,
        )
        for element in values["element"]
    )
    driven = next(i for i, element in enumerate(elements) if element.role == "driven")
    boom = values.get("boom", {})
    held = boom or values.get("frame", {})
    return Beam(
        name=values["name"],
        band=(low, high),
        design_frequency=values["design"],
        height=values["height"],
        heading=values["heading"],
        material=MATERIALS[values["material"]],
        feed=build_feed(values["feed"], centre=elements[driven].half[0].diameter),
        elements=elements,
        wires=tuple(build_wire(wire) for wire in values.get("wire", ())),
        frame=build_given(FRAME, values.get("frame")),
        radials=build_given(RADIALS, values.get("radials")),
        idle_feed=values.get("idle_feed", ""),
        fed_with=values.get("fed_with", ""),
        post_line=build_given(POST_LINE, values.get("post_line")),
        on_boom_of=values.get("on_boom_of", ""),
        clamp=boom.get("clamp"),
        rods=held.get("hardware", {}).get("rods", ""),
    )

"""What an old hand doubts at sight of one beam: its elements, its tubes, its boom."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, degrees

from boomwright.base import Notice, SolverError
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam, Element, Trap
from boomwright.plan.model_boom import BoomPlan
from boomwright.solver import Ground, beam_wires

#: common practice {common-practice-plan-doubts}: a driven element is about half a wavelength long
_DRIVEN_WL = (0.4, 0.6)
#: and its neighbours stand well within one
_FARTHEST_WL = 1.0
#: less play than this between two tubes jams them [m] {common-practice-tubing}
_LEAST_PLAY = 0.0001
#: a tie from above lies at 15 degrees or more
_FLATTEST_TIE_DEG = 15.0


def beam_doubts(beam: Beam, *, boom: BoomPlan | None, ground: Ground) -> Iterator[Notice]:
    """List what is allowed in a beam but doubtful."""
    yield from _band(beam)
    yield from _roles(beam)
    yield from _lengths(beam)
    yield from _places(beam)
    yield from _crossings(beam, ground)
    yield from _traps(beam)
    yield from _tight_tubes(beam)
    if boom is not None:
        yield from _boom(beam, boom)


def doubt(
    code: str, text: Value, *, value: Value = "", limit: Value = "", source: str = "",
    how: Value = "",
) -> Notice:  # fmt: skip
    """Make a doubt about what a plan says."""
    return Notice(
        code=f"plan.{code}", text=text, severity="doubt", value=value, limit=limit,
        source=source, how=how,
    )  # fmt: skip


def _long(length: float) -> Quantity:
    return Quantity(length, "place")


def _thin(length: float) -> Quantity:
    return Quantity(length, "wire size")


def between(low: Value, high: Value) -> Value:
    """Say a range."""
    return phrase("{low} to {high}", low=low, high=high)


def _labelled(beam: Beam) -> list[tuple[str, Element]]:
    return list(zip(beam.element_labels, beam.elements, strict=True))


def _band(beam: Beam) -> Iterator[Notice]:
    low, high = beam.band
    if not low <= beam.design_frequency <= high:
        yield doubt(
            "design-outside-band",
            f"{beam.name}: the design frequency lies outside the band of use.",
            value=f"{beam.design_frequency / 1e6:.6g} MHz",
            limit=f"{low / 1e6:.6g} to {high / 1e6:.6g} MHz",
        )


def _roles(beam: Beam) -> Iterator[Notice]:
    driven = beam.elements[beam.driven_index].position
    for name, element in _labelled(beam):
        behind = element.position < driven
        if (element.role == "director" and behind) or (
            element.role == "reflector" and element.position > driven
        ):
            side = "behind" if behind else "in front of"
            yield doubt(
                "role-against-place",
                f"{beam.name}: the {name} stands {side} the driven element. Places "
                "along the boom grow towards the heading.",
            )


def _lengths(beam: Beam) -> Iterator[Notice]:
    # Wires and traps make an element longer or shorter than its tubes.
    # So do corners and the length of a loop.
    if beam.wires or beam.bent or any(element.traps for element in beam.elements):
        return
    driven = beam.elements[beam.driven_index]
    share, (low, high) = driven.length / beam.wavelength, _DRIVEN_WL
    if not low <= share <= high:
        yield doubt(
            "driven-length",
            f"{beam.name}: the driven element is {share:.2f} wavelengths long at the design "
            "frequency. About half a wavelength is usual.",
            value=_long(driven.length),
            limit=between(_long(low * beam.wavelength), _long(high * beam.wavelength)),
        )
    reflectors = [each.length for each in beam.elements if each.role == "reflector"]
    if not reflectors:
        return
    if max(reflectors) < driven.length:
        yield doubt(
            "reflector-short",
            f"{beam.name}: no reflector is as long as the driven element. A reflector is usually "
            "the longest of all.",
            value=_long(max(reflectors)),
            limit=_long(driven.length),
        )
    for name, element in _labelled(beam):
        if element.role == "director" and element.length > max(reflectors):
            yield doubt(
                "director-long",
                f"{beam.name}: the {name} is longer than the reflector, so it reflects "
                "too. Are the two lengths exchanged?",
                value=_long(element.length),
                limit=_long(max(reflectors)),
            )


def _places(beam: Beam) -> Iterator[Notice]:
    limit = _FARTHEST_WL * beam.wavelength
    for name, element in _labelled(beam):
        gaps = [
            abs(other.position - element.position)
            for other in beam.elements
            if other is not element
        ]
        if gaps and min(gaps) > limit:
            yield doubt(
                "element-far",
                f"{beam.name}: the {name} stands more than a wavelength from every other. "
                "Was a decimal point or a unit missed?",
                value=_long(min(gaps)),
                limit=_long(limit),
            )


def _crossings(beam: Beam, ground: Ground) -> Iterator[Notice]:
    if not (beam.wires or beam.bent):
        return
    try:
        beam_wires(beam=beam, ground=ground)
    except SolverError as error:
        yield doubt("parts-cross", f"{beam.name}: {error}.")


def _traps(beam: Beam) -> Iterator[Notice]:
    names = [
        name
        for name, element in _labelled(beam)
        if any(trap.mass is None or trap.diameter is None for trap in element.traps)
    ]
    if names:
        usual = Trap(place=1.0, width=0.0, inductance=1.0, capacitance=1.0, quality=1.0)
        yield doubt(
            "traps",
            phrase(
                "{beam}: nobody weighed and measured the traps in {names}. Each is taken as "
                "{mass} and {wide} wide: give mass and diameter in its trap.",
                beam=beam.name,
                names=", ".join(names),
                mass=Quantity(usual.weighs, "small mass"),
                wide=Quantity(usual.wide, "small length"),
            ),
        )


def _tight_tubes(beam: Beam) -> Iterator[Notice]:
    """Tubes that fill the bore they go into, as their rounded sizes are written."""
    found = {
        (outer.diameter, outer.wall, inner.diameter)
        for element in beam.elements
        for outer, inner in pairwise(element.half)
        if outer.wall > 0.0 and inner.diameter < outer.diameter
    }
    for size, wall, inner in sorted(found):
        play = size - 2.0 * wall - inner
        if play < _LEAST_PLAY:
            yield doubt(
                "tube-fit",
                phrase(
                    "{beam}: a tube of {inner} fills the bore of {outer} as written. Sizes are "
                    "rounded: try one in the other before you buy them all.",
                    beam=beam.name,
                    inner=_thin(inner),
                    outer=_thin(size),
                ),
                value=phrase("{play} play", play=_thin(play)),
                limit=phrase("{play} play", play=_thin(_LEAST_PLAY)),
            )


def _boom(beam: Beam, boom: BoomPlan) -> Iterator[Notice]:
    front = boom.rear_end + boom.length
    whole = between(_long(boom.rear_end), _long(front))
    placed = [(name, each.position) for name, each in _labelled(beam)]
    placed += [(each.name, each.place) for each in boom.fitting if each.place is not None]
    for number, (name, at) in enumerate(placed):
        if not boom.rear_end <= at <= front:
            part = "element" if number < len(beam.elements) else "fitting"
            yield doubt(
                f"{part}-off-boom",
                f"{beam.name}: {name} stands beyond the end of the boom. Check its place, and "
                "rear_end and length of the boom.",
                value=_long(at),
                limit=whole,
            )
    widest = max(each.half[0].diameter for each in beam.elements)
    if boom.diameter < widest:
        yield doubt(
            "boom-thin",
            f"{beam.name}: the boom is thinner than an element it carries.",
            value=_thin(boom.diameter),
            limit=_thin(widest),
        )
    if boom.tie is not None:
        mast = boom.rear_end + boom.length / 2.0 if boom.clamp is None else boom.clamp
        arm = boom.tie.share * max(mast - boom.rear_end, front - mast)
        angle = degrees(atan2(boom.tie.rise, arm))
        if angle < _FLATTEST_TIE_DEG:
            yield doubt(
                "tie-flat",
                f"{beam.name}: the tie lies so flat that it pushes the boom far more than it "
                "lifts it. Raise its upper end.",
                value=f"{angle:.0f} deg",
                limit=f"{_FLATTEST_TIE_DEG:.0f} deg (common practice)",
            )

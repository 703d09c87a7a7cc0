"""Ways to save a weak section or joint, each as a changed element with what it gains.

The electrical length changes too: the caller gives the new element to the field solver.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.base.records import dataclass, replace
from boomwright.parts import Element, Material, TubeSection
from boomwright.structure.beam.elements import ElementStrength, element_strength
from boomwright.structure.beam.stepped import Alongside
from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.wording import stretch, thickness

#: walls that tubes for elements, booms and masts are sold with [m] {common-practice-tubing}
TRADE_WALLS: Final = tuple(
    1e-3 * each for each in (1.6, 2.0, 2.5, 3.2, 4.0, 5.0, 6.3, 8.0, 10.0, 12.5)
)
#: thickest wall over diameter that is still a tube [-]
THICKEST_WALL: Final = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One change to an element."""

    text: Value  #: what to do, in one sentence
    element: Element  #: the changed element


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyEffect:
    """What a change does to one element half."""

    remedy: Remedy  #: the change
    before: ElementStrength  #: strength as it was
    after: ElementStrength  #: strength after the change
    use_before: float = 0.0  #: most used of its limits as it was, joints too [-]
    use_after: float = 0.0  #: most used of its limits after the change [-]

    @property
    def droop_change(self) -> float:
        """Change of the tip's droop at no wind [m]."""
        return self.after.dead_droop - self.before.dead_droop

    @property
    def weight_change(self) -> float:
        """Change of the weight of one half [N]."""
        return self.after.half_weight - self.before.half_weight


def double_wall(*, element: Element, section: int, length: float | None = None) -> Remedy:
    """Slide a nesting tube inside a section, from its inner end; outer sizes stay.

    Args:
        length: length of the inner tube; None fills the section [m]

    Raises:
        StructureInputError: when the section does not exist or twice its wall does not fit
    """
    tube = _section(element, section)
    if tube.wall <= 0.0 or 4.0 * tube.wall > tube.diameter:
        msg = f"section {section}: twice the wall {tube.wall} m does not fit in {tube.diameter} m"
        raise StructureInputError(msg)
    inner = tube.length if length is None else min(length, tube.length)
    if inner <= 0.0:
        msg = f"section {section}: inner tube length {length} m must be above zero"
        raise StructureInputError(msg)
    doubled = TubeSection(diameter=tube.diameter, length=inner, wall=2.0 * tube.wall)
    rest = tube.length - inner
    parts = (doubled,) if rest <= 0.0 else (doubled, replace(tube, length=rest))
    half = (*element.half[:section], *parts, *element.half[section + 1 :])
    words = "double the wall of section {number} over its inner {inner}"
    text = phrase(words, number=section + 1, inner=stretch(inner))
    return Remedy(text=text, element=replace(element, half=half))


def extend_outer_tube(*, element: Element, section: int, by: float) -> Remedy:
    """Let the next larger tube reach further out over the weak one; the whole length stays.

    Args:
        section: weak section, counted from the boom; not the first
        by: how much further the larger tube reaches [m]

    Raises:
        StructureInputError: when there is no larger tube or the weak one would vanish
    """
    tube = _section(element, section)
    if section == 0 or not 0.0 < by < tube.length:
        raise StructureInputError(
            f"section {section}: move a step between two tubes by more than 0 and "
            f"less than {tube.length} m, not {by} m"
        )
    larger = element.half[section - 1]
    half = list(element.half)
    half[section - 1] = replace(larger, length=larger.length + by)
    half[section] = replace(tube, length=tube.length - by)
    words = "let tube {section} reach {by} further over tube {number}"
    text = phrase(words, section=section, by=stretch(by), number=section + 1)
    return Remedy(text=text, element=replace(element, half=tuple(half)))


def lengthen_overlap(*, element: Element, section: int, by: float) -> Remedy:
    """Push the smaller tube further into the larger one and rivet it tight there.

    Args:
        section: the smaller tube, counted from the boom; not the first
        by: length of tight overlap that shall count as double wall [m]

    Raises:
        StructureInputError: when there is no larger tube or the overlap does not fit in it
    """
    tube = _section(element, section)
    if section == 0:
        msg = "section 0 has no larger tube to overlap with: double its wall instead"
        raise StructureInputError(msg)
    larger = element.half[section - 1]
    thick = larger.wall + tube.wall
    if not 0.0 < by <= larger.length or 2.0 * thick > larger.diameter:
        msg = f"overlap of {by} m does not fit in section {section - 1} of {larger.length} m"
        raise StructureInputError(msg)
    overlap = TubeSection(diameter=larger.diameter, length=by, wall=thick)
    rest = larger.length - by
    parts = (overlap,) if rest <= 0.0 else (replace(larger, length=rest), overlap)
    half = (*element.half[: section - 1], *parts, *element.half[section:])
    words = "lengthen the overlap of tubes {section} and {number} by {by}, riveted"
    text = phrase(words, section=section, number=section + 1, by=stretch(by))
    return Remedy(text=text, element=replace(element, half=half))


def larger_tubes(*, element: Element, by: float) -> Remedy:
    """Make every tube larger, the walls as they are.

    Args:
        by: how much larger each diameter is [m]
    """
    half = tuple(replace(tube, diameter=tube.diameter + by) for tube in element.half)
    words = "take every tube {by} larger, {first} at the boom"
    text = phrase(words, by=thickness(by), first=thickness(half[0].diameter))
    return Remedy(text=text, element=replace(element, half=half))


def other_walls(*, element: Element, spans: Sequence[tuple[float, float, float]]) -> Remedy:
    """Take thicker tubes, and push one into each that the next one would not go into else.

    Args:
        spans: of each section the wall at its inner end, how far it reaches, and the wall beyond
            [m] (n_sections, 3)
    """
    half: list[TubeSection] = []
    taken: list[Value] = []
    pushed: list[Value] = []
    sections = enumerate(zip(element.half, spans, strict=True), start=1)
    for number, (tube, (wall, length, beyond)) in sections:
        half.append(replace(tube, wall=wall, length=length))
        if beyond != tube.wall:
            said = Quantity(beyond, "wall")
            taken.append(phrase("of {wall} for section {number}", wall=said, number=number))
        if length < tube.length:
            half.append(replace(tube, wall=beyond, length=tube.length - length))
            inner, said = stretch(length), Quantity(wall, "wall")
            words = "into section {number} over its inner {inner}, to a wall of {wall}"
            pushed.append(phrase(words, number=number, inner=inner, wall=said))
    steps: list[Value] = [phrase("take a wall {walls}", walls=listed(taken))] if taken else []
    if pushed:
        steps.append(phrase("push a tube {into}", into=listed(pushed, between=" and ")))
    text = listed(steps, between="; then ")
    return Remedy(text=text, element=replace(element, half=tuple(half)))


def remedy_effect(
    *,
    element: Element,
    remedy: Remedy,
    material: Material,
    pressure: float,
    ice: IceCoat | None = None,
    ice_pressure: float = 0.0,
    beside: Alongside | None = None,
) -> RemedyEffect:
    """Work out an element before and after a change.

    Args:
        ice_pressure: velocity pressure that comes with the ice [Pa]
    """
    before, after = (
        element_strength(
            element=each,
            material=material,
            pressure=pressure,
            ice=ice,
            ice_pressure=ice_pressure,
            beside=beside,
        )
        for each in (element, remedy.element)
    )
    return RemedyEffect(remedy=remedy, before=before, after=after)


def thicker_walls(wall: float, *, diameter: float) -> list[float]:
    """Walls thicker than one that a tube is sold with [m] (n_walls,).

    Args:
        wall: the wall [m]
        diameter: of the tube [m]
    """
    return [each for each in TRADE_WALLS if wall < each <= THICKEST_WALL * diameter]


def _section(element: Element, section: int) -> TubeSection:
    if not 0 <= section < len(element.half):
        msg = f"section {section} does not exist: the half has {len(element.half)}"
        raise StructureInputError(msg)
    return element.half[section]

"""Shop dimensions of a beam: what a builder measures, rounded so that the sums still hold.

A length along an element half is rounded as a distance from the boom; an exposed length is
the difference of two such rounded distances. So exposed lengths add up to the half length
exactly, in millimetres, in sixteenths and in thousandths of an inch, and no mark on the tube
is more than half a unit from the computed place. The same holds along the boom.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import gcd

from boomwright.base import UnitSystem, feet_inches_sixteenths
from boomwright.base.quantity import PerSystem, Value, phrase
from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.charts.beam.element_names import element_labels
from boomwright.parts import Beam, Element, Role
from boomwright.plan.model_boom import BoomPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLength:
    """One length in the three steps a workshop reads it in, each rounded on its own."""

    millimetres: int  #: whole millimetres [mm]
    sixteenths: int  #: whole sixteenths of an inch [in/16]
    thousandths: int  #: whole thousandths of an inch [in/1000]

    def __sub__(self, other: CutLength) -> CutLength:
        return CutLength(
            millimetres=self.millimetres - other.millimetres,
            sixteenths=self.sixteenths - other.sixteenths,
            thousandths=self.thousandths - other.thousandths,
        )

    def __add__(self, other: CutLength) -> CutLength:
        return CutLength(
            millimetres=self.millimetres + other.millimetres,
            sixteenths=self.sixteenths + other.sixteenths,
            thousandths=self.thousandths + other.thousandths,
        )

    def metres(self, *, system: UnitSystem) -> float:
        """The rounded length as a number, in the step of one unit system [m].

        Args:
            system: ``metric`` for millimetres, ``us`` for sixteenths of an inch
        """
        if system == "metric":
            return self.millimetres / 1000.0
        return self.sixteenths * METRES_PER_INCH / 16.0

    @property
    def metric_text(self) -> str:
        """The length as ``5180 mm`` [mm]."""
        return f"{self.millimetres} mm"

    @property
    def told(self) -> Value:
        """The length as a tape in the workshop reads it: millimetres, or inches without feet."""
        unit = PerSystem(metric="mm", us="in")
        return phrase("{bare} {unit}", bare=self.bare, unit=unit)

    @property
    def bare(self) -> PerSystem:
        """The same without its unit, for a column that names it."""
        whole, part = divmod(abs(self.sixteenths), 16)
        inches = _fraction_text(self.sixteenths) if whole or not part else _part_text(part)
        return PerSystem(metric=str(self.millimetres), us=inches)

    @property
    def us_text(self) -> str:
        """The length as ``17 ft 0-3/8 in`` [ft, in]."""
        return feet_inches_sixteenths(self.metres(system="us"))

    @property
    def decimal_inch_text(self) -> str:
        """The length as ``203.937`` [in]."""
        return f"{self.thousandths / 1000.0:.3f}"

    @property
    def sixteenths_text(self) -> str:
        """The length as ``203 15/16``, no feet, as a spreadsheet reads a fraction [in]."""
        return _fraction_text(self.sixteenths)


def _fraction_text(sixteenths: int) -> str:
    whole, part = divmod(abs(sixteenths), 16)
    sign = "-" if sixteenths < 0 else ""
    if part == 0:
        return f"{sign}{whole}"
    return f"{sign}{whole} {_part_text(part)}"


def _part_text(sixteenths: int) -> str:
    common = gcd(sixteenths, 16)
    return f"{sixteenths // common}/{16 // common}"


def cut_length(length: float) -> CutLength:
    """Round one length to each of the three steps."""
    inches = length / METRES_PER_INCH
    return CutLength(
        millimetres=round(length * 1000.0),
        sixteenths=round(inches * 16.0),
        thousandths=round(inches * 1000.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionCut:
    """One tube of an element half."""

    number: int  #: counted from the boom outwards, from 1
    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness, 0 when not given [m]
    exposed: CutLength
    reaches: CutLength  #: distance from the boom to its outer end


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementCut:
    """All shop dimensions of one element."""

    index: int  #: index in the plan, from 0
    number: int  #: counted along the boom from the rear, from 1
    label: str  #: role, with a number where the role occurs more than once
    role: Role  #: ``reflector``, ``driven`` or ``director``
    plan_position: CutLength  #: position as the plan counts it
    from_rear: CutLength  #: distance from the rearmost element
    from_front: CutLength  #: distance from the foremost element
    to_next: CutLength | None  #: distance to the next element forward; None for the foremost
    half_length: CutLength  #: boom to tip
    full_length: CutLength  #: tip to tip, twice the rounded half length
    sections: tuple[SectionCut, ...]  #: tubes of one half, from the boom outwards (n_sections,)


def _section_cuts(element: Element) -> tuple[SectionCut, ...]:
    cuts = []
    reached, inner = 0.0, cut_length(0.0)
    for number, section in enumerate(element.half, start=1):
        reached += section.length
        outer = cut_length(reached)
        cuts.append(
            SectionCut(
                number=number,
                diameter=section.diameter,
                wall=section.wall,
                exposed=outer - inner,
                reaches=outer,
            )
        )
        inner = outer
    return tuple(cuts)


def cut_list(*, beam: Beam, boom: BoomPlan | None = None) -> tuple[ElementCut, ...]:
    """Work out the shop dimensions of every element.

    Args:
        boom: its boom; places are then rounded as the tape reads them from the boom's rear end,
            so that
            this list and the boom's own agree; None rounds from the rear element
    """
    labels = element_labels(beam)
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    rear = beam.elements[order[0]].position
    hook = rear if boom is None else boom.rear_end
    read = [cut_length(beam.elements[i].position - hook) for i in order]
    places = [each - read[0] for each in read]
    cuts = []
    for number, index in enumerate(order, start=1):
        element = beam.elements[index]
        half_length = cut_length(element.half_length)
        here = places[number - 1]
        cuts.append(
            ElementCut(
                index=index,
                number=number,
                label=labels[index],
                role=element.role,
                plan_position=cut_length(element.position),
                from_rear=here,
                from_front=places[-1] - here,
                to_next=places[number] - here if number < len(places) else None,
                half_length=half_length,
                full_length=half_length + half_length,
                sections=_section_cuts(element),
            )
        )
    return tuple(cuts)


def rounded_beam(*, beam: Beam, system: UnitSystem, boom: BoomPlan | None = None) -> Beam:
    """Build the beam with every shop dimension rounded, so that drawings and tables agree.

    Args:
        boom: its boom, as for the cut list; None without
    """
    elements = list(beam.elements)
    rear = min(element.position for element in elements)
    for cut in cut_list(beam=beam, boom=boom):
        element = beam.elements[cut.index]
        half = tuple(
            replace(section, length=shown.exposed.metres(system=system))
            for section, shown in zip(element.half, cut.sections, strict=True)
        )
        place = rear + cut.from_rear.metres(system=system)
        elements[cut.index] = replace(element, position=place, half=half)
    return replace(beam, elements=tuple(elements))

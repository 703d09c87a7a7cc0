"""Shop figures of the elements, read off the parts: which tube is sawn how long, and where it ends.

The parts say where every tube begins and ends; here those places are rounded as distances from the
boom centre line, so that lengths to saw less overlaps, and exposed lengths, add up to the half
length exactly, in millimetres, in sixteenths and in thousandths of an inch; no mark on a tube is
more than half a unit from the computed place. Places along the boom are rounded alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from boomwright.base import UnitSystem
from boomwright.base.records import dataclass, replace
from boomwright.parts import Bar, Beam, Cut, Part, Role, TubeKind, element_group
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import CutLength, cut_length

NOTHING = CutLength(millimetres=0, sixteenths=0, thousandths=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopTube:
    """One tube of an element, as it is cut; all but a centre tube are cut twice."""

    left: tuple[Part, ...]  #: its pieces on the left, or through the middle, from the boom outwards
    right: tuple[Part, ...]  #: the same on the right, without the one through the middle
    section: int  #: counted from the boom outwards, from 1
    cut: CutLength  #: length to saw
    #: lengths of the pieces when it is longer than the stock, else the cut alone
    parts: tuple[CutLength, ...]
    overlap: CutLength  #: part of it inside the next larger tube
    starts: CutLength  #: distance of its inner end from the boom centre line
    reaches: CutLength  #: distance of its outer end from the boom centre line
    exposed: CutLength  #: length that shows, counted from the boom centre line

    @property
    def marks(self) -> tuple[str, ...]:
        """What is written on each piece."""
        return tuple(part.mark for part in (*self.left, *self.right))

    @property
    def alike(self) -> tuple[tuple[Part, ...], ...]:
        """The piece of each side for every length of its parts, one of them through the middle."""
        alone = len(self.left) - len(self.right)
        return tuple(
            (part, *(self.right[k - alone : k - alone + 1] if k >= alone else ()))
            for k, part in enumerate(self.left)
        )

    @property
    def kind(self) -> TubeKind:
        """Tube that it is cut from."""
        return sawn_cut(self.left[0]).kind


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementCut:
    """Place and lengths of one element."""

    index: int  #: index in the plan, from 0
    number: int  #: counted along the boom from the rear, from 1
    label: str  #: role, with a number where the role occurs more than once
    role: Role  #: ``reflector``, ``driven`` or ``director``
    tape: CutLength  #: reading of a tape from the rear end of its boom, or the rear element
    from_rear: CutLength  #: distance from the rearmost element
    from_front: CutLength  #: distance from the foremost element
    to_next: CutLength | None  #: distance to the next element forward; None for the foremost
    half_length: CutLength  #: boom to tip, of an upright wire foot to top
    full_length: CutLength  #: tip to tip, twice the rounded half length; of an upright wire that
    upright: bool = False  #: whether it is one wire from its foot, without a second half


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopElement:
    """An element as it is built."""

    cut: ElementCut  #: its rounded dimensions
    tubes: tuple[ShopTube, ...]  #: its tubes from the boom outwards (n_sections,)
    #: from the boom centre line to the inner end of each half; 0 for an uncut element
    half_gap: CutLength

    @property
    def is_cut(self) -> bool:
        """Whether the element is in two halves."""
        return self.half_gap.millimetres > 0 or self.half_gap.sixteenths > 0


def sawn_cut(part: Part) -> Cut:
    """How a part is sawn.

    Raises:
        ValueError: for a part that is bought as it is
    """
    if part.cut is None:
        raise ValueError(f"{part.mark} is not sawn")
    return part.cut


def element_cuts(
    parts: Iterable[Part], *, beam: Beam, boom: BoomPlan | None = None
) -> tuple[ElementCut, ...]:
    """Read off where every element sits and how long it is, from the rear to the front.

    Args:
        boom: its boom; places are then rounded as the tape reads them from the boom's rear end;
            None rounds from the rear element
    """
    labels = beam.element_labels
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    bars: dict[str, list[Bar]] = {}
    for part in parts:
        if part.role in {"element tube", "wire"}:
            bars.setdefault(part.group, []).extend(
                solid for solid in part.solids if isinstance(solid, Bar)
            )
    rear = beam.elements[order[0]].position if boom is None else boom.rear_end
    runs = [bars[element_group(number)] for number in range(1, len(order) + 1)]
    # Wire with corners has no one place, and is where the plan says.
    at = [beam.elements[i].position - rear if beam.elements[i].bent else run[0].middle[0]
          for i, run in zip(order, runs, strict=True)]  # fmt: skip
    read = [cut_length(place) for place in at]
    places = [each - read[0] for each in read]
    cuts = []
    for number, (index, run) in enumerate(zip(order, runs, strict=True), start=1):
        element, here = beam.elements[index], places[number - 1]
        if element.bent:
            half = sum(bar.length for bar in run) / (1.0 if element.upright else 2.0)
        else:
            half = max(abs(bar.end[1]) for bar in run)
        half_length = cut_length(half)
        cuts.append(
            ElementCut(
                index=index,
                number=number,
                label=labels[index],
                role=element.role,
                tape=read[number - 1],
                from_rear=here,
                from_front=places[-1] - here,
                to_next=places[number] - here if number < len(places) else None,
                half_length=half_length,
                full_length=half_length if element.upright else half_length + half_length,
                upright=element.upright,
            )
        )
    return tuple(cuts)


def rounded_beam(elements: Sequence[ShopElement], *, beam: Beam, system: UnitSystem) -> Beam:
    """Build the beam with every shop dimension rounded, so that drawings and tables agree."""
    made = list(beam.elements)
    rear = min(element.position for element in made)
    for shop in elements:
        half = tuple(
            replace(section, length=tube.exposed.metres(system=system))
            for section, tube in zip(made[shop.cut.index].half, shop.tubes, strict=True)
        )
        place = rear + shop.cut.from_rear.metres(system=system)
        made[shop.cut.index] = replace(made[shop.cut.index], position=place, half=half)
    return replace(beam, elements=tuple(made))


def shop_elements(
    parts: Sequence[Part], *, beam: Beam, boom: BoomPlan | None = None
) -> tuple[ShopElement, ...]:
    """Read off how every straight element is cut and marked.

    Args:
        boom: its boom; None counts places from the rear element
    """
    tubes: dict[str, list[tuple[Part, Bar]]] = {}
    for part in parts:
        if part.role == "element tube":
            (solid,) = part.solids
            if isinstance(solid, Bar):
                tubes.setdefault(part.group, []).append((part, solid))
    made = []
    for cut in element_cuts(parts, beam=beam, boom=boom):
        mine = tubes.get(element_group(cut.number), [])
        if not mine:
            continue  # wire with corners is cut by its own list
        # A tube that slides far into a short one may pass the middle; the first one tells the gap.
        first = [bar for part, bar in mine if sawn_cut(part).overlap == 0.0]
        inner = min(min(abs(bar.start[1]), abs(bar.end[1])) for bar in first)
        through = any(bar.start[1] * bar.end[1] < 0.0 for bar in first)
        half_gap = NOTHING if through or inner < 1e-9 else cut_length(inner)
        made.append(ShopElement(cut=cut, tubes=_tubes(mine, half_gap), half_gap=half_gap))
    return tuple(made)


def _tubes(mine: list[tuple[Part, Bar]], half_gap: CutLength) -> tuple[ShopTube, ...]:
    # The end of a tube is its outer one, also where it slides in past the middle.
    left = [(part, bar) for part, bar in mine if bar.end[1] > 0.0]
    right = [(part, bar) for part, bar in mine if bar.end[1] <= 0.0]
    sections = list(zip(_sections(left), _sections(right), strict=False))
    if len(_sections(right)) < len(_sections(left)):  # its first tube goes through the middle
        first, *others = _sections(left)
        sections = [(first, []), *zip(others, _sections(right), strict=True)]
    made, inner = [], NOTHING
    for number, (one, other) in enumerate(sections, start=1):
        overlap = cut_length(sawn_cut(one[0][0]).overlap)
        # A centre tube is measured from its middle, all others from where they begin.
        ends = [cut_length(abs(bar.end[1])) for _, bar in one]
        through = number == 1 and one[0][1].start[1] < 0.0
        starts = half_gap if number == 1 else inner - overlap
        # Where a trap sits between two pieces the next does not begin where the last one ends.
        begins = [starts, *(cut_length(abs(bar.start[1])) for _, bar in one[1:])]
        lengths = [b - a for a, b in zip(begins, ends, strict=True)]
        if through:
            lengths[0] = ends[0] + ends[0]
        made.append(
            ShopTube(
                left=tuple(part for part, _ in one),
                right=tuple(part for part, _ in other),
                section=number,
                cut=sum(lengths[1:], start=lengths[0]),
                parts=tuple(lengths),
                overlap=overlap,
                starts=NOTHING if through else starts,
                reaches=ends[-1],
                exposed=ends[-1] - inner,
            )
        )
        inner = ends[-1]
    return tuple(made)


def _sections(side: list[tuple[Part, Bar]]) -> list[list[tuple[Part, Bar]]]:
    """Pieces of one side from the boom outwards: each that slides into another begins a section."""
    found: list[list[tuple[Part, Bar]]] = []
    for part, bar in sorted(side, key=lambda entry: abs(entry[1].end[1])):
        if not found or sawn_cut(part).overlap > 0.0:
            found.append([])
        found[-1].append((part, bar))
    return found

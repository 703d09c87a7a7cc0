"""Shop figures of the elements, read off the parts: which tube is sawn how long, and where it ends.

The parts say where every tube begins and ends; here those places are rounded as distances from the
boom centre line, so that lengths to saw less overlaps add up to the half length exactly, in
millimetres and in sixteenths of an inch.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from boomwright.parts import Bar, Beam, Cut, Part, TubeKind, element_group
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import CutLength, ElementCut, cut_length, cut_list

NOTHING = CutLength(millimetres=0, sixteenths=0, thousandths=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopTube:
    """One tube of an element, as it is cut; all but a centre tube are cut twice."""

    left: tuple[Part, ...]  #: its pieces on the left, or through the middle, from the boom outwards
    right: tuple[Part, ...]  #: the same on the right; none for one through the middle
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
    def kind(self) -> TubeKind:
        """Tube that it is cut from."""
        return sawn_cut(self.left[0]).kind


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
        msg = f"{part.mark} is not sawn"
        raise ValueError(msg)
    return part.cut


def shop_elements(
    parts: Iterable[Part], *, beam: Beam, boom: BoomPlan | None = None
) -> tuple[ShopElement, ...]:
    """Read off how every element is cut and marked.

    Args:
        parts: parts of the beam, from its assembly
        boom: its boom; None counts places from the rear element
    """
    tubes: dict[str, list[tuple[Part, Bar]]] = {}
    for part in parts:
        if part.role == "element tube":
            (solid,) = part.solids
            if isinstance(solid, Bar):
                tubes.setdefault(part.group, []).append((part, solid))
    made = []
    for cut in cut_list(beam=beam, boom=boom):
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
        through = number == 1 and not other
        starts = half_gap if number == 1 else inner - overlap
        lengths = [b - a for a, b in pairwise([starts, *ends])]
        if through:
            lengths = [ends[-1] + ends[-1]]
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

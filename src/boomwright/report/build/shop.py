"""Shop figures of the elements: which tube is cut how long, marked how, and where it ends.

Everything follows from the rounded dimensions of ``dimensions``: a cut length is a sum or a
difference of rounded distances from the boom centre line, so cut lengths less overlaps add up to
the half length exactly, in millimetres and in sixteenths of an inch.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from boomwright.cost import DEFAULT_STOCK
from boomwright.parts import Beam, Joints, part_count, part_letter
from boomwright.plan import Plan
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import CutLength, ElementCut, cut_length, cut_list

_NOTHING = CutLength(millimetres=0, sixteenths=0, thousandths=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopRules:
    """How tubes are cut and joined in this job."""

    joints: Joints  #: overlaps
    longest_stock: float  #: longest length that can be bought [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopTube:
    """One tube of an element, as it is cut; all but a centre tube are cut twice."""

    marks: tuple[str, ...]  #: what is written on each
    section: int  #: counted from the boom outwards, from 1
    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness, 0 when not given [m]
    cut: CutLength  #: length to saw
    #: lengths of the parts when it is longer than the stock, else the cut alone
    parts: tuple[CutLength, ...]
    overlap: CutLength  #: part of it inside the next larger tube
    starts: CutLength  #: distance of its inner end from the boom centre line
    reaches: CutLength  #: distance of its outer end from the boom centre line
    exposed: CutLength  #: length that shows, counted from the boom centre line


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


def shop_rules(plan: Plan) -> ShopRules:
    """Take overlaps and stock from the plan, as the bill does."""
    paid = plan.prices
    overlap = None if paid is None else paid.overlap
    stock = () if paid is None else paid.stock
    return ShopRules(
        joints=Joints() if overlap is None else Joints(least_overlap=overlap),
        longest_stock=max(stock or DEFAULT_STOCK),
    )


def split_evenly(length: CutLength, parts: int) -> tuple[CutLength, ...]:
    """Divide a rounded length into whole units that add up to it."""

    def shares(total: int) -> list[int]:
        marks = [round(total * number / parts) for number in range(parts + 1)]
        return [after - before for before, after in pairwise(marks)]

    rows = zip(
        shares(length.millimetres),
        shares(length.sixteenths),
        shares(length.thousandths),
        strict=True,
    )
    return tuple(CutLength(millimetres=a, sixteenths=b, thousandths=c) for a, b, c in rows)


def shop_elements(
    *, beam: Beam, rules: ShopRules, boom: BoomPlan | None = None
) -> tuple[ShopElement, ...]:
    """Work out how every element is cut and marked.

    Args:
        boom: its boom; None counts places from the rear element
    """
    made = []
    for cut in cut_list(beam=beam, boom=boom):
        is_cut = cut.role == "driven" and beam.feed.cuts_element
        half_gap = cut_length(beam.feed.gap / 2.0) if is_cut else _NOTHING
        tubes = _tubes(beam=beam, cut=cut, is_cut=is_cut, half_gap=half_gap, rules=rules)
        made.append(ShopElement(cut=cut, tubes=tubes, half_gap=half_gap))
    return tuple(made)


def _tubes(
    *, beam: Beam, cut: ElementCut, is_cut: bool, half_gap: CutLength, rules: ShopRules
) -> tuple[ShopTube, ...]:
    inner, tubes = _NOTHING, []
    for number, section in enumerate(cut.sections, start=1):
        exact = beam.elements[cut.index].half[number - 1].length
        sides: tuple[str, ...] = ("L", "R")
        overlap, starts = _NOTHING, inner
        if number > 1:
            slid_in = rules.joints.overlap(section.diameter)
            overlap = cut_length(slid_in)
            length, run = section.exposed + overlap, exact + slid_in
            starts = inner - overlap
        elif is_cut:
            length, starts = section.reaches - half_gap, half_gap
            run = exact - beam.feed.gap / 2.0
        elif 2.0 * exact <= rules.longest_stock:
            length, run, sides = section.reaches + section.reaches, 2.0 * exact, ("C",)
        else:
            length, run = section.reaches, exact
        parts = part_count(run, longest_stock=rules.longest_stock)
        tubes.append(
            ShopTube(
                marks=tuple(
                    f"{cut.number}.{number}{side}" + (part_letter(part) if parts > 1 else "")
                    for side in sides
                    for part in range(parts)
                ),
                section=number,
                diameter=section.diameter,
                wall=section.wall,
                cut=length,
                parts=split_evenly(length, parts),
                overlap=overlap,
                starts=starts,
                reaches=section.reaches,
                exposed=section.exposed,
            )
        )
        inner = section.reaches
    return tuple(tubes)

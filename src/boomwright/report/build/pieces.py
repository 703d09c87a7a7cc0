"""The cut list of a beam: every piece that is sawn, once, for the sheet and for the file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from boomwright.base.records import dataclass
from boomwright.parts import TIP_JOINT, Beam, Cut, Part, TubeKind
from boomwright.plan import Plan
from boomwright.plan.resolve import beam_cutting, station_assembly
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.shop import NOTHING, ShopElement, ShopTube, sawn_cut, shop_elements
from boomwright.report.build.shop_boom import ShopBoom, shop_boom

#: pieces that belong to no tube of an element, in the order of the list
_FURTHER: Final = ("spreader", "insulator", "sleeve", "match", "boom")


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnPiece:
    """One row of the cut list: pieces that are sawn and drilled alike."""

    parts: tuple[Part, ...]  #: the pieces, alike in all but their place (n_pieces,)
    sawn: CutLength
    #: length that shows when it is built; None for the outer pieces of a tube that is longer than
    #: the stock, and for rods and sleeves
    exposed: CutLength | None
    overlap: CutLength
    element: ShopElement | None = None  #: element that it is a tube of
    tube: ShopTube | None = None  #: tube of the element that it is a piece of
    is_first: bool = True  #: whether it is the innermost piece of its tube

    @property
    def marks(self) -> tuple[str, ...]:
        """What is written on each."""
        return tuple(part.mark for part in self.parts)

    @property
    def part(self) -> Part:
        """One of them."""
        return self.parts[0]

    @property
    def is_slit(self) -> bool:
        """Whether its outer end is slit, to be clamped on the tube that slides in it."""
        return any(
            hole.purpose == TIP_JOINT and min(hole.at) > 0.5 * sawn_cut(self.part).sawn
            for hole in self.part.holes
        )

    @property
    def kind(self) -> TubeKind:
        """What it is cut from."""
        return sawn_cut(self.part).kind


def sawn_pieces(
    parts: Sequence[Part], *, elements: Sequence[ShopElement], boom: ShopBoom
) -> tuple[SawnPiece, ...]:
    """List what is sawn for a beam: tubes of every element rear to front, then all else.

    Args:
        boom: its boom with the rounded lengths of its tubes
    """
    pieces = [piece for element in elements for piece in _of_element(element)]
    along = dict(zip((part.mark for part in boom.tubes), boom.parts, strict=True))
    further = sorted(
        (part for part in parts if part.role in _FURTHER and part.cut is not None),
        key=lambda part: _FURTHER.index(part.role),
    )
    alike: dict[tuple[object, ...], SawnPiece] = {}
    for part in further:
        cut = sawn_cut(part)
        sawn = along.get(part.mark, cut_length(cut.sawn))
        shown = _shown(part, cut, sawn)
        key = (cut.kind, cut_length(cut.overlap), part.holes, part.role, sawn, shown)
        before = alike[key].parts if key in alike else ()
        alike[key] = SawnPiece(
            parts=(*before, part), sawn=sawn, exposed=shown, overlap=cut_length(cut.overlap)
        )
    pieces += alike.values()
    return tuple(pieces)


def _shown(part: Part, cut: Cut, sawn: CutLength) -> CutLength | None:
    """Length that shows; a boom shows from end to end, whatever sits inside it."""
    if part.role == "boom":
        return sawn
    return cut_length(cut.exposed) if part.role == "spreader" else None


def _of_element(element: ShopElement) -> Iterator[SawnPiece]:
    for tube in element.tubes:
        for k, (length, alike) in enumerate(zip(tube.parts, tube.alike, strict=True)):
            first = k == 0
            # The innermost tube shows from end to end, through the middle or from its gap on.
            shown = length if tube.section == 1 else tube.exposed
            overlap = tube.overlap if first else NOTHING
            yield SawnPiece(
                parts=alike,
                sawn=length,
                exposed=shown if first else None,
                overlap=overlap,
                element=element,
                tube=tube,
                is_first=first,
            )


def plan_pieces(plan: Plan, beam: Beam) -> tuple[SawnPiece, ...]:
    """List what is sawn for a beam of a plan."""
    station, boom = station_assembly(plan), plan.boom_of(beam.name)
    parts = station.of(beam.name)
    return sawn_pieces(
        parts,
        elements=shop_elements(parts, beam=beam, boom=boom),
        boom=shop_boom(station, beam=beam, boom=boom),
    )


def bought_lengths(plan: Plan, beam: Beam) -> dict[str, float]:
    """Say of each mark which bought length the cutting plan takes it from [m]."""
    return {
        piece.mark: bar.stock_length
        for order in beam_cutting(plan, beam).tubes
        for bar, pieces in order.marked_bars()
        for piece in pieces
    }

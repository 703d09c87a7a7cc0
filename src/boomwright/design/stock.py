"""Tube on hand as limits of the search: which piece comes from which tube, and what is left of it.

Pieces are shared out once, by the lengths of the beam given: the longest piece goes to the tube
with most left. Each tube then limits the sum of its own pieces, so whatever the search finds can be
cut from what is there; another way to share them out might allow a little more.
"""

from __future__ import annotations

from boomwright.base.records import dataclass
from boomwright.design.space import LinearLimit, WishError
from boomwright.parts import Beam, Element, TubeSection

#: length lost in a saw cut {common-practice-tubing} [m]
_KERF = 3e-3
#: diameters and walls nearer than this are the same [m]
_SAME = 5e-5


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeStock:
    """Tubes of one kind that are there."""

    diameter: float  #: outer diameter [m]
    length: float  #: length of each [m]
    count: int  #: how many
    wall: float = 0.0  #: wall thickness, 0 for whatever the beam has [m]

    def serves(self, section: TubeSection) -> bool:
        """Tell whether a section can be cut from it."""
        alike = self.wall == 0.0 or section.wall == 0.0 or abs(self.wall - section.wall) < _SAME
        return abs(self.diameter - section.diameter) < _SAME and alike


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    element: int
    section: TubeSection
    length: float
    #: how much it grows with a metre of half length
    per_half_length: float


@dataclass(slots=True)
class _Tube:
    kind: TubeStock
    pieces: list[_Piece]

    @property
    def left(self) -> float:
        return self.kind.length + _KERF - sum(piece.length + _KERF for piece in self.pieces)


def stock_limits(
    *, beam: Beam, stock: tuple[TubeStock, ...], overlap: float
) -> tuple[LinearLimit, ...]:
    """Limit the elements to the tubes that are there; kinds not listed are not limited.

    Args:
        overlap: length of a tube inside the next larger one [m]

    Raises:
        WishError: when there are fewer tubes than pieces, or a fixed piece fits none
    """
    tubes = [_Tube(kind, []) for kind in stock for _ in range(kind.count)]
    longest = max((kind.length for kind in stock), default=0.0)
    pieces = [
        piece
        for number, element in enumerate(beam.elements)
        for piece in _pieces(beam, number, element, overlap, longest)
        if any(kind.serves(piece.section) for kind in stock)
    ]
    for piece in sorted(pieces, key=lambda one: -one.length):
        fitting = [tube for tube in tubes if tube.kind.serves(piece.section)]
        best = max(fitting, key=lambda tube: tube.left, default=None)
        if best is None or (piece.per_half_length == 0.0 and piece.length > best.left + 1e-9):
            raise WishError(
                f"the tubes of {1e3 * piece.section.diameter:.4g} mm on hand hold no further piece "
                f"of {piece.length:.3f} m for element {piece.element + 1}",
                remedy="add a tube to stock, or take the kind out of it if more can be bought",
            )
        best.pieces.append(piece)
    return tuple(
        _limit(tube, beam) for tube in tubes if any(p.per_half_length for p in tube.pieces)
    )


def _pieces(
    beam: Beam, number: int, element: Element, overlap: float, longest: float
) -> list[_Piece]:
    """Pieces to cut for one element; the centre goes through the boom in one when it can."""
    found = []
    cut = element.role == "driven" and beam.feed.cuts_element
    for index, section in enumerate(element.half):
        tip = index == len(element.half) - 1
        added = overlap if index else -beam.feed.gap / 2.0 if cut else 0.0
        whole = index == 0 and not cut and 2.0 * section.length <= longest
        length = 2.0 * section.length if whole else section.length + added
        growth = (2.0 if whole else 1.0) if tip else 0.0
        piece = _Piece(element=number, section=section, length=length, per_half_length=growth)
        found += [piece] if whole else [piece, piece]
    return found


def _limit(tube: _Tube, beam: Beam) -> LinearLimit:
    rates = [0.0] * len(beam.elements)
    constant = -_KERF
    for piece in tube.pieces:
        half = beam.elements[piece.element].half_length
        rates[piece.element] += piece.per_half_length
        constant += piece.length + _KERF - piece.per_half_length * half
    return LinearLimit(
        name=f"tube of {1e3 * tube.kind.diameter:.4g} mm, {tube.kind.length:.3f} m long",
        constant=constant,
        per_boom=0.0,
        per_half_length=tuple(rates),
        most=tube.kind.length,
    )

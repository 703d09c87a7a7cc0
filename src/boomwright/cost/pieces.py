"""Pieces to saw for a beam, read off its parts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.parts import Part, TubeKind

#: parts that are sawn from bought lengths
_SAWN: Final = frozenset({"element tube", "boom", "sleeve", "insulator", "match", "spreader"})


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePiece:
    """One piece to cut."""

    kind: TubeKind  #: tube it is cut from
    length: float  #: length to cut, overlap included [m]
    use: str  #: where it goes
    mark: str  #: what is written on it, as on its part


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceList:
    """All pieces of a beam."""

    pieces: tuple[TubePiece, ...]  #: pieces to cut (n_pieces,)
    notices: tuple[Notice, ...]  #: doubts


def tube_pieces(parts: Iterable[Part]) -> PieceList:
    """List every piece of tube and rod to cut for a beam."""
    everything = list(parts)
    listed = [part for part in everything if part.role in _SAWN and part.cut is not None]
    pieces = tuple(
        TubePiece(kind=part.cut.kind, length=part.cut.sawn, use=part.name, mark=part.mark)
        for part in listed
        if part.cut is not None
    )
    return PieceList(pieces=pieces, notices=_piece_notices(listed, everything))


def _piece_notices(listed: list[Part], parts: list[Part]) -> tuple[Notice, ...]:
    notices: list[Notice] = []
    hung = any(part.group == "frame" for part in parts)
    if not hung and not any(part.role == "boom" for part in listed):
        notices.append(
            Notice(
                code="cost.boom-missing",
                text="The boom's tube is not given, so boom and element plates are not in the "
                "bill.",
                severity="doubt",
            )
        )
    if any(part.known == "unknown" for part in listed):
        notices.append(
            Notice(
                code="cost.wall-missing",
                text="Some tubes have no wall thickness in the plan: say it before buying.",
                severity="doubt",
            )
        )
    return tuple(notices)

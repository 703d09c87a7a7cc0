"""Being stopped: long work asks between its pieces whether to go on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

Piece = TypeVar("Piece")
#: asked between two pieces of work; False stops it
GoOn = Callable[[], bool]


class StoppedError(Exception):
    """Leaves the work in hand when the search is asked to stop; never seen outside the room."""


def always() -> bool:
    """Go on whatever happens."""
    return True


def until_stopped(pieces: Iterable[Piece], go_on: GoOn) -> Iterator[Piece]:
    """Give the pieces one by one, asking before each.

    Raises:
        StoppedError: when told to stop
    """
    for piece in pieces:
        if not go_on():
            raise StoppedError
        yield piece

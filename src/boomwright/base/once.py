"""Work that is done once for the same objects."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TypeVar, TypeVarTuple, cast

_Given = TypeVarTuple("_Given")
_Result = TypeVar("_Result")
#: results kept of one function: what one reader asks about, and what it is held against
_KEPT = 4


class _Same:
    """Objects that are the same only if they are the very same ones, whatever they hold."""

    def __init__(self, *given: object) -> None:
        self.given = given

    def __hash__(self) -> int:
        return hash(tuple(map(id, self.given)))

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, _Same):
            return NotImplemented
        return all(mine is its for mine, its in zip(self.given, other.given, strict=True))


def once_for_the_same(work: Callable[[*_Given], _Result]) -> Callable[[*_Given], _Result]:
    """Keep the newest results of a function of frozen objects; an error is not kept."""

    @lru_cache(maxsize=_KEPT)
    def kept(same: _Same) -> _Result:
        return work(*cast("tuple[*_Given]", same.given))

    @wraps(work)
    def asked(*given: *_Given) -> _Result:
        return kept(_Same(*given))

    return asked

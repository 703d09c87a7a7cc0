"""Kernels between nodes, kept from the systems solved last.

Whoever drags one wire of many asks for nearly the same system again and again: what it left as it
was is not integrated anew, only the rows and columns of the nodes that moved.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass

Indices = NDArray[np.int64]
#: kernels over some rows and all columns, each (..., rows, m)
Kernels = tuple[NDArray[Any], ...]

Made = TypeVar("Made")

#: systems kept, other things kept, and most nodes of a system
_SYSTEMS, _THINGS, _NODES = 16, 64, 400
#: more nodes than this share moved: all is made anew
_MOVED = 0.8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Kept:
    """The kernels of one system."""

    nodes: Floats  #: what tells its nodes from others (m, any)
    kernels: Kernels
    moments: tuple[Floats, ...]  #: of unknowns at the nodes, one for each kernel or none (m, n)
    seen: tuple[Complexes, ...]  #: moments^T kernel moments (n, n)


class KernelMemory:
    """Symmetric kernels of the last few systems, for as long as it is held itself."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, _Kept] = {}
        self._same: dict[Hashable, Any] = {}

    def same(self, *, name: Hashable, make: Callable[[], Made]) -> Made:
        """What depends on nothing but its name, made once.

        Args:
            name: all that it depends on
        """
        kept = self._same.get(name)
        found: Made = make() if kept is None else kept
        _keep(self._same, name, found, most=_THINGS)
        return found

    def kernels(
        self, *, name: Hashable, nodes: Floats, make: Callable[[Indices], Kernels]
    ) -> Kernels:
        """Kernels between all nodes, from those of the last system of that name where they hold.

        Args:
            name: tells kernels of one kind, frequency and surroundings from others
            nodes: all that a kernel depends on besides, node by node (m, any)
            make: makes some rows
        """
        return self._of(name, nodes, (), make).kernels

    def seen(
        self,
        *,
        name: Hashable,
        nodes: Floats,
        moments: tuple[Floats, ...],
        make: Callable[[Indices], Kernels],
    ) -> tuple[Complexes, ...]:
        """As ``kernels``, each between the moments of unknowns: moments^T kernel moments (n, n).

        Args:
            moments: one for each kernel (m, n); the same arrays as long as they do not change
            make: makes some rows (rows, m)
        """
        return self._of(name, nodes, moments, make).seen

    def _of(
        self,
        name: Hashable,
        nodes: Floats,
        moments: tuple[Floats, ...],
        make: Callable[[Indices], Kernels],
    ) -> _Kept:
        name = name, nodes.shape
        last = self._kept.get(name)
        moved = np.flatnonzero((last.nodes != nodes).any(axis=1)) if last is not None else None
        if last is None or moved is None or len(moved) > _MOVED * len(nodes):
            kernels = make(np.arange(len(nodes)))
            seen = tuple(map(_seen, moments, kernels))
        else:
            kernels = _renewed(last.kernels, make(moved), moved) if len(moved) else last.kernels
            # Moments are told apart by what they are, not by what is in them.
            if list(map(id, moments)) == list(map(id, last.moments)):
                seen = tuple(
                    _seen_anew(*each, moved)
                    for each in zip(last.seen, moments, kernels[: len(moments)], strict=True)
                )
            else:
                seen = tuple(map(_seen, moments, kernels))
        found = _Kept(nodes=nodes, kernels=kernels, moments=moments, seen=seen)
        if len(nodes) <= _NODES:
            _keep(self._kept, name, found, most=_SYSTEMS)
        return found


def made_once(memory: KernelMemory | None, *, name: Hashable, make: Callable[[], Made]) -> Made:
    """What depends on nothing but its name, made once where there is a memory for it."""
    return make() if memory is None else memory.same(name=name, make=make)


def _keep(kept: dict[Hashable, Any], name: Hashable, value: object, *, most: int) -> None:
    """Put something behind all others, and let the oldest go."""
    # Threads may share it: each step by itself is whole.
    kept.pop(name, None)
    kept[name] = value
    for old in list(kept)[:-most]:
        kept.pop(old, None)


def _renewed(kept: Kernels, rows: Kernels, moved: Indices) -> Kernels:
    """Kernels with the rows and columns of some nodes replaced."""
    found = []
    for old, new in zip(kept, rows, strict=True):
        whole = old.copy()
        whole[..., moved, :] = new
        whole[..., :, moved] = np.swapaxes(new, -1, -2)
        found.append(whole)
    return tuple(found)


def _seen(moments: Floats, kernel: Complexes, some: Indices | None = None) -> Complexes:
    """Moments^T kernel moments, of some unknowns with all; with real matrix products."""
    here = moments if some is None else moments[:, some]
    split = np.stack([kernel.real, kernel.imag])
    both = (here.T @ split) @ moments
    result: Complexes = both[0] + 1j * both[1]
    return result


def _seen_anew(old: Complexes, moments: Floats, kernel: Complexes, moved: Indices) -> Complexes:
    """What was seen before, with the unknowns of the nodes that moved seen anew."""
    some = np.flatnonzero(moments[moved].any(axis=0))
    rows = _seen(moments, kernel, some)
    whole = old.copy()
    whole[some] = rows
    whole[:, some] = rows.T
    return whole

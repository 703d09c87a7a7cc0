"""Kernels between nodes, kept from the systems solved last.

Whoever drags one wire of many asks for nearly the same system again and again: what it left as it
was is not integrated anew, only the rows and columns of the nodes that moved.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]
#: kernels over some rows and all columns, each (..., rows, m)
Kernels = tuple[NDArray[Any], ...]

#: systems kept, and most nodes of one
_SYSTEMS, _NODES = 8, 400
#: more nodes than this share moved: all is made anew
_MOVED = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Kept:
    """The kernels of one system."""

    nodes: Floats  #: what tells its nodes from others (m, any)
    kernels: Kernels


class KernelMemory:
    """Symmetric kernels of the last few systems, for as long as it is held itself."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, _Kept] = {}

    def kernels(
        self, *, name: Hashable, nodes: Floats, make: Callable[[Indices], Kernels]
    ) -> Kernels:
        """Kernels between all nodes, from those of the last system of that name where they hold.

        Args:
            name: tells kernels of one kind, frequency and surroundings from others
            nodes: all that a kernel depends on besides, node by node (m, any)
            make: makes some rows
        """
        every = np.arange(len(nodes))
        if len(nodes) > _NODES:
            return make(every)
        last = self._kept.get(name)
        found: Kernels | None = None
        if last is not None and last.nodes.shape == nodes.shape:
            moved = np.flatnonzero((last.nodes != nodes).any(axis=1))
            if len(moved) <= _MOVED * len(nodes):
                found = _renewed(last.kernels, make(moved), moved) if len(moved) else last.kernels
        if found is None:
            found = make(every)
        # Threads may share it: each step by itself is whole.
        self._kept.pop(name, None)
        self._kept[name] = _Kept(nodes=nodes, kernels=found)
        for old in list(self._kept)[:-_SYSTEMS]:
            self._kept.pop(old, None)
        return found


def _renewed(kept: Kernels, rows: Kernels, moved: Indices) -> Kernels:
    """Kernels with the rows and columns of some nodes replaced."""
    found = []
    for old, new in zip(kept, rows, strict=True):
        whole = old.copy()
        whole[..., moved, :] = new
        whole[..., :, moved] = np.swapaxes(new, -1, -2)
        found.append(whole)
    return tuple(found)

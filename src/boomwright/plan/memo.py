"""A small store of what was computed last."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

Name = TypeVar("Name", bound=Hashable)
Value = TypeVar("Value")


class Memo(Generic[Name, Value]):
    """Keeps the newest values by name; older ones are dropped.

    Args:
        size: values kept
    """

    def __init__(self, *, size: int) -> None:
        self._size = size
        self._lock = threading.Lock()
        self._kept: OrderedDict[Name, Value] = OrderedDict()

    def get(self, name: Name) -> Value | None:
        """Take a value, or None when it is not kept."""
        with self._lock:
            return self._kept.get(name)

    def put(self, name: Name, value: Value) -> None:
        """Keep a value."""
        with self._lock:
            self._kept[name] = value
            self._kept.move_to_end(name)
            while len(self._kept) > self._size:
                self._kept.popitem(last=False)

    def made(self, name: Name, make: Callable[[Name], Value]) -> Value:
        """Take a value, made from its name and kept when there is none."""
        kept = self.get(name)
        if kept is None:
            kept = make(name)
            self.put(name, kept)
        return kept

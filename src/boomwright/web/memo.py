"""A small store of what was computed last, shared by the windows of a desk."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Hashable


class Memo:
    """Keeps the newest values by name; older ones are dropped.

    Args:
        size: values kept
    """

    def __init__(self, *, size: int) -> None:
        self._size = size
        self._lock = threading.Lock()
        self._kept: OrderedDict[Hashable, object] = OrderedDict()

    def get(self, name: Hashable) -> object:
        """Take a value, or None when it is not kept."""
        with self._lock:
            return self._kept.get(name)

    def put(self, name: Hashable, value: object) -> None:
        """Keep a value."""
        with self._lock:
            self._kept[name] = value
            self._kept.move_to_end(name)
            while len(self._kept) > self._size:
                self._kept.popitem(last=False)

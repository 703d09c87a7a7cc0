"""Memory: freed blocks are kept for the next array, and garbage is looked for seldom."""

from __future__ import annotations

import ctypes
import gc
from contextlib import suppress

#: options of mallopt, as glibc's malloc.h numbers them, and what they are set to [bytes]
_TRIM_THRESHOLD, _MMAP_THRESHOLD = -1, -3
_KEPT, _LARGEST = 256 * 2**20, 32 * 2**20
#: objects made since the last look for cycles of garbage, after which the next one is due
_YOUNG = 20_000


def keep_freed_blocks() -> None:
    """Let the C library keep what arrays give back, up to a bound.

    As it is delivered, glibc returns large blocks to the system at once, and every new array costs
    a page fault for each 4 kB: a third of the time of a search. Other C libraries are left alone.
    """
    with suppress(OSError, AttributeError, TypeError):
        mallopt = ctypes.CDLL(None).mallopt
        mallopt(_MMAP_THRESHOLD, _LARGEST)
        mallopt(_TRIM_THRESHOLD, _KEPT)


def collect_seldom() -> None:
    """Look for cycles of garbage after more new objects than Python's own 700.

    Loading modules makes objects that stay, and looking through them again and again takes a
    twentieth of the time of a short command.
    """
    gc.set_threshold(_YOUNG, *gc.get_threshold()[1:])

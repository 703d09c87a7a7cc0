"""Freed memory is kept for the next array."""

from __future__ import annotations

import ctypes
import resource
import subprocess
import sys

import pytest

PROGRAM = """
import resource
import numpy as np
from boomwright.session.allocator import keep_freed_blocks

if {kept}:
    keep_freed_blocks()
for number in range(60):
    if number == 20:
        before = resource.getrusage(resource.RUSAGE_SELF).ru_minflt
    first, second = np.ones(300_000), np.ones(300_000)
    del first, second
print(resource.getrusage(resource.RUSAGE_SELF).ru_minflt - before)
"""


def faults(*, kept):
    """Page faults of forty rounds of arrays of 2.4 MB."""
    line = [sys.executable, "-c", PROGRAM.format(kept=kept)]
    return int(subprocess.run(line, check=True, capture_output=True, text=True).stdout)


@pytest.mark.skipif(not hasattr(ctypes.CDLL(None), "mallopt"), reason="not the GNU C library")
def test_arrays_are_made_of_memory_given_back():
    pages = 2_400_000 // resource.getpagesize()
    assert faults(kept=True) < pages
    # As the library is delivered, every round asks anew.
    assert faults(kept=False) > 10 * pages

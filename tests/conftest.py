"""Its place puts this folder on the import path: ``from fakes.readings import fake_readings``.

Random examples are drawn from a fixed seed, so that a run says the same each time; setting
``BOOMWRIGHT_EXAMPLES=wander`` lets them wander, as one should now and then.

A page of text is as wide as the program makes it where it knows no terminal, however many columns
the one around the tests has; a test that wants another width says so.

Linear algebra gets one thread, as in the program itself: the matrices are small, and threads that
wait for each other made sixty heights cost ten times the processor time on a busy machine.
"""

from __future__ import annotations

import os

# Two test processes on a machine that shows many cores but lends two would else spend their time
# on waiting threads; it has to be set before the first numpy.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# A second test process is told 80 columns by its first, the first nothing at all.
os.environ["COLUMNS"] = "100"

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("wander", derandomize=False, deadline=None)
settings.load_profile(os.environ.get("BOOMWRIGHT_EXAMPLES", "steady"))

"""Arrays as annotations name them; apart from the rest of the floor, which starts without numpy."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

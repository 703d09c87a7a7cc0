"""Read-only copies of arrays, so that frozen results really are frozen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, DTypeLike, NDArray


def read_only(values: ArrayLike, dtype: DTypeLike = float) -> NDArray[Any]:
    """Copy to an array that refuses writing.

    Args:
        values: anything numpy can turn into an array [any unit] (any shape)

    Returns:
        the copy, write flag off [same unit] (same shape)
    """
    import numpy as np  # the ground floor starts without it

    copy: NDArray[Any] = np.array(values, dtype=dtype)
    copy.flags.writeable = False
    return copy

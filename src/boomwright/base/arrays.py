"""Read-only copies of arrays, so that frozen results really are frozen."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, ClassVar

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


#: what an array is made of, by how a field is annotated
_KINDS: dict[str, type] = {
    "Floats": float,
    "NDArray[np.float64]": float,
    "Complexes": complex,
    "NDArray[np.complex128]": complex,
    "NDArray[np.bool_]": bool,
    "NDArray[np.int64]": int,
}


@cache
def _arrays_of(result: Any) -> tuple[tuple[str, type], ...]:
    fields = result.__dataclass_fields__.values()
    return tuple((each.name, _KINDS[each.type]) for each in fields if each.type in _KINDS)


class ReadOnlyArrays:
    """Base of frozen results: what is annotated as an array is copied and refuses writing."""

    __slots__: ClassVar[tuple[str, ...]] = ()

    def __post_init__(self) -> None:
        result: Any = type(self)
        for name, kind in _arrays_of(result):
            object.__setattr__(self, name, read_only(getattr(self, name), kind))

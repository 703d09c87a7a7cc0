"""What a search may change: places and lengths as linear functions of a few free numbers."""

from __future__ import annotations

import numpy as np

from boomwright.base import BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass

#: what a step of one means along the boom and along an element, in wavelengths: about what
#: changes the gain of a short array by a decibel
_BOOM_STEP = 0.05
_LENGTH_STEP = 0.004


class WishError(BoomwrightError):
    """A wish that contradicts itself, with its value and the remedy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearLimit:
    """A sum over the boom and the elements that must not exceed a limit."""

    name: str  #: what is limited, such as ``wind area``
    constant: float  #: share that does not change [unit of the limit]
    per_boom: float  #: share of each metre of boom [unit per m]
    #: share of each metre of half length, by element [unit per m] (n_elements,)
    per_half_length: tuple[float, ...]
    most: float  #: the limit [its own unit]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DesignSpace(ReadOnlyArrays):
    """Free numbers z and the design they stand for: dimensions = origin + basis z."""

    origin: Floats  #: positions, then half lengths, at z = 0 [m] (2 n_elements,)
    basis: Floats  #: what each free number moves [m] (2 n_elements, m)
    lower: Floats  #: range of each free number (m,)
    upper: Floats  #: range of each free number (m,)
    rows: Floats  #: further linear demands, rows z >= least (k, m) and (k,)
    least: Floats  #: further linear demands, rows z >= least (k, m) and (k,)

    @property
    def count(self) -> int:
        """Number of elements."""
        return len(self.origin) // 2

    def dimensions(self, free: Floats) -> tuple[Floats, Floats]:
        """Turn free numbers into a design.

        Args:
            free: free numbers (m,)

        Returns:
            positions and half lengths [m] (n_elements,)
        """
        both: Floats = self.origin + self.basis @ free
        return both[: self.count], both[self.count :]

    def nearest(self, *, positions: Floats, half_lengths: Floats) -> Floats:
        """Find free numbers for a design as nearly as the space allows.

        Args:
            positions: places along the boom [m] (..., n_elements)
            half_lengths: half lengths [m] (..., n_elements)
        """
        wanted = np.concatenate([positions, half_lengths], axis=-1) - self.origin
        free: Floats = np.linalg.lstsq(self.basis, wanted.T, rcond=None)[0].T.astype(np.float64)
        return np.maximum(np.minimum(free, self.upper), self.lower)


@dataclass(frozen=True, slots=True, kw_only=True)
class Freedom:
    """What may change and how far, element by element."""

    shortest: tuple[float, ...]  #: range of the half length of each element [m] (n_elements,)
    longest: tuple[float, ...]  #: range of the half length of each element [m] (n_elements,)
    boom_limit: float  #: longest boom [m]
    closest: float  #: smallest distance of neighbours [m]
    even: bool = False  #: True keeps all spacings equal
    even_directors: bool = False  #: True keeps all directors alike
    spacing: float | None = None  #: this spacing for all; None leaves it free [m]
    #: number of an element and the place it keeps [m]
    kept_positions: tuple[tuple[int, float], ...] = ()
    #: number of an element and the half length it keeps [m]
    kept_half_lengths: tuple[tuple[int, float], ...] = ()
    limits: tuple[LinearLimit, ...] = ()  #: further limits
    #: half length of resonance of each element: keeps the driven one no longer against it than the
    #: reflector behind it and no shorter than the first director; None lets it be [m] (n_elements,)
    resonances: tuple[float, ...] | None = None


def design_space(*, freedom: Freedom, driven: int, wavelength: float) -> DesignSpace:
    """Set up the free numbers.

    Args:
        wavelength: wavelength at the design frequency [m]

    Raises:
        WishError: when limits contradict each other
    """
    count = len(freedom.shortest)
    if freedom.closest * (count - 1) > freedom.boom_limit * (1.0 + 1e-12):
        raise WishError(
            f"{count} elements {freedom.closest:.3f} m apart do not fit on a boom of "
            f"{freedom.boom_limit:.3f} m",
            remedy="allow a longer boom or fewer elements",
        )
    along = _along_boom(freedom, count, _BOOM_STEP * wavelength)
    across = _lengths(freedom, count, driven, _LENGTH_STEP * wavelength)
    origin = np.concatenate([along[0], across[0]])
    basis = _blocks(along[1], across[1])
    rows, least = [], []
    for vector, value in along[4]:
        rows.append(np.concatenate([vector, np.zeros(across[1].shape[1])]))
        least.append(value)
    for limit in freedom.limits:
        vector = np.zeros(2 * count)
        vector[count - 1] += limit.per_boom
        vector[0] -= limit.per_boom
        vector[count:] = limit.per_half_length
        scale = max(abs(limit.most), 1e-12)
        rows.append(-(vector @ basis) / scale)
        least.append((limit.constant + vector @ origin - limit.most) / scale)
    size = basis.shape[1]
    lower, upper = (np.concatenate([along[at], across[at]]) for at in (2, 3))
    for vector in _driven_between(freedom, driven):
        row, value = vector @ basis, -float(vector @ origin)
        # Where the tubes themselves ask otherwise, there is nothing to demand.
        if value <= float(np.maximum(row * lower, row * upper).sum()):
            rows.append(row)
            least.append(value)
    return DesignSpace(
        origin=origin,
        basis=basis,
        lower=lower,
        upper=upper,
        rows=np.array(rows).reshape(-1, size),
        least=np.array(least),
    )


def _driven_between(freedom: Freedom, driven: int) -> list[Floats]:
    """Differences, over their resonances, that must not be negative (2 n_elements,)."""
    if freedom.resonances is None:
        return []
    count, resonances = len(freedom.shortest), freedom.resonances
    found = []
    for long, short in ((driven - 1, driven), (driven, driven + 1)):
        if long >= 0 and short < count:
            vector = np.zeros(2 * count)
            # In steps of a per cent, so that a demand counts like the free numbers.
            vector[count + long] = 100.0 / resonances[long]
            vector[count + short] = -100.0 / resonances[short]
            found.append(vector)
    return found


_Part = tuple[Floats, Floats, Floats, Floats, list[tuple[Floats, float]]]


def _along_boom(freedom: Freedom, count: int, step: float) -> _Part:
    """Origin, basis, range and demands of the places."""
    gaps = count - 1
    if freedom.spacing is not None:
        origin = freedom.spacing * np.arange(count, dtype=np.float64)
        return origin, np.zeros((count, 0)), np.zeros(0), np.zeros(0), []
    if freedom.even:
        basis = step * np.arange(count, dtype=float)[:, None]
        high = np.array([freedom.boom_limit / gaps / step])
        return np.zeros(count), basis, np.array([freedom.closest / step]), high, []
    if freedom.kept_positions:
        return _around_kept(freedom, count, step)
    basis = step * np.tril(np.ones((count, gaps)), -1)
    most = freedom.boom_limit - (gaps - 1) * freedom.closest
    demand = (-np.ones(gaps), -freedom.boom_limit / step)
    low = np.full(gaps, freedom.closest / step)
    return np.zeros(count), basis, low, np.full(gaps, most / step), [demand]


def _around_kept(freedom: Freedom, count: int, step: float) -> _Part:
    """Places when some are kept: every other place is a free number of its own."""
    kept = dict(freedom.kept_positions)
    free = [number for number in range(count) if number not in kept]
    origin, basis = np.zeros(count), np.zeros((count, len(free)))
    for number, place in kept.items():
        origin[number] = place
    for column, number in enumerate(free):
        basis[number, column] = step
    demands = []
    for number in range(count - 1):
        vector = basis[number + 1] - basis[number]
        needed = freedom.closest - (origin[number + 1] - origin[number])
        if vector.any():
            demands.append((vector / step, needed / step))
        elif needed > 1e-9:
            raise WishError(
                f"elements {number + 1} and {number + 2} are kept closer than "
                f"{freedom.closest:.3f} m",
                remedy="free one of them",
            )
    vector = basis[-1] - basis[0]
    room = freedom.boom_limit - (origin[-1] - origin[0])
    if vector.any():
        demands.append((-vector / step, -room / step))
    low = min(kept.values()) - freedom.boom_limit
    high = max(kept.values()) + freedom.boom_limit
    size = len(free)
    return origin, basis, np.full(size, low / step), np.full(size, high / step), demands


def _lengths(freedom: Freedom, count: int, driven: int, step: float) -> _Part:
    """Origin, basis and range of the half lengths."""
    kept = dict(freedom.kept_half_lengths)
    origin = np.zeros(count)
    columns: list[Floats] = []
    low, high = [], []
    shared = (
        [i for i in range(driven + 1, count) if i not in kept] if freedom.even_directors else []
    )
    groups = [[i] for i in range(count) if i not in kept and i not in shared]
    groups += [shared] if shared else []
    for number, half_length in kept.items():
        origin[number] = half_length
    for group in groups:
        middle = np.mean([freedom.shortest[i] + freedom.longest[i] for i in group]) / 2.0
        column = np.zeros(count)
        column[group] = step
        origin[group] = middle
        columns.append(column)
        low.append((max(freedom.shortest[i] for i in group) - middle) / step)
        high.append((min(freedom.longest[i] for i in group) - middle) / step)
        if low[-1] > high[-1]:
            names = ", ".join(str(i + 1) for i in group)
            raise WishError(
                f"element {names}: shortest half length {freedom.shortest[group[0]]:.3f} m lies "
                f"above the longest {freedom.longest[group[0]]:.3f} m",
                remedy="widen the range",
            )
    basis = np.array(columns).T.reshape(count, -1)
    return origin, basis, np.array(low), np.array(high), []


def _blocks(one: Floats, two: Floats) -> Floats:
    """Block-diagonal matrix of two."""
    matrix = np.zeros((len(one) + len(two), one.shape[1] + two.shape[1]))
    matrix[: len(one), : one.shape[1]] = one
    matrix[len(one) :, one.shape[1] :] = two
    return matrix

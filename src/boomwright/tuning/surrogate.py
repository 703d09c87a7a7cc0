"""A quick stand-in for the field solution near the planned antenna.

The impedance at the wires' port is a polynomial in the deviations from the plan: quadratic, of
the fourth degree in the driven element's tips and the strap, which are moved furthest. Away from
the plan it is tied to a full solution there (:meth:`Surrogate.tie`), so that only what changes
from there on is approximated.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations, zip_longest

import numpy as np
from numpy.polynomial.chebyshev import chebfit
from numpy.typing import NDArray

from boomwright.base import BoomwrightError, read_only
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.tuning.antenna import Bench
from boomwright.tuning.installation import after_changes
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights

Progress = Callable[[float], None]

#: frequencies that are solved, all between are interpolated: no fewer and no more than these, as
#: many as leave so little of the planned antenna's reflection to further ones
_FEWEST_NODES, _MOST_NODES, _LEFT = 7, 11, 2e-4
#: deviations that are solved, in spreads: of every part, and of pairs
_NEAR, _PAIR = 2.0, 1.5
#: what is moved is solved further: tips by so many wavelengths, a strap by a share of its place,
#: at least so many spreads
_FAR_TIP, _FAR_STRAP, _FAR = 3e-3, 0.1, 4.0
#: least real part of what an extrapolation may give, as a share of the planned one
_LEAST_REAL = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surrogate:
    """Impedance of the antenna as a polynomial."""

    bench: Bench  #: solves what the polynomial stands for
    keys: tuple[str, ...]  #: what may deviate (p,)
    spreads: Floats  #: unit of each deviation, mixed units (p,)
    nodes: Floats  #: frequencies [Hz] (k,)
    #: what each term is a product of: deviations by number from 1, 0 for none [-] (degree, t)
    factors: NDArray[np.int64]
    terms: Complexes  #: their coefficients [ohm] (t, k)
    #: how far each part may deviate, mixed units (p,)
    reach: Floats

    def __post_init__(self) -> None:
        object.__setattr__(self, "nodes", read_only(self.nodes))
        object.__setattr__(self, "terms", read_only(self.terms, complex))

    @property
    def error(self) -> float:
        """Largest difference to full solutions with all parts off by one spread, as a share [-].

        These two solutions are made when it is asked for.
        """
        worst = 0.0
        for sign in (1.0, -1.0):
            signs = np.where(np.arange(len(self.keys)) % 2 == 0, sign, -sign)
            try:
                exact = self.solved(signs * self.spreads)
            except BoomwrightError:
                continue
            off = self.at_nodes((signs * self.spreads)[None])[0] - exact
            worst = max(worst, float(np.max(np.abs(off) / np.abs(exact))))
        return worst

    def at_nodes(self, amounts: Floats) -> Complexes:
        """Impedance at the nodes [ohm] (n, k).

        Args:
            amounts: deviations from the plan, mixed units (n, p)
        """
        found: Complexes = _monomials(amounts / self.spreads, self.factors) @ self.terms
        least = _LEAST_REAL * self.terms[0].real
        kept: Complexes = np.maximum(found.real, least) + 1j * found.imag
        return kept

    def solved(self, amounts: Floats) -> Complexes:
        """The full solution at the nodes [ohm] (k,).

        Args:
            amounts: deviations from the plan, mixed units (p,)
        """
        changes = dict(zip(self.keys, amounts.tolist(), strict=True))
        changed = after_changes(installation=self.bench.installation, changes=changes)
        found: Complexes = self.bench.impedance(changed, self.nodes)
        return found

    def tie(self, amounts: Floats) -> Complexes:
        """What to add so that the polynomial agrees with the full solution [ohm] (k,).

        Args:
            amounts: deviations from the plan, mixed units (p,)
        """
        try:
            found: Complexes = self.solved(amounts) - self.at_nodes(amounts[None])[0]
            return found
        except BoomwrightError:
            # The deviations tried cannot be built; the polynomial has nothing to agree with.
            return np.zeros(len(self.nodes), dtype=complex)

    def weights(self, frequencies: Floats) -> Floats:
        """Weights of the nodes at other frequencies (f, k).

        Args:
            frequencies: frequencies within the nodes [Hz] (f,)
        """
        return lagrange_weights(nodes=self.nodes, at=frequencies)

    def between(self, at_nodes: Complexes, weights: Floats) -> Complexes:
        """Impedance at other frequencies [ohm] (..., f).

        A split element with its hairpin, or a reflector's own resonance, peaks beside the band;
        seen as a reflection the impedance turns evenly there.

        Args:
            at_nodes: impedance at the nodes [ohm] (..., k)
            weights: weights of the nodes at those frequencies (f, k)
        """
        usual = float(np.mean(np.abs(self.terms[0])))
        seen = _reflection(at_nodes, usual) @ weights.T
        found: Complexes = usual * (1.0 + seen) / (1.0 - seen)
        return found


def build_surrogate(
    *,
    bench: Bench,
    keys: tuple[str, ...],
    spreads: Floats,
    lowest_frequency: float,
    highest_frequency: float,
    progress: Progress | None = None,
) -> Surrogate:
    """Solve the antenna at the places that the polynomial needs.

    Args:
        keys: what may deviate, as in :func:`after_changes` (p,)
        spreads: standard deviation expected of each, mixed units (p,)
        lowest_frequency, highest_frequency: limits of the frequencies asked for [Hz]
    """
    limits = np.array([lowest_frequency, highest_frequency])
    nodes, planned = _planned(bench, limits)
    blank = Surrogate(
        bench=bench,
        keys=keys,
        spreads=spreads,
        nodes=nodes,
        factors=np.zeros((1, 1), dtype=np.int64),
        terms=np.ones((1, len(nodes)), dtype=complex),
        reach=_reach(bench, keys, spreads),
    )
    places, factors = _design(bench, keys, blank.reach / spreads)
    values, used = [planned], [places[0]]
    for number, place in enumerate(places[1:], start=1):
        if progress is not None:
            progress(number / len(places))
        try:
            values.append(blank.solved(place * spreads))
            used.append(place)
        except BoomwrightError:
            # A deviation that cannot be built, such as a strap beyond the tip, is left out.
            continue
    matrix = _monomials(np.array(used), factors)
    sizes = np.linalg.norm(matrix, axis=0)
    terms, *_ = np.linalg.lstsq(matrix / sizes, np.array(values), rcond=None)
    return replace(blank, factors=factors, terms=terms / sizes[:, None])


def _planned(bench: Bench, limits: Floats) -> tuple[Floats, Complexes]:
    """Frequencies to solve [Hz] (k,), and the planned antenna's impedance there [ohm] (k,)."""
    for count in range(_FEWEST_NODES, _MOST_NODES + 1, 2):
        nodes = chebyshev_nodes(limits, count)
        planned = bench.impedance(bench.installation, nodes)
        seen = _reflection(planned, float(np.mean(np.abs(planned))))
        places = (2.0 * nodes - nodes[0] - nodes[-1]) / np.ptp(nodes)
        shares = np.abs(chebfit(places, seen, count - 1))
        # Shares fall off evenly, odd and even ones apart: so much smaller are the next two.
        last, before = shares[-2:].max(), shares[-4:-2].max()
        if last * min(1.0, last / before) < _LEFT:
            break
    return nodes, planned


def _reflection(impedance: Complexes, usual: float) -> Complexes:
    found: Complexes = (impedance - usual) / (impedance + usual)
    return found


def _reach(bench: Bench, keys: tuple[str, ...], spreads: Floats) -> Floats:
    """How far each part is solved, mixed units (p,)."""
    planned = bench.installation
    driven = f"tip.{planned.beam.driven_index}"
    reach: Floats = 1.5 * _NEAR * spreads
    for number, key in enumerate(keys):
        if key == driven:
            tip = planned.beam.elements[planned.beam.driven_index].half[-1].length
            far = min(_FAR_TIP * planned.beam.wavelength, 0.5 * tip)
            reach[number] = max(_FAR * spreads[number], far)
        elif key == "strap" and planned.strap is not None:
            reach[number] = max(_FAR * spreads[number], _FAR_STRAP * planned.strap)
    return reach


def _design(bench: Bench, keys: tuple[str, ...], far: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """Places in spreads, the plan first, and the factors of the terms."""
    count = len(keys)
    driven = f"tip.{bench.installation.beam.driven_index}"
    unit = np.eye(count)
    places = [np.zeros(count)]
    terms: list[tuple[int, ...]] = [(0,)]
    for number, key in enumerate(keys):
        one = number + 1
        places += [_NEAR * unit[number], -_NEAR * unit[number]]
        terms += [(one,), (one, one)]
        if key in (driven, "strap"):
            places += [far[number] * unit[number], -far[number] * unit[number]]
            terms += [(one, one, one), (one, one, one, one)]
    for first, second in combinations(range(count), 2):
        if _coupled(keys[first], keys[second], driven):
            places.append(_PAIR * (unit[first] + unit[second]))
            terms.append((first + 1, second + 1))
    return np.array(places), np.array(list(zip_longest(*terms, fillvalue=0)), dtype=np.int64)


def _coupled(first: str, second: str, driven: str) -> bool:
    """Whether two deviations act on each other enough to solve them together."""
    metal = [key for key in (first, second) if key == "strap" or key.startswith("tip.")]
    if len(metal) < 2:
        return False
    if {first, second} & {driven, "strap"}:
        return True
    return abs(int(first[4:]) - int(second[4:])) == 1


def _monomials(scaled: Floats, factors: NDArray[np.int64]) -> Floats:
    # A row each for one and for every deviation.
    given = np.vstack([np.ones(len(scaled)), scaled.T])
    found: Floats = given[factors[0]]
    for each in factors[1:]:
        found *= given[each]
    turned: Floats = found.T
    return turned

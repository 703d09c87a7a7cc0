"""Impedances of a beam with each fault of its metal, and how they change with small errors."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.parts import Beam
from boomwright.solver import (
    FREE_SPACE,
    Detail,
    Ground,
    Preparer,
    assemble,
    ground_matrices,
    remembering,
    solve_currents,
    working_detail,
)
from boomwright.tuning.causes import element_labels
from boomwright.tuning.fault_wires import MetalFault, faulty_wires, half_left
from boomwright.tuning.installation import Installation, after_changes

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: frequencies of a library, and those at which real ground is computed
_NODES = 15
_GROUND_NODES = 5
#: lengths of braid computed, in wavelengths
BRAID_WAVELENGTHS = (0.06, 0.66)
_BRAID_COUNT = 21
#: longest braid as a share of the height
_BRAID_CLEARANCE = 0.95
#: steps of the difference quotients, in wavelengths
_TIP_STEP = 2e-4
_HEIGHT_STEP = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearAntenna:
    """Impedance of an antenna and its slopes.

    Parameters
    ----------
    text
        what is wrong with it, in words [-]
    frequencies
        frequencies [Hz] (f,)
    impedance
        feed-point impedance [ohm] (f,)
    keys
        changes it has slopes for: ``tip.N`` and ``height`` [-] (n,)
    slopes
        change of the impedance [ohm/m] (n, f)
    """

    text: str
    frequencies: Floats
    impedance: Complexes
    keys: tuple[str, ...]
    slopes: Complexes

    def __post_init__(self) -> None:
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "impedance", read_only(self.impedance, complex))
        object.__setattr__(self, "slopes", read_only(self.slopes, complex))

    def at(self, *, frequencies: Floats) -> LinearAntenna:
        """The same at other frequencies, by cubic splines.

        Parameters
        ----------
        frequencies
            frequencies within its range [Hz] (f,)

        Returns
        -------
        LinearAntenna
            interpolated [-]
        """
        return replace(
            self,
            frequencies=frequencies,
            impedance=splined(self.frequencies, self.impedance, frequencies),
            slopes=splined(self.frequencies, self.slopes.T, frequencies).T,
        )

    def changed(self, changes: Mapping[str, float]) -> Complexes:
        """Impedance after some changes; those it has no slopes for are left out.

        Parameters
        ----------
        changes
            amounts by key [m]

        Returns
        -------
        NDArray
            impedance [ohm] (f,)
        """
        amounts = np.array([changes.get(key, 0.0) for key in self.keys])
        found: Complexes = self.impedance + amounts @ self.slopes
        # A change too large for the slopes must not turn the antenna into a generator.
        kept: Complexes = np.maximum(found.real, 0.5) + 1j * found.imag
        return kept


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidFamily:
    """What the outside of the line adds at the feed, for many lengths of it.

    Parameters
    ----------
    lengths
        lengths of braid [m] (k,)
    frequencies
        frequencies [Hz] (f,)
    admittance
        admittance added across the feed [S] (k, f)
    """

    lengths: Floats
    frequencies: Floats
    admittance: Complexes

    def __post_init__(self) -> None:
        object.__setattr__(self, "lengths", read_only(self.lengths))
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "admittance", read_only(self.admittance, complex))

    def at(self, *, frequencies: Floats) -> BraidFamily:
        """The same at other frequencies, by cubic splines.

        Parameters
        ----------
        frequencies
            frequencies within its range [Hz] (f,)

        Returns
        -------
        BraidFamily
            interpolated [-]
        """
        values = splined(self.frequencies, self.admittance.T, frequencies).T
        return replace(self, frequencies=frequencies, admittance=values)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaultAntennas:
    """All computed antennas of one installation.

    Parameters
    ----------
    plain
        the antenna without a fault [-]
    loose
        with one element that lost contact [-]
    reordered
        with two parasitic elements in each other's place [-]
    braid
        what a braid adds [-]
    """

    plain: LinearAntenna
    loose: tuple[LinearAntenna, ...]
    reordered: tuple[LinearAntenna, ...]
    braid: BraidFamily


def splined(at: Floats, values: Complexes, wanted: Floats) -> Complexes:
    """Interpolate along the first axis by a cubic spline.

    Parameters
    ----------
    at
        rising places [-] (n,)
    values
        values there [-] (n, ...)
    wanted
        places wanted [-] (m,)

    Returns
    -------
    NDArray
        values wanted [-] (m, ...)
    """
    from scipy.interpolate import CubicSpline  # slow to import, only needed here

    found: Complexes = CubicSpline(at, values, axis=0)(wanted)
    return found


def compute_fault_antennas(
    *, installation: Installation, lowest_frequency: float, highest_frequency: float
) -> FaultAntennas:
    """Solve the beam with every fault of its metal; takes from seconds to a minute.

    Parameters
    ----------
    installation
        the installation as planned [-]
    lowest_frequency, highest_frequency
        limits of the sweeps that will be asked for [Hz]

    Returns
    -------
    FaultAntennas
        the antennas [-]
    """
    bench = _Bench(installation, lowest_frequency, highest_frequency)
    beam = installation.beam
    labels = element_labels(installation)
    loose = []
    for number, element in enumerate(beam.elements):
        for left in half_left(element=element):
            text = f"{labels[number]}: one half has contact only {left:.2f} m out from the boom"
            loose.append(bench.antenna(text, MetalFault(short_half=(number, left))))
        if number != beam.driven_index:
            text = f"{labels[number]}: its halves do not touch in the middle"
            loose.append(bench.antenna(text, MetalFault(open_middle=number)))
    reordered = []
    parasitic = [n for n in range(len(beam.elements)) if n != beam.driven_index]
    for first, second in combinations(parasitic, 2):
        text = f"{labels[first]} and {labels[second]} are in each other's place"
        reordered.append(bench.antenna(text, MetalFault(), beam=swapped(beam, first, second)))
    return FaultAntennas(
        plain=bench.antenna("no fault", MetalFault()),
        loose=tuple(loose),
        reordered=tuple(reordered),
        braid=bench.braid(),
    )


def swapped(beam: Beam, first: int, second: int) -> Beam:
    """Put two elements in each other's place.

    Parameters
    ----------
    beam
        the beam [-]
    first, second
        numbers of the elements [-]

    Returns
    -------
    Beam
        the beam with both exchanged; numbers stay with the elements [-]
    """
    elements = list(beam.elements)
    places = elements[first].position, elements[second].position
    elements[first] = replace(elements[first], position=places[1])
    elements[second] = replace(elements[second], position=places[0])
    return replace(beam, elements=tuple(elements))


def faulty_impedance(
    *,
    beam: Beam,
    fault: MetalFault,
    ground: Ground,
    frequencies: Floats,
    detail: Detail,
    prepare: Preparer,
) -> Complexes:
    """Feed-point impedance of a beam with a fault in its metal.

    Parameters
    ----------
    beam
        the beam as it should be [-]
    fault
        its fault [-]
    ground
        ground below it [-]
    frequencies
        frequencies [Hz] (f,)
    detail
        how finely to cut it [-]
    prepare
        prepares one run [-]

    Returns
    -------
    NDArray
        impedance [ohm] (f,)
    """
    assembly = assemble(
        system=faulty_wires(beam=beam, fault=fault, ground=ground),
        detail=detail,
        highest_frequency=float(frequencies.max()),
        prepare=prepare,
    )
    added = None
    if ground.kind == "real":
        added = ground_matrices(assembly=assembly, frequencies=frequencies, ground=ground)
    currents = solve_currents(assembly=assembly, frequencies=frequencies, added=added)
    impedance: Complexes = 1.0 / currents.admittance[:, 0, 0]
    return impedance


class _Bench:
    """Solves one installation with its faults, remembering element shapes."""

    def __init__(self, installation: Installation, lowest: float, highest: float) -> None:
        self.installation = installation
        self.frequencies = np.linspace(lowest, highest, _NODES)
        self.detail = working_detail(frequency=highest)
        self.prepare = remembering()

    def solve(self, beam: Beam, fault: MetalFault, ground: Ground, at: Floats) -> Complexes:
        """Impedance at some frequencies."""
        return faulty_impedance(
            beam=beam, fault=fault, ground=ground, frequencies=at, detail=self.detail,
            prepare=self.prepare,
        )  # fmt: skip

    def over_ground(self, beam: Beam, fault: MetalFault) -> Complexes:
        """Impedance over the ground; what real ground changes is interpolated."""
        ground = self.installation.ground
        if ground.kind != "real":
            return self.solve(beam, fault, ground, self.frequencies)
        bare = self.solve(beam, fault, FREE_SPACE, self.frequencies)
        some = np.linspace(self.frequencies[0], self.frequencies[-1], _GROUND_NODES)
        change = self.solve(beam, fault, ground, some) - self.solve(beam, fault, FREE_SPACE, some)
        return bare + splined(some, change, self.frequencies)

    def antenna(self, text: str, fault: MetalFault, beam: Beam | None = None) -> LinearAntenna:
        """Impedance and slopes; real ground hardly acts on those of the tips, and is left out."""
        beam = beam or self.installation.beam
        base = self.over_ground(beam, fault)
        ground = self.installation.ground
        quick = FREE_SPACE if ground.kind == "real" else ground
        flat = base if quick is ground else self.solve(beam, fault, quick, self.frequencies)
        step = _TIP_STEP * beam.wavelength
        keys, slopes = [], []
        for number in range(len(beam.elements)):
            moved = after_changes(
                installation=replace(self.installation, beam=beam), changes={f"tip.{number}": step}
            ).beam
            keys.append(f"tip.{number}")
            ahead = self.solve(moved, fault, quick, self.frequencies)
            slopes.append((ahead - flat) / step)
        if ground.kind != "free space":
            rise = _HEIGHT_STEP * beam.wavelength
            keys.append("height")
            higher = self.over_ground(replace(beam, height=beam.height + rise), fault)
            slopes.append((higher - base) / rise)
        return LinearAntenna(
            text=text,
            frequencies=self.frequencies,
            impedance=base,
            keys=tuple(keys),
            slopes=np.array(slopes),
        )

    def braid(self) -> BraidFamily:
        """What a braid adds, for lengths that stay off the ground."""
        beam = self.installation.beam
        shortest, longest = (share * beam.wavelength for share in BRAID_WAVELENGTHS)
        if self.installation.ground.kind != "free space":
            longest = min(longest, _BRAID_CLEARANCE * beam.height)
            shortest = min(shortest, 0.5 * longest)
        plain = 1.0 / self.over_ground(beam, MetalFault())
        lengths = np.linspace(shortest, longest, _BRAID_COUNT)
        added = [
            1.0 / self.over_ground(beam, MetalFault(braid_length=length)) - plain
            for length in lengths.tolist()
        ]
        return BraidFamily(
            lengths=lengths, frequencies=self.frequencies, admittance=np.array(added)
        )

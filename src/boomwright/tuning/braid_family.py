"""What the outside of the line's braid adds at a feed without a choke, for many lengths of it.

The braid is a wire tied to one half of the split driven element. What it adds is found with the
quick image method of ground, exactly only where its end comes near the ground: the error that the
image method makes in the beam itself cancels.
"""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam, Element
from boomwright.solver import (
    ElementWires,
    EndKind,
    Ground,
    GroundMethod,
    Mirror,
    PlacedRun,
    Port,
    RunShape,
    WireSystem,
    assemble,
    both_halves,
    element_half,
    ground_matrices,
    remembering,
    solve_currents,
    surrounded_beam,
    working_detail,
)
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights

#: lengths of braid computed, in wavelengths
BRAID_WAVELENGTHS = (0.06, 0.66)
_COUNT = 17
#: its end stays so far off the ground, as a share of the height and in wavelengths: nearer, the
#: solver's model of real ground does not hold
_CLEARANCE, _OFF_GROUND = 0.05, 0.025
#: with its end nearer to the ground than this, in wavelengths, a braid is solved exactly. Tried
#: over very dry to wet ground from 0.28 wavelengths up: error in reflection below 0.0015 above it
_IMAGE_FROM = 0.06
#: the braid joins the element this many diameters from the middle of the gap, at least
_OFFSET, _DIAMETER = 1.0, 0.01
#: impedance a braid is held against to interpolate it: half the feed voltage drives half the
#: current, so about four times the wave impedance of a wire; then its reflection turns evenly.
#: Tried from 900 to 3500: lowest error between 1200 and 1300 [ohm]
_OHM = 1250.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidFamily(ReadOnlyArrays):
    """What the outside of the line adds at the feed, for many lengths of it."""

    lengths: Floats  #: lengths of braid, Chebyshev nodes with both ends [m] (k,)
    frequencies: Floats  #: frequencies [Hz] (f,)
    admittance: Complexes  #: admittance added across the feed [S] (k, f)

    def added(self, lengths: Floats, weights: Floats) -> Complexes:
        """Admittance added by any lengths [S] (n, f).

        A quarter wave of braid resonates; seen as a reflection its admittance turns evenly.

        Args:
            lengths: lengths of braid [m] (n,)
            weights: weights of this family's frequencies in those wanted (f, k)
        """
        at = np.clip(lengths, self.lengths[0], self.lengths[-1])
        scaled = self.admittance * _OHM
        nodes = ((1.0 - scaled) / (1.0 + scaled)) @ weights.T
        smooth = lagrange_weights(nodes=self.lengths, at=at) @ nodes
        found: Complexes = (1.0 - smooth) / (1.0 + smooth) / _OHM
        return found


def braid_family(*, beam: Beam, ground: Ground, frequencies: Floats) -> BraidFamily:
    """Solve the beam with braids that stay off the ground.

    Args:
        frequencies: [Hz] (f,)
    """
    shortest, longest = (share * beam.wavelength for share in BRAID_WAVELENGTHS)
    if ground.kind != "free space":
        off = max(_CLEARANCE * beam.height, _OFF_GROUND * beam.wavelength)
        longest = min(longest, max(beam.height - off, 0.1 * beam.height))
        shortest = min(shortest, 0.5 * longest)
    lengths = chebyshev_nodes(np.array([shortest, longest]), _COUNT)
    solver = _Solver(beam, ground, frequencies)
    methods: tuple[GroundMethod, ...] = ("exact", "image")
    without = {method: solver.admittance(0.0, method) for method in methods}
    found = []
    for length in lengths.tolist():
        near = beam.height - length < _IMAGE_FROM * beam.wavelength
        method: GroundMethod = "exact" if near and ground.kind == "real" else "image"
        found.append(solver.admittance(length, method) - without[method])
    return BraidFamily(lengths=lengths, frequencies=frequencies, admittance=np.array(found))


class _Solver:
    def __init__(self, beam: Beam, ground: Ground, frequencies: Floats) -> None:
        self.beam, self.ground, self.frequencies = beam, ground, frequencies
        self.prepare = remembering()

    def admittance(self, length: float, method: GroundMethod) -> Complexes:
        """Admittance of the beam with a braid, or with none when it has no length."""
        system = braided_wires(beam=self.beam, braid=length, ground=self.ground)
        assembly = assemble(
            system=surrounded_beam(system=system, beam=self.beam),
            detail=working_detail(frequency=float(self.frequencies.max())),
            highest_frequency=float(self.frequencies.max()),
            prepare=self.prepare,
        )
        added = None
        if self.ground.kind == "real":
            added = ground_matrices(
                assembly=assembly, frequencies=self.frequencies, ground=self.ground, method=method
            )
        currents = solve_currents(assembly=assembly, frequencies=self.frequencies, added=added)
        found: Complexes = currents.admittance[:, 0, 0]
        return found


def braided_wires(*, beam: Beam, braid: float, ground: Ground) -> WireSystem:
    """Model a split beam whole, with a braid hanging from one side of its feed.

    Args:
        braid: length of braid, 0 for none [m]
    """
    mirrors = []
    if ground.kind == "perfect":
        mirrors.append(Mirror(axis=2, offset=-beam.height, material=True))
    runs: list[PlacedRun] = []
    joints: tuple[tuple[tuple[int, bool], ...], ...] = ()
    port = Port(run=0)
    for number, element in enumerate(beam.elements):
        if number == beam.driven_index:
            first = len(runs)
            port = Port(run=first)
            if braid > 0.0:
                runs.extend(_with_braid(element, beam, braid))
                port = Port(run=first + 1)
                joints = (((first, True), (first + 1, False), (first + 2, False)),)
                continue
        half = element_half(element=element)
        whole = both_halves(left=half, right=half)
        fed = number == beam.driven_index
        gaps = ((half.length, _gap(element, beam)),) if fed else ()
        runs.append(_run(whole, element, beam, at=-half.length, gaps=gaps, start="closed tip"))
    return WireSystem(
        runs=tuple(runs),
        mirrors=tuple(mirrors),
        joints=joints,
        ports=(port,),
        ground_height=beam.height if ground.kind == "real" else math.inf,
    )


def _gap(element: Element, beam: Beam) -> float:
    # The solver's own model takes a quarter of the diameter as the narrowest gap.
    return max(beam.feed.gap, 0.25 * element.half[0].diameter)


def _run(
    wires: ElementWires,
    element: Element,
    beam: Beam,
    *,
    at: float,
    gaps: tuple[tuple[float, float], ...],
    start: EndKind,
    end: EndKind = "closed tip",
) -> PlacedRun:
    """Part of an element from its place across the boom onwards."""
    return PlacedRun(
        shape=RunShape(sections=wires.sections, gaps=gaps, start=start, end=end),
        origin=(element.position, at, 0.0),
        direction=(0.0, 1.0, 0.0),
        conductivity=wires.metal(beam.material.conductivity),
        inductance=wires.inductance,
    )


def _with_braid(element: Element, beam: Beam, braid: float) -> list[PlacedRun]:
    """The driven element in two runs that meet beside the gap, and the braid there."""
    gap = _gap(element, beam)
    offset = max(gap, _OFFSET * element.half[0].diameter)
    half = element_half(element=element)
    whole = both_halves(left=half, right=half)
    joint = half.length - offset
    outer = whole.part(low=0.0, high=joint)
    inner = whole.part(low=joint, high=whole.length)
    return [
        _run(outer, element, beam, at=-half.length, gaps=(), start="closed tip", end="joint"),
        _run(inner, element, beam, at=-offset, gaps=((offset, gap),), start="joint"),
        PlacedRun(
            shape=RunShape(sections=((braid, 0.5 * _DIAMETER),), start="joint", end="closed tip"),
            origin=(element.position, -offset, 0.0),
            direction=(0.0, 0.0, -1.0),
            conductivity=beam.material.conductivity,
        ),
    ]

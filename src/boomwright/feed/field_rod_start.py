"""Where the iteration of a gamma or tee starts: published equations, then better ones."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass
from boomwright.feed.field_model import FieldSetting, mean_diameter
from boomwright.feed.field_proximity import rod_port_impedance, thicker_middle, thin_wire_line
from boomwright.feed.field_shapes import GammaShape, TeeShape
from boomwright.feed.field_split import circuit_tip_change, split_impedance, tip_bounds
from boomwright.feed.matches import FeedLoad
from boomwright.feed.rod_matches import (
    HALF_WAVE_BALUN_RATIO,
    RodGeometry,
    RodMatch,
    design_gamma,
    design_tee,
)
from boomwright.parts import Beam

#: a start must be able to reach this many times the wanted resistance, so that the
#: field-solved match is not at the end of its reach
_HEADROOM = 1.15
#: reactance taken from the element in one step of the search for a start [ohm]
_TRIM_STEP = 5.0
_TRIM_STEPS = 40
#: shortest and longest rod, in spacings and as a share of the half-length
_SHORTEST_ROD_SPACINGS = 2.0
_LONGEST_ROD = 0.85
#: rod lengths tried in the circuit equations
_LENGTHS = 80

RodShape = GammaShape | TeeShape


@dataclass(frozen=True, slots=True, kw_only=True)
class RodJob:
    """What is wanted of a rod match."""

    beam: Beam  #: the beam as planned
    shape: RodShape  #: the feed, rod length and capacitor still open
    reference: float  #: resistance of the line [ohm]
    capacitors: tuple[float, float]  #: least and greatest capacitor that can be had [F]
    setting: FieldSetting  #: ground and memory

    @property
    def rods(self) -> int:
        """Number of rods."""
        return 2 if isinstance(self.shape, TeeShape) else 1

    @property
    def kind(self) -> str:
        """Name for messages."""
        return "tee" if self.rods == 2 else "gamma"

    @property
    def target(self) -> float:
        """Resistance wanted at the port [ohm]."""
        return self.reference * (HALF_WAVE_BALUN_RATIO if self.rods == 2 else 1.0)

    @property
    def angular(self) -> float:
        """Angular design frequency [rad/s]."""
        return 2.0 * math.pi * self.beam.design_frequency

    @property
    def reactances(self) -> tuple[float, float]:
        """Least and greatest reactance at the port that the capacitors can take out [ohm]."""
        small, large = self.capacitors
        return self.rods / (self.angular * large), self.rods / (self.angular * small)

    @property
    def half_length(self) -> float:
        """Half-length of the driven element as planned [m]."""
        return self.beam.elements[self.beam.driven_index].half_length

    @property
    def rod_bounds(self) -> tuple[float, float]:
        """Shortest and longest rod that is tried [m]."""
        return _SHORTEST_ROD_SPACINGS * self.shape.spacing, _LONGEST_ROD * self.half_length

    def geometry(self, *, rod_length: float) -> RodGeometry:
        """Element and rod for the circuit equations.

        Args:
            rod_length: the element counts with its mean diameter along the rod [m]
        """
        element = self.beam.elements[self.beam.driven_index]
        return RodGeometry(
            element_diameter=mean_diameter(element=element, length=rod_length),
            rod_diameter=self.shape.rod_diameter,
            spacing=self.shape.spacing,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedStart:
    """What the published equations say."""

    rod: RodMatch  #: the design
    tip_change: float  #: change of each half of the driven element it asks for [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldStart:
    """Where the iteration in the field begins."""

    rod_length: float  #: length of the rod [m]
    tip_change: float  #: change of each half of the driven element [m]
    reactance: float  #: reactance at the port to be expected [ohm]


def published_start(*, job: RodJob, load: FeedLoad) -> PublishedStart:
    """First published design that works with the least trimming of the element.

    Args:
        load: the element as if split

    Raises:
        BoomwrightError: when there is none
    """
    design = design_tee if job.rods == 2 else design_gamma
    element = job.beam.elements[job.beam.driven_index]
    frequency = job.beam.design_frequency
    low, high = tip_bounds(beam=job.beam)
    fault: BoomwrightError | None = None
    for number in range(_TRIM_STEPS):
        taken = -_TRIM_STEP * number
        tips = circuit_tip_change(element=element, frequency=frequency, reactance=taken)
        if not low < tips < high:
            break
        shifted = FeedLoad(frequency=load.frequency, impedance=load.impedance + 1j * taken)
        try:
            rod = _designed(design, shifted, job)
        except BoomwrightError as error:
            fault = fault or error
            continue
        least, greatest = job.capacitors
        fits = least <= rod.capacitance <= greatest
        if fits and rod.rod_length < _LONGEST_ROD * element.half_length:
            return PublishedStart(rod=rod, tip_change=tips)
    if fault is not None:
        raise fault
    raise BoomwrightError(
        phrase(
            "{kind}: no rod of {diameter} at {spacing} reaches {reference} with a capacitor of "
            "{least} to {most}; change diameter or spacing, or allow another capacitor",
            kind=job.kind,
            diameter=Quantity(job.shape.rod_diameter, "small length"),
            spacing=Quantity(job.shape.spacing, "small length"),
            reference=Quantity(job.reference, "nominal resistance"),
            least=Quantity(job.capacitors[0], "capacitance"),
            most=Quantity(job.capacitors[1], "capacitance"),
        )
    )


def _designed(design: Callable[..., RodMatch], load: FeedLoad, job: RodJob) -> RodMatch:
    """Circuit design with headroom; the element counts with its diameter along the rod."""
    frequency = job.beam.design_frequency
    half = job.half_length
    geometry = job.geometry(rod_length=half / 4.0)
    design(load=load, frequency=frequency, geometry=geometry, reference=_HEADROOM * job.reference)
    rod = design(load=load, frequency=frequency, geometry=geometry, reference=job.reference)
    return design(
        load=load,
        frequency=frequency,
        geometry=job.geometry(rod_length=rod.rod_length),
        reference=job.reference,
    )


def field_start(*, job: RodJob, element: complex) -> FieldStart | None:
    """Shortest rod by equations that count the thicker middle and the whole element.

    Args:
        element: impedance of the planned element as if split, at the design frequency [ohm]

    Returns:
        start with the least trimming of the element; None when these equations know none
    """
    planned = job.beam.elements[job.beam.driven_index]
    shortest, longest = tip_bounds(beam=job.beam)
    least, greatest = job.reactances
    lengths = np.linspace(*job.rod_bounds, _LENGTHS)
    for number in range(2 * _TRIM_STEPS):
        # Nearest first: 0, one step shorter, one longer, two shorter, ...
        taken = -_TRIM_STEP * ((number + 1) // 2) * (1.0 if number % 2 else -1.0)
        tips = circuit_tip_change(
            element=planned, frequency=job.beam.design_frequency, reactance=taken
        )
        if not shortest < tips < longest:
            continue
        seen = np.array(
            [
                circuit_port(job=job, element=element + 1j * taken, rod_length=float(length))
                for length in lengths
            ]
        )
        reached = np.flatnonzero(seen.real >= job.target)
        if len(reached) == 0 or seen.real.max() < _HEADROOM * job.target:
            continue
        at = int(reached[0])
        if least <= seen[at].imag <= greatest:
            return FieldStart(
                rod_length=float(lengths[at]), tip_change=tips, reactance=float(seen[at].imag)
            )
    return None


def circuit_port(
    *, job: RodJob, element: complex, rod_length: float, thin: bool = False
) -> complex:
    """Impedance before the capacitor by equations that count the thicker middle [ohm].

    Args:
        element: impedance of the element as if split [ohm]
        rod_length: length of the rod; its strap counts as half a spacing more [m]
        thin: whether conductors are thin wires, as in the solver, or round
    """
    geometry = job.geometry(rod_length=rod_length)
    division, line = geometry.current_division, geometry.line_impedance
    if thin:
        division, line = thin_wire_line(geometry=geometry)
    middle = thicker_middle(
        geometry=geometry,
        rod_length=rod_length,
        frequency=job.beam.design_frequency,
        rods=job.rods,
    )
    return rod_port_impedance(
        element=element + 1j * middle,
        step_up=(1.0 + division) ** 2,
        line_impedance=line,
        angle=job.angular * (rod_length + job.shape.spacing / 2.0) / SPEED_OF_LIGHT,
        rods=job.rods,
    )


def rod_proximity(*, job: RodJob, beam: Beam, rod_length: float) -> complex:
    """What round conductors change over the thin wires of the solver.

    Args:
        rod_length: [m]

    Returns:
        change of the impedance at the port, by the circuit equations [ohm]
    """
    element = split_impedance(beam=beam, setting=job.setting)
    round_ones = circuit_port(job=job, element=element, rod_length=rod_length)
    return round_ones - circuit_port(job=job, element=element, rod_length=rod_length, thin=True)

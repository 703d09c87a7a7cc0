"""Matches of rods along the driven element: folded element, tee and half-tee (gamma).

Published transmission-line equations {balanis-2005, section 9.7}: where a design starts. They
neglect the end bars, the inductance that the rods take from the element's middle, and the
published gamma takes half of the element's impedance, as over a conducting plane. Solved in the
field, rods come out 0.4 to 1.9 times as long and capacitors 0.4 to 0.8 times as large;
:func:`boomwright.feed.solve_gamma` and its like give dimensions to cut.
"""

from __future__ import annotations

import math

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, BoomwrightError, Notice
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass
from boomwright.feed.matches import FeedLoad, Match, make_match
from boomwright.feed.stages import SeriesCapacitor, ShuntStub, Stage, Transformer

#: resistance across the balanced side of a half-wave balun over the line's {common-practice-balun}
HALF_WAVE_BALUN_RATIO = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RodGeometry:
    """Element and the rod beside it.

    Raises:
        BoomwrightError: when element and rod touch or a diameter is not above 0
    """

    element_diameter: float  #: diameter of the element [m]
    rod_diameter: float  #: diameter of the rod [m]
    spacing: float  #: distance between the axes [m]

    def __post_init__(self) -> None:
        least = (self.element_diameter + self.rod_diameter) / 2.0
        if not (min(self.element_diameter, self.rod_diameter) > 0.0 and self.spacing > least):
            raise BoomwrightError(
                phrase(
                    "rod: spacing {spacing} between axes, diameters {element} and {rod}; set the "
                    "axes more than {least} apart",
                    spacing=Quantity(self.spacing, "small length"),
                    element=Quantity(self.element_diameter, "small length"),
                    rod=Quantity(self.rod_diameter, "small length"),
                    least=Quantity(least, "small length"),
                )
            )

    @property
    def current_division(self) -> float:
        """Current in the element over that in the rod, alpha {balanis-2005, eq. 9-49} [-].

        Of the currents that flow the same way in both; above 1 when the element is the thicker.
        """
        u = self.element_diameter / self.rod_diameter
        v = 2.0 * self.spacing / self.rod_diameter
        return math.acosh((v * v - u * u + 1.0) / (2.0 * v)) / math.acosh(
            (v * v + u * u - 1.0) / (2.0 * u * v)
        )

    @property
    def step_up(self) -> float:
        """Impedance step-up (1 + alpha)^2 {balanis-2005, eq. 9-48} [-]."""
        return (1.0 + self.current_division) ** 2

    @property
    def line_impedance(self) -> float:
        """Characteristic impedance of element and rod as a line {balanis-2005, eq. 9-51} [ohm]."""
        a, b = self.element_diameter / 2.0, self.rod_diameter / 2.0
        argument = (self.spacing**2 - a * a - b * b) / (2.0 * a * b)
        return VACUUM_IMPEDANCE / (2.0 * math.pi) * math.acosh(argument)


@dataclass(frozen=True, slots=True, kw_only=True)
class RodMatch:
    """A gamma or tee and its dimensions."""

    match: Match
    rod_length: float  #: length of each rod, from the element's middle to its strap [m]
    capacitance: float  #: capacitance in series with each rod [F]


def design_gamma(
    *, load: FeedLoad, frequency: float, geometry: RodGeometry, reference: float = 50.0
) -> RodMatch:
    """Design a half-tee (gamma): one rod with a capacitor in series, element not split.

    Args:
        load: impedance of the element as if split at its middle
        frequency: design frequency [Hz]

    Returns:
        shortest rod and its capacitor {balanis-2005, section 9.7.4}
    """
    step = Transformer(ratio=geometry.step_up / 2.0, label="rod beside the element, one side")
    return _design_rods(
        kind="gamma",
        load=load,
        frequency=frequency,
        geometry=geometry,
        step=step,
        rods=1,
        target=reference,
        reference=reference,
    )


def design_tee(
    *, load: FeedLoad, frequency: float, geometry: RodGeometry, reference: float = 50.0
) -> RodMatch:
    """Design a tee: a rod with a capacitor on either side, fed through a half-wave balun.

    Args:
        load: impedance of the element as if split at its middle
        frequency: design frequency [Hz]

    Returns:
        shortest rods and their capacitors {balanis-2005, section 9.7.3}
    """
    step = Transformer(ratio=geometry.step_up, label="rods beside the element")
    return _design_rods(
        kind="tee with half-wave balun",
        load=load,
        frequency=frequency,
        geometry=geometry,
        step=step,
        rods=2,
        target=reference * HALF_WAVE_BALUN_RATIO,
        reference=reference,
    )


def _design_rods(
    *,
    kind: str,
    load: FeedLoad,
    frequency: float,
    geometry: RodGeometry,
    step: Transformer,
    rods: int,
    target: float,
    reference: float,
) -> RodMatch:
    stub_impedance = geometry.line_impedance * rods
    angle, reactance = _rod_angle(
        kind=kind,
        admittance=1.0 / (step.ratio * complex(load.at(frequency))),
        target=target,
        stub_impedance=stub_impedance,
    )
    length = angle * SPEED_OF_LIGHT / (2.0 * math.pi * frequency)
    total = 1.0 / (2.0 * math.pi * frequency * reactance)
    stages: tuple[Stage, ...] = (
        step,
        ShuntStub(impedance=stub_impedance, length=length, end="short"),
        # Two capacitors in the two rods act as one of half their capacitance.
        SeriesCapacitor(capacitance=total),
    )
    if rods == 2:
        stages += (Transformer(ratio=1.0 / HALF_WAVE_BALUN_RATIO, label="half-wave balun"),)
    match = make_match(
        kind=kind,
        load=load,
        frequency=frequency,
        reference=reference,
        stages=stages,
        notices=(_rod_notice(),),
    )
    return RodMatch(
        match=match,
        rod_length=length,
        capacitance=total * rods,
    )


def _rod_angle(
    *, kind: str, admittance: complex, target: float, stub_impedance: float
) -> tuple[float, float]:
    """Electrical length of the rods and the inductive reactance left for the capacitor."""
    conductance = admittance.real
    if conductance >= 1.0 / target:
        raise BoomwrightError(
            (
                f"the stepped-up element is {1.0 / conductance:.0f} ohm in parallel form, "
                f"not above {target:g} ohm; take a thinner rod, or set it nearer to a thick element"
            ),
            about=kind,
        )
    susceptance = -math.sqrt(conductance / target - conductance**2)
    stub = susceptance - admittance.imag
    if stub >= 0.0:
        raise BoomwrightError(
            (
                "the element is too inductive at the design frequency for a capacitor to "
                "finish the match; shorten the element until its reactance is negative or small"
            ),
            about=kind,
        )
    angle = math.atan2(1.0, -stub * stub_impedance)
    return angle, -susceptance / (conductance**2 + susceptance**2)


def _rod_notice() -> Notice:
    return Notice(
        code="feed.rod-is-a-start",
        text=(
            "Rod length and capacitor are first values from line equations, which can be off by a "
            "factor of two: they leave out the end bars and the inductance the rods take from the "
            "middle of the element, and for a gamma they take half of the element's impedance. "
            "Cut to the dimensions solved in the field, with a sliding strap and a variable "
            "capacitor, and trim by measurement."
        ),
        severity="doubt",
        value="up to a factor of 2 in rod length and capacitor",
        source="balanis-2005",
    )


def design_folded_element(
    *,
    load: FeedLoad,
    frequency: float,
    geometry: RodGeometry,
    half_length: float,
    reference: float = 50.0,
    balun_ratio: float = 1.0,
) -> Match:
    """Fold the driven element: a second conductor over its whole length.

    Args:
        frequency: design frequency [Hz]
        half_length: half the length of the element [m]
        balun_ratio: impedance of the balun on the antenna side over that on the line side [-]

    Returns:
        step-up (1 + alpha)^2 across the line mode of the two conductors {balanis-2005, eqs.
        9-22 to 9-25}
    """
    stages: tuple[Stage, ...] = (
        Transformer(ratio=geometry.step_up, label="folded element"),
        ShuntStub(impedance=2.0 * geometry.line_impedance, length=half_length, end="short"),
        Transformer(ratio=1.0 / balun_ratio, label="balun"),
    )
    return make_match(
        kind="folded element",
        load=load,
        frequency=frequency,
        reference=reference,
        stages=stages,
    )

"""An element as the solver carries it: tubes, coats and mount as radii and series inductance.

A coat of permittivity eps between the radii a and b raises the capacitance of a wire and leaves
its outer inductance alone. Both hold for a wire of radius a (b/a)^(1 - 1/eps) with the
inductance mu0 / (2 pi) (1 - 1/eps) ln(b/a) in series with each metre {richmond-newman-1976}. It
takes a coat much thinner than the wave, and air around it.
"""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import VACUUM_PERMEABILITY
from boomwright.base.records import dataclass, replace
from boomwright.parts import Element, Insulation
from boomwright.solver.mounts import mount_stretches
from boomwright.solver.runs.mesh import joined_sections
from boomwright.solver.series_inductance import (
    Stretch,
    stretches_between,
    stretches_from_the_end,
)

Sections = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementWires:
    """Half an element from the boom outwards, or a whole one from tip to tip."""

    sections: Sections  #: length and radius of its tubes, neighbours of equal radius joined [m]
    inductance: tuple[Stretch, ...] = ()  #: in series with stretches from its start [m] and [H/m]
    thickening: float = 1.0  #: radius that acts over the radius of the metal [-]

    @property
    def length(self) -> float:
        """Length of all sections [m]."""
        return sum(length for length, _ in self.sections)

    def part(self, *, low: float, high: float) -> ElementWires:
        """What lies between two places.

        Args:
            low, high: from the start [m]
        """
        ends = np.cumsum([0.0, *(length for length, _ in self.sections)])
        spans = zip(self.sections, ends[:-1], ends[1:], strict=True)
        kept = ((min(end, high) - max(start, low), radius) for (_, radius), start, end in spans)
        return replace(
            self,
            sections=tuple((float(length), radius) for length, radius in kept if length > 1e-9),
            inductance=stretches_between(self.inductance, low=low, high=high),
        )

    def metal(self, conductivity: float) -> float:
        """Conductivity that loses as much on the thicker wire as the metal on its own.

        Args:
            conductivity: of the metal [S/m]

        Returns:
            conductivity for the solver [S/m]
        """
        return conductivity / self.thickening**2


def coat(*, insulation: Insulation, radius: float) -> tuple[float, float]:
    """What a layer around a wire does.

    Args:
        radius: of the metal [m]

    Returns:
        radius that acts [m] and inductance in series [H/m]
    """
    share = 1.0 - 1.0 / insulation.permittivity
    logarithm = math.log1p(insulation.thickness / radius)
    inductance = VACUUM_PERMEABILITY / (2.0 * math.pi) * share * logarithm
    return radius * math.exp(share * logarithm), inductance


def element_half(*, element: Element) -> ElementWires:
    """Half an element, from the boom outwards."""
    bare = tuple((section.length, section.diameter / 2.0) for section in element.half)
    stretches = () if element.mount is None else mount_stretches(mount=element.mount, half=bare)
    if element.insulation is None:
        return ElementWires(sections=joined_sections(bare), inductance=stretches)
    coated, start = [], 0.0
    layers: list[Stretch] = []
    for number, (length, radius) in enumerate(bare, start=1):
        acting, inductance = coat(insulation=element.insulation, radius=radius)
        coated.append((length, acting))
        # The last one goes on when the tip is made longer.
        layers.append((start, start + length if number < len(bare) else math.inf, inductance))
        start += length
    return ElementWires(
        sections=joined_sections(coated),
        inductance=(*stretches, *layers),
        thickening=coated[0][1] / bare[0][1],
    )


def both_halves(*, left: ElementWires, right: ElementWires) -> ElementWires:
    """Two halves as one element, from the tip of the first to that of the second."""
    middle = left.length
    inward = stretches_from_the_end(left.inductance, length=middle)
    outward = stretches_between(right.inductance, low=0.0, high=right.length)
    return ElementWires(
        sections=joined_sections((*left.sections[::-1], *right.sections)),
        inductance=(*inward, *((middle + a, middle + b, each) for a, b, each in outward)),
        thickening=left.thickening,
    )

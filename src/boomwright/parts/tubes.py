"""Tubes as bought and as sawn: kinds, overlaps, and runs that are longer than the stock."""

from __future__ import annotations

import math

from boomwright.base import METRES_PER_INCH
from boomwright.base.quantity import PerSystem, Phrase, Quantity, phrase
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeKind:
    """A tube as it is bought."""

    material: str  #: alloy and temper, or other material
    diameter: float  #: outer diameter [m]
    wall: float = 0.0  #: wall thickness, 0 when the plan does not say or for a rod [m]
    is_rod: bool = False  #: whether it is solid

    @property
    def name(self) -> str:
        """Name used in bills and price lists, e.g. ``tube 25.40 x 1.47 mm 6061-T6``."""
        wall = f" x {self.wall * 1000.0:.2f}" if self.wall > 0.0 else ""
        form = "rod" if self.is_rod else "tube"
        return f"{form} {self.diameter * 1000.0:.2f}{wall} mm {self.material}"

    @property
    def told(self) -> PerSystem:
        """Its name for a reader, in the sizes that are sold there."""
        form = "rod" if self.is_rod else "tube"
        inches = [f"{size / METRES_PER_INCH:.3f}" for size in (self.diameter, self.wall) if size]
        return PerSystem(metric=self.name, us=f"{form} {' x '.join(inches)} in {self.material}")

    def stock(self, length: float) -> Phrase:
        """Name one bought length of it.

        Args:
            length: stock length [m]
        """
        return phrase("{tube}, {length}", tube=self.told, length=Quantity(length, "stock length"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Joints:
    """How tubes are joined {common-practice-tubing}."""

    least_overlap: float = 0.1  #: least length of a tube inside the next larger one [m]
    #: the same in diameters of the inner tube; the larger counts [-]
    overlap_diameters: float = 3.0

    def overlap(self, diameter: float) -> float:
        """Length of a tube that sits inside the next larger one [m].

        Args:
            diameter: outer diameter of the inner tube [m]
        """
        return max(self.least_overlap, self.overlap_diameters * diameter)


def part_count(length: float, *, longest_stock: float) -> int:
    """Number of equal parts, 1 or more, that a run is cut into so that each fits the stock.

    Args:
        length: length of the run [m]
        longest_stock: longest length that can be bought [m]
    """
    return max(1, math.ceil(length / longest_stock - 1e-9))


def part_letter(part: int) -> str:
    """Letter of a part of one run.

    Args:
        part: number of the part, from 0
    """
    return chr(ord("a") + part) if part < 26 else f"/{part + 1}"

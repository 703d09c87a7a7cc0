"""Lengths as a workshop reads them: each rounded on its own, sums of them exact in every unit."""

from __future__ import annotations

from math import gcd

from boomwright.base import UnitSystem, feet_inches_sixteenths
from boomwright.base.quantity import PerSystem, Value, phrase
from boomwright.base.records import dataclass
from boomwright.base.unit_text import METRES_PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLength:
    """One length in the three steps a workshop reads it in, each rounded on its own."""

    millimetres: int  #: whole millimetres [mm]
    sixteenths: int  #: whole sixteenths of an inch [in/16]
    thousandths: int  #: whole thousandths of an inch [in/1000]

    def __sub__(self, other: CutLength) -> CutLength:
        return CutLength(
            millimetres=self.millimetres - other.millimetres,
            sixteenths=self.sixteenths - other.sixteenths,
            thousandths=self.thousandths - other.thousandths,
        )

    def __add__(self, other: CutLength) -> CutLength:
        return CutLength(
            millimetres=self.millimetres + other.millimetres,
            sixteenths=self.sixteenths + other.sixteenths,
            thousandths=self.thousandths + other.thousandths,
        )

    def metres(self, *, system: UnitSystem) -> float:
        """The rounded length as a number, in the step of one unit system [m].

        Args:
            system: ``metric`` for millimetres, ``us`` for sixteenths of an inch
        """
        if system == "metric":
            return self.millimetres / 1000.0
        return self.sixteenths * METRES_PER_INCH / 16.0

    @property
    def metric_text(self) -> str:
        """The length as ``5180 mm`` [mm]."""
        return f"{self.millimetres} mm"

    @property
    def told(self) -> Value:
        """The length as a tape in the workshop reads it: millimetres, or inches without feet."""
        unit = PerSystem(metric="mm", us="in")
        return phrase("{bare} {unit}", bare=self.bare, unit=unit)

    @property
    def bare(self) -> PerSystem:
        """The same without its unit, for a column that names it."""
        whole, part = divmod(abs(self.sixteenths), 16)
        inches = _fraction_text(self.sixteenths) if whole or not part else _part_text(part)
        return PerSystem(metric=str(self.millimetres), us=inches)

    @property
    def us_text(self) -> str:
        """The length as ``17 ft 0-3/8 in`` [ft, in]."""
        return feet_inches_sixteenths(self.metres(system="us"))

    @property
    def decimal_inch_text(self) -> str:
        """The length as ``203.937`` [in]."""
        return f"{self.thousandths / 1000.0:.3f}"

    @property
    def sixteenths_text(self) -> str:
        """The length as ``203 15/16``, no feet, as a spreadsheet reads a fraction [in]."""
        return _fraction_text(self.sixteenths)


def _fraction_text(sixteenths: int) -> str:
    whole, part = divmod(abs(sixteenths), 16)
    sign = "-" if sixteenths < 0 else ""
    if part == 0:
        return f"{sign}{whole}"
    return f"{sign}{whole} {_part_text(part)}"


def _part_text(sixteenths: int) -> str:
    common = gcd(sixteenths, 16)
    return f"{sixteenths // common}/{16 // common}"


def cut_length(length: float) -> CutLength:
    """Round one length to each of the three steps."""
    inches = length / METRES_PER_INCH
    return CutLength(
        millimetres=round(length * 1000.0),
        sixteenths=round(inches * 16.0),
        thousandths=round(inches * 1000.0),
    )

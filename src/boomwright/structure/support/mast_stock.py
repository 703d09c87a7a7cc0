"""Pipe, tube and steel that masts are made of, and how tubes nest."""

from __future__ import annotations

from typing import Literal

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.structure.beam.tubing import KSI
from boomwright.structure.memory import recalled


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelGrade:
    """A steel with its minimum yield."""

    name: str  #: standard and grade
    yield_strength: float  #: minimum yield [Pa]
    known: Literal["published", "from memory", "common practice"]  #: how the figure is known
    wall_share: float = 1.0  #: share of the nominal wall that counts for strength [-]

    @property
    def words(self) -> Value:
        """How the figure is known, to stand beside a result; empty when published."""
        if self.known == "from memory":
            return recalled("astm-a53")
        return "" if self.known == "published" else self.known


#: share of the nominal wall of electric-welded A500 tube that counts {aisc-360-22, B4.2}
A500_WALL = 0.93

#: minimum yields {astm-a500}; A53 from memory {astm-a53}; the others common practice
MAST_STEELS: dict[str, SteelGrade] = {
    grade.name: grade
    for grade in (
        SteelGrade(
            name="A500 B round",
            yield_strength=42.0 * KSI,
            known="published",
            wall_share=A500_WALL,
        ),
        SteelGrade(
            name="A500 C round",
            yield_strength=46.0 * KSI,
            known="published",
            wall_share=A500_WALL,
        ),
        SteelGrade(name="A53 A", yield_strength=30.0 * KSI, known="from memory"),
        SteelGrade(name="A53 B", yield_strength=35.0 * KSI, known="from memory"),
        SteelGrade(name="4130 normalized", yield_strength=75.0 * KSI, known="common practice"),
        SteelGrade(name="unmarked pipe", yield_strength=30.0 * KSI, known="common practice"),
    )
}

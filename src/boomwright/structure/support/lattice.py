"""Wind area and ice of a lattice from the sizes of its legs and braces, and the load in its legs.

No member is checked for strength: what a leg or section may carry is its maker's to say.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError, require_each
from boomwright.structure.weather.ice import IceCoat, seen_diameter

Faces = Literal[3, 4]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """Round legs and braces of a lattice tower of one width."""

    faces: Faces  #: faces and legs, 3 or 4
    face_width: float  #: from leg middle to leg middle [m]
    leg: float  #: outer diameter of a leg [m]
    brace: float  #: outer diameter of the braces [m]
    brace_length: float  #: length of all braces of one face on a metre of tower [m/m]

    def __post_init__(self) -> None:
        if self.faces not in {3, 4}:
            raise StructureInputError(f"a lattice of {self.faces} faces is not known: give 3 or 4")
        require_each(
            "lattice",
            ("face width", self.face_width, "m"),
            ("leg diameter", self.leg, "m"),
            ("brace diameter", self.brace, "m"),
            ("brace length", self.brace_length, "m/m"),
        )

    def solid_width(self, *, ice: IceCoat | None = None) -> float:
        """Solid area of one face on a metre of tower, two legs and the braces, at most all [m]."""
        braces = self.brace_length * seen_diameter(self.brace, ice)
        return min(2.0 * seen_diameter(self.leg, ice) + braces, self.gross_width(ice=ice))

    def gross_width(self, *, ice: IceCoat | None = None) -> float:
        """Width of one face over its legs [m]."""
        return self.face_width + seen_diameter(self.leg, ice)

    def drag_width(self, *, ice: IceCoat | None = None) -> float:
        """Drag area of a metre of tower from its worst side {asce-7-trussed-tower} [m].

        Force coefficient times solid area of one face.
        """
        solid = self.solid_width(ice=ice)
        share = solid / self.gross_width(ice=ice)
        return trussed_tower_drag(solidity=share, faces=self.faces) * solid

    def ice_mass(self, *, ice: IceCoat) -> float:
        """Ice on a metre of tower, on every leg and brace [kg/m]."""
        braces = self.brace_length * ice.mass_per_length(diameter=self.brace)
        return self.faces * (ice.mass_per_length(diameter=self.leg) + braces)

    def leg_loads(self, *, axial: float, moment: float) -> tuple[float, float]:
        """Largest and least force in a leg, wind from its worst side {plane-statics} [N].

        Args:
            axial: force down the tower [N]
            moment: bending moment [N m]
        """
        arm = self.face_width * (sqrt(3.0) / 2.0 if self.faces == 3 else sqrt(2.0))
        return axial / self.faces + moment / arm, axial / self.faces - moment / arm


def trussed_tower_drag(*, solidity: float, faces: Faces) -> float:
    """Force coefficient of a trussed tower of round members, on one face's solid area [-].

    A square tower is taken with the wind along its diagonal, which is its worst side
    {asce-7-trussed-tower}.

    Args:
        solidity: solid over gross area of one face [-]
    """
    e = solidity
    rounded = min(1.0, 0.51 * e**2 + 0.57)
    if faces == 3:
        return (3.4 * e**2 - 4.7 * e + 3.4) * rounded
    return (4.0 * e**2 - 5.9 * e + 4.0) * rounded * min(1.2, 1.0 + 0.75 * e)

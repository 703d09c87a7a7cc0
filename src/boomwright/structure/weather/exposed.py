"""Plates, boxes, rods and ties on a boom: what wind and ice find of each."""

from __future__ import annotations

from boomwright.base.records import dataclass
from boomwright.parts import Bar, Solid
from boomwright.structure.weather.drag import PLATE_DRAG, ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposedSolid:
    """One solid of the hardware on a boom; its broadest upright face meets the wind from any side.

    A flat part has the coefficient of plates and boxes {asce-7-10, fig. 29.5-1}, a round one that
    of round members. Ice of one thickness sits on every side.
    """

    position: float  #: its middle on the beam's x axis [m]
    solid: Solid
    hidden: float = 0.0  #: height of it that lies before what is counted already [m]

    def drag_area(self, *, ice: IceCoat | None = None) -> float:
        """Drag coefficient times the area that meets the wind [m^2]."""
        coat = 0.0 if ice is None else 2.0 * ice.thickness
        if isinstance(self.solid, Bar):
            return ROUND_DRAG * self.solid.length * (self.solid.diameter + coat)
        wide, deep, high = self.solid.size
        return PLATE_DRAG * (max(0.0, high - self.hidden) + coat) * (max(wide, deep) + coat)

    def ice_mass(self, ice: IceCoat | None) -> float:
        """Mass of the ice on it [kg]."""
        if ice is None:
            return 0.0
        if isinstance(self.solid, Bar):
            return ice.mass_per_length(diameter=self.solid.diameter) * self.solid.length
        coat, volume = 2.0 * ice.thickness, 1.0
        for side in self.solid.size:
            volume *= side + coat
        return ice.density * (volume - self.solid.volume)

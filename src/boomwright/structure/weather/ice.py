"""Ice on round members: thickness, area, weight, and the iced diameter."""

from __future__ import annotations

from math import pi, pow

from boomwright.base.quantity import Quantity, Value, cited, phrase
from boomwright.base.records import dataclass
from boomwright.structure import wording
from boomwright.structure.faults import require_not_negative, require_positive
from boomwright.structure.memory import recalled
from boomwright.structure.weather.basis import EDITIONS, Edition
from boomwright.structure.wording import FOOT

#: least density of design ice, 56 lb/ft3 {asce-7-16, sec. 10.4.1} [kg/m^3]
LEAST_ICE_DENSITY = 56.0 * 16.01846337


@dataclass(frozen=True, slots=True, kw_only=True)
class IceBasis:
    """The site's ice and the gust that comes with it."""

    thickness: float  #: radial thickness [m]
    #: 3 s gust at 10 m that acts together with the ice; None when not known [m/s]
    concurrent_gust: float | None = None
    #: mass density; 897 is the least the code allows for glaze {asce-7-16} [kg/m^3]
    density: float = 897.0
    #: True when the thickness is read from a code map and must still grow with height; None when
    #: nobody said, which takes the larger of both readings
    mapped: bool | None = None
    importance: float = 1.0  #: importance factor on mapped thickness [-]

    def __post_init__(self) -> None:
        require_not_negative(place="ice thickness", value=self.thickness, unit="m")
        if self.concurrent_gust is not None:
            require_positive(place="gust with ice", value=self.concurrent_gust, unit="m/s")
        require_positive(place="ice density", value=self.density, unit="kg/m^3")
        require_positive(place="ice importance factor", value=self.importance, unit="-")


@dataclass(frozen=True, slots=True, kw_only=True)
class IceCoat:
    """Ice as it sits on a tube."""

    thickness: float  #: radial thickness [m]
    density: float  #: mass density [kg/m^3]
    origin: Value = ""  #: where the thickness is from, in words

    @property
    def text(self) -> Value:
        """Thickness, density and origin in one line."""
        thickness, weight = wording.thickness(self.thickness), Quantity(self.density, "density")
        said = phrase("ice {thickness} at {weight}", thickness=thickness, weight=weight)
        return phrase("{said}, {origin}", said=said, origin=self.origin) if self.origin else said

    def mass_per_length(self, *, diameter: float) -> float:
        """Mass on a metre of tube, pi t (D + t) rho {asce-7-16, eq. 10.4-1} [kg/m].

        Args:
            diameter: outer diameter of the bare tube [m]
        """
        return ice_area(thickness=self.thickness, diameter=diameter) * self.density

    def iced_diameter(self, *, diameter: float) -> float:
        """Diameter the wind sees: the bare one and twice the thickness [m].

        Args:
            diameter: outer diameter of the bare tube [m]
        """
        return diameter + 2.0 * self.thickness


def seen_diameter(diameter: float, ice: IceCoat | None) -> float:
    """Diameter that the wind sees [m].

    Args:
        diameter: of the bare metal [m]
    """
    return diameter if ice is None else ice.iced_diameter(diameter=diameter)


def coat_mass(diameter: float, ice: IceCoat | None) -> float:
    """Mass of the ice on a metre, 0 without ice [kg/m].

    Args:
        diameter: of the bare metal [m]
    """
    return 0.0 if ice is None else ice.mass_per_length(diameter=diameter)


def ice_area(*, thickness: float, diameter: float) -> float:
    """Cross section of ice on a tube, pi t (D + t) {asce-7-16, eq. 10.4-1} [m^2].

    Args:
        thickness: radial thickness [m]
        diameter: outer diameter of the bare tube [m]
    """
    return pi * thickness * (diameter + thickness)


def ice_height_factor(*, height: float) -> float:
    """Growth of ice with height, (z/33 ft)^0.1 up to 900 ft {asce-7-ice-growth, eq. 10.4-4} [-]."""
    return pow(min(max(height, 1e-3), 900.0 * FOOT) / (33.0 * FOOT), 0.10)


def design_ice_thickness(
    *,
    map_thickness: float,
    height: float,
    edition: Edition,
    topography: float = 1.0,
    importance: float = 1.0,
) -> float:
    """Design thickness from a code map {asce-7-ice-growth, eq. 10.4-5} (from memory) [m].

    Args:
        map_thickness: radial thickness on the map, at 33 ft [m]
        edition: edition of the map; those with 50-year maps double it
        topography: Kzt [-]
        importance: importance factor for ice [-]
    """
    doubled = 2.0 if EDITIONS[edition].ice_doubled else 1.0
    growth = ice_height_factor(height=height) * pow(topography, 0.35)
    return doubled * map_thickness * importance * growth


def ice_coat(*, ice: IceBasis, height: float, edition: Edition, topography: float = 1.0) -> IceCoat:
    """Ice at a height, grown from the map, taken as entered, or the larger of both.

    Args:
        topography: Kzt [-]
    """
    grown = design_ice_thickness(
        map_thickness=ice.thickness,
        height=height,
        edition=edition,
        topography=topography,
        importance=ice.importance,
    )
    unsaid = "" if ice.mapped is not None else "; not said whether mapped, the larger taken"
    if ice.mapped is False or (unsaid and grown <= ice.thickness):
        return IceCoat(thickness=ice.thickness, density=ice.density, origin=unsaid.lstrip("; "))
    origin = phrase(
        "grown from {thickness} on the map ({memory}){doubled}{unsaid}",
        thickness=wording.thickness(ice.thickness), memory=recalled("asce-7-ice-growth"),
        doubled=_doubled(edition), unsaid=unsaid,
    )  # fmt: skip
    return IceCoat(thickness=grown, density=ice.density, origin=origin)


def _doubled(edition: Edition) -> Value:
    if not EDITIONS[edition].ice_doubled:
        return ""
    if edition == "TIA-222-G":
        return cited(", doubled", "tia-222-g-ice-factor")
    return phrase(", doubled ({memory})", memory=recalled("asce-7-ice-doubling"))

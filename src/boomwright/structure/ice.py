"""Ice on round members: thickness, area, weight, and the iced diameter."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, pow

from boomwright.structure.basis import EDITIONS, FOOT, Edition, IceBasis

#: least density of design ice, 56 lb/ft3 {asce-7-16, sec. 10.4.1} [kg/m^3]
LEAST_ICE_DENSITY = 56.0 * 16.01846337


@dataclass(frozen=True, slots=True, kw_only=True)
class IceCoat:
    """Ice as it sits on a tube.

    Parameters
    ----------
    thickness
        radial thickness [m]
    density
        mass density [kg/m^3]
    """

    thickness: float
    density: float

    def mass_per_length(self, *, diameter: float) -> float:
        """Mass on a metre of tube, pi t (D + t) rho {asce-7-16, eq. 10.4-1}.

        Parameters
        ----------
        diameter
            outer diameter of the bare tube [m]

        Returns
        -------
        float
            mass of ice [kg/m]
        """
        return ice_area(thickness=self.thickness, diameter=diameter) * self.density

    def iced_diameter(self, *, diameter: float) -> float:
        """Diameter the wind sees.

        Parameters
        ----------
        diameter
            outer diameter of the bare tube [m]

        Returns
        -------
        float
            bare diameter and twice the thickness [m]
        """
        return diameter + 2.0 * self.thickness


def ice_area(*, thickness: float, diameter: float) -> float:
    """Cross section of ice on a tube, pi t (D + t) {asce-7-16, eq. 10.4-1}.

    Parameters
    ----------
    thickness
        radial thickness [m]
    diameter
        outer diameter of the bare tube [m]

    Returns
    -------
    float
        area of ice [m^2]
    """
    return pi * thickness * (diameter + thickness)


def ice_height_factor(*, height: float) -> float:
    """Growth of ice with height, (z/33 ft)^0.10 up to 900 ft {asce-7-16, eq. 10.4-4} (from memory).

    Parameters
    ----------
    height
        height above ground [m]

    Returns
    -------
    float
        fz [-]
    """
    return pow(min(max(height, 1e-3), 900.0 * FOOT) / (33.0 * FOOT), 0.10)


def design_ice_thickness(
    *,
    map_thickness: float,
    height: float,
    edition: Edition,
    topography: float = 1.0,
    importance: float = 1.0,
) -> float:
    """Design thickness from a code map {asce-7-16, eq. 10.4-5} (from memory).

    Parameters
    ----------
    map_thickness
        radial thickness on the map, at 33 ft [m]
    height
        height above ground [m]
    edition
        edition of the map; those with 50-year maps double it [-]
    topography
        Kzt [-]
    importance
        importance factor for ice [-]

    Returns
    -------
    float
        radial thickness to design for [m]
    """
    doubled = 2.0 if EDITIONS[edition].ice_doubled else 1.0
    growth = ice_height_factor(height=height) * pow(topography, 0.35)
    return doubled * map_thickness * importance * growth


def ice_coat(*, ice: IceBasis, height: float, edition: Edition, topography: float = 1.0) -> IceCoat:
    """Ice at a height, grown from the map or taken as the owner entered it.

    Parameters
    ----------
    ice
        the site's ice [-]
    height
        height above ground [m]
    edition
        code edition [-]
    topography
        Kzt [-]

    Returns
    -------
    IceCoat
        thickness and density [-]
    """
    thickness = ice.thickness
    if ice.mapped:
        thickness = design_ice_thickness(
            map_thickness=ice.thickness,
            height=height,
            edition=edition,
            topography=topography,
            importance=ice.importance,
        )
    return IceCoat(thickness=thickness, density=ice.density)

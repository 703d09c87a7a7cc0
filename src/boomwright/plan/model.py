"""The plan as frozen SI values, after every fault has been excluded."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.parts import Beam
from boomwright.solver import Ground


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where the station stands.

    Parameters
    ----------
    ground
        ground below the antennas [-]
    latitude
        north positive; None when the plan gives no position [rad]
    longitude
        east positive; None when the plan gives no position [rad]
    wind_speed
        3 s gust at 10 m; None when not given [m/s]
    wind_kind
        ``ultimate``, ``nominal`` or empty when not said [-]
    wind_edition
        code edition behind the speed, or empty [-]
    exposure
        terrain exposure category B, C or D, or empty [-]
    ice_thickness
        radial ice thickness; None when not given [m]
    """

    ground: Ground
    latitude: float | None = None
    longitude: float | None = None
    wind_speed: float | None = None
    wind_kind: str = ""
    wind_edition: str = ""
    exposure: str = ""
    ice_thickness: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A whole plan.

    Parameters
    ----------
    title
        owner's title [-]
    site
        the site [-]
    beams
        beams in plan order, at least one [-] (n_beams,)
    """

    title: str
    site: Site
    beams: tuple[Beam, ...]

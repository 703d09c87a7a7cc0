"""What the site's wind is based on, as the plan gives it. ``None`` means that it does not say."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class WindBasisPlan:
    """Code, terrain and factors behind the wind, or pressures that somebody answers for.

    Parameters
    ----------
    kind
        ``ultimate`` or ``nominal`` by an American edition, ``characteristic`` or ``design`` by
        other codes, or empty
    edition
        code and edition, or empty
    exposure
        exposure category of an American edition, or empty
    terrain
        terrain category of EN 1991-1-4, or empty
    topography
        factor of hills on the pressure, American editions [-]
    orography
        factor of hills on the mean speed, EN 1991-1-4 [-]
    importance
        importance factor, American editions that have one [-]
    direction
        directional factor, EN 1991-1-4 [-]
    season
        season factor, EN 1991-1-4 [-]
    probability
        probability factor, EN 1991-1-4 [-]
    air_density
        density of air, EN 1991-1-4 [kg/m^3]
    reliability_class
        class of a mast by EN 1993-3-1
    load_factor
        factor on wind in place of the code's [-]
    pressure
        height [m] and peak pressure there [Pa] of each point (n_points, 2)
    by
        who gave those pressures, and when, or empty
    """

    kind: str
    edition: str = ""
    exposure: str = ""
    terrain: str = ""
    topography: float | None = None
    orography: float | None = None
    importance: float | None = None
    direction: float | None = None
    season: float | None = None
    probability: float | None = None
    air_density: float | None = None
    reliability_class: int | None = None
    load_factor: float | None = None
    pressure: tuple[tuple[float, float], ...] = ()
    by: str = ""

    @property
    def european(self) -> bool:
        """Whether it names EN 1991-1-4, under whatever national number."""
        return "EN 1991-1-4" in self.edition

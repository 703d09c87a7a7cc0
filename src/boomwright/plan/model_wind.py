"""What the site's wind is based on, as the plan gives it. ``None`` means that it does not say."""

from __future__ import annotations

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class WindBasisPlan:
    """Code, terrain and factors behind the wind, or pressures that somebody answers for."""

    #: ``ultimate`` or ``nominal`` by an American edition, ``characteristic`` or ``design`` by other
    #: codes, or empty
    kind: str
    edition: str = ""  #: code and edition, or empty
    exposure: str = ""  #: exposure category of an American edition, or empty
    terrain: str = ""  #: terrain category of EN 1991-1-4, or empty
    topography: float | None = None  #: factor of hills on the pressure, American editions [-]
    orography: float | None = None  #: factor of hills on the mean speed, EN 1991-1-4 [-]
    importance: float | None = None  #: importance factor, American editions that have one [-]
    direction: float | None = None  #: directional factor, EN 1991-1-4 [-]
    season: float | None = None  #: season factor, EN 1991-1-4 [-]
    probability: float | None = None  #: probability factor, EN 1991-1-4 [-]
    air_density: float | None = None  #: density of air, EN 1991-1-4 [kg/m^3]
    reliability_class: int | None = None  #: class of a mast by EN 1993-3-1
    load_factor: float | None = None  #: factor on wind in place of the code's [-]
    #: height [m] and peak pressure there [Pa] of each point (n_points, 2)
    pressure: tuple[tuple[float, float], ...] = ()
    by: str = ""  #: who gave those pressures, and when, or empty

    @property
    def european(self) -> bool:
        """Whether it names EN 1991-1-4, under whatever national number."""
        return "EN 1991-1-4" in self.edition

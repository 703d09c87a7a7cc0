"""The plan as frozen SI values, after every fault has been excluded."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.parts import Beam
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.plan.model_permits import PermitsPlan
from boomwright.plan.model_station import LinePlan, ReachPlan, TransmitterPlan
from boomwright.plan.model_support import RingPlan, SupportPlan
from boomwright.plan.model_wind import WindBasisPlan
from boomwright.plan.model_wish import WishPlan
from boomwright.plan.model_work import PricesPlan, RaisingPlan
from boomwright.solver import Ground

_UNSAID = WindBasisPlan(kind="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where the station stands.

    Parameters
    ----------
    ground
        ground below the antennas
    latitude
        north positive; None when the plan gives no position [rad]
    longitude
        east positive; None when the plan gives no position [rad]
    wind_speed
        3 s gust at 10 m, or basic 10 min mean by EN 1991-1-4; None when not given [m/s]
    wind_basis
        what that speed is based on, or pressures in its place
    ice_thickness
        radial ice thickness; None when not given [m]
    elevation
        ground above mean sea level; None when not given [m]
    ice_gust
        3 s gust at 10 m that acts with the ice; None when not given [m/s]
    ice_mapped
        True when the thickness is from a code map; None when nobody said
    ice_density
        density of the ice; None when not given [kg/m^3]
    ice_importance
        importance factor on mapped thickness; None when not given [-]
    """

    ground: Ground
    latitude: float | None = None
    longitude: float | None = None
    wind_speed: float | None = None
    wind_basis: WindBasisPlan = _UNSAID
    ice_thickness: float | None = None
    elevation: float | None = None
    ice_gust: float | None = None
    ice_mapped: bool | None = None
    ice_density: float | None = None
    ice_importance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A whole plan.

    Parameters
    ----------
    title
        owner's title
    beams
        beams in plan order, at least one (n_beams,)
    booms
        booms that the plan gives, each with the name of its beam (n_booms,)
    support
        what carries them; None when the plan does not say
    transmitter
        power and emission; None when the plan does not say
    line
        feed line; None when the plan does not say
    permits
        what rules ask about; None when the plan does not say
    reach
        targets and ground on the way; None when the plan does not say
    prices
        prices and purchases; None when the plan does not say
    raising
        the raising job; None when the plan does not say
    wish
        what an improved beam shall do; None when the plan does not say
    measured
        measured sweeps; None when there are none
    dated
        day of issue that its book carries, ``2026-01-31``, or empty
    """

    title: str
    site: Site
    beams: tuple[Beam, ...]
    booms: tuple[BoomPlan, ...] = ()
    support: SupportPlan | None = None
    transmitter: TransmitterPlan | None = None
    line: LinePlan | None = None
    permits: PermitsPlan | None = None
    reach: ReachPlan | None = None
    prices: PricesPlan | None = None
    raising: RaisingPlan | None = None
    wish: WishPlan | None = None
    measured: MeasuredPlan | None = None
    dated: str = ""

    def boom_of(self, beam: str) -> BoomPlan | None:
        """Find the boom of a beam.

        Returns
        -------
        BoomPlan or None
            None when the plan gives none
        """
        return next((boom for boom in self.booms if boom.beam == beam), None)

    @property
    def rings(self) -> tuple[RingPlan, ...]:
        """Rings around the support; one that only the reach study names has no figures."""
        given = () if self.support is None else self.support.ring
        name = "" if self.reach is None else self.reach.ring
        if not name or name in {ring.beam for ring in given}:
            return given
        return (*given, RingPlan(beam=name))

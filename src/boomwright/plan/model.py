"""The plan as frozen SI values, after every fault has been excluded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass, field, replace
from boomwright.parts import Beam
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.plan.model_permits import PermitsPlan
from boomwright.plan.model_station import LinePlan, PlacePlan, ReachPlan, TransmitterPlan
from boomwright.plan.model_support import SupportPlan
from boomwright.plan.model_wind import WindBasisPlan
from boomwright.plan.model_wish import WishPlan
from boomwright.plan.model_work import PricesPlan, RaisingPlan
from boomwright.solver import Ground

if TYPE_CHECKING:
    from boomwright.structure import RingMount

_UNSAID, _NOTHING = WindBasisPlan(kind=""), SupportPlan()


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Where the station stands."""

    ground: Ground  #: ground below the antennas
    latitude: float | None = None  #: north positive; None when the plan gives no position [rad]
    longitude: float | None = None  #: east positive; None when the plan gives no position [rad]
    #: 3 s gust at 10 m, or basic 10 min mean by EN 1991-1-4; None when not given [m/s]
    wind_speed: float | None = None
    wind_basis: WindBasisPlan = _UNSAID  #: what that speed is based on, or pressures in its place
    ice_thickness: float | None = None  #: radial ice thickness; None when not given [m]
    elevation: float | None = None  #: ground above mean sea level; None when not given [m]
    #: 3 s gust at 10 m that acts with the ice; None when not given [m/s]
    ice_gust: float | None = None
    #: True when the thickness is from a code map; None when nobody said
    ice_mapped: bool | None = None
    ice_density: float | None = None  #: density of the ice; None when not given [kg/m^3]
    #: importance factor on mapped thickness; None when not given [-]
    ice_importance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFile:
    """The file that a plan was read from."""

    folder: str  #: folder it lies in, where the files it names lie; empty for standard input
    name: str  #: its name in that folder; empty for standard input
    text: str  #: what it held


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A usual value that its owner has not confirmed."""

    place: str  #: dotted place in the plan
    where: str  #: the same in its owner's words


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A whole plan."""

    title: str  #: owner's title
    site: Site
    #: beams in plan order; at least one unless it was read as a place (n_beams,)
    beams: tuple[Beam, ...]
    #: booms that the plan gives, each with the name of its beam (n_booms,)
    booms: tuple[BoomPlan, ...] = ()
    support: SupportPlan | None = None  #: what carries them; None when the plan does not say
    #: power and emission; None when the plan does not say
    transmitter: TransmitterPlan | None = None
    line: LinePlan | None = None  #: feed line; None when the plan does not say
    permits: PermitsPlan | None = None  #: what rules ask about; None when the plan does not say
    #: targets and ground on the way; None when the plan does not say
    reach: ReachPlan | None = None
    prices: PricesPlan | None = None  #: prices and purchases; None when the plan does not say
    raising: RaisingPlan | None = None  #: the raising job; None when the plan does not say
    #: limits and wants of the place; None when the plan does not say
    place: PlacePlan | None = None
    wish: WishPlan | None = None  #: what an improved beam shall do; None when the plan does not say
    measured: MeasuredPlan | None = None  #: measured sweeps; None when there are none
    #: values that nobody has confirmed, from the top of the file down
    assumed: tuple[Assumption, ...] = ()
    dated: str = ""  #: day of issue that its book carries, ``2026-01-31``, or empty
    #: file it was read from, None for a plan made otherwise; two plans that say the same are equal
    file: PlanFile | None = field(default=None, compare=False, repr=False)

    def boom_of(self, beam: str) -> BoomPlan | None:
        """Find the boom of a beam; None when the plan gives none."""
        return next((boom for boom in self.booms if boom.beam == beam), None)

    @property
    def stand(self) -> SupportPlan:
        """What carries the beams, with nothing in it when the plan does not say."""
        return self.support or _NOTHING

    @property
    def rings(self) -> tuple[RingMount, ...]:
        """Rings around the support; one that only the reach study names has no figures."""
        from boomwright.structure import RingMount

        given = self.stand.ring
        name = "" if self.reach is None else self.reach.ring
        if name and name not in {ring.beam for ring in given}:
            given = (*given, RingMount(beam=name))
        heights = {beam.name: beam.height for beam in self.beams}
        return tuple(
            replace(ring, name=f"ring mount of {ring.beam}", height=heights[ring.beam])
            for ring in given
        )

"""The raising job as the owner describes it: load, tower, people, gear, lines, weather."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.records import dataclass
from boomwright.raising.answers import Said
from boomwright.raising.tackle import Bearing
from boomwright.raising.tilt_statics import Lifter, LifterKind, Part

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel

RopeEnd = Literal["eye", "knot"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What goes up."""

    name: str  #: owner's name for it
    mass: float  #: antenna with balun, coax, mast clamp, bridle and hook [kg]
    drag_area: float  #: drag coefficient times area, worst side [m^2]
    element_span: float  #: longest element from tip to tip [m]
    boom_length: float  #: length of the boom [m]
    reach: float  #: farthest outside of any part from where it is held [m]
    heading: float = 0.0  #: where its front points, clockwise from true north [rad]
    #: balance point along the boom from its rear end; None when not computed [m]
    balance_place: float | None = None
    at_hub: bool = False  #: whether it is wire on a frame, held by its hub
    hung: bool = False  #: whether it is wire on ropes, bolted to nothing
    pull: float = 0.0  #: pull in each wire when it hangs [N]
    rise: float = 0.0  #: highest part above where it is held [m]
    upright: bool = False  #: whether it is upright wire, which no stand holds
    #: wire with corners as seen from behind: points across and above ground of each wire [m]
    seen: tuple[tuple[tuple[float, float], ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """Who is there."""

    trained_climbers: int = 0  #: people trained and equipped to climb and to rescue
    #: people on the ground, lift director and spotter included, hired operators not
    ground: int = 0
    #: whether the climbers' training and equipment have been looked at
    training: Said | None = None
    rescue_plan: Said | None = None  #: whether a rescue plan is written and the kit is on site
    trained_rigger: Said | None = None  #: whether somebody trained in rigging leads


@dataclass(frozen=True, slots=True, kw_only=True)
class Capstan:
    """A capstan winch for the hauling rope: for loads, never for people."""

    rated_pull: float | None = None  #: pull its maker allows; None when unmarked [N]
    #: pull that what it is fastened to may take; None when nobody knows [N]
    fastening: float | None = None
    turns: int = 3  #: turns of rope on its drum


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulLine:
    """Rope and blocks for hauling, by hand or with a capstan winch."""

    breaking_strength: float  #: marked breaking strength of the rope [N]
    #: marked breaking strength of the weakest block, shackle or sling; None when unmarked [N]
    block_breaking_strength: float | None = None
    parts: int = 1  #: rope parts that carry the load, 1 over a single top block
    bearing: Bearing | None = None  #: what the sheaves turn on; None when not known
    ends: RopeEnd = "knot"  #: how the rope is made fast; a knot is taken when nobody says
    capstan: Capstan | None = None  #: capstan winch; None when people haul


@dataclass(frozen=True, slots=True, kw_only=True)
class GinPole:
    """A gin pole with its maker's figures."""

    overhang: float  #: pole above its upper grip as it will be used [m]
    rated_load: float | None = None  #: rated load at this overhang; None when unmarked [N]
    maximum_overhang: float | None = None  #: maker's largest overhang; None when unmarked [m]
    offset_angle: float = 0.1  #: angle of the hoist rope from upright [rad]
    tag_slope: float = 0.8  #: angle of the tag line below level [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tram:
    """A carrier line from the tower to a ground anchor."""

    span: float  #: horizontal distance from tower to anchor [m]
    sag: float  #: sag below the chord with the load at midspan [m]
    breaking_strength: float  #: marked breaking strength of the carrier [N]
    line_mass: float = 0.0  #: mass of a metre of the carrier [kg/m]
    anchor: float | None = None  #: pull its ground anchor may take; None when nobody knows [N]
    back_guyed: Said | None = None  #: whether the tower top is guyed against the pull

    @property
    def line_weight(self) -> float:
        """Weight of a metre of the carrier [N/m]."""
        return self.line_mass * STANDARD_GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class Crane:
    """A hired crane with its operator, figures from its chart."""

    radius: float  #: working radius [m]
    hook_height: float  #: highest hook position at that radius [m]
    #: where it stands from the foot, clockwise from true north; None between two guys [rad]
    bearing: float | None = None
    #: rated load at the working radius, hook and rigging included; None when not read [kg]
    capacity: float | None = None
    #: marked breaking strength of the weakest sling or shackle of the bridle; None when unmarked
    #: [N]
    slings: float | None = None
    #: gust at which it stops, from its papers; None when not read [m/s]
    wind_limit: float | None = None
    operator: Said | None = None  #: whether a trained operator runs it


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftTruck:
    """A hired lift truck with a platform for people, figures from its chart."""

    platform_height: float  #: highest platform floor at the needed outreach [m]
    outreach: float  #: largest horizontal reach at that height [m]
    needed_outreach: float  #: horizontal distance from where it can stand to the mast [m]
    #: where it stands from the foot, clockwise from true north; None between two guys [rad]
    bearing: float | None = None
    platform_capacity: float | None = None  #: rated load of the platform; None when not read [kg]
    #: gust at which it stops, from its papers; None when not read [m/s]
    wind_limit: float | None = None
    operator: Said | None = None  #: whether a trained operator runs it
    #: whether its maker or hirer allows the platform to carry the beam
    carries_beam: Said | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportLift:
    """A pole that a machine raises in one piece, with what it needs for that."""

    #: what hangs on the hook, each from the lower end of the pole (n_parts,)
    parts: tuple[Part, ...]
    length: float  #: length of the pole, what stands in its footing included [m]
    #: bending moment that it may take; None when its steel does not tell [N m]
    allowed_moment: float | None = None
    #: lower end of the pole to the highest part fitted on it; 0 where that is the pole [m]
    top: float = 0.0
    buried: float = 0.0  #: part of it that stands in its footing; 0 for a foot on bolts [m]
    unknown: tuple[str, ...] = ()  #: weights that the plan does not give
    whole: Said | None = None  #: whether it is one piece, or its joints carry its full bending
    crane: Crane | None = None  #: the machine; None when not planned


@dataclass(frozen=True, slots=True, kw_only=True)
class BackLine:
    """The hold-back line that keeps an upright support from going over."""

    breaking_strength: float  #: marked breaking strength [N]
    line_at: float  #: where it takes hold of the support, from the hinge [m]
    distance: float  #: its anchor from the hinge, on the side where the support lies [m]
    anchor: float | None = None  #: pull its anchor may take; None when nobody knows [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tilt:
    """Laying the support over about its hinge; a rating left out is asked for."""

    lifter_kind: LifterKind  #: ``gin pole`` square to the support at the hinge, or ``fixed sheave``
    lifter_height: float  #: head of the gin pole from the hinge, or the sheave above the hinge [m]
    line_at: float  #: where the line takes hold of the support, from the hinge [m]
    winch_distance: float | None = None  #: gin pole: ground anchor of the line from the hinge [m]
    sheave_behind: float = 0.0  #: fixed sheave: from the hinge away from the lying support [m]
    #: what turns with the support: as the plan lists it; in a job all of it, the beam included
    parts: tuple[Part, ...] = ()
    #: length of the support while it turns, when that is not its height [m]
    length: float | None = None
    #: weights and wind areas of what turns with it that the plan does not give
    unknown_parts: tuple[str, ...] = ()
    hinged: Said | None = None  #: whether the foot turns in a hinge made for it
    side_guys: Said | None = None  #: whether side guys on the hinge axis hold throughout
    winch: float | None = None  #: pull the winch's maker allows [N]
    winch_parts: int = 1  #: rope parts of a tackle in the winch line, 1 without
    rope: float | None = None  #: marked breaking strength of the winch rope [N]
    ends: RopeEnd = "knot"  #: how rope and line are made fast; a knot is taken when nobody says
    #: marked breaking strength of the line from gin pole to support [N]
    lift_line: float | None = None
    #: force along the gin pole, or load on the sheave and what carries it, that they may take [N]
    lifter_rating: float | None = None
    anchor: float | None = None  #: pull the ground anchor of the winch line may take [N]
    hinge_rating: float | None = None  #: force the hinge may take [N]
    #: bending moment that the support may take; None when neither maker nor steel tells [N m]
    allowed_moment: float | None = None
    back_line: BackLine | None = None  #: hold-back line; None when there is none
    operator_out: float | None = None  #: whoever works the winch from the hinge [m]

    @property
    def lifter(self) -> Lifter:
        """What gives the line its lever arm."""
        return Lifter(
            kind=self.lifter_kind,
            height=self.lifter_height,
            line_at=self.line_at,
            winch=self.winch_distance or 0.0,
            behind=self.sheave_behind,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LineNear:
    """A power line near the work, with the clearance that the permits room asked for."""

    name: str  #: owner's name for it
    distance: float  #: horizontal distance from the tower's foot to the nearest conductor [m]
    height: float  #: height of that conductor above the foot [m]
    required_clearance: float  #: least distance to it [m]
    basis: str  #: rule behind that distance
    voltage_known: bool = True  #: False when the distance is a presumption


@dataclass(frozen=True, slots=True, kw_only=True)
class Raising:
    """The whole job."""

    load: Load  #: what goes up
    tower_height: float  #: top of the tower above its foot [m]
    lift_height: float  #: height of the mast clamp above the foot [m]
    mast_top: float = 0.0  #: upper end of the mast above the foot; 0 without one [m]
    crew: Crew  #: who is there
    #: whether somebody has looked for power lines; an empty list then means none
    lines_surveyed: Said | None = None
    power_lines: tuple[LineNear, ...] = ()  #: power lines near the work (n_lines,)
    guys: tuple[GuyLevel, ...] = ()  #: guys of the support
    clear_of_guys: Said | None = None  #: whether the beam passes guys and anchors on its way up
    stands: bool = True  #: whether a support stands; hung wire may do without
    on_tube: bool = False  #: True when the support is a tube, which is climbed only if made for it
    climbable: Said | None = None  #: whether that tube is made to be climbed
    support_stands: Said | None = None  #: whether the support stands already
    support_lift: SupportLift | None = None  #: how a pole is raised; None for a tower
    level_access: Said | None = None  #: whether a machine stands level and firm beside the tower
    #: True when the foot of the support is set in its footing, so that it cannot tilt
    foot_set: bool = False
    #: distance from the foot to the nearest boundary; None when not measured [m]
    boundary: float | None = None
    #: distance from the foot to the nearest public way; None when there is none near [m]
    walkway: float | None = None
    ground_beyond: Said | None = None  #: whether ground beyond them is kept empty during the lift
    pulleys_up: Said | None = None  #: whether a pulley hangs at every high point of hung wire
    holds_sound: Said | None = None  #: whether trees, hooks and posts that hold ropes are sound
    ropes_clear: Said | None = None  #: whether no rope or wire can come near a power line
    #: horizontal load the tower's maker or an engineer allows at the top; None if unknown [N]
    tower_top_horizontal_rating: float | None = None
    #: highest gust forecast for the hours of the lift; None when not looked up [m/s]
    forecast_gust: float | None = None
    #: names of the other beams of the support, with the height of each [m]
    others: tuple[tuple[str, float], ...] = ()
    haul_line: HaulLine | None = None  #: rope and blocks; None when there are none
    gin_pole: GinPole | None = None  #: gin pole; None when there is none
    tram: Tram | None = None  #: tram line; None when not planned
    crane: Crane | None = None  #: crane; None when not planned
    lift_truck: LiftTruck | None = None  #: lift truck; None when not planned
    tilt: Tilt | None = None  #: gear for laying the support over; None when not planned

    def __post_init__(self) -> None:
        for name, value in (
            ("load.mass", self.load.mass),
            ("tower_height", self.tower_height),
            ("lift_height", self.lift_height),
        ):
            if not value > 0.0:
                raise ValueError(f"{name} is {value}; it must be above 0")

    @property
    def support(self) -> str:
        """What stands, in a word."""
        return "pole" if self.on_tube else "tower"

    @property
    def top(self) -> float:
        """Highest part of support, mast and beam above the foot [m]."""
        return max(self.tower_height, self.mast_top, self.lift_height + self.load.rise)

    @property
    def turns(self) -> bool:
        """Whether the beam turns on its mast; wire on ropes and wire in the ground does not."""
        return not (self.load.hung or self.load.upright)

    @property
    def swing_radius(self) -> float:
        """Radius of the circle that the beam sweeps, on the mast and in the ropes [m]."""
        return self.load.reach

"""What carries the beams, as the plan gives it: mast, rotator, tower or tube, guys, footing.

``None`` means that the plan does not say; nothing is assumed in its place.
"""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.plan.model_ground import AnchorPlan, BaseLoadsPlan, BasePlan, SoilPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerRatingPlan:
    """What the maker of a tower states."""

    area: float | None = None  #: rated antenna area [m^2]
    area_rule: str = ""  #: ``projected``, ``drag`` or ``flat``, or empty
    area_height: float | None = None  #: height above ground of that area [m]
    speed: float | None = None  #: wind speed of the rating [m/s]
    averaging: str = ""  #: ``3 s gust``, ``fastest mile`` or ``10 min mean``, or empty
    kind: str = ""  #: kind of wind, or empty
    exposure: str = ""  #: exposure or terrain category, or empty
    edition: str = ""  #: code edition, or empty
    pressure: float | None = None  #: peak pressure at that height, in place of a speed [Pa]
    ice: float | None = None  #: radial ice included [m]
    ice_gust: float | None = None  #: 3 s gust rated together with that ice [m/s]
    mast_extension: float | None = None  #: longest mast above the top bearing [m]
    base_moment: float | None = None  #: base moment, no factor on the wind [N m]
    base_shear: float | None = None  #: base shear, no factor on the wind [N]
    axial: float | None = None  #: load straight down [N]
    #: bending moment its sections may carry, nominal loads [N m]
    section_moment: float | None = None
    section_shear: float | None = None  #: shear its sections may carry, nominal loads [N]
    leg_load: float | None = None  #: load one leg may carry, nominal loads [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerDrawingPlan:
    """How the maker of a tower drew its guys."""

    height: float  #: height of the tower as drawn [m]
    guys: tuple[float, ...]  #: heights of the guy rings [m] (n_levels,)
    radius: float  #: anchors of the top guys out from the tower [m]
    said_by: str  #: which drawing it is, who read it, and when


@dataclass(frozen=True, slots=True, kw_only=True)
class LatticePlan:
    """Round legs and braces of a lattice, for the wind on them bare and iced."""

    faces: int  #: faces and legs, 3 or 4
    face_width: float  #: from leg middle to leg middle [m]
    leg: float  #: outer diameter of a leg [m]
    brace: float  #: outer diameter of the braces [m]
    braces: float  #: length of all braces of one face for each length of tower [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerPlan:
    """A lattice tower as its maker sold it."""

    kind: str  #: ``self-supporting``, ``guyed``, ``crank-up`` or ``bracketed``
    height: float  #: height of the tower itself [m]
    section: float | None = None  #: length of one section as bought [m]
    legs: int | None = None  #: legs that stand in the ground
    mass: float | None = None  #: mass of the whole tower [kg]
    drag_width: float | None = None  #: drag area of one metre of tower [m]
    lattice: LatticePlan | None = None  #: its legs and braces
    bending_stiffness: float | None = None  #: EI of the tower as a beam [N m^2]
    top_drift: float | None = None  #: sideways movement of the top under full wind [m]
    bracket: float | None = None  #: height of the house bracket [m]
    joints: str = ""  #: how its steel is joined, or empty
    rating: TowerRatingPlan | None = None  #: what its maker states
    drawing: TowerDrawingPlan | None = None  #: its guys as its maker drew them


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketsPlan:
    """Brackets on a wall, gable or roof that hold a support tube."""

    heights: tuple[float, ...]  #: above ground, upwards [m] (n_brackets,)
    foot: float = 0.0  #: lower end of the tube above ground, 0 where it stands on it [m]
    side_force: float | None = None  #: force sideways the fixings of one bracket may take [N]
    vertical_load: float | None = None  #: load straight down all brackets may take [N]
    said_by: str = ""  #: who looked at the wall, and when; empty when nobody did


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePlan:
    """One tube from the ground up, alone, guyed or on brackets of a building."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    height: float  #: height above ground [m]
    material: str  #: steel grade or alloy; ``steel`` when its grade is not known
    #: minimum yield from a certificate, in place of the grade's [Pa]
    yield_strength: float | None = None
    hinged: bool = False  #: True when its foot can tilt; a foot set in its footing cannot
    brackets: BracketsPlan | None = None  #: brackets of a building that hold it


@dataclass(frozen=True, slots=True, kw_only=True)
class MastPlan:
    """The mast that turns and carries the beams."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    bearing: float  #: top bearing above ground [m]
    top: float  #: upper end above ground [m]
    material: str  #: steel grade or alloy; ``steel`` when its grade is not known
    #: from the top bearing down to the rotator; None without a bearing or unknown [m]
    rotator_below: float | None = None
    #: minimum yield from a certificate, in place of the grade's [Pa]
    yield_strength: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RotatorPlan:
    """A rotator with what its maker states."""

    place: str  #: ``inside tower`` or ``mast-mounted``
    turning_torque: float | None = None  #: torque while turning [N m]
    holding_torque: float | None = None  #: brake or worm torque at rest [N m]
    start_stop_torque: float | None = None  #: torque allowed while starting and stopping [N m]
    vertical_load: float | None = None  #: load it may carry [N]
    side_force: float | None = None  #: side force it may carry [N]
    area_inside: float | None = None  #: rated wind area inside the tower [m^2]
    area_on_mast: float | None = None  #: rated wind area mast-mounted [m^2]
    area_rule: str = ""  #: ``projected``, ``drag`` or ``flat``, or empty
    least_mast: float | None = None  #: smallest mast its clamp takes [m]
    greatest_mast: float | None = None  #: largest mast its clamp takes [m]
    turning_speed: float | None = None  #: speed of turning [rad/s]
    stop_angle: float | None = None  #: angle in which it comes to rest [rad]
    turning_gust: float | None = None  #: nominal 3 s gust in which it shall still turn [m/s]
    friction: float | None = None  #: torque lost in bearing and cable loop [N m]


@dataclass(frozen=True, slots=True, kw_only=True)
class RingPlan:
    """A ring around the support on which one beam turns, with what its maker states."""

    beam: str  #: name of the beam that turns on it
    turning_torque: float | None = None  #: torque while turning [N m]
    holding_torque: float | None = None  #: brake or worm torque at rest [N m]
    start_stop_torque: float | None = None  #: torque allowed while starting and stopping [N m]
    vertical_load: float | None = None  #: load it may carry [N]
    side_force: float | None = None  #: side force it may carry [N]
    area: float | None = None  #: rated wind area [m^2]
    area_rule: str = ""  #: ``projected``, ``drag`` or ``flat``, or empty
    turning_speed: float | None = None  #: speed of turning [rad/s]
    stop_angle: float | None = None  #: angle in which it comes to rest [rad]
    turning_gust: float | None = None  #: nominal 3 s gust in which it shall still turn [m/s]
    friction: float | None = None  #: torque lost in its bearing and the cable loop [N m]
    mass: float | None = None  #: mass of the ring mount itself [kg]
    drag_area: float | None = None  #: drag area of the ring mount itself [m^2]
    #: who says that the support may carry it there, and when; empty when nobody does
    said_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandPlan:
    """A guy strand by its figures."""

    name: str  #: size and grade
    breaking_strength: float  #: minimum breaking strength [N]
    mass: float  #: mass of one metre [kg/m]
    stiffness: float  #: EA, cross section times Young's modulus [N]
    #: outer diameter, for wind and ice; None takes that of seven steel wires [m]
    diameter: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyPlan:
    """One ring of guys at one height."""

    height: float  #: where the guys hold the support, above ground [m]
    radius: float  #: anchors out from the support [m]
    strand: str | StrandPlan  #: name of a standard strand, or the figures of another
    tension: float | None = None  #: tension with no wind [N]
    count: int = 3  #: guys in the ring
    first: float = 0.0  #: direction of the first anchor, clockwise from true north [rad]
    anchor_height: float = 0.0  #: anchors above the foot of the support, negative when below [m]
    #: longest piece between insulators, 0 for guys that do not conduct; None when not said [m]
    longest_piece: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportPlan:
    """Everything between the ground and the booms."""

    method: str = "allowable"  #: ``allowable`` or ``strength``
    damping: float | None = None  #: damping ratio of the first sway [-]
    sway: float | None = None  #: first frequency of the support with its beams [Hz]
    frost_depth: float | None = None  #: local frost depth, 0 where there is none [m]
    soil: str | SoilPlan | None = None  #: name of a soil class, or figures; None when nobody looked
    tower: TowerPlan | None = None  #: lattice tower
    tube: TubePlan | None = None  #: tube in place of a tower
    mast: MastPlan | None = None  #: rotating mast
    rotator: RotatorPlan | None = None
    ring: tuple[RingPlan, ...] = ()  #: rings around the support, each with one beam (n_rings,)
    guy: tuple[GuyPlan, ...] = ()  #: guy rings (n_levels,)
    anchor: AnchorPlan | None = None  #: block at each guy anchor
    base: BasePlan | None = None  #: footing
    base_loads: BaseLoadsPlan | None = None  #: footing loads from the maker

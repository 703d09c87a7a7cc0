"""What carries the beams, as the plan gives it: mast, rotator, tower or tube, guys, footing.

``None`` means that the plan does not say; nothing is assumed in its place.
"""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.plan.model_ground import AnchorPlan, BaseLoadsPlan, BasePlan, SoilPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerRatingPlan:
    """What the maker of a tower states.

    Parameters
    ----------
    area
        rated antenna area [m^2]
    area_rule
        ``projected``, ``drag`` or ``flat``, or empty
    area_height
        height above ground of that area [m]
    speed
        wind speed of the rating [m/s]
    averaging
        ``3 s gust``, ``fastest mile`` or ``10 min mean``, or empty
    kind
        kind of wind, or empty
    exposure
        exposure or terrain category, or empty
    edition
        code edition, or empty
    pressure
        peak pressure at that height, in place of a speed [Pa]
    ice
        radial ice included [m]
    ice_gust
        3 s gust rated together with that ice [m/s]
    mast_extension
        longest mast above the top bearing [m]
    base_moment
        base moment, no factor on the wind [N m]
    base_shear
        base shear, no factor on the wind [N]
    axial
        load straight down [N]
    section_moment
        bending moment its sections may carry, nominal loads [N m]
    section_shear
        shear its sections may carry, nominal loads [N]
    leg_load
        load one leg may carry, nominal loads [N]
    """

    area: float | None = None
    area_rule: str = ""
    area_height: float | None = None
    speed: float | None = None
    averaging: str = ""
    kind: str = ""
    exposure: str = ""
    edition: str = ""
    pressure: float | None = None
    ice: float | None = None
    ice_gust: float | None = None
    mast_extension: float | None = None
    base_moment: float | None = None
    base_shear: float | None = None
    axial: float | None = None
    section_moment: float | None = None
    section_shear: float | None = None
    leg_load: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerDrawingPlan:
    """How the maker of a tower drew its guys.

    Parameters
    ----------
    height
        height of the tower as drawn [m]
    guys
        heights of the guy rings [m] (n_levels,)
    radius
        anchors of the top guys out from the tower [m]
    said_by
        which drawing it is, who read it, and when
    """

    height: float
    guys: tuple[float, ...]
    radius: float
    said_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LatticePlan:
    """Round legs and braces of a lattice, for the wind on them bare and iced.

    Parameters
    ----------
    faces
        faces and legs, 3 or 4
    face_width
        from leg middle to leg middle [m]
    leg
        outer diameter of a leg [m]
    brace
        outer diameter of the braces [m]
    braces
        length of all braces of one face for each length of tower [-]
    """

    faces: int
    face_width: float
    leg: float
    brace: float
    braces: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerPlan:
    """A lattice tower as its maker sold it.

    Parameters
    ----------
    kind
        ``self-supporting``, ``guyed``, ``crank-up`` or ``bracketed``
    height
        height of the tower itself [m]
    section
        length of one section as bought [m]
    legs
        legs that stand in the ground
    mass
        mass of the whole tower [kg]
    drag_width
        drag area of one metre of tower [m]
    lattice
        its legs and braces
    bending_stiffness
        EI of the tower as a beam [N m^2]
    top_drift
        sideways movement of the top under full wind [m]
    bracket
        height of the house bracket [m]
    joints
        how its steel is joined, or empty
    rating
        what its maker states
    drawing
        its guys as its maker drew them
    """

    kind: str
    height: float
    section: float | None = None
    legs: int | None = None
    mass: float | None = None
    drag_width: float | None = None
    lattice: LatticePlan | None = None
    bending_stiffness: float | None = None
    top_drift: float | None = None
    bracket: float | None = None
    joints: str = ""
    rating: TowerRatingPlan | None = None
    drawing: TowerDrawingPlan | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePlan:
    """One tube that stands in the ground, alone or guyed.

    Parameters
    ----------
    diameter
        outer diameter [m]
    wall
        wall thickness [m]
    height
        height above ground [m]
    material
        steel grade or alloy; ``steel`` when its grade is not known
    yield_strength
        minimum yield from a certificate, in place of the grade's [Pa]
    hinged
        True when its foot can tilt; a foot set in its footing cannot
    """

    diameter: float
    wall: float
    height: float
    material: str
    yield_strength: float | None = None
    hinged: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MastPlan:
    """The mast that turns and carries the beams.

    Parameters
    ----------
    diameter
        outer diameter [m]
    wall
        wall thickness [m]
    bearing
        top bearing above ground [m]
    top
        upper end above ground [m]
    material
        steel grade or alloy; ``steel`` when its grade is not known
    rotator_below
        from the top bearing down to the rotator; None without a bearing or unknown [m]
    yield_strength
        minimum yield from a certificate, in place of the grade's [Pa]
    """

    diameter: float
    wall: float
    bearing: float
    top: float
    material: str
    rotator_below: float | None = None
    yield_strength: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RotatorPlan:
    """A rotator with what its maker states.

    Parameters
    ----------
    place
        ``inside tower`` or ``mast-mounted``
    turning_torque
        torque while turning [N m]
    holding_torque
        brake or worm torque at rest [N m]
    start_stop_torque
        torque allowed while starting and stopping [N m]
    vertical_load
        load it may carry [N]
    side_force
        side force it may carry [N]
    area_inside
        rated wind area inside the tower [m^2]
    area_on_mast
        rated wind area mast-mounted [m^2]
    area_rule
        ``projected``, ``drag`` or ``flat``, or empty
    least_mast
        smallest mast its clamp takes [m]
    greatest_mast
        largest mast its clamp takes [m]
    turning_speed
        speed of turning [rad/s]
    stop_angle
        angle in which it comes to rest [rad]
    turning_gust
        nominal 3 s gust in which it shall still turn [m/s]
    friction
        torque lost in bearing and cable loop [N m]
    """

    place: str
    turning_torque: float | None = None
    holding_torque: float | None = None
    start_stop_torque: float | None = None
    vertical_load: float | None = None
    side_force: float | None = None
    area_inside: float | None = None
    area_on_mast: float | None = None
    area_rule: str = ""
    least_mast: float | None = None
    greatest_mast: float | None = None
    turning_speed: float | None = None
    stop_angle: float | None = None
    turning_gust: float | None = None
    friction: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RingPlan:
    """A ring around the support on which one beam turns, with what its maker states.

    Parameters
    ----------
    beam
        name of the beam that turns on it
    turning_torque
        torque while turning [N m]
    holding_torque
        brake or worm torque at rest [N m]
    start_stop_torque
        torque allowed while starting and stopping [N m]
    vertical_load
        load it may carry [N]
    side_force
        side force it may carry [N]
    area
        rated wind area [m^2]
    area_rule
        ``projected``, ``drag`` or ``flat``, or empty
    turning_speed
        speed of turning [rad/s]
    stop_angle
        angle in which it comes to rest [rad]
    turning_gust
        nominal 3 s gust in which it shall still turn [m/s]
    friction
        torque lost in its bearing and the cable loop [N m]
    mass
        mass of the ring mount itself [kg]
    drag_area
        drag area of the ring mount itself [m^2]
    said_by
        who says that the support may carry it there, and when; empty when nobody does
    """

    beam: str
    turning_torque: float | None = None
    holding_torque: float | None = None
    start_stop_torque: float | None = None
    vertical_load: float | None = None
    side_force: float | None = None
    area: float | None = None
    area_rule: str = ""
    turning_speed: float | None = None
    stop_angle: float | None = None
    turning_gust: float | None = None
    friction: float | None = None
    mass: float | None = None
    drag_area: float | None = None
    said_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandPlan:
    """A guy strand by its figures.

    Parameters
    ----------
    name
        size and grade
    breaking_strength
        minimum breaking strength [N]
    mass
        mass of one metre [kg/m]
    stiffness
        EA, cross section times Young's modulus [N]
    diameter
        outer diameter, for wind and ice; None takes that of seven steel wires [m]
    """

    name: str
    breaking_strength: float
    mass: float
    stiffness: float
    diameter: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyPlan:
    """One ring of guys at one height.

    Parameters
    ----------
    height
        where the guys hold the support, above ground [m]
    radius
        anchors out from the support [m]
    strand
        name of a standard strand, or the figures of another
    tension
        tension with no wind [N]
    count
        guys in the ring
    first
        direction of the first anchor, clockwise from true north [rad]
    anchor_height
        anchors above the foot of the support, negative when below [m]
    """

    height: float
    radius: float
    strand: str | StrandPlan
    tension: float | None = None
    count: int = 3
    first: float = 0.0
    anchor_height: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportPlan:
    """Everything between the ground and the booms.

    Parameters
    ----------
    method
        ``allowable`` or ``strength``
    damping
        damping ratio of the first sway [-]
    sway
        first frequency of the support with its beams [Hz]
    frost_depth
        local frost depth, 0 where there is none [m]
    soil
        name of a soil class, or figures; None when nobody looked
    tower
        lattice tower
    tube
        tube in place of a tower
    mast
        rotating mast
    ring
        rings around the support, each with one beam (n_rings,)
    guy
        guy rings (n_levels,)
    anchor
        block at each guy anchor
    base
        footing
    base_loads
        footing loads from the maker
    """

    method: str = "allowable"
    damping: float | None = None
    sway: float | None = None
    frost_depth: float | None = None
    soil: str | SoilPlan | None = None
    tower: TowerPlan | None = None
    tube: TubePlan | None = None
    mast: MastPlan | None = None
    rotator: RotatorPlan | None = None
    ring: tuple[RingPlan, ...] = ()
    guy: tuple[GuyPlan, ...] = ()
    anchor: AnchorPlan | None = None
    base: BasePlan | None = None
    base_loads: BaseLoadsPlan | None = None

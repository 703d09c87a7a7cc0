"""Place, transmitter, line and paths, as the plan gives them; ``None``: it does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass
from boomwright.solver import Ground

if TYPE_CHECKING:
    from boomwright.parts import LineHardware
    from boomwright.plan.bands import Region
    from boomwright.reach.hops import Layer


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingPlan:
    """Something at hand that can carry an antenna."""

    name: str  #: owner's name for it
    kind: str  #: what it is, a word of ``vocabulary.SUPPORT_KINDS``
    height: float  #: highest point it offers [m]
    foot: float | None = None  #: lower end of a pole on brackets; None below the lowest [m]
    heights: tuple[float, ...] = ()  #: brackets of a house bracket, upwards [m] (n_brackets,)
    diameter: float | None = None  #: of a pole or tube; None when not said [m]
    wall: float | None = None  #: of a pole or tube; None when not said [m]
    material: str = ""  #: of a pole or tube, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacePlan:
    """What a place allows and wants of a station."""

    bands: tuple[str, ...]  #: bands wanted, the most wanted first (n_bands,)
    region: Region = 1  #: ITU region, for the edges of the bands
    highest: float | None = None  #: highest part allowed above ground; None for no limit [m]
    lot: tuple[float, float] | None = None  #: length and width of the clear ground [m] (2,)
    #: least that a station must be worth against a flat dipole at 10 m; None for a usual one [dB]
    least_db: float | None = None
    table: str = ""  #: file with shapes and supports of the owner's own, or empty
    standing: tuple[StandingPlan, ...] = ()  #: what can carry an antenna already (n_standing,)


@dataclass(frozen=True, slots=True, kw_only=True)
class TransmitterPlan:
    """What goes into the line, how, and for how long."""

    power: float  #: peak envelope power [W]
    emission: str = ""  #: kind of emission, or empty
    transmit: float | None = None  #: length of each transmission [s]
    listen: float | None = None  #: pause after each transmission [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoaxPlan:
    """A coaxial line by its data sheet."""

    name: str
    impedance: float  #: characteristic impedance [ohm]
    velocity_factor: float  #: speed on the line over that of light [-]
    #: frequency [Hz] and attenuation [dB/m] of each point (n_points, 2)
    attenuation: tuple[tuple[float, float], ...]
    voltage_limit: float | None = None  #: greatest effective voltage [V]
    diameter: float | None = None  #: over the jacket [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePlan:
    """Feed line, choke, and what else runs between shack and antenna."""

    line_type: str | CoaxPlan  #: name of a type of line, or its data sheet
    length: float  #: from radio to antenna, rotation loop included [m]
    loop: float = 0.0  #: part of it that is the rotation loop [m]
    #: impedance of the choke to common-mode current at the design frequency, resistance and
    #: reactance; None when there is none or it is not known [ohm] (2,)
    choke: tuple[float, float] | None = None
    #: wanted ratio of feed current to current on the outside [dB]
    suppression_db: float | None = None
    connectors: int = 0
    control_cable: float = 0.0  #: control cable of the rotator [m]
    earth_rods: int = 0  #: earth rods besides those at the tower's legs
    bonding: float = 0.0  #: strap or wire of the earth system [m]
    arresters: int = 0  #: lightning arresters
    choke_cores: int = 0  #: ferrite cores of the choke at the feed
    hardware: LineHardware | None = None  #: cable and earth rods; None takes the trade's


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetPlan:
    """A place to be reached."""

    name: str  #: owner's name for it
    position: tuple[float, float] | None = None  #: latitude and longitude, or None [rad] (2,)
    locator: str = ""  #: locator square, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class FarGroundPlan:
    """Ground that begins at some distance, e.g. the sea."""

    distance: float  #: where it begins, from the support towards the heading [m]
    ground: Ground  #: ground there
    drop: float = 0.0  #: how much lower it lies [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachPlan:
    """Where the owner wants to be heard, and the ground on the way."""

    target: tuple[TargetPlan, ...] = ()  #: places to be reached (n_targets,)
    terrain: str = ""  #: file with the terrain profile towards the heading, or empty
    #: layers to count with in place of the usual ones (n_layers,)
    layer: tuple[Layer, ...] = ()
    #: grounds that begin at some distance, nearest first (n_zones,)
    far_ground: tuple[FarGroundPlan, ...] = ()
    stack: tuple[str, ...] = ()  #: names of the beams that are fed together (n_beams,)
    #: elevations followed against height and cost; none for those of the paths [rad] (n,)
    wanted: tuple[float, ...] = ()
    ring: str = ""  #: name of the beam that turns on a ring while the others stay, or empty

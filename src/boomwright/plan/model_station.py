"""Transmitter, line and paths, as the plan gives them. ``None`` means that it does not say."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TransmitterPlan:
    """What goes into the line, how, and for how long.

    Parameters
    ----------
    power
        peak envelope power [W]
    emission
        kind of emission, or empty
    transmit
        length of each transmission [s]
    listen
        pause after each transmission [s]
    """

    power: float
    emission: str = ""
    transmit: float | None = None
    listen: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CoaxPlan:
    """A coaxial line by its data sheet.

    Parameters
    ----------
    impedance
        characteristic impedance [ohm]
    velocity_factor
        speed on the line over that of light [-]
    attenuation
        frequency [Hz] and attenuation [dB/m] of each point (n_points, 2)
    voltage_limit
        greatest effective voltage [V]
    diameter
        over the jacket [m]
    """

    name: str
    impedance: float
    velocity_factor: float
    attenuation: tuple[tuple[float, float], ...]
    voltage_limit: float | None = None
    diameter: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePlan:
    """Feed line, choke, and what else runs between shack and antenna.

    Parameters
    ----------
    line_type
        name of a type of line, or its data sheet
    length
        from radio to antenna, rotation loop included [m]
    loop
        part of it that is the rotation loop [m]
    choke
        impedance of the choke to common-mode current at the design frequency, resistance and
        reactance; None when there is none or it is not known [ohm] (2,)
    suppression_db
        wanted ratio of feed current to current on the outside [dB]
    control_cable
        control cable of the rotator [m]
    earth_rods
        earth rods besides those at the tower's legs
    bonding
        strap or wire of the earth system [m]
    arresters
        lightning arresters
    choke_cores
        ferrite cores of the choke at the feed
    """

    line_type: str | CoaxPlan
    length: float
    loop: float = 0.0
    choke: tuple[float, float] | None = None
    suppression_db: float | None = None
    connectors: int = 0
    control_cable: float = 0.0
    earth_rods: int = 0
    bonding: float = 0.0
    arresters: int = 0
    choke_cores: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetPlan:
    """A place to be reached.

    Parameters
    ----------
    name
        owner's name for it
    position
        latitude and longitude, or None [rad] (2,)
    locator
        locator square, or empty
    """

    name: str
    position: tuple[float, float] | None = None
    locator: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerPlan:
    """A reflecting layer.

    Parameters
    ----------
    name
        its letter
    lowest
        lowest mirror height [m]
    highest
        highest mirror height [m]
    """

    name: str
    lowest: float
    highest: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundPlan:
    """A ground by its two constants.

    Parameters
    ----------
    permittivity
        relative permittivity [-]
    conductivity
        conductivity [S/m]
    """

    permittivity: float
    conductivity: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FarGroundPlan:
    """Ground that begins at some distance, e.g. the sea.

    Parameters
    ----------
    distance
        where it begins, from the support towards the heading [m]
    ground
        name of the ground there, or its constants
    drop
        how much lower it lies [m]
    """

    distance: float
    ground: str | GroundPlan
    drop: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachPlan:
    """Where the owner wants to be heard, and the ground on the way.

    Parameters
    ----------
    target
        places to be reached (n_targets,)
    terrain
        file with the terrain profile towards the heading, or empty
    layer
        layers to count with in place of the usual ones (n_layers,)
    far_ground
        grounds that begin at some distance, nearest first (n_zones,)
    stack
        names of the beams that are fed together (n_beams,)
    wanted
        elevations followed against height and cost; none for those of the paths [rad] (n,)
    ring
        name of the beam that turns on a ring while the others stay, or empty
    """

    target: tuple[TargetPlan, ...] = ()
    terrain: str = ""
    layer: tuple[LayerPlan, ...] = ()
    far_ground: tuple[FarGroundPlan, ...] = ()
    stack: tuple[str, ...] = ()
    wanted: tuple[float, ...] = ()
    ring: str = ""

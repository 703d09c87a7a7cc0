"""What the beam is worth against plain antennas: dipoles, and a quarter-wave vertical on earth."""

from __future__ import annotations

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.array_types import Floats
from boomwright.base.constants import DECIBELS_PER_S_UNIT
from boomwright.base.records import dataclass
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.reach.at_height import layered_gain_dbi, level_dbi, solve_at_height
from boomwright.reach.ground_zones import ZonedGround, zoned_far_field
from boomwright.solver import (
    GapPlace,
    Ground,
    PatternCut,
    Preparer,
    WirePath,
    assemble,
    far_field,
    moments,
    prepare_run,
    screen_resistance,
    solve_currents,
    wire_network,
    working_detail,
)

#: a thin half-wave dipole is resonant at about this length {stutzman-thiele-1998} [wavelengths]
_DIPOLE_LENGTH = 0.475
#: radius of the comparison wires [wavelengths]
_WIRE_RADIUS = 1e-4
#: radials of the vertical that beams are held against, each a quarter wave long: what a garden
#: takes {common-practice-first-guess}
COMPARED_RADIALS = 32
#: height of the low dipole many stations have [m] {common-practice-low-dipole}
LOW_DIPOLE_HEIGHT = 10.0
#: a dipole below this height is no antenna to compare with [wavelengths]
_LOWEST_DIPOLE = 0.05
#: floor of printed gains [dBi]
_FLOOR_DBI = -60.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlainAntenna:
    """An antenna the beam is held against."""

    name: str
    height: float | None  #: its height above ground; None for the vertical that stands on it [m]
    cut: PatternCut  #: elevation cut over the same ground, 0 to 90


@dataclass(frozen=True, slots=True, kw_only=True)
class Advantage:
    """Gain of the beam over a plain antenna at one elevation."""

    over: str  #: name of the plain antenna
    elevation_deg: float  #: elevation [deg]
    decibels: float  #: difference of gains [dB]

    @property
    def s_units(self) -> float:
        """The same in S-units of 6 dB {iaru-r1-r1} [-]."""
        return self.decibels / DECIBELS_PER_S_UNIT


def half_wave_dipole(*, frequency: float, height: float) -> Beam:
    """Make a lossless half-wave dipole of thin wire.

    Args:
        height: above ground [m]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    half = 0.5 * _DIPOLE_LENGTH * wavelength
    radius = _WIRE_RADIUS * wavelength
    return Beam(
        name="half-wave dipole",
        band=(frequency, frequency),
        design_frequency=frequency,
        height=height,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=2.0 * radius),
        elements=(
            Element(
                role="driven", position=0.0, half=(TubeSection(diameter=2 * radius, length=half),)
            ),
        ),
    )


def plain_antennas(
    *,
    frequency: float,
    height: float,
    ground: Ground,
    elevation_deg: Floats,
    far_ground: ZonedGround | None = None,
    prepare: Preparer = prepare_run,
) -> tuple[PlainAntenna, ...]:
    """Compute the plain antennas over the same ground: the first needs some height.

    Args:
        height: height of the first dipole, that of the beam [m]
        elevation_deg: [deg] (e,)
    """
    elevation = np.radians(elevation_deg)
    made = []
    for where, name in (
        (height, "half-wave dipole at the same height"),
        (LOW_DIPOLE_HEIGHT, "half-wave dipole at 10 m"),
    ):
        if where < _LOWEST_DIPOLE * SPEED_OF_LIGHT / frequency:
            continue
        solution = solve_at_height(
            beam=half_wave_dipole(frequency=frequency, height=where),
            ground=ground,
            height=where,
            prepare=prepare,
        )
        gain = layered_gain_dbi(
            solution=solution,
            azimuth=np.zeros(len(elevation)),
            elevation=elevation,
            ground=ground,
            height=where,
            far_ground=far_ground,
        )
        made.append(PlainAntenna(name=name, height=where, cut=_cut(elevation_deg, gain)))
    vertical = _vertical_gain(
        frequency=frequency, ground=ground, elevation=elevation, far_ground=far_ground
    )
    made.append(
        PlainAntenna(
            name=f"quarter-wave vertical over {COMPARED_RADIALS} radials",
            height=None,
            cut=_cut(elevation_deg, vertical),
        )
    )
    return tuple(made)


def _cut(elevation_deg: Floats, gain: Floats) -> PatternCut:
    return PatternCut(
        plane="elevation",
        at_deg=0.0,
        angle_deg=elevation_deg,
        gain_dbi=np.maximum(gain, _FLOOR_DBI),
    )


def _vertical_gain(
    *, frequency: float, ground: Ground, elevation: Floats, far_ground: ZonedGround | None
) -> Floats:
    """Quarter-wave vertical on the ground over buried radials; the ground out there is real.

    The currents are those over perfect ground; soil and radials take the power that flows into the
    resistance of the screen {wait-pope-1954}.
    """
    wavelength = SPEED_OF_LIGHT / frequency
    length, radius = 0.5 * _DIPOLE_LENGTH * wavelength, _WIRE_RADIUS * wavelength
    path = WirePath(
        name="vertical",
        points=np.array([[0.0, 0.0, 0.0], [0.0, 0.0, length]]),
        radii=np.array([radius]),
    )
    system = wire_network(
        paths=(path,),
        gaps=(GapPlace(path=0, along=0.0, width=2.0 * radius),),
        perfect_ground=True,
        ground_level=0.0,
    )
    at = np.array([frequency])
    assembly = assemble(
        system=system, detail=working_detail(frequency=frequency), highest_frequency=frequency
    )
    currents = solve_currents(assembly=assembly, frequencies=at)
    source = moments(assembly=assembly, unknowns=currents.unknowns[:, :, 0], frequencies=at)
    admittance = complex(currents.admittance[0, 0, 0])
    lost = 0.0
    if ground.kind == "real":
        lost = screen_resistance(
            count=COMPARED_RADIALS,
            length=0.25 * wavelength,
            wire_radius=radius,
            height=length,
            permittivity=ground.complex_permittivity(frequency=frequency),
            frequency=frequency,
        )
    accepted = 0.5 * (admittance.real + lost * abs(admittance) ** 2)
    ahead = np.zeros(len(elevation))
    if far_ground is None:
        vertical, horizontal = far_field(
            source=source, azimuth=ahead, elevation=elevation, ground=ground
        )
    else:
        vertical, horizontal = zoned_far_field(
            source,
            azimuth=ahead,
            elevation=elevation,
            ground=far_ground,
            height=0.5 * length,
        )
    return level_dbi(vertical[0], horizontal[0], accepted=accepted)


def advantages(
    *, cut: PatternCut, plain: tuple[PlainAntenna, ...], elevation_deg: float
) -> tuple[Advantage, ...]:
    """Hold the beam against the plain antennas at one elevation."""
    own = float(np.interp(elevation_deg, cut.angle_deg, cut.gain_dbi))
    return tuple(
        Advantage(
            over=each.name,
            elevation_deg=elevation_deg,
            decibels=own - float(np.interp(elevation_deg, each.cut.angle_deg, each.cut.gain_dbi)),
        )
        for each in plain
    )

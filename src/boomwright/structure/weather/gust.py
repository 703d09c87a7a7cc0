"""What gusts do to something that sways: the flexible gust factor, and those of tower standards.

A pressure here is that of a 3 s gust already, so a factor below 1 is never taken: a beam is wholly
inside one gust (common practice). Under 1 Hz the sway answers the gusts and the factor grows.
"""

from __future__ import annotations

from math import exp, log, pi, pow, sqrt
from typing import Literal

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError, require_each
from boomwright.structure.weather.basis import Exposure
from boomwright.structure.wording import FOOT

#: under this first frequency a structure counts as flexible {asce-7-gust, sec. 26.2} [Hz]
FLEXIBLE_BELOW = 1.0
#: peak factors of background and of wind {asce-7-gust, sec. 26.11.4} [-]
BACKGROUND_PEAK = 3.4
#: gust factor of a tubular pole {tia-222-g, sec. 2.6.7} [-]
POLE_GUST = 1.10
#: gust factor of a pole that stands on another structure {tia-222-g-gust, sec. 2.6.7} [-]
ON_STRUCTURE_GUST = 1.35
#: load factor on nominal wind in strength design {tia-222-g-wind-factor, sec. 2.3.2} [-]
TIA_G_WIND_FACTOR = 1.6

Joints = Literal["welded", "preloaded bolts", "bolts"]
#: structural damping ratio of a steel lattice by its joints, from the logarithmic decrements
#: 0.02, 0.03 and 0.05 {en-1991-1-4, table F.2} [-]
LATTICE_DAMPING: dict[Joints, float] = {
    "welded": 0.02 / (2.0 * pi),
    "preloaded bolts": 0.03 / (2.0 * pi),
    "bolts": 0.05 / (2.0 * pi),
}
#: damping ratio of a bare steel pole {bare-pole-damping}, and of steel that carries something
#: {asce-7-gust, commentary C26.11} [-]
BARE_POLE_DAMPING = 0.005
STEEL_DAMPING = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class GustTerrain:
    """Constants of one exposure {asce-7-gust, table 26.11-1}."""

    exponent: float  #: of the mean hourly speed with height [-]
    factor: float  #: mean hourly speed over 3 s gust at 10 m [-]
    intensity: float  #: turbulence at 10 m [-]
    length: float  #: turbulence length at 10 m [m]
    growth: float  #: exponent of that length with height [-]
    least_height: float  #: height below which nothing changes [m]


GUST_TERRAIN: dict[Exposure, GustTerrain] = {
    "B": GustTerrain(
        exponent=1 / 4, factor=0.45, intensity=0.30, length=320 * FOOT, growth=1 / 3,
        least_height=30 * FOOT,
    ),
    "C": GustTerrain(
        exponent=1 / 6.5, factor=0.65, intensity=0.20, length=500 * FOOT, growth=1 / 5,
        least_height=15 * FOOT,
    ),
    "D": GustTerrain(
        exponent=1 / 9, factor=0.80, intensity=0.15, length=650 * FOOT, growth=1 / 8,
        least_height=7 * FOOT,
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class GustResponse:
    """The gust factor that stands in a pressure, and what it rests on."""

    factor: float  #: gust factor [-]
    text: Value  #: frequency, rule and damping in one line
    frequency_hz: float | None = None  #: first frequency of the sway; None when not known [Hz]
    missing: Value = ""  #: why no factor can be vouched for, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class GustFactor:
    """The flexible gust factor with its steps {asce-7-gust, sec. 26.11.5}."""

    value: float  #: gust factor Gf [-]
    mean_speed: float  #: mean hourly speed at the reference height [m/s]
    length: float  #: turbulence length there [m]
    reduced_frequency: float  #: N1 [-]
    spectrum: float  #: Rn [-]
    height_admittance: float  #: Rh [-]
    background: float  #: Q [-]
    resonance: float  #: R [-]
    resonant_peak: float  #: gR [-]


def gust_admittance(eta: float) -> float:
    """How much of a gust's resonance one direction feels [-].

    {asce-7-gust, eq. 26.11-15} and {en-1991-1-4, eq. B.7} have the same.

    Args:
        eta: [-]
    """
    if eta < 1e-6:
        return 1.0
    return 1.0 / eta - (1.0 - exp(-2.0 * eta)) / (2.0 * eta**2)


def flexible_gust_factor(
    *,
    exposure: Exposure,
    gust: float,
    height: float,
    breadth: float,
    depth: float,
    frequency_hz: float,
    damping: float,
) -> GustFactor:
    """Gust factor of something that sways in the gusts {asce-7-gust, eq. 26.11-10}.

    Args:
        gust: 3 s gust at 10 m in open country [m/s]
        height: height of the structure [m]
        breadth: breadth square to the wind [m]
        depth: depth along the wind [m]
        frequency_hz: first frequency [Hz]
        damping: damping ratio [-]

    Raises:
        StructureInputError: when a figure is not above zero, or a sway takes an hour
    """
    require_each(
        "",
        ("gust", gust, "m/s"),
        ("height of the structure", height, "m"),
        ("damping ratio", damping, "-"),
    )
    if not frequency_hz > 1.0 / 3600.0:
        msg = f"a first frequency of {frequency_hz} Hz is no sway: check stiffness and masses"
        raise StructureInputError(msg)
    terrain = GUST_TERRAIN[exposure]
    reference = max(0.6 * height, terrain.least_height)
    # Turbulence, times 1.7, and the background response Q {asce-7-gust, eq. 26.11-7 and 26.11-8}.
    turbulence = 1.7 * (terrain.intensity * pow(10.0 / reference, 1.0 / 6.0))
    length = terrain.length * pow(reference / 10.0, terrain.growth)
    mean = terrain.factor * pow(reference / 10.0, terrain.exponent) * gust
    background = sqrt(1.0 / (1.0 + 0.63 * pow((breadth + height) / length, 0.63)))
    reduced = frequency_hz * length / mean
    spectrum = 7.47 * reduced / pow(1.0 + 10.3 * reduced, 5.0 / 3.0)
    step = frequency_hz / mean
    over_height, over_breadth, over_depth = (
        gust_admittance(size * step) for size in (4.6 * height, 4.6 * breadth, 15.4 * depth)
    )
    resonance = sqrt(spectrum * over_height * over_breadth * (0.53 + 0.47 * over_depth) / damping)
    spread = sqrt(2.0 * log(3600.0 * frequency_hz))
    peak = spread + 0.577 / spread
    swayed = sqrt((BACKGROUND_PEAK * background) ** 2 + (peak * resonance) ** 2)
    return GustFactor(
        value=0.925 * (1.0 + turbulence * swayed) / (1.0 + BACKGROUND_PEAK * turbulence),
        mean_speed=mean,
        length=length,
        reduced_frequency=reduced,
        spectrum=spectrum,
        height_admittance=over_height,
        background=background,
        resonance=resonance,
        resonant_peak=peak,
    )


def tia_f_lattice_gust(*, height: float) -> float:
    """Gust factor GH of a lattice by the fastest-mile edition {tia-222-f, sec. 2.3.4} [-].

    Args:
        height: height of the tower [m]
    """
    return min(1.25, max(1.0, 0.65 + 0.60 / pow(height / (33.0 * FOOT), 1.0 / 7.0)))


def tia_f_height_coefficient(*, height: float) -> float:
    """Growth of the pressure with height, Kz by the same edition {tia-222-f, sec. 2.3.3} [-]."""
    return min(2.58, max(1.0, pow(height / (33.0 * FOOT), 2.0 / 7.0)))


def tia_f_ice_speed(*, fastest_mile: float) -> float:
    """Speed with ice by that edition, three quarters of the pressure {tia-222-f-ice} [m/s].

    Args:
        fastest_mile: basic fastest-mile speed [m/s]
    """
    return fastest_mile * sqrt(0.75)

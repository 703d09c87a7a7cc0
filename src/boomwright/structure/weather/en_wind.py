"""Wind by EN 1991-1-4: from a 10 min mean speed and a terrain to the peak pressure at a height.

The recommended values of the code stand here. A national annex may change the map's speed, the
profile and the factors: then the pressure itself is what an engineer gives (``stated_wind``).
"""

from __future__ import annotations

from math import isfinite, log, pi, pow, sqrt
from typing import Literal, get_args

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure import wording
from boomwright.structure.faults import StructureInputError, require_each, require_not_negative
from boomwright.structure.weather.gust import gust_admittance
from boomwright.structure.weather.partial_factors import FactoredWind

Terrain = Literal["0", "I", "II", "III", "IV"]
#: terrain categories, from the open sea to the city
TERRAINS: tuple[Terrain, ...] = get_args(Terrain)

#: recommended density of air {en-1991-1-4, sec. 4.5} [kg/m^3]
AIR_DENSITY = 1.25
#: the profile holds up to here {en-1991-1-4, sec. 4.3.2} [m]
GREATEST_HEIGHT = 200.0
#: averaging time of the mean speed {en-1991-1-4, eq. B.4} [s]
AVERAGING_TIME = 600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TerrainLaw:
    """One terrain category {en-1991-1-4, table 4.1}."""

    roughness: float  #: roughness length z0 [m]
    least_height: float  #: height below which the profile stands still [m]
    words: Value  #: what it looks like

    @property
    def factor(self) -> float:
        """Terrain factor kr {en-1991-1-4, eq. 4.5} [-]."""
        return 0.19 * pow(self.roughness / 0.05, 0.07)

    def level(self, height: float) -> float:
        """Logarithm of height over roughness length, no lower than at the least height [-]."""
        return log(max(height, self.least_height) / self.roughness)


TERRAIN_LAWS: dict[Terrain, TerrainLaw] = {
    "0": TerrainLaw(roughness=0.003, least_height=1.0, words="open sea or its coast"),
    "I": TerrainLaw(roughness=0.01, least_height=1.0, words="lakes, or flat and bare ground"),
    "II": TerrainLaw(roughness=0.05, least_height=2.0, words="open country"),
    "III": TerrainLaw(roughness=0.3, least_height=5.0, words="villages, suburbs, forest"),
    "IV": TerrainLaw(roughness=1.0, least_height=10.0, words="town"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class EnWind(FactoredWind):
    """The site's wind by EN 1991-1-4."""

    basic_speed: float  #: fundamental basic speed, 10 min mean at 10 m over open country [m/s]
    terrain: Terrain  #: terrain category
    #: factor of hills on the mean speed, 1 on flat ground; None when nobody has looked [-]
    orography: float | None = None
    direction: float = 1.0  #: directional factor [-]
    season: float = 1.0  #: season factor [-]
    probability: float = 1.0  #: probability factor, 1 for fifty years [-]
    air_density: float = AIR_DENSITY  #: density of air [kg/m^3]
    code: str = "EN 1991-1-4"  #: the code as the owner names it

    def __post_init__(self) -> None:
        require_each(
            "",
            ("basic wind speed", self.basic_speed, "m/s"),
            ("directional factor", self.direction, "-"),
            ("season factor", self.season, "-"),
            ("probability factor", self.probability, "-"),
            ("density of air", self.air_density, "kg/m^3"),
            ("orography factor", self.orography, "-"),
        )
        if self.terrain not in TERRAIN_LAWS:
            msg = f"terrain category {self.terrain!r} is not known: use {', '.join(TERRAINS)}"
            raise StructureInputError(msg)

    @property
    def speed(self) -> float:
        """Basic speed with its factors {en-1991-1-4, eq. 4.1} [m/s]."""
        return self.basic_speed * self.direction * self.season * self.probability

    @property
    def topography(self) -> float | None:
        """Hill on the mean pressure; None when nobody has looked [-]."""
        return None if self.orography is None else self.orography**2

    @property
    def gust(self) -> float:
        """Peak speed at 10 m over flat open country, of the same pressure as the code's [m/s]."""
        return sqrt(2.0 * en_peak_pressure(basic_speed=self.speed, height=10.0) / AIR_DENSITY)

    @property
    def text(self) -> Value:
        """The basis in one line, to stand beside every figure."""
        hill = "no orography entered" if self.orography is None else f"co {self.orography:g}"
        further = "".join(
            f", {name} {value:g}"
            for name, value in (
                ("c dir", self.direction),
                ("c season", self.season),
                ("c prob", self.probability),
            )
            if value != 1.0
        )
        return phrase(
            "{kind} wind, basic speed {basic_speed} 10 min mean{further}, terrain "
            "{terrain}, {code}, {hill}, air {air_density}{factor}", kind=self.kind,
            basic_speed=wording.speed(self.basic_speed), further=further, terrain=self.terrain,
            code=self.code, hill=hill, air_density=Quantity(self.air_density, "air density"),
            factor=self.factor_text,
        )  # fmt: skip

    def pressure(self, height: float) -> float:
        """Peak velocity pressure, without the factor on wind [Pa]."""
        law = TERRAIN_LAWS[self.terrain]
        return en_peak_pressure(
            basic_speed=self.speed,
            height=height,
            roughness_length=law.roughness,
            least_height=law.least_height,
            air_density=self.air_density,
            orography=self.orography or 1.0,
        )

    def mean_speed(self, height: float) -> float:
        """10 min mean speed {en-1991-1-4, eq. 4.3} [m/s]."""
        law = TERRAIN_LAWS[self.terrain]
        return law.factor * law.level(height) * (self.orography or 1.0) * self.speed

    def turbulence(self, height: float) -> float:
        """Turbulence intensity {en-1991-1-4, eq. 4.7} [-]."""
        return 1.0 / ((self.orography or 1.0) * TERRAIN_LAWS[self.terrain].level(height))


def en_peak_pressure(
    *,
    basic_speed: float,
    height: float,
    roughness_length: float = 0.05,
    least_height: float = 2.0,
    air_density: float = AIR_DENSITY,
    orography: float = 1.0,
) -> float:
    """Peak velocity pressure of EN 1991-1-4 from the 10 min mean speed {en-1991-1-4, eq. 4.8} [Pa].

    Args:
        basic_speed: 10 min mean at 10 m over terrain category II [m/s]
        roughness_length: z0 of the terrain category, 0.05 for II [m]
        least_height: height below which the law stands still, 2 for II [m]
        air_density: [kg/m^3]
        orography: factor of hills on the mean speed [-]

    Raises:
        StructureInputError: above 200 m, where the profile ends
    """
    require_not_negative(place="height above ground", value=height, unit="m")
    if height > GREATEST_HEIGHT:
        msg = f"EN 1991-1-4 ends at {GREATEST_HEIGHT:g} m above ground, not at {height:g} m"
        raise StructureInputError(msg)
    law = TerrainLaw(roughness=roughness_length, least_height=least_height, words="")
    mean = law.factor * law.level(height) * orography * basic_speed
    turbulence = 1.0 / (orography * law.level(height))
    return (1.0 + 7.0 * turbulence) * 0.5 * air_density * mean**2


def turbulence_length(*, terrain: Terrain, height: float) -> float:
    """Length scale of turbulence at a height {en-1991-1-4, eq. B.1} [m]."""
    law = TERRAIN_LAWS[terrain]
    seen = max(height, law.least_height)
    return 300.0 * pow(seen / 200.0, 0.67 + 0.05 * log(law.roughness))


@dataclass(frozen=True, slots=True, kw_only=True)
class StructuralFactor:
    """How a structure answers the gusts {en-1991-1-4, annex B}."""

    value: float  #: structural factor cs cd [-]
    mean_speed: float  #: mean speed at the reference height [m/s]
    length: float  #: length scale of turbulence there [m]
    frequency: float  #: frequency made dimensionless, fL [-]
    spectrum: float  #: spectral density SL [-]
    admittances: tuple[float, float]  #: admittance over the height and over the breadth [-] (2,)
    background: float  #: background factor B squared [-]
    resonance: float  #: resonance factor R squared [-]
    peak: float  #: peak factor kp [-]


def structural_factor(
    *,
    wind: EnWind,
    height: float,
    breadth: float,
    frequency_hz: float,
    decrement: float,
    speed_share: float = 1.0,
) -> StructuralFactor:
    """Structural factor by procedure 1 {en-1991-1-4, eq. 6.1 and B.1 to B.8}.

    Args:
        height: height of the structure [m]
        breadth: its breadth square to the wind [m]
        frequency_hz: its first frequency along the wind [Hz]
        decrement: logarithmic decrement of damping, structural and aerodynamic [-]
        speed_share: share of the site's mean speed that blows, as with ice [-]

    Raises:
        StructureInputError: when a figure is not above zero
    """
    require_each(
        "",
        ("height of the structure", height, "m"),
        ("first frequency", frequency_hz, "Hz"),
        ("decrement of damping", decrement, "-"),
        ("share of the wind", speed_share, "-"),
    )
    reference = max(0.6 * height, TERRAIN_LAWS[wind.terrain].least_height)
    mean = wind.mean_speed(reference) * speed_share
    length = turbulence_length(terrain=wind.terrain, height=reference)
    reduced = frequency_hz * length / mean
    spectrum = 6.8 * reduced / pow(1.0 + 10.2 * reduced, 5.0 / 3.0)
    over_height, over_breadth = (
        gust_admittance(4.6 * size / length * reduced) for size in (height, breadth)
    )
    background = 1.0 / (1.0 + 0.9 * pow((breadth + height) / length, 0.63))
    resonance = pi**2 / (2.0 * decrement) * spectrum * over_height * over_breadth
    crossings = max(0.08, frequency_hz * sqrt(resonance / (background + resonance)))
    spread = sqrt(2.0 * log(crossings * AVERAGING_TIME))
    peak = max(3.0, spread + 0.6 / spread)
    turbulence = wind.turbulence(reference)
    value = (1.0 + 2.0 * peak * turbulence * sqrt(background + resonance)) / (
        1.0 + 7.0 * turbulence
    )
    if not isfinite(value):  # pragma: no cover - every input is finite and above zero
        msg = f"no structural factor follows from a first frequency of {frequency_hz} Hz"
        raise StructureInputError(msg)
    return StructuralFactor(
        value=value,
        mean_speed=mean,
        length=length,
        frequency=reduced,
        spectrum=spectrum,
        admittances=(over_height, over_breadth),
        background=background,
        resonance=resonance,
        peak=peak,
    )


def aerodynamic_decrement(
    *,
    drag_per_length: float,
    mass_per_length: float,
    mean_speed: float,
    frequency_hz: float,
    air_density: float = AIR_DENSITY,
) -> float:
    """Decrement of the damping by the air, cf rho b vm / (2 n me) {en-1991-1-4, eq. F.16} [-].

    Args:
        drag_per_length: force coefficient times breadth [m]
        mass_per_length: equivalent mass of a metre [kg/m]
        mean_speed: mean speed at the reference height [m/s]
        frequency_hz: first frequency [Hz]
        air_density: [kg/m^3]
    """
    return drag_per_length * air_density * mean_speed / (2.0 * frequency_hz * mass_per_length)

"""What the ground may carry, and how much concrete a footing takes."""

from __future__ import annotations

from math import ceil

from boomwright.base.records import dataclass
from boomwright.structure.faults import require_each, require_not_negative

#: pascals in a pound-force per square foot {nist-sp-811}
PSF = 47.88025898
#: pascals per metre in a pound-force per square foot per foot {nist-sp-811}
PSF_PER_FOOT = PSF / 0.3048
#: weight of concrete, 150 lb/ft3 (common practice) [N/m^3]
CONCRETE_WEIGHT = 150.0 * PSF_PER_FOOT
#: weight of water, 62.4 lb/ft3 [N/m^3]
WATER_WEIGHT = 62.4 * PSF_PER_FOOT
#: cubic metres in a cubic yard, exact {nist-sp-811}
CUBIC_YARD = 0.9144**3
#: volume of an 80 lb bag of ready mix, 0.60 ft3 (common practice) [m^3]
BAG_VOLUME = 0.60 * 0.3048**3


@dataclass(frozen=True, slots=True, kw_only=True)
class Soil:
    """Soil as the building office or a test gives it."""

    name: str
    #: allowable pressure under a footing; None when only a test can tell [Pa]
    bearing: float | None = None
    #: allowable sideways pressure for each metre of depth; None when only a test can tell [Pa/m]
    lateral: float | None = None
    #: coefficient of sliding under concrete; None where cohesion holds [-]
    friction: float | None = None
    cohesion: float | None = None  #: sliding resistance of clay [Pa]
    weight_per_volume: float = 100.0 * PSF_PER_FOOT  #: weight of the soil [N/m^3]
    presumptive: bool = False  #: True when read from a code table and not tested

    def __post_init__(self) -> None:
        require_each(
            "soil",
            ("bearing", self.bearing, "Pa"),
            ("lateral bearing", self.lateral, "Pa/m"),
            ("friction", self.friction, "-"),
            ("cohesion", self.cohesion, "Pa"),
        )
        require_not_negative(place="soil weight", value=self.weight_per_volume, unit="N/m^3")


def _class(name: str, bearing: float, lateral: float, friction: float | None) -> Soil:
    return Soil(
        name=name,
        bearing=bearing * PSF,
        lateral=lateral * PSF_PER_FOOT,
        friction=friction,
        cohesion=None if friction else 130.0 * PSF,
        presumptive=True,
    )


#: presumptive values for soil that nobody tested {ibc-1806}; soft, organic, filled or wet
#: ground has none
PRESUMPTIVE_SOILS: dict[str, Soil] = {
    soil.name: soil
    for soil in (
        _class("sandy gravel", 3000.0, 200.0, 0.35),
        _class("sand", 2000.0, 150.0, 0.25),
        _class("clay", 1500.0, 100.0, None),
    )
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Concrete:
    """Concrete of one footing."""

    volume: float  #: volume of the hole filled [m^3]
    weight: float  #: weight in air [N]
    cubic_yards: float  #: the same volume [yd^3]
    bags: int  #: 80 lb bags of ready mix, rounded up


def concrete(*, volume: float) -> Concrete:
    """Count the concrete of a footing.

    Args:
        volume: [m^3]
    """
    return Concrete(
        volume=volume,
        weight=volume * CONCRETE_WEIGHT,
        cubic_yards=volume / CUBIC_YARD,
        bags=ceil(volume / BAG_VOLUME - 1e-9),
    )

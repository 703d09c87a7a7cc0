"""From the site's wind to a velocity pressure, by the code the owner named."""

from __future__ import annotations

from math import exp, pow
from typing import Literal

from boomwright.base.quantity import Source, Value, cited, phrase
from boomwright.base.records import dataclass, replace
from boomwright.structure import wording
from boomwright.structure.faults import require_not_negative, require_positive
from boomwright.structure.memory import recalled
from boomwright.structure.weather.basis import (
    EDITIONS,
    Edition,
    Exposure,
    SpeedKind,
    WindBasis,
    as_nominal,
)
from boomwright.structure.weather.en_wind import EnWind
from boomwright.structure.weather.gust import GustResponse
from boomwright.structure.weather.stated_wind import StatedWind
from boomwright.structure.wording import FOOT

#: half the standard air density, rounded as the code prints it {asce-7-10, eq. 29.3-1} [kg/m^3]
PRESSURE_CONSTANT = 0.613
#: the law starts at this height {asce-7-10, table 29.3-1} [m]
LEAST_HEIGHT = 15.0 * FOOT

#: the site's wind: a gust by an American edition, by EN 1991-1-4, or pressures as stated
SiteWind = WindBasis | EnWind | StatedWind

Shape = Literal["round", "lattice"]
#: 0.95 round things, 0.85 lattice {tia-222-g-directionality, table 2-2} (from memory)
DIRECTIONALITY: dict[Shape, float] = {"round": 0.95, "lattice": 0.85}


@dataclass(frozen=True, slots=True, kw_only=True)
class VelocityPressure:
    """A velocity pressure that remembers what it was made from."""

    value: float  #: velocity pressure as the edition defines it [Pa]
    #: pressure to multiply with drag area; directionality, factor on wind and gust factor are in it
    #: [Pa]
    for_force: float
    kind: SpeedKind  #: kind of wind behind it
    height: float  #: height above ground [m]
    text: Value  #: the basis in one line

    def with_gusts(self, response: GustResponse) -> VelocityPressure:
        """Give the pressure on something that sways, with its gust factor in it."""
        return replace(
            self,
            for_force=self.for_force * response.factor,
            text=phrase("{self}; {response}", self=self.text, response=response.text),
        )


def exposure_coefficient(*, height: float, exposure: Exposure, edition: Edition) -> float:
    """Growth of the pressure with height, Kz {asce-7-10, table 29.3-1} [-]."""
    require_not_negative(place="height above ground", value=height, unit="m")
    rule = EDITIONS[edition]
    law = rule.laws[exposure]
    ratio = max(height, LEAST_HEIGHT) / law.gradient_height
    raw = rule.coefficient * pow(ratio, 2.0 / law.exponent)
    return max(law.floor, min(rule.coefficient, raw))


def elevation_factor(*, site_elevation: float) -> float:
    """Thinner air at height above the sea {asce-7-elevation-factor, table 26.9-1} [-].

    Args:
        site_elevation: ground above sea level [m]
    """
    return exp(-0.0000362 * site_elevation / FOOT)


def pressure_from_speed(
    *,
    speed: float,
    height_coefficient: float,
    topography: float = 1.0,
    directionality: float = 1.0,
    elevation: float = 1.0,
    importance: float = 1.0,
) -> float:
    """Velocity pressure, 0.613 Ke Kz Kzt Kd V^2 I {asce-7-10, eq. 29.3-1} [Pa].

    Args:
        speed: 3 s gust at 10 m in open country [m/s]
        height_coefficient: Kz [-]
        topography: Kzt [-]
        directionality: Kd [-]
        elevation: Ke [-]
        importance: I, of editions that have one [-]
    """
    factors = height_coefficient * topography * directionality * elevation * importance
    return PRESSURE_CONSTANT * factors * speed**2


def velocity_pressure(
    *, basis: SiteWind, height: float, shape: Shape = "round", gust: float | None = None
) -> VelocityPressure:
    """Velocity pressure at a height, of the same kind as the wind, with its basis [Pa].

    Args:
        shape: ``round`` or ``lattice``, for the directionality of American editions
        gust: another gust under the same code, as with ice or for turning [m/s]
    """
    if gust is not None:
        require_positive(place="gust", value=gust, unit="m/s")
    other = "" if gust is None else phrase(", gust for this case {gust}", gust=wording.speed(gust))
    if isinstance(basis, WindBasis):
        return _american_pressure(basis, height, shape, basis.gust if gust is None else gust, other)
    share = 1.0 if gust is None else (gust / basis.gust) ** 2
    value = basis.load_factor * share * basis.pressure(height)
    return VelocityPressure(
        value=value,
        for_force=value,
        kind=basis.kind,
        height=height,
        text=phrase(
            "{basis}{other}, {value} at {height}", basis=basis.text, other=other,
            value=wording.pressure(value), height=wording.span(height),
        ),
    )  # fmt: skip


def _thinner(basis: WindBasis) -> float:
    """Thinner air, where the edition allows for it [-]."""
    elevated = EDITIONS[basis.edition].elevation
    return elevation_factor(site_elevation=basis.site_elevation) if elevated else 1.0


def plain_pressure(speed: float, height: float, *, basis: WindBasis) -> float:
    """Pressure of a gust at the site, without directionality and load factor [Pa].

    Args:
        speed: 3 s gust at 10 m in open country [m/s]
    """
    rule = EDITIONS[basis.edition]
    return pressure_from_speed(
        speed=speed,
        height_coefficient=exposure_coefficient(
            height=height, exposure=basis.exposure, edition=basis.edition
        ),
        topography=1.0 if basis.topography is None else basis.topography,
        elevation=_thinner(basis),
        importance=basis.importance if rule.importance else 1.0,
    )


def _american_pressure(
    basis: WindBasis, height: float, shape: Shape, speed: float, other: Value
) -> VelocityPressure:
    rule = EDITIONS[basis.edition]
    kz = exposure_coefficient(height=height, exposure=basis.exposure, edition=basis.edition)
    directionality, thinner = DIRECTIONALITY[shape], _thinner(basis)
    base = basis.load_factor * plain_pressure(speed, height, basis=basis)
    at_floor = kz == rule.laws[basis.exposure].floor
    floor = phrase(" (the floor{source})", source=Source("tia-222-g-floors")) if at_floor else ""
    thin = "" if thinner == 1.0 else cited(f", Ke {thinner:.3f}", "asce-7-elevation-factor")
    return VelocityPressure(
        value=base if rule.directionality_in_force else base * directionality,
        for_force=base * directionality,
        kind=basis.kind,
        height=height,
        text=phrase(
            "{basis}{other}, Kz {kz} at {height}{floor}{thin}, Kd {directionality} ({memory})",
            basis=basis.text, other=other, kz=f"{kz:.3f}", height=wording.span(height),
            floor=floor, thin=thin, directionality=f"{directionality:g}",
            memory=recalled("tia-222-g-directionality"),
        ),
    )  # fmt: skip


def nominal_basis(basis: WindBasis) -> WindBasis:
    """Give the same site with the nominal speed, for allowable stresses and footings."""
    if basis.kind == "nominal":
        return basis
    return replace(basis, speed=as_nominal(basis.speed), converted_from=basis.speed.gust)


def service_wind(wind: SiteWind) -> SiteWind:
    """Give the same site without a factor on wind: nominal, or characteristic.

    Allowable stresses, rotators, footings and everything else below the beams use it.
    """
    return nominal_basis(wind) if isinstance(wind, WindBasis) else replace(wind, factored=False)

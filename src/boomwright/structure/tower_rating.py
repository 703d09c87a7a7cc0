"""A maker's rating, and the site's areas brought to its height, speed, exposure and edition.

A rating without its basis cannot be compared: the answer is then to ask the maker or an
engineer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from boomwright.structure import wording
from boomwright.structure.basis import (
    EDITIONS,
    Edition,
    Exposure,
    NominalSpeed,
    SpeedKind,
    UltimateSpeed,
    WindBasis,
    as_nominal,
    gust_from_fastest_mile,
    ultimate_from_nominal,
)
from boomwright.structure.drag import AreaRule
from boomwright.structure.faults import StructureInputError, require_positive
from boomwright.structure.memory import recalled
from boomwright.structure.wind import (
    elevation_factor,
    exposure_coefficient,
    pressure_from_speed,
)

Averaging = Literal["3 s gust", "fastest mile"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerRating:
    """What the maker of a tower states; anything left out is missing, never assumed.

    Parameters
    ----------
    area
        rated antenna area [m^2]
    area_rule
        convention of that area: ``projected``, ``drag`` or ``flat``
    area_height
        height above ground of that area [m]
    speed
        wind speed of the rating [m/s]
    averaging
        ``3 s gust`` or ``fastest mile``
    kind
        ``ultimate`` or ``nominal``
    exposure
        exposure of the rating
    edition
        edition of the rating
    ice
        radial ice included, 0 when rated without ice [m]
    ice_gust
        3 s gust rated together with that ice [m/s]
    mast_extension
        longest mast above the top bearing [m]
    base_moment
        rated base moment, nominal loads [N m]
    base_shear
        rated base shear, nominal loads [N]
    axial
        rated load straight down [N]
    section_moment
        bending moment its sections may carry, nominal loads [N m]
    section_shear
        shear its sections may carry, nominal loads [N]
    leg_load
        load one leg may carry, nominal loads [N]
    """

    area: float | None = None
    area_rule: AreaRule | None = None
    area_height: float | None = None
    speed: float | None = None
    averaging: Averaging | None = None
    kind: SpeedKind | None = None
    exposure: Exposure | None = None
    edition: Edition | None = None
    ice: float | None = None
    ice_gust: float | None = None
    mast_extension: float | None = None
    base_moment: float | None = None
    base_shear: float | None = None
    axial: float | None = None
    section_moment: float | None = None
    section_shear: float | None = None
    leg_load: float | None = None

    def __post_init__(self) -> None:
        for place, value, unit in (
            ("area", self.area, "m^2"),
            ("area height", self.area_height, "m"),
            ("speed", self.speed, "m/s"),
            ("gust with ice", self.ice_gust, "m/s"),
            ("mast extension", self.mast_extension, "m"),
            ("base moment", self.base_moment, "N m"),
            ("base shear", self.base_shear, "N"),
            ("axial load", self.axial, "N"),
            ("section moment", self.section_moment, "N m"),
            ("section shear", self.section_shear, "N"),
            ("leg load", self.leg_load, "N"),
        ):
            if value is not None:
                require_positive(place=f"tower rating {place}", value=value, unit=unit)
        if self.edition is not None and self.edition not in EDITIONS:
            msg = f"tower rating edition {self.edition!r}: use one of {', '.join(EDITIONS)}"
            raise StructureInputError(msg)

    @property
    def missing(self) -> tuple[str, ...]:
        """Data of the area rating that were not given, in words."""
        needed: tuple[tuple[str, object], ...] = (
            ("the rated area", self.area),
            ("whether that area is projected, drag or flat", self.area_rule),
            ("the height of that area", self.area_height),
            ("its wind speed", self.speed),
            ("whether that speed is a 3 s gust or fastest mile", self.averaging),
            ("whether that speed is ultimate or nominal", self.kind),
            ("its exposure", self.exposure),
            ("its code edition", self.edition),
        )
        return tuple(words for words, value in needed if value is None)


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaAtHeight:
    """A wind area at a height, in the rating's own convention.

    Parameters
    ----------
    area
        area [m^2]
    height
        height above ground [m]
    """

    area: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedArea:
    """Areas of the site brought to the conditions of the rating.

    Parameters
    ----------
    demand
        equivalent area at the rating's height and wind [m^2]
    capacity
        rated area [m^2]
    pressure_ratio
        site pressure over rating pressure at the rating's height [-]
    text
        how the two were brought together
    """

    demand: float
    capacity: float
    pressure_ratio: float
    text: str


def site_speed_as(*, basis: WindBasis, kind: SpeedKind) -> float:
    """The site's gust as the wanted kind; the speed is converted, never a result.

    Returns
    -------
    float
        3 s gust [m/s]
    """
    nominal = as_nominal(basis.speed)
    if kind == "nominal":
        return nominal.gust
    return (
        basis.speed.gust
        if isinstance(basis.speed, UltimateSpeed)
        else ultimate_from_nominal(NominalSpeed(gust=nominal.gust)).gust
    )


def _plain_pressure(
    gust: float, height: float, exposure: Exposure, edition: Edition, basis: WindBasis | None
) -> float:
    rule = EDITIONS[edition]
    thin = basis is not None and rule.elevation
    return pressure_from_speed(
        speed=gust,
        height_coefficient=exposure_coefficient(height=height, exposure=exposure, edition=edition),
        topography=1.0 if basis is None or basis.topography is None else basis.topography,
        elevation=elevation_factor(site_elevation=basis.site_elevation)
        if basis is not None and thin
        else 1.0,
        importance=1.0 if basis is None or not rule.importance else basis.importance,
    )


def rated_area(
    *,
    basis: WindBasis,
    rating: TowerRating,
    areas: Sequence[AreaAtHeight],
    gust: float | None = None,
) -> RatedArea:
    """Bring the areas of the site to the height, speed, exposure and edition of a rating.

    Each area is scaled by the pressure at its own height over the pressure of the rating,
    and by height over rated height when it sits above the rated point (a first screen).

    Parameters
    ----------
    areas
        areas in the rating's convention (n_areas,)
    gust
        another gust at the site, as with ice; None takes the site's own [m/s]

    Returns
    -------
    RatedArea
        demand and capacity [m^2]

    Raises
    ------
    StructureInputError
        when the rating lacks a datum: ask the maker or an engineer
    """
    speed, height, kind = rating.speed, rating.area_height, rating.kind
    exposure, edition, area = rating.exposure, rating.edition, rating.area
    if rating.missing or speed is None or height is None or kind is None or area is None:
        msg = f"ask the maker or an engineer for {', '.join(rating.missing)}"
        raise StructureInputError(msg)
    if exposure is None or edition is None:  # pragma: no cover - part of ``missing``
        msg = "ask the maker or an engineer for exposure and edition"
        raise StructureInputError(msg)
    rated_gust = gust_from_fastest_mile(speed) if rating.averaging == "fastest mile" else speed
    rated = _plain_pressure(rated_gust, height, exposure, edition, None)
    site_gust = site_speed_as(basis=basis, kind=kind) if gust is None else gust
    demand = 0.0
    for each in areas:
        here = _plain_pressure(site_gust, each.height, basis.exposure, basis.edition, basis)
        demand += each.area * here / rated * max(1.0, each.height / height)
    at_rating = _plain_pressure(site_gust, height, basis.exposure, basis.edition, basis)
    return RatedArea(
        demand=demand,
        capacity=area,
        pressure_ratio=at_rating / rated,
        text=(
            f"site {_site_text(basis, kind, site_gust, gust)} exposure {basis.exposure} "
            f"{basis.edition} against rating {kind} {wording.speed(rated_gust)} 3 s gust"
            f"{_rated_text(rating)} exposure {exposure} {edition} at {wording.span(height)}; "
            f"areas {rating.area_rule}; higher areas scaled by height"
        ),
    )


def _site_text(basis: WindBasis, kind: SpeedKind, gust: float, other: float | None) -> str:
    if other is not None:
        return f"gust with ice {wording.speed(gust)}"
    same = kind == basis.kind
    return f"{kind} {wording.speed(gust)}{'' if same else ' (ibc-nominal-speed)'}"


def _rated_text(rating: TowerRating) -> str:
    if rating.averaging != "fastest mile" or rating.speed is None:
        return ""
    mile = wording.speed(rating.speed)
    return f" from {mile} fastest mile ({recalled('ibc-fastest-mile')})"

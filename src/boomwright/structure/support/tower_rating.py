"""A maker's rating, and the site's areas brought to its height, speed, exposure and edition.

A rating without its basis cannot be compared: the answer is then to ask the maker or an
engineer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal, cast

from boomwright.base.quantity import Source, Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure import wording
from boomwright.structure.faults import BasisMixError, StructureInputError, require_each
from boomwright.structure.memory import recalled
from boomwright.structure.weather.basis import (
    EDITIONS,
    Edition,
    Exposure,
    SpeedKind,
    UltimateSpeed,
    WindBasis,
    as_nominal,
    fastest_mile_from_gust,
    gust_from_fastest_mile,
    ultimate_from_nominal,
)
from boomwright.structure.weather.drag import AreaRule
from boomwright.structure.weather.en_wind import TERRAINS, EnWind, Terrain
from boomwright.structure.weather.gust import (
    tia_f_height_coefficient,
    tia_f_ice_speed,
    tia_f_lattice_gust,
)
from boomwright.structure.weather.wind import (
    PRESSURE_CONSTANT,
    SiteWind,
    exposure_coefficient,
    plain_pressure,
    pressure_from_speed,
)

Averaging = Literal["3 s gust", "fastest mile", "10 min mean"]
RatedEdition = Edition | Literal["EN 1991-1-4"]
EN_EDITION = "EN 1991-1-4"


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerRating:
    """What the maker of a tower states; anything left out is missing, never assumed."""

    area: float | None = None  #: rated antenna area [m^2]
    #: convention of that area: ``projected``, ``drag`` or ``flat``
    area_rule: AreaRule | None = None
    area_height: float | None = None  #: height above ground of that area [m]
    speed: float | None = None  #: wind speed of the rating [m/s]
    averaging: Averaging | None = None  #: ``3 s gust``, ``fastest mile`` or ``10 min mean``
    kind: SpeedKind | None = None  #: kind of wind of the rating
    #: exposure of the rating, or terrain category by EN 1991-1-4
    exposure: Exposure | Terrain | None = None
    edition: RatedEdition | None = None  #: edition of the rating
    #: peak pressure of the rating at that height, in place of a speed [Pa]
    pressure: float | None = None
    ice: float | None = None  #: radial ice included, 0 when rated without ice [m]
    ice_gust: float | None = None  #: 3 s gust rated together with that ice [m/s]
    mast_extension: float | None = None  #: longest mast above the top bearing [m]
    base_moment: float | None = None  #: rated base moment, nominal loads [N m]
    base_shear: float | None = None  #: rated base shear, nominal loads [N]
    axial: float | None = None  #: rated load straight down [N]
    #: bending moment its sections may carry, nominal loads [N m]
    section_moment: float | None = None
    section_shear: float | None = None  #: shear its sections may carry, nominal loads [N]
    leg_load: float | None = None  #: load one leg may carry, nominal loads [N]

    def __post_init__(self) -> None:
        require_each(
            "tower rating",
            ("area", self.area, "m^2"),
            ("area height", self.area_height, "m"),
            ("speed", self.speed, "m/s"),
            ("pressure", self.pressure, "Pa"),
            ("gust with ice", self.ice_gust, "m/s"),
            ("mast extension", self.mast_extension, "m"),
            ("base moment", self.base_moment, "N m"),
            ("base shear", self.base_shear, "N"),
            ("axial load", self.axial, "N"),
            ("section moment", self.section_moment, "N m"),
            ("section shear", self.section_shear, "N"),
            ("leg load", self.leg_load, "N"),
        )
        known = (*EDITIONS, EN_EDITION)
        if self.edition is not None and self.edition not in known:
            msg = f"tower rating edition {self.edition!r}: use one of {', '.join(known)}"
            raise StructureInputError(msg)
        self._agree()

    def _agree(self) -> None:
        """Refuse a terrain with an American edition, a 3 s gust with EN 1991-1-4, and the like."""
        if self.edition is None:
            return
        european = self.edition == EN_EDITION
        for what, value, fits in (
            ("exposure", self.exposure, self.exposure in TERRAINS),
            ("averaging", self.averaging, self.averaging == "10 min mean"),
            ("kind", self.kind, self.kind in ("characteristic", "design")),
        ):
            if value is not None and fits != european and self.pressure is None:
                msg = f"tower rating {what} {value!r} does not go with {self.edition}"
                raise StructureInputError(msg)

    @property
    def missing(self) -> tuple[str, ...]:
        """Data of the area rating that were not given, in words."""
        kinds = "ultimate or nominal, or by other codes characteristic or design"
        means = "a 3 s gust, a fastest mile or a 10 min mean"
        needed: dict[str, object] = {
            "the rated area": self.area,
            "whether that area is projected, drag or flat": self.area_rule,
            "the height of that area": self.area_height,
            f"whether its wind is {kinds}": self.kind,
        }
        if self.pressure is None:
            needed |= {
                "its wind speed": self.speed,
                f"whether that speed is {means}": self.averaging,
                "its exposure": self.exposure,
                "its code edition": self.edition,
            }
        return tuple(words for words, value in needed.items() if value is None)

    @property
    def load_kind(self) -> SpeedKind:
        """Kind of wind behind the rated reactions, which have no factor on them."""
        return "characteristic" if self.kind in ("characteristic", "design") else "nominal"

    @property
    def gust_with_ice(self) -> tuple[float | None, Value]:
        """3 s gust rated together with its ice; None when not known [m/s], and a word to it."""
        if self.ice_gust is not None or self.speed is None or self.edition != "TIA-222-F":
            return self.ice_gust, ""
        speed, mile = self.speed, self.averaging == "fastest mile"
        with_ice = tia_f_ice_speed(fastest_mile=speed if mile else fastest_mile_from_gust(speed))
        return gust_from_fastest_mile(with_ice), phrase(
            "; rated with 0.75 of the pressure as TIA-222-F does{source}, {memory}",
            source=Source("tia-222-f-ice"),
            memory=recalled("ibc-fastest-mile"),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaAtHeight:
    """A wind area at a height, in the rating's own convention."""

    area: float  #: area [m^2]
    height: float  #: height above ground [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedArea:
    """Areas of the site brought to the conditions of the rating."""

    demand: float  #: equivalent area at the rating's height and wind [m^2]
    capacity: float  #: rated area [m^2]
    pressure_ratio: float  #: site pressure over rating pressure at the rating's height [-]
    text: Value  #: how the two were brought together


def site_speed_as(*, basis: WindBasis, kind: SpeedKind) -> float:
    """The site's gust as the wanted kind; the speed is converted, never a result [m/s]."""
    speed = basis.speed
    if kind == "nominal":
        return as_nominal(speed).gust
    return (speed if isinstance(speed, UltimateSpeed) else ultimate_from_nominal(speed)).gust


def rated_pressure(*, rating: TowerRating, structure_height: float = 0.0) -> tuple[float, Value]:
    """Wind pressure on the rated area by its own edition [Pa], and what it is from in words (2,).

    Args:
        structure_height: height of the tower, for the gust factor of the fastest-mile edition [m]

    Raises:
        StructureInputError: when the rating lacks a datum, or its data do not go together
    """
    height, speed = rating.area_height, rating.speed
    if rating.missing or height is None:
        raise StructureInputError(f"ask the maker or an engineer for {', '.join(rating.missing)}")
    at = phrase("at {height}", height=wording.span(height))
    if rating.pressure is not None:
        return rating.pressure, phrase(
            "{kind} {pressure} as stated, {at}", kind=rating.kind,
            pressure=wording.pressure(rating.pressure), at=at,
        )  # fmt: skip
    if speed is None or rating.exposure is None:  # pragma: no cover - part of ``missing``
        raise StructureInputError("ask the maker or an engineer for speed and exposure")
    said = wording.speed(speed)
    if rating.edition == EN_EDITION:
        wind = EnWind(basic_speed=speed, terrain=cast(Terrain, rating.exposure))
        words = phrase(
            "{kind} wind, basic speed {said} 10 min mean, terrain {exposure}", kind=rating.kind,
            said=said, exposure=rating.exposure,
        )  # fmt: skip
        return wind.pressure(height), phrase(
            "{words}, {en_edition}, {at}", words=words, en_edition=EN_EDITION, at=at
        )
    if rating.edition == "TIA-222-F":
        mile = speed if rating.averaging == "fastest mile" else fastest_mile_from_gust(speed)
        tall = max(structure_height, height)
        grown, gusty = tia_f_height_coefficient(height=height), tia_f_lattice_gust(height=tall)
        return PRESSURE_CONSTANT * grown * gusty * mile**2, phrase(
            "{kind} {mile} fastest mile{converted}, Kz {grown} and GH {gusty} of "
            "TIA-222-F ({memory}) {at}", kind=rating.kind, mile=wording.speed(mile),
            converted=_converted(rating), grown=f"{grown:.3f}", gusty=f"{gusty:.3f}",
            memory=recalled("tia-222-f"), at=at,
        )  # fmt: skip
    gust = gust_from_fastest_mile(speed) if rating.averaging == "fastest mile" else speed
    exposure, edition = cast(Exposure, rating.exposure), cast(Edition, rating.edition)
    grown = exposure_coefficient(height=height, exposure=exposure, edition=edition)
    return pressure_from_speed(speed=gust, height_coefficient=grown), phrase(
        "{kind} {gust} 3 s gust{converted} exposure {exposure} {edition} {at}",
        kind=rating.kind, gust=wording.speed(gust), converted=_converted(rating),
        exposure=exposure, edition=edition, at=at,
    )  # fmt: skip


def _converted(rating: TowerRating) -> Value:
    """Where a converted speed is from."""
    mile = rating.averaging == "fastest mile"
    if rating.speed is None or mile == (rating.edition == "TIA-222-F"):
        return ""
    speed = wording.speed(rating.speed)
    given = phrase("{speed} {averaging}", speed=speed, averaging=rating.averaging)
    return phrase(" from {given} ({memory})", given=given, memory=recalled("ibc-fastest-mile"))


def rated_area(
    *,
    basis: SiteWind,
    rating: TowerRating,
    areas: Sequence[AreaAtHeight],
    gust: float | None = None,
    structure_height: float = 0.0,
) -> RatedArea:
    """Bring the areas of the site to the height and the wind of a rating [m^2].

    Each area is scaled by the pressure at its own height over the pressure of the rating,
    and by height over rated height when it sits above the rated point (a first screen).

    Args:
        areas: areas in the rating's convention (n_areas,)
        gust: another gust at the site, as with ice; None takes the site's own [m/s]
        structure_height: height of the tower, for the gust factor of the fastest-mile edition [m]

    Raises:
        StructureInputError: when the rating lacks a datum: ask the maker or an engineer
        BasisMixError: when the rating is for wind of another kind than the site's
    """
    rated, words = rated_pressure(rating=rating, structure_height=structure_height)
    height, area = rating.area_height, rating.area
    if height is None or area is None:  # pragma: no cover - ``rated_pressure`` has refused it
        raise StructureInputError(f"ask the maker or an engineer for {', '.join(rating.missing)}")
    here = _site_pressure(basis, rating, gust)
    return RatedArea(
        demand=sum(
            each.area * here(each.height) / rated * max(1.0, each.height / height) for each in areas
        ),
        capacity=area,
        pressure_ratio=here(height) / rated,
        text=phrase(
            "site {site_text} against rating {words}; areas {area_rule}; higher areas "
            "scaled by height", site_text=_site_text(basis, rating, gust), words=words,
            area_rule=rating.area_rule,
        ),
    )  # fmt: skip


def _site_pressure(
    basis: SiteWind, rating: TowerRating, gust: float | None
) -> Callable[[float], float]:
    """The site's pressure as a function of height in m, of the kind of the rating."""
    kind = rating.kind
    american = isinstance(basis, WindBasis)
    if kind is None or american != (kind in ("ultimate", "nominal")):
        raise BasisMixError(
            f"the rating is for {kind} wind and the site's is {basis.kind}: ask its maker for the "
            f"area at a {'nominal' if american else 'characteristic'} pressure"
        )
    if isinstance(basis, WindBasis):
        blowing = site_speed_as(basis=basis, kind=kind) if gust is None else gust
        return lambda height: plain_pressure(blowing, height, basis=basis)
    share = 1.0 if gust is None else (gust / basis.gust) ** 2
    factor = basis.factors.wind if kind == "design" else 1.0
    return lambda height: factor * share * basis.pressure(height)


def _site_text(basis: SiteWind, rating: TowerRating, gust: float | None) -> Value:
    if gust is not None:
        return phrase("gust with ice {gust}", gust=wording.speed(gust))
    if not isinstance(basis, WindBasis):
        return f"{rating.kind} wind"
    kind = rating.kind or basis.kind
    same = "" if kind == basis.kind else Source("ibc-nominal-speed")
    blowing = wording.speed(site_speed_as(basis=basis, kind=kind))
    return phrase(
        "{kind} {blowing}{same} exposure {exposure} {edition}", kind=kind, blowing=blowing,
        same=same, exposure=basis.exposure, edition=basis.edition,
    )  # fmt: skip

"""What a wind speed means: kind, code edition, exposure. Figures without these never compare.

Two kinds of speed are two types: ``UltimateSpeed`` belongs to strength design and
``NominalSpeed`` to allowable stresses and to footings with a factor of 1.5. Wind of other codes
has two kinds of its own: ``characteristic``, with no factor in it, and ``design``, with the
factor on wind in it. None of the four is ever held against a limit of another.
"""

from __future__ import annotations

from math import isfinite, sqrt
from typing import Literal, get_args

from boomwright.base.quantity import Source, Value, cited, phrase
from boomwright.base.records import dataclass, field
from boomwright.structure import wording
from boomwright.structure.faults import BasisMixError, StructureInputError, require_positive
from boomwright.structure.memory import recalled
from boomwright.structure.wording import FOOT, MILE_PER_HOUR

SpeedKind = Literal["ultimate", "nominal", "characteristic", "design"]
Exposure = Literal["B", "C", "D"]
EXPOSURES: tuple[Exposure, ...] = get_args(Exposure)
Edition = Literal[
    "ASCE 7-05", "ASCE 7-10", "ASCE 7-16", "ASCE 7-22", "TIA-222-F", "TIA-222-G", "TIA-222-H"
]

#: nominal over ultimate wind pressure {ibc-nominal-speed, eq. 16-33}
NOMINAL_PRESSURE_SHARE = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class UltimateSpeed:
    """A strength-level 3 s gust, as on maps from 2010 on."""

    gust: float  #: 3 s gust at 10 m in open country [m/s]

    def __post_init__(self) -> None:
        require_positive(place="ultimate wind speed", value=self.gust, unit="m/s")


@dataclass(frozen=True, slots=True, kw_only=True)
class NominalSpeed:
    """A service-level 3 s gust, to be used with allowable stresses."""

    gust: float  #: 3 s gust at 10 m in open country [m/s]

    def __post_init__(self) -> None:
        require_positive(place="nominal wind speed", value=self.gust, unit="m/s")


WindSpeed = UltimateSpeed | NominalSpeed


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureLaw:
    """Power law of the pressure with height for one exposure."""

    exponent: float  #: alpha of the power law [-]
    gradient_height: float  #: height where the ground is no longer felt [m]
    floor: float = 0.0  #: least coefficient [-]


def _laws(
    *pairs: tuple[float, float], least: tuple[float, ...] = (0.0, 0.0, 0.0)
) -> dict[Exposure, ExposureLaw]:
    """Laws for B, C and D, each by its exponent and its gradient height in feet."""
    return {
        name: ExposureLaw(exponent=alpha, gradient_height=feet * FOOT, floor=floor)
        for name, (alpha, feet), floor in zip(EXPOSURES, pairs, least, strict=True)
    }


_OLDER = ((7.0, 1200.0), (9.5, 900.0), (11.5, 700.0))
_PLAIN = _laws(*_OLDER)
# 0.70 printed in a worked sheet, all three as used in an open calculation {tia-222-g-floors}
_FLOORED = _laws(*_OLDER, least=(0.70, 0.85, 1.03))


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionRule:
    """How one edition turns a speed into a pressure."""

    kind: SpeedKind  #: kind of speed on its maps
    coefficient: float = 2.01  #: coefficient at the gradient height, 2.01 or 2.41 [-]
    #: law for B, C and D
    laws: dict[Exposure, ExposureLaw] = field(default_factory=lambda: _PLAIN)
    importance: bool = False  #: whether an importance factor multiplies the pressure
    elevation: bool = False  #: whether thinner air at height above the sea is allowed for
    #: whether directionality multiplies the force and not the pressure
    directionality_in_force: bool = False
    ice_doubled: bool = False  #: whether mapped ice thickness is doubled (50-year maps)


#: editions a site or a maker's rating may name {asce-7-10}, {asce-7-22}, {tia-222-g}. Ice is
#: doubled by {tia-222-g-ice-factor} and {asce-7-ice-doubling}; the rules of {tia-222-h} and the
#: place of directionality in ASCE 7-22 {asce-7-22-directionality} are from memory
EDITIONS: dict[str, EditionRule] = {
    "ASCE 7-05": EditionRule(kind="nominal", importance=True, ice_doubled=True),
    "ASCE 7-10": EditionRule(kind="ultimate", ice_doubled=True),
    "ASCE 7-16": EditionRule(kind="ultimate", elevation=True),
    "ASCE 7-22": EditionRule(
        kind="ultimate",
        coefficient=2.41,
        laws=_laws((7.5, 3280.0), (9.8, 2460.0), (11.5, 1935.0)),
        elevation=True,
        directionality_in_force=True,
    ),
    "TIA-222-F": EditionRule(kind="nominal"),
    "TIA-222-G": EditionRule(kind="nominal", laws=_FLOORED, importance=True, ice_doubled=True),
    "TIA-222-H": EditionRule(kind="ultimate", laws=_FLOORED, elevation=True),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WindBasis:
    """The site's wind with everything a pressure needs."""

    speed: WindSpeed  #: 3 s gust with its kind [m/s]
    edition: Edition  #: code edition behind the speed
    exposure: Exposure  #: B suburb and trees, C open country, D water and coast
    #: factor for hills and bluffs, 1 on flat ground; None when nobody has looked [-]
    topography: float | None = None
    site_elevation: float = 0.0  #: ground above sea level [m]
    importance: float = 1.0  #: importance factor, only for editions that have one [-]
    #: ultimate gust a nominal speed was made from; None when it was given as it is [m/s]
    converted_from: float | None = None
    #: factor on the pressure of a nominal speed that makes it an ultimate one, 1 without [-]
    load_factor: float = 1.0

    def __post_init__(self) -> None:
        if self.edition not in EDITIONS:
            msg = f"wind edition {self.edition!r} is not known: use one of {', '.join(EDITIONS)}"
            raise StructureInputError(msg)
        if self.exposure not in EXPOSURES:
            raise StructureInputError(f"exposure {self.exposure!r} is not known: use B, C or D")
        if self.edition == "TIA-222-F":
            msg = "TIA-222-F is for reading an old rating only: give the site a later edition"
            raise StructureInputError(msg)
        rule = EDITIONS[self.edition]
        if rule.kind == "nominal" and isinstance(self.speed, UltimateSpeed):
            msg = f"{self.edition} maps are nominal, the speed is ultimate: name its own edition"
            raise BasisMixError(msg)
        if self.topography is not None:
            require_positive(place="topographic factor", value=self.topography, unit="-")
        if not (isfinite(self.site_elevation) and -500.0 <= self.site_elevation <= 9000.0):
            msg = f"site elevation is {self.site_elevation} m: give metres above the sea"
            raise StructureInputError(msg)
        require_positive(place="importance factor", value=self.importance, unit="-")
        if self.importance != 1.0 and not rule.importance:
            msg = f"{self.edition} has no importance factor on the pressure: leave it at 1"
            raise StructureInputError(msg)

    @property
    def kind(self) -> SpeedKind:
        """Kind of the wind."""
        return kind_of(self.speed) if self.load_factor == 1.0 else "ultimate"

    @property
    def gust(self) -> float:
        """3 s gust at 10 m in open country [m/s]."""
        return self.speed.gust

    @property
    def ice_edition(self) -> Edition:
        """Edition behind a mapped thickness of ice."""
        return self.edition

    @property
    def text(self) -> Value:
        """The basis in one line, to stand beside every figure."""
        hill = "no topography entered" if self.topography is None else f"Kzt {self.topography:g}"
        edition: Value = self.edition
        if self.edition == "TIA-222-H":
            edition = phrase("{edition} ({memory})", edition=edition, memory=recalled("tia-222-h"))
        factor: Value = ""
        origin: Value = ""
        if self.converted_from is not None:
            speed, source = wording.speed(self.converted_from), Source("ibc-nominal-speed")
            origin = phrase(" from {speed} ultimate{source}", speed=speed, source=source)
        if self.load_factor != 1.0:
            factor = cited(f", wind x {self.load_factor:g}", "tia-222-g-wind-factor")
        return phrase(
            "{kind_of} {gust} 3 s gust{origin}, exposure {exposure}, {edition}, "
            "{hill}, I {importance}{factor}", kind_of=kind_of(self.speed),
            gust=wording.speed(self.speed.gust), origin=origin, exposure=self.exposure,
            edition=edition, hill=hill, importance=f"{self.importance:g}", factor=factor,
        )  # fmt: skip


def kind_of(speed: WindSpeed) -> SpeedKind:
    """Name the kind of a speed."""
    return "ultimate" if isinstance(speed, UltimateSpeed) else "nominal"


def nominal_from_ultimate(speed: UltimateSpeed) -> NominalSpeed:
    """Turn an ultimate speed into the nominal one, V sqrt(0.6) {ibc-nominal-speed, eq. 16-33}."""
    return NominalSpeed(gust=speed.gust * sqrt(NOMINAL_PRESSURE_SHARE))


def ultimate_from_nominal(speed: NominalSpeed) -> UltimateSpeed:
    """Turn a nominal speed into the ultimate one, V / sqrt(0.6) {ibc-nominal-speed, eq. 16-33}."""
    return UltimateSpeed(gust=speed.gust / sqrt(NOMINAL_PRESSURE_SHARE))


def as_nominal(speed: WindSpeed) -> NominalSpeed:
    """Give the nominal speed, converting an ultimate one."""
    return nominal_from_ultimate(speed) if isinstance(speed, UltimateSpeed) else speed


def fastest_mile_from_gust(gust: float) -> float:
    """Turn a 3 s gust into the older fastest-mile speed {ibc-fastest-mile} (from memory) [m/s].

    Args:
        gust: 3 s gust [m/s]
    """
    return max(0.0, (gust / MILE_PER_HOUR - 10.5) / 1.05) * MILE_PER_HOUR


def gust_from_fastest_mile(fastest_mile: float) -> float:
    """Turn a fastest-mile speed into the 3 s gust {ibc-fastest-mile} (from memory) [m/s].

    Args:
        fastest_mile: average speed over the fastest mile of wind [m/s]
    """
    return (1.05 * fastest_mile / MILE_PER_HOUR + 10.5) * MILE_PER_HOUR

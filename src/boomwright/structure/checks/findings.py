"""The working pad of ``check_structure``: site loads, and lines and notices as they come up."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from math import isfinite
from typing import Any, Concatenate, Final, ParamSpec

from boomwright.base import Notice
from boomwright.base.quantity import Value, cited, phrase
from boomwright.base.records import dataclass, field, replace
from boomwright.parts import Material
from boomwright.structure.beam.tubing import (
    DEAD_FACTOR_STRENGTH,
    MetalTube,
    StressLimit,
    allowable_stress,
    factored_strength,
)
from boomwright.structure.checks.margins import Margin, margin, not_checked
from boomwright.structure.faults import StructureInputError
from boomwright.structure.ground.pads import FOOTING_FACTOR
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.memory import recalled
from boomwright.structure.support.columns import TubeStrength, tube_strength
from boomwright.structure.support.guys import GUY_FACTOR
from boomwright.structure.weather.basis import EDITIONS, SpeedKind, UltimateSpeed, WindBasis
from boomwright.structure.weather.en_wind import EnWind
from boomwright.structure.weather.gust import TIA_G_WIND_FACTOR
from boomwright.structure.weather.ice import IceCoat, ice_coat
from boomwright.structure.weather.partial_factors import (
    GUY_MATERIAL_FACTOR,
    PartialFactors,
    design_strength,
    service_strength,
)
from boomwright.structure.weather.stated_wind import StatedWind
from boomwright.structure.weather.wind import (
    SiteWind,
    VelocityPressure,
    service_wind,
    velocity_pressure,
)
from boomwright.structure.wording import stress

NO_WIND: Final = "no wind speed with its kind, edition and exposure is given"
NO_GUST: Final = "the gust that comes with the ice is not given"
#: why a tube is not checked whose yield strength nobody knows
NO_YIELD: Final = phrase(
    "its yield strength is not given (unmarked water pipe: {pipe})", pipe=stress(207e6)
)

_Given = ParamSpec("_Given")


@dataclass(frozen=True, slots=True, kw_only=True)
class Blow:
    """Wind at a height, bare or with ice and the gust that comes with it."""

    pressure: VelocityPressure | None  #: None while not known
    missing: Value  #: why it is not known, or empty
    coat: IceCoat | None = None  #: ice; None in the bare case

    @property
    def force(self) -> float:
        """Pressure to multiply with drag area, 0 while not known [Pa]."""
        return 0.0 if self.pressure is None else self.pressure.for_force

    @property
    def suffix(self) -> str:
        """What stands behind the name of a check."""
        return " in wind" if self.coat is None else ", ice with its wind"


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteLoads:
    """Wind and ice of the site, ready for members and for everything else."""

    member: SiteWind | None  #: wind for elements, booms and mast, of the kind the method needs
    nominal: SiteWind | None  #: wind for rotator, tower, guys and base: nominal, or characteristic
    missing: Value  #: why there is no wind for members, or empty
    kind: SpeedKind  #: kind of wind the method needs
    inputs: StructureInputs  #: what the owner gave

    @property
    def factors(self) -> PartialFactors | None:
        """Partial factors of the site's code; None for an American edition."""
        wind = self.inputs.wind
        return None if wind is None or isinstance(wind, WindBasis) else wind.factors

    @property
    def service_kind(self) -> SpeedKind:
        """Kind of wind for rotator, tower, guys and base."""
        return "nominal" if self.factors is None else "characteristic"

    @property
    def level(self) -> float:
        """Pressure of the member wind over that of the wind below it [-]."""
        if self.member is None or self.nominal is None:
            return 1.0
        return self.member.load_factor * (self.member.gust / self.nominal.gust) ** 2

    @property
    def dead_factor(self) -> float:
        """Load factor on weight beside the wind of this method [-]."""
        if self.factors is not None:
            return self.factors.permanent
        return DEAD_FACTOR_STRENGTH if self.kind == "ultimate" else 1.0

    @property
    def dead_text(self) -> Value:
        """That factor in words, with its source where there is one."""
        factor = self.dead_factor
        if factor == 1.0:
            return "dead load x 1"
        if self.factors is None:
            return cited(f"dead load x {factor:g}", "asce-7-load-factors")
        source = self.factors.source
        return phrase("dead load x {factor} ({source})", factor=f"{factor:g}", source=source)

    @property
    def guy_factor(self) -> tuple[float, Value]:
        """Factor on the breaking strength of guys [-], and what it is in words."""
        if self.factors is None:
            memory = recalled("tia-222-g-guy-factor")
            return GUY_FACTOR, phrase(
                "{guy_factor} ({memory})", guy_factor=f"{GUY_FACTOR:g}", memory=memory
            )
        factor = GUY_MATERIAL_FACTOR * self.factors.wind
        return factor, phrase(
            "{factor} = {guy_material_factor} ({memory}) x {wind} ({source})",
            factor=f"{factor:g}", guy_material_factor=f"{GUY_MATERIAL_FACTOR:g}",
            memory=recalled("en-1993-3-1"), wind=f"{self.factors.wind:g}",
            source=self.factors.source,
        )  # fmt: skip

    @property
    def footing_factor(self) -> tuple[float, Value]:
        """Factor on what tips or pushes a footing [-], and what it is in words."""
        if self.factors is None:
            return FOOTING_FACTOR, f"{FOOTING_FACTOR} with full weight"
        factor, source = self.factors.holding, self.factors.source
        words = "{factor} with full weight ({source}, 0.9 of weight)"
        return factor, phrase(words, factor=f"{factor:.3g}", source=source)

    @property
    def ice_gust(self) -> float | None:
        """Gust that comes with ice [m/s]."""
        return None if self.inputs.ice is None else self.inputs.ice.concurrent_gust

    def pressure(self, *, height: float) -> VelocityPressure | None:
        """Pressure for members; None without wind [Pa]."""
        return self.blow(height=height).pressure

    def ice_pressure(self, *, height: float) -> VelocityPressure | None:
        """Pressure that comes with ice, for members; None without wind or gust [Pa]."""
        return self.blow(height=height, iced=True).pressure

    def nominal_pressure(self, *, height: float) -> VelocityPressure | None:
        """Nominal pressure; None without wind [Pa]."""
        return self.blow(height=height, nominal=True).pressure

    def blow(self, *, height: float, iced: bool = False, nominal: bool = False) -> Blow:
        """Wind at a height.

        Args:
            iced: whether the gust blows that comes with ice, also where there is none
            nominal: True for the wind below the beams, False for that of members
        """
        wind, gust = self.nominal if nominal else self.member, self.ice_gust if iced else None
        pressure = None
        if wind is not None and not (iced and gust is None):
            # Below ground as at the ground.
            pressure = velocity_pressure(basis=wind, height=max(0.0, height), gust=gust)
        if not iced:
            return Blow(pressure=pressure, missing=self.missing)
        coat = self.coat(height=height)
        return Blow(pressure=pressure, missing=self.missing or NO_GUST, coat=coat)

    def blows(self, *, height: float, nominal: bool = False) -> tuple[Blow, ...]:
        """Wind at a height: bare, and with ice where there is any; see ``blow``."""
        bare = self.blow(height=height, nominal=nominal)
        if self.coat(height=height) is None:
            return (bare,)
        return bare, self.blow(height=height, iced=True, nominal=nominal)

    def coat(self, *, height: float) -> IceCoat | None:
        """Ice at a height; None without any, or for a map value without an edition."""
        ice, wind = self.inputs.ice, self.inputs.wind
        if ice is None or ice.thickness == 0.0 or (ice.mapped is not False and wind is None):
            return None
        return ice_coat(
            ice=ice,
            height=max(0.0, height),
            edition="ASCE 7-16" if wind is None else wind.ice_edition,
            topography=1.0 if wind is None or wind.topography is None else wind.topography,
        )

    def alloy_limit(self, material: Material, *, walls: Iterable[float]) -> StressLimit:
        """Stress limit of a metal in tubes of some walls, that of the weakest, for members.

        Args:
            walls: their wall thicknesses [m] (n_walls,)
        """
        return self._rule(below=False)(
            yield_strength=min(material.minimum_yield(wall=wall) for wall in walls),
            steel=is_steel(material),
            ultimate=material.ultimate_strength,
            known=recalled(material.recalled_strength),
        )

    def tube_limit(
        self, tube: MetalTube, *, yield_strength: float, below: bool = False
    ) -> StressLimit:
        """Stress limit of an upright tube.

        Args:
            below: whether it stands below the beams: for the wind that it is solved with
        """
        return self._rule(below=below)(
            yield_strength=yield_strength,
            steel=tube.steel,
            ultimate=tube.ultimate_strength,
            known=tube.yield_known,
        )

    def _rule(self, *, below: bool) -> Callable[..., StressLimit]:
        """What gives a limit of the same kind as the member wind, or as ``nominal`` below."""
        if self.factors is not None:
            return partial(service_strength, factors=self.factors) if below else design_strength
        return factored_strength if self.kind == "ultimate" and not below else allowable_stress

    def column(
        self, tube: MetalTube, *, column_length: float, yield_strength: float, below: bool = False
    ) -> TubeStrength:
        """Strength of a tube in compression, by the method of the member wind.

        Args:
            below: whether it stands below the beams: for the wind that it is solved with
            column_length: length times length factor [m]
        """
        kind = self.kind if self.factors is None else "design"
        return tube_strength(
            shape=tube.shape,
            column_length=column_length,
            yield_strength=yield_strength,
            elastic_modulus=tube.elastic_modulus,
            steel=tube.steel,
            kind=self.service_kind if below else kind,
            wind_factor=self.factors.wind if below and self.factors is not None else 1.0,
        )


def _adding(write: Callable[_Given, Margin]) -> Callable[Concatenate[Findings, _Given], None]:
    """Let findings write a line and add it."""

    def add(self: Findings, /, *given: _Given.args, **named: _Given.kwargs) -> None:
        self.add(write(*given, **named))

    return add


@dataclass(slots=True)
class Findings:
    """Lines and notices gathered on the way."""

    lines: list[Margin] = field(default_factory=list)  #: ledger lines in the order they came
    notices: list[Notice] = field(default_factory=list)  #: notices in the order they came
    whom: str = ""  #: who can settle what is being checked just now, or empty

    hold = _adding(margin)

    def add(self, line: Margin) -> None:
        """Add a ledger line."""
        self.lines.append(replace(line, whom=self.whom) if self.whom else line)

    def skip(self, name: Value, reason: Value, change: Value = "") -> None:
        """Add a line for something that could not be checked."""
        self.add(not_checked(name=name, reason=reason, change=change))

    @contextmanager
    def asked_of(self, whom: str) -> Iterator[None]:
        """Let somebody settle whatever is checked inside.

        Args:
            whom: such as ``maker of the rotator``
        """
        before, self.whom = self.whom, whom
        try:
            yield
        finally:
            self.whom = before

    def note(self, code: str, text: Value, **more: Any) -> None:
        """Add a notice, with whatever else it has.

        Args:
            code: stable name, without the room
        """
        self.notices.append(Notice(code=f"structure.{code}", text=text, **more))

    def doubt(self, code: str, text: Value, **more: Any) -> None:
        """Add a doubt; see ``note``."""
        self.note(code, text, severity="doubt", **more)


def is_steel(material: Material) -> bool:
    """Tell steel from aluminium by stiffness; True above 150 GPa."""
    return material.elastic_modulus > 150e9


def _top(inputs: StructureInputs) -> float:
    heights = [each.beam.height for each in inputs.beams]
    heights += [] if inputs.mast is None else [inputs.mast.top_height]
    heights += [each.height for each in (inputs.tower, inputs.tube) if each is not None]
    return max((height for height in heights if isfinite(height)), default=0.0)


def site_loads(*, inputs: StructureInputs) -> SiteLoads:
    """Sort the owner's wind into what members and the rest may use."""
    wind = inputs.wind
    kind: SpeedKind = "ultimate" if inputs.method == "strength" else "nominal"
    loads = SiteLoads(member=None, nominal=None, missing=NO_WIND, kind=kind, inputs=inputs)
    if wind is None:
        return loads
    if not isinstance(wind, WindBasis):
        return _factored_loads(wind, loads)
    nominal = service_wind(wind)
    loads = replace(loads, nominal=nominal, missing="")
    if kind == "nominal":
        return replace(loads, member=nominal)
    if isinstance(wind.speed, UltimateSpeed):
        return replace(loads, member=wind)
    if wind.edition == "TIA-222-G":
        return replace(loads, member=replace(wind, load_factor=TIA_G_WIND_FACTOR))
    maps = EDITIONS[wind.edition].kind
    missing = (
        f"strength design needs an ultimate speed and the one given is nominal "
        f"({wind.edition}, {maps} maps): give an ultimate speed or use allowable stresses"
    )
    return replace(loads, missing=missing)


def _factored_loads(wind: EnWind | StatedWind, loads: SiteLoads) -> SiteLoads:
    try:
        wind.pressure(max(0.0, _top(loads.inputs)))
    except StructureInputError as error:
        return replace(loads, missing=error.said, kind="design")
    factored = replace(wind, factored=True)
    return replace(loads, member=factored, nominal=service_wind(wind), missing="", kind="design")

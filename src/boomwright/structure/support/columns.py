"""Round tubes in compression: column strength, bending beside it, and what braces them.

Steel by chapters E, F8, H and appendices 6 and 8 of the specification {aisc-360-22}, and by other
codes with curve c of {en-1993-1-1}; aluminium of the artificially aged tempers by the 2020 manual,
its buckling constants from memory {aluminum-columns}. Euler's load alone would flatter every
column below the change of branch.
"""

from __future__ import annotations

from math import inf, pi, sqrt
from typing import Final

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure.beam.tubing import (
    ALUMINIUM_YIELD_FACTOR,
    KSI,
    RESISTANCE_FACTOR,
    STEEL_YIELD_FACTOR,
    TubeShape,
)
from boomwright.structure.faults import StructureInputError
from boomwright.structure.memory import recalled
from boomwright.structure.weather.basis import SpeedKind
from boomwright.structure.weather.partial_factors import ALUMINIUM_FACTOR, STEEL_FACTOR

#: times the axial load at which moments are grown for allowable stresses {aisc-360-22, app. 8}
AMPLIFIED_AT: Final = 1.6
#: share of the bending stiffness that counts while they are grown {aisc-360-22, C2.3}
STIFFNESS_SHARE: Final = 0.8
#: recommended length factor of a column free at its top {aisc-360-22, commentary table C-A-7.1}
FREE_TOP: Final = 2.1
#: slenderness a column should not pass {aisc-360-22, E2 note}
MOST_SLENDER: Final = 200.0
#: share of a column's load that a brace must hold, and times load over length that its stiffness
#: must reach for allowable design {aisc-360-22, app. 6.2}
BRACE_SHARE: Final = 0.01
BRACE_STIFFNESS: Final = 16.0

#: imperfection of cold-formed hollow sections, curve c {en-1993-1-1, tables 6.1 and 6.2}
COLD_FORMED: Final = 0.49
#: diameter over wall, times yield over 235 MPa, up to which a tube bends plastically, and up to
#: which all of it works {en-1993-1-1, table 5.2}
_PLASTIC_WALL, _WORKING_WALL = 70.0, 90.0
#: nothing but carbon steel has this modulus; stainless steel has columns of its own [Pa]
_CARBON_STEEL: Final = 195e9
#: nothing stiffer than this is aluminium [Pa]
_ALUMINIUM: Final = 100e9
#: yield in shear over yield in tension {aisc-360-22, G5}
_SHEAR: Final = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeStrength:
    """What a round tube may carry, each alone."""

    axial: float  #: force down it [N]
    moment: float  #: bending moment [N m]
    torque: float  #: twisting moment [N m]
    slenderness: float  #: column length over radius of gyration [-]
    plain: bool  #: whether the shares of axial load and bending are added as they are
    kind: SpeedKind  #: kind of wind it belongs to
    rule: Value  #: how it was found, in words

    def used(self, *, axial: float, moment: float, torque: float = 0.0) -> float:
        """Share of the strength that forces use together, 1 at the limit [-].

        Steel by {aisc-360-22, eq. H1-1}, and H3-6 where torsion is past a fifth of its own limit;
        aluminium by {aluminum-columns, H.3}, and so by other codes: moments are grown already.

        Args:
            axial: force down it [N]
            moment: bending moment, grown by that force [N m]
            torque: twisting moment [N m]
        """
        push, bend, twist = axial / self.axial, moment / self.moment, torque / self.torque
        if self.plain or twist > 0.2:
            return push + bend + twist**2
        if push >= 0.2:
            return push + 8.0 / 9.0 * bend
        return push / 2.0 + bend


def elastic_stress(*, elastic_modulus: float, slenderness: float) -> float:
    """Euler's stress of a column [Pa].

    Args:
        slenderness: column length over radius of gyration [-]
    """
    return pi**2 * elastic_modulus / slenderness**2


def steel_column_stress(
    *, yield_strength: float, elastic_modulus: float, slenderness: float
) -> float:
    """Nominal column stress of steel {aisc-360-22, E3} [Pa].

    Args:
        slenderness: column length over radius of gyration [-]
    """
    euler = elastic_stress(elastic_modulus=elastic_modulus, slenderness=slenderness)
    if slenderness <= 4.71 * sqrt(elastic_modulus / yield_strength):
        return float(0.658 ** (yield_strength / euler)) * yield_strength
    return 0.877 * euler


def working_area_share(
    *, slenderness: float, yield_strength: float, elastic_modulus: float
) -> float:
    """Share of its area that a wall of steel brings to a column, up to 1 {aisc-360-22, E7.2} [-].

    Args:
        slenderness: diameter over wall [-]

    Raises:
        StructureInputError: past the range of the rule
    """
    given = elastic_modulus / yield_strength
    if slenderness <= 0.11 * given:
        return 1.0
    if slenderness > 0.45 * given:
        raise StructureInputError(_too_thin(slenderness))
    return 0.038 * given / slenderness + 2.0 / 3.0


def steel_moment(*, shape: TubeShape, yield_strength: float, elastic_modulus: float) -> float:
    """Nominal bending strength of a round tube of steel {aisc-360-22, F8} [N m]."""
    given = elastic_modulus / yield_strength
    if shape.slenderness <= 0.07 * given:
        return yield_strength * shape.plastic_modulus
    if shape.slenderness <= 0.31 * given:
        return (0.021 * elastic_modulus / shape.slenderness + yield_strength) * shape.modulus
    return 0.33 * elastic_modulus / shape.slenderness * shape.modulus


def steel_torsion_stress(
    *, shape: TubeShape, length: float, yield_strength: float, elastic_modulus: float
) -> float:
    """Nominal shear stress of a twisted round tube of steel {aisc-360-22, H3.1} [Pa].

    Args:
        length: length of the tube [m]
    """
    thin, most = shape.slenderness, _SHEAR * yield_strength
    long = 1.23 * elastic_modulus / (sqrt(length / shape.diameter) * float(thin**1.25))
    return min(most, max(long, 0.60 * elastic_modulus / float(thin**1.5)))


@dataclass(frozen=True, slots=True, kw_only=True)
class AluminiumColumn:
    """Buckling constants of aged aluminium, T5 to T9 {aluminum-columns, table B.4.2}."""

    yield_strength: float  #: compressive yield [Pa]
    elastic_modulus: float  #: Young's modulus [Pa]

    @property
    def intercept(self) -> float:
        """Bc, where the straight line starts [Pa]."""
        return self.yield_strength * (1.0 + sqrt(self.yield_strength / (2250.0 * KSI)))

    @property
    def slope(self) -> float:
        """Dc, its fall for each unit of slenderness [Pa]."""
        return self.intercept / 10.0 * sqrt(self.intercept / self.elastic_modulus)

    @property
    def limit(self) -> float:
        """Cc, the slenderness where it ends [-]."""
        return 0.41 * self.intercept / self.slope

    @property
    def short(self) -> float:
        """Slenderness up to which the column yields [-]."""
        return (self.intercept - self.yield_strength) / self.slope

    def stress(self, *, slenderness: float) -> float:
        """Nominal column stress {aluminum-columns, E.2} [Pa].

        Args:
            slenderness: column length over radius of gyration [-]
        """
        if slenderness <= self.short:
            return self.yield_strength
        if slenderness >= self.limit:
            return 0.85 * elastic_stress(
                elastic_modulus=self.elastic_modulus, slenderness=slenderness
            )
        left = (self.limit - slenderness) / (self.limit - self.short)
        return (self.intercept - self.slope * slenderness) * (0.85 + 0.15 * left)

    def wall_stress(self, *, slenderness: float) -> float:
        """Nominal stress at which a round wall buckles, or yields {aluminum-columns, B.5.4.5} [Pa].

        Args:
            slenderness: diameter over wall [-]

        Raises:
            StructureInputError: when the wall buckles elastically below yield: then it weakens
                the column too
        """
        radius = (slenderness - 1.0) / 2.0
        start = self.yield_strength * (1.0 + float((self.yield_strength / KSI) ** 0.2) / 8.7)
        fall = start / 4.5 * float((start / self.elastic_modulus) ** (1.0 / 3.0))
        elastic = pi**2 * self.elastic_modulus / (16.0 * radius * (1.0 + sqrt(radius) / 35.0) ** 2)
        if elastic < self.yield_strength:
            raise StructureInputError(_too_thin(slenderness))
        return min(self.yield_strength, start - fall * sqrt(radius))


def european_column_share(
    *,
    yield_strength: float,
    elastic_modulus: float,
    slenderness: float,
    imperfection: float = COLD_FORMED,
) -> float:
    """Share of its yield that a column of steel bears {en-1993-1-1, sec. 6.3.1.2} [-].

    Args:
        slenderness: column length over radius of gyration [-]
        imperfection: 0.49 for cold-formed tubes (curve c), 0.21 for hot-finished ones (curve a) [-]
    """
    euler = elastic_stress(elastic_modulus=elastic_modulus, slenderness=slenderness)
    ratio = sqrt(yield_strength / euler)
    middle = 0.5 * (1.0 + imperfection * (ratio - 0.2) + ratio**2)
    return min(1.0, 1.0 / (middle + sqrt(max(0.0, middle**2 - ratio**2))))


def _too_thin(slenderness: float) -> str:
    ratio = f"diameter over wall {slenderness:.0f}"
    return f"its wall is too thin for any rule here ({ratio}): ask an engineer"


def tube_strength(
    *,
    shape: TubeShape,
    column_length: float,
    yield_strength: float,
    elastic_modulus: float,
    steel: bool,
    kind: SpeedKind = "nominal",
    wind_factor: float = 1.0,
) -> TubeStrength:
    """Strength of a round tube for the wind it is held against.

    Allowable for nominal wind and factored for ultimate wind; for design wind over the factor of
    the material, and for characteristic wind over that on wind too.

    Args:
        column_length: length times length factor [m]
        wind_factor: factor on wind that its characteristic value does not have in it [-]

    Raises:
        StructureInputError: when no rule here holds for the wall or the metal
    """
    if steel and elastic_modulus < _CARBON_STEEL:
        raise StructureInputError("stainless steel has column rules of its own: ask an engineer")
    if not steel and elastic_modulus > _ALUMINIUM:
        raise StructureInputError("no column rule is known here for this metal: ask an engineer")
    slender = column_length / sqrt(shape.second_moment / shape.area)
    european = kind in ("design", "characteristic")
    given = {"yield_strength": yield_strength, "elastic_modulus": elastic_modulus}
    if not steel:
        stress, bent, twisted, rule = _aluminium(shape, slender, **given)
    elif european:
        stress, bent, twisted, rule = _european_steel(shape, slender, **given)
    else:
        stress, bent, twisted, rule = _american_steel(shape, slender, column_length, **given)
    share, told = _factor(kind, steel, wind_factor)
    return TubeStrength(
        axial=share * stress * shape.area,
        moment=share * bent,
        torque=share * twisted * shape.torsion_modulus,
        slenderness=slender,
        plain=european or not steel,
        kind=kind,
        rule=phrase(
            "{rule}, slenderness {slender}, column stress {stress} {told}", rule=rule,
            slender=f"{slender:.0f}", stress=Quantity(stress, "tube stress"), told=told,
        ),
    )  # fmt: skip


def _factor(kind: SpeedKind, steel: bool, wind_factor: float) -> tuple[float, Value]:
    """What the strength is taken times, and how it is said."""
    if kind == "ultimate":
        return RESISTANCE_FACTOR, f"x {RESISTANCE_FACTOR:g}"
    if kind == "nominal":
        allowed = STEEL_YIELD_FACTOR if steel else ALUMINIUM_YIELD_FACTOR
        return 1.0 / allowed, f"/ {allowed:g}"
    material = STEEL_FACTOR if steel else ALUMINIUM_FACTOR
    over = "" if kind == "design" else f" and the factor on wind {wind_factor:g}"
    return 1.0 / (material * wind_factor), phrase(
        "/ {material}{over}", material=f"{material:g}", over=over
    )


def _american_steel(
    shape: TubeShape, slender: float, length: float, **given: float
) -> tuple[float, float, float, Value]:
    """Stress of the column on all its area, moment, and shear stress of torsion."""
    thin = working_area_share(slenderness=shape.slenderness, **given)
    return (
        thin * steel_column_stress(slenderness=slender, **given),
        steel_moment(shape=shape, **given),
        steel_torsion_stress(shape=shape, length=length, **given),
        "AISC 360-22",
    )


def _european_steel(
    shape: TubeShape, slender: float, **given: float
) -> tuple[float, float, float, Value]:
    yields = given["yield_strength"]
    wall = shape.slenderness * yields / 235e6
    if wall > _WORKING_WALL:
        raise StructureInputError(_too_thin(shape.slenderness))
    plastic = shape.plastic_modulus if wall <= _PLASTIC_WALL else shape.modulus
    return (
        yields * european_column_share(slenderness=slender, **given),
        yields * plastic,
        yields / sqrt(3.0),
        "EN 1993-1-1, curve c",
    )


def _aluminium(
    shape: TubeShape, slender: float, **given: float
) -> tuple[float, float, float, Value]:
    alloy, yields = AluminiumColumn(**given), given["yield_strength"]
    wall = alloy.wall_stress(slenderness=shape.slenderness)
    bent = min(yields * shape.plastic_modulus, 1.5 * yields * shape.modulus)
    return (
        min(wall, alloy.stress(slenderness=slender)),
        bent if wall >= yields else wall * shape.modulus,
        _SHEAR * yields,
        phrase("aluminium manual of 2020 ({memory})", memory=recalled("aluminum-columns")),
    )


def wall_text(share: float) -> Value:
    """Say that only a part of the nominal wall counts, to stand behind a rule, or nothing.

    Args:
        share: share of the nominal wall that counts [-]
    """
    return "" if share == 1.0 else f"; {share:g} of the nominal wall counts (AISC 360-22, B4.2)"


def amplification(*, axial: float, critical: float, share: float = AMPLIFIED_AT) -> float:
    """Growth of a moment by axial load, 1 / (1 - a P / Pe) {aisc-360-22, eq. A-8-3} [-].

    Args:
        axial: axial load, or any measure of it [N]
        critical: Euler load in the same measure [N]
        share: times the axial load that counts, 1.6 for allowable stresses and 1 for strength [-]
    """
    return inf if share * axial >= critical else 1.0 / (1.0 - share * axial / critical)


def brace_force(*, axial: float) -> float:
    """Force on top of the wind's that makes a point hold a column {aisc-360-22, app. 6.2} [N].

    Args:
        axial: force down the column [N]
    """
    return BRACE_SHARE * axial


def brace_stiffness(*, axial: float, length: float) -> float:
    """Stiffness that such a point needs, allowable design {aisc-360-22, app. 6.2} [N/m].

    Args:
        axial: force down the column [N]
        length: from that point to the next that holds [m]
    """
    return BRACE_STIFFNESS * axial / length

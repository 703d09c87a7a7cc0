"""Safety by partial factors: loads with factors on them against strengths with factors on them.

This is the concept of EN 1990, and of wind pressures that an engineer gives. Elements, booms and
mast see the design wind, G x weight and W x wind, against strength / M. What stands below them is
solved with characteristic wind, so both factors stand on its strength: strength / (W x M), which
lies on the safe side of the design wind as W is never less than G.
"""

from __future__ import annotations

from boomwright.base.quantity import Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure.beam.tubing import StressLimit
from boomwright.structure.faults import StructureInputError, require_positive
from boomwright.structure.memory import recalled
from boomwright.structure.weather.basis import Edition, SpeedKind
from boomwright.structure.wording import stress

#: factor on weight and on wind, recommended {en-1990, table A1.2(B)}
PERMANENT_FACTOR = 1.35
WIND_FACTOR = 1.5
#: factor on weight that holds a footing down {en-1990, table A1.2(A)}
HOLDING_FACTOR = 0.9
#: factors on weight and on wind of towers and masts by their class {en-1993-3-1, table A.2}
CLASS_FACTORS: dict[int, tuple[float, float]] = {1: (1.0, 1.2), 2: (1.1, 1.4), 3: (1.2, 1.6)}
#: factor on the breaking strength of guys {en-1993-3-1, sec. 6.1}
GUY_MATERIAL_FACTOR = 2.0
#: factor on the yield of steel in sections and members {en-1993-1-1, sec. 6.1}
STEEL_FACTOR = 1.0
#: factors on yield and on rupture of aluminium {en-1999-1-1, sec. 6.1.3}
ALUMINIUM_FACTOR = 1.1
ALUMINIUM_RUPTURE = 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class PartialFactors:
    """Factors on loads."""

    permanent: float = PERMANENT_FACTOR  #: factor on weight that adds to the load [-]
    wind: float = WIND_FACTOR  #: factor on wind and on the ice that comes with it [-]
    source: Value = "EN 1990"  #: where they are from, in words

    def __post_init__(self) -> None:
        require_positive(place="factor on wind", value=self.wind, unit="-")
        if not self.wind >= 1.0:
            msg = f"the factor on wind is {self.wind}: give 1 or more, 1.5 is that of EN 1990"
            raise StructureInputError(msg)

    @property
    def holding(self) -> float:
        """Factor on the wind that tips a footing, over that on the weight that holds it [-]."""
        return self.wind / HOLDING_FACTOR


#: the factors of the code itself, with no class and nothing entered
EN_1990 = PartialFactors()


@dataclass(frozen=True, slots=True, kw_only=True)
class FactoredWind:
    """Wind to which partial factors belong."""

    factors: PartialFactors = EN_1990  #: factors on weight and wind
    factored: bool = False  #: whether its pressure has the factor on wind in it

    @property
    def kind(self) -> SpeedKind:
        """``design`` with the factor on wind in it, else ``characteristic``."""
        return "design" if self.factored else "characteristic"

    @property
    def load_factor(self) -> float:
        """Factor on wind that stands in the pressure [-]."""
        return self.factors.wind if self.factored else 1.0

    @property
    def factor_text(self) -> Value:
        """That factor, to stand behind the basis; empty while its pressure has none in it."""
        if not self.factored:
            return ""
        factor, source = f"{self.factors.wind:g}", self.factors.source
        return phrase(", wind x {wind} ({source})", wind=factor, source=source)

    @property
    def ice_edition(self) -> Edition:
        """Edition whose growth of mapped ice with height is taken; none doubles."""
        return "ASCE 7-16"


def partial_factors(
    *, reliability_class: int | None = None, wind_factor: float | None = None
) -> PartialFactors:
    """Pick the factors: those of EN 1990, of a class of masts, or with the owner's on wind.

    Args:
        reliability_class: 1, 2 or 3 of a tower or mast; None takes EN 1990 as it is
        wind_factor: factor on wind that a national annex or an engineer gives; None takes the
            code's [-]
    """
    if reliability_class is None:
        found = EN_1990
    elif reliability_class in CLASS_FACTORS:
        permanent, wind = CLASS_FACTORS[reliability_class]
        source = phrase(
            "EN 1993-3-1 class {reliability_class}, {memory}",
            reliability_class=reliability_class,
            memory=recalled("en-1993-3-1"),
        )
        found = PartialFactors(permanent=permanent, wind=wind, source=source)
    else:
        msg = f"reliability class {reliability_class} is not known: use 1, 2 or 3"
        raise StructureInputError(msg)
    if wind_factor is None:
        return found
    # The factor on strength below takes that on wind for weight too, so it must not be less.
    return PartialFactors(
        permanent=min(found.permanent, wind_factor), wind=wind_factor, source="on wind as entered"
    )


def design_strength(
    *, yield_strength: float, steel: bool, ultimate: float = 0.0, known: Value = ""
) -> StressLimit:
    """Strength of a section against the design wind {en-1993-1-1}, {en-1999-1-1} [Pa].

    Args:
        yield_strength: minimum yield, 0.2 % proof of aluminium [Pa]
        ultimate: minimum rupture strength, 0 when unknown; used for aluminium only [Pa]
    """
    memory = phrase("({memory})", memory=recalled("en-1999-1-1"))
    rows: list[tuple[str, float, float, Value]] = [
        ("yield", yield_strength, ALUMINIUM_FACTOR, memory)
    ]
    if steel:
        rows = [("yield", yield_strength, STEEL_FACTOR, "(EN 1993-1-1)")]
    elif ultimate > 0.0:
        rows.append(("rupture", ultimate, ALUMINIUM_RUPTURE, memory))
    which, strength, factor, code = min(rows, key=lambda row: row[1] / row[2])
    # Of an alloy, only its rupture can be known from memory: every yield is published.
    told = known and (steel or which == "rupture")
    return StressLimit(
        value=strength / factor,
        kind="design",
        rule=phrase(
            "{which} {strength}{said} / {factor} {code}", which=which, strength=stress(strength),
            said=phrase(" ({known})", known=known) if told else "", factor=f"{factor:g}",
            code=code,
        ),
    )  # fmt: skip


def service_strength(
    *,
    factors: PartialFactors,
    yield_strength: float,
    steel: bool,
    ultimate: float = 0.0,
    known: Value = "",
) -> StressLimit:
    """Strength of a section against characteristic wind: that of the design wind over W [Pa].

    Args:
        yield_strength: minimum yield, 0.2 % proof of aluminium [Pa]
        ultimate: minimum rupture strength, 0 when unknown; used for aluminium only [Pa]
    """
    design = design_strength(
        yield_strength=yield_strength, steel=steel, ultimate=ultimate, known=known
    )
    return StressLimit(
        value=design.value / factors.wind,
        kind="characteristic",
        rule=phrase(
            "{rule}, over the factor on wind {wind} ({source})", rule=design.rule,
            wind=f"{factors.wind:g}", source=factors.source,
        ),
    )  # fmt: skip

"""Round tubes as sections: area, second moment, modulus, and the stress they may carry."""

from __future__ import annotations

from math import asin, cos, pi, sin, sqrt

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure.memory import recalled
from boomwright.structure.weather.basis import SpeedKind
from boomwright.structure.wording import stress

#: factors on yield and rupture of aluminium {aluminum-design-manual}
ALUMINIUM_YIELD_FACTOR = 1.65
ALUMINIUM_RUPTURE_FACTOR = 1.95
#: factor on yield of steel in bending {aisc-360} (from memory)
STEEL_YIELD_FACTOR = 1.67
#: resistance factor for yield in strength design {aisc-360} (from memory)
RESISTANCE_FACTOR = 0.90
#: resistance factor for rupture of aluminium {adm-resistance-factors} (from memory)
RUPTURE_RESISTANCE = 0.75
#: dead load factor beside ultimate wind {asce-7-load-factors, sec. 2.3}
DEAD_FACTOR_STRENGTH = 1.2
#: pascal in 1000 lb/in2 {nist-sp-811}
KSI = 6.894757293168361e6
#: diameter over wall where thin tubes are flagged for local buckling (common practice)
SLENDER_TUBE = 45.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeShape:
    """A round tube, or a solid rod when the wall is half the diameter."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]

    @property
    def bore(self) -> float:
        """Inner diameter [m]."""
        return max(0.0, self.diameter - 2.0 * self.wall)

    @property
    def area(self) -> float:
        """Cross section of metal [m^2]."""
        return pi / 4.0 * (self.diameter**2 - self.bore**2)

    @property
    def second_moment(self) -> float:
        """Second moment of area about a diameter [m^4]."""
        return pi / 64.0 * (self.diameter**4 - self.bore**4)

    @property
    def modulus(self) -> float:
        """Elastic section modulus [m^3]."""
        return 2.0 * self.second_moment / self.diameter

    @property
    def plastic_modulus(self) -> float:
        """Plastic section modulus [m^3]."""
        return (self.diameter**3 - self.bore**3) / 6.0

    @property
    def torsion_modulus(self) -> float:
        """Torsional section modulus, twice the elastic one [m^3]."""
        return 2.0 * self.modulus

    @property
    def slenderness(self) -> float:
        """Diameter over wall [-]."""
        return self.diameter / self.wall

    def net_modulus(self, *, hole: float) -> float:
        """Elastic modulus left by a hole through both stressed walls, never below zero [m^3].

        Args:
            hole: diameter of the hole [m]
        """
        middle = (self.diameter - self.wall) / 2.0
        # Second moment of the two strips of wall, as wide as the hole, where bending pulls most.
        turn = asin(min(1.0, hole / (2.0 * middle)))
        lost = 2.0 * self.wall * middle**3 * (turn + sin(turn) * cos(turn))
        return max(0.0, 2.0 * (self.second_moment - lost) / self.diameter)


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalTube:
    """A tube that stands upright, and its metal."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    yield_strength: float | None = None  #: minimum yield; None when unknown [Pa]
    #: minimum rupture strength, used for aluminium; 0 when unknown [Pa]
    ultimate_strength: float = 0.0
    yield_known: Value = ""  #: how that yield is known, in words; empty when published or entered
    steel: bool = True  #: True for steel, False for aluminium
    elastic_modulus: float = 200e9  #: Young's modulus [Pa]
    density: float = 7850.0  #: mass density [kg/m^3]
    wall_share: float = 1.0  #: share of the nominal wall that counts for strength [-]

    @property
    def stiffness(self) -> float:
        """Bending stiffness EI [N m^2]."""
        return self.elastic_modulus * self.shape.second_moment

    @property
    def shape(self) -> TubeShape:
        """Cross section as it counts for strength."""
        return TubeShape(diameter=self.diameter, wall=self.wall_share * self.wall)

    @property
    def weight_per_length(self) -> float:
        """Weight of a metre, of the whole wall [N/m]."""
        metal = TubeShape(diameter=self.diameter, wall=self.wall).area
        return metal * self.density * STANDARD_GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class StressLimit:
    """A stress with the kind of wind it may be held against."""

    value: float  #: stress [Pa]
    kind: SpeedKind  #: kind of wind it belongs to
    rule: Value  #: how it was found, in words


def allowable_stress(
    *, yield_strength: float, steel: bool, ultimate: float = 0.0, known: Value = ""
) -> StressLimit:
    """Allowable stress of any tube, for nominal wind {aluminum-design-manual}, {aisc-360} [Pa].

    Args:
        ultimate: minimum rupture strength, 0 when unknown; used for aluminium only [Pa]
        known: how the strength itself is known, in words; empty when published or entered
    """
    return _lowest("nominal", steel, known, {"yield": yield_strength, "rupture": ultimate})


def factored_strength(
    *, yield_strength: float, steel: bool, ultimate: float = 0.0, known: Value = ""
) -> StressLimit:
    """Factored strength of a tube, for ultimate wind {adm-resistance-factors}, {aisc-360} [Pa].

    Args:
        ultimate: minimum rupture strength, 0 when unknown; used for aluminium only [Pa]
    """
    return _lowest("ultimate", steel, known, {"yield": yield_strength, "rupture": ultimate})


_TIMES = "{by} x {strength} ({memory})"
#: by kind of wind and by metal (True for steel): which strength, its factor, the words for it, and
#: what of it is from memory. Rupture governs 6061-T6 and 6005A-T61; that of steel tube never does
#: in bending.
_SHARES: dict[tuple[SpeedKind, bool], tuple[tuple[str, float, str, str], ...]] = {
    ("nominal", True): (("yield", STEEL_YIELD_FACTOR, "{strength} / {by} ({memory})", "aisc-360"),),
    ("nominal", False): (
        ("yield", ALUMINIUM_YIELD_FACTOR, "{strength} / {by}", ""),
        ("rupture", ALUMINIUM_RUPTURE_FACTOR, "{strength} / {by}", ""),
    ),
    ("ultimate", True): (("yield", RESISTANCE_FACTOR, _TIMES, "aisc-360"),),
    ("ultimate", False): (
        ("yield", RESISTANCE_FACTOR, _TIMES, "adm-resistance-factors"),
        ("rupture", RUPTURE_RESISTANCE, _TIMES, "adm-resistance-factors"),
    ),
}


def _lowest(kind: SpeedKind, steel: bool, known: Value, strengths: dict[str, float]) -> StressLimit:
    which, share, by, words, key = min(
        (
            (which, 1.0 / by if kind == "nominal" else by, by, words, key)
            for which, by, words, key in _SHARES[kind, steel]
            if which == "yield" or strengths[which] > 0.0
        ),
        key=lambda row: row[1] * strengths[row[0]],
    )
    named = phrase("{which} {stress}", which=which, stress=stress(strengths[which]))
    # Of an alloy, only its rupture can be known from memory: every yield is published.
    if known and (steel or which == "rupture"):
        named = phrase("{strength} ({known})", strength=named, known=known)
    memory = recalled(key) if key else ""
    return StressLimit(
        value=share * strengths[which],
        kind=kind,
        rule=phrase(words, strength=named, by=str(by), memory=memory),
    )


def combined_stress(*, normal: float, shear: float) -> float:
    """Bending and torsion together, sqrt(s^2 + 3 tau^2) [Pa].

    Args:
        normal: stress along the tube [Pa]
        shear: shear stress from torsion [Pa]
    """
    return sqrt(normal**2 + 3.0 * shear**2)

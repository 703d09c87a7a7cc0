"""Guys in closed form: tensions, pretension, strand data, tension from a pulse, the sagging guy."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, hypot, pi, sin, sqrt

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Phrase, Value, phrase
from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError, require_each
from boomwright.structure.memory import recalled
from boomwright.structure.wording import force, span

#: newtons in a pound-force, exact {nist-sp-811}
POUND_FORCE = 4.4482216152605
#: breaking strength over working load of a guy, allowable design {tia-222-g-guy-factor}
GUY_FACTOR = 2.0
#: initial tension as a share of breaking strength: low, usual, high (common practice)
INITIAL_SHARE = (0.08, 0.10, 0.15)
#: Young's modulus of 7-wire strand {strand-modulus}; a rope maker's table gives 174 to 185 for
#: the metal in 3/16 and 1/4 in, and the softer figure gives the larger drift [Pa]
STRAND_MODULUS = 165e9
#: share of the circle around seven equal wires that is metal (geometry)
_SEVEN_WIRES = 7.0 / 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Strand:
    """A guy strand."""

    name: str  #: size and grade
    breaking_strength: float  #: minimum breaking strength [N]
    mass_per_length: float  #: mass of a metre [kg/m]
    axial_stiffness: float  #: EA [N]
    #: outer diameter; None takes that of seven steel wires of this mass [m]
    diameter: float | None = None
    known: Value = ""  #: how the stiffness is known, in words

    def __post_init__(self) -> None:
        require_each(
            "strand",
            ("breaking strength", self.breaking_strength, "N"),
            ("mass", self.mass_per_length, "kg/m"),
            ("stiffness", self.axial_stiffness, "N"),
            ("diameter", self.diameter, "m"),
        )

    @property
    def weight_per_length(self) -> float:
        """Weight of a metre [N/m]."""
        return self.mass_per_length * STANDARD_GRAVITY

    @property
    def outer_diameter(self) -> float:
        """Diameter the wind and the ice see [m]."""
        if self.diameter is not None:
            return self.diameter
        return sqrt(4.0 * _metal(self.mass_per_length) / (pi * _SEVEN_WIRES))


def _metal(mass_per_length: float) -> float:
    """Steel in a strand of some mass [m^2]."""
    return mass_per_length / 7850.0


def _strand(size: str, inches: float, pounds: float, pounds_per_1000_ft: float) -> Strand:
    mass = pounds_per_1000_ft * POUND_FORCE / 304.8 / STANDARD_GRAVITY
    return Strand(
        name=f"{size} in EHS",
        breaking_strength=pounds * POUND_FORCE,
        mass_per_length=mass,
        axial_stiffness=_metal(mass) * STRAND_MODULUS,
        diameter=inches * 0.0254,
        known=recalled("strand-modulus"),
    )


#: extra-high-strength 7-wire strand {astm-a475}; stiffness from weight and modulus
STRANDS: dict[str, Strand] = {
    strand.name: strand
    for strand in (
        _strand("1/8", 1 / 8, 1830.0, 32.0),
        _strand("3/16", 3 / 16, 3990.0, 73.0),
        _strand("1/4", 1 / 4, 6650.0, 121.0),
        _strand("5/16", 5 / 16, 11200.0, 205.0),
    )
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyLevel:
    """One ring of guys at one height."""

    height: float  #: where the guys hold the support, above ground [m]
    anchor_radius: float  #: anchors out from the support [m]
    strand: Strand
    initial_tension: float | None = None  #: tension with no wind; None when unknown [N]
    count: int = 3  #: guys in the ring, evenly spaced
    first_azimuth: float = 0.0  #: direction of the first anchor, clockwise from true north [rad]
    anchor_height: float = 0.0  #: anchors above the foot of the support, negative when below [m]
    #: longest piece between insulators, 0 for guys that do not conduct; None when not said [m]
    longest_piece: float | None = None

    def __post_init__(self) -> None:
        require_each(
            "",
            ("guy height", self.height, "m"),
            ("anchor radius", self.anchor_radius, "m"),
            ("initial tension", self.initial_tension, "N"),
        )
        if self.count < 3:
            msg = f"{self.count} guys at {self.height} m: a ring needs at least 3"
            raise StructureInputError(msg)
        if not self.anchor_height < self.height:
            msg = f"anchor at {self.anchor_height} m must lie below its guy at {self.height} m"
            raise StructureInputError(msg)

    @property
    def name(self) -> Phrase:
        """The ring as checks name it, by its height."""
        return phrase("guys at {height}", height=span(self.height))

    @property
    def part(self) -> str:
        """The ring as margins are sorted by it."""
        return f"guys at {self.height!r} m"

    def check(self, what: str) -> Phrase:
        """Name a check of the ring."""
        return phrase("{ring}: {what}", ring=self.name, what=what)

    @property
    def angle(self) -> float:
        """Guy against the horizontal [rad]."""
        return atan2(self.height - self.anchor_height, self.anchor_radius)

    @property
    def length(self) -> float:
        """Straight length of a guy [m]."""
        return hypot(self.height - self.anchor_height, self.anchor_radius)

    @property
    def azimuths(self) -> tuple[float, ...]:
        """Direction of every anchor [rad]."""
        return tuple(self.first_azimuth + 2.0 * pi * i / self.count for i in range(self.count))


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyLoad:
    """What a metre of guy carries along its whole length."""

    weight_per_length: float  #: weight, with ice when there is any [N/m]
    wind_per_length: float = 0.0  #: wind force when the wind is square to the guy [N/m]


def untensioned(levels: Sequence[GuyLevel]) -> Value:
    """Say which ring has no initial tension, or nothing."""
    for level in levels:
        if level.initial_tension is None:
            usual = force(level.strand.breaking_strength * INITIAL_SHARE[1])
            return phrase(
                "the initial tension at {height} is not given (a tenth of breaking, "
                "{usual}, is usual; common practice)", height=span(level.height), usual=usual,
            )  # fmt: skip
    return ""


def tension_worst(*, load: float, angle: float, count: int = 3) -> float:
    """Largest tension over all wind directions with slack lee guys and no pretension [N].

    Two neighbouring guys share the load; the worst comes when one stands square to it.

    Args:
        load: horizontal load at the guy level [N]
        angle: guy against the horizontal [rad]
    """
    between = 2.0 * pi / count
    square = 1.0 if between <= pi / 2 else 1.0 / sin(between)
    return load / cos(angle) * square


def sagging_share(*, strand: Strand, span: float, tension: float) -> float:
    """Share of its stiffness a sagging guy keeps {ernst-modulus} (from memory) [-].

    Args:
        span: horizontal length of the guy [m]
        tension: [N]
    """
    if tension <= 0.0:
        return 0.0
    sag = (strand.weight_per_length * span) ** 2 * strand.axial_stiffness / (12.0 * tension**3)
    return 1.0 / (1.0 + sag)


def ring_stiffness(*, level: GuyLevel) -> float:
    """Horizontal stiffness of a ring at its initial tension, from any side {guy-statics} [N/m].

    n / 2 times EA / L cos^2 a, less what the sag takes.
    """
    straight = level.strand.axial_stiffness / level.length * cos(level.angle) ** 2
    share = sagging_share(
        strand=level.strand, span=level.anchor_radius, tension=level.initial_tension or 0.0
    )
    return level.count / 2.0 * straight * share

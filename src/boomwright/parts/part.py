"""A part of the station: what it is, where it sits, what it weighs, what it is cut from."""

from __future__ import annotations

from typing import Final, Literal

from boomwright.base.quantity import PerSystem
from boomwright.base.records import dataclass
from boomwright.base.unit_text import inches_sixteenths
from boomwright.parts.materials import MATERIALS
from boomwright.parts.solids import Solid
from boomwright.parts.tubes import TubeKind

Form = Literal["tube", "rod", "plate", "box", "strand", "cable", "concrete", "bought"]
#: whose figures they are: the owner's in the plan, its maker's, ours from the trade, or none
Known = Literal["plan", "maker", "assumed", "unknown"]
Drag = Literal["round", "flat", "none"]

#: densities of what is no conductor of the field solver {common-practice-hardware} [kg/m^3]
_FURTHER: Final = {
    "galvanized steel": 7850.0,
    "steel": 7850.0,
    "concrete": 2403.0,
    "glass fibre": 1900.0,
    "polyethylene": 950.0,
    "polyamide": 1140.0,
}


def density_of(material: str) -> float | None:
    """Density of a material; None for what is weighed as it is bought [kg/m^3]."""
    metal = MATERIALS.get(material)
    return _FURTHER.get(material) if metal is None else metal.density


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole, or several alike in a row."""

    diameter: float  #: diameter [m]
    #: places along the piece from its inner or rear end, or from the middle of a plate [m] (n,)
    at: tuple[float, ...]
    across: float = 0.0  #: from the middle line of a plate, both sides alike [m]
    purpose: str = ""  #: what goes through it
    way: str = ""  #: how the drill is held to the piece, and what it goes through
    #: how far its screw stands out, head below and nut above; 0 where another piece has it [m] (2,)
    proud: tuple[float, float] = (0.0, 0.0)
    #: whether its screw lies level, square to the piece; else it stands upright
    level: bool = False

    @property
    def count(self) -> int:
        """How many places are drilled."""
        return len(self.at) * (2 if self.across else 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """Bolts, screws or rivets of one kind that belong to a part."""

    name: str  #: what it is, e.g. ``rivet or screw 4.8 mm``
    count: int  #: how many
    how: str = ""  #: its kind without the size; empty where it has no size
    size: float = 0.0  #: thread or shank [m]
    grip: float = 0.0  #: what it goes through; 0 where that is not known or its part says it [m]

    @property
    def told(self) -> PerSystem | str:
        """Its name for a reader, in the sizes that are sold there."""
        if not self.how:
            return self.name
        us = f"{self.how} {inches_sixteenths(self.size)}"
        return PerSystem(metric=f"{self.how} {1e3 * self.size:g} mm", us=us)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """How a piece is sawn."""

    kind: TubeKind  #: tube or bar that it is cut from
    sawn: float  #: length to saw [m]
    exposed: float  #: length that shows when it is built [m]
    overlap: float = 0.0  #: length hidden in the next larger tube [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part, in the frame of what carries it."""

    mark: str  #: what is written on it; different from all others of its carrier
    name: str  #: what it is
    role: str  #: its job: ``element tube``, ``tip``, ``element plate``, ``boom`` ...
    carrier: str  #: name of the ``Carrier`` in whose frame its solids stand
    group: str  #: parts of one group are made to touch: tubes of one element, one joint
    form: Form
    material: str
    solids: tuple[Solid, ...] = ()  #: its shape; empty where it has no fixed place (n_solids,)
    mass: float | None = None  #: None while a wall or the maker's figure is missing [kg]
    joins: tuple[str, ...] = ()  #: further groups that it is fastened to (n_groups,)
    conductor: bool = True  #: metal that carries current, or an insulator
    bonded: bool = False  #: whether it touches the metal of what carries it
    drag: Drag = "none"  #: what the wind sees of it
    cut: Cut | None = None  #: how it is sawn; None for what is bought as it is
    holes: tuple[Hole, ...] = ()
    fasteners: tuple[Fastener, ...] = ()
    price_key: str = ""  #: its item in the bill; parts that come with another have none
    quantity: float = 1.0  #: how much of that item [unit of the item]
    unit: str = "each"  #: unit that the item is counted in
    known: Known = "plan"  #: whose figures its size and mass are
    #: where assumed figures are from, in words; what is missing of unknown ones
    basis: str = ""

    @property
    def volume(self) -> float:
        """Volume of its solids [m^3]."""
        return sum(solid.volume for solid in self.solids)

    @property
    def density(self) -> float | None:
        """Density that gives its solids its mass; None while that is not known [kg/m^3]."""
        volume = self.volume
        return None if self.mass is None or volume == 0.0 else self.mass / volume


def weighed(material: str, solids: tuple[Solid, ...]) -> float | None:
    """Weigh solids by their material; None when its density is not known [kg]."""
    density = density_of(material)
    return None if density is None else density * sum(solid.volume for solid in solids)

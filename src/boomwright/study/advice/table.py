"""The table that stations are put together from, read as a plan is read."""

from __future__ import annotations

import math
from functools import lru_cache
from importlib import resources

from boomwright.base import PlanError
from boomwright.base.records import dataclass, replace
from boomwright.parts import Trap, TubeSection
from boomwright.plan.building import build_table, build_value
from boomwright.plan.faults import FaultList, Place
from boomwright.plan.fields import above_zero, choice, count, entry, flag, from_zero, words
from boomwright.plan.layout import lay_out
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model_support import SupportPlan
from boomwright.plan.model_work import RaisingPlan
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.read import parse_toml
from boomwright.plan.spec import Field, Tables, TableSpec, Values
from boomwright.plan.tables.raising import RAISING
from boomwright.plan.tables.support import SUPPORT
from boomwright.plan.vocabulary import ROTATOR_PLACES, SUPPORT_KINDS
from boomwright.structure.support.rotator import RotatorPlace

#: what an antenna can stand or hang on, the bare ground included
KINDS = ("ground", *SUPPORT_KINDS)

_LENGTH = Quantity(dimension="length", low=0.0, high=500.0, above_low=True)
_TUBE = Row(items=(_LENGTH, _LENGTH), least=2, example='["50.8 mm", "2.1 mm"]')
_EXPOSED = Row(items=(_LENGTH, _LENGTH, _LENGTH), least=3, example='["25.4 mm", "1 m", "1.5 mm"]')


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeRow:
    """A kind of antenna."""

    name: str
    on: tuple[str, ...]  #: supports that suit it (n_kinds,)
    wire: str = ""  #: shape of wire, or empty
    elements: int = 0  #: elements of telescoping tube, 0 for wire
    boom: float = 0.0  #: longest boom [wavelengths]
    turns: bool = False  #: whether a rotator turns it
    traps: bool = False  #: whether traps part its elements, for two bands on one line
    fewest: int = 1  #: fewest bands that it is made for
    most: int = 1  #: most bands that it is made for
    work: float | None = None  #: usual work to build it; None when not known [s]

    def serves(self, count: int) -> bool:
        """Whether it is made for so many bands."""
        return self.fewest <= count <= self.most


@dataclass(frozen=True, slots=True, kw_only=True)
class PairRow:
    """Two antennas on one mast."""

    lower: str  #: shape of the one for the lower bands
    upper: str  #: shape of the one above it
    apart: float  #: from the lower one up to the upper one [m]
    on: tuple[str, ...]  #: supports that suit both (n_kinds,)


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperRow:
    """Telescoping tubes of half an element."""

    longest: float  #: longest half it is made for [m]
    #: outer diameter, exposed length and wall, boom outwards; the last is cut [m] (n_tubes, 3)
    half: tuple[tuple[float, float, float], ...]

    @property
    def tubes(self) -> list[TubeSection]:
        """The tubes, boom outwards, the last one uncut (n_tubes,)."""
        return [TubeSection(diameter=d, length=long, wall=wall) for d, long, wall in self.half]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrapRow:
    """Traps of elements that serve two bands."""

    reactance: float  #: of coil and of capacitor where they resonate [ohm]
    quality: float  #: quality factor of the coil [-]
    width: float  #: length of tube that it replaces [m]
    length: float  #: of its body [m]
    diameter: float  #: of its body [m]
    mass: float  #: of one trap [kg]

    def tuned(self, frequency: float, *, place: float) -> Trap:
        """A trap for a frequency.

        Args:
            frequency: that it blocks [Hz]
            place: of its middle from the boom [m]
        """
        turn = 2.0 * math.pi * frequency
        inductance = round(self.reactance / turn, 8)
        return Trap(
            place=place,
            width=self.width,
            inductance=inductance,
            capacitance=round(1.0 / (turn**2 * inductance), 13),
            quality=self.quality,
            mass=self.mass,
            diameter=self.diameter,
            length=self.length,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomRow:
    """A tube for a boom."""

    longest: float  #: longest distance from first to last element [m]
    tube: tuple[float, float]  #: outer diameter and wall [m] (2,)


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportRow:
    """Something that carries an antenna, with its usual values."""

    kind: str
    at: float  #: height of the antenna that its figures are for [m]
    heights: tuple[float, ...]  #: heights of the antenna to try [m] (n_heights,)
    found: bool = False  #: whether it is offered only where the place has one
    clear: float = 0.0  #: from its top up to the antenna [m]
    tubes: tuple[tuple[float, float], ...] = ()  #: diameters and walls to try [m] (n_tubes, 2)
    plan: SupportPlan | None = None  #: as a plan gives it; None where nothing is built
    raising: RaisingPlan | None = None  #: usual gear for the way up; None for none
    work: float | None = None  #: usual work on it and on the way up; None when not known [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class MastRow:
    """Mast between a rotator and the beam it turns."""

    tubes: tuple[tuple[float, float], ...]  #: diameters and walls to try [m] (n_tubes, 2)
    material: str
    turning_gust: float  #: nominal 3 s gust in which it shall still turn [m/s]
    rotator_below: float  #: from the bearing down to the rotator [m]
    rotator: RotatorPlace  #: where the rotator stands


@dataclass(frozen=True, slots=True, kw_only=True)
class RopeRow:
    """Ropes that hold hung wire."""

    strength: float  #: breaking strength to buy [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """Feed line and what belongs to it."""

    type: str
    shack: float  #: from the foot of the support to the radio [m]
    connectors: int = 0
    choke_cores: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """All that stations are put together from."""

    shape: tuple[ShapeRow, ...]
    pair: tuple[PairRow, ...]
    taper: tuple[TaperRow, ...]
    boom: tuple[BoomRow, ...]
    trap: TrapRow
    support: tuple[SupportRow, ...]
    mast: MastRow
    rope: RopeRow
    line: LineRow


_SHAPE = TableSpec(
    noun="shape",
    model=ShapeRow,
    fields=(
        words("name", "What it is.", example="three elements", longest=64, required=True),
        entry("on", "Supports that suit it.",
              ListOf(item=choice("on", KINDS, "support", "").kind, most=10, example='["trees"]'),
              required=True, example='on = ["trees"]'),
        words("wire", "Shape of wire.", example="inverted vee", longest=40),
        count("elements", "Elements of telescoping tube.", least=1, most=8),
        entry("boom", "Longest boom in wavelengths.",
              Quantity(dimension="ratio", low=0.0, high=2.0)),
        flag("turns", "Whether a rotator turns it."),
        flag("traps", "Whether traps part its elements, for two bands on one line."),
        count("fewest", "Fewest bands that it is made for; left out, one.", least=1, most=8),
        count("most", "Most bands that it is made for; left out, one.", least=1, most=8),
        above_zero("work", "time", "Usual work to build it."),
    ),
)  # fmt: skip

_PAIR = TableSpec(
    noun="pair of antennas",
    model=PairRow,
    fields=(
        words("lower", "Shape of the one for the lower bands.",
              example="two elements", longest=64, required=True),
        words("upper", "Shape of the one above it.",
              example="three elements", longest=64, required=True),
        above_zero("apart", "length", "From the lower one up to the upper one.", required=True),
        entry("on", "Supports that suit both.",
              ListOf(item=choice("on", KINDS, "support", "").kind, most=10, example='["tower"]'),
              required=True, example='on = ["tower"]'),
    ),
)  # fmt: skip

_TAPER = TableSpec(
    noun="taper",
    model=TaperRow,
    fields=(
        above_zero("longest", "length", "Longest half it is made for.", required=True),
        entry("half", "Outer diameter, exposed length and wall of each tube, boom outwards.",
              ListOf(item=_EXPOSED, most=8, example=f"[{_EXPOSED.example}]"), required=True,
              example=f"half = [{_EXPOSED.example}]"),
    ),
)  # fmt: skip

_BOOM = TableSpec(
    noun="boom tube",
    model=BoomRow,
    fields=(
        above_zero("longest", "length", "Longest distance from first to last element.",
                   required=True),
        entry("tube", "Outer diameter and wall.", _TUBE, required=True,
              example=f"tube = {_TUBE.example}"),
    ),
)  # fmt: skip

_TRAP = TableSpec(
    noun="kind of trap",
    model=TrapRow,
    fields=(
        above_zero("reactance", "resistance", "Of coil and of capacitor where they resonate.",
                   required=True, example="250 ohm"),
        above_zero("width", "length", "Length of tube that it replaces.", required=True),
        above_zero("length", "length", "Of its body.", required=True),
        above_zero("diameter", "length", "Of its body.", required=True),
        above_zero("mass", "mass", "Of one trap.", required=True),
        Field(key="quality", kind=Number(low=1.0, high=1e5), help="Quality factor of the coil.",
              required=True, example="quality = 200"),
    ),
)  # fmt: skip

_SUPPORT = TableSpec(
    noun="kind of support",
    model=SupportRow,
    fields=(
        choice("kind", KINDS, "kind of support", "What it is.", required=True),
        above_zero("at", "length", "Height of the antenna its figures are for.", required=True),
        entry("heights", "Heights of the antenna to try.",
              ListOf(item=_LENGTH, most=12, example='["8 m", "10 m"]'), required=True,
              example='heights = ["8 m", "10 m"]'),
        flag("found", "Whether it is offered only where the place has one."),
        from_zero("clear", "length", "From its top up to the antenna."),
        entry("tubes", "Diameters and walls to try, lightest first.",
              ListOf(item=_TUBE, most=12, example=f"[{_TUBE.example}]")),
        entry("plan", "As a plan gives it.", SUPPORT),
        entry("raising", "Usual gear for the way up.", RAISING),
        above_zero("work", "time", "Usual work on it and on the way up."),
    ),
)  # fmt: skip

_MAST = TableSpec(
    noun="mast",
    model=MastRow,
    fields=(
        entry(
            "tubes",
            "Diameters and walls to try, lightest first.",
            ListOf(item=_TUBE, most=12, example=f"[{_TUBE.example}]"),
            required=True,
        ),
        words("material", "Its metal.", example="6061-T6", longest=40, required=True),
        above_zero("turning_gust", "speed", "Gust in which it shall turn.", required=True),
        above_zero("rotator_below", "length", "From bearing to rotator.", required=True),
        choice("rotator", ROTATOR_PLACES, "place of a rotator", "Where it stands.", required=True),
    ),
)

_ROPE = TableSpec(
    noun="rope",
    model=RopeRow,
    fields=(above_zero("strength", "force", "Breaking strength to buy.", required=True),),
)

_LINE = TableSpec(
    noun="feed line",
    model=LineRow,
    fields=(
        words("type", "Type of line.", example="RG-213", longest=40, required=True),
        above_zero("shack", "length", "From the foot of the support to the radio.", required=True),
        count("connectors", "Connectors."),
        count("choke_cores", "Cores of the choke."),
    ),
)

_TABLE = TableSpec(
    noun="table of stations",
    model=Table,
    fields=(
        entry("shape", "Kinds of antenna.", Tables(spec=_SHAPE, header="[[shape]]"), required=True),
        entry("pair", "Two antennas on one mast.", Tables(spec=_PAIR, header="[[pair]]")),
        entry("taper", "Tubes of elements.", Tables(spec=_TAPER, header="[[taper]]"),
              required=True),
        entry("boom", "Tubes of booms.", Tables(spec=_BOOM, header="[[boom]]"), required=True),
        entry("trap", "Traps of elements for two bands.", _TRAP, required=True),
        entry("support", "What carries it.", Tables(spec=_SUPPORT, header="[[support]]"),
              required=True),
        entry("mast", "Mast of a beam that turns.", _MAST, required=True),
        entry("rope", "Ropes of hung wire.", _ROPE, required=True),
        entry("line", "Feed line.", _LINE, required=True),
    ),
)  # fmt: skip


def read_table(text: str, *, source: str = "") -> Table:
    """Read a table of stations.

    Args:
        source: file name for messages, or empty
    """
    table: Table = build_table(_TABLE, _read(_TABLE, text, source=source))
    return table


def _read(spec: TableSpec, text: str, *, source: str) -> Values:
    faults = FaultList(lay_out(text))
    values = spec.read(parse_toml(text, source=source), Place(faults=faults))
    if values is None or faults.sorted():
        raise PlanError(faults.sorted(), source=source)
    return values


#: the same where the owner adds to the usual table: nothing must be there
_ADDED = replace(_TABLE, fields=tuple(replace(each, required=False) for each in _TABLE.fields))
#: what rows are known by; an owner's row stands in for the usual one of that name
_NAMES = {"shape": "name", "support": "kind"}


def extended_table(usual: Table, text: str, *, source: str = "") -> Table:
    """Read an owner's rows into a table.

    Shapes and supports of a known name stand in for the usual ones; all other rows are tried
    before the usual ones.

    Args:
        source: file name for messages, or empty
    """
    values = _read(_ADDED, text, source=source)
    own = {
        each.key: build_value(each.kind, values[each.key], each.key)
        for each in _ADDED.fields
        if each.key in values
    }
    for key, name in _NAMES.items():
        added = {getattr(row, name): row for row in own.pop(key, ())}
        rows = [added.pop(getattr(row, name), row) for row in getattr(usual, key)]
        own[key] = (*rows, *added.values())
    for key in ("pair", "taper", "boom"):
        own[key] = (*own.get(key, ()), *getattr(usual, key))
    return replace(usual, **own)


@lru_cache(maxsize=1)
def usual_table() -> Table:
    """Read the table that the package carries {common-practice-stations}."""
    file = resources.files("boomwright.study") / "advice" / "stations.toml"
    return read_table(file.read_text(encoding="utf-8"), source="stations.toml")

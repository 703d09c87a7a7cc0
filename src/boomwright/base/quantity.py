"""A figure with its kind and its error band, and the one place that writes it as text.

A result is numbers until somebody reads it. Whoever says something hands over a ``Quantity``, or
a ``Phrase`` with quantities in it; a reader calls ``write`` with the units of the person in front
of it. How many digits a kind of quantity gets stands in ``KINDS`` and nowhere else.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from string import Formatter
from typing import Final

from boomwright.base.quantity_text import in_system
from boomwright.base.records import dataclass, field
from boomwright.base.unit_text import (
    METRES_PER_INCH,
    UnitSystem,
    feet_inches,
    feet_inches_sixteenths,
    inches_sixteenths,
)

MINUS: Final = "−"


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """How one kind of quantity is written."""

    unit: str  #: metric unit it is printed in; empty for a bare number
    scale: float = 1.0  #: printed value of one SI unit [-]
    decimals: int | None = None  #: digits behind the point; None for ``figures`` significant ones
    us_decimals: int | None = None  #: the same in US units; None for as many as in metric ones
    figures: int = 3  #: significant digits where ``decimals`` is None
    #: how US units write it where a number and a unit do not: feet, inches and sixteenths
    us: Callable[[float], str] | None = None
    in_head: bool = True  #: whether a column says its unit once, in its head
    most: float = math.inf  #: above this a figure says no more than that it is above [printed unit]
    least: float = -math.inf  #: below this it says no more than that it is below [printed unit]
    signed: bool = False  #: whether a plus sign is written
    grouped: bool = False  #: whether a narrow space stands between thousands
    #: whether it is a share of a limit: one that is passed never reads as 100 %
    of_limit: bool = False
    none: str = "none"  #: what is written where there is no value
    endless: str = "no limit"  #: what is written for an infinite value


KINDS: Final[dict[str, Kind]] = {
    # lengths: what is sawn, what is paced, what a tube measures
    "sawn length": Kind(unit="mm", scale=1e3, decimals=0, us=feet_inches_sixteenths, in_head=False),
    "lesson length": Kind(unit="m", decimals=2, us=feet_inches_sixteenths, in_head=False),
    "span": Kind(unit="m", decimals=2, us=feet_inches, in_head=False),
    "small length": Kind(unit="mm", scale=1e3, decimals=1, us_decimals=2, in_head=False),
    "tube size": Kind(unit="mm", scale=1e3, decimals=1, us=inches_sixteenths, in_head=False),
    "distance": Kind(unit="km", scale=1e-3, decimals=1),
    "path": Kind(unit="km", scale=1e-3, decimals=0),
    "height": Kind(unit="m", decimals=1),
    "whole length": Kind(unit="m", decimals=0),
    # what rules say: an authority in the United States writes feet with a point
    "clearance": Kind(unit="m", decimals=2, us_decimals=1, none="not given"),
    "bought length": Kind(unit="m", decimals=2, us_decimals=1),
    "stock length": Kind(unit="m", decimals=3, us=feet_inches_sixteenths, in_head=False),
    "wire size": Kind(unit="mm", scale=1e3, decimals=2, us_decimals=3, in_head=False),
    "steel rate": Kind(unit="kg/m3", decimals=0, us_decimals=1),
    "gust": Kind(unit="m/s", decimals=0),
    "ice": Kind(unit="mm", scale=1e3, decimals=0, us_decimals=1),
    "whole millimetres": Kind(unit="mm", scale=1e3, decimals=0, us_decimals=2),
    "place": Kind(unit="m", decimals=3, us_decimals=2),
    "slope distance": Kind(unit="km", scale=1e-3, decimals=2),
    "surface height": Kind(unit="m", decimals=1, none="not known"),
    "rule length": Kind(unit="m"),
    "rule distance": Kind(unit="km", scale=1e-3, figures=2),
    "move": Kind(
        unit="mm", scale=1e3, decimals=0, us=inches_sixteenths, signed=True, in_head=False
    ),
    "trim": Kind(unit="mm", scale=1e3, us=inches_sixteenths, in_head=False),
    # what the radio sees
    "frequency": Kind(unit="MHz", scale=1e-6, decimals=3),
    "swr": Kind(unit="", decimals=2, most=20.0, endless="none"),
    "swr change": Kind(unit="", decimals=2, signed=True),
    "resistance": Kind(unit="ohm", decimals=1),
    "reactance": Kind(unit="ohm", decimals=1, signed=True),
    "impedance": Kind(unit="ohm", decimals=1),
    "feed impedance": Kind(unit="ohm", decimals=1, none="idle"),
    "nominal resistance": Kind(unit="ohm", figures=6),
    "choke impedance": Kind(unit="ohm", decimals=0),
    "capacitance": Kind(unit="pF", scale=1e12, decimals=0),
    "inductance": Kind(unit="µH", scale=1e6, decimals=2),
    "voltage": Kind(unit="V", decimals=0),
    "current": Kind(unit="A", decimals=1),
    "small current": Kind(unit="A", decimals=3),
    "power": Kind(unit="W", figures=6),
    "heat": Kind(unit="W", decimals=1),
    "heat per metre": Kind(unit="W/m", decimals=2),
    "temperature rise": Kind(unit="K", decimals=0),
    # what goes out
    "gain": Kind(unit="dBi", decimals=2),
    "gain change": Kind(unit="dB", decimals=2, signed=True),
    "loss": Kind(unit="dB", decimals=2),
    # deep in the null at the horizon only the fact counts, not the figure
    "gain over ground": Kind(unit="dBi", decimals=1, least=-20.0),
    "advantage": Kind(unit="dB", decimals=1, signed=True),
    "s units": Kind(unit="S", decimals=1, signed=True),
    "whole loss": Kind(unit="dB", decimals=0),
    "time to turn": Kind(unit="s", decimals=0, none="not known"),
    "received power": Kind(unit="W", none="no transmitter named"),
    # where people are
    "average power": Kind(unit="W", decimals=0),
    "electric field": Kind(unit="V/m", decimals=1, none="not given"),
    "magnetic field": Kind(unit="A/m", decimals=3, none="not given"),
    "minutes": Kind(unit="min", scale=1.0 / 60.0),
    "part of limit": Kind(unit="%", scale=100.0, decimals=1, none="not checked"),
    "most of limit": Kind(unit="%", scale=100.0, figures=2, none="not checked"),
    # on a grid of such parts whose caption says percent
    "bare part of limit": Kind(unit="", scale=100.0, decimals=1, none="wire"),
    "ratio": Kind(unit="dB", decimals=1),
    "angle": Kind(unit="°", decimals=1),
    "turn": Kind(unit="°", decimals=1, signed=True),
    "offset": Kind(unit="°", decimals=0, signed=True),
    "whole angle": Kind(unit="°", decimals=0),
    "wanted angle": Kind(unit="°"),
    "position": Kind(unit="°", decimals=4),
    "power balance": Kind(unit="%", scale=100.0, decimals=4),
    "efficiency": Kind(unit="%", scale=100.0, decimals=1),
    "share": Kind(unit="%", scale=100.0, decimals=0),
    "exact share": Kind(unit="%", scale=100.0, decimals=1),
    "signed share": Kind(unit="%", scale=100.0, decimals=1, signed=True),
    "number": Kind(unit="", figures=6),
    "count change": Kind(unit="", decimals=0, signed=True),
    "amount": Kind(unit="", figures=4),
    "times": Kind(unit="", decimals=1),
    "reflection": Kind(unit="", decimals=4),
    "factor": Kind(unit="", decimals=2),
    "signed factor": Kind(unit="", decimals=2, signed=True),
    "relative current": Kind(unit="", decimals=3),
    # loads
    "mass": Kind(unit="kg", decimals=1),
    "small mass": Kind(unit="kg", figures=2),
    "force": Kind(unit="N", figures=3),
    "moment": Kind(unit="N m", figures=3),
    "stiffness": Kind(unit="kN/m", scale=1e-3, figures=3),
    "stress": Kind(unit="MPa", scale=1e-6, figures=3),
    "pressure": Kind(unit="kPa", scale=1e-3, figures=3),
    "area": Kind(unit="m2", figures=3),
    "volume": Kind(unit="m3", figures=3),
    "speed": Kind(unit="m/s", decimals=1, us_decimals=0),
    "use": Kind(unit="%", scale=100.0, decimals=0, of_limit=True),
    # what the wind and the weights do to tubes
    "diameter": Kind(unit="mm", scale=1e3, decimals=2, us_decimals=3),
    "wall": Kind(unit="mm", scale=1e3, decimals=2, us_decimals=3),
    "tube stress": Kind(unit="MPa", scale=1e-6, decimals=0, us_decimals=1),
    "yield speed": Kind(unit="m/s", decimals=0),
    "light wind": Kind(unit="m/s", decimals=1),
    "vibration": Kind(unit="Hz", decimals=1),
    "sag": Kind(unit="mm", scale=1e3, decimals=0, us_decimals=1),
    "wind area": Kind(unit="m2", decimals=2),
    "vane area": Kind(unit="m2", decimals=3),
    "mass change": Kind(unit="kg", decimals=1, signed=True),
    "inertia": Kind(unit="kg m2", decimals=0),
    "load": Kind(unit="N", decimals=0),
    "turning load": Kind(unit="N m", decimals=0),
    "large force": Kind(unit="kN", scale=1e-3, decimals=2, us_decimals=0),
    "large moment": Kind(unit="kN m", scale=1e-3, decimals=2, us_decimals=0),
    "wind pressure": Kind(unit="kPa", scale=1e-3, decimals=2, us_decimals=1),
    "soil pressure": Kind(unit="kPa", scale=1e-3, decimals=0),
    "air density": Kind(unit="kg/m3", figures=4),
    "density": Kind(unit="kg/m3", decimals=0),
    "stretch": Kind(unit="mm", scale=1e3, decimals=0, us_decimals=1),
    "concrete": Kind(unit="m3", decimals=2),
    # what it costs, in the owner's currency
    "money": Kind(unit="", decimals=0, grouped=True),
    "money change": Kind(unit="", decimals=0, signed=True, grouped=True),
}


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure as it was computed."""

    value: float | complex  #: the figure in SI; NaN or infinite where there is none [SI]
    kind: str  #: its kind, a key of ``KINDS``
    band: float = 0.0  #: half width of its error band; 0: none is told, infinite: unknown [SI]

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise KeyError(f"{self.kind!r} is no kind of quantity")


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words with quantities in them, in braces by name: ``{length} of {line}``."""

    words: str
    values: Mapping[str, Value] = field(default_factory=dict)

    def __hash__(self) -> int:
        """Hash words and values, so that findings are told once."""
        return hash((self.words, tuple(self.values.items())))


class Listed(Phrase):
    """Values in a row: plain data takes them as a list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PerSystem:
    """What differs by more than its units: a step of one metric reader is not the other's."""

    metric: Value
    us: Value


@dataclass(frozen=True, slots=True)
class Source:
    """Where words before it are from: a number where a list of sources is at hand, else nothing."""

    key: str  #: key in the register of sources


@dataclass(frozen=True, slots=True)
class InPlan:
    """Where in the plan the words before it are settled.

    Who writes the file reads the name of table and key; who has a form gets its button instead,
    and who holds paper the words alone.
    """

    table: str  #: dotted name of the table: ``support.tower``
    keys: tuple[str, ...] = ()  #: keys in it, the most pressing first; none for the table itself
    many: bool = False  #: whether the plan may have several such tables

    def __str__(self) -> str:
        """Name table and keys as they are written."""
        table = f"[[{self.table}]]" if self.many else f"[{self.table}]"
        return f"{' and '.join(self.keys)} in {table}" if self.keys else table


@dataclass(frozen=True, slots=True, kw_only=True)
class PerReader:
    """What differs by what its reader works with: a command, or a sheet with its forms."""

    file: Value
    forms: Value
    sheet: str = ""  #: address of the sheet that ``forms`` names, or empty


#: what a cell, a fact or a sentence may hold
Value = str | int | Quantity | Phrase | PerSystem | PerReader | Source | InPlan | None
#: what stands for a source by its key, with the space before it
Citing = Callable[[str], str]


def phrase(words: str, /, *told: Value | complex, **named: Value | complex) -> Phrase:
    """Put quantities into words: ``phrase("{:span} of {line}", 12.3, line="RG-213")``.

    Args:
        told: values of the places without a name, in their order [as ``named``]
        named: values of the others, a bare figure as the kind that its place names has it [SI]
    """
    if told or ":" in words:
        words, places, kinds = _places(words)
        named |= zip(places, told, strict=True)
        for name, kind in kinds.items():
            if isinstance(figure := named[name], (int, float, complex)):
                named[name] = Quantity(figure, kind)
    for name, each in named.items():
        if isinstance(each, (float, complex)):
            raise TypeError(f"the figure {name} of a phrase has no kind: {words}")
    return Phrase(words, named)  # type: ignore[arg-type]


@lru_cache(maxsize=2048)
def _places(words: str) -> tuple[str, tuple[str, ...], dict[str, str]]:
    """Words with a bare name in each place, the names of those that had none, kinds by name."""
    plain, given, kinds = "", list[str](), dict[str, str]()
    for text, name, kind, _ in Formatter().parse(words):
        plain += text.replace("{", "{{").replace("}", "}}")
        if name is None:
            continue
        if not name:
            name = f"v{len(given)}"
            given.append(name)
        if kind:
            kinds[name] = kind
        plain += f"{{{name}}}"
    return plain, tuple(given), kinds


def cited(words: Value, key: str) -> Phrase:
    """Put a source behind words."""
    return Phrase("{words}{source}", {"words": words, "source": Source(key)})


def settled(words: Value, table: str, *keys: str, many: bool = False) -> Phrase:
    """Put behind words where in the plan they are settled, as :class:`InPlan` names it."""
    return Phrase("{words}{place}", {"words": words, "place": InPlan(table, keys, many)})


def sheet_in(value: Value) -> str:
    """Find the first sheet that a value names to who has a form; empty where it names none."""
    match value:
        case PerReader():
            return value.sheet
        case Phrase():
            return next(filter(None, map(sheet_in, value.values.values())), "")
    return ""


def places_in(*values: Value) -> tuple[InPlan, ...]:
    """Find where in the plan values are settled, each place once."""
    found: list[InPlan] = []
    for value in values:
        match value:
            case InPlan():
                found.append(value)
            case Phrase():
                found += places_in(*value.values.values())
            case PerSystem():
                found += places_in(value.metric)
            case PerReader():
                found += places_in(value.forms)
    return tuple(dict.fromkeys(found))


def with_parts(value: Value, parts: Sequence[tuple[Value, str]]) -> Value:
    """Put other words in place of parts of a value, wherever in it: the widest counts."""
    if not isinstance(value, Phrase):
        return next((instead for part, instead in parts if part and part == value), value)
    for part, instead in parts:
        # Words alone tell nearly all phrases apart.
        if isinstance(part, Phrase) and part.words == value.words and part == value:
            return instead
    values = {name: with_parts(each, parts) for name, each in value.values.items()}
    return type(value)(value.words, values)


def listed(values: Sequence[Value], *, between: str = ", ") -> Listed:
    """Put values in a row."""
    names = {f"v{number}": value for number, value in enumerate(values)}
    return Listed(between.join(f"{{{name}}}" for name in names), names)


def factor_of(kind: str, *, system: UnitSystem) -> float:
    """Printed value of one SI unit of a kind, for the axes of charts [printed unit]."""
    return _printed(1.0, kind=KINDS[kind], system=system)


def unit_of(kind: str, *, system: UnitSystem) -> str:
    """Unit a kind is printed in, as a column's head names it; empty where a cell carries it."""
    found = KINDS[kind]
    if not found.in_head:
        return ""
    return in_system(0.0, unit=found.unit, system=system)[1]


def uncited(_key: str) -> str:
    """Leave a source out, where the list of sources is not at hand."""
    return ""


def keyed(key: str) -> str:
    """Give the key of a source, in brackets, to readers of data."""
    return f" ({key})"


#: whether who reads has neither the plan file nor forms before them
PAPER: Final[ContextVar[bool]] = ContextVar("paper", default=False)


@contextmanager
def on_paper() -> Iterator[None]:
    """Write for readers of paper, who have neither the plan file nor forms before them."""
    before = PAPER.set(True)
    try:
        yield
    finally:
        PAPER.reset(before)


def write(
    value: Value,
    *,
    system: UnitSystem,
    unit: bool = True,
    cite: Citing = uncited,
    forms: bool = False,
) -> str:
    """Write a value for a reader.

    Args:
        unit: whether a quantity carries its unit; a column whose head names it leaves it out
        cite: gives what stands for a source
        forms: whether the reader has forms, and reads no names of the plan file
    """
    match value:
        case None:
            return ""
        case Quantity():
            return _quantity(value, system=system, unit=unit)
        case Phrase():
            parts = value.values.items()
            said = {
                name: write(each, system=system, unit=unit, cite=cite, forms=forms)
                for name, each in parts
            }
            return value.words.format(**said)
        case PerSystem():
            own = value.metric if system == "metric" else value.us
            return write(own, system=system, unit=unit, cite=cite, forms=forms)
        case Source():
            return cite(value.key)
        case PerReader():
            own = value.forms if forms else value.file
            return write(own, system=system, unit=unit, cite=cite, forms=forms)
        case InPlan():
            return "" if forms or PAPER.get() else f" ({value})"
        case _:
            return str(value)


def _quantity(quantity: Quantity, *, system: UnitSystem, unit: bool) -> str:
    kind = KINDS[quantity.kind]
    if isinstance(quantity.value, complex):
        sign = "+" if quantity.value.imag >= 0.0 else MINUS
        parts = (quantity.value.real, abs(quantity.value.imag))
        real, imaginary = (_number(part, kind=kind, system=system) for part in parts)
        text = f"{real} {sign} j{imaginary}"
    elif math.isinf(quantity.value) and quantity.value > 0.0:
        return kind.endless
    elif not math.isfinite(quantity.value):
        return kind.none
    elif system == "us" and kind.us is not None:
        return _inches(quantity, kind.us, signed=kind.signed)
    else:
        text = _number(quantity.value, kind=kind, system=system)
    open_band = math.isinf(quantity.band)
    if quantity.band and not open_band:
        text = f"{text} ±{_band(quantity.band, kind=kind, system=system)}"
    name = in_system(0.0, unit=kind.unit, system=system)[1]
    if unit or not kind.in_head:
        text = f"{text}{name}" if name == "°" else f"{text} {name}".rstrip()
    return f"{text}, band unknown" if open_band else text


def _inches(quantity: Quantity, us: Callable[[float], str], *, signed: bool) -> str:
    """Feet, inches and sixteenths, with the band rounded up to the next sixteenth."""
    value = float(quantity.value.real)
    text = us(value).replace("-", MINUS, 1) if value < 0.0 else us(value)
    if signed and not text.startswith(MINUS) and us(value) != us(0.0):
        text = f"+{text}"
    if not quantity.band:
        return text
    if math.isinf(quantity.band):
        return f"{text}, band unknown"
    sixteenth = METRES_PER_INCH / 16.0
    steps = max(math.ceil(quantity.band / sixteenth - 1e-6), 1)
    return f"{text} ±{us(steps * sixteenth)}"


def _printed(value: float, *, kind: Kind, system: UnitSystem) -> float:
    return in_system(value * kind.scale, unit=kind.unit, system=system)[0]


def _decimals(kind: Kind, system: UnitSystem) -> int | None:
    return kind.us_decimals if system == "us" and kind.us_decimals is not None else kind.decimals


def _number(value: float, *, kind: Kind, system: UnitSystem) -> str:
    printed = _printed(value, kind=kind, system=system)
    if printed > kind.most:
        return f"above {kind.most:g}"
    if printed < kind.least:
        return f"below {kind.least:g}".replace("-", MINUS)
    decimals = _decimals(kind, system)
    if kind.of_limit and printed > 100.0:
        decimals = next((more for more in range(3) if round(printed, more) > 100.0), None)
        if decimals is None:
            return "just over 100"
    if decimals is None:
        text = f"{printed:.{kind.figures}g}"
        # Three figures of a large number would come with an exponent.
        text = f"{float(text):.0f}" if "e" in text and abs(printed) >= 1.0 else text
    else:
        text = f"{printed:{'_' if kind.grouped else ''}.{decimals}f}".replace("_", "\u202f")
    if not text.strip("-0."):
        return text.lstrip("-")  # what rounds to nothing has no sign
    plus = "+" if kind.signed and not text.startswith("-") else ""
    return f"{plus}{text}".replace("-", MINUS)


def _band(band: float, *, kind: Kind, system: UnitSystem) -> str:
    """A band is rounded up, and never to nothing."""
    printed = _printed(band, kind=kind, system=system)
    decimals = _decimals(kind, system) or 0
    steps = max(math.ceil(printed * 10**decimals - 1e-9), 1)
    return f"{steps / 10**decimals:.{decimals}f}"

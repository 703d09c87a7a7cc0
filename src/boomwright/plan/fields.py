"""Short ways to declare the commonest keys of a table."""

from __future__ import annotations

import math
from typing import TypedDict, Unpack

from boomwright.plan.kinds import Choice, Day, Flag, Kind, Parsed, Text
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import Field, NameOrTable, Tables, TableSpec
from boomwright.plan.units import EXAMPLES, Dimension

#: longest length of any part or distance on the site [m]
LONGEST = 2000.0
#: walls thinner than foil are mistyped {common-practice-magnitudes} [m]
THINNEST_WALL = 2e-5


class Told(TypedDict, total=False):
    """What may be said of any key."""

    required: bool  #: whether a plan without it is at fault
    attribute: str  #: field of the model it fills, when that is not named like the key


class Shown(Told, total=False):
    """The same of a quantity."""

    example: str  #: what to show when it is missing; left out, one of its dimension


def entry(
    key: str,
    text: str,
    kind: Kind,
    *,
    required: bool = False,
    example: str = "",
    attribute: str = "",
) -> Field:
    """Declare a key of any kind.

    Args:
        example: TOML to show when it is missing; empty takes what the kind shows
    """
    shown = getattr(kind, "example", "")
    if shown and not example:
        example = f'{key} = "{shown}"' if isinstance(kind, Parsed) else f"{key} = {shown}"
    return Field(
        key=key, kind=kind, help=text, required=required, example=example, attribute=attribute
    )


def tables(key: str, text: str, spec: TableSpec, parent: str, *, most: int = 100) -> Field:
    """Declare tables of one sort below another, none needed."""
    return entry(key, text, Tables(spec=spec, header=f"[[{parent}.{key}]]", least=0, most=most))


def within(
    key: str, dimension: Dimension, text: str, low: float, high: float, *,
    above_low: bool = False, example: str = "", **told: Unpack[Told],
) -> Field:  # fmt: skip
    """Declare a quantity between two limits.

    Args:
        low, high: limits, both allowed unless ``above_low``; lengths end at 2 km anyway [SI]
        example: what to show when it is missing; empty takes one of the dimension
    """
    if dimension == "length":
        high = min(high, LONGEST)
    kind = Quantity(dimension=dimension, low=low, high=high, above_low=above_low)
    shown = example or EXAMPLES[dimension][0]
    quoted = shown if shown.replace(".", "", 1).isdigit() else f'"{shown}"'
    return entry(key, text, kind, example=f"{key} = {quoted}", **told)


def above_zero(
    key: str, dimension: Dimension, text: str, *, low: float = 0.0, high: float = math.inf,
    **shown: Unpack[Shown],
) -> Field:  # fmt: skip
    """Declare a quantity greater than 0.

    Args:
        low: least value allowed; 0 for any above it [SI]
        high: greatest value allowed [SI]
    """
    return within(key, dimension, text, low, high, above_low=low == 0.0, **shown)


def from_zero(
    key: str, dimension: Dimension, text: str, *, high: float = math.inf, **shown: Unpack[Shown]
) -> Field:
    """Declare a quantity of 0 or more.

    Args:
        high: greatest value allowed [SI]
    """
    return within(key, dimension, text, 0.0, high, **shown)


def either_sign(
    key: str, dimension: Dimension, text: str, *, size: float = LONGEST, **shown: Unpack[Shown]
) -> Field:
    """Declare a quantity that may lie on either side of 0.

    Args:
        size: greatest magnitude allowed [SI]
    """
    return within(key, dimension, text, -size, size, **shown)


def choice(
    key: str, options: tuple[str, ...], noun: str, text: str, *, required: bool = False,
    example: str = "",
) -> Field:  # fmt: skip
    """Declare a word out of a list.

    Args:
        example: the word to show when it is missing; empty takes the first
    """
    kind = Choice(options=options, noun=noun)
    return entry(key, text, kind, required=required, example=f'{key} = "{example or options[0]}"')


def flag(key: str, text: str) -> Field:
    """Declare a yes or no; not written means no."""
    return entry(key, text, Flag())


def words(key: str, text: str, *, example: str, longest: int = 120, **told: Unpack[Told]) -> Field:
    """Declare a line of text.

    Args:
        example: what may stand there
    """
    return entry(key, text, Text(longest=longest), example=f'{key} = "{example}"', **told)


def count(
    key: str, text: str, *, least: int = 0, most: int = 1000, required: bool = False
) -> Field:
    """Declare a whole number."""
    kind = Number(low=least, high=most, whole=True)
    return entry(key, text, kind, required=required, example=f"{key} = {max(least, 1)}")


def number(
    key: str, text: str, *, low: float, high: float, example: str, required: bool = False
) -> Field:
    """Declare a pure number.

    Args:
        low, high: limits, both allowed [-]
        example: what may stand there
    """
    kind = Number(low=low, high=high)
    return entry(key, text, kind, required=required, example=f"{key} = {example}")


_ANSWER = TableSpec(
    noun="answer",
    model="raising.answers:Said",
    fields=(
        entry("answer", "Whether it holds.", Flag(), required=True, example="answer = true",
              attribute="yes"),
        words("by", "Who says so.", example="name of the owner", longest=64, required=True),
        entry("on", "Day it was said.", Day(), required=True, example='on = "2026-05-01"'),
    ),
)  # fmt: skip


def question(key: str, text: str) -> Field:
    """Declare a question: its answer says who gave it and when.

    Not written, it is asked. A bare yes still reads, and is asked about: who says so?
    """
    return entry(
        key,
        text,
        NameOrTable(name=Flag(), table=_ANSWER, named="raising.answers:UNSIGNED"),
        example=f'{key} = {{ answer = true, by = "...", on = "2026-05-01" }}',
    )

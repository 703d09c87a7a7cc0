"""Short ways to declare the commonest keys of a table."""

from __future__ import annotations

import math

from boomwright.plan.kinds import Choice, Day, Flag, Kind, Text
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import Field, NameOrTable, Tables, TableSpec
from boomwright.plan.units import EXAMPLES, Dimension

#: longest length of any part or distance on the site [m]
LONGEST = 2000.0
#: walls thinner than foil are mistyped {common-practice-magnitudes} [m]
THINNEST_WALL = 2e-5


def _example(key: str, example: str) -> str:
    return f"{key} = {example}"


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
        example: TOML to show when it is missing
    """
    return Field(
        key=key, kind=kind, help=text, required=required, example=example, attribute=attribute
    )


def tables(key: str, text: str, spec: TableSpec, parent: str) -> Field:
    """Declare tables of one sort below another, none needed."""
    return entry(key, text, Tables(spec=spec, header=f"[[{parent}.{key}]]", least=0))


def above_zero(
    key: str,
    dimension: Dimension,
    text: str,
    *,
    low: float = 0.0,
    high: float = math.inf,
    required: bool = False,
    example: str = "",
) -> Field:
    """Declare a quantity greater than 0.

    Args:
        low: least value allowed; 0 for any above it [SI]
        high: greatest value allowed; lengths end at 2 km anyway [SI]
        example: quantity to show when it is missing; empty takes one of the dimension
    """
    if dimension == "length":
        high = min(high, LONGEST)
    return Field(
        key=key,
        kind=Quantity(dimension=dimension, low=low, high=high, above_low=low == 0.0),
        help=text,
        required=required,
        example=_example(key, f'"{example or EXAMPLES[dimension][0]}"'),
    )


def from_zero(
    key: str,
    dimension: Dimension,
    text: str,
    *,
    high: float = math.inf,
    required: bool = False,
    example: str = "",
) -> Field:
    """Declare a quantity of 0 or more.

    Args:
        high: greatest value allowed; lengths end at 2 km anyway [SI]
        example: quantity to show when it is missing; empty takes one of the dimension
    """
    if dimension == "length":
        high = min(high, LONGEST)
    return Field(
        key=key,
        kind=Quantity(dimension=dimension, low=0.0, high=high),
        help=text,
        required=required,
        example=_example(key, f'"{example or EXAMPLES[dimension][0]}"'),
    )


def either_sign(
    key: str,
    dimension: Dimension,
    text: str,
    *,
    size: float = LONGEST,
    required: bool = False,
    example: str = "",
) -> Field:
    """Declare a quantity that may lie on either side of 0.

    Args:
        size: greatest magnitude allowed [SI]
        example: quantity to show when it is missing; empty takes one of the dimension
    """
    return Field(
        key=key,
        kind=Quantity(dimension=dimension, low=-size, high=size),
        help=text,
        required=required,
        example=_example(key, f'"{example or EXAMPLES[dimension][0]}"'),
    )


def choice(
    key: str, options: tuple[str, ...], noun: str, text: str, *, required: bool = False
) -> Field:
    """Declare a word out of a list."""
    return Field(
        key=key,
        kind=Choice(options=options, noun=noun),
        help=text,
        required=required,
        example=_example(key, f'"{options[0]}"'),
    )


def flag(key: str, text: str) -> Field:
    """Declare a yes or no; not written means no."""
    return Field(key=key, kind=Flag(), help=text)


def words(
    key: str, text: str, *, example: str, longest: int = 120, required: bool = False
) -> Field:
    """Declare a line of text.

    Args:
        example: what may stand there
    """
    return Field(
        key=key,
        kind=Text(longest=longest),
        help=text,
        required=required,
        example=_example(key, f'"{example}"'),
    )


def count(
    key: str, text: str, *, least: int = 0, most: int = 1000, required: bool = False
) -> Field:
    """Declare a whole number."""
    return Field(
        key=key,
        kind=Number(low=least, high=most, whole=True),
        help=text,
        required=required,
        example=_example(key, str(max(least, 1))),
    )


def number(key: str, text: str, *, low: float, high: float, example: str) -> Field:
    """Declare a pure number.

    Args:
        low, high: limits, both allowed [-]
        example: what may stand there
    """
    return Field(
        key=key, kind=Number(low=low, high=high), help=text, example=_example(key, example)
    )


_ANSWER = TableSpec(
    noun="answer",
    model="raising.answers:Said",
    fields=(
        Field(key="answer", kind=Flag(), help="Whether it holds.", required=True,
              example="answer = true", attribute="yes"),
        words("by", "Who says so.", example="name of the owner", longest=64, required=True),
        Field(key="on", kind=Day(), help="Day it was said.", required=True,
              example='on = "2026-05-01"'),
    ),
)  # fmt: skip


def question(key: str, text: str) -> Field:
    """Declare a question: its answer says who gave it and when.

    Not written, it is asked. A bare yes still reads, and is asked about: who says so?
    """
    return Field(
        key=key,
        kind=NameOrTable(name=Flag(), table=_ANSWER, named="raising.answers:UNSIGNED"),
        help=text,
        example=f'{key} = {{ answer = true, by = "...", on = "2026-05-01" }}',
    )

"""Lines, columns and figures of a terminal."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from typing import IO

from rich.console import Console, ConsoleOptions
from rich.measure import Measurement
from rich.table import Table
from rich.text import Text

from boomwright.base import Notice, UnitSystem, feet_inches_sixteenths
from boomwright.base.owner_text import plain
from boomwright.base.quantity import KINDS, unit_of

#: columns of a page of text, and the fewest that tables are laid out for [characters]
WIDTH, _LEAST_WIDTH = 100, 60


def make_console(file: IO[str] | None = None) -> Console:
    """Make a console that prints plain text, as wide as the terminal up to a page; None prints."""
    console = Console(file=file, highlight=False, markup=False, emoji=False)
    known = console.is_terminal or "COLUMNS" in os.environ
    console.width = min(max(console.width, _LEAST_WIDTH), WIDTH) if known else WIDTH
    return console


def make_table(*headings: str) -> Table:
    """Make a table without rules, its first column to the left."""
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    for number, heading in enumerate(headings):
        table.add_column(heading, justify="left" if number == 0 else "right", overflow="fold")
    return table


#: stands for a blank at which no line breaks, until the lines are made
_TIED = "\ue000"
#: what stays with the figure before it
_UNITS = frozenset(
    unit.partition(" ")[0]
    for kind in KINDS
    for system in ("metric", "us")
    if (unit := unit_of(kind, system=system))
) | {"ft", "in", "lbf", "N", "kN"}


def _tied(text: str) -> str:
    """Tie every figure to its unit and its band."""
    made = ""
    for word in text.split(" "):
        known = word.rstrip(".,;:)") in _UNITS or word.startswith("±")
        made += (_TIED if known and made[-1:].isdigit() else " ") + word
    return made[1:]


class Words:
    """Text whose lines break between words, never between a figure and its unit or band."""

    def __init__(self, text: str, style: str) -> None:
        self._text = Text(_tied(text), style=style)

    def __rich_measure__(self, console: Console, options: ConsoleOptions) -> Measurement:
        return self._text.__rich_measure__(console, options)

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Text]:
        justify, overflow = options.justify, options.overflow
        for line in self._text.wrap(console, options.max_width, justify=justify, overflow=overflow):
            line.plain = line.plain.replace(_TIED, " ")
            yield line


def words(text: str, style: str = "") -> Words:
    """Make text of the owner fit for a terminal."""
    return Words(plain(text), style=style)


def print_notices(console: Console, notices: Iterable[Notice], *, system: UnitSystem) -> None:
    """Print notices, each with its severity."""
    for notice in notices:
        style = {"caution": "bold", "limit": "bold red"}.get(notice.severity, "")
        console.print(words(f"{notice.severity}: {notice.said(system)}", style=style))


def span_text(length: float, *, system: UnitSystem) -> str:
    """Write a boom length or a height.

    Returns:
        metres to the centimetre, or feet and inches [m or ft and in]
    """
    return f"{length:.2f} m" if system == "metric" else feet_inches_sixteenths(length)


def megahertz(frequency: float) -> str:
    """Write a frequency in megahertz.

    Returns:
        at least three decimals, more where they say something [MHz]
    """
    text = f"{frequency / 1e6:.6f}".rstrip("0")
    whole, _, decimals = text.partition(".")
    return f"{whole}.{decimals.ljust(3, '0')}"

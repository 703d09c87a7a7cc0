"""The fonts of the book: the same on every machine, whatever is installed there."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from importlib.resources import files

import typst

FONT_FAMILY = "Roboto"

# Scripts that Roboto and the type engine's built-in families draw between them; first and
# last code point of each Unicode block {unicode-blocks}.
_COVERED = (
    (0x0020, 0x007E),  # Basic Latin
    (0x00A0, 0x017F),  # Latin-1 Supplement, Latin Extended-A
    (0x0384, 0x03CE),  # Greek
    (0x0400, 0x045F),  # Cyrillic
    (0x2010, 0x2027),  # dashes, quotation marks, bullets
)
_COVERED_SINGLES = frozenset(
    "\u2032\u2033\u20ac\u2126\u2190\u2191\u2192\u2193\u2212\u221e\u2220\u2260\u2264"
)


def uncovered(text: str) -> str:
    """Find the characters that the book's own fonts cannot be relied on to hold."""

    def held(character: str) -> bool:
        code = ord(character)
        in_block = any(first <= code <= last for first, last in _COVERED)
        return character.isprintable() and (in_block or character in _COVERED_SINGLES)

    return "".join(sorted(c for c in set(text) if not c.isspace() and not held(c)))


def strings_in(data: object) -> Iterator[str]:
    """Walk through every string of nested lists and dictionaries."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from strings_in(value)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from strings_in(value)


@lru_cache(maxsize=2)
def book_fonts(*, machine_fonts: bool = False) -> typst.Fonts:
    """Gather the fonts: Roboto from its package and the type engine's built-in families.

    Args:
        machine_fonts: whether this machine's fonts may stand in for missing characters
    """
    folder = str(files("font_roboto").joinpath("files"))
    return typst.Fonts(
        include_system_fonts=machine_fonts, include_embedded_fonts=True, font_paths=[folder]
    )

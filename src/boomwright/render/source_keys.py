"""Keys of the register of sources among words: numbered in the book, left out elsewhere."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

#: a word that may be a key: lower case, figures, and at least one hyphen
_KEY: Final = r"[a-z][a-z0-9]*(?:-[a-z0-9]+)+"
_WORD: Final = re.compile(rf"(?<![\w./-]){_KEY}(?![\w/-])")
#: a number that stands alone in brackets of its own
_ALONE: Final = re.compile(r"\((\[\d+\])\)")
#: a key with what leads up to it
_LED: Final = re.compile(rf" \({_KEY}\)|(?<=from memory): {_KEY}|(?<=known published), {_KEY}")


def keys_in(text: str) -> frozenset[str]:
    """Find the words of a text that may be keys of the register."""
    return frozenset(_WORD.findall(text))


def cite(cell: str, /, *, numbers: Mapping[str, int]) -> str:
    """Put the numbers of sources in place of their keys."""

    def numbered(word: re.Match[str]) -> str:
        key = word.group()
        return f"[{numbers[key]}]" if key in numbers else key

    return _ALONE.sub(r"\1", _WORD.sub(numbered, cell))


def without_keys(text: str) -> str:
    """Leave the keys out: the owner reads names, and the list of sources is in the annex."""
    return _LED.sub("", text)

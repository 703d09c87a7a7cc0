"""Keys of the register of sources in tables and notices, printed as numbers of the book's list."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from boomwright.charts import ShownSubject
from boomwright.charts.blocks import Grid
from boomwright.report.chapter import Chapter

#: a word that may be a key: lower case, figures, and at least one hyphen
_WORD = re.compile(r"(?<![\w./-])[a-z][a-z0-9]*(?:-[a-z0-9]+)+(?![\w/-])")

#: a number that stands alone in brackets of its own
_ALONE = re.compile(r"\((\[\d+\])\)")


def keys_in(text: str) -> frozenset[str]:
    """Find the words of a text that may be keys of the register."""
    return frozenset(_WORD.findall(text))


def cited_cells(*, subjects: Sequence[ShownSubject], work: Sequence[Chapter]) -> frozenset[str]:
    """Gather every word of tables and notices that may be a key of the register."""
    tables = [table.table.rows for subject in subjects for table in subject.tables]
    tables += [block.rows for one in work for block in one.blocks if isinstance(block, Grid)]
    cells = {cell for rows in tables for row in rows for cell in row}
    cells |= {str(notice.text) for subject in subjects for notice in subject.notices}
    return frozenset().union(*(keys_in(cell) for cell in cells))


def cite(cell: str, /, *, numbers: Mapping[str, int]) -> str:
    """Put the numbers of sources in place of their keys."""

    def numbered(word: re.Match[str]) -> str:
        key = word.group()
        return f"[{numbers[key]}]" if key in numbers else key

    return _ALONE.sub(r"\1", _WORD.sub(numbered, cell))

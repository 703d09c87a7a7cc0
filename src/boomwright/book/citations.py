"""Keys of the register of sources that stand in tables, printed as numbers of the book's list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from boomwright.book.chapters import Chapter
from boomwright.figures import ShownSubject
from boomwright.figures.blocks import Grid

#: what stands before a key where a table says how a thing is known
_KNOWN = "published, "


def cited_cells(*, subjects: Sequence[ShownSubject], work: Sequence[Chapter]) -> frozenset[str]:
    """Gather every cell of the tables that may be a key of the register.

    Parameters
    ----------
    subjects
        subjects of the book [-]
    work
        chapters of work sheets [-]

    Returns
    -------
    frozenset of str
        cells of one word, keys among them [-]
    """
    tables = [table.table.rows for subject in subjects for table in subject.tables]
    tables += [block.rows for one in work for block in one.blocks if isinstance(block, Grid)]
    cells = {cell.removeprefix(_KNOWN) for rows in tables for row in rows for cell in row}
    return frozenset(cell for cell in cells if cell and " " not in cell)


def cite(cell: str, /, *, numbers: Mapping[str, int]) -> str:
    """Put a source's number in place of its key.

    Parameters
    ----------
    cell
        a cell of a table [-]
    numbers
        number of each source by key [-]

    Returns
    -------
    str
        the cell, a key in it replaced [-]
    """
    key = cell.removeprefix(_KNOWN)
    if key not in numbers:
        return cell
    return f"{cell[: len(cell) - len(key)]}[{numbers[key]}]"

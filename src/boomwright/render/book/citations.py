"""Keys of the register of sources in tables and notices, printed as numbers of the book's list."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.charts import ShownSubject
from boomwright.charts.blocks import Grid
from boomwright.render.source_keys import keys_in
from boomwright.report.chapter import Chapter


def cited_cells(*, subjects: Sequence[ShownSubject], work: Sequence[Chapter]) -> frozenset[str]:
    """Gather every word of tables and notices that may be a key of the register."""
    tables = [table.table.rows for subject in subjects for table in subject.tables]
    tables += [block.rows for one in work for block in one.blocks if isinstance(block, Grid)]
    cells = {cell for rows in tables for row in rows for cell in row}
    cells |= {str(notice.text) for subject in subjects for notice in subject.notices}
    return frozenset().union(*(keys_in(cell) for cell in cells))

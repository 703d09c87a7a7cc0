"""A small table of text: what stands behind a picture."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingTable:
    """A small table of text."""

    header: tuple[str, ...]  #: heads of the columns, with units (n_columns,)
    rows: tuple[tuple[str, ...], ...]  #: rows, as many texts as heads (n_rows, n_columns)

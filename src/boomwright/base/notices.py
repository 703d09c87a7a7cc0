"""Doubts and cautions as data: shown alike on the page, the command line and in the book."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["note", "doubt", "caution", "limit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """One thing the reader must know about a figure or a piece of work.

    ``note`` informs, ``doubt`` says a figure may be off, ``caution`` concerns people's
    health, ``limit`` says a stated limit is exceeded (exit status 3 under ``--strict``).

    Parameters
    ----------
    code
        short stable name such as ``solver.error-band-wide``
    text
        one or two plain sentences with what was seen and what to do
    severity
        one of ``note``, ``doubt``, ``caution``, ``limit``
    value
        what was seen, with its unit, or empty
    limit
        what it was held against, with its unit, or empty
    source
        key in ``docs/sources.toml`` or empty
    """

    code: str
    text: str
    severity: Severity = "note"
    value: str = ""
    limit: str = ""
    source: str = ""

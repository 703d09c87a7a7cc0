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
    """

    code: str  #: short stable name such as ``solver.error-band-wide``
    text: str  #: one or two plain sentences with what was seen and what to do
    severity: Severity = "note"  #: one of ``note``, ``doubt``, ``caution``, ``limit``
    value: str = ""  #: what was seen, with its unit, or empty
    limit: str = ""  #: what it was held against, with its unit, or empty
    source: str = ""  #: key in ``docs/sources.toml`` or empty

"""What every sheet has: a noun, a template, a context, and two stages of repainting.

The simplest sheet is a ``Sheet`` with noun, slug, template and context. Its template says
``{% extends "desk.html" %}`` and fills ``{% block sheet %}``; the frame around it (sheets,
plan view, four numbers, sliders, undo, saving) is there already, ``sheet`` is its context and
``frame`` the frame's. When the plan changes and the hand pauses, the block is written anew from
the context with ``whole=True`` and put in place of the old one. A typed field
(``parts.html``: ``field``) writes to the plan by its dotted place once that place is among
those that ``web/edits.py`` lets a window write. A sheet that must follow a hand more closely
gives ``quick`` and ``full`` itself, and its own module by filling ``{% block scripts %}``.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from boomwright.base.records import dataclass
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.view import View

#: JSON-ready answer to the browser
Paint = dict[str, Any]


class MakeContext(Protocol):
    """Builds the context dataclass of a sheet."""

    def __call__(self, desk: PlanDesk, view: View, *, whole: bool) -> Any:
        """Build it; ``whole`` waits for the figures of the whole band."""
        ...


def _nothing(desk: PlanDesk, view: View) -> Paint:
    return {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of the page."""

    noun: str  #: the trade's noun for its subject
    slug: str  #: its path, without slashes
    template: str  #: file name of its template
    context: MakeContext  #: builds its context dataclass
    doing: str = "Computing"  #: what is done while its reader waits
    #: computes and paints what must follow a drag
    quick: Callable[[PlanDesk, View], Paint] = _nothing
    #: computes and paints the rest; None has the sheet's block written anew
    full: Callable[[PlanDesk, View], Paint] | None = None
    #: says what share of long work under way is done; None for a sheet without such work
    progress: Callable[[PlanDesk], float | None] | None = None
    #: says how far the subject has come, without computing; None for a sheet that is no part of the
    #: job
    mark: Callable[[PlanDesk, View], Mark] | None = None

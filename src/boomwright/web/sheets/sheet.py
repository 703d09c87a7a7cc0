"""What every sheet has: a noun, a template, a context, and two stages of repainting."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Protocol

from boomwright.web.service import PlanDesk
from boomwright.web.view import View

#: JSON-ready answer to the browser
Paint = dict[str, Any]


class MakeContext(Protocol):
    """Builds the context dataclass of a sheet."""

    def __call__(self, desk: PlanDesk, view: View, *, whole: bool) -> Any:
        """Build it; ``whole`` waits for the figures of the whole band."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of the page.

    Parameters
    ----------
    noun
        the trade's noun for its subject [-]
    slug
        its path, without slashes [-]
    template
        file name of its template [-]
    context
        builds its context dataclass [-]
    quick
        computes and paints what must follow a drag [-]
    full
        computes and paints the rest [-]
    """

    noun: str
    slug: str
    template: str
    context: MakeContext
    quick: Callable[[PlanDesk, View], Paint]
    full: Callable[[PlanDesk, View], Paint]

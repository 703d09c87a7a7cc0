"""What a window asks for to get a better beam."""

from __future__ import annotations

from typing import Literal

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """Take the better beam that was found, or a point of the trade-off."""

    beam: int = 0  #: number of the beam, from 0
    #: curve of the trade-off and point along it, from 0; None for the beam that was found
    point: tuple[int, int] | None = None


ImproveAction = Literal["look", "start", "resume", "compare", "tolerate", "cancel"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Improve:
    """Look for a better beam; the plan stays as it is until one is taken."""

    #: ``look`` at what can be reached and was found, ``start`` a search, ``resume`` the one that
    #: was broken off, ``compare`` even with free spacing, find out how finely to build
    #: (``tolerate``), or ``cancel`` what is under way: the best so far is kept
    action: ImproveAction

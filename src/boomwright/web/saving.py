"""What the desk keeps of the past, and whether the plan is in its file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

SaveState = Literal["saved", "changed", "conflict", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A state of the text that can be returned to.

    Parameters
    ----------
    text
        the plan file [-]
    label
        what was done to leave it, e.g. ``reflector moved`` [-]
    """

    text: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Saving:
    """Whether the plan on the desk is in its file.

    Parameters
    ----------
    state
        ``saved``, ``changed`` (not yet written), ``conflict`` or ``failed`` [-]
    text
        the same in words [-]
    remedy
        what to do about it, or empty [-]
    """

    state: SaveState
    text: str
    remedy: str = ""

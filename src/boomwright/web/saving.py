"""What the desk keeps of the past, and whether the plan is in its file."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

SaveState = Literal["saved", "changed", "conflict", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A state of the text that can be returned to."""

    text: str  #: the plan file
    label: str  #: what was done to leave it, e.g. ``reflector moved``


@dataclass(frozen=True, slots=True, kw_only=True)
class Saving:
    """Whether the plan on the desk is in its file."""

    state: SaveState  #: ``saved``, ``changed`` (not yet written), ``conflict`` or ``failed``
    text: str  #: the same in words
    remedy: str = ""  #: what to do about it, or empty


def saving_of(
    *, lesson: bool, conflict: bool, failure: str, changed: bool, at: datetime | None
) -> Saving:
    """Say whether the plan is in its file.

    Parameters
    ----------
    lesson
        whether it belongs to a lesson, which has no file
    conflict
        whether the file was changed elsewhere
    failure
        why the last write failed, or empty
    changed
        whether the desk differs from the file
    at
        when it was written last; None for not yet
    """
    if lesson:
        return Saving(state="saved", text="a lesson, kept in memory only")
    if conflict:
        return Saving(
            state="conflict",
            text="not saved: the file was changed elsewhere",
            remedy="Take the file's version, or keep this one and write over the file; "
            "either way undo brings the other back. Until then this one is kept beside "
            "the file, under a name that ends in .unsaved.toml.",
        )
    if failure:
        return Saving(
            state="failed",
            text=f"not saved: {failure}",
            remedy="Your work is kept here; download the plan, or try again.",
        )
    if changed:
        return Saving(state="changed", text="saving …")
    return Saving(state="saved", text=f"saved {at:%H:%M:%S}" if at else "as in the file")

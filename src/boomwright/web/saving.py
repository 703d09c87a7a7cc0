"""What the desk keeps of the past, and whether the plan is in its file."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from boomwright.base.records import dataclass
from boomwright.session.price_list import Beside

SaveState = Literal["saved", "changed", "conflict", "gone", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A state of the text that can be returned to."""

    text: str  #: the plan file
    label: str  #: what was done to leave it, e.g. ``reflector moved``
    #: the change of a file beside the plan that returning makes; None when there is none
    beside: Beside | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Strange:
    """What stands in the plan file instead of what was read or written there last."""

    text: str | None  #: the content; None when there is no file
    usable: bool  #: whether it is a plan that can be used


@dataclass(frozen=True, slots=True, kw_only=True)
class Saving:
    """Whether the plan on the desk is in its file."""

    #: ``saved``, ``changed`` (not yet written), ``conflict`` (the file's version can be taken),
    #: ``gone`` (it cannot) or ``failed``
    state: SaveState
    text: str  #: the same in words
    remedy: str = ""  #: what to do about it, or empty


def saving_of(
    *,
    lesson: bool,
    strange: Strange | None,
    draft: str,
    failure: str,
    changed: bool,
    at: datetime | None,
) -> Saving:
    """Say whether the plan is in its file.

    Args:
        strange: what else stands in the file; None when nothing does
        draft: where the plan is kept meanwhile, or empty
        failure: why the file cannot be read or written, or empty
        at: when it was written last; None for not yet
    """
    if lesson:
        return Saving(state="saved", text="a lesson, kept in memory only")
    kept = f" Until then this one is kept as {draft}." if draft else ""
    if strange is not None and strange.usable:
        return Saving(
            state="conflict",
            text="not saved: the file was changed elsewhere",
            remedy="Take the file's version, or keep this one and write over the file; "
            f"either way undo brings the other back.{kept}",
        )
    if strange is not None:
        return Saving(
            state="gone",
            text="not saved: the plan file is gone"
            if strange.text is None
            else "not saved: the file is no usable plan now",
            remedy=(
                "It was deleted or moved. Keep this one to write it there again."
                if strange.text is None
                else "It was changed elsewhere. Keep this one to write over the file; what stands "
                "in it now is then kept beside it, under a name with .replaced in it."
            )
            + kept,
        )
    if failure:
        return Saving(
            state="failed",
            text=f"not saved: {failure}",
            remedy=f"Download the plan, or try again.{kept}",
        )
    if changed:
        return Saving(state="changed", text="saving …")
    return Saving(state="saved", text=f"saved {at:%H:%M:%S}" if at else "as in the file")

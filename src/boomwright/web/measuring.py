"""A measured sweep that was put beside the plan, named in the plan: one step of undo."""

from __future__ import annotations

from typing import Any, Literal, get_args

from boomwright.base import BoomwrightError
from boomwright.plan import rewrite
from boomwright.web.improve_edits import Take
from boomwright.web.service import PlanDesk
from boomwright.web.writing import Offer

#: what a sweep is to the plan: the first of the built beam, one after a change, or only a file
SweepRole = Literal["sweep", "trial", "file"]


class SweepRoleError(BoomwrightError):
    """A sweep that cannot be named in the plan, with the remedy."""


def read_role(text: str) -> SweepRole:
    """Read what a sweep is to be.

    Raises:
        SweepRoleError: when it is none of those known
    """
    for role in get_args(SweepRole):
        if text == role:
            found: SweepRole = role
            return found
    message = f"{text[:20]!r} says nothing of the sweep -> choose sweep, trial or file"
    raise SweepRoleError(message)


def refuse_role(desk: PlanDesk, role: SweepRole) -> None:
    """Refuse what the plan on the desk cannot take, before any file is written.

    Raises:
        SweepRoleError: when the plan cannot take it
    """
    if role == "file":
        return
    if desk.lesson is not None:
        message = "a lesson takes no measured sweep -> open a plan of your own first"
        raise SweepRoleError(message)
    if role == "trial" and desk.plan.measured is None:
        message = "a trial follows a first sweep, and the plan has none -> take it as the first"
        raise SweepRoleError(message)


def name_sweep(
    desk: PlanDesk, name: str, *, role: SweepRole, beam: int, as_advised: bool = False
) -> str:
    """Name a sweep in the plan.

    Args:
        beam: number of the beam it is of, from 0; counts for the first sweep
        as_advised: whether everything was moved as advised before this trial

    Raises:
        PlanError: when the plan refuses it
    """
    revision, plan = desk.snapshot()
    changes: dict[str, Any] = {}
    match role:
        case "file":
            return "it lies beside the plan"
        case "sweep":
            changes["measured.sweep"] = name
            if len(plan.beams) > 1:
                changes["measured.beam"] = plan.beams[beam].name
            said = "the plan names it as its measured sweep"
        case "trial":
            trials = len(plan.measured.trial) if plan.measured is not None else 0
            moved = desk.session.advised_moves(plan) if as_advised else ()
            said = f"the plan names it as trial {trials + 1}, with what was advised as moved"
            changes[f"measured.trial[{trials}]"] = {"sweep": name, "moved": list(moved)}
            if not moved:
                changes[f"measured.trial[{trials}]"] = {"sweep": name}
                said = f"the plan names it as trial {trials + 1}; say there what was moved"
    text = rewrite(desk.text, changes)
    desk.offer = Offer(revision=revision, text=text, label=f"measured sweep {name} taken in")
    desk.apply(Take(), gesture=0)
    return said

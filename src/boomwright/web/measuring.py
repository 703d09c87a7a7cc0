"""A measured sweep that was put beside the plan, named in the plan: one step of undo."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, get_args

from boomwright.base import BoomwrightError
from boomwright.plan import read_plan, rewrite
from boomwright.web.improve_edits import Take
from boomwright.web.service import PlanDesk
from boomwright.web.writing import Offer

#: what a sweep is to the plan: the first of the built beam, one after a change, or only a file
SweepRole = Literal["sweep", "trial", "file"]


#: what may be typed beside a sweep
TYPED = ("line", "length", "rise", "moved")


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
    raise SweepRoleError(
        f"{text[:20]!r} says nothing of the sweep", remedy="choose sweep, trial or file"
    )


def refuse_role(desk: PlanDesk, role: SweepRole) -> None:
    """Refuse what the plan on the desk cannot take, before any file is written.

    Raises:
        SweepRoleError: when the plan cannot take it
    """
    if role == "file":
        return
    if desk.lesson is not None:
        raise SweepRoleError(
            "a lesson takes no measured sweep", remedy="open a plan of your own first"
        )
    if role == "trial" and desk.plan.measured is None:
        raise SweepRoleError(
            "a trial follows a first sweep, and the plan has none", remedy="take it as the first"
        )


def sweep_offer(
    desk: PlanDesk, name: str, *, role: SweepRole, beam: int, typed: Mapping[str, str]
) -> tuple[Offer | None, str]:
    """Write a plan that names a sweep; nothing is changed yet.

    Args:
        beam: number of the beam it is of, from 0; counts for the first sweep
        typed: what was typed beside it, as text by key: ``line`` and ``length`` of a line,
            ``rise``; ``moved`` is ``advised`` where all was moved as advised

    Returns:
        the changed plan, None where the plan stays as it is
        what is said of it

    Raises:
        PlanError: when the plan refuses it
    """
    revision, plan = desk.snapshot()
    changes: dict[str, Any] = {}
    match role:
        case "file":
            return None, "it lies beside the plan"
        case "sweep":
            changes["measured.sweep"] = name
            if len(plan.beams) > 1:
                changes["measured.beam"] = plan.beams[beam].name
            said = "the plan names it as its measured sweep"
        case "trial":
            number = len(plan.measured.trial) if plan.measured is not None else 0
            row: dict[str, Any] = {"sweep": name}
            said = f"the plan names it as trial {number + 1}"
            moved = desk.session.advised_moves(plan) if typed.get("moved") == "advised" else ()
            if moved:
                row["moved"] = list(moved)
                said += ", with what was advised as moved"
            if typed.get("rise"):
                row["rise"] = typed["rise"]
            if not moved and not typed.get("rise"):
                said += "; say there what was moved"
            changes[f"measured.trial[{number}]"] = row
    if typed.get("line") or typed.get("length"):
        given = {"type": typed.get("line", ""), "length": typed.get("length", "")}
        changes["measured.line"] = {key: value for key, value in given.items() if value}
    text = rewrite(desk.text, changes)
    read_plan(text, source=desk.name)
    return Offer(revision=revision, text=text, label=f"measured sweep {name} taken in"), said


def take_offer(desk: PlanDesk, offer: Offer) -> None:
    """Take what was written, unless the plan has moved on.

    Raises:
        PlanError: when it has
    """
    desk.offer = offer
    desk.apply(Take(), gesture=0)

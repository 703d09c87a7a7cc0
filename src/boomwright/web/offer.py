"""A changed plan that lies ready to be taken, until the plan moves on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from boomwright.base import Fault, PlanError
from boomwright.web.improve_edits import Take

if TYPE_CHECKING:
    from boomwright.web.service import PlanDesk


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A changed plan that lies ready."""

    revision: int  #: state of the plan it was made from; with another one it is out of date
    text: str  #: the changed plan
    label: str  #: what taking it is called, e.g. ``better beam taken``


def taken(edit: Take, *, desk: PlanDesk) -> tuple[str, str]:
    """Take what lies ready, or a point of the trade-off.

    Raises
    ------
    PlanError
        when nothing lies ready, the plan was changed since, or there is no such point
    """
    if edit.point is not None:
        curve, number = edit.point
        label = f"{desk.beam(edit.beam).name} taken from the trade-off"
        changed = desk.tools.take_trade_off(desk.text, beam=edit.beam, curve=curve, number=number)
        return changed, label
    offer = desk.offer
    if offer is None or offer.revision != desk.revision:
        fault = Fault(
            path="beam",
            message="the plan was changed after the beam was found",
            remedy="search again",
        )
        raise PlanError((fault,))
    return offer.text, offer.label

"""A changed plan that lies ready to be taken, until the plan moves on."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.base import Fault, PlanError


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A changed plan that lies ready.

    Parameters
    ----------
    revision
        state of the plan it was made from; with another one it is out of date [-]
    text
        the changed plan [-]
    label
        what taking it is called, e.g. ``better beam taken`` [-]
    """

    revision: int
    text: str
    label: str


def offered(offer: Offer | None, *, revision: int) -> tuple[str, str]:
    """Take what lies ready.

    Parameters
    ----------
    offer
        what was laid ready, None for nothing [-]
    revision
        state of the plan now [-]

    Returns
    -------
    tuple of str
        the changed plan, and what taking it is called [-]

    Raises
    ------
    PlanError
        when there is nothing, or the plan was changed since
    """
    if offer is None or offer.revision != revision:
        fault = Fault(
            path="beam",
            message="the plan was changed after the beam was found",
            remedy="search again",
        )
        raise PlanError((fault,))
    return offer.text, offer.label

"""What a window names in the plan: a length as typed, or a part that is not there."""

from __future__ import annotations

from boomwright.base import Fault, PlanError
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.web.edits import Write


def typed_length(edit: Write, *, wavelength: float) -> float:
    """Read a length as typed.

    Parameters
    ----------
    wavelength
        wavelength that ``wl`` stands for [m]

    Returns
    -------
    float
        the length [m]

    Raises
    ------
    PlanError
        when it is no length
    """
    try:
        return parse_quantity(edit.text, "length", wavelength=wavelength)
    except QuantityError as error:
        fault = Fault(path=edit.place, message=error.message, value=edit.text, remedy=error.remedy)
        raise PlanError((fault,)) from None


def absent(place: str) -> Fault:
    """Say that the plan has no such part."""
    return Fault(
        path=place,
        message="the plan has no such part",
        remedy="reload the page; the plan was changed elsewhere",
    )

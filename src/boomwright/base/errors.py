"""The errors boomwright raises. Each names the place, the value and the remedy."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from boomwright.base.quantity import Value, phrase, write
from boomwright.base.records import dataclass, field

Made = TypeVar("Made")


class BoomwrightError(Exception):
    """Root of every error this package raises on purpose.

    Args:
        said: what is wrong; its words may hold quantities
        remedy: what to do instead; empty when there is nothing
        about: what it is about, where a reader may have named that already
    """

    def __init__(self, said: Value = "", *, remedy: Value = "", about: str = "") -> None:
        self.why, self.remedy = said, remedy
        self.fault = phrase("{about}: {why}", about=about, why=said) if about else said
        self.said = self.fault
        if remedy:
            self.said = phrase("{fault} -> {remedy}", fault=self.fault, remedy=remedy)
        super().__init__(write(self.said, system="metric"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault in a plan."""

    path: str  #: dotted place in the plan, e.g. ``beam[0].element[2].length``
    message: Value  #: what is wrong, in one sentence
    value: str = ""  #: the offending value as written, shortened
    remedy: Value = ""  #: what to write instead
    line: int = 0  #: line in the file, counted from 1, or 0 when unknown
    where: str = field(default="", compare=False)  #: the place in its owner's words, or empty
    missing: bool = field(default=False, compare=False)  #: whether nothing is written there


class PlanError(BoomwrightError):
    """A plan that cannot be used; carries every fault found, not just the first.

    Args:
        source: file name or ``-``
    """

    def __init__(self, faults: tuple[Fault, ...], *, source: str = "") -> None:
        self.faults = faults
        self.source = source
        super().__init__(f"{source or 'plan'}: {len(faults)} fault(s)")


def place_error(path: str, message: Value, *, remedy: Value, value: str = "") -> PlanError:
    """Make the error for one place of a plan.

    Args:
        value: offending value, or empty
    """
    return PlanError((Fault(path=path, message=message, remedy=remedy, value=value),))


def made_at(path: str, make: Callable[[], Made], *, remedy: Value) -> Made:
    """Make a room's value; a refusal becomes a fault at the place of the plan it came from.

    Args:
        path: place in the plan, e.g. ``site.wind_basis.edition``

    Raises:
        PlanError: when the room refuses
    """
    try:
        return make()
    except (BoomwrightError, ValueError) as error:
        said = error.said if isinstance(error, BoomwrightError) else str(error)
        raise place_error(path, said, remedy=remedy) from error


class SolverError(BoomwrightError):
    """A geometry or setting that the field solver refuses, with the reason and the remedy."""


class SaveConflictError(BoomwrightError):
    """The file was changed by someone else since it was last read here; nothing was written.

    Args:
        text: what is in the file now; None when it is gone
    """

    def __init__(self, text: str | None) -> None:
        self.text = text
        super().__init__("the file was changed elsewhere since it was last read here")

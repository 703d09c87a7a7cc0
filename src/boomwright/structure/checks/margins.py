"""The ledger: every check as demand against capacity, worst first, never a silent pass."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, isfinite, isnan
from typing import Literal

from boomwright.base import Finding
from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.structure.weather.basis import SpeedKind

Verdict = Literal["within", "exceeded", "not checked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """One line of the ledger."""

    name: Value  #: what was held against what
    #: load effect; None when it could not be found or has no finite value [unit]
    demand: float | None
    capacity: float | None  #: what it is held against; None when not known [unit]
    use: float | None  #: demand over capacity; None when there is none [-]
    unit: str  #: unit of demand and capacity
    basis: Value  #: kind of wind, exposure, edition, factor and rule behind it
    verdict: Verdict  #: ``within``, ``exceeded`` or ``not checked``
    change: Value = ""  #: what would help
    reason: Value = ""  #: why it was not checked, or what is special
    #: element that it is about by its label, ``boom of 20m``, ``mast``, a ring of guys; or empty
    part: str = ""
    whom: str = ""  #: who can settle it, or empty

    @property
    def finding(self) -> Finding:
        """What counts of it in the verdict of a plan; every line is about what holds it up."""
        return Finding(
            subject="structure",
            name=self.name,
            verdict=self.verdict,
            use=self.use,
            change=self.change,
            reason=self.reason,
            whom=self.whom,
            holds_up=True,
        )


def not_checked(*, name: Value, reason: Value, change: Value = "", basis: Value = "") -> Margin:
    """Write a line for a check that could not be made.

    Args:
        reason: what is missing, to follow the word ``because``
    """
    return Margin(
        name=name,
        demand=None,
        capacity=None,
        use=None,
        unit="",
        basis=basis,
        verdict="not checked",
        change=change,
        reason=reason,
    )


def margin(
    *,
    name: Value,
    demand: float,
    capacity: float | None,
    unit: str,
    basis: Value,
    change: Value = "",
    load_kind: SpeedKind | None = None,
    limit_kind: SpeedKind | None = None,
    missing: Value = "",
    part: str = "",
) -> Margin:
    """Hold a demand against a capacity of the same kind; ``not checked`` if anything is amiss.

    Args:
        demand: load effect [unit]
        capacity: what it is held against; None when unknown [unit]
        load_kind: kind of wind behind the demand, None when no wind is in it
        limit_kind: kind of wind the capacity is meant for, None when it has none
    """
    reason: Value = ""
    if load_kind and limit_kind and load_kind != limit_kind:
        reason = f"the load is from {load_kind} wind and the limit is for {limit_kind} wind"
    elif capacity is None:
        reason = missing or "its limit is not given"
    elif not (isfinite(capacity) and capacity > 0.0):
        reason = f"its limit of {capacity:g} {unit} is no limit"
    elif isnan(demand) or demand < 0.0:
        reason = "the sizes given lead to no sensible load: check them"
    if reason or capacity is None:
        return not_checked(name=name, reason=reason, change=change, basis=basis)
    use = demand / capacity
    finite = isfinite(use)
    return Margin(
        name=name,
        demand=demand if finite else None,
        capacity=capacity,
        use=use if finite else None,
        unit=unit,
        basis=basis,
        verdict="within" if use <= 1.0 else "exceeded",
        change=change,
        reason="" if finite else "more than any finite value",
        part=part,
    )


def _rank(line: Margin) -> tuple[int, float]:
    order = {"exceeded": 0, "not checked": 1, "within": 2}[line.verdict]
    return order, -(inf if line.use is None else line.use)


def worst_first(lines: Iterable[Margin]) -> tuple[Margin, ...]:
    """Order the ledger: exceeded, then not checked, then within; each by falling use."""
    return tuple(sorted(lines, key=_rank))

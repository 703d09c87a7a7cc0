"""Limits the owner looked up: height, setback, fall circle and swing circle."""

from __future__ import annotations

import math
from typing import Final

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.permits.findings import PermitFinding, Verdict, clearance
from boomwright.permits.heights import StructureHeights
from boomwright.permits.overhead import Overhead

_LOCAL: Final = "the local planning or zoning and building office"


@dataclass(frozen=True, slots=True, kw_only=True)
class LocalLimits:
    """Figures from a local rule, entered by the owner; None where the rule has none."""

    basis: str  #: ordinance, covenant or letter, with its paragraph
    dated: str  #: date of that text or of the enquiry
    whom_to_ask: str = _LOCAL  #: office that gave it
    maximum_height: float | None = None  #: highest part allowed above ground, or None [m]
    setback: float | None = None  #: least distance from tower to boundary, or None [m]
    setback_ratio: float | None = None  #: least distance to boundary over height, or None [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbourhood:
    """What stands around the tower's foot; None where not measured."""

    swing_radius: float  #: turning radius of the largest antenna [m]
    boundary_distance: float | None = None  #: tower to nearest boundary [m]
    walkway_distance: float | None = None  #: tower to nearest public way [m]
    overhead: tuple[Overhead, ...] = ()  #: roofs and ways that beams may pass over (n_places,)


def limit_use(value: float | None, limit: float, *, at_most: bool) -> float | None:
    """Share of a limit taken up: of the most that is allowed, or of the least that is asked.

    Args:
        value: height or distance of the installation; None when not measured [m]
        limit: what it is held against [m]
        at_most: True where more is over the limit, False where less is

    Returns:
        share; None where there is none [-]
    """
    if value is None or not (value > 0.0 and limit > 0.0):
        return None
    return value / limit if at_most else limit / value


def _compare(
    *, subject: str, value: float | None, limit: float, at_most: bool, limits: LocalLimits
) -> PermitFinding:
    limited = "at most {length}" if at_most else "at least {length}"
    verdict: Verdict = "not checked"
    shown: Value = ""
    text = "Measure the distance and enter it."
    if value is not None:
        kept = value <= limit if at_most else value >= limit
        verdict, shown, text = ("within" if kept else "exceeded"), clearance(value), ""
        if not kept:
            text = "Ask for a variance or permission before building, or change the plan."
    return PermitFinding(
        subject=subject,
        verdict=verdict,
        value=shown,
        limit=clearance(limit, limited),
        use=limit_use(value, limit, at_most=at_most),
        basis=limits.basis,
        whom_to_ask=limits.whom_to_ask,
        dated=limits.dated,
        text=text,
        seen="owner",
    )


def local_findings(
    *, limits: LocalLimits, heights: StructureHeights, around: Neighbourhood
) -> tuple[PermitFinding, ...]:
    """Hold the installation against the owner's own list of local limits.

    Returns:
        one finding for each limit; one saying ``ask`` when no limit was entered
    """
    top = heights.permanent_top
    findings: list[PermitFinding] = []
    if limits.maximum_height is not None:
        findings.append(
            _compare(
                subject="Height (local)",
                value=top,
                limit=limits.maximum_height,
                at_most=True,
                limits=limits,
            )
        )
    for subject, least in (
        ("Setback (local)", limits.setback),
        (
            "Setback by height (local)",
            None if limits.setback_ratio is None else limits.setback_ratio * top,
        ),
    ):
        if least is not None:
            findings.append(
                _compare(
                    subject=subject,
                    value=around.boundary_distance,
                    limit=least,
                    at_most=False,
                    limits=limits,
                )
            )
    return tuple(findings) or (
        PermitFinding(
            subject="Local limits",
            verdict="ask",
            value="",
            limit="none entered",
            basis=limits.basis,
            whom_to_ask=limits.whom_to_ask,
            dated=limits.dated,
            text="Look up height and setback for this plot; do not assume.",
            seen="owner",
        ),
    )


def _circle(
    *, subject: str, radius: float, distance: float | None, what: str, text: str
) -> PermitFinding:
    return PermitFinding(
        subject=subject,
        verdict="not checked" if distance is None else "within" if radius <= distance else "ask",
        value="" if distance is None else clearance(distance, f"{{length}} to the {what}"),
        limit=clearance(radius, "radius {length}"),
        basis="common practice; many local rules ask for it",
        whom_to_ask=_LOCAL,
        dated="common practice, undated",
        text=text,
        seen="common practice",
        source="common-practice-setback",
    )


def circle_findings(
    *, heights: StructureHeights, around: Neighbourhood
) -> tuple[PermitFinding, ...]:
    """Fall circle and swing circle against boundary and public way."""
    top, boundary = heights.permanent_top, around.boundary_distance
    fall = "A tower that falls should land on its own land; a guyed lattice usually falls "
    fall += "within less, but that is an argument, not a rule."
    swing = "Elements should not turn over a neighbour's land or a public way."
    return (
        _circle(
            subject="Fall circle",
            radius=math.hypot(top, around.swing_radius),
            distance=boundary,
            what="boundary",
            text=fall,
        ),
        _circle(
            subject="Fall circle, 1.1 times the height",
            radius=1.1 * top,
            distance=boundary,
            what="boundary",
            text=fall,
        ),
        _circle(
            subject="Swing circle at the boundary",
            radius=around.swing_radius,
            distance=boundary,
            what="boundary",
            text=swing,
        ),
        _circle(
            subject="Swing circle at the public way",
            radius=around.swing_radius,
            distance=around.walkway_distance,
            what="public way",
            text=swing,
        ),
    )

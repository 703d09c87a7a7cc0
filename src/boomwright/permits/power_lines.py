"""Distance to power lines: standing, turning, and over the whole fall arc.

Least distances: {cfr-29-1926-1408, Table A}. They are written for cranes near lines; here they are
the least for anything that stands, turns, is lifted or may fall. The owner of the line decides.
"""

from __future__ import annotations

import math
from typing import Final

from boomwright.base.records import dataclass
from boomwright.permits.findings import METRES_PER_FOOT, PermitFinding, Verdict, clearance

#: upper voltage [V], least distance [ft] {cfr-29-1926-1408, Table A}
TABLE_A: Final = (
    (50e3, 10.0),
    (200e3, 15.0),
    (350e3, 20.0),
    (500e3, 25.0),
    (750e3, 35.0),
    (1000e3, 45.0),
)
#: presumed distance over 350 kV [ft] {cfr-29-1926-1409}
OVER_350_KV_FT: Final = 50.0
#: presumed distance when the voltage is unknown [ft] {cfr-29-1926-1408, (a)(2)(ii)}
UNKNOWN_VOLTAGE_FT: Final = 20.0
#: times the height: how far away a tower is better put {common-practice-power-lines}
ADVISED_HEIGHT_RATIO: Final = 1.5

_UTILITY: Final = "the owner of the power line (before any work; it can switch off or move it)"


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerLine:
    """An overhead line near the tower."""

    name: str  #: owner's name for it
    distance: float  #: horizontal distance from the tower's foot to the nearest conductor [m]
    #: height of that conductor above the tower's foot; the lowest one if there are several [m]
    height: float
    voltage: float | None = None  #: line voltage; None when unknown [V]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineClearance:
    """Least distance to a power line."""

    distance: float  #: least distance to any conductor [m]
    basis: str  #: rule it comes from


def table_a_distance(*, voltage: float) -> float:
    """Least distance from Table A {cfr-29-1926-1408, Table A} [m].

    Args:
        voltage: line voltage [V]

    Raises:
        ValueError: above 1000 kV, where the line's owner or an engineer sets it
    """
    for upper, feet in TABLE_A:
        if voltage <= upper:
            return feet * METRES_PER_FOOT
    msg = f"Table A ends at 1000 kV and the line has {voltage / 1e3:g} kV: ask the line's owner"
    raise ValueError(msg)


def least_clearance(*, voltage: float | None) -> LineClearance:
    """Least distance to use, the cautious one where the rules leave a choice.

    Args:
        voltage: line voltage; None when unknown [V]

    Returns:
        20 ft when unknown, Table A to 350 kV, 50 ft above
    """
    if voltage is None:
        return LineClearance(
            distance=UNKNOWN_VOLTAGE_FT * METRES_PER_FOOT,
            basis="29 CFR 1926.1408(a)(2)(ii), voltage unknown, taken as not above 350 kV",
        )
    table = table_a_distance(voltage=voltage)
    if voltage > 350e3:
        return LineClearance(
            distance=OVER_350_KV_FT * METRES_PER_FOOT, basis="29 CFR 1926.1409, over 350 kV"
        )
    return LineClearance(distance=table, basis="29 CFR 1926.1408 Table A")


def standing_gap(*, line: PowerLine, height: float, swing_radius: float) -> float:
    """Distance from the turning antenna, standing, to the conductor.

    Args:
        height: highest part of the installation [m]
        swing_radius: turning radius of the largest antenna [m]

    Returns:
        distance to an upright cylinder around everything that turns; 0 inside it [m]
    """
    return math.hypot(max(0.0, line.distance - swing_radius), max(0.0, line.height - height))


def fall_gap(*, line: PowerLine, height: float, swing_radius: float) -> float:
    """Distance from the conductor to all places a falling tower can reach.

    Args:
        height: highest part of the installation [m]
        swing_radius: turning radius of the largest antenna [m]

    Returns:
        distance to the fall arc about the foot; 0 inside it [m]

    Notes:
        The farthest part is an element tip at the top, at ``hypot(height, swing_radius)`` from the
        foot, and the tower turns over about its foot in any direction.
    """
    reach = math.hypot(height, swing_radius)
    return max(0.0, math.hypot(line.distance, line.height) - reach)


def _gap_finding(
    *, subject: str, gap: float, least: LineClearance, text: str, unknown: bool
) -> PermitFinding:
    verdict: Verdict = "exceeded" if gap < least.distance else "ask" if unknown else "within"
    return PermitFinding(
        subject=subject,
        verdict=verdict,
        value=clearance(gap, "{length} to the conductor"),
        use=least.distance / gap if gap > 0.0 else None,
        limit=clearance(least.distance, "at least {length}"),
        basis=least.basis,
        whom_to_ask=_UTILITY,
        dated="29 CFR part 1926, text as known in 2024",
        text=text,
        source="cfr-29-1926-1408",
    )


def power_line_findings(
    line: PowerLine, *, height: float, swing_radius: float
) -> tuple[PermitFinding, ...]:
    """Hold one power line against the standing, the falling and the advised distance.

    Args:
        height: highest part of the installation, crane included [m]
        swing_radius: turning radius of the largest antenna [m]
    """
    unknown = line.voltage is None
    least = least_clearance(voltage=line.voltage)
    advised = ADVISED_HEIGHT_RATIO * height
    return (
        _gap_finding(
            subject=f"{line.name}: standing and turning",
            gap=standing_gap(line=line, height=height, swing_radius=swing_radius),
            least=least,
            text="Every part that turns counts, ropes, ladders and lift arms too.",
            unknown=unknown,
        ),
        _gap_finding(
            subject=f"{line.name}: whole fall arc",
            gap=fall_gap(line=line, height=height, swing_radius=swing_radius),
            least=least,
            text="If it can fall onto the line it can kill: choose another place or ask "
            "for the line to be moved.",
            unknown=unknown,
        ),
        PermitFinding(
            subject=f"{line.name}: advised distance",
            verdict="exceeded" if line.distance < advised else "within",
            value=clearance(line.distance),
            use=advised / line.distance if line.distance > 0.0 else None,
            limit=clearance(advised, "at least {length} advised"),
            basis=f"{ADVISED_HEIGHT_RATIO:g} times the height, common practice",
            whom_to_ask=_UTILITY,
            dated="common practice, undated",
            text="Advice, not law. Lines sag more when hot or iced and swing in wind.",
            seen="common practice",
            source="common-practice-power-lines",
        ),
    )

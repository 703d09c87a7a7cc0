"""Figures for people who climb: fall arrest, anchors, clearance below.

{cfr-29-1926-502, (d)}. Written for employers; a volunteer's body breaks alike.
Climbing is learnt from a trainer, not from a figure.
"""

from __future__ import annotations

from typing import Final

from boomwright.base.records import dataclass

_FOOT: Final = 0.3048
_POUND_FORCE: Final = 4.4482216152605

#: largest arresting force on the body in a harness [N] {cfr-29-1926-502, (d)(16)(ii)}
MAXIMUM_ARREST_FORCE: Final = 1800.0 * _POUND_FORCE
#: largest free fall [m] {cfr-29-1926-502, (d)(16)(iii)}
MAXIMUM_FREE_FALL: Final = 6.0 * _FOOT
#: largest deceleration distance [m] {cfr-29-1926-502, (d)(16)(iv)}
MAXIMUM_DECELERATION: Final = 3.5 * _FOOT
#: anchor strength for each person, unless a qualified person shows a factor of two [N]
#: {cfr-29-1926-502, (d)(15)}
ANCHOR_STRENGTH: Final = 5000.0 * _POUND_FORCE
#: harness stretch and the body below the ring [m] {common-practice-climbing}
BODY_BELOW_RING: Final = 5.0 * _FOOT
#: margin above whatever is below [m] {common-practice-climbing}
CLEARANCE_MARGIN: Final = 3.0 * _FOOT


@dataclass(frozen=True, slots=True, kw_only=True)
class FallFigures:
    """Figures for the climbers' sheet."""

    arrest_force: float  #: largest arresting force [N]
    free_fall: float  #: largest free fall [m]
    deceleration: float  #: largest deceleration distance [m]
    anchor_strength: float  #: anchor strength for all people on it [N]
    clearance_below: float  #: clear height needed below the anchor's level [m]


def fall_figures(*, people_on_anchor: int = 1) -> FallFigures:
    """Collect the fall-arrest figures."""
    return FallFigures(
        arrest_force=MAXIMUM_ARREST_FORCE,
        free_fall=MAXIMUM_FREE_FALL,
        deceleration=MAXIMUM_DECELERATION,
        anchor_strength=ANCHOR_STRENGTH * people_on_anchor,
        clearance_below=MAXIMUM_FREE_FALL
        + MAXIMUM_DECELERATION
        + BODY_BELOW_RING
        + CLEARANCE_MARGIN,
    )

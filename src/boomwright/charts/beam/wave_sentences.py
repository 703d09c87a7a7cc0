"""What the currents say about the wave, in plain sentences made from the numbers."""

from __future__ import annotations

import cmath
import math

from boomwright.base.quantity import Quantity, write
from boomwright.reach import Share, WavePicture

#: a share this much or less of the total is called next to nothing
_LITTLE = 0.04


def share_sentence(picture: WavePicture, number: int) -> str:
    """Say what one element carries and what its wave does forward and backward."""
    share = picture.shares[number]
    total = sum(each.forward for each in picture.shares)
    part = (share.forward * total.conjugate()).real / abs(total) ** 2
    if share.role == "driven":
        if len(picture.shares) == 1:
            return "It sends as much backward as forward: nothing stands beside it."
        return (
            f"The other currents are compared with its own; "
            f"it brings {_percent(part)} of the wave forward."
        )
    head = "" if share.role == "wires" else f"Its current is {_current_words(share)}; "
    return f"{head}its wave {_forward_words(part)} and {_backward_words(share)}."


def _current_words(share: Share) -> str:
    angle = math.degrees(cmath.phase(share.current))
    if abs(angle) < 0.5:
        phase = "in step with it"
    else:
        phase = (
            f"{'leading' if angle > 0.0 else 'lagging'} by {_written(abs(angle), 'whole angle')}"
        )
    return f"{abs(share.current):.2f} times the driven element's, {phase}"


def _percent(part: float) -> str:
    return _written(part, "share")


def _written(value: float, kind: str) -> str:
    # Shares, angles and ratios are the same in both systems.
    return write(Quantity(value, kind), system="metric")


def _forward_words(part: float) -> str:
    if abs(part) <= _LITTLE:
        return "changes next to nothing forward"
    if part > 0.0:
        return f"brings {_percent(part)} of the total forward"
    return f"takes {_percent(-part)} of the total away forward"


def _backward_words(share: Share) -> str:
    # Held against the driven element's own wave, which runs backward with phase 0.
    along = share.backward.real
    if abs(along) <= _LITTLE:
        return "neither helps nor opposes the driven element backward"
    verb = "opposes" if along < 0.0 else "adds to"
    return f"{verb} the driven element backward ({abs(along):.2f} of its wave)"


def wave_sentence(picture: WavePicture) -> str:
    """Say in one sentence how the waves add up forward and backward."""
    ahead = sum(share.forward for share in picture.shares)
    behind = sum(share.backward for share in picture.shares)
    if len(picture.shares) == 1:
        return "One element alone: the wave leaves it alike forward and backward."
    ratio = 20.0 * math.log10(abs(ahead) / max(abs(behind), 1e-6 * abs(ahead)))
    if abs(behind) > abs(ahead):
        return (
            f"Along the horizon this beam fires backward: {abs(behind):.2f} times what the driven "
            f"element sends alone, against {abs(ahead):.2f} forward."
        )
    return (
        f"Along the horizon the waves add up to {abs(ahead):.2f} times what the driven element "
        f"sends alone forward, and leave {abs(behind):.2f} of it backward: "
        f"{_written(ratio, 'ratio')} between the two."
    )

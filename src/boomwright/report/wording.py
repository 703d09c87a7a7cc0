"""How numbers, bands and owner's text are written in the book."""

from __future__ import annotations

import math

from boomwright.parts import Beam

NOT_COMPUTED = "not computed"
#: how the joint that sets a tip is held: nothing slides on the stands, and nothing goes up clamped
CLAMPED = "a hose clamp until the SWR check on stands is passed, then rivets"
#: what is done with a joint that was moved
AGAIN = "rivet each moved joint again, clear of old holes"
RIVET = "rivet every joint that a hose clamp still holds, and take the clamp off"


def clean(text: str) -> str:
    """Put owner's text on one line and drop control characters; nothing else changes."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def shortened(text: str, *, limit: int) -> str:
    """Cut text to so many characters, with an ellipsis where something is missing."""
    return text if len(text) <= limit else text[: limit - 1].rstrip() + "…"


def first_upper(text: str) -> str:
    """Begin a text with a capital and leave the rest as it is."""
    return text[:1].upper() + text[1:]


def has_joints(beam: Beam) -> bool:
    """Whether tubes that slide into each other set the tips of an element."""
    return any(len(each.half) > 1 and not each.bent for each in beam.elements)


def held_at(beam: Beam) -> str:
    """Name where the plan counts a beam's height from; empty for the middle of hung wire."""
    if beam.upright:
        return "foot"
    if beam.frame is not None and beam.frame.hub is not None:
        return "hub"
    return "" if beam.hung else "boom"


def surrounded(beam: Beam) -> str:
    """Say where the figures without the owner's ground hold: some are fed against the ground."""
    return "over perfect ground" if beam.stands_on_ground else "in free space"


def height_label(beam: Beam) -> str:
    """Label of a beam's height."""
    at = held_at(beam)
    return f"Height of {at}" if at else "Height above ground"


def fixed(value: float, decimals: int) -> str:
    """Write a number with fixed decimals and a true minus sign.

    Args:
        value: the number [any unit]

    Returns:
        the number, ``∞`` or ``not computed`` [same unit]
    """
    if math.isnan(value):
        return NOT_COMPUTED
    if math.isinf(value):
        return "∞" if value > 0 else "−∞"
    text = f"{value:.{decimals}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    return text.replace("-", "−")


def megahertz(frequency: float) -> str:
    """Write a frequency in megahertz [MHz]."""
    return f"{fixed(frequency / 1e6, 3)} MHz"

"""Numbers with their noun, as the drivers of a bill say them."""

from __future__ import annotations


def counted(number: float, noun: str) -> str:
    """Write a number with its noun.

    Args:
        number: [-]
    """
    return f"{number:g} {noun}" if number == 1 else f"{number:g} {noun}s"

"""Contrast of two colours."""

from __future__ import annotations


def _luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast_ratio(first: str, second: str) -> float:
    """Contrast of two colours {wcag-2-2, definition of contrast ratio}.

    Args:
        first: one colour, ``#rrggbb``

    Returns:
        (L1 + 0.05) / (L2 + 0.05), L1 the lighter relative luminance, 1..21 [-]
    """
    darker, lighter = sorted((_luminance(first), _luminance(second)))
    return (lighter + 0.05) / (darker + 0.05)

"""Owner's text made harmless: on one line, without control characters."""

from __future__ import annotations


def plain(text: str) -> str:
    """Make owner's text harmless to a terminal: one line, no control characters."""
    return "".join(c if c.isprintable() else " " for c in text)

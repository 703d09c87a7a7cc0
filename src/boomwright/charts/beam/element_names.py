"""What the elements of a beam are called on paper."""

from __future__ import annotations

from boomwright.parts import Beam


def element_labels(beam: Beam) -> tuple[str, ...]:
    """Name the elements: a role alone when it is the only one, directors always numbered."""
    return beam.element_labels

"""What the elements of a beam are called on paper."""

from __future__ import annotations

from collections import Counter

from boomwright.parts import Beam


def element_labels(beam: Beam) -> tuple[str, ...]:
    """Name the elements: a role alone when it is the only one, directors always numbered."""
    totals = Counter(element.role for element in beam.elements)
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    seen: Counter[str] = Counter()
    names = [""] * len(order)
    for i in order:
        role = beam.elements[i].role
        seen[role] += 1
        numbered = role == "director" or totals[role] > 1
        names[i] = f"{role} {seen[role]}" if numbered else role
    return tuple(names)

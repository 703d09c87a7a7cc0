"""What the mounts of a beam do to it, in words."""

from __future__ import annotations

from boomwright.base import Notice, both_quantities
from boomwright.parts import Beam, Element
from boomwright.solver import MountEffect, acts_longer, mount_effect

#: kinds whose published corrections differ most
_DISPUTED = "through"


def mount_notices(*, beam: Beam) -> tuple[Notice, ...]:
    """Say which mounts are in the figures, what they do, and how well that is known."""
    held: dict[str, list[tuple[str, Element, MountEffect]]] = {}
    for label, element in zip(beam.element_labels, beam.elements, strict=True):
        effect = mount_effect(element=element, wavelength=beam.wavelength)
        if element.mount is not None and effect is not None and effect.inductance != 0.0:
            held.setdefault(element.mount.kind, []).append((label, element, effect))
    notices = [_shifts(kind, members) for kind, members in held.items()]
    for kind, members in held.items():
        unchecked = dict.fromkeys(text for _, _, effect in members for text in effect.unchecked)
        if unchecked:
            notices.append(
                Notice(
                    code="solver.mount-unchecked",
                    severity="doubt",
                    text=(
                        f"Elements {_words(kind)}: {', '.join(unchecked)} lies outside what the "
                        "correction was checked for. Its error band is doubled; measure the "
                        "finished beam."
                    ),
                )
            )
    return tuple(notices)


def _words(kind: str) -> str:
    return f"{kind} the boom"


def _shifts(kind: str, members: list[tuple[str, Element, MountEffect]]) -> Notice:
    shifts = ", ".join(
        f"{label} {_length(-acts_longer(inductance=effect.inductance, element=element))}"
        for label, element, effect in members
    )
    widest = max(
        acts_longer(inductance=effect.half_width, element=element) for _, element, effect in members
    )
    text = (
        f"Held {_words(kind)}, elements act shorter than they are cut, and the figures count that: "
        f"{shifts}. It is known to ± {_length(widest)}, which is in the error bands."
    )
    if kind.endswith(_DISPUTED):
        text += " Published corrections differ up to threefold: measure before the last cut."
    return Notice(code="solver.mount", text=text)


def _length(length: float) -> str:
    return both_quantities(1e3 * length, unit="mm", form=".1f", us_form=".2f")

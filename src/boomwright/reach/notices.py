"""What the reader must know beside the figures of a beam."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, listed, phrase
from boomwright.parts import Beam, Element
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.readings import OverGround
from boomwright.solver import (
    LEAST_RADIALS,
    MountEffect,
    PatternCut,
    SweepPoint,
    acts_longer,
    mount_effect,
)

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
    shifts = [
        phrase(
            "{label} {by}",
            label=label,
            by=_length(-acts_longer(inductance=effect.inductance, element=element)),
        )
        for label, element, effect in members
    ]
    widest = max(
        acts_longer(inductance=effect.half_width, element=element) for _, element, effect in members
    )
    words = (
        f"Held {_words(kind)}, elements act shorter than they are cut, and the figures count that: "
        "{shifts}. It is known to ± {widest}, which is in the error bands."
    )
    if kind.endswith(_DISPUTED):
        words += " Published corrections differ up to threefold: measure before the last cut."
    text = phrase(words, shifts=listed(shifts), widest=_length(widest))
    return Notice(code="solver.mount", text=text)


def _length(length: float) -> Quantity:
    return Quantity(length, "small length")


#: power balance beyond which the solution is doubted [-]
_BALANCE_LIMIT = 1e-3
#: lobes forward and behind that differ by less are alike [dB]
_AS_STRONG_DB = 0.5
#: what the model leaves out
_NO_MOUNTS = (
    "Boom, clamps, balun and coaxial braid are not in it: elements bolted to a metal boom need a "
    "correction, and the braid needs a choke."
)
_MOUNTS = (
    "Boom, plates and clamps are in it by the mounts of the plan. Balun and coaxial braid are not: "
    "the braid needs a choke."
)


def _upright_notices(beam: Beam) -> tuple[Notice, ...]:
    """What stands behind the figures of a vertical on the ground."""
    if not beam.stands_on_ground or beam.radials is None:
        return ()
    few = beam.radials.count < LEAST_RADIALS
    more = f" With fewer than {LEAST_RADIALS} radials the model is a guide only." if few else ""
    return (
        Notice(
            code="solver.ground-screen",
            severity="doubt" if few else "note",
            text="The loss in soil and radials comes from a simple model: the true loss may be "
            "half of it or twice as much. Figures for free space stand over a perfect plane."
            f"{more}",
            source="wait-pope-1954",
        ),
    )


def _phasing_notices(beam: Beam) -> tuple[Notice, ...]:
    if len(beam.driven_indices) < 2:
        return ()
    return (
        Notice(
            code="solver.phasing-lines",
            text="The phasing lines are taken as without loss, and their braids as carrying no "
            "current: choke each at its element. Cut them by electrical length, with an analyser.",
        ),
    )


def reading_notices(
    *,
    beam: Beam,
    sweep: Sequence[SweepPoint],
    balance: float,
    over_ground: OverGround | None,
) -> tuple[Notice, ...]:
    """Collect doubts and cautions about a beam's readings.

    Args:
        sweep: figures of the beam (f,)
        balance: power balance at the design frequency [-]
        over_ground: what it does over its ground; None in free space
    """
    unsaid = any(element.mount is None and not element.bent for element in beam.elements)
    notices = [
        Notice(
            code="solver.model",
            text=(
                "The model holds the tubes with closed ends, their steps and the feed gap. "
                f"{_NO_MOUNTS if unsaid else _MOUNTS}"
            ),
        ),
        *mount_notices(beam=beam),
        *_upright_notices(beam),
        *_phasing_notices(beam),
    ]
    if abs(balance) > _BALANCE_LIMIT:
        notices.append(
            Notice(
                code="solver.power-balance",
                severity="doubt",
                text="Radiated and accepted power disagree: the figures of this beam are doubtful.",
                value=f"{balance:.1e}",
                limit=f"{_BALANCE_LIMIT:.0e}",
            )
        )
    if over_ground is not None:
        behind = fires_behind(beam=beam, cut=over_ground.elevation_pattern)
        notices += behind
        if not behind and len(beam.elements) > 1 and not over_ground.fires_forward:
            notices.append(_fires_elsewhere(over_ground))
    weakest = min(point.efficiency for point in sweep)
    if weakest < 0.9:
        notices.append(
            Notice(
                code="solver.low-efficiency",
                severity="doubt",
                text="Part of the power heats the elements: thicker tubes or wider spacing help.",
                value=f"efficiency {weakest:.2f}",
                limit="0.90",
            )
        )
    notices.append(
        Notice(
            code="safety.rf-and-height",
            severity="caution",
            text=(
                "Keep people away from the elements and the feed while transmitting and check the "
                "exposure limits of your country. Stay clear of power lines with every part, rope "
                "and ladder. Working at height is for trained people; local codes and licensed "
                "practice overrule this page."
            ),
            source="common-practice-safety",
        )
    )
    return tuple(notices)


def fires_behind(*, beam: Beam, cut: PatternCut) -> tuple[Notice, ...]:
    """Say where the main lobe of a beam is when it does not stand towards the heading.

    Args:
        cut: elevations from 0 through 180 degrees over its ground
    """
    best = int(np.argmax(cut.gain_dbi))
    ahead = int(np.argmax(np.where(cut.angle_deg <= 90.0, cut.gain_dbi, -np.inf)))
    angle, gain, most = cut.angle_deg[best], cut.gain_dbi[best], cut.gain_dbi[ahead]
    lobes, _ = forward_lobes(elevation_deg=cut.angle_deg, gain_dbi=cut.gain_dbi)
    if angle <= 90.0 or (lobes and gain < most + _AS_STRONG_DB):
        return ()
    text = (
        f"{beam.name} does not fire forward over its ground: its main lobe stands "
        f"{180.0 - angle:.0f}° above the horizon behind it, with {gain:.1f} dBi. Towards the "
        f"heading it has at most {most:.1f} dBi, at {cut.angle_deg[ahead]:.0f}°. Tune its "
        "elements, or raise it."
    )
    return (Notice(code="reach.fires-behind", severity="doubt", text=text),)


def _fires_elsewhere(over: OverGround) -> Notice:
    main = over.main_lobe
    return Notice(
        code="reach.fires-elsewhere",
        severity="doubt",
        text=(
            f"The beam does not fire forward at its design frequency: its strongest lobe points "
            f"{main.way}, {main.gain_dbi:.1f} dBi at {main.elevation_deg:.0f}° elevation. A beam "
            "this low fires up; otherwise look at the lengths of reflector and directors."
        ),
        value=f"{over.peak_gain_dbi:.1f} dBi ahead",
    )

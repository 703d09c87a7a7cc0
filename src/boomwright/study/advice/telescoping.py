"""Elements of one diameter made of telescoping tubes that act alike."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.quantity import Quantity, phrase
from boomwright.parts import Beam, Element, Feed, TubeSection
from boomwright.solver import FREE_SPACE, Preparer, prepare_run, solve_beam, working_detail
from boomwright.study.advice.table import TaperRow

#: reactances are met within this [ohm]
_TOLERANCE = 0.2
#: steps of the secant, which needs three or four
_STEPS = 8
#: change of a half length for the first slope, as a share of it [-]
_FIRST_STEP = 0.01
#: shortest tip that can be clamped [m] {common-practice-stations}
SHORTEST_TIP = 0.15
#: width of the gap that the elements are compared with, each by itself [m]
_GAP = 0.02


def telescoped(beam: Beam, taper: TaperRow, *, prepare: Preparer = prepare_run) -> Beam:
    """Make every element of tubes that slide into each other.

    Tubes in steps act shorter or longer than a tube of one diameter. Each new element has, by
    itself in free space at the design frequency, the reactance of the one that it replaces; its
    coupling to the others goes with its length and place, which hardly change.

    Args:
        beam: elements of one diameter
        taper: the tubes, boom outwards; only the last is cut
    """
    elements = tuple(_made(element, beam, taper, prepare) for element in beam.elements)
    return replace(beam, elements=elements)


def _made(element: Element, beam: Beam, taper: TaperRow, prepare: Preparer) -> Element:
    wanted = reactance_alone(element, beam, prepare)
    now = element.half_length
    off = reactance_alone(_cut(element, taper, now), beam, prepare) - wanted
    step = _FIRST_STEP * now
    for _ in range(_STEPS):
        if abs(off) < _TOLERANCE:
            return _cut(element, taper, round(now, 3))
        before, off_before = now, off
        now += step
        off = reactance_alone(_cut(element, taper, now), beam, prepare) - wanted
        step = -off * (now - before) / (off - off_before)
    message = f"{beam.name}: no tip makes these tubes act like one of a single diameter"
    raise BoomwrightError(message)


def _cut(element: Element, taper: TaperRow, half: float) -> Element:
    """Tubes of a taper, the last one cut so that the half has its length [m]."""
    tubes = [TubeSection(diameter=d, length=long, wall=wall) for d, long, wall in taper.half]
    while len(tubes) > 1 and half - sum(tube.length for tube in tubes[:-1]) < SHORTEST_TIP:
        tubes.pop()
    tip = half - sum(tube.length for tube in tubes[:-1])
    if not tip >= SHORTEST_TIP or half > taper.longest:
        raise BoomwrightError(
            phrase(
                "a half element of {half} cannot be made of tubes for {longest}",
                half=Quantity(half, "span"),
                longest=Quantity(taper.longest, "span"),
            )
        )
    return replace(element, half=(*tubes[:-1], replace(tubes[-1], length=tip)))


def reactance_alone(element: Element, beam: Beam, prepare: Preparer) -> float:
    """Reactance of an element by itself in free space, fed in its middle [ohm]."""
    alone = replace(
        beam.alone,
        elements=(replace(element, role="driven", position=0.0),),
        feed=Feed(kind="split", gap=_GAP),
        wires=(),
    )
    solution = solve_beam(
        beam=alone,
        frequencies=np.array([beam.design_frequency]),
        detail=working_detail(frequency=max(beam.band)),
        ground=FREE_SPACE,
        prepare=prepare,
    )
    return float(solution.impedance[0].imag)

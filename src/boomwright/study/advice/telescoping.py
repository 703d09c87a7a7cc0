"""Elements of one diameter made of telescoping tubes that act alike."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import BoomwrightError
from boomwright.base.quantity import Quantity, phrase
from boomwright.parts import Beam, Element, Feed
from boomwright.solver import FREE_SPACE, Preparer, prepare_run
from boomwright.study.advice.table import TaperRow
from boomwright.study.shapes import feed_reactance

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
    tubes = taper.tubes
    while len(tubes) > 1 and half - sum(tube.length for tube in tubes[:-1]) < SHORTEST_TIP:
        tubes.pop()
    tip = half - sum(tube.length for tube in tubes[:-1])
    if not tip >= SHORTEST_TIP or half > taper.longest:
        raise too_long(half, taper)
    return replace(element, half=(*tubes[:-1], replace(tubes[-1], length=tip)))


def too_long(half: float, taper: TaperRow) -> BoomwrightError:
    """Refuse a half element that is longer than its tubes are made for.

    Args:
        half: its length [m]
    """
    return BoomwrightError(
        phrase(
            "a half element of {half} cannot be made of tubes for {longest}",
            half=Quantity(half, "span"),
            longest=Quantity(taper.longest, "span"),
        )
    )


def reactance_alone(element: Element, beam: Beam, prepare: Preparer) -> float:
    """Reactance of an element by itself in free space, fed in its middle [ohm]."""
    alone = replace(
        beam.alone,
        elements=(replace(element, role="driven", position=0.0),),
        feed=Feed(kind="split", gap=_GAP),
        wires=(),
    )
    return feed_reactance(alone, FREE_SPACE, prepare)

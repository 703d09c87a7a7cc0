"""Traps for two bands on one line, fed straight: arrays of telescoping tube, and upright wire."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design import Targets, Wish
from boomwright.design.improve import refit_beam
from boomwright.feed.iterate import iterate
from boomwright.parts import Beam, Element, TubeSection
from boomwright.plan import read_plan
from boomwright.plan.bands import Region
from boomwright.solver import FREE_SPACE, Ground, Preparer, prepare_run
from boomwright.study.advice.table import TaperRow, TrapRow
from boomwright.study.advice.telescoping import SHORTEST_TIP, reactance_alone, too_long
from boomwright.study.requests import Wishes, first_guess
from boomwright.study.shapes import feed_reactance

#: what each array is searched for: gain first, and fed straight by the line on every frequency
#: {common-practice-usual-wishes}
_TARGETS = Targets(rear_weight=0.1, most_swr=1.7)
#: driven elements stand behind the middle of the boom, where the mast is: power of the share [-]
_TO_THE_REAR = 1.3
#: two bands of a trap are so far apart in frequency: nearer ones its coil spoils, further ones
#: would leave little behind the trap {common-practice-stations} [-]
_APART = (1.25, 2.2)
#: reactances are met within this [ohm]
_TOLERANCE = 0.5
#: a trap keeps so far from the joints of its tube [m] {common-practice-stations}
_FROM_JOINT = 0.15
#: first guess of what lies behind the trap, as a share of what the lower band needs more [-]
_BEHIND = 0.6
#: how far places of traps and lengths behind them are sought, as shares of the first guess
_PLACES, _LENGTHS = (0.85, 1.1), (0.3, 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tubes:
    """Tubes of one trapped half element; place of the trap and what lies behind it are free."""

    inner: tuple[TubeSection, ...]  #: tubes up to the one with the trap (n,)
    carrier: TubeSection  #: tube with the trap
    outer: tuple[TubeSection, ...]  #: tubes beyond it, the last one cut (n,)
    trap: TrapRow
    frequency: float  #: that the trap blocks [Hz]

    def cut(self, element: Element, place: float, behind: float) -> Element:
        """The element with its trap at a place, and so much tube behind the trap's middle [m]."""
        before = sum(tube.length for tube in self.inner)
        carrier = place + 0.5 * self.trap.length + _FROM_JOINT
        *full, tip = self.outer
        last = place + behind - carrier - sum(tube.length for tube in full)
        return replace(
            element,
            half=(
                *self.inner,
                replace(self.carrier, length=carrier - before),
                *full,
                replace(tip, length=max(last, 0.1 * SHORTEST_TIP)),
            ),
            traps=(self.trap.tuned(self.frequency, place=place),),
        )


def plain_arrays(
    bands: tuple[str, str], *, elements: int, boom: float, region: Region
) -> tuple[Beam, Beam]:
    """Arrays of plain tube on the same places, one for each band, that the line feeds straight.

    Args:
        bands: the lower and the higher band (2,)
        boom: longest boom [wavelengths of the lower band]
    """
    low, high = (_guess(band, elements, region) for band in bands)
    _refuse_apart(low, high)
    if elements == 1:
        return low, high
    long = boom * low.wavelength
    places = [round(long * (n / (elements - 1)) ** _TO_THE_REAR, 3) for n in range(elements)]
    return _on_places(low, places), _on_places(high, places)


def _refuse_apart(low: Beam, high: Beam) -> None:
    apart = high.design_frequency / low.design_frequency
    if not _APART[0] <= apart <= _APART[1]:
        raise BoomwrightError(
            f"{low.name} and {high.name} are {apart:.2f} apart in frequency; a trap parts bands "
            f"that are {_APART[0]:g} to {_APART[1]:g} apart"
        )


def trapped_wire(
    low: Beam, high: Beam, *, trap: TrapRow, ground: Ground, prepare: Preparer = prepare_run
) -> Beam:
    """An upright wire with a trap, without reactance at both design frequencies over its ground.

    Args:
        low, high: upright wires for the two bands
    """
    _refuse_apart(low, high)
    (wire,), (shorter,) = low.elements, high.elements

    def cut(at: Floats) -> Beam:
        place, behind = map(float, at)
        half = (replace(wire.half[0], length=place + behind),)
        hung = trap.tuned(high.design_frequency, place=place)
        return replace(low, elements=(replace(wire, half=half, traps=(hung,)),))

    def off(at: Floats) -> Floats:
        made = cut(at)
        return np.array(
            [_feed_reactance(each, prepare, ground) for each in (made, _as(made, high))]
        )

    place = shorter.half_length
    behind = _BEHIND * (wire.half_length - place) + 0.5 * trap.length
    return cut(_sought(off, place, behind, low.name))


def _guess(band: str, elements: int, region: Region) -> Beam:
    wishes = Wishes(band=band, elements=max(elements, 2), region=region)
    beam = read_plan(first_guess(wishes, elements=wishes.elements, boom=None)).beams[0]
    if elements > 1:
        return beam
    driven = beam.elements[beam.driven_index]
    return replace(beam, elements=(replace(driven, position=0.0),))


def _on_places(beam: Beam, places: Sequence[float]) -> Beam:
    """The array searched for its lengths, its elements on places along the boom [m] (n,)."""
    spread = zip(beam.elements, places, strict=True)
    placed = replace(beam, elements=tuple(replace(each, position=at) for each, at in spread))
    wish = Wish(
        targets=_TARGETS,
        boom_limit=placed.boom_length,
        keep_positions=tuple(range(len(placed.elements))),
    )
    return refit_beam(beam=placed, wish=wish)[0]


def trapped(
    low: Beam, high: Beam, *, taper: TaperRow, trap: TrapRow, prepare: Preparer = prepare_run
) -> Beam:
    """One array with traps that acts on each band as the array of plain tube for that band.

    Each element has, by itself in free space at both design frequencies, the reactance of the one
    that it replaces; then the driven one is set so that the feed has it on both bands.

    Args:
        low, high: arrays on the same places
        taper: the tubes, boom outwards; cut beyond the trap
    """
    frequency = high.design_frequency
    elements = tuple(
        _made(each, other, low, high, taper, trap, prepare)
        for each, other in zip(low.elements, high.elements, strict=True)
    )
    made = replace(low, elements=elements)
    if len(elements) == 1:
        return made
    number = made.driven_index
    driven = elements[number]
    tubes = _tubes(taper, driven.traps[0].place, driven.half_length, trap, frequency)
    wanted = np.array([_feed_reactance(low, prepare), _feed_reactance(high, prepare)])

    def array(at: Floats) -> Beam:
        cut = tubes.cut(driven, float(at[0]), float(at[1]))
        return replace(made, elements=(*elements[:number], cut, *elements[number + 1 :]))

    place = driven.traps[0].place
    found = _sought(
        lambda at: np.array([_feed_reactance(array(at), prepare),
                             _feed_reactance(_as(array(at), high), prepare)]) - wanted,
        place, driven.half_length - place, made.name,
    )  # fmt: skip
    return array(found)


def _made(
    element: Element, other: Element, low: Beam, high: Beam, taper: TaperRow, trap: TrapRow,
    prepare: Preparer,
) -> Element:  # fmt: skip
    wanted = np.array([reactance_alone(element, low, prepare),
                       reactance_alone(other, high, prepare)])  # fmt: skip
    place = other.half_length
    behind = _BEHIND * (element.half_length - place) + 0.5 * trap.length
    tubes = _tubes(taper, place, place + behind, trap, high.design_frequency)

    def off(at: Floats) -> Floats:
        cut = tubes.cut(element, float(at[0]), float(at[1]))
        seen = [reactance_alone(cut, band, prepare) for band in (low, high)]
        left: Floats = np.array(seen) - wanted
        return left

    return tubes.cut(element, *map(float, _sought(off, place, behind, low.name)))


def _sought(off: Callable[[Floats], Floats], place: float, behind: float, name: str) -> Floats:
    """Place of the trap and what lies behind it that leave no reactance over, to a millimetre."""
    start = np.array([place, behind])
    found = iterate(
        residual=off,
        start=start,
        step=np.array([0.005, 0.02]) * start,
        low=np.array([_PLACES[0] * place, _LENGTHS[0] * behind]),
        high=np.array([_PLACES[1] * place, _LENGTHS[1] * behind]),
        tolerance=_TOLERANCE,
    )
    if not found.converged:
        raise BoomwrightError(f"{name}: no place of a trap makes these tubes serve both bands")
    rounded: Floats = np.round(found.values, 3)
    return rounded


def _tubes(taper: TaperRow, place: float, half: float, trap: TrapRow, frequency: float) -> _Tubes:
    """Choose the tube that carries the trap, and those beyond it."""
    if half > taper.longest:
        raise too_long(half, taper)
    tubes = taper.tubes
    starts = [0.0, *np.cumsum([tube.length for tube in tubes])[:-1]]
    before = place - 0.5 * trap.length - 2.0 * _FROM_JOINT
    number = max((n for n, start in enumerate(starts) if start <= before), default=0)
    number = min(number, len(tubes) - 2)
    end = place + 0.5 * trap.length + _FROM_JOINT
    outer, reached = [], end
    for tube in tubes[number + 1 :]:
        outer.append(tube)
        reached += tube.length
        if reached + 2.0 * SHORTEST_TIP >= half:
            # A little more of this one is better than a stub of the next.
            break
    return _Tubes(
        inner=tuple(tubes[:number]),
        carrier=tubes[number],
        outer=tuple(outer),
        trap=trap,
        frequency=frequency,
    )


def _as(beam: Beam, band: Beam) -> Beam:
    return replace(beam, band=band.band, design_frequency=band.design_frequency)


def _feed_reactance(beam: Beam, prepare: Preparer, ground: Ground = FREE_SPACE) -> float:
    return feed_reactance(beam.alone, ground, prepare)

"""A plan from wishes: a beam off the frontier, made of usual tubes and matched."""

from __future__ import annotations

from boomwright.base import feet_inches_sixteenths
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass
from boomwright.design import FrontierPoint, Wish, frontier_at
from boomwright.design.frontier import (
    BANDWIDTHS,
    BOOMS_WL,
    COUNTS,
    DIAMETERS_WL,
    boom_numbers,
    cell_targets,
)
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan, rewrite
from boomwright.plan.starter import FIRST_GUESS
from boomwright.study.frontier import read_frontier
from boomwright.study.frontier_fit import fit_point
from boomwright.study.requests import RequestError, Wishes, first_guess, read_quantity
from boomwright.study.search_match import SettledMatch, settle_match, with_match

#: usual step from element to element where no boom is wished for [wavelengths]
_USUAL_STEP_WL = 0.2
#: demands on the front-to-rear ratio, the first that can be kept counts [dB]
_REARS_DB = (16.0, 12.0, 0.0)

#: what the file says first, in place of the first guess's words
_HEAD = """\
# Taken off the frontier, the best the search found for so many elements on such a boom, and
# fitted to tubes of one diameter. Aimed at over the whole band: {aim}.
# Elements of telescoping tube come out longer: give them as
# half = [["diameter", "exposed length"], ...] from the boom outwards, and improve again.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A beam worth working out."""

    text: str  #: plan with so many elements, not yet fitted
    point: FrontierPoint  #: what the frontier says of it, and its design there
    rear_db: float  #: front-to-rear ratio aimed at, 0 for none [dB]
    boom: float  #: longest boom [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A plan that meets a wish."""

    label: str  #: what it is, in a few words
    words: str  #: what it keeps over the whole band
    text: str  #: the plan file
    plan: Plan


def choice_of(wishes: Wishes) -> Choice:
    """Choose the beam of the frontier with the number of elements wished for.

    Args:
        wishes: what is wanted

    Raises:
        RequestError: when a wish cannot be read or met
    """
    count = wishes.elements
    if count not in COUNTS:
        raise RequestError(
            f"the trade-off holds {COUNTS[0]} to {COUNTS[-1]} elements, not {count}",
            remedy="ask for so many, or start from the first guess and improve it",
        )
    sample = read_plan(first_guess(wishes, elements=2, boom=None)).beams[0]
    held = boom_numbers(count=count)
    shortest, longest = (BOOMS_WL[held[at]] * sample.wavelength for at in (0, -1))
    boom = _USUAL_STEP_WL * (count - 1) * sample.wavelength
    if wishes.boom:
        boom = read_quantity(wishes.boom, "length", noun="boom")
        if boom < shortest * (1.0 - 1e-9):
            raise RequestError(
                phrase(
                    "the boom is too short ({boom}): {elements} elements on this band need {least} "
                    "or more",
                    boom=Quantity(boom, "span"),
                    elements=count,
                    least=Quantity(shortest, "span"),
                ),
                remedy="allow a longer boom, or choose a higher band",
            )
    boom = min(max(boom, shortest), longest)
    point, rear = _best_at(sample, boom, count)
    text = first_guess(wishes, elements=count, boom=boom)
    return Choice(text=text, point=point, rear_db=rear, boom=boom)


def _best_at(sample: Beam, boom: float, count: int) -> tuple[FrontierPoint, float]:
    """Best gain of so many elements on a boom, and the rear it keeps."""
    low, high = sample.band
    thick = sample.elements[0].half[0].diameter / sample.wavelength
    for rear in _REARS_DB:
        point = frontier_at(
            table=read_frontier(),
            count=count,
            boom_wl=boom / sample.wavelength,
            diameter_wl=min(max(thick, DIAMETERS_WL[0]), DIAMETERS_WL[-1]),
            bandwidth=min((high - low) / sample.design_frequency, BANDWIDTHS[-1]),
            front_to_rear_db=rear,
        )
        if point.kept:
            break
    return point, rear


def work_out(choice: Choice, *, wishes: Wishes) -> Candidate:
    """Fit a beam of the frontier to tubes and write its plan.

    Raises:
        BoomwrightError: when the design cannot be made of the tubes
    """
    # The frontier's beams are matched by a hairpin; one of 50 ohm as it is, is fed straight.
    kinds = {"hairpin": "behind its hairpin", "split": "at its split feed"}
    tried = ((_settled(choice, kind=kind), words) for kind, words in kinds.items())
    settled, fed = next((each for each in tried if each[0] is not None), (None, ""))
    if settled is None:
        raise RequestError(
            "no hairpin matches this beam to its line, nor is it matched without",
            remedy="start from the first guess and improve it",
        )
    # The first guess's own words hold no more.
    body = settled.text.removeprefix(FIRST_GUESS)
    aim = f"gain, with {choice.rear_db:.0f} dB front to rear" if choice.rear_db else "gain alone"
    text = _HEAD.format(aim=aim) + body
    made = read_plan(text)
    beam = made.beams[0]
    gain, _, rear, swr = settled.figures.worst
    long = beam.boom_length
    boom = f"{long:.2f} m" if wishes.system == "metric" else feet_inches_sixteenths(long)
    return Candidate(
        label=f"{len(beam.elements)} elements on {boom}",
        words=f"over the whole band, in free space: at least {gain:.1f} dBi and {rear:.0f} dB "
        f"front to rear; over its ground, standing wave ratio up to {swr:.1f} {fed}",
        text=text,
        plan=made,
    )


def _settled(choice: Choice, *, kind: str) -> SettledMatch | None:
    """The beam of a choice with a kind of match solved in the field; None when there is none."""
    first = rewrite(choice.text, {"beam[0].feed.kind": kind})
    plan = read_plan(first)
    before = plan.beams[0]
    found = fit_point(
        before,
        point=choice.point,
        rear_db=choice.rear_db,
        boom=choice.boom,
        diameter=before.elements[0].half[0].diameter,
    )
    low, high = before.band
    targets = cell_targets(bandwidth=(high - low) / before.design_frequency, rear_db=choice.rear_db)
    wish = Wish(targets=with_match(targets, plan, before), boom_limit=choice.boom * (1.0 + 1e-6))
    return settle_match(text=first, plan=plan, wish=wish, before=before, beam=found)

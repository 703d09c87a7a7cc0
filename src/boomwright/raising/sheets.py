"""Texts of the raising sheet that no method changes, and the first SWR check."""

from __future__ import annotations

from typing import Final

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.quantity import PerReader, Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.raising.wording import span

#: shown above every lift plan
TRAINED_PEOPLE: Final = (
    "Climbing and rigging are for people trained in them. If you are not, call in someone who "
    "is: hire climbers or a machine with its operator. This sheet is a planning aid and trains "
    "nobody."
)


#: who gives every word but stop
LIFT_DIRECTOR: Final = "lift director"


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewRole:
    """One role and its task."""

    role: str  #: name of the role
    people: int  #: how many
    task: str  #: what they do
    place: Value = ""  #: where they stand, in words


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """One hand signal with its spoken word."""

    word: str  #: word on the radio
    hands: str  #: what the hands do


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldPoint:
    """A point where work stops until somebody named says "go on"."""

    name: str  #: where in the job
    checks: tuple[str, ...]  #: what must be true to go on
    #: who tells the lift director that it is; the lift director alone says "go on"
    reports: tuple[str, ...] = ()

    @property
    def who(self) -> str:
        """Who says "go on", on whose report."""
        if not self.reports:
            return LIFT_DIRECTOR
        return f"{LIFT_DIRECTOR}, told by {' and '.join(self.reports)}"


#: the first power after the lift
POWER_CHECK: Final = "feed line plugged in, SWR measured from the station at low power"

#: one step of trimming, at each tip [m] {common-practice-raising}
TRIM_STEP: Final = 0.010
#: most that is trimmed at each tip, over half of the element [-] {common-practice-raising}
TRIM_LIMIT: Final = 0.01

STOP_RULE: Final = (
    "Anybody may call stop, and everybody obeys it. All other words come from the lift director "
    "alone. No word for ten seconds means stop."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SwrExpectation:
    """What to expect when the beam stands on stands before the lift."""

    frequency: float  #: where the plan has its best SWR [Hz]
    swr: float  #: SWR the plan computes there at full height [-]
    text: Value  #: how to do it and how to read it
    trim: Value  #: what is trimmed after the lift, by how much, and where to stop


def swr_expectation(
    *,
    frequency: float,
    swr: float,
    stand_height: float,
    half_length: float,
    closed: bool = False,
    telescopes: bool = True,
) -> SwrExpectation:
    """Describe the SWR check before the lift.

    Args:
        telescopes: whether the outermost tube of each half slides in the next larger one
        frequency: where the plan has its best SWR [Hz]
        swr: SWR there at full height [-]
        stand_height: boom above ground on its stands [m]
        half_length: half of the driven element [m]
        closed: whether the driven element is a loop
    """
    wavelength = SPEED_OF_LIGHT / frequency
    text = phrase(
        "On stands {stand_height} up ({part} wavelengths) the ground pulls the "
        "curve: look for a dip of the right shape within a few per cent of "
        "{frequency}, usually lower, and for no jumps while a helper pulls at an element by a dry "
        "cord. Analyser power only, and nobody touches the beam. Cut and move nothing: no dip or "
        "a wandering one means a bad joint or feed. Mend it, sweep again, then fix every joint for "
        "good, the outermost too.",
        stand_height=span(stand_height),
        part=Quantity(stand_height / wavelength, "factor"),
        frequency=Quantity(frequency, "frequency"),
    )
    trim = phrase(
        "At full height decide by the dip; read the sweep {how} first. A change means lowering the "
        "beam, {moving}, and lifting again with all holds. Too low in frequency: shorten "
        "{where} by {step} each for every {moved}. Too high: {longer}. Stop at "
        "{limit} {whole}: beyond it something else is wrong.",
        moving="moving" if closed else "drilling rivets out, moving, riveting clear of old holes",
        where="both halves of the driven loop" if closed else "both tips of the driven element",
        step=Quantity(TRIM_STEP, "sawn length"),
        # A tube is sawn with the least overlap of its joint: it has nothing to give outwards.
        longer="replace both outermost tubes by ones as much longer, so that the joints keep the "
        "overlap of the cut list"
        if telescopes and not closed
        else "lengthen both as much",
        moved=f"{TRIM_STEP / half_length * frequency / 1e3:.0f} kHz",
        limit=Quantity(TRIM_LIMIT * half_length, "sawn length"),
        whole="in each half" if closed else "at each tip",
        how=PerReader(file="with boomwright tune", forms="on the Tuning sheet", sheet="tuning"),
    )
    return SwrExpectation(frequency=frequency, swr=swr, text=text, trim=trim)

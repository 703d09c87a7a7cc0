"""What the feed says about a plan, as frozen values."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice, read_only
from boomwright.base.quantity import Value
from boomwright.feed import (
    Braid,
    BraidReading,
    BraidSolution,
    ChokeRequirement,
    CoaxType,
    FeedLoad,
    FieldMatch,
    GammaAdjustment,
    LineRating,
    LineReading,
    Match,
    MatchedSweep,
    StackLines,
)
from boomwright.parts import Beam
from boomwright.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitTry:
    """One kind of feed for this beam, by its published circuit equations.

    Parameters
    ----------
    kind
        its name in words
    match
        the match; None when the equations have none
    swr_design
        standing wave ratio at the design frequency; infinite without a match [-]
    swr_worst
        greatest over the band; infinite without a match [-]
    refusal
        why there is none, or empty
    """

    kind: str
    match: Match | None
    swr_design: float = float("inf")
    swr_worst: float = float("inf")
    refusal: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRating:
    """What one part of the match must stand at the owner's power, worst over the band.

    Parameters
    ----------
    part
        what it is, with its value
    peak_voltage
        crest voltage across it [V]
    rated_voltage
        voltage to ask of a capacitor, with margin; 0 for other parts [V]
    current
        effective current through it [A]
    """

    part: Value
    peak_voltage: float
    rated_voltage: float
    current: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineResult:
    """The line from the feed to the radio.

    Parameters
    ----------
    length
        its length [m]
    frequency
        frequencies over the band [Hz] (n,)
    shack_impedance
        impedance at the radio [ohm] (n,)
    feed_swr
        standing wave ratio at the feed [-] (n,)
    shack_swr
        standing wave ratio at the radio [-] (n,)
    loss_db
        loss with this load [dB] (n,)
    reading
        the line at the design frequency
    worst
        the line at the frequency of its greatest standing wave ratio
    rating
        what it must stand there; None when the power is not known
    """

    line: CoaxType
    length: float
    frequency: NDArray[np.float64]
    shack_impedance: NDArray[np.complex128]
    feed_swr: NDArray[np.float64]
    shack_swr: NDArray[np.float64]
    loss_db: NDArray[np.float64]
    reading: LineReading
    worst: LineReading
    rating: LineRating | None

    def __post_init__(self) -> None:
        for name in ("frequency", "feed_swr", "shack_swr", "loss_db"):
            object.__setattr__(self, name, read_only(getattr(self, name)))
        object.__setattr__(self, "shack_impedance", read_only(self.shack_impedance, complex))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidCase:
    """The braid on one way down, with some chokes.

    Parameters
    ----------
    words
        which way
    solution
        beam and braid solved
    readings
        name of the choke and what it leaves (n_chokes, 2)
    enough
        least impedance, as a resistance, that keeps the pattern within 0.1 dB; None when none
        does [ohm]
    """

    words: str
    solution: BraidSolution
    readings: tuple[tuple[str, BraidReading], ...]
    enough: float | None

    @property
    def braid(self) -> Braid:
        """Where the line runs."""
        return self.solution.braid


@dataclass(frozen=True, slots=True, kw_only=True)
class ChokeWork:
    """What the choke of the plan must stand.

    Parameters
    ----------
    impedance
        its common-mode impedance [ohm]
    voltage
        effective voltage across it at the peak envelope power [V]
    heat
        mean power it turns to heat [W]
    """

    impedance: complex
    voltage: float
    heat: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """What to do at a gamma when the meter reads something.

    Parameters
    ----------
    reads
        what it reads, in words
    do
        what to turn, in order
    """

    reads: str
    do: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamFeed:
    """Everything the feed says about one beam.

    Parameters
    ----------
    beam
        the beam as planned
    reference
        resistance of the line [ohm]
    bare
        impedance of the driven element as if split, over ground and band
    before
        the line tied to that split without any match
    drawn
        the plan's own dimensions solved in the field; None when some are missing or cannot be
        solved
    drawn_words
        why not, or empty
    proposed
        dimensions solved in the field until they match; None when nothing matches
    proposed_words
        why not, or empty
    tries
        all kinds of feed by their circuit equations
    ratings
        parts at the owner's power; none when it is not known
    line
        the line to the radio; None when the plan has none
    braids
        the outside of the line, its ways down
    choke_needed
        by the circuit rule; None when the power is not known
    choke_work
        what the plan's choke stands; None when choke or power are not known
    adjustment
        what strap and capacitor of a gamma do; None for other feeds
    turns
        what to turn first by what the meter reads; gamma only
    notices
        doubts, cautions, limits
    """

    beam: Beam
    reference: float
    bare: FeedLoad
    before: MatchedSweep
    drawn: FieldMatch | None
    drawn_words: str
    proposed: FieldMatch | None
    proposed_words: str
    tries: tuple[CircuitTry, ...]
    ratings: tuple[PartRating, ...]
    line: LineResult | None
    braids: tuple[BraidCase, ...]
    choke_needed: ChokeRequirement | None
    choke_work: ChokeWork | None
    adjustment: GammaAdjustment | None
    turns: tuple[Turn, ...]
    notices: tuple[Notice, ...]

    @property
    def used(self) -> FieldMatch | None:
        """The match that line, ratings and choke are held to: drawn, else proposed."""
        return self.drawn or self.proposed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FeedResult:
    """What the feed says about a whole plan.

    Parameters
    ----------
    beams
        one entry a beam, in plan order (n_beams,)
    stack_lines
        lines from the beams of a stack to their junction; None without a stack
    power
        peak envelope power; None when the plan does not say [W]
    duty_factor
        mean over peak envelope power [-]
    """

    plan: Plan
    beams: tuple[BeamFeed, ...]
    stack_lines: StackLines | None
    power: float | None
    duty_factor: float

    @property
    def notices(self) -> tuple[Notice, ...]:
        """All notices, each said once."""
        found = (notice for each in self.beams for notice in each.notices)
        return tuple(dict.fromkeys(found))

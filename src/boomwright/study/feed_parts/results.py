"""What the feed says about a plan, as frozen values."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice, ReadOnlyArrays
from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
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
    OnePort,
    StackLines,
)
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.solver import Ground

#: changes of a standing wave ratio below this are not worth a word [-]
SEEN = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitTry:
    """One kind of feed for this beam, by its published circuit equations."""

    kind: str  #: its name in words
    match: Match | None  #: the match; None when the equations have none
    #: standing wave ratio at the design frequency; infinite without a match [-]
    swr_design: float = float("inf")
    swr_worst: float = float("inf")  #: greatest over the band; infinite without a match [-]
    refusal: Value = ""  #: why there is none, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRating:
    """What one part of the match must stand at the owner's power, worst over the band."""

    part: Value  #: what it is, with its value
    peak_voltage: float  #: crest voltage across it [V]
    rated_voltage: float  #: voltage to ask of a capacitor, with margin; 0 for other parts [V]
    current: float  #: effective current through it [A]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineResult(ReadOnlyArrays):
    """The line from the feed to the radio."""

    line: CoaxType
    length: float  #: its length [m]
    frequency: NDArray[np.float64]  #: frequencies over the band [Hz] (n,)
    shack_impedance: NDArray[np.complex128]  #: impedance at the radio [ohm] (n,)
    feed_swr: NDArray[np.float64]  #: standing wave ratio at the feed [-] (n,)
    shack_swr: NDArray[np.float64]  #: standing wave ratio at the radio [-] (n,)
    loss_db: NDArray[np.float64]  #: loss with this load [dB] (n,)
    reading: LineReading  #: the line at the design frequency
    worst: LineReading  #: the line at the frequency of its greatest standing wave ratio
    rating: LineRating | None  #: what it must stand there; None when the power is not known


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AsMeasured(ReadOnlyArrays):
    """What the owner will measure of one beam."""

    beam: Beam  #: the beam as planned
    reference: float  #: resistance of the line [ohm]
    ground: Ground  #: ground below it
    match: FieldMatch  #: the match as solved
    proposed: bool  #: whether its dimensions are proposed, because the plan's give no match
    line: LineResult | None  #: the line it is measured through; None without one in the plan
    frequency: NDArray[np.float64]  #: rising frequencies over the band [Hz] (n,)
    #: standing wave ratio at the radio, or at the match without a line [-] (n,)
    swr: NDArray[np.float64]
    match_swr: NDArray[np.float64]  #: standing wave ratio between match and line [-] (n,)
    #: rising frequencies of the front-to-rear ratio [Hz] (n_solved,)
    solved: NDArray[np.float64]
    #: gain ahead over the strongest in the rear half-plane, at the take-off angle [dB] (n_solved,)
    front_to_rear_db: NDArray[np.float64]
    take_off_deg: float | None  #: elevation of the strongest lobe ahead; None in free space [deg]
    gain_dbi: float  #: gain there at the design frequency, without what the line loses [dBi]
    #: the same antenna in the further bands that the plan wishes for (n_bands,)
    further: tuple[AsMeasured | NotMeasured, ...] = ()

    @property
    def swr_worst(self) -> tuple[float, float]:
        """Greatest ratio over the band [-] and its frequency [Hz]."""
        at = int(np.argmax(self.swr))
        return float(self.swr[at]), float(self.frequency[at])

    @property
    def swr_design(self) -> float:
        """Ratio at the design frequency [-]."""
        return float(np.interp(self.beam.design_frequency, self.frequency, self.swr))

    @property
    def front_to_rear_worst(self) -> tuple[float, float]:
        """Least front-to-rear ratio over the band [dB] and its frequency [Hz]."""
        at = int(np.argmin(self.front_to_rear_db))
        return float(self.front_to_rear_db[at]), float(self.solved[at])


@dataclass(frozen=True, slots=True, kw_only=True)
class NotMeasured:
    """A beam whose match cannot be solved, so that nothing is said of what will be measured."""

    beam: Beam  #: the beam as planned
    refusal: Value  #: why not
    #: the same antenna in the further bands that the plan wishes for (n_bands,)
    further: tuple[AsMeasured | NotMeasured, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidCase:
    """The braid on one way down, with some chokes."""

    words: Value  #: which way
    solution: BraidSolution  #: beam and braid solved
    #: name of the choke and what it leaves (n_chokes, 2)
    readings: tuple[tuple[str, BraidReading], ...]
    #: least impedance, as a resistance, that keeps the pattern within 0.1 dB; None when none does
    #: [ohm]
    enough: float | None

    @property
    def braid(self) -> Braid:
        """Where the line runs."""
        return self.solution.braid

    @property
    def own(self) -> BraidReading | None:
        """What the plan's choke leaves; None without one."""
        return dict(self.readings).get("plan's choke")


@dataclass(frozen=True, slots=True, kw_only=True)
class ChokeWork:
    """What the choke of the plan must stand."""

    impedance: complex  #: its common-mode impedance [ohm]
    voltage: float  #: effective voltage across it at the peak envelope power [V]
    heat: float  #: mean power it turns to heat [W]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """What to do at a gamma when the meter reads something."""

    reads: str  #: what it reads, in words
    do: tuple[Value, ...]  #: what to turn, in order


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamFeed:
    """Everything the feed says about one beam."""

    beam: Beam  #: the beam as planned
    reference: float  #: resistance of the line [ohm]
    measured: AsMeasured | NotMeasured  #: what the owner will measure of it
    bare: FeedLoad  #: impedance of the driven element as if split, over ground and band
    before: MatchedSweep  #: the line tied to that split without any match
    #: the plan's own dimensions solved in the field; None when some are missing or cannot be solved
    drawn: FieldMatch | None
    drawn_words: Value  #: why not, or empty
    #: dimensions solved in the field until they match; None when nothing matches
    proposed: FieldMatch | None
    proposed_words: Value  #: why not, or empty
    #: what would be measured with the proposal; None when there is none, or none beside it
    offered: AsMeasured | NotMeasured | None
    tries: tuple[CircuitTry, ...]  #: all kinds of feed by their circuit equations
    ratings: tuple[PartRating, ...]  #: parts at the owner's power; none when it is not known
    line: LineResult | None  #: the line to the radio; None when the plan has none
    braids: tuple[BraidCase, ...]  #: the outside of the line, its ways down
    choke_needed: ChokeRequirement | None  #: by the circuit rule; None when the power is not known
    #: what the plan's choke stands; None when choke or power are not known
    choke_work: ChokeWork | None
    #: what strap and capacitor of a gamma do; None for other feeds
    adjustment: GammaAdjustment | None
    turns: tuple[Turn, ...]  #: what to turn first by what the meter reads; gamma only
    notices: tuple[Notice, ...]  #: doubts, cautions, limits

    @property
    def used(self) -> FieldMatch | None:
        """The match that line, ratings and choke are held to: drawn, else proposed."""
        return self.drawn or self.proposed

    @property
    def better_offered(self) -> bool:
        """Whether the proposal is better over the band, or the plan has no match of its own."""
        if self.drawn is None or self.proposed is None:
            return self.proposed is not None
        if isinstance(self.measured, NotMeasured) or not isinstance(self.offered, AsMeasured):
            return False
        return self.offered.swr_worst[0] < self.measured.swr_worst[0] - SEEN


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FeedResult:
    """What the feed says about a whole plan."""

    plan: Plan
    beams: tuple[BeamFeed, ...]  #: one entry a beam, in plan order (n_beams,)
    #: lines from the beams of a stack to their junction; None without a stack
    stack_lines: StackLines | None
    power: float | None  #: peak envelope power; None when the plan does not say [W]
    duty_factor: float  #: mean over peak envelope power [-]

    @property
    def notices(self) -> tuple[Notice, ...]:
        """All notices, each said once."""
        found = (notice for each in self.beams for notice in each.notices)
        return tuple(dict.fromkeys(found))

    def one_ports(self, number: int = 0) -> dict[str, OnePort]:
        """Both ends of a beam's line as one-port networks.

        Returns:
            ``bare-feed-point``: the driven element as if split; ``feed-point``: the line's end
            at the match;
                ``shack``: the radio's end, when the plan has a line
        """
        each = self.beams[number]
        title = f"{self.plan.title}: {each.beam.name}"
        found = {
            "bare-feed-point": OnePort(
                frequency=each.bare.frequency,
                impedance=each.bare.impedance,
                title=f"{title}\ndriven element as if split, no match, computed",
            )
        }
        match = each.used
        if match is not None:
            at = match.load.frequency
            found["feed-point"] = OnePort(
                frequency=at,
                impedance=match.match.transform(impedance=match.load.impedance, frequency=at),
                title=f"{title}\nline's end at the {match.kind}, computed in the field",
            )
        if each.line is not None:
            found["shack"] = OnePort(
                frequency=each.line.frequency,
                impedance=each.line.shack_impedance,
                title=f"{title}\nradio's end of {each.line.length:g} m of {each.line.line.name}",
            )
        return found

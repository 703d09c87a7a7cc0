"""What tuning says of a plan."""

from __future__ import annotations

from collections.abc import Mapping

from boomwright.base import Notice
from boomwright.base.array_types import Complexes
from boomwright.base.records import dataclass
from boomwright.feed import OnePort
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.study.tuning_parts.on_air import AimedAt, HeardRun
from boomwright.tuning import (
    Advice,
    FaultReport,
    Identification,
    Installation,
    LineReading,
    Sweep,
    Trimming,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trial:
    """One sweep, and what it says together with all before it."""

    number: int  #: 1 for the first sweep
    day: str  #: day of the measurement as the owner gave it
    #: all moves since the plan when it was taken, by key, mixed units [-]
    moves: Mapping[str, float]
    trimming: Trimming  #: what this sweep and those before it say together
    note: str = ""  #: owner's remark
    phase_notices: tuple[Notice, ...] = ()  #: what is said of the sign of its reactance

    @property
    def advice(self) -> Advice:
        """What to do next."""
        return self.trimming.advice

    @property
    def swr(self) -> float:
        """Standing wave ratio at the start of the line at the design frequency, as found [-]."""
        return self.advice.now.middle

    @property
    def done(self) -> bool:
        """Whether nothing is left to do at the design frequency."""
        return self.advice.verdict == "leave it"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TuneResult:
    """What the sweeps of one beam say, and what to move."""

    plan: Plan
    beam: Beam  #: the beam that was measured
    installation: Installation  #: beam, ground, match and line as planned
    files: tuple[str, ...]  #: names of the sweeps' files, first to last (n_trials,)
    #: what each sweep taught and the advice after it, first to last (n_trials,)
    trials: tuple[Trial, ...]
    first_sweep: Sweep  #: the first and the last sweep, the part that was used
    sweep: Sweep
    #: reflection at the meter of the antenna as planned, with the moves made since, at the
    #: frequencies of the last fit (f,)
    planned: Complexes
    identification: Identification  #: what the sweeps cannot tell, and which measurement would
    faults: FaultReport | None  #: which fault the first sweep shows; None when that was not asked
    #: the line as measured with its end open and shorted; None when it was not
    line_reading: LineReading | None
    heard: tuple[HeardRun, ...]  #: runs over the headings with a signal on the air (n_runs,)
    aimed: AimedAt | None  #: aims at known bearings; None without any
    notices: tuple[Notice, ...]  #: doubts and cautions

    @property
    def where(self) -> str:
        """Where the sweeps were taken, or moved to: at the meter or at the feed point."""
        return "at the meter" if self.installation.line is not None else "at the feed point"

    @property
    def one_port(self) -> OnePort:
        """The last sweep as a one-port network."""
        return OnePort(
            frequency=self.sweep.frequencies,
            impedance=self.sweep.impedance,
            title=f"{self.plan.title}: {self.beam.name}\nmeasured, {self.where}",
        )

    @property
    def last(self) -> Trial:
        """The last trial."""
        return self.trials[-1]

"""From a plan to all readings of its beams."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from boomwright import reach
from boomwright.base import Notice
from boomwright.base.records import dataclass, field
from boomwright.feed import OnePort
from boomwright.parts import Beam
from boomwright.plan import Plan, plan_notices
from boomwright.reach import BeamReadings
from boomwright.solver import Preparer, remembering
from boomwright.study.as_measured import measure_plan
from boomwright.study.effort import refuse_long_work
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.requests import RequestError

#: frequencies over the band when nothing else is asked
USUAL_POINTS = 21
#: resistance the standing wave ratio is held against when nothing else is asked [ohm]
USUAL_REFERENCE = 50.0
#: largest number of frequencies of one sweep
MOST_POINTS = 10_001
#: solutions besides those of the sweep, in sweeps' worth: design frequency, finer cuts, ground
_FURTHER_SOLUTIONS = 8


@dataclass(frozen=True, kw_only=True)
class Computation:
    """A plan and everything computed for it."""

    plan: Plan
    beams: tuple[BeamReadings, ...]  #: readings of its beams, in plan order (n_beams,)
    #: what is doubtful in the plan itself; each beam's readings hold their own
    notices: tuple[Notice, ...] = ()
    #: prepared the wires of these beams and, when it remembers, need not do so again
    prepare: Preparer = field(default_factory=remembering, repr=False, compare=False)

    @property
    def all_notices(self) -> tuple[Notice, ...]:
        """Notices of the plan and of every beam."""
        of_beams = (notice for readings in self.beams for notice in readings.notices)
        return (*self.notices, *of_beams)

    @cached_property
    def as_measured(self) -> tuple[AsMeasured | NotMeasured, ...]:
        """What the owner will measure of each beam; solved when first asked (n_beams,)."""
        return measure_plan(self.plan, prepare=self.prepare)

    @cached_property
    def told(self) -> tuple[Notice, ...]:
        """What is doubtful in the plan itself, and what it asks for but will not be measured."""
        if self.plan.wish is None:
            return self.notices
        # Loads the search's rooms, which a plan without wishes must not wait for.
        from boomwright.study.search_match import wishes_missed

        missed = (wishes_missed(self.plan, one, prepare=self.prepare) for one in self.as_measured)
        return (*self.notices, *(notice for each in missed for notice in each))

    def one_port(self, number: int = 0) -> OnePort:
        """The feed point of a beam in free space as a one-port network, as if split."""
        readings = self.beams[number]
        return OnePort(
            frequency=readings.over_band("frequency"),
            impedance=readings.over_band("impedance"),
            title=f"{self.plan.title}: {readings.beam.name}\nfeed point in free space, computed",
        )


def band_frequencies(beam: Beam, *, points: int) -> NDArray[np.float64]:
    """Spread frequencies evenly over the band of a beam, both edges included.

    Args:
        points: how many; one alone is the design frequency

    Returns:
        rising frequencies [Hz] (points,)
    """
    if points == 1:
        return np.array([beam.design_frequency])
    return np.linspace(*beam.band, points)


def compute(
    plan: Plan,
    *,
    frequencies: Sequence[float] | NDArray[np.float64] | None = None,
    points: int = USUAL_POINTS,
    reference: float = USUAL_REFERENCE,
    prepare: Preparer | None = None,
) -> Computation:
    """Compute every beam of a plan.

    Args:
        frequencies: frequencies of the sweep, in any order; None for ``points`` over the band [Hz]
            (n_frequencies,)
        reference: resistance the standing wave ratio is held against [ohm]
        prepare: prepares one run of wire; None remembers for these beams alone

    Raises:
        RequestError: when frequencies, points or reference make no sense
        SolverError: when the field solver refuses the geometry, or the work is too much
    """
    prepare = prepare or remembering()
    chosen = None if frequencies is None else np.unique(np.asarray(frequencies, dtype=float))
    _refuse_nonsense(chosen, points=points, reference=reference)
    count = points if chosen is None else len(chosen)
    refuse_long_work(
        plan.beams,
        ground=plan.site.ground,
        solutions=count + _FURTHER_SOLUTIONS,
        asked=f"at {count} frequencies",
        remedy="ask for fewer points, or take out elements",
    )
    return Computation(
        plan=plan,
        beams=tuple(
            reach.read_beam(
                beam=beam,
                ground=plan.site.ground,
                frequencies=band_frequencies(beam, points=points) if chosen is None else chosen,
                reference_resistance=reference,
                prepare=prepare,
            )
            for beam in plan.beams
        ),
        notices=plan_notices(plan),
        prepare=prepare,
    )


def exceeded_limits(computation: Computation) -> tuple[Notice, ...]:
    """Pick the notices that say a stated limit is exceeded, those of the wish among them."""
    of_beams = (notice for readings in computation.beams for notice in readings.notices)
    every = (*computation.told, *of_beams)
    return tuple(notice for notice in every if notice.severity == "limit")


def _refuse_nonsense(
    frequencies: NDArray[np.float64] | None, *, points: int, reference: float
) -> None:
    if frequencies is not None and frequencies.size == 0:
        raise RequestError(
            "no frequency is given", remedy="give at least one, or none to sweep the band"
        )
    if frequencies is not None and not (np.isfinite(frequencies).all() and frequencies[0] > 0.0):
        raise RequestError(
            f"a frequency is not above zero ({frequencies[0]:g} Hz)", remedy="give it as 14.175 MHz"
        )
    if not 1 <= points <= MOST_POINTS:
        raise RequestError(
            f"the number of points cannot be met ({points})", remedy=f"ask for 1 to {MOST_POINTS}"
        )
    if not (np.isfinite(reference) and reference > 0.0):
        raise RequestError(
            f"the reference resistance is not above zero ({reference:g} ohm)", remedy="give 50 ohm"
        )

"""Readings on the air held against the computed pattern, and aims at known bearings."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from boomwright.base import Fault, PlanError, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.plan import Plan
from boomwright.plan.model_measured import HeadingRunPlan, MeasuredPlan
from boomwright.plan.resolve.on_air import aim_of, run_of, signal_place
from boomwright.solver import FREE_SPACE, gain_dbi
from boomwright.tuning import (
    Aim,
    Alignment,
    Bench,
    HeadingReading,
    HeadingRun,
    Installation,
    align,
    compare_headings,
)

#: headings that the pattern is drawn at
_DRAWN = 121
#: a signal may be so far outside the band, as a share of its edge
_BEYOND = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeardRun(ReadOnlyArrays):
    """One run over the headings, and what was computed for it."""

    name: str  #: what was heard, in words
    day: str  #: day of the run, or empty
    note: str  #: owner's remark, or empty
    bearing: float  #: true bearing of the signal [rad]
    run: HeadingRun  #: the readings
    reading: HeadingReading  #: what they show
    headings: Floats  #: true headings of the beam, a whole turn from north [rad] (n,)
    computed_db: Floats  #: computed level there, on the scale of the readings [dB] (n,)


@dataclass(frozen=True, slots=True, kw_only=True)
class AimedAt:
    """All aims and the offset that fits them."""

    names: tuple[str, ...]  #: what was aimed at, in words (n_aims,)
    aims: tuple[Aim, ...]  #: the aims (n_aims,)
    alignment: Alignment  #: what they say together


def heard_runs(
    plan: Plan, measured: MeasuredPlan, bench: Bench, standing: Installation
) -> tuple[HeardRun, ...]:
    """Hold every run over the headings against the antenna as the sweeps found it."""

    def heard(number: int, planned: HeadingRunPlan) -> HeardRun:
        path = f"measured.heading[{number}]"
        bearing, elevation = signal_place(plan, planned, path=path)
        frequency = _frequency(planned, standing, path)
        gain = _pattern(bench, standing, frequency, elevation)
        run = run_of(planned)
        reading = compare_headings(run=run, bearing=bearing, gain_dbi=gain)
        headings = np.linspace(0.0, 2.0 * np.pi, _DRAWN)
        at_readings = gain(bearing - run.azimuth - reading.offset)
        scale = float(np.mean(run.level_db - at_readings))
        return HeardRun(
            name="the sun" if planned.bearing is None else "a signal",
            day=planned.day or (planned.sun.day if planned.sun else ""),
            note=planned.note,
            bearing=bearing,
            run=run,
            reading=reading,
            headings=headings,
            computed_db=gain(bearing - headings) + scale,
        )

    return tuple(heard(number, planned) for number, planned in enumerate(measured.heading))


def aimed_at(plan: Plan, measured: MeasuredPlan) -> AimedAt | None:
    """Find the offset of the rotator from the plan's aims; None without an aim."""
    if not measured.aim:
        return None
    aims = tuple(
        aim_of(plan, planned, path=f"measured.aim[{number}]")
        for number, planned in enumerate(measured.aim)
    )
    names = tuple(
        planned.note or ("the sun" if planned.bearing is None else "a mark")
        for planned in measured.aim
    )
    return AimedAt(names=names, aims=aims, alignment=align(aims))


def _frequency(planned: HeadingRunPlan, installation: Installation, path: str) -> float:
    lowest, highest = installation.beam.band
    found = planned.frequency or installation.beam.design_frequency
    if not (1.0 - _BEYOND) * lowest <= found <= (1.0 + _BEYOND) * highest:
        message = f"{found / 1e6:.3f} MHz is outside the band of the measured beam"
        remedy = f"take a signal from {lowest / 1e6:.3f} to {highest / 1e6:.3f} MHz"
        raise PlanError((Fault(path=f"{path}.frequency", message=message, remedy=remedy),))
    return found


def _pattern(
    bench: Bench, installation: Installation, frequency: float, elevation: float
) -> Callable[[Floats], Floats]:
    """Gain at angles clockwise from the heading."""
    solution = bench.solution(replace(installation, shape=None), np.array([frequency]))
    # At the horizon real ground leaves nothing, but takes alike from all sides.
    ground = installation.ground if elevation > 0.0 else FREE_SPACE

    def gain(clockwise: Floats) -> Floats:
        found: Floats = gain_dbi(
            solution=solution,
            azimuth=-clockwise,
            elevation=np.full(len(clockwise), elevation),
            ground=ground,
            height=installation.beam.height,
        )[0]
        return found

    return gain

"""The line between meter and feed point, as its own sweeps show it."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import Notice
from boomwright.base.files import ReadFile
from boomwright.base.records import dataclass, replace
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.study.tuning_parts.sweeps import load_sweep
from boomwright.tuning import (
    Installation,
    LineReading,
    Sweep,
    check_calibration,
    corrected,
    error_terms,
    read_open_and_short,
)

#: impedance of a line that differs by more than this share is not the type it should be
_OTHER_LINE = 0.1
_DB_PER_NEPER = 20.0 / math.log(10.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredLine:
    """Sweeps of the antenna, and what of the line is still in them."""

    #: the installation: with the line as it was measured, or without one when open, short and load
    #: at the feed point took it away
    installation: Installation
    #: sweeps of the antenna, at the meter or at the feed point (n_sweeps,)
    sweeps: tuple[Sweep, ...]
    reading: LineReading | None  #: what open and short tell of the line; None without them
    notices: tuple[Notice, ...]  #: doubts


def measured_line(
    *, installation: Installation, measured: MeasuredPlan, sweeps: list[Sweep], files: ReadFile
) -> MeasuredLine:
    """Learn the line from its sweeps, and take it away where open, short and load allow it."""
    line, given = installation.line, measured.line
    if line is None or given is None or not (given.open_sweep and given.short_sweep):
        return MeasuredLine(
            installation=installation, sweeps=tuple(sweeps), reading=None, notices=()
        )
    ends = {
        f"{key}_end": load_sweep(
            name, files=files, reference=measured.reference, place=f"measured.line.{key}"
        )
        for key, name in (
            ("open", given.open_sweep),
            ("short", given.short_sweep),
            ("load", given.load_sweep),
        )
        if name
    }
    reading = read_open_and_short(open_end=ends["open_end"], short_end=ends["short_end"])
    doubts = _other_line(reading, line.impedance)
    if "load_end" in ends:
        terms, checks = error_terms(**ends), check_calibration(**ends)
        return MeasuredLine(
            installation=replace(installation, line=None, line_length=0.0),
            sweeps=tuple(corrected(sweep=each, terms=terms) for each in sweeps),
            reading=reading,
            notices=(*doubts, *checks),
        )
    middle = float(np.mean(ends["open_end"].frequencies))
    gamma, _ = line.propagation(frequency=middle)
    length = reading.electrical_length * line.velocity_factor
    nominal = _DB_PER_NEPER * gamma.real * length
    factor = reading.loss_db / nominal if nominal > 0.0 else 1.0
    found = replace(installation, line_length=length, line_loss_factor=max(0.0, factor))
    return MeasuredLine(installation=found, sweeps=tuple(sweeps), reading=reading, notices=doubts)


def _other_line(reading: LineReading, expected: float) -> tuple[Notice, ...]:
    if abs(reading.impedance - expected) <= _OTHER_LINE * expected:
        return ()
    return (
        Notice(
            code="tuning.other-line",
            severity="doubt",
            text="The measured line is not of the impedance of its type: is the type right?",
            value=f"{reading.impedance:.0f} ohm",
            limit=f"{expected:.0f} ohm",
        ),
    )

"""Tuning: from a measured sweep to which tip to move, by how much, and what to expect of it.

Read a sweep with :func:`read_touchstone` or :func:`read_sweep_table`; :func:`check_sweep` and
:func:`check_calibration` say whether to believe it, :func:`without_line` and :func:`corrected`
move it to the feed point. An :class:`Installation` is the mounted beam over its ground with its
match as wires and its line; :func:`antenna_surrogate` solves it once in the field. :func:`trim`
finds what errors of antenna, line and meter together explain all sweeps, and what to move:
an :class:`Advice` to move, to leave it, or that the sweep is not explained. :func:`identify` says
what the sweeps cannot tell apart and which reading would. :func:`find_fault` names a fault.
:func:`compare_headings` holds readings on the air against the computed pattern, :func:`align`
finds the offset of a rotator from aims at known bearings, :func:`sun_place` gives one of those.

All readings come as text, bytes or arrays: this room knows no disk.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.tuning.aiming import Aim, Alignment, align
    from boomwright.tuning.antenna import Bench
    from boomwright.tuning.causes import Cause
    from boomwright.tuning.faults import FaultReport, find_fault, list_suspects
    from boomwright.tuning.identify import Identification
    from boomwright.tuning.installation import Installation, after_changes, at_line, at_meter
    from boomwright.tuning.line_removal import (
        LineReading,
        check_calibration,
        corrected,
        error_terms,
        read_open_and_short,
        without_line,
    )
    from boomwright.tuning.moves import GOOD_SWR, Advice, Foretold, Step
    from boomwright.tuning.on_air import HeadingReading, HeadingRun, compare_headings
    from boomwright.tuning.readings import Reading, SideReading
    from boomwright.tuning.surrogate import Surrogate
    from boomwright.tuning.sweep import Sweep, check_sweep
    from boomwright.tuning.sweep_table import read_sweep_table
    from boomwright.tuning.tolerance import Tolerance
    from boomwright.tuning.touchstone import read_touchstone
    from boomwright.tuning.trimming import BAND, MOST_POINTS, Trimming, antenna_surrogate, trim

__getattr__ = on_demand(__name__)

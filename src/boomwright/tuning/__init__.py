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
    from boomwright.tuning.aiming import Aim as Aim
    from boomwright.tuning.aiming import Alignment as Alignment
    from boomwright.tuning.aiming import align as align
    from boomwright.tuning.antenna import Bench as Bench
    from boomwright.tuning.causes import Cause as Cause
    from boomwright.tuning.faults import FaultReport as FaultReport
    from boomwright.tuning.faults import find_fault as find_fault
    from boomwright.tuning.faults import list_suspects as list_suspects
    from boomwright.tuning.identify import Identification as Identification
    from boomwright.tuning.installation import Installation as Installation
    from boomwright.tuning.installation import after_changes as after_changes
    from boomwright.tuning.installation import at_line as at_line
    from boomwright.tuning.installation import at_meter as at_meter
    from boomwright.tuning.line_removal import LineReading as LineReading
    from boomwright.tuning.line_removal import check_calibration as check_calibration
    from boomwright.tuning.line_removal import corrected as corrected
    from boomwright.tuning.line_removal import error_terms as error_terms
    from boomwright.tuning.line_removal import read_open_and_short as read_open_and_short
    from boomwright.tuning.line_removal import without_line as without_line
    from boomwright.tuning.moves import GOOD_SWR as GOOD_SWR
    from boomwright.tuning.moves import Advice as Advice
    from boomwright.tuning.moves import Foretold as Foretold
    from boomwright.tuning.moves import Step as Step
    from boomwright.tuning.on_air import HeadingReading as HeadingReading
    from boomwright.tuning.on_air import HeadingRun as HeadingRun
    from boomwright.tuning.on_air import compare_headings as compare_headings
    from boomwright.tuning.readings import Reading as Reading
    from boomwright.tuning.readings import SideReading as SideReading
    from boomwright.tuning.surrogate import Surrogate as Surrogate
    from boomwright.tuning.sweep import Sweep as Sweep
    from boomwright.tuning.sweep import check_sweep as check_sweep
    from boomwright.tuning.sweep_table import read_sweep_table as read_sweep_table
    from boomwright.tuning.tolerance import Tolerance as Tolerance
    from boomwright.tuning.touchstone import read_touchstone as read_touchstone
    from boomwright.tuning.trimming import BAND as BAND
    from boomwright.tuning.trimming import MOST_POINTS as MOST_POINTS
    from boomwright.tuning.trimming import Trimming as Trimming
    from boomwright.tuning.trimming import antenna_surrogate as antenna_surrogate
    from boomwright.tuning.trimming import trim as trim

__getattr__ = on_demand(
    __name__,
    {
        "aiming": "Aim Alignment align",
        "antenna": "Bench",
        "causes": "Cause",
        "tolerance": "Tolerance",
        "faults": "FaultReport find_fault list_suspects",
        "identify": "Identification",
        "installation": "Installation after_changes at_line at_meter",
        "line_removal": "LineReading check_calibration corrected error_terms read_open_and_short "
        "without_line",
        "moves": "GOOD_SWR Advice Foretold Step",
        "on_air": "HeadingReading HeadingRun compare_headings",
        "readings": "Reading SideReading",
        "surrogate": "Surrogate",
        "sweep": "Sweep check_sweep",
        "sweep_table": "read_sweep_table",
        "touchstone": "read_touchstone",
        "trimming": "BAND MOST_POINTS Trimming antenna_surrogate trim",
    },
)

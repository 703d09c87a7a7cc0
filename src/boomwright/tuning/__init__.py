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

from boomwright.tuning.aiming import Aim, Alignment, align
from boomwright.tuning.antenna import Bench
from boomwright.tuning.causes import Cause, Tolerance, element_labels, usual_causes
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.faults import FaultKind, FaultReport, NamedFault, find_fault, list_suspects
from boomwright.tuning.identify import AlikeGroup, FurtherMeasurement, Identification, identify
from boomwright.tuning.installation import (
    Installation,
    after_changes,
    at_line,
    at_meter,
    line_chain,
)
from boomwright.tuning.line_removal import (
    ErrorTerms,
    LineReading,
    check_calibration,
    corrected,
    error_terms,
    read_open_and_short,
    without_line,
)
from boomwright.tuning.moves import GOOD_SWR, Advice, Foretold, Step
from boomwright.tuning.on_air import (
    HeadingReading,
    HeadingRun,
    compare_headings,
    heading_run,
    level_of_s_meter,
)
from boomwright.tuning.readings import METERS, Meter, MeterClass, Phase, Reading, SideReading
from boomwright.tuning.side_readings import front_to_back_db, middle_currents
from boomwright.tuning.sun import SunPlace, sun_place
from boomwright.tuning.surrogate import Surrogate, build_surrogate
from boomwright.tuning.sweep import Sweep, check_sweep, make_sweep, reading_noise
from boomwright.tuning.sweep_table import read_sweep_table
from boomwright.tuning.touchstone import read_touchstone
from boomwright.tuning.trimming import (
    BAND,
    MOST_POINTS,
    MovingCare,
    Trimming,
    antenna_surrogate,
    trim,
)

__all__ = [
    "BAND",
    "GOOD_SWR",
    "METERS",
    "MOST_POINTS",
    "Advice",
    "Aim",
    "Alignment",
    "AlikeGroup",
    "Bench",
    "Cause",
    "ErrorTerms",
    "FaultKind",
    "FaultReport",
    "Foretold",
    "FurtherMeasurement",
    "HeadingReading",
    "HeadingRun",
    "Identification",
    "Installation",
    "LineReading",
    "MeasurementError",
    "Meter",
    "MeterClass",
    "MovingCare",
    "NamedFault",
    "Phase",
    "Reading",
    "SideReading",
    "Step",
    "SunPlace",
    "Surrogate",
    "Sweep",
    "Tolerance",
    "Trimming",
    "after_changes",
    "align",
    "antenna_surrogate",
    "at_line",
    "at_meter",
    "build_surrogate",
    "check_calibration",
    "check_sweep",
    "compare_headings",
    "corrected",
    "element_labels",
    "error_terms",
    "find_fault",
    "front_to_back_db",
    "heading_run",
    "identify",
    "level_of_s_meter",
    "line_chain",
    "list_suspects",
    "make_sweep",
    "middle_currents",
    "read_open_and_short",
    "read_sweep_table",
    "read_touchstone",
    "reading_noise",
    "sun_place",
    "trim",
    "usual_causes",
    "without_line",
]

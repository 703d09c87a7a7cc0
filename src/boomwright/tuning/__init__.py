"""Tuning: from a measured sweep to which tip to move, by how much, and what to expect of it.

Read a sweep with :func:`read_touchstone` or :func:`read_sweep_table`; :func:`check_sweep` and
:func:`check_calibration` say whether to believe it, :func:`without_line` and :func:`corrected`
move it to the feed point. An :class:`Installation` is the beam over its ground with its match
and its line; :func:`make_predictor` predicts its sweep. :func:`next_trial` finds the deviations
from the plan that explain the sweep (:func:`fit_sweep`), and what to move (:func:`advise`);
called again with the next sweep it builds on the trials before. :func:`identify` says what the
sweep cannot tell and which measurement would. :func:`find_fault` names a fault, from the
antennas of :func:`compute_fault_antennas`. :func:`compare_headings` holds readings on the air
against the computed pattern, :func:`align` finds the offset of a rotator from aims at known
bearings, :func:`sun_place` gives one of those.

All readings come as text, bytes or arrays: this room knows no disk.
"""

from boomwright.tuning.advice import Advice, Step, adjustable_keys, advise, swr_at_design
from boomwright.tuning.aiming import Aim, Alignment, align
from boomwright.tuning.causes import Cause, Tolerance, element_labels, usual_causes
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.fault_antennas import FaultAntennas, LinearAntenna, splined
from boomwright.tuning.fault_solving import (
    FaultBench,
    compute_fault_antennas,
    faulty_impedance,
)
from boomwright.tuning.fault_wires import MetalFault, faulty_wires, half_left, swapped
from boomwright.tuning.faults import FaultReport, NamedFault, find_fault
from boomwright.tuning.fit import BAND, Fit, fit_sweep
from boomwright.tuning.identify import AlikePair, FurtherMeasurement, Identification, identify
from boomwright.tuning.installation import (
    Installation,
    after_changes,
    at_line,
    at_meter,
    line_chain,
)
from boomwright.tuning.knowledge import Knowledge, SweepModel, as_changes, first_knowledge
from boomwright.tuning.line_removal import (
    ErrorTerms,
    LineReading,
    check_calibration,
    corrected,
    error_terms,
    read_open_and_short,
    without_line,
)
from boomwright.tuning.on_air import (
    HeadingReading,
    HeadingRun,
    compare_headings,
    heading_run,
    level_of_s_meter,
)
from boomwright.tuning.predicting import Predictor, make_predictor
from boomwright.tuning.solving import front_to_back_db, middle_currents, solution_of
from boomwright.tuning.sun import SunPlace, sun_place
from boomwright.tuning.suspects import FaultKind, Suspect, list_suspects
from boomwright.tuning.sweep import Sweep, check_sweep, make_sweep, reading_noise
from boomwright.tuning.sweep_table import read_sweep_table
from boomwright.tuning.touchstone import read_touchstone
from boomwright.tuning.trials import MovingCare, Trial, after_moving, next_trial

__all__ = [
    "BAND",
    "Advice",
    "Aim",
    "Alignment",
    "AlikePair",
    "Cause",
    "ErrorTerms",
    "FaultAntennas",
    "FaultBench",
    "FaultKind",
    "FaultReport",
    "Fit",
    "FurtherMeasurement",
    "HeadingReading",
    "HeadingRun",
    "Identification",
    "Installation",
    "Knowledge",
    "LineReading",
    "LinearAntenna",
    "MeasurementError",
    "MetalFault",
    "MovingCare",
    "NamedFault",
    "Predictor",
    "Step",
    "SunPlace",
    "Suspect",
    "Sweep",
    "SweepModel",
    "Tolerance",
    "Trial",
    "adjustable_keys",
    "advise",
    "after_changes",
    "after_moving",
    "align",
    "as_changes",
    "at_line",
    "at_meter",
    "check_calibration",
    "check_sweep",
    "compare_headings",
    "compute_fault_antennas",
    "corrected",
    "element_labels",
    "error_terms",
    "faulty_impedance",
    "faulty_wires",
    "find_fault",
    "first_knowledge",
    "fit_sweep",
    "front_to_back_db",
    "half_left",
    "heading_run",
    "identify",
    "level_of_s_meter",
    "line_chain",
    "list_suspects",
    "make_predictor",
    "make_sweep",
    "middle_currents",
    "next_trial",
    "read_open_and_short",
    "read_sweep_table",
    "read_touchstone",
    "reading_noise",
    "solution_of",
    "splined",
    "sun_place",
    "swapped",
    "swr_at_design",
    "usual_causes",
    "without_line",
]

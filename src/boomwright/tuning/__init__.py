"""Tuning: from a measured sweep to which tip to move, by how much, and what to expect of it.

Read a sweep with :func:`read_touchstone` or :func:`read_sweep_table`; :func:`check_sweep` and
:func:`check_calibration` say whether to believe it, :func:`without_line` and :func:`corrected`
move it to the feed point. An :class:`Installation` is the beam over its ground with its match
and its line; :func:`make_predictor` predicts its sweep. :func:`next_trial` finds the deviations
from the plan that explain the sweep (:func:`fit_sweep`), and what to move (:func:`advise`);
called again with the next sweep it builds on the trials before. :func:`identify` says what the
sweep cannot tell and which measurement would. All readings come as text, bytes or arrays: this
room knows no disk.
"""

from boomwright.tuning.advice import Advice, Step, adjustable_keys, advise, swr_at_design
from boomwright.tuning.causes import Cause, Tolerance, element_labels, usual_causes
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.fit import Fit, Knowledge, as_changes, first_knowledge, fit_sweep
from boomwright.tuning.identify import AlikePair, FurtherMeasurement, Identification, identify
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
from boomwright.tuning.predicting import Predictor, make_predictor
from boomwright.tuning.sweep import Sweep, check_sweep, make_sweep, reading_noise
from boomwright.tuning.sweep_table import read_sweep_table
from boomwright.tuning.touchstone import read_touchstone
from boomwright.tuning.trials import MovingCare, Trial, after_moving, next_trial

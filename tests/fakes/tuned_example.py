"""The example of tuning: a sweep made by the solver from a beam whose errors are known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np

from boomwright.plan.resolve.tuning import tuning_installation
from boomwright.session.files import PlanFolder, load_plan
from boomwright.study import tuning
from boomwright.study.tuning import TuneResult
from tuned_antennas import sweep_of, swr_of

FOLDER = Path(__file__).parents[2] / "examples" / "tuning"
PLAN = FOLDER / "three-elements-20m.toml"
SWEEP = FOLDER / "three-elements-20m-synthetic.s1p"
#: what was built otherwise than planned: both tips of each element, rods of the hairpin, line [m]
ERRORS = {"tip.0": 0.002, "tip.1": 0.018, "tip.2": 0.006, "strap": -0.009, "line.length": 0.12}
#: scatter of each part of the reflection, as of a hand-held meter
NOISE = 0.003
FREQUENCIES = np.linspace(13.9e6, 14.45e6, 111)


#: fits of this process, each made once; put in the place of the fit where a command asks for it
tuned_once = cache(tuning.tune_plan)


def tuned_example() -> TuneResult:
    """Fit the example, as the command does."""
    folder = PlanFolder(FOLDER)
    return tuned_once(load_plan(PLAN).plan, files=folder, sweep="", faults=False)


def built_reflection(errors: Mapping[str, float], frequencies: np.ndarray) -> np.ndarray:
    """Reflection at the meter of the example's beam with errors, without noise."""
    planned = tuning_installation(load_plan(PLAN).plan)
    return sweep_of(planned, errors, frequencies)


def built_swr(errors: Mapping[str, float]) -> float:
    """Standing wave ratio at the antenna, at the design frequency."""
    planned = tuning_installation(load_plan(PLAN).plan)
    return swr_of(replace(planned, line=None), errors)


def touchstone(reflection: np.ndarray, frequencies: np.ndarray, head: str = "") -> str:
    """Write a sweep as a file."""
    rows = [
        f"{frequency:.0f} {value.real:.6f} {value.imag:.6f}"
        for frequency, value in zip(frequencies, reflection, strict=True)
    ]
    return "\n".join([*filter(None, [head]), "# Hz S RI R 50", *rows]) + "\n"


def synthetic_text() -> str:
    """Solve the beam as it was built and write what a meter would have shown."""
    parts = NOISE * np.random.default_rng(20).normal(size=(2, len(FREQUENCIES)))
    seen = built_reflection(ERRORS, FREQUENCIES) + parts[0] + 1j * parts[1]
    head = (
        "! SYNTHETIC: computed, not measured. The beam of three-elements-20m.toml built with\n"
        "! known errors, through 18.12 m of line, with made-up noise of a meter."
    )
    return touchstone(seen, FREQUENCIES, head)

"""The example of tuning: a sweep made by the solver from a beam whose errors are known."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import numpy as np

from boomwright.plan.resolve import tuning_installation
from boomwright.session.files import load_plan
from boomwright.tuning import after_changes, make_predictor

FOLDER = Path(__file__).parents[2] / "examples" / "tuning"
PLAN = FOLDER / "three-elements-20m.toml"
SWEEP = FOLDER / "three-elements-20m-synthetic.s1p"
#: what was built otherwise than planned: both tips of each element, rods of the hairpin, line [m]
ERRORS = {"tip.0": 0.002, "tip.1": 0.011, "tip.2": 0.006, "stage.0": -0.009, "line.length": 0.12}
#: scatter of each part of the reflection, as of a hand-held meter
NOISE = 0.003
_FREQUENCIES = np.linspace(13.9e6, 14.45e6, 111)


def synthetic_text(plan: Path = PLAN, errors: Mapping[str, float] = ERRORS) -> str:
    """Solve the beam as it was built and write what a meter would have shown."""
    planned = tuning_installation(load_plan(plan).plan)
    built = after_changes(installation=planned, changes=errors)
    solved = make_predictor(
        installation=built, lowest_frequency=_FREQUENCIES[0], highest_frequency=_FREQUENCIES[-1]
    ).sweep(changes={}, frequencies=_FREQUENCIES)
    parts = NOISE * np.random.default_rng(20).normal(size=(2, len(_FREQUENCIES)))
    seen = solved + parts[0] + 1j * parts[1]
    rows = [
        f"{frequency:.0f} {value.real:.6f} {value.imag:.6f}"
        for frequency, value in zip(_FREQUENCIES, seen, strict=True)
    ]
    head = [
        "! SYNTHETIC: computed, not measured. The beam of three-elements-20m.toml built with",
        "! known errors, through 18.12 m of line, with made-up noise of a meter.",
        "# Hz S RI R 50",
    ]
    return "\n".join([*head, *rows]) + "\n"

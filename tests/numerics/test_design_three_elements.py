"""Three elements over 2.5 % of band against an exhaustive run of 200 starts, in ten cases.

The exhaustive run is our own, as every such run must be: ``benchmarks/design_three_elements.py``
climbs from 200 plain random starts without tables, screening or rounds, and keeps the best design
of each case in ``data/three_elements.json``. Here the engine scores that design anew, and the
search must come within 0.03 dB of it. What it takes stands in ``docs/benchmarks``.
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from antennas import beam_in_wavelengths
from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.improve import improve_beam
from boomwright.design.minimax import judged
from boomwright.design.setting_up import set_up
from boomwright.design.targets import Targets, margins
from boomwright.design.wish import Wish

CASES = json.loads((Path(__file__).parent / "data" / "three_elements.json").read_text())


def asked(case):
    beam = beam_in_wavelengths(
        lengths=[0.49, 0.47, 0.45],
        spacings=[case["boom_wl"] / 2] * 2,
        diameter=2.0 * case["radius_wl"],
        driven=1,
    )
    beam = replace(beam, band=(SPEED_OF_LIGHT * 0.9875, SPEED_OF_LIGHT * 1.0125))
    targets = Targets(
        rear_weight=case["rear"],
        most_swr=case["swr"] or np.inf,
        match="matched",
        resistance=(10.0, np.inf),
    )
    return beam, Wish(targets=targets, boom_limit=case["boom_wl"], places=1e-6)


def test_ten_cases_of_two_hundred_starts_are_recorded():
    assert len(CASES) == 10
    assert {case["starts"] for case in CASES} == {200}
    assert all(0.25 <= case["boom_wl"] <= 0.4 for case in CASES)


@pytest.mark.parametrize("case", CASES)
def test_a_short_search_finds_what_a_long_one_finds(case):
    beam, wish = asked(case)
    problem = set_up(beam=beam, wish=wish, count=3).problem
    exhaustive = problem.space.nearest(
        positions=np.array(case["positions_wl"]), half_lengths=np.array(case["half_lengths_wl"])
    )
    found = margins(problem=problem, towards=wish.targets.directions(), free=exhaustive)
    recorded = judged(problem=problem, found=found)[0]
    # The record is of this engine: scored anew it is what it was.
    assert recorded == pytest.approx(case["score"], abs=2e-3)
    assert improve_beam(beam=beam, wish=wish).state.best.score >= recorded - 0.03

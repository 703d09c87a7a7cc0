"""Even against free spacing side by side."""

from __future__ import annotations

import numpy as np
import pytest
from design_beams import three_elements

from boomwright.design.compare import compare_spacings
from boomwright.design.targets import Targets
from boomwright.design.wish import Wish


@pytest.fixture(scope="module")
def compared():
    wish = Wish(
        targets=Targets(resistance=(12.5, np.inf)), boom_limit=1.0, elements=(5, 5), places=1e-4
    )
    return compare_spacings(beam=three_elements(width=0.01), wish=wish, starts=6)


def test_all_four_in_order(compared):
    assert [one.spacing for one in compared] == ["even, close", "even, wide", "even, best", "free"]


def test_spacings_are_what_they_say(compared):
    close, wide, best, _ = (
        np.diff([element.position for element in one.improvement.beam.elements]) for one in compared
    )
    np.testing.assert_allclose(close, 0.1, rtol=0.0, atol=2e-4)
    np.testing.assert_allclose(wide, 0.25, rtol=0.0, atol=2e-4)
    np.testing.assert_allclose(best, best[0], rtol=0.0, atol=2e-4)


def test_free_is_best_and_close_is_worst(compared):
    close, wide, best, free = (one.improvement.after.worst[0] for one in compared)
    assert close < wide <= best + 0.01
    assert best <= free


def test_sweeps_and_cuts_belong_to_the_beam(compared):
    for one in compared:
        assert len(one.sweep.frequencies) == 21
        middle = one.sweep.gain_dbi[10]
        assert one.azimuth.gain_dbi[0] == pytest.approx(middle, abs=1e-6)
        assert one.elevation.gain_dbi[0] == pytest.approx(middle, abs=1e-6)


def test_stopping_gives_what_is_there():
    wish = Wish(boom_limit=0.3)
    found = compare_spacings(
        beam=three_elements(), wish=wish, starts=3, on_progress=lambda one: one.done < 1
    )
    assert [one.spacing for one in found] == ["even, close"]
    assert "design.stopped" in [notice.code for notice in found[0].improvement.notices]

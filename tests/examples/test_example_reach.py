"""The worked exposure example: its page holds what the program says today."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from boomwright.plan import read_plan
from boomwright.report.reach.people import SHORT_STANDARDS
from boomwright.solver import prepare_run
from boomwright.study.reach_parts.exposure import read_places

ROOT = Path(__file__).resolve().parent.parent.parent
PLAN = ROOT / "examples" / "reach" / "neighbours-window-10m.toml"
PAGE = (ROOT / "docs" / "reach.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def places():
    plan = read_plan(PLAN.read_text(encoding="utf-8"))
    return read_places(plan, plan.beams[0], prepare=prepare_run)


def _row(check) -> str:
    limit, root = check.limit, math.sqrt(check.power)
    cells = (
        check.place.place,
        SHORT_STANDARDS[limit.source],
        limit.group + ("" if check.applies else ", for comparison"),
        f"{check.place.electric * root:.1f} of {limit.electric_field:.1f}",
        f"{check.place.magnetic * root:.3f} of {limit.magnetic_field:.3f}",
        f"{100.0 * check.near.governing:.1f} %",
        f"{100.0 * check.averaged.governing:.1f} %",
        f"{100.0 * check.far.governing:.1f} %",
        f"{check.margin_db:.1f} dB, {check.method}",
    )
    return f"| {' | '.join(cells)} |"


def test_the_page_holds_limits_margins_and_both_methods(places):
    window = [check for check in places.checks if "window" in check.place.place]
    assert len(window) == 4
    for check in places.checks:
        if check.applies or check in window:
            assert _row(check) in PAGE


def test_the_scenario_is_the_one_that_was_asked_for(places):
    beam = places.radiator.beam
    assert (beam.height, len(beam.elements)) == (12.0, 3)
    assert set(places.power.values()) == {400.0}
    window = places.checks[0].place
    assert window.distance == 15.0
    assert window.slant == pytest.approx(math.hypot(15.0, 12.0 - 6.0))


def test_the_margin_told_for_morse_follows_from_the_averages(places):
    """40 % of the time keyed, half of the time sending: 80 W of 400 W are 7.0 dB less."""
    worst = max((c for c in places.checks if c.applies), key=lambda check: check.governing)
    margin = worst.margin_db + 10.0 * math.log10(400.0 / 80.0)
    assert f"{margin:.1f} dB of margin" in PAGE
    assert f"with {worst.margin_db:.1f} dB left" in PAGE


def test_cautions_stand_beside_the_figures():
    for told in ("implants", "authority", "touching metal", "measure where in doubt"):
        assert told in PAGE
    assert " safe" not in PAGE

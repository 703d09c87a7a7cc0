"""The places kept with the project, held against the figures of data/permits_checks.toml."""

from __future__ import annotations

from importlib import resources

import pytest
from check_values import checks

from boomwright.base.quantity import write
from boomwright.permits import read_jurisdiction

CHECKS = checks("permits_checks.toml")


def rules(name):
    entry = resources.files("boomwright.permits").joinpath("data").joinpath(name)
    place = read_jurisdiction(entry.read_text(encoding="utf-8"), name=name)
    return {rule.identity: rule for rule in place.rules}


def test_garden_heights_of_the_united_kingdom():
    # Part 1 class E, planning guidance: published.
    found = rules("united-kingdom.toml")
    heights = [found["garden-height"].limit, found["garden-boundary"].limit]
    assert heights == pytest.approx(CHECKS["uk_pd"]["expected"], rel=1e-12)
    assert found["garden-boundary"].distance == pytest.approx(2.0, rel=1e-12)
    assert "principal elevation" in found["garden-height"].text


def test_the_height_that_passes_almost_without_asking_is_a_question_and_no_limit():
    # Common practice, no source: told, never held against.
    rule = rules("united-states.toml")["low-heights"]
    told = write(rule.told, system="us")
    assert f"about {CHECKS['auto_height']['expected']} ft" in told
    assert rule.kind == "question"
    assert rule.seen == "common practice"
    assert "no rule" in rule.text

"""Computed, improved, fed, tuned, on the page and in the book: one antenna, told once.

Plans are drawn at random from fixed seeds: kind of match, with and without its dimensions, ground,
height, line, second beam on the mast. Whoever tells what will be measured must tell the same.
Set ``BOOMWRIGHT_PLANS`` to try more: each plan is a test of its own, one to four seconds of one
core, so that 200 spread over all cores with ``-n auto``.
"""

from __future__ import annotations

import json
import os
import random
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest

from boomwright.base.quantity import write
from boomwright.feed import standing_wave_ratio
from boomwright.plan import Plan, read_plan
from boomwright.plan.model_measured import MeasuredPlan
from boomwright.plan.resolve.tuning import tuning_installation
from boomwright.reach import BeamReadings
from boomwright.render.json.computation import computation_document
from boomwright.render.json.feed import feed_document
from boomwright.render.json.improve import improve_document
from boomwright.render.rows import fact_rows
from boomwright.report.beam.facts import headline, summary_table
from boomwright.study.computing import compute
from boomwright.study.feed import feed_plan
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.improve import improve_plan, wished_search
from boomwright.tuning import Bench
from boomwright.tuning.installation import at_line
from boomwright.web import pictures
from boomwright.web.readout import measured_numbers

PLANS = int(os.environ.get("BOOMWRIGHT_PLANS", "4"))

_HAIRPIN = 'kind = "hairpin", gap = "30 mm"'
_MOUNT = 'mount = { kind = "insulated above", boom = ["50 mm"], clearance = "10 mm"'
_MOUNTS = ("", _MOUNT + " }\n", _MOUNT + ', plate = ["120 mm", "80 mm", "5 mm"] }\n')
_RODS = 'rod_diameter = "8 mm", rod_spacing = "80 mm"'


def _feed(rng: random.Random) -> str:
    length = rng.randint(200, 500)
    return rng.choice(
        [
            f'{_HAIRPIN}, {_RODS}, rod_length = "{length} mm"',
            f"{_HAIRPIN}, {_RODS}",
            'kind = "split", gap = "20 mm"',
            'kind = "split", gap = "20 mm", balun = 4',
            'kind = "quarter-wave", gap = "20 mm", section_impedance = "35 ohm", '
            f'section_length = "{length / 250} m", velocity_factor = 0.66',
            f'kind = "gamma", {_RODS}, rod_length = "{length} mm", capacitance = "70 pF"',
            f'kind = "tee", {_RODS}',
            'kind = "folded", rod_diameter = "12 mm", rod_spacing = "80 mm", balun = 4',
            'kind = "stub", gap = "20 mm", stub_end = "short"',
            'kind = "L-section", gap = "20 mm", at_antenna = "series coil"',
        ]
    )


def _beam(rng: random.Random, name: str, low: float, height: float) -> str:
    wave = 299.8 / low
    roles = ["reflector", "driven", *["director"] * rng.randint(0, 1)]
    shares = {"reflector": 0.246, "driven": 0.235, "director": 0.226}
    at, rows = 0.0, []
    for role in roles:
        half = shares[role] * wave * rng.uniform(0.99, 1.01)
        rows.append(
            f'  [[beam.element]]\n  role = "{role}"\n  at = "{at:.3f} m"\n'
            f'  half = [["25 mm", "1.2 m"], ["19 mm", "{half - 1.2:.3f} m"]]\n'
        )
        at += rng.uniform(0.12, 0.2) * wave
    return (
        f'[[beam]]\nname = "{name}"\nband = ["{low} MHz", "{low * 1.01:.3f} MHz"]\n'
        f'design = "{low * 1.005:.3f} MHz"\nheight = "{height:.1f} m"\nheading = "0 deg"\n'
        f'material = "6061-T6"\n{rng.choice(_MOUNTS)}feed = {{ {_feed(rng)} }}\n' + "".join(rows)
    )


def random_text(seed: int) -> str:
    """Draw a plan."""
    rng = random.Random(seed)  # noqa: S311 - a seed for tests
    ground = rng.choice(["free space", "medium dry", "wet", "perfect"])
    height = rng.uniform(7.0, 20.0)
    text = f'boomwright = 1\ntitle = "One antenna {seed}"\n[site]\nground = "{ground}"\n'
    text += _beam(rng, "lower", rng.choice([21.0, 24.9, 28.0]), height)
    if rng.random() < 0.25:
        text += _beam(rng, "upper", 28.4, height + rng.uniform(1.0, 3.0))
    text += '[wish]\nbeam = "lower"\n'
    if rng.random() < 0.6:
        text += f'[line]\ntype = "RG-213"\nlength = "{rng.randint(15, 60)} m"\n'
    return text


def _told(documents: list[dict]) -> list[dict]:
    return [document["as_measured"] for document in documents]


def _same(one: object, other: object, at: str = "as_measured") -> None:
    """Alike in every number, list and table, however deep."""
    if isinstance(one, dict):
        assert isinstance(other, dict), at
        assert one.keys() == other.keys(), at
        for key, value in one.items():
            _same(value, other[key], f"{at}.{key}")
    elif isinstance(one, list):
        assert isinstance(other, list), at
        assert len(one) == len(other), at
        for number, pair in enumerate(zip(one, other, strict=True)):
            _same(*pair, f"{at}[{number}]")
    elif isinstance(one, float):
        assert other == pytest.approx(one, abs=1e-6, rel=1e-9), at
    else:
        assert other == one, at


def _page_and_book(readings: BeamReadings, told: dict, measured: AsMeasured | NotMeasured) -> None:
    """The digits of the page's card and of the book's first page."""
    point, over = readings.free_space, readings.over_ground
    book = dict(fact_rows(headline(readings, measured), system="metric"))
    if isinstance(measured, NotMeasured):
        assert told == {"refusal": write(measured.refusal, system="metric")}
        assert "SWR as measured, worst" not in book
        return
    card = {each.name: each for each in measured_numbers(measured, point=point, over_ground=over)}
    swr = told["swr_worst"]
    if swr < 10.0:
        assert book["SWR as measured, worst"].startswith(f"{swr:.2f}, ")
        assert card["swr"].value == f"{swr:.2f}"
    rows = summary_table(readings, measured).items
    (over,) = (value for name, value, _ in rows if name == "SWR over the band")
    if swr < 10.0:
        assert f" to {swr:.2f}" in write(over, system="metric")
    _curve(pictures.sweep(readings, measured), readings, told)
    rear = f"{told['front_to_rear_worst_db']:.1f}"
    assert book["Front-to-rear, worst in band"].replace("−", "-") == f"{rear} dB"
    assert card["rear"].value.replace("−", "-") == rear


def _curve(svg: str, readings: BeamReadings, told: dict) -> None:
    """The curve that page and book draw goes through what was told."""
    root = ElementTree.fromstring(svg)  # noqa: S314 - made by this project a moment ago
    groups = root.iter("{http://www.w3.org/2000/svg}g")
    (group,) = (each for each in groups if each.get("data-series") == readings.beam.name)
    at = [point["frequency_hz"] for point in told["sweep"]]
    expected = np.interp(
        [point.frequency for point in readings.sweep], at, [each["swr"] for each in told["sweep"]]
    )
    np.testing.assert_allclose(json.loads(group.attrib["data-value"]), expected, atol=1e-4)


def _tuning(plan: Plan, measured: AsMeasured | NotMeasured, told: dict) -> None:
    """The model that sweeps are read with is the same antenna; it asks for a match as drawn."""
    if isinstance(measured, NotMeasured) or measured.proposed:
        return
    beam = measured.beam
    model = tuning_installation(replace(plan, measured=MeasuredPlan(sweep="", beam=beam.name)))
    at = np.array([beam.design_frequency])
    seen = at_line(installation=model, impedance=Bench(model).impedance(model, at), frequencies=at)
    swr = standing_wave_ratio(seen, reference=measured.reference)[0]
    assert swr == pytest.approx(told["match_swr_design"], abs=1e-6)


def _one_antenna(seed: int) -> None:
    text = random_text(seed)
    plan = read_plan(text)
    fed = feed_plan(plan)
    by_feed = _told(feed_document(fed)["beams"])
    computed = compute(plan, points=3)
    by_compute = _told(computation_document(computed)["beams"])
    search = replace(
        wished_search(plan), starts=2, on_progress=lambda _doing, now: now is None or not now.done
    )
    found = improve_plan(search, text=text)
    by_improve = improve_document(found)
    for one, other in zip(by_feed, by_compute, strict=True):
        _same(one, other)
    number = plan.beams.index(found.before)
    _same(by_feed[number], by_improve["before"]["as_measured"])
    improved = feed_document(feed_plan(read_plan(found.text)))["beams"][number]
    _same(improved["as_measured"], by_improve["after"]["as_measured"])
    for readings, told, beam in zip(computed.beams, by_feed, fed.beams, strict=True):
        _page_and_book(readings, told, beam.measured)
        _tuning(plan, beam.measured, told)


@pytest.mark.parametrize("seed", range(PLANS))
def test_compute_feed_and_improve_tell_one_antenna(seed, monkeypatch):
    # Half of the time would go to the line's outside, which nobody compares here.
    monkeypatch.setattr("boomwright.study.feed.braid_cases", lambda *_, **__: ((), ()))
    _one_antenna(seed)

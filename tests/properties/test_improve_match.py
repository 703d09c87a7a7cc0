"""What an improvement promises with its match is what the feed then says.

Wishes and kinds of match are drawn at random from fixed seeds. More of them run with the number
in BOOMWRIGHT_PLANS.
"""

from __future__ import annotations

import os
import random
import re
from dataclasses import replace

import pytest

from boomwright.plan import read_plan
from boomwright.study.feed import feed_plan
from boomwright.study.feed_parts.results import AsMeasured
from boomwright.study.improve import improve_plan, wished_search

KINDS = {
    "hairpin": 'gap = "30 mm", rod_diameter = "8 mm", rod_spacing = "80 mm"',
    "gamma": 'rod_diameter = "8 mm", rod_spacing = "90 mm"',
    "tee": 'rod_diameter = "8 mm", rod_spacing = "90 mm"',
    "folded": 'rod_diameter = "12 mm", rod_spacing = "80 mm", balun = 2',
    "quarter-wave": 'gap = "20 mm", velocity_factor = 0.66',
    "stub": 'gap = "20 mm", stub_end = "short"',
    "L-section": 'gap = "20 mm", at_antenna = "series coil"',
    "split": 'gap = "20 mm"',
}
#: cutting to the grid and reading at other frequencies take this much [-], [dB]
SLACK_SWR, SLACK_DB = 0.02, 0.02


def wished_text(seed: int) -> str:
    """Draw a plan with a wish; kinds take turns."""
    rng = random.Random(seed)  # noqa: S311 - a seed for tests
    kind = [*KINDS][seed % len(KINDS)]
    low = rng.choice([14.0, 21.0, 28.0, 50.0])
    wave = 299.8 / low
    ground = rng.choice(["free space", "medium dry", "wet"])
    roles = ["reflector", "driven", *["director"] * rng.randint(0, 2)]
    shares = {"reflector": 0.246, "driven": 0.235, "director": 0.226}
    rows = "".join(
        f'  [[beam.element]]\n  role = "{role}"\n  at = "{0.15 * number * wave:.3f} m"\n'
        f'  half = [["25 mm", "0.8 m"], ["19 mm", "{shares[role] * wave - 0.8:.3f} m"]]\n'
        for number, role in enumerate(roles)
    )
    line = '[line]\ntype = "RG-213"\nlength = "30 m"\n' if rng.random() < 0.5 else ""
    rear = f'front_to_rear = "{rng.choice([8, 10, 12])} dB"\n' if rng.random() < 0.6 else ""
    return (
        f'boomwright = 1\ntitle = "Wish {seed}"\n[site]\nground = "{ground}"\n'
        f'[[beam]]\nname = "one"\nband = ["{low} MHz", "{low * 1.008:.3f} MHz"]\n'
        f'design = "{low * 1.004:.3f} MHz"\nheight = "{rng.uniform(0.5, 1.1) * wave:.1f} m"\n'
        f'heading = "0 deg"\nmaterial = "6061-T6"\nfeed = {{ kind = "{kind}", {KINDS[kind]} }}\n'
        f"{rows}{line}[wish]\nswr = {rng.choice([1.5, 1.8, 2.0])}\n{rear}"
        f'boom = "{0.15 * wave * (len(roles) - 1) * rng.uniform(0.9, 1.3):.2f} m"\n'
    )


def promised_is_measured(seed: int) -> None:
    text = wished_text(seed)
    plan = read_plan(text)
    found = improve_plan(replace(wished_search(plan), starts=3), text=text)
    measured = feed_plan(read_plan(found.text)).beams[0].measured
    assert isinstance(measured, AsMeasured), measured.refusal
    assert not measured.proposed
    _, _, _, swr = found.figures_after.worst
    # Figures over the band are read at other frequencies.
    assert swr == pytest.approx(
        float(measured.match_swr.max()), abs=measured.match.error.swr + 2e-3
    )
    own = found.measured_after
    assert measured.swr_worst[0] == pytest.approx(own.swr_worst[0], abs=1e-6)
    assert measured.front_to_rear_worst[0] == pytest.approx(own.front_to_rear_worst[0], abs=1e-6)
    wish = found.wish.targets
    keeps = (
        measured.match_swr.max() <= wish.most_swr + SLACK_SWR
        and measured.front_to_rear_worst[0] >= wish.least_front_to_rear_db - SLACK_DB
    )
    limits = {each.code for each in found.notices if each.severity == "limit"}
    assert keeps or "design.limit-missed-as-measured" in limits
    assert found.best.kept == (not limits)
    reflector, driven, *directors = (each.half_length for each in measured.match.beam.elements)
    between = driven <= reflector + 1e-6 and (not directors or driven >= directors[0] - 1e-6)
    codes = {each.code for each in found.notices}
    assert between != ("design.driven-outside" in codes)


@pytest.mark.parametrize("seed", range(int(os.environ.get("BOOMWRIGHT_PLANS", "8"))))
def test_what_is_promised_is_measured(seed):
    promised_is_measured(seed)


def us_text(low: float, boom: str, rows: str) -> str:
    """A plan in feet and inches."""
    gap, rod, apart = ("1/2", "1/8", "1 1/4") if low < 100.0 else ("1/8", "1/16", "3/8")
    return (
        f'boomwright = 1\ntitle = "US"\n[site]\nground = "free space"\n'
        f'[[beam]]\nname = "one"\nband = ["{low} MHz", "{low * 1.006:.3f} MHz"]\n'
        f'design = "{low * 1.003:.3f} MHz"\nheight = "40 ft"\nheading = "0 deg"\n'
        'material = "6061-T6"\nfeed = { kind = "hairpin", '
        f'gap = "{gap} in", rod_diameter = "{rod} in", rod_spacing = "{apart} in" }}\n'
        f'{rows}[wish]\nboom = "{boom}"\nswr = 1.6\n'
        'front_to_rear = "9 dB"\n'
    )


SIX_METRES = """
  [[beam.element]]
  role = "reflector"
  at = "0 ft"
  half = [["3/4 in", "3 ft"], ["5/8 in", "1 ft 9 in"]]
  [[beam.element]]
  role = "driven"
  at = "2 ft 6 in"
  half = [["3/4 in", "3 ft"], ["5/8 in", "1 ft 6 1/2 in"]]
  [[beam.element]]
  role = "director"
  at = "5 ft 6 in"
  half = [["3/4 in", "3 ft"], ["5/8 in", "1 ft 4 in"]]
"""
SEVENTY_CM = """
  [[beam.element]]
  role = "reflector"
  at = "0 in"
  diameter = "1/4 in"
  length = "13 1/2 in"
  [[beam.element]]
  role = "driven"
  at = "4 1/2 in"
  diameter = "1/4 in"
  length = "12 1/2 in"
  [[beam.element]]
  role = "director"
  at = "9 1/2 in"
  diameter = "1/4 in"
  length = "11 1/2 in"
"""


@pytest.mark.parametrize(
    ("low", "boom", "rows", "step"),
    [(50.0, "6 ft", SIX_METRES, 0.0254 / 16.0), (432.0, "11 in", SEVENTY_CM, 1e-4)],
)
def test_feet_and_inches_are_searched_as_they_are_written(low, boom, rows, step):
    text = us_text(low, boom, rows)
    found = improve_plan(replace(wished_search(read_plan(text)), starts=3), text=text)
    written = read_plan(found.text).beams[0]
    for each in written.elements:
        for length in (each.position, each.half[-1].length):
            # Decimal inches are written to a thousandth.
            assert abs(length - round(length / step) * step) < 2e-5
    assert found.best.kept, found.notices
    assert isinstance(found.measured_after, AsMeasured)
    assert found.measured_after.match_swr.max() <= 1.6 + SLACK_SWR
    # New lengths of the match are written in the owner's units too.
    assert "rod_length" in found.text
    assert not re.search(r'\d m?m"', found.text)


def text_of_23_cm(feed: str, swr: float) -> str:
    """Four elements whose whole millimetres would take a limit on the standing wave ratio."""
    roles = ("reflector", "driven", "director", "director")
    places, lengths = (0.0, 46.3, 92.7, 139.0), (114.0, 108.9, 102.9, 102.9)
    rows = "".join(
        f'  [[beam.element]]\n  role = "{role}"\n  at = "{at} mm"\n'
        f'  diameter = "3 mm"\n  length = "{length} mm"\n'
        for role, at, length in zip(roles, places, lengths, strict=True)
    )
    return (
        'boomwright = 1\ntitle = "23 cm"\n[site]\nground = "free space"\n[[beam]]\nname = "one"\n'
        'band = ["1294 MHz", "1299.176 MHz"]\ndesign = "1296.588 MHz"\nheight = "10 m"\n'
        f'heading = "0 deg"\nmaterial = "6061-T6"\nfeed = {{ {feed} }}\n{rows}'
        f'[wish]\nswr = {swr}\nboom = "139 mm"\n'
    )


@pytest.mark.parametrize(
    ("feed", "swr"),
    [
        ('kind = "split", gap = "2 mm"', 1.2),
        ('kind = "quarter-wave", gap = "2 mm", velocity_factor = 0.66', 1.17),
    ],
)
def test_a_tight_limit_of_23_cm_holds_as_the_match_is_cut(feed, swr):
    text = text_of_23_cm(feed, swr)
    found = improve_plan(replace(wished_search(read_plan(text)), starts=3), text=text)
    assert found.best.kept, found.notices
    assert found.measured_after.match_swr.max() <= swr + 0.002
    for each in found.after.elements:
        assert each.half_length * 1e4 == pytest.approx(round(each.half_length * 1e4), abs=1e-5)

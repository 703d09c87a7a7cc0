"""What an old hand doubts at sight of a plan {common-practice-plan-doubts}, and what is plain."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.plan import plan_notices, read_plan
from boomwright.session.files import packaged_text

DEMO = packaged_text("demo.toml")
SECOND = """
[[beam]]
name = "10m"
band = ["28.0 MHz", "28.7 MHz"]
design = "28.4 MHz"
height = "{height}"
heading = "90 deg"
material = "6061-T6"
feed = {{ kind = "split", gap = "20 mm" }}
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "20 mm"
  length = "5 m"
{more}
[support]
"""


def doubts(text):
    return {notice.code: notice for notice in plan_notices(read_plan(text))}


def changed(old, new, text=DEMO):
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)


def second(height, more=""):
    return changed("[support]\n", SECOND.format(height=height, more=more))


CASES = [
    ("plan.director-long", '"1.225 m", "1.47 mm"', '"1.95 m", "1.47 mm"', "11.300 m"),
    ("plan.reflector-short", '"1.79 m", "1.47 mm"', '"1.30 m", "1.47 mm"', "10.000 m"),
    ("plan.driven-length", '"1.44 m", "1.47 mm"', '"0.14 m", "1.47 mm"', "7.680 m"),
    ("plan.element-far", 'at = "6.00 m"', 'at = "500 m"', "497.400 m"),
    ("plan.element-off-boom", 'at = "6.00 m"', 'at = "500 m"', "500.000 m"),
    ("plan.fitting-off-boom", 'stands_for = "feed box"', 'at = "28.7 m"', "28.700 m"),
    ("plan.boom-thin", 'diameter = "51 mm"', 'diameter = "25 mm"', "25.00 mm"),
    ("plan.tie-flat", 'material = "6061-T6"\n  fitting',
     'material = "6061-T6"\n  tie = { share = 0.65, rise = "0.4 m", area = "12 mm2", '
     'elastic_modulus = "100 GPa" }\n  fitting', "11 deg"),
    ("plan.wind-fast", 'wind = "40 m/s"', 'wind = "130 m/s"', "130 m/s (291 mph)"),
    ("plan.wind-fast", 'wind = "40 m/s"', 'wind = "98 m/s"', "98 m/s (219 mph)"),
    ("plan.wind-slow", 'wind = "40 m/s"', 'wind = "40 mph"', "18 m/s (40 mph)"),
    ("plan.ice-thick", 'ice = "3 mm"', 'ice = "10 cm"', "100 mm (3.9 in)"),
    ("plan.ice-mapped-unsaid", "mapped = false", "", ""),
    ("plan.ice-gust-fast", 'gust = "18 m/s"', 'gust = "45 m/s"', "45 m/s (101 mph)"),
    ("plan.beam-low", 'height = "16 m"', 'height = "1.6 m"', "1.60 m (5.2 ft)"),
    ("plan.beam-off-mast", 'height = "16 m"', 'height = "14.2 m"', "14.20 m (46.6 ft)"),
    ("plan.bearing-above-support", 'height = "15 m"', 'height = "11 m"', "15.00 m (49.2 ft)"),
    ("plan.line-short", 'length = "42 m"', 'length = "12 m"', "12.00 m (39.4 ft)"),
]  # fmt: skip


def test_the_demo_is_plain():
    assert doubts(DEMO) == {}


@pytest.mark.parametrize(("code", "old", "new", "value"), CASES, ids=[c[0] for c in CASES])
def test_a_doubt_and_what_it_saw(code, old, new, value):
    # Guys and ground go with a shorter pole: only the doubt itself is looked for.
    text = changed(old, new)
    if code == "plan.bearing-above-support":
        text = changed('height = "14 m"', 'height = "10 m"', text)
    found = doubts(text)
    assert code in found
    # A size in both systems: each reader sees the one of his own.
    metric, _, us = value.partition(" (")
    assert metric in found[code].written("metric").value
    if us:
        assert us.rstrip(")") in found[code].written("us").value
        assert metric not in found[code].written("us").value
    assert found[code].severity == "doubt"


def test_a_gust_past_the_record_names_it():
    # 113.3 m/s on Barrow Island, 1996 {wmo-gust-record}.
    found = doubts(changed('wind = "40 m/s"', 'wind = "130 m/s"'))["plan.wind-fast"]
    assert found.source == "wmo-gust-record"
    assert found.written("metric").limit == "113 m/s"
    assert found.written("us").limit == "253 mph"


@pytest.mark.parametrize("bare", ["130", '"130"'])
def test_a_bare_wind_is_asked_for_its_unit_and_never_led_to_metres_a_second(bare):
    with pytest.raises(PlanError) as caught:
        read_plan(changed('wind = "40 m/s"', f"wind = {bare}"))
    (fault,) = caught.value.faults
    assert fault.path == "site.wind"
    # By hand: 130 x 0.44704 = 58.1, 130 / 3.6 = 36.1, 130 / 0.44704 = 291.
    assert fault.remedy == (
        'write what it is: "130 mph" (58.1 m/s), "130 km/h" (36.1 m/s) or "130 m/s" '
        "(291 mph, more than any gust ever measured)"
    )


@pytest.mark.parametrize(
    "points",
    [
        # across the reflector's left half, and along the driven element within two radii of it
        "[[-1.0, 2.0, 0.0], [1.0, 2.0, 0.0]]",
        "[[2.601, -2.0, 0.001], [2.601, 2.0, 0.001]]",
    ],
)
def test_parts_of_one_beam_that_cross_or_touch(points):
    wire = f'\n  [[beam.wire]]\n  name = "tail"\n  diameter = "2 mm"\n  points = {points}\n'
    found = doubts(changed("  [beam.boom] ", f"{wire}\n  [beam.boom] "))
    assert "'tail'" in found["plan.parts-cross"].text
    assert "without being joined" in found["plan.parts-cross"].text
    # Led over the beam with room to spare it is plain, and so is one that meets a tip.
    above = "[[-1.0, 2.0, 0.4], [1.0, 2.0, 0.4]]"
    assert "plan.parts-cross" not in doubts(changed("  [beam.boom] ", wire.replace(points, above)
                                                    + "\n  [beam.boom] "))  # fmt: skip
    bent = "[[0.0, 5.49, 0.0], [0.0, 5.49, -0.5]]"
    assert "plan.parts-cross" not in doubts(changed("  [beam.boom] ", wire.replace(points, bent)
                                                    + "\n  [beam.boom] "))  # fmt: skip


def test_two_beams_at_one_height_on_one_mast():
    assert "plan.beams-close" in doubts(second("16.1 m"))
    assert "plan.beams-close" not in doubts(second("15.2 m"))


def test_a_beam_on_a_ring_needs_no_mast_at_its_height():
    assert "plan.beam-off-mast" in doubts(second("8 m"))
    ring = changed(
        "  [support.rotator]",
        '  [[support.ring]]\n  beam = "10m"\n\n  [support.rotator]',
        second("8 m"),
    )
    assert "plan.beam-off-mast" not in doubts(ring)


def test_lengths_are_not_judged_where_wires_or_traps_change_them():
    trap = (
        '\n  traps = [{ at = "2.0 m", width = "0.1 m", inductance = "3 uH", '
        'capacitance = "19 pF", quality = 200 }]\n'
    )
    text = changed('"1.225 m", "1.47 mm"]]', f'"1.95 m", "1.47 mm"]]{trap}')
    assert "plan.director-long" not in doubts(text)
    assert "plan.traps" in doubts(text)


def test_without_ground_no_height_is_low():
    text = changed('ground = "medium dry"', 'ground = "free space"')
    assert "plan.beam-low" not in doubts(changed('height = "16 m"', 'height = "1.6 m"', text))

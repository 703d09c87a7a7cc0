"""Reading: SI values, defaults, forms of an element, encodings, speed of import and reading."""

from __future__ import annotations

import math
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from boomwright.base import PlanError
from boomwright.plan import Plan, plan_notices, read_plan
from boomwright.session.files import packaged_text

DEMO = packaged_text("demo.toml")

SHORT = """\
boomwright = 1
title = "Two"
site = { ground = "free space" }
[[beam]]
name = "a"
band = ["28.0 MHz", 29.7e6]
design = "28.5 MHz"
height = 0
heading = "WNW"
material = "perfect"
feed = { kind = "split", gap = "3/4 in" }
[[beam.element]]
role = "reflector"
at = "-0.15 wl"
diameter = "7/8 in"
length = "17 ft 6-1/2 in"
[[beam.element]]
role = "driven"
at = 0
half = [["1 in", "3 ft"], ["7/8 in", "5 ft 2 in", "0.058 in"]]
[[beam.wire]]
name = "tail"
diameter = "2 mm"
points = [[0, 0, 0], ["4 ft", 3.0, -0.5]]
"""


def faults_of(text: str | bytes) -> dict[str, str]:
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    return {fault.path: fault.message for fault in caught.value.faults}


def test_demo_plan_in_si() -> None:
    plan = read_plan(DEMO)
    (beam,) = plan.beams
    assert plan.site.ground.permittivity == 15.0
    assert math.degrees(plan.site.latitude or 0) == pytest.approx(52.2, rel=1e-12)
    assert (plan.site.wind_speed, plan.site.wind_basis.kind, plan.site.wind_basis.exposure) == (
        40.0,
        "ultimate",
        "B",
    )
    assert beam.band == (14.0e6, 14.35e6)
    assert math.degrees(beam.heading) == pytest.approx(300)
    assert [element.role for element in beam.elements] == ["reflector", "driven", "director"]
    assert beam.elements[0].half[0].diameter == 0.03175
    assert beam.boom_length == 6.0


def test_demo_lengths_are_those_of_telescoping_tube() -> None:
    """Common practice: 0.473 wl for plain tube, more when telescoping; 5 % steps.

    From 31.75 down to 15.88 mm the steps are strong: up to 4 % more, from memory.
    """
    (beam,) = read_plan(DEMO).beams
    lengths = {element.role: element.length / beam.wavelength for element in beam.elements}
    # A hairpin wants capacitive reactance, so its driven element is cut about 1 % shorter.
    lengths["driven"] *= 1.01
    assert 0.473 * 1.01 <= lengths["driven"] <= 0.473 * 1.04
    assert 1.04 <= lengths["reflector"] / lengths["driven"] <= 1.06
    assert 0.94 <= lengths["director"] / lengths["driven"] <= 0.96


def test_us_units_wavelengths_and_points() -> None:
    (beam,) = read_plan(SHORT).beams
    reflector, driven = beam.elements
    assert reflector.position == pytest.approx(-0.15 * 299792458 / 28.5e6, rel=1e-14)
    assert reflector.length == pytest.approx(210.5 * 0.0254, rel=1e-14)
    assert driven.half_length == pytest.approx((36 + 62) * 0.0254, rel=1e-14)
    assert driven.half[1].wall == pytest.approx(0.058 * 0.0254, rel=1e-14)
    assert beam.feed.gap == pytest.approx(0.75 * 0.0254, rel=1e-14)
    assert np.allclose(beam.wires[0].points, [[0, 0, 0], [1.2192, 3, -0.5]], rtol=0, atol=1e-14)


def test_everything_optional_may_be_left_out() -> None:
    site = read_plan(SHORT).site
    assert (site.latitude, site.wind_speed, site.ice_thickness, site.wind_basis.kind) == (
        None,
        None,
        None,
        "",
    )


def test_ground_by_constants_and_place_by_locator() -> None:
    text = SHORT.replace(
        'site = { ground = "free space" }',
        'site = { locator = "JO02be", ground = { permittivity = 13, conductivity = "5 mS/m" } }',
    ).replace("height = 0", "height = 12")
    site = read_plan(text).site
    assert (site.ground.kind, site.ground.permittivity, site.ground.conductivity) == (
        "real",
        13,
        0.005,
    )
    assert math.degrees(site.latitude or 0) == pytest.approx(52.1875, abs=1e-10)


def test_position_inside_its_locator_square_is_no_conflict() -> None:
    text = SHORT.replace("{ ground", '{ locator = "JO02be", position = "52.20 N, 0.10 E", ground')
    assert math.degrees(read_plan(text).site.latitude or 0) == pytest.approx(52.2)


@pytest.mark.parametrize(
    ("old", "new", "path", "said"),
    [
        ('"0.058 in"', '"1e-300 mm"', "beam[0].element[1].half[1][2]", "at least 0.02 mm"),
        ('"0.058 in"', '"0.1 um"', "beam[0].element[1].half[1][2]", "at least 0.02 mm"),
        ('diameter = "2 mm"', 'diameter = "1e-320 m"', "beam[0].wire[0].diameter", "0.001 mm"),
        ('"4 ft"', '"1e-9 m"', "beam[0].wire[0].points[1][0]", "0, or at least 0.001 mm"),
        ("height = 0", 'height = "2.1 km"', "beam[0].height", "at most 2000 m"),
        ('"free space" }', '"perfect", wind = "1e-9 m/s" }', "site.wind", "at least 1 m/s"),
        ('"free space" }', '"perfect", wind = "400 m/s" }', "site.wind", "at most 150 m/s"),
    ],
)
def test_what_no_part_and_no_wind_can_be_is_a_fault(old, new, path, said) -> None:
    assert said in faults_of(SHORT.replace(old, new))[path]


def test_height_is_never_below_zero_and_above_it_over_a_ground() -> None:
    assert read_plan(SHORT).beams[0].height == 0
    assert "beam[0].height" in faults_of(SHORT.replace("height = 0", "height = -1"))
    assert "beam[0].height" in faults_of(SHORT.replace("free space", "perfect"))


@pytest.mark.parametrize(
    "change",
    [lambda t: t.encode(), lambda t: "\ufeff" + t, lambda t: t.replace("\n", "\r\n").encode()],
)
def test_bytes_byte_order_mark_and_other_line_ends(change: object) -> None:
    assert read_plan(change(DEMO)) == read_plan(DEMO)  # type: ignore[operator]


def test_line_numbers_hold_with_byte_order_mark_and_other_line_ends() -> None:
    text = DEMO.replace('"16 m"', '"16 kg"')
    row = next(i for i, line in enumerate(text.split("\n"), 1) if "16 kg" in line)
    for changed in (text, "\ufeff" + text, text.replace("\n", "\r\n")):
        with pytest.raises(PlanError) as caught:
            read_plan(changed)
        assert [fault.line for fault in caught.value.faults] == [row]


def test_wavelength_lengths_are_not_blamed_when_the_design_is() -> None:
    assert set(faults_of(SHORT.replace("28.5 MHz", "28.5 Mz"))) == {"beam[0].design"}
    assert set(faults_of(SHORT.replace('design = "28.5 MHz"\n', ""))) == {"beam[0].design"}


def test_wavelengths_outside_a_beam_have_no_meaning() -> None:
    text = SHORT.replace("{ ground", '{ ice = "0.1 wl", ground')
    assert "no meaning here" in faults_of(text)["site.ice"]


def test_doubts_do_not_refuse() -> None:
    assert plan_notices(read_plan(DEMO)) == ()
    text = (
        (DEMO[: DEMO.index("[site.wind_basis]")] + DEMO[DEMO.index("[site.ice_basis]") :])
        .replace('design = "14.175', 'design = "14.5')
        .replace('role = "director"\n  at = "6.00 m"', 'role = "director"\n  at = "-2.0 m"')
    )
    codes = [notice.code for notice in plan_notices(read_plan(text))]
    assert codes == [
        "plan.wind-kind-unsaid",
        "plan.design-outside-band",
        "plan.role-against-place",
        "plan.element-off-boom",
    ]
    text = DEMO.replace('ice = "3 mm"\n', "")
    assert [notice.code for notice in plan_notices(read_plan(text))] == ["plan.ice-unsaid"]


def test_odd_key_is_named_without_harm() -> None:
    text = DEMO.replace("title =", '"ti\\u001btle" = 1\ntitle =')
    paths = list(faults_of(text))
    assert paths == ['"ti\\u001btle"']


def test_another_kind_of_file_gives_one_fault_for_all_its_keys() -> None:
    text = "".join(f"k{number} = 1\n" for number in range(20_000)) + DEMO
    assert faults_of(text) == {"plan": "20000 keys here are not known in a plan"}


def test_plan_is_frozen() -> None:
    plan = read_plan(DEMO)
    with pytest.raises(AttributeError):
        plan.title = "other"  # type: ignore[misc]
    assert isinstance(plan, Plan)


def test_import_is_light() -> None:
    """Reading a plan adds no package to those the rooms below load."""
    code = (
        "import sys, boomwright.parts, boomwright.solver; before = set(sys.modules); "
        "import boomwright.plan; "
        "new = {name.split('.')[0] for name in set(sys.modules) - before}; "
        "print(sorted(new - set(sys.stdlib_module_names)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "['boomwright']"


def fit_faults(rows: str) -> list[tuple[str, str]]:
    begin = DEMO.index("half = [[")
    text = DEMO[:begin] + f"half = [{rows}]" + DEMO[DEMO.index("\n", begin) :]
    try:
        read_plan(text)
    except PlanError as error:
        return [(fault.path, fault.message) for fault in error.faults]
    return []


def test_a_tube_that_does_not_go_in_is_a_fault() -> None:
    rows = '["1.5 in", "1.2 m", "0.125 in"], ["1.375 in", "4 m", "0.058 in"]'
    ((path, message),) = fit_faults(rows)
    assert path == "beam[0].element[0].half[1][0]"
    assert "31.75 mm (1.250 in)" in message
    ((path, message),) = fit_faults('["1.25 in", "1.2 m"], ["1.25 in", "4 m"]')
    assert path == "beam[0].element[0].half[1][0]"
    assert "as wide as" in message


def test_what_goes_in_or_is_lined_or_unknown_is_no_fault() -> None:
    assert not fit_faults('["1.5 in", "1.2 m", "0.058 in"], ["1.375 in", "4 m", "0.058 in"]')
    # a second tube pushed into the inner part doubles its wall
    assert not fit_faults('["1.25 in", "1.2 m", "0.116 in"], ["1.25 in", "4 m", "0.058 in"]')
    assert not fit_faults('["1.5 in", "1.2 m"], ["1.375 in", "4 m", "0.058 in"]')


def test_keys_that_contradict_each_other_are_a_fault_of_their_table() -> None:
    """Each is in order; together no maker could have meant them."""
    stations = Path(__file__).parents[3] / "examples" / "stations"
    text = next(stations.glob("04*.toml")).read_text(encoding="utf-8")
    with pytest.raises(PlanError) as refused:
        read_plan(text.replace('kind = "nominal"\nexposure', 'kind = "design"\nexposure'))
    (fault,) = refused.value.faults
    assert fault.path == "support.tower.rating"
    assert "'design' does not go with TIA-222-F" in fault.message
    assert fault.line == 1 + text[: text.index("[support.tower.rating]")].count("\n")

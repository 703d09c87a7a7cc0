"""Plans as text: writing and reading undo each other; nothing an owner types gives a traceback."""

from __future__ import annotations

import json
import math
import tomllib
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from boomwright.base import PlanError, feet_inches_sixteenths
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection, Wire
from boomwright.plan import (
    Plan,
    QuantityError,
    Site,
    parse_quantity,
    read_plan,
    rewrite,
    set_element_length,
    write_plan,
)
from boomwright.plan.directions import parse_heading, parse_position
from boomwright.plan.faults import path_text
from boomwright.plan.format import stepped_text
from boomwright.plan.layout import lay_out
from boomwright.plan.model_wind import WindBasisPlan
from boomwright.session.files import packaged_text
from boomwright.solver import GROUND_CLASSES, Ground
from full_plan import FEEDS, FULL, with_feed
from written import metric

DEMO = packaged_text("demo.toml")
CHECK = settings(max_examples=60, deadline=None)

names = st.text(st.characters(exclude_categories=("C", "Z")), min_size=1, max_size=30)


def between(low: float, high: float) -> st.SearchStrategy[float]:
    """Floats that can be measured: 0, or at least a hundredth of a thousandth."""
    every = st.floats(low, high, allow_nan=False, allow_subnormal=False)
    return every.filter(lambda value: value == 0.0 or abs(value) > 1e-5)


@st.composite
def halves(draw: st.DrawFn, wavelength: float) -> tuple[TubeSection, ...]:
    shares = draw(st.lists(between(0.1, 1.0), min_size=1, max_size=5))
    half = draw(between(0.05, 0.6)) * wavelength
    diameter = min(1.5, draw(between(1e-4, 0.04)) * wavelength)
    sections = []
    for share in shares:
        wall = draw(st.one_of(st.just(0.0), between(0.05, 0.45))) * diameter
        wall = 0.0 if wall < 2e-5 else wall  # no tube is as thin as foil
        sections.append(
            TubeSection(diameter=diameter, length=half * share / sum(shares), wall=wall)
        )
        # the next tube goes into the bore of this one
        diameter = (diameter - 2.0 * wall) * draw(between(0.7, 0.99))
    return tuple(sections)


@st.composite
def beams(draw: st.DrawFn, name: str) -> Beam:
    low = draw(between(1.8e6, 1.3e9))
    high = low * draw(between(1.0001, 1.1))
    design = draw(between(low, high))
    wavelength = 299792458.0 / design
    count = draw(st.integers(1, 5))
    driven = draw(st.integers(0, count - 1))
    elements = tuple(
        Element(
            role="driven" if i == driven else draw(st.sampled_from(["reflector", "director"])),
            position=(0.1 * i + draw(between(0.0, 0.05))) * wavelength,
            half=draw(halves(wavelength)),
        )
        for i in range(count)
    )
    corner = st.tuples(between(-9, 9), between(-9, 9), between(-0.9, 9))
    corners = st.lists(corner, min_size=2, max_size=5, unique=True)
    wires = tuple(
        Wire(name=f"w{i}", diameter=draw(between(1e-4, 0.1)), points=np.array(draw(corners)))
        for i in range(draw(st.integers(0, 2)))
    )
    gap = elements[driven].half[0].length * draw(between(0.01, 1.9))
    return Beam(
        name=name,
        band=(low, high),
        design_frequency=design,
        height=draw(between(1.0, 100.0)),
        heading=draw(between(0.0, 6.28)),
        material=draw(st.sampled_from(list(MATERIALS.values()))),
        feed=Feed(kind="split", gap=gap),
        elements=elements,
        wires=wires,
    )


@st.composite
def wind_bases(draw: st.DrawFn) -> WindBasisPlan:
    kind = draw(st.sampled_from(["", "ultimate", "nominal", "characteristic", "design"]))
    if not kind:
        return WindBasisPlan(kind="")
    heights = draw(st.lists(st.integers(0, 400), max_size=3, unique=True))
    return WindBasisPlan(
        kind=kind,
        edition=draw(names),
        exposure=draw(st.sampled_from(["", "B", "C", "D"])),
        terrain=draw(st.sampled_from(["", "0", "I", "II", "III", "IV"])),
        topography=draw(st.one_of(st.none(), between(1, 3))),
        orography=draw(st.one_of(st.none(), between(1, 1.9))),
        importance=draw(st.one_of(st.none(), between(0.5, 2))),
        direction=draw(st.one_of(st.none(), between(0.6, 1))),
        season=draw(st.one_of(st.none(), between(0.6, 1))),
        probability=draw(st.one_of(st.none(), between(0.8, 1.2))),
        air_density=draw(st.one_of(st.none(), between(0.9, 1.3))),
        reliability_class=draw(st.one_of(st.none(), st.integers(1, 3))),
        load_factor=draw(st.one_of(st.none(), between(1, 2))),
        pressure=tuple((float(height), draw(between(100, 5000))) for height in sorted(heights)),
        by=draw(names),
    )


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    own = Ground(kind="real", permittivity=draw(between(1, 90)), conductivity=draw(between(0, 10)))
    placed = draw(st.booleans())
    site = Site(
        ground=draw(st.sampled_from([*GROUND_CLASSES.values(), own])),
        latitude=draw(between(-1.57, 1.57)) if placed else None,
        longitude=draw(between(-3.14, 3.14)) if placed else None,
        wind_speed=draw(st.one_of(st.none(), between(1, 100))),
        wind_basis=draw(wind_bases()),
        ice_thickness=draw(st.one_of(st.none(), between(0, 0.1))),
        elevation=draw(st.one_of(st.none(), between(-400, 8000))),
        ice_gust=draw(st.one_of(st.none(), between(1, 50))),
        ice_mapped=draw(st.sampled_from([None, True, False])),
        ice_density=draw(st.one_of(st.none(), between(100, 920))),
        ice_importance=draw(st.one_of(st.none(), between(0.5, 2))),
    )
    beam_names = draw(st.lists(names, min_size=1, max_size=2, unique=True))
    return Plan(
        title=draw(names),
        dated=draw(st.sampled_from(["", "2026-11-25", "2028-02-29"])),
        site=site,
        beams=tuple(draw(beams(name)) for name in beam_names),
    )


def assert_same(one: Any, other: Any, path: str = "plan") -> None:
    """Equal to 1e-9 of the value, field by field."""
    if isinstance(one, float):
        assert math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-12), path
    elif isinstance(one, np.ndarray):
        assert one.shape == other.shape, path
        assert np.allclose(one, other, rtol=1e-9, atol=1e-12), path
    elif isinstance(one, tuple):
        assert len(one) == len(other), path
        for index, pair in enumerate(zip(one, other, strict=True)):
            assert_same(*pair, f"{path}[{index}]")
    elif hasattr(one, "__dataclass_fields__"):
        # What stands beside a beam follows from the rest when a plan is read.
        for key in one.__dataclass_fields__.keys() - {"neighbours", "conductors"}:
            assert_same(getattr(one, key), getattr(other, key), f"{path}.{key}")
    else:
        assert one == other, path


@CHECK
@given(plans())
def test_a_written_plan_reads_back_the_same(plan: Plan) -> None:
    text = write_plan(plan)
    assert tomlkit.parse(text).unwrap() == tomllib.loads(text)
    again = read_plan(text)
    assert_same(plan, again)
    assert write_plan(read_plan(write_plan(again))) == write_plan(again)


@given(between(-300.0, 300.0))
def test_feet_and_inches_come_back_within_half_a_sixteenth(length: float) -> None:
    again = parse_quantity(feet_inches_sixteenths(length), "length")
    assert abs(again - length) <= 0.0254 / 32 * (1 + 1e-9)


@given(between(-300.0, 300.0), st.sampled_from(["m", "mm", "cm", "ft", "in"]))
def test_decimal_lengths_come_back_within_a_twentieth_of_a_millimetre(
    length: float, unit: str
) -> None:
    again = parse_quantity(stepped_text(length, unit, dimension="length"), "length")
    assert abs(again - length) <= 0.5e-4 * (1 + 1e-9)


@given(st.integers(0, 60), st.integers(0, 11), st.integers(0, 15))
def test_all_ways_to_write_feet_and_inches_agree(feet: int, inches: int, sixteenths: int) -> None:
    exact = (feet * 12 + inches + sixteenths / 16) * 0.0254
    fraction = f"{inches}-{sixteenths}/16" if sixteenths else f"{inches}"
    for text in (
        f"{feet} ft {fraction} in",
        f"{feet}' {fraction.replace('-', ' ')}\"",
        f"{feet} ft {inches + sixteenths / 16} in",
        f"{feet * 12 + inches + sixteenths / 16} in",
        f"{exact * 1000:.6f} mm",
    ):
        assert math.isclose(parse_quantity(text, "length"), exact, rel_tol=1e-8, abs_tol=1e-9), text


def refusal_of(read: Callable[[], object]) -> QuantityError | None:
    try:
        read()
    except QuantityError as error:
        return error
    return None


scribbles = st.one_of(
    st.text(max_size=80), st.text("0123456789.,eE+-/'\" ftinmwlMHzdegNSEW", max_size=20)
)


@settings(max_examples=300, deadline=None)
@given(scribbles, st.sampled_from(["length", "frequency", "angle", "attenuation", "ratio"]))
def test_any_text_is_a_finite_quantity_or_refused_with_a_remedy(text: str, dimension: Any) -> None:
    refusal = refusal_of(lambda: parse_quantity(text, dimension, wavelength=20.0))
    if refusal is None:
        assert math.isfinite(parse_quantity(text, dimension, wavelength=20.0))
    else:
        assert metric(refusal.message)
        assert metric(refusal.remedy)


@settings(max_examples=200, deadline=None)
@given(scribbles)
def test_any_text_is_a_direction_or_refused(text: str) -> None:
    for parse in (parse_heading, parse_position):
        refusal = refusal_of(lambda parse=parse: parse(text))
        assert refusal is None or metric(refusal.remedy)


def assert_read_or_refused(text: str | bytes) -> None:
    try:
        read_plan(text)
    except PlanError as error:
        faults = error.faults
    else:
        return
    assert faults
    for fault in faults:
        assert metric(fault.message)
        assert metric(fault.remedy)
        assert fault.path
        told = metric(fault.message) + metric(fault.remedy)
        assert (fault.path + told + fault.value).isprintable()


def read_or_none(text: str) -> Plan | None:
    try:
        return read_plan(text)
    except PlanError:
        return None


@CHECK
@given(st.one_of(st.text(max_size=200), st.binary(max_size=200)))
def test_any_file_is_read_or_refused(text: str | bytes) -> None:
    assert_read_or_refused(text)


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_plan_with_any_piece_replaced_is_read_or_refused(data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(DEMO)))
    end = data.draw(st.integers(start, min(len(DEMO), start + 40)))
    assert_read_or_refused(DEMO[:start] + data.draw(scribbles) + DEMO[end:])


values = st.recursive(
    st.one_of(
        st.booleans(), st.integers(-10**30, 10**30), st.floats(), st.text(max_size=20),
        st.sampled_from(["5 m", "14.1 MHz", "driven", "300 deg"]),
    ),
    lambda below: st.one_of(
        st.lists(below, max_size=3), st.dictionaries(st.text(max_size=8), below, max_size=3)
    ),
    max_leaves=6,
)  # fmt: skip


def inline(value: Any) -> str:
    """Write a value as TOML on one line."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, list):
        return f"[{', '.join(inline(member) for member in value)}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{inline(k)} = {inline(v)}' for k, v in value.items())}}}"
    return str(value).lower()


@settings(max_examples=400, deadline=None)
@given(st.data())
def test_the_full_plan_with_any_value_replaced_is_refused_or_written_back(
    data: st.DataObject,
) -> None:
    """Every key of every table meets texts, numbers, lists and tables it did not expect."""
    text = with_feed(data.draw(st.sampled_from(FEEDS)))
    layout = lay_out(text)
    path = data.draw(st.sampled_from(list(layout.spans)))
    start, end = layout.spans[path]
    text = text[:start] + inline(data.draw(values)) + text[end:]
    assert_read_or_refused(text)
    plan = read_or_none(text)
    if plan is not None:
        assert_same(plan, read_plan(write_plan(plan)))


@CHECK
@given(st.data())
def test_the_full_plan_less_any_keys_is_refused_or_written_back(data: st.DataObject) -> None:
    """What is left out stays unknown; it is never filled in on the way."""
    layout = lay_out(FULL)
    keys = [path for path in layout.spans if not any(isinstance(s, int) for s in path[-1:])]
    removed = data.draw(st.lists(st.sampled_from(keys), min_size=1, max_size=8, unique=True))
    for path in removed:
        inside = any(path[: len(other)] == other for other in removed if other != path)
        if not inside and path[0] != "boomwright":
            text = rewrite(FULL, {path_text(path): None})
            plan = read_or_none(text)
            if plan is not None:
                assert_same(plan, read_plan(write_plan(plan)))


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_plan_with_any_value_replaced_is_read_or_refused(data: st.DataObject) -> None:
    layout = lay_out(DEMO)
    path = data.draw(st.sampled_from(list(layout.spans)))
    start, end = layout.spans[path]
    value = inline(data.draw(values))
    assert_read_or_refused(DEMO[:start] + value + DEMO[end:])


@CHECK
@given(st.dictionaries(st.text(max_size=10), values, max_size=5))
def test_places_agree_with_an_independent_reader(document: dict[str, Any]) -> None:
    text = tomlkit.dumps(document)
    layout = lay_out(text)
    data = tomllib.loads(text)
    for path in layout.spans:
        node: Any = data
        for step in path:
            node = node[step]
        again = tomllib.loads(f"v = {layout.written(path)}")["v"]
        assert repr(again) == repr(node)


@CHECK
@given(between(0.5, 90.0), between(9.0, 12.0), st.integers(0, 2))
def test_a_rewrite_changes_what_was_asked_and_no_comment(
    height: float, length: float, element: int
) -> None:
    after = rewrite(set_element_length(DEMO, 0, element, length), {"beam[0].height": height})
    beam = read_plan(after).beams[0]
    assert beam.height == pytest.approx(height, abs=0.5e-4 * (1 + 1e-9))
    assert beam.elements[element].length == pytest.approx(length, abs=1e-4 * (1 + 1e-9))
    old, new = DEMO.splitlines(), after.splitlines()
    assert len(old) == len(new)
    assert sum(a != b for a, b in zip(old, new, strict=True)) <= 2
    assert [row.partition("#")[2] for row in old] == [row.partition("#")[2] for row in new]

"""Random plans, read as files: no traceback, no NaN, no margin past its limit called within."""

from __future__ import annotations

import json
import os
from math import isfinite

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from boomwright.base import PlanError
from boomwright.plan import read_plan
from boomwright.render.json.permits import permits_document
from boomwright.render.json.structure import structure_document
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan

#: plans tried; set the variable to try more: 1000 take about half a minute of one core
PLANS = int(os.environ.get("BOOMWRIGHT_PLANS", "60"))
RUNS = settings(
    max_examples=PLANS,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def figure(low, high):
    """Sensible, and one time in thirty up to three times too small or too large."""
    wild = st.floats(low / 3.0, high * 3.0)
    return st.integers(0, 29).flatmap(lambda n: wild if n == 0 else st.floats(low, high))


def text(strategy, unit):
    return strategy.map(lambda value: f'"{value:.6g} {unit}"')


def maybe(strategy):
    return st.one_of(st.just(""), strategy)


def mostly(strategy):
    return st.integers(0, 24).flatmap(lambda n: st.just("") if n == 0 else strategy)


def table(header, **fields):
    """Lines of a table; a field that gives an empty text is left out."""

    def lines(values):
        kept = [f"{key} = {value}" for key, value in values.items() if value]
        return "\n".join(["", header, *kept])

    return st.fixed_dictionaries(fields).map(lines)


def chosen(*words):
    return st.sampled_from([f'"{word}"' for word in words])


@st.composite
def halves(draw):
    """Tubes of one half, thinner outwards, most of them with a wall."""
    count = draw(st.integers(1, 4))
    widths = sorted(draw(st.lists(st.floats(12.0, 60.0), min_size=count, max_size=count)))[::-1]
    bare = draw(st.integers(0, 24)) == 0
    rows = []
    for width in widths:
        wall = "" if bare else f', "{draw(st.floats(0.04, 0.2)) * width:.3f} mm"'
        length = draw(figure(0.8, 2.5)) * 4.0 / count
        rows.append(f'["{width:.2f} mm", "{length:.3f} m"{wall}]')
    return f"[{', '.join(rows)}]"


@st.composite
def beams(draw, height):
    lines = [
        "", "[[beam]]", 'name = "20m"', 'band = ["14.0 MHz", "14.35 MHz"]',
        'design = "14.175 MHz"', f'height = "{height:.3f} m"',
        f"heading = {draw(text(st.floats(0.0, 359.0), 'deg'))}",
        f"material = {draw(chosen('6061-T6', '6063-T832', 'copper', 'stainless steel'))}",
        'feed = { kind = "split", gap = "5 mm" }',
    ]  # fmt: skip
    roles = ["driven", *draw(st.lists(st.sampled_from(["reflector", "director"]), max_size=3))]
    at = 0.0
    for role in roles:
        half = draw(halves())
        lines += ["[[beam.element]]", f'role = "{role}"', f'at = "{at:.3f} m"', f"half = {half}"]
        at += draw(st.floats(0.5, 4.0))
    if draw(st.integers(0, 9)):
        spare = draw(st.floats(-0.3, 1.5))
        lines += [
            "[beam.boom]", f"diameter = {draw(text(figure(40.0, 100.0), 'mm'))}",
            f"wall = {draw(text(st.floats(1.0, 5.0), 'mm'))}",
            f'length = "{max(at + spare, 0.5):.3f} m"', 'rear_end = "-0.1 m"',
            f"material = {draw(chosen('6061-T6', '6063-T6'))}",
        ]  # fmt: skip
        if draw(st.booleans()):
            lines.append(
                'tie = { share = 0.6, rise = "1 m", area = "12 mm2", elastic_modulus = "100 GPa" }'
            )
    return "\n".join(lines)


SITE = table(
    "[site]",
    ground=st.just('"medium dry"'),
    position=maybe(
        st.tuples(st.floats(0.0, 89.0), st.floats(0.0, 179.0)).map(
            lambda pair: f'"{pair[0]:.4f} N, {pair[1]:.4f} W"'
        )
    ),
    wind=mostly(text(figure(15.0, 80.0), "m/s")),
    ice=mostly(text(st.one_of(st.just(0.0), st.floats(0.0, 60.0)), "mm")),
    elevation=maybe(text(st.floats(-50.0, 4000.0), "m")),
)
WIND = table(
    "[site.wind_basis]",
    kind=chosen("ultimate", "nominal", "characteristic"),
    edition=mostly(
        chosen(
            "EN 1991-1-4",
            "DIN EN 1991-1-4",
            "ASCE 7-10",
            "ASCE 7-16",
            "ASCE 7-05",
            "TIA-222-G",
            "ASCE 7-16",
            "ASCE 7-22",
            "TIA-222-H",
            "a code of another country",
        )
    ),
    exposure=mostly(chosen("B", "C", "D")),
    terrain=mostly(chosen("0", "I", "II", "III", "IV")),
    orography=maybe(st.floats(1.0, 1.6).map(lambda value: f"{value:.3f}")),
    reliability_class=maybe(st.sampled_from(["1", "2", "3"])),
    load_factor=maybe(st.floats(1.0, 2.0).map(lambda value: f"{value:.2f}")),
    pressure=maybe(
        st.tuples(figure(5.0, 40.0), figure(0.3, 2.0)).map(
            lambda pair: f'[["4 m", "0.5 kPa"], ["{pair[0]:.3f} m", "{pair[1]:.3f} kPa"]]'
        )
    ),
    by=st.just('"an engineer, 2026-03-01"'),
    topography=maybe(st.floats(1.0, 4.0).map(lambda value: f"{value:.3f}")),
)  # fmt: skip
ICE = table(
    "[site.ice_basis]",
    gust=mostly(text(figure(8.0, 35.0), "m/s")),
    mapped=maybe(st.sampled_from(["true", "false"])),
    density=maybe(text(st.floats(300.0, 917.0), "kg/m3")),
)
SUPPORT = table(
    "[support]",
    method=maybe(chosen("allowable", "strength")),
    damping=maybe(st.floats(0.002, 0.05).map(lambda value: f"{value:.4f}")),
    sway=maybe(text(figure(0.3, 4.0), "Hz")),
    soil=mostly(chosen("sandy gravel", "sand", "clay")),
    frost_depth=mostly(text(st.floats(0.0, 2.5), "m")),
)


def tower(height):
    return table(
        "[support.tower]",
        kind=chosen("self-supporting", "guyed", "crank-up", "bracketed"),
        height=st.just(f'"{height:.3f} m"'),
        mass=mostly(text(figure(50.0, 2000.0), "kg")),
        drag_width=mostly(text(figure(0.1, 0.8), "m")),
        bending_stiffness=mostly(text(figure(500.0, 5000.0), "kN m2")),
        top_drift=maybe(text(st.floats(0.05, 1.0), "m")),
    )


RATING = table(
    "[support.tower.rating]",
    area=mostly(text(figure(0.3, 4.0), "m2")),
    area_rule=mostly(chosen("projected", "drag", "flat")),
    area_height=mostly(text(figure(5.0, 40.0), "m")),
    speed=mostly(text(figure(25.0, 70.0), "m/s")),
    averaging=mostly(chosen("3 s gust", "fastest mile", "10 min mean")),
    kind=mostly(chosen("ultimate", "nominal", "characteristic")),
    exposure=mostly(chosen("B", "C", "D", "II")),
    edition=mostly(chosen("TIA-222-F", "TIA-222-G", "TIA-222-H", "EN 1991-1-4")),
    pressure=maybe(text(figure(0.3, 2.0), "kPa")),
    ice=mostly(text(st.floats(0.0, 30.0), "mm")),
    ice_gust=mostly(text(figure(8.0, 35.0), "m/s")),
    base_moment=mostly(text(figure(10.0, 300.0), "kN m")),
    axial=mostly(text(figure(5.0, 100.0), "kN")),
)


LATTICE = table(
    "[support.tower.lattice]",
    faces=st.sampled_from(["3", "4"]),
    face_width=text(figure(200.0, 1500.0), "mm"),
    leg=text(figure(20.0, 90.0), "mm"),
    brace=text(figure(6.0, 40.0), "mm"),
    braces=st.floats(0.5, 6.0).map(lambda value: f"{value:.3f}"),
)


def tube(height):
    return table(
        "[support.tube]",
        diameter=text(figure(40.0, 200.0), "mm"),
        wall=text(st.floats(2.0, 10.0), "mm"),
        height=st.just(f'"{height:.3f} m"'),
        material=chosen("A53 B", "A500 B round", "6061-T6", "steel"),
        hinged=maybe(st.sampled_from(["true", "false"])),
    )


def brackets(height):
    heights = st.lists(st.floats(0.3, 1.1), min_size=1, max_size=3).map(sorted)
    return table(
        "[support.tube.brackets]",
        heights=heights.map(lambda shares: str([f"{each * height:.3f} m" for each in shares])),
        foot=maybe(st.floats(0.0, 0.4).map(lambda share: f'"{share * height:.3f} m"')),
        side_force=mostly(text(figure(0.1, 20.0), "kN")),
        vertical_load=mostly(text(figure(0.1, 20.0), "kN")),
        said_by=maybe(st.just('"engineer, 2026-05-01"')),
    )


def mast(bearing, top):
    return table(
        "[support.mast]",
        diameter=text(figure(40.0, 100.0), "mm"),
        wall=text(st.floats(2.0, 12.0), "mm"),
        bearing=st.just(f'"{bearing:.3f} m"'),
        top=st.just(f'"{top:.3f} m"'),
        material=chosen("A500 C round", "4130 normalized", "unmarked pipe", "steel"),
        rotator_below=maybe(text(figure(0.3, 3.0), "m")),
    )


ROTATOR = table(
    "[support.rotator]",
    place=chosen("inside tower", "mast-mounted"),
    holding_torque=mostly(text(figure(50.0, 4000.0), "N m")),
    turning_torque=mostly(text(figure(20.0, 500.0), "N m")),
    vertical_load=mostly(text(figure(500.0, 20000.0), "N")),
    side_force=mostly(text(figure(500.0, 20000.0), "N")),
    turning_speed=maybe(text(st.floats(1.0, 12.0), "deg/s")),
    turning_gust=maybe(text(st.floats(5.0, 30.0), "m/s")),
)


def guy(height):
    return table(
        "[[support.guy]]",
        height=st.just(f'"{height:.3f} m"'),
        radius=text(figure(2.0, 30.0), "m"),
        strand=chosen("1/8 in EHS", "3/16 in EHS", "1/4 in EHS"),
        tension=mostly(text(figure(0.3, 6.0), "kN")),
    )


BASE = st.one_of(
    table(
        "[support.base]",
        kind=st.just('"pad"'),
        width=text(figure(0.5, 5.0), "m"),
        thickness=text(st.floats(0.2, 2.0), "m"),
        water_table=maybe(st.sampled_from(["true", "false"])),
    ),
    table(
        "[support.base]",
        kind=st.just('"pier"'),
        width=text(figure(0.3, 2.0), "m"),
        depth=text(figure(0.4, 4.0), "m"),
    ),
)
ANCHOR = table(
    "[support.anchor]",
    length=text(st.floats(0.3, 3.0), "m"),
    width=text(st.floats(0.3, 2.0), "m"),
    thickness=text(st.floats(0.2, 1.5), "m"),
    cover=text(st.floats(0.0, 2.0), "m"),
)
PERMITS = table(
    "[permits]",
    country=maybe(chosen("US", "GB", "DE", "JP")),
    boundary=maybe(text(st.floats(0.0, 200.0), "m")),
    walkway=maybe(text(st.floats(0.0, 200.0), "m")),
    crane=maybe(text(st.floats(0.0, 60.0), "m")),
    power_lines_surveyed=maybe(st.just("true")),
)
LINE = table(
    "[[permits.power_line]]",
    name=st.just('"line"'),
    distance=text(figure(1.0, 100.0), "m"),
    height=text(figure(3.0, 20.0), "m"),
    voltage=maybe(text(st.floats(100.0, 1e6), "V")),
)


@st.composite
def plans(draw):
    bearing = draw(figure(4.0, 35.0))
    top = bearing + draw(st.floats(0.3, 4.0))
    # Now and then the beam hangs off its mast.
    height = bearing + draw(st.floats(-0.1, 1.05)) * (top - bearing)
    parts = [
        "boomwright = 1",
        'title = "Random"',
        draw(SITE),
        draw(mostly(WIND)),
        draw(mostly(ICE)),
    ]
    parts.append(draw(beams(height)))
    if draw(st.integers(0, 7)):
        parts.append(draw(SUPPORT))
        stands = draw(st.sampled_from(["tower", "tube", "tower", "none"]))
        if stands == "tower":
            parts += [draw(tower(bearing)), draw(maybe(LATTICE)), draw(mostly(RATING))]
        elif stands == "tube":
            parts += [draw(tube(bearing)), draw(maybe(brackets(bearing)))]
        parts += [draw(mostly(each)) for each in (mast(bearing, top), ROTATOR, ANCHOR, BASE)]
        shares = sorted(draw(st.lists(st.floats(0.3, 1.0), max_size=3, unique=True)))
        parts += [draw(guy(share * bearing)) for share in shares]
    if draw(st.booleans()):
        parts += [draw(PERMITS), draw(maybe(LINE))]
    return "\n".join(parts) + "\n"


def check_ledger(report):
    for line in report.ledger:
        for value in (line.use, line.demand, line.capacity):
            assert value is None or isfinite(value), line
        if line.verdict == "not checked":
            assert line.reason, line
            continue
        if line.verdict == "within":
            assert line.use is not None, line
            assert 0.0 <= line.use <= 1.0, line
            assert line.demand is not None, line
            assert line.demand >= 0.0, line
            assert line.demand <= line.capacity * (1.0 + 1e-12), line
        else:
            assert line.use is None or line.use > 1.0, line


@pytest.mark.slow
@RUNS
@given(text=plans())
def test_a_random_plan_never_passes_what_it_should_not(text):
    try:
        plan = read_plan(text)
        found = structure_plan(plan, fixes=False)
    except PlanError as error:
        # Refused with a place and a remedy is a fair answer to nonsense.
        for fault in error.faults:
            assert fault.path is not None
            assert fault.message
            assert fault.remedy
        return
    check_ledger(found.report)
    json.dumps(structure_document(found), allow_nan=False)
    json.dumps(permits_document(permit_plan(plan)), allow_nan=False)

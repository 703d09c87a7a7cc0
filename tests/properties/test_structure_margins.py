"""Whatever the owner enters: no traceback, no NaN, and nothing over its limit called within."""

from __future__ import annotations

import os
from dataclasses import fields, is_dataclass
from math import inf, isnan, nan

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.structure import (
    EDITIONS,
    AnchorBlock,
    BaseReactions,
    Boom,
    BoomTie,
    EnWind,
    GuyLevel,
    IceBasis,
    Lattice,
    Mast,
    NominalSpeed,
    PadBase,
    PierBase,
    PointMass,
    RingMount,
    Rotator,
    Soil,
    StatedWind,
    StructureInputs,
    Tower,
    TowerDrawing,
    TowerRating,
    TubularSupport,
    UltimateSpeed,
    WindBasis,
    partial_factors,
)
from boomwright.structure.checks.margins import margin
from boomwright.structure.faults import BasisMixError, StructureInputError
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS
from boomwright.structure.support.guys import STRANDS
from boomwright.structure.support.tower_rating import EN_EDITION
from boomwright.structure.weather.en_wind import TERRAIN_LAWS
from fakes.mounted import weighed
from fakes.told import check_structure

RUNS = settings(
    max_examples=int(os.environ.get("BOOMWRIGHT_PLANS", "80")),
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def size(low, high):
    """Mostly sensible, now and then extreme."""
    return st.one_of(st.floats(low, high), st.floats(low, high), st.floats(low / 1e3, high * 1e3))


def maybe(strategy):
    return st.one_of(st.none(), strategy)


def built(maker, **parts):
    """Build an input, or None when the room refuses it with its own error."""

    def build(given_parts):
        try:
            return maker(**given_parts)
        except (StructureInputError, BasisMixError):
            return None

    return st.fixed_dictionaries(parts).map(build)


# The parts room checks nothing, so broken tubes reach this room too.
SECTION = st.builds(
    TubeSection,
    diameter=st.one_of(size(0.005, 0.06), st.sampled_from([0.0, -0.01, nan, inf])),
    length=st.one_of(size(0.1, 4.0), st.sampled_from([0.0, -1.0, nan])),
    wall=st.one_of(st.floats(0.0005, 0.005), st.sampled_from([0.0, -0.001, nan])),
)
GOOD_SECTION = st.builds(
    TubeSection, diameter=st.floats(0.012, 0.06), length=size(0.2, 3.0), wall=st.floats(5e-4, 5e-3)
)
ELEMENT = st.builds(
    Element,
    role=st.sampled_from(["reflector", "driven", "director"]),
    position=st.floats(0.0, 8.0),
    half=st.one_of(
        st.lists(GOOD_SECTION, min_size=1, max_size=4).map(tuple),
        st.lists(SECTION, max_size=3).map(tuple),
    ),
)
BEAM = st.builds(
    Beam,
    name=st.just("beam"),
    band=st.just((14.0e6, 14.35e6)),
    design_frequency=st.just(14.2e6),
    height=st.one_of(st.floats(5.0, 30.0), st.sampled_from([0.0, -1.0, 1e4, nan])),
    heading=st.just(0.0),
    material=st.sampled_from(list(MATERIALS.values())),
    feed=st.just(Feed(kind="split", gap=0.04)),
    elements=st.lists(ELEMENT, max_size=3).map(tuple),
)
BOOM = built(
    Boom,
    diameter=size(0.03, 0.1),
    wall=st.floats(0.0005, 0.01),
    length=size(2.0, 12.0),
    rear_end=st.floats(-1.0, 0.5),
    material=st.sampled_from(list(MATERIALS.values())),
    clamp=maybe(st.floats(0.0, 8.0)),
    offset=st.floats(-0.2, 0.2),
    tie=maybe(
        st.builds(
            BoomTie,
            share=st.floats(0.1, 1.0),
            rise=size(0.2, 2.0),
            area=size(1e-6, 1e-4),
            elastic_modulus=st.floats(1e9, 2e11),
        )
    ),
    extra_drag_area=st.floats(0.0, 1.0),
)
BALUN = st.builds(
    PointMass, name=st.just("balun"), position=st.floats(0.0, 8.0), mass=st.floats(0.0, 9.0)
)
SPEED = st.one_of(
    size(10.0, 80.0).map(lambda v: NominalSpeed(gust=v)),
    size(10.0, 80.0).map(lambda v: UltimateSpeed(gust=v)),
)
AMERICAN = built(
    WindBasis,
    speed=SPEED,
    edition=st.sampled_from(list(EDITIONS)),
    exposure=st.sampled_from(["B", "C", "D"]),
    topography=maybe(st.floats(1.0, 3.0)),
    site_elevation=st.floats(0.0, 3000.0),
    importance=st.sampled_from([1.0, 1.0, 0.87, 1.15]),
)
EUROPEAN = built(
    EnWind,
    basic_speed=size(15.0, 40.0),
    terrain=st.sampled_from(list(TERRAIN_LAWS)),
    orography=maybe(st.floats(1.0, 1.6)),
    direction=st.floats(0.7, 1.0),
    air_density=st.floats(0.9, 1.3),
    factors=st.builds(
        partial_factors,
        reliability_class=maybe(st.sampled_from([1, 2, 3])),
        wind_factor=maybe(st.floats(1.0, 2.0)),
    ),
)
STATED = built(
    StatedWind,
    points=st.lists(st.tuples(size(3.0, 40.0), size(200.0, 3000.0)), min_size=1, max_size=4).map(
        lambda points: tuple(sorted(points))
    ),
    by=st.just("an engineer"),
    code=st.just("a code"),
    given_factored=st.booleans(),
)
WIND = st.one_of(AMERICAN, AMERICAN, EUROPEAN, STATED)
ICE = built(
    IceBasis,
    thickness=st.one_of(st.just(0.0), size(0.002, 0.05)),
    concurrent_gust=maybe(size(10.0, 30.0)),
    mapped=st.sampled_from([None, True, False]),
)
MAST = built(
    Mast,
    diameter=size(0.03, 0.1),
    wall=st.floats(0.001, 0.02),
    bearing_height=size(4.0, 25.0),
    top_height=size(5.0, 30.0),
    rotator_below=maybe(size(0.3, 3.0)),
    yield_strength=maybe(st.floats(1e8, 6e8)),
    steel=st.booleans(),
)
RATINGS = {
    "turning_torque": maybe(size(10.0, 500.0)),
    "holding_torque": maybe(size(50.0, 3000.0)),
    "vertical_load": maybe(size(100.0, 5000.0)),
    "side_force": maybe(size(100.0, 5000.0)),
    "area_inside": maybe(size(0.1, 3.0)),
    "area_rule": maybe(st.sampled_from(["projected", "drag", "flat"])),
    "least_mast": maybe(size(0.02, 0.05)),
    "greatest_mast": maybe(size(0.04, 0.1)),
    "turning_rate": maybe(size(0.01, 0.2)),
    "turning_gust": maybe(size(5.0, 30.0)),
}
ROTATOR = built(Rotator, place=st.sampled_from(["inside tower", "mast-mounted"]), **RATINGS)
RING = built(
    RingMount,
    beam=st.just("beam"),
    height=size(3.0, 25.0),
    name=st.just("ring mount"),
    **RATINGS,
    mass=maybe(size(5.0, 90.0)),
    drag_area=maybe(size(0.01, 0.5)),
    said_by=st.sampled_from(["", "its maker"]),
)
RATING = built(
    TowerRating,
    area=maybe(size(0.2, 3.0)),
    area_rule=st.sampled_from(["projected", "drag", "flat"]),
    area_height=maybe(size(5.0, 25.0)),
    speed=maybe(size(20.0, 60.0)),
    averaging=maybe(st.sampled_from(["3 s gust", "fastest mile", "10 min mean"])),
    kind=maybe(st.sampled_from(["ultimate", "nominal", "characteristic", "design"])),
    exposure=maybe(st.sampled_from(["B", "C", "D", "II"])),
    edition=maybe(st.sampled_from([*EDITIONS, EN_EDITION])),
    pressure=maybe(size(200.0, 3000.0)),
    ice=maybe(st.floats(0.0, 0.03)),
    ice_gust=maybe(size(10.0, 30.0)),
    mast_extension=maybe(size(0.5, 5.0)),
    base_moment=maybe(size(1e3, 1e5)),
    base_shear=maybe(size(1e2, 1e4)),
    axial=maybe(size(1e3, 1e5)),
    section_moment=maybe(size(1e3, 1e5)),
    section_shear=maybe(size(1e2, 1e4)),
    leg_load=maybe(size(1e3, 1e5)),
)
LATTICE = st.builds(
    Lattice,
    faces=st.sampled_from([3, 4]),
    face_width=size(0.2, 1.5),
    leg=size(0.02, 0.1),
    brace=size(0.006, 0.04),
    brace_length=size(0.5, 6.0),
)
DRAWING = st.builds(
    TowerDrawing,
    height=size(5.0, 30.0),
    guy_levels=st.lists(size(3.0, 30.0), min_size=1, max_size=3).map(tuple),
    anchor_radius=size(3.0, 20.0),
    said_by=st.just("sheet 1, read by the owner"),
)
TOWER = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["self-supporting", "guyed", "crank-up", "bracketed"]),
        "height": size(5.0, 30.0),
        "rating": RATING.filter(lambda rating: rating is not None),
        "drag_area_per_length": maybe(size(0.05, 0.5)),
        "lattice": maybe(LATTICE),
        "drawing": maybe(DRAWING),
        "mass": maybe(size(50.0, 500.0)),
        "bending_stiffness": maybe(size(1e5, 1e7)),
        "top_drift": maybe(size(0.01, 0.5)),
        "bracket_height": maybe(size(2.0, 8.0)),
    }
).map(lambda parts: Tower(**parts))
TUBE = built(
    TubularSupport,
    diameter=size(0.04, 0.15),
    wall=st.floats(0.002, 0.01),
    height=size(3.0, 15.0),
    yield_strength=maybe(st.floats(1e8, 6e8)),
    fixed=st.booleans(),
)
GUY = built(
    GuyLevel,
    height=size(3.0, 20.0),
    anchor_radius=size(3.0, 20.0),
    strand=st.sampled_from(list(STRANDS.values())),
    initial_tension=maybe(size(300.0, 5000.0)),
    count=st.sampled_from([3, 4]),
    first_azimuth=st.floats(0.0, 6.0),
)
SOIL = st.one_of(
    st.sampled_from(list(PRESUMPTIVE_SOILS.values())),
    built(
        Soil,
        name=st.just("tested"),
        bearing=maybe(size(5e4, 3e5)),
        lateral=maybe(size(1e4, 5e4)),
        friction=maybe(st.floats(0.1, 0.7)),
    ),
)
BASE = st.one_of(
    built(
        PadBase,
        side=size(0.5, 4.0),
        thickness=size(0.3, 2.0),
        soil_cover=st.floats(0.0, 1.0),
        stands_out=st.floats(0.0, 0.5),
        water_table=st.booleans(),
    ),
    built(
        PierBase,
        width=size(0.3, 2.0),
        depth=size(0.5, 4.0),
        square=st.booleans(),
        may_move=st.booleans(),
    ),
)
REACTIONS = built(
    BaseReactions,
    moment=size(1.0, 1e5),
    shear=size(1.0, 1e4),
    axial=size(1.0, 1e5),
    kind=st.sampled_from(["ultimate", "nominal", "characteristic", "design"]),
)
ANCHOR = built(
    AnchorBlock,
    length=size(0.3, 3.0),
    width=size(0.3, 2.0),
    thickness=size(0.3, 1.0),
    cover=st.floats(0.0, 2.0),
    water_table=st.booleans(),
)


@st.composite
def stations(draw):
    support = draw(st.sampled_from(["tower", "tube", "none"]))
    mounted = draw(st.lists(st.builds(weighed, BEAM, maybe(BOOM), BALUN), max_size=2).map(tuple))
    guys = draw(st.lists(GUY, max_size=2))
    return StructureInputs(
        beams=mounted,
        wind=draw(maybe(WIND)),
        ice=draw(maybe(ICE)),
        method=draw(st.sampled_from(["allowable", "strength"])),
        mast=draw(maybe(MAST)),
        rotator=draw(maybe(ROTATOR)),
        rings=(draw(RING),) if mounted and draw(st.booleans()) else (),
        tower=draw(TOWER) if support == "tower" else None,
        tube=draw(TUBE) if support == "tube" else None,
        guying=tuple(guy for guy in guys if guy is not None),
        anchor=draw(maybe(ANCHOR)),
        base=draw(maybe(BASE)),
        base_reactions=draw(maybe(REACTIONS)),
        soil=draw(maybe(SOIL)),
        frost_depth=draw(maybe(st.floats(0.0, 2.0))),
        damping=draw(maybe(st.floats(0.002, 0.05))),
        sway_hz=draw(maybe(size(0.2, 5.0))),
    )


@st.composite
def whole_stations(draw):
    """Stations with everything given, so that every check is reached."""
    metal = MATERIALS["6061-T6"]
    height = draw(size(4.0, 25.0))
    element = st.builds(
        Element,
        role=st.sampled_from(["reflector", "driven", "director"]),
        position=st.floats(0.0, 6.0),
        half=st.lists(GOOD_SECTION, min_size=1, max_size=3).map(tuple),
    )
    proud = draw(size(0.5, 3.0))
    beam = Beam(
        name="beam", band=(14.0e6, 14.35e6), design_frequency=14.2e6,
        height=height + proud * draw(st.floats(0.0, 1.0)), heading=0.0, material=metal,
        feed=Feed(kind="split", gap=0.04),
        elements=draw(st.lists(element, min_size=1, max_size=3).map(tuple)),
    )  # fmt: skip
    boom = Boom(
        diameter=draw(st.floats(0.03, 0.1)), wall=draw(st.floats(0.001, 0.01)), length=6.0,
        rear_end=0.0, material=metal, offset=draw(st.floats(-0.2, 0.2)),
    )  # fmt: skip
    guyed = draw(st.booleans())
    levels = draw(st.sampled_from([1, 2])) if guyed else 0
    tower = Tower(
        kind="guyed" if guyed else draw(
            st.sampled_from(["self-supporting", "crank-up", "bracketed"])
        ),
        bracket_height=height * draw(st.floats(0.2, 1.0)),
        lattice=draw(maybe(LATTICE)), drawing=draw(maybe(DRAWING)),
        height=height, drag_area_per_length=draw(size(0.05, 0.4)), mass=draw(size(30.0, 500.0)),
        bending_stiffness=draw(size(1e5, 1e7)), top_drift=draw(st.floats(0.01, 0.5)),
        rating=TowerRating(
            area=draw(size(0.3, 3.0)),
            area_rule=draw(st.sampled_from(["projected", "drag", "flat"])),
            area_height=height, speed=draw(size(20.0, 60.0)), averaging="3 s gust",
            kind=draw(st.sampled_from(["ultimate", "nominal"])), exposure="C",
            edition=draw(st.sampled_from(list(EDITIONS))), ice=draw(st.floats(0.0, 0.02)),
            mast_extension=draw(size(0.5, 4.0)), base_moment=draw(size(1e3, 1e5)),
            base_shear=draw(size(1e2, 1e4)), axial=draw(size(1e3, 1e5)),
            section_moment=draw(maybe(size(1e2, 1e5))),
            section_shear=draw(maybe(size(1e2, 1e5))), leg_load=draw(maybe(size(1e2, 1e5))),
        ),
    )  # fmt: skip
    tube = TubularSupport(
        diameter=draw(st.floats(0.05, 0.3)), wall=draw(st.floats(0.002, 0.02)),
        height=height + proud, yield_strength=2.5e8,
    )  # fmt: skip
    on_tube = draw(st.booleans())
    mast = Mast(
        diameter=draw(st.floats(0.04, 0.1)), wall=draw(st.floats(0.003, 0.015)),
        bearing_height=height, top_height=height + 1.01 * proud, rotator_below=draw(size(0.5, 3.0)),
        yield_strength=3e8,
    )  # fmt: skip
    return StructureInputs(
        beams=(weighed(beam, boom),),
        wind=draw(WIND),
        ice=draw(ICE),
        method=draw(st.sampled_from(["allowable", "strength"])),
        mast=None if on_tube else mast,
        rotator=draw(ROTATOR),
        tower=None if on_tube else tower,
        tube=tube if on_tube else None,
        guying=tuple(
            GuyLevel(
                height=height * (i + 1) / levels * 0.95, anchor_radius=draw(size(3.0, 20.0)),
                strand=draw(st.sampled_from(list(STRANDS.values()))),
                initial_tension=draw(size(300.0, 5e3)),
            )
            for i in range(levels)
        ),
        anchor=draw(ANCHOR),
        base=draw(BASE),
        soil=draw(st.sampled_from(list(PRESUMPTIVE_SOILS.values()))),
        frost_depth=draw(st.floats(0.0, 2.0)),
    )  # fmt: skip


def numbers(value, path=""):
    """Every number in a result, with its place; inputs are left out."""
    if isinstance(value, float):
        yield path, value
    elif isinstance(value, (tuple, list)):
        for i, each in enumerate(value):
            yield from numbers(each, f"{path}[{i}]")
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            if field.name != "inputs":
                yield from numbers(getattr(value, field.name), f"{path}.{field.name}")


@RUNS
@given(inputs=st.one_of(stations(), whole_stations()))
def test_a_ledger_never_passes_what_it_should_not(inputs):
    report = check_structure(inputs=inputs)
    assert report.ledger
    assert report.cautions
    for line in report.ledger:
        if line.verdict != "not checked":
            assert "nan" not in f"{line.name} {line.basis}".lower().split()
        if line.verdict == "within":
            assert line.demand is not None
            assert line.capacity is not None
            assert line.use is not None
            assert 0.0 <= line.demand <= line.capacity
            assert 0.0 <= line.use <= 1.0
        elif line.verdict == "not checked":
            assert line.reason
            assert line.use is None
        else:
            assert line.use is None or line.use > 1.0
    assert not [place for place, number in numbers(report) if isnan(number)]
    order = [line.verdict for line in report.ledger]
    ranks = [("exceeded", "not checked", "within").index(verdict) for verdict in order]
    assert ranks == sorted(ranks)


@RUNS
@given(inputs=stations())
def test_missing_wind_never_passes_anything_with_wind_in_it(inputs):
    report = check_structure(inputs=inputs)
    if inputs.wind is not None:
        return
    for line in report.ledger:
        if line.verdict != "not checked":
            assert "3 s gust" not in line.basis
            assert "peak pressure" not in line.basis


@RUNS
@given(
    demand=st.floats(allow_nan=True, allow_infinity=True),
    capacity=st.one_of(st.none(), st.floats(allow_nan=True, allow_infinity=True)),
    load=st.sampled_from([None, "ultimate", "nominal"]),
    limit=st.sampled_from([None, "ultimate", "nominal"]),
)
def test_one_margin(demand, capacity, load, limit):
    line = margin(
        name="x", demand=demand, capacity=capacity, unit="N", basis="",
        load_kind=load, limit_kind=limit,
    )  # fmt: skip
    if line.verdict == "within":
        assert 0.0 <= demand <= capacity
        assert load is None or limit is None or load == limit
    if line.use is not None:
        assert not isnan(line.use)
    assert line.reason or line.use is not None

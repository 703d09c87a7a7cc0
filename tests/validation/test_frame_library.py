"""Beam, mast, tube, pad and guys against PyNite, a general frame library (MIT), within 0.5 %.

Two faults of that library are kept out of the comparison: its tension-only members lose guys in
some wind directions without a word, so guys are compared as two-way bars under pretension; and
its modal mass from ordinary loads depends on the mesh, so a frequency is worked out from what it
gives under unit loads.
"""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, radians, sin, sqrt

import numpy as np
import pytest
from structure_reference import WORKED, solve_guyed_mast

from boomwright.parts import MATERIALS
from boomwright.structure import (
    BoomTie,
    GuyLevel,
    HouseBrackets,
    Mast,
    PadBase,
    Soil,
    TubeShape,
    TubularSupport,
    half_segments,
)
from boomwright.structure.beam.boom import arm_bending
from boomwright.structure.beam.stepped import cantilever, wind_loads
from boomwright.structure.ground.pads import check_pad
from boomwright.structure.support.guy_solver import GuyedMast
from boomwright.structure.support.guys import STRANDS, ring_stiffness
from boomwright.structure.support.held_beam import SideLoad
from boomwright.structure.support.mast import MastLoad, mast_bending
from boomwright.structure.support.sway import SwayHold, SwayMass, SwayPart, first_sway, ring_hold
from boomwright.structure.support.tube_support import bracketed_tube, free_tube

pytestmark = [pytest.mark.slow, pytest.mark.filterwarnings("ignore")]
Pynite = pytest.importorskip("Pynite")
COMBO = "Combo 1"
TOLERANCE = 5e-3


def _model(elastic_modulus):
    model = Pynite.FEModel3D()
    model.add_material("metal", elastic_modulus, elastic_modulus / 2.6, 0.3, 1.0)
    return model


def _line(model, places, shape_of, *, name="T"):
    for i, place in enumerate(places):
        model.add_node(f"{name}{i}", place, 0.0, 0.0)
    for i in range(len(places) - 1):
        shape = shape_of(i)
        section = f"{name}s{i}"
        inertia = shape.second_moment
        model.add_section(section, shape.area, inertia, inertia, 2.0 * inertia)
        model.add_member(f"{name}m{i}", f"{name}{i}", f"{name}{i + 1}", "metal", section)


def test_stepped_cantilever():
    segments = half_segments(element=WORKED, material=MATERIALS["6061-T6"])
    loads = wind_loads(segments=segments, pressure=400.0)
    model = _model(69e9)
    places = [0.0]
    for segment in segments:
        places.append(places[-1] + segment.length)
    _line(model, places, lambda i: segments[i].shape)
    model.def_support("T0", *(True,) * 6)
    for i, load in enumerate(loads):
        model.add_member_dist_load(f"Tm{i}", "Fy", -load, -load)
    model.analyze_linear()
    found = cantilever(segments=segments, loads=loads)
    tip = model.nodes[f"T{len(segments)}"].DY[COMBO]
    assert found.tip_deflection == pytest.approx(-tip, rel=TOLERANCE)
    assert found.total_load == pytest.approx(model.nodes["T0"].RxnFY[COMBO], rel=TOLERANCE)
    for i, moment in enumerate(found.root_moments):
        library = abs(model.members[f"Tm{i}"].moment("Mz", 0.0, COMBO))
        assert moment == pytest.approx(library, rel=TOLERANCE)


def test_mast_on_bearing_and_rotator():
    mast = Mast(
        diameter=0.0508, wall=0.00635, bearing_height=18.0, top_height=20.4, rotator_below=1.8
    )
    loads = (
        MastLoad(name="low", height=0.9, force=700.0),
        MastLoad(name="high", height=2.2, force=350.0),
    )
    model = _model(200e9)
    _line(model, [0.0, 1.8, 2.7, 4.0, 4.2], lambda _i: mast.shape)
    model.def_support("T0", True, True, True, True, False, False)
    model.def_support("T1", False, True, True, False, False, False)
    model.add_node_load("T2", "FY", 700.0)
    model.add_node_load("T3", "FY", 350.0)
    line = 900.0 * 1.2 * 0.0508
    for i in (1, 2, 3):
        model.add_member_dist_load(f"Tm{i}", "Fy", line, line)
    model.analyze_linear()
    found = mast_bending(mast=mast, loads=loads, pressure=900.0)
    assert found.bearing_reaction == pytest.approx(-model.nodes["T1"].RxnFY[COMBO], rel=TOLERANCE)
    assert found.rotator_reaction == pytest.approx(model.nodes["T0"].RxnFY[COMBO], rel=TOLERANCE)
    assert found.top_deflection == pytest.approx(model.nodes["T4"].DY[COMBO], rel=TOLERANCE)
    moment = abs(model.members["Tm1"].moment("Mz", 0.0, COMBO))
    assert found.moment == pytest.approx(moment, rel=TOLERANCE)


def test_foot_of_a_free_tube():
    tube = TubularSupport(diameter=0.1, wall=0.005, height=9.0)
    found = free_tube(
        tube=tube, loads=(SideLoad(height=9.0, force=800.0),),
        line_load=lambda z: 50.0 + 5.0 * z, weight_on_top=0.0,
    )  # fmt: skip
    model = _model(200e9)
    _line(model, [0.0, 9.0], lambda _i: tube.shape)
    model.def_support("T0", *(True,) * 6)
    model.add_node_load("T1", "FY", 800.0)
    model.add_member_dist_load("Tm0", "Fy", 50.0, 95.0)
    model.analyze_linear()
    assert found.moment == pytest.approx(abs(model.nodes["T0"].RxnMZ[COMBO]), rel=TOLERANCE)
    assert found.base_shear == pytest.approx(-model.nodes["T0"].RxnFY[COMBO], rel=TOLERANCE)


def test_brackets_of_a_tube_on_a_house():
    places = [3.0, 4.0, 5.5, 8.0]
    tube = TubularSupport(
        diameter=0.06, wall=0.005, height=8.0, density=1e-3,
        brackets=HouseBrackets(heights=tuple(places[:3]), foot=3.0),
    )  # fmt: skip
    found = bracketed_tube(
        tube=tube, brackets=tube.brackets, loads=(SideLoad(height=8.0, force=300.0),),
        line_load=lambda _z: 40.0, weight_on_top=0.0,
    )  # fmt: skip
    model = _model(200e9)
    _line(model, places, lambda _i: tube.shape)
    model.def_support("T0", True, True, True, True, False, False)
    for name in ("T1", "T2"):
        model.def_support(name, False, True, True, False, False, False)
    model.add_node_load("T3", "FY", 300.0)
    for i in range(3):
        model.add_member_dist_load(f"Tm{i}", "Fy", 40.0, 40.0)
    model.analyze_linear()
    forces = [abs(model.nodes[f"T{i}"].RxnFY[COMBO]) for i in range(3)]
    assert found.bracket_forces == pytest.approx(forces, rel=TOLERANCE)
    moment = abs(model.members["Tm2"].moment("Mz", 0.0, COMBO))
    assert found.moment == pytest.approx(moment, rel=TOLERANCE)


@pytest.mark.parametrize("share", [0.10, 0.30])
def test_pad_on_springs_that_only_push(share):
    # A stiff strip on 40 springs; the outermost spring is half a strip inside the edge, so its
    # pressure is carried on to the edge along the even fall the springs show.
    side, count, spring = 2.0, 40, 1e3
    pad = PadBase(side=side, thickness=0.6)
    weight = check_pad(pad=pad, soil=Soil(name="x"), moment=0.0, shear=0.0, axial=5e3).weight
    moment = share * side * weight
    found = check_pad(pad=pad, soil=Soil(name="x"), moment=moment, shear=0.0, axial=5e3)
    model = _model(2e11)
    piece = side / count
    stiff = TubeShape(diameter=0.2, wall=0.1)
    _line(model, [(i + 0.5) * piece for i in range(count)], lambda _i: stiff)
    for i in range(count):
        model.def_support(f"T{i}", i == 0, False, True, True, False, False)
        model.def_support_spring(f"T{i}", "DY", spring, "-")
        model.add_node_load(f"T{i}", "FY", -weight / count)
    model.add_node_load(f"T{count // 2}", "MZ", -moment)
    model.analyze(check_statics=False)
    push = [max(0.0, -model.nodes[f"T{i}"].DY[COMBO]) * spring for i in (count - 2, count - 1)]
    total = sum(max(0.0, -model.nodes[f"T{i}"].DY[COMBO]) * spring for i in range(count))
    assert total == pytest.approx(weight, rel=TOLERANCE)
    edge = (push[1] + (push[1] - push[0]) / 2.0) / (piece * side)
    assert found.pressure_square == pytest.approx(edge, rel=TOLERANCE)


def test_two_guy_levels_under_pretension():
    strand = STRANDS["1/4 in EHS"]
    levels = tuple(
        GuyLevel(height=h, anchor_radius=12.0, strand=strand, initial_tension=2e4)
        for h in (8.0, 16.0)
    )
    stiffness = 2e6
    force, wind_deg = 3000.0, 20.0
    state = solve_guyed_mast(
        mast=GuyedMast(height=18.0, levels=levels, bending_stiffness=stiffness),
        loads=(SideLoad(height=18.0, force=force),), wind_deg=wind_deg,
    )  # fmt: skip
    assert state.slack == 0
    model = _model(200e9)
    # An almost unstretchable mast: the guys' downward pull shortens nothing in our model.
    inertia = stiffness / 200e9
    model.add_section("mast", 10.0, inertia, inertia, inertia)
    for name, z in (("A", 0.0), ("B", 8.0), ("C", 16.0), ("D", 18.0)):
        model.add_node(name, 0.0, 0.0, z)
    for a, b in ("AB", "BC", "CD"):
        model.add_member(f"{a}{b}", a, b, "metal", "mast")
    model.def_support("A", True, True, True, False, False, True)
    area = strand.axial_stiffness / 200e9
    model.add_section("guy", area, 1e-12, 1e-12, 1e-12)
    for level, top in zip(levels, "BC", strict=True):
        for g, azimuth in enumerate(level.azimuths):
            anchor, guy = f"{top}anchor{g}", f"{top}guy{g}"
            model.add_node(anchor, 12.0 * cos(azimuth), 12.0 * sin(azimuth), 0.0)
            model.def_support(anchor, *(True,) * 6)
            model.add_member(guy, anchor, top, "metal", "guy")
            model.def_releases(guy, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    model.add_node_load("D", "FX", force * cos(radians(wind_deg)))
    model.add_node_load("D", "FY", force * sin(radians(wind_deg)))
    model.analyze_linear()
    for level, top, row in zip(levels, "BC", state.tensions, strict=True):
        for g, tension in enumerate(row):
            change = -model.members[f"{top}guy{g}"].axial(0.0, COMBO)
            assert tension - level.initial_tension == pytest.approx(
                change, rel=TOLERANCE, abs=5e-3 * force
            )
    moment = max(
        abs(complex(m.moment("My", x, COMBO), m.moment("Mz", x, COMBO)))
        for name, m in model.members.items()
        if name in {"AB", "BC", "CD"}
        for x in (0.0, m.L())
    )
    assert state.moment == pytest.approx(moment, rel=TOLERANCE)


def test_a_guyed_mast_that_bears_weight():
    # Second order there too. The weight is all on top, the pull of the guys a load on their nodes,
    # and every ring a spring: stretch of the guys, and 1.6 times their pull over their length.
    strand = STRANDS["1/4 in EHS"]
    levels = tuple(
        GuyLevel(height=h, anchor_radius=12.0, strand=strand, initial_tension=3e3)
        for h in (8.0, 16.0)
    )
    stiffness, weight, line = 2e5, 6e3, 60.0
    mast = GuyedMast(
        height=18.0, levels=levels, bending_stiffness=stiffness / 0.8,
        weight_above=lambda _z: weight / 1.6,
    )  # fmt: skip
    given = {"loads": (SideLoad(height=18.0, force=900.0),), "line_load": lambda _z: line}
    state = solve_guyed_mast(mast=mast, wind_deg=0.0, **given)
    plain = solve_guyed_mast(mast=replace(mast, weight_above=None), wind_deg=0.0, **given)
    assert state.slack == 0
    assert max(state.moments) > 1.03 * max(plain.moments)
    model = _model(200e9)
    inertia = stiffness / 200e9
    model.add_section("mast", 10.0, inertia, inertia, inertia)
    places = [float(z) for z in mast.beam(**given).heights]
    last = len(places) - 1
    for i, z in enumerate(places):
        model.add_node(f"N{i}", 0.0, 0.0, z)
    for i in range(last):
        model.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "metal", "mast")
        model.add_member_dist_load(f"M{i}", "FX", line, line)
    model.def_support("N0", True, True, True, True, False, True)
    for level, pull, ring in zip(levels, state.pulls, state.tensions, strict=True):
        node = f"N{places.index(level.height)}"
        across = sum(
            tension / level.length * (1.0 - (cos(level.angle) * cos(azimuth)) ** 2)
            for tension, azimuth in zip(ring, level.azimuths, strict=True)
        )
        model.def_support_spring(node, "DX", ring_stiffness(level=level) + 1.6 * across)
        model.def_support(node, support_DY=True)
        model.add_node_load(node, "FZ", -1.6 * pull)
    model.add_node_load(f"N{last}", "FX", 900.0)
    model.add_node_load(f"N{last}", "FZ", -weight)
    model.analyze_PDelta()
    found = [abs(model.members[f"M{i}"].moment("My", 0.0, COMBO)) for i in range(last)]
    assert list(state.moments[:-1]) == pytest.approx(found, abs=TOLERANCE * max(found))


def test_first_sway_of_a_guyed_mast():
    # The library's static answer to a unit push at each of fifteen lumps of mass gives the sway.
    strand, stiffness, line, tip = STRANDS["1/4 in EHS"], 2e6, 12.0, 45.0
    levels = [GuyLevel(height=h, anchor_radius=12.0, strand=strand) for h in (7.2, 14.4)]
    places = [1.2 * (i + 1) for i in range(15)]
    lumps = np.full(15, 1.2 * line)
    lumps[-1] = 0.6 * line + tip
    give = np.zeros((15, 15))
    for pushed in range(15):
        model = _model(200e9)
        inertia = stiffness / 200e9
        model.add_section("mast", 10.0, inertia, inertia, inertia)
        model.add_node("N", 0.0, 0.0, 0.0)
        model.def_support("N", True, True, True, False, False, True)
        for i, place in enumerate(places):
            model.add_node(f"N{i}", 0.0, 0.0, place)
            model.add_member(f"M{i}", f"N{i - 1}" if i else "N", f"N{i}", "metal", "mast")
        model.add_section("guy", strand.axial_stiffness / 200e9, 1e-12, 1e-12, 1e-12)
        for node, level in zip((5, 11), levels, strict=True):
            for g, azimuth in enumerate(level.azimuths):
                anchor, guy = f"{node}anchor{g}", f"{node}guy{g}"
                model.add_node(anchor, 12.0 * cos(azimuth), 12.0 * sin(azimuth), 0.0)
                model.def_support(anchor, *(True,) * 6)
                model.add_member(guy, anchor, f"N{node}", "metal", "guy")
                model.def_releases(guy, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
        model.add_node_load(f"N{pushed}", "FX", 1000.0)
        model.analyze_linear()
        give[pushed] = [model.nodes[f"N{i}"].DX[COMBO] / 1000.0 for i in range(15)]
    slowest = np.max(np.linalg.eigvals(give * lumps).real)
    library = 1.0 / (2.0 * pi * sqrt(slowest))
    holds = tuple(
        SwayHold(
            height=level.height,
            stiffness=1.5 * strand.axial_stiffness / level.length * cos(level.angle) ** 2,
        )
        for level in levels
    )
    part = SwayPart(top=18.0, stiffness=stiffness, mass_per_length=line, seat=0.0)
    found = first_sway(
        parts=(part,), masses=(SwayMass(height=18.0, mass=tip),), holds=holds, weightless=True
    )
    assert found == pytest.approx(library, rel=TOLERANCE)
    # Taut guys keep nearly all of that; the pull of a stretched string comes on top.
    taut = ring_hold(level=replace(levels[0], initial_tension=8e3))
    assert taut.stiffness == pytest.approx(holds[0].stiffness, rel=0.02)
    # Slack ones sag, and give.
    slack = ring_hold(level=replace(levels[0], initial_tension=300.0))
    assert slack.stiffness < 0.5 * holds[0].stiffness


def test_boom_arm_with_point_loads_and_a_stretching_tie():
    shape = TubeShape(diameter=0.06, wall=0.002)
    tie = BoomTie(share=0.6, rise=1.2, area=8e-6, elastic_modulus=20e9)
    weights = ((1.5, 30.0), (4.8, 35.0))
    line = 10.0
    for tied in (None, tie):
        found = arm_bending(
            shape=shape, elastic_modulus=69e9, length=5.0, loads=weights, line_weight=line,
            line_wind=0.0, tie=tied,
        )  # fmt: skip
        model = _model(69e9)
        _line(model, [0.0, 1.5, 3.0, 4.8, 5.0], lambda _i: shape)
        # The closed form keeps the boom unshortened, so its section is made stiff along itself.
        for section in model.sections.values():
            section.A = 1.0
        model.def_support("T0", *(True,) * 6)
        model.add_node_load("T1", "FY", -30.0)
        model.add_node_load("T3", "FY", -35.0)
        for i in range(4):
            model.add_member_dist_load(f"Tm{i}", "Fy", -line, -line)
        if tied is not None:
            model.add_material("rope", 20e9, 8e9, 0.3, 1.0)
            model.add_section("rope", 8e-6, 1e-14, 1e-14, 1e-14)
            model.add_node("top", 0.0, 1.2, 0.0)
            model.def_support("top", *(True,) * 6)
            model.add_member("tie", "top", "T2", "rope", "rope")
            model.def_releases("tie", Ryi=True, Rzi=True, Ryj=True, Rzj=True)
        model.analyze_linear()
        assert found.sag == pytest.approx(-model.nodes["T4"].DY[COMBO], rel=TOLERANCE)
        root = abs(model.members["Tm0"].moment("Mz", 0.0, COMBO))
        if tied is None:
            assert found.dead_moment == pytest.approx(root, rel=TOLERANCE)
        else:
            pull = abs(model.members["tie"].axial(0.0, COMBO))
            assert found.tie.pull == pytest.approx(pull, rel=TOLERANCE)

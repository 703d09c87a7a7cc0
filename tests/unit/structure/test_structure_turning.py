"""Beams that turn: between guys, and on a ring below the beam on the mast."""

from __future__ import annotations

from dataclasses import asdict, replace
from math import hypot

import numpy as np
import pytest
from station_example import ALLOY, BALUN, BEAM, BOOM, GUYED, ON_PIPE

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import write
from boomwright.parts import Element, TubeSection, Wire
from boomwright.structure import Boom, BoomTie, IceBasis, RingMount, Rotator
from boomwright.structure.faults import StructureInputError
from fakes.mounted import turning, weighed
from fakes.told import check_structure

#: three elements for 15 m, half elements of 3.5 m, boom of 5 m clamped in its middle
_TUBES = (TubeSection(diameter=0.0254, length=3.5, wall=0.003),)
SMALL = weighed(
    replace(
        BEAM,
        name="15m",
        height=13.7,
        elements=tuple(
            Element(role=role, position=at, half=_TUBES)
            for role, at in (("reflector", 0.0), ("driven", 2.4), ("director", 5.0))
        ),
    ),
    Boom(diameter=0.051, wall=0.003, length=5.0, rear_end=0.0, material=ALLOY, clamp=2.5),
)
RATED = Rotator(
    name="ring mount of 15m",
    place="ring",
    turning_torque=200.0,
    holding_torque=900.0,
    start_stop_torque=400.0,
    vertical_load=3000.0,
    side_force=2500.0,
    area_on_mast=1.5,
    area_rule="projected",
    turning_rate=0.1,
    turning_gust=20.0,
)
RING = RingMount(
    **asdict(RATED) | {"mass": 400.0 / STANDARD_GRAVITY},
    beam="15m",
    height=13.7,
    drag_area=0.12,
    said_by="maker, 2026-03-12",
)
TWO = replace(GUYED, beams=(*GUYED.beams, SMALL), rings=(RING,))


def lines(inputs):
    return {each.name: each for each in check_structure(inputs=inputs).ledger}


def on_boom(mounted, boom):
    """The same beam on another boom, with what turns then."""
    return replace(mounted, boom=boom, **turning(mounted.beam, boom, mounted.masses))


def guys(inputs, *, height, radius):
    held = replace(GUYED.guying[0], height=height, anchor_radius=radius)
    return replace(inputs, guying=(held,))


def test_a_beam_below_the_guys_hold_must_not_reach_out_to_them():
    # Guys from 16.76 m to anchors 24.5 m out pass 13.7 m at 24.5 x 3.06 / 16.76 = 4.47 m.
    found = lines(guys(TWO, height=16.76, radius=24.5))["15m: room to turn"]
    # To the outside of its tube.
    reach = hypot(2.5 + 0.0127, 3.5)
    assert found.verdict == "exceeded"
    assert found.demand == pytest.approx(reach + 0.5, rel=1e-9)
    assert found.capacity == pytest.approx(24.5 * 3.06 / 16.76, abs=0.1)
    assert found.capacity < 24.5 * 3.06 / 16.76
    assert "(element 1) sweeps 4.3 m out at 13.7 m" in found.basis
    assert "kept free (common practice)" in found.basis
    wide = lines(guys(TWO, height=16.76, radius=32.0))["15m: room to turn"]
    assert wide.verdict == "within"


def test_the_boom_counts_where_it_reaches_further_than_the_tips():
    long = on_boom(SMALL, replace(SMALL.boom, rear_end=-4.0, length=9.0))
    inputs = guys(replace(TWO, beams=(*GUYED.beams, long)), height=16.76, radius=32.0)
    found = lines(inputs)["15m: room to turn"]
    assert found.demand == pytest.approx(hypot(6.5, 0.0255) + 0.5, rel=1e-9)
    assert "boom of 15m sweeps" in found.basis


def test_a_boom_beside_its_axis_sweeps_further():
    beside = on_boom(SMALL, replace(SMALL.boom, offset=0.4))
    inputs = guys(replace(TWO, beams=(*GUYED.beams, beside)), height=16.76, radius=32.0)
    assert lines(inputs)["15m: room to turn"].demand == pytest.approx(
        hypot(2.5 + 0.0127, 3.9) + 0.5, rel=1e-9
    )


def test_a_clamp_nobody_knows_is_taken_at_the_worse_end():
    half = (replace(_TUBES[0], wall=0.0),)
    thin = tuple(replace(each, half=half) for each in SMALL.beam.elements)
    unknown = weighed(replace(SMALL.beam, elements=thin), replace(SMALL.boom, clamp=None))
    inputs = guys(replace(TWO, beams=(*GUYED.beams, unknown)), height=16.76, radius=50.0)
    assert lines(inputs)["15m: room to turn"].demand == pytest.approx(
        hypot(5.0 + 0.0127, 3.5) + 0.5, rel=1e-9
    )


def test_a_tie_above_the_boom_must_stay_below_the_guys():
    tie = BoomTie(share=0.65, rise=4.0, area=3e-5, elastic_modulus=1e11)
    tied = on_boom(SMALL, replace(SMALL.boom, tie=tie))
    inputs = guys(replace(TWO, beams=(*GUYED.beams, tied)), height=16.76, radius=50.0)
    assert lines(inputs)["15m: room to turn"].verdict == "exceeded"


def test_a_beam_above_the_guys_must_not_hang_down_to_them():
    close = guys(GUYED, height=20.0, radius=15.0)
    found = lines(close)["20m: room to turn"]
    # Boom at 21 m over guys held at 20 m: half a metre of one is kept free at the mast.
    assert (found.demand, found.capacity) == pytest.approx((0.5, 1.0), rel=1e-9)
    # A wire that hangs 6 m below the boom at 5 m out comes below 20 - 20 x 5 / 15 = 13.3 m.
    x = check_structure(inputs=GUYED).beams[0].clamp
    tail = Wire(name="tail", diameter=0.002, points=np.array([[x, 5.0, 0.0], [x, 5.0, -8.0]]))
    low = weighed(replace(BEAM, wires=(tail,)), BOOM, BALUN)
    hung = lines(guys(replace(GUYED, beams=(low,)), height=20.0, radius=15.0))["20m: room to turn"]
    assert hung.verdict == "exceeded"
    assert hung.demand == pytest.approx(8.5, rel=1e-9)
    assert hung.capacity == pytest.approx(1.0 + 20.0 * (5.06 - 0.001) / 15.0, rel=1e-6)
    assert "tail comes down to 13.0 m" in hung.basis


def test_ice_lets_the_tips_hang_lower_over_the_guys():
    flat = guys(GUYED, height=20.0, radius=100.0)
    heavy = replace(flat, ice=IceBasis(thickness=0.03, concurrent_gust=18.0, mapped=False))
    droop = check_structure(inputs=heavy).beams[0].elements[0].strength.iced_droop
    found = lines(heavy)["20m: room to turn"]
    assert found.verdict == "exceeded"
    assert found.demand > droop + 0.5
    assert lines(flat)["20m: room to turn"].demand < found.demand


def test_droop_that_is_not_known_is_not_checked_over_guys():
    half = (replace(BEAM.elements[0].half[0], wall=0.0), *BEAM.elements[0].half[1:])
    broken = replace(BEAM, elements=(replace(BEAM.elements[0], half=half), *BEAM.elements[1:]))
    found = lines(replace(GUYED, beams=(weighed(broken, BOOM, BALUN),)))["20m: room to turn"]
    assert found.verdict == "not checked"
    assert "wall of section 1" in found.reason


def test_a_guyed_tower_without_its_guys_is_not_checked():
    found = lines(replace(GUYED, guying=()))["20m: room to turn"]
    assert found.verdict == "not checked"
    assert "no guy levels" in found.reason
    standing = replace(GUYED.tower, kind="self-supporting")
    assert "20m: room to turn" not in lines(replace(GUYED, guying=(), tower=standing))


def test_a_beam_on_a_ring_leaves_the_checks_of_the_mast_alone():
    one, two = lines(GUYED), lines(TWO)
    kept = [name for name in one if name.split(":")[0] in {"mast", "rotator"}]
    assert len(kept) > 8
    for name in kept:
        assert one[name].verdict == two[name].verdict, name
        assert one[name].demand == two[name].demand, name
    # Without its ring the beam hangs where there is no mast, and nobody knows what carries it.
    off = lines(replace(TWO, rings=()))
    assert off["mast: bending at the top bearing"].verdict == "not checked"
    assert "[[support.ring]]" in off["mast: bending at the top bearing"].reason
    report = check_structure(inputs=TWO)
    assert report.mast is not None
    assert report.rotator is not None


def test_a_ring_beam_of_unknown_boom_takes_the_tower_away_and_not_the_mast():
    bare = lines(replace(TWO, beams=(*GUYED.beams, replace(SMALL, boom=None))))
    assert bare["mast: bending at the top bearing"].verdict != "not checked"
    assert bare["rotator: holding torque"].verdict == "within"
    area = bare["tower: antenna area against the maker's rating"]
    assert "boom of 15m is not given" in area.reason
    assert bare["ring mount of 15m: holding torque"].verdict == "not checked"


def test_a_ring_is_held_against_its_own_ratings():
    found, report = lines(TWO), check_structure(inputs=TWO)
    small = report.beams[1]
    asked = {
        "holding torque": 1.5 * small.torque.worst,
        "vertical load": small.weight,
        "side force": small.force,
        "wind area": small.wind.worst.projected,
        # I w^2 / (2 phi) within one degree
        "start and stop torque": small.inertia * 0.1**2 / 2.0 / np.radians(1.0),
    }
    for what, demand in asked.items():
        line = found[f"ring mount of 15m: {what}"]
        assert line.demand == pytest.approx(demand, rel=1e-9), what
        assert line.verdict == "within", what
    bare = RingMount(beam="15m", height=13.7, name=RING.name, mass=RING.mass)
    ring = {n: each for n, each in lines(replace(TWO, rings=(bare,))).items() if "ring m" in n}
    for what in ("holding torque", "vertical load", "side force", "wind area"):
        line = ring[f"ring mount of 15m: {what}"]
        assert line.verdict == "not checked", what
        change = write(line.change, system="metric")
        load = "" if what == "wind area" else " whether it stands "
        assert change.startswith(f"ask its maker{load}"), what


def test_whether_the_support_may_carry_a_ring_is_asked():
    name = "ring mount of 15m: on the support"
    found = lines(replace(TWO, rings=(replace(RING, said_by=""),)))[name]
    assert found.verdict == "not checked"
    assert "nobody says that the support may carry a ring at 13.7 m" in found.reason
    assert "maker of the support" in found.change
    assert name not in lines(TWO)
    told = [
        n.text for n in check_structure(inputs=TWO).notices if n.code == "structure.ring-agreed"
    ]
    assert told == [
        "That the support may carry the ring mount of 15m at 13.7 m is taken from: "
        "maker, 2026-03-12."
    ]
    high = replace(RING, height=25.0)
    assert "above the support's top" in lines(replace(TWO, rings=(high,)))[name].reason


def test_the_ring_itself_and_its_beam_load_the_tower():
    name = "tower: antenna area against the maker's rating"
    light = replace(RING, mass=None, drag_area=None)
    lighter, whole = replace(TWO, rings=(light,)), lines(TWO)
    more = whole[name].demand - lines(lighter)[name].demand
    # 0.12 m2 of drag area are 0.1 m2 projected, at 13.7 m below the rated 20 m.
    assert more == pytest.approx(0.12 / 1.2, rel=0.2)
    down = "tower: load straight down"
    weightless = lines(replace(TWO, rings=(replace(RING, mass=None),)))[down].demand
    # Its mass sways with the support too, and the guys pull down a little more.
    assert 400.0 < whole[down].demand - weightless < 412.0
    assert whole[name].demand > lines(GUYED)[name].demand + 0.4
    assert "structure.ring-own" in [n.code for n in check_structure(inputs=lighter).notices]
    assert "structure.ring-own" not in [n.code for n in check_structure(inputs=TWO).notices]


def test_a_station_with_nothing_but_a_ring_needs_no_mast():
    only = replace(TWO, beams=(SMALL,), mast=None, rotator=None)
    assert not [name for name in lines(only) if name.startswith(("mast", "rotator"))]
    lost = lines(replace(TWO, rings=(replace(RING, beam="10m"),)))
    assert "no beam called 10m" in lost["ring mount of 15m: holding torque"].reason


def test_a_ring_without_sense_is_refused():
    with pytest.raises(StructureInputError, match="mass"):
        replace(RING, mass=-1.0)


def test_a_beam_that_hangs_down_to_people_is_doubted():
    tail = Wire(name="tail", diameter=0.002, points=np.array([[0.0, 5.0, 0.0], [0.0, 5.0, -3.0]]))
    for height, doubted in ((5.0, True), (6.0, False)):
        beam = replace(BEAM, height=height, wires=(tail,))
        report = check_structure(inputs=replace(GUYED, beams=(weighed(beam, BOOM, BALUN),)))
        codes = [notice.code for notice in report.notices]
        assert ("structure.hangs-low" in codes) is doubted


def test_a_mast_does_not_carry_a_beam_of_unknown_weight():
    half = (replace(BEAM.elements[0].half[0], wall=0.0), *BEAM.elements[0].half[1:])
    broken = replace(BEAM, elements=(replace(BEAM.elements[0], half=half), *BEAM.elements[1:]))
    inputs = replace(GUYED, beams=(weighed(broken, BOOM, BALUN),))
    found = lines(inputs)["mast: bending at the top bearing"]
    assert found.verdict == "not checked"
    assert "the weight of 20m is not known" in found.reason


def test_a_bearing_above_its_support_holds_nothing():
    mast = GUYED.mast
    lifted = replace(GUYED, tower=replace(GUYED.tower, height=mast.bearing_height - 0.6))
    found = lines(lifted)
    assert found["mast: bending at the top bearing"].verdict == "not checked"
    assert "above the support" in str(found["mast: bending at the top bearing"].reason)
    assert found["rotator: holding torque"].verdict == "not checked"


def test_beams_above_a_tube_need_the_mast_that_carries_them():
    (hung,) = ON_PIPE.beams
    top = ON_PIPE.tube.height
    for height, open_lines in ((top + 0.05, 0), (top + 1.2, 1)):
        mounted = replace(hung, beam=replace(hung.beam, height=height))
        found = lines(replace(ON_PIPE, beams=(mounted,), mast=None))
        masts = [
            line.verdict for name, line in found.items() if name.startswith("mast: bending at")
        ]
        assert masts == ["not checked"] * open_lines
    # Nor does anybody know how far its boom hangs beside the axis of what turns it.
    turned = replace(
        ON_PIPE, mast=None, rotator=replace(RATED, name="rotator", place="inside tower")
    )
    assert lines(turned)["rotator: holding torque"].verdict == "not checked"

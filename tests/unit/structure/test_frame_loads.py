"""What wire on frames and ropes asks of boom, mast, support and ropes, by hand; gaps are said."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from boomwright.parts import (
    RIGGING_MASS,
    Frame,
    FramePoint,
    Radials,
    Spreader,
    TubeSection,
)
from boomwright.plan import read_plan
from boomwright.plan.resolve import raising_job, station_assembly, structure_inputs
from boomwright.plan.shapes import SHAPES, shape_plan
from boomwright.structure import check_structure
from boomwright.structure.beam.boom import BoomPress, arm_bending
from boomwright.structure.beam.frame import (
    rope_pull,
    spreader_bending,
    spreader_points,
    support_pull,
)
from boomwright.structure.beam.tubing import TubeShape
from boomwright.structure.weather.beam_wind import beam_wind
from boomwright.structure.weather.frame_wind import (
    frame_presses,
    frame_rise,
    frame_torque,
    wind_middle,
)
from boomwright.study.raising import raise_plan
from fakes.told import told

WIND = """\
wind = "40 m/s"
ice = "0 mm"
[site.wind_basis]
kind = "ultimate"
edition = "ASCE 7-16"
exposure = "C"
topography = 1
"""
HOLDS = 'held = "ropes"\n  rope_strength = "4 kN"\n  said_by = "arborist, 2026-05-04"'
STRONG = 'density = "1900 kg/m3"\n    strength = "250 MPa"'


def text_of(shape, *, complete=False):
    """A first plan of a shape with wind; with what the frame lacks when asked for."""
    further = ("15 m",) if shape == "two-band-dipole" else ()
    text = shape_plan(shape, band="20 m", further=further).replace("[[beam]]", f"{WIND}[[beam]]", 1)
    if complete:
        text = text.replace('held = "ropes"', HOLDS).replace('density = "1900 kg/m3"', STRONG)
    return text


def beam_of(shape):
    return read_plan(text_of(shape)).beams[0]


def strung_of(shape, beam=None):
    """All that is strung or holds it, and the wires of it alone; of another beam in its plan."""
    plan = read_plan(text_of(shape))
    plan = plan if beam is None else replace(plan, beams=(beam,))
    (beam,) = structure_inputs(plan).beams
    return beam.strung, tuple(bar for bar in beam.strung if bar.diameter == 0.002)


def ledger_of(text):
    report = check_structure(inputs=structure_inputs(read_plan(text)))
    return report, {told(line.name): line for line in report.ledger}


def test_a_vee_pulls_its_support_forward_and_a_level_dipole_when_a_rope_breaks():
    # Wires at 60 degrees to either side of the way forward: 2 T cos 60.
    assert support_pull(beam=beam_of("vee"), still=40.0, hard=100.0)[0] == pytest.approx(
        2.0 * 100.0 * math.cos(math.radians(60.0)), rel=1e-3
    )
    sideways, down = support_pull(beam=beam_of("dipole"), still=40.0, hard=100.0)
    # One wire alone, the other one's rope gone.
    assert (sideways, down) == (pytest.approx(100.0), 0.0)


def test_sloping_wires_and_radials_pull_their_support_down():
    sideways, down = support_pull(beam=beam_of("inverted-vee"), still=40.0, hard=100.0)
    assert down == pytest.approx(2.0 * 100.0 * math.sin(math.radians(30.0)), rel=1e-3)
    assert sideways == pytest.approx(100.0 * math.cos(math.radians(30.0)), rel=1e-3)
    # Four radials at 40 degrees: two neighbours of the square pull hard, the rope of one of the
    # other two is gone.
    sideways, down = support_pull(beam=beam_of("raised-vertical"), still=40.0, hard=100.0)
    level = math.cos(math.radians(40.0))
    assert sideways == pytest.approx(math.hypot(100.0, 60.0) * level, rel=1e-3)
    assert down == pytest.approx(4.0 * 100.0 * math.sin(math.radians(40.0)), rel=1e-9)


def test_loops_hang_in_ropes_and_pull_at_corners():
    beam = beam_of("triangle-loop")
    assert support_pull(beam=beam, still=40.0, hard=100.0) == (0.0, 0.0)
    # Two wires at 60 degrees to each other: 2 T cos 30.
    pull = rope_pull(beam=beam, frame=beam.frame, hard=100.0)
    assert pull == pytest.approx(200.0 * math.cos(math.radians(30.0)), rel=1e-3)


def stood(beam, base):
    """The same triangles as they are drawn, with their bases over the boom."""
    bottom = {p.name.split()[0]: p.place[2] for p in beam.frame.points if "bottom" in p.name}
    points = {}
    for point in beam.frame.points:
        x, y, z = point.place
        low = bottom[point.name.split()[0]]
        points[point.name] = replace(point, place=(x, y, z - low + base))
    elements = tuple(
        replace(each, path=tuple(points[p.name] for p in each.path)) for each in beam.elements
    )
    high = max(p.place[2] for p in points.values())
    tubes = tuple(replace(t, length=high / 3.0) for t in beam.frame.spreader.sections)
    spreader = replace(beam.frame.spreader, sections=tubes)
    frame = replace(beam.frame, points=tuple(points.values()), spreader=spreader)
    return replace(beam, elements=elements, frame=frame)


def test_the_wind_turns_a_triangle_about_its_middle_little():
    """The boom runs through the middles: no couple bends it, and its poles balance."""
    beam = beam_of("two-triangle-loops")
    stands = stood(beam, 0.1)
    hung, wires = strung_of("two-triangle-loops")
    over, wires_over = strung_of("two-triangle-loops", stands)
    for press, stiff in zip(
        frame_presses(strung=wires), frame_presses(strung=wires_over), strict=True
    ):
        assert abs(press.couple) < 0.05 * abs(stiff.couple)
    middle = wind_middle(beam=beam, strung=hung)
    assert abs(middle) < 0.2 * wind_middle(beam=stands, strung=over)


def test_a_triangle_stands_above_its_boom_and_bends_and_twists_it():
    beam = stood(beam_of("two-triangle-loops"), 0.1)
    rear, front = beam.elements
    side = [each.half_length * 2.0 / 3.0 for each in (rear, front)]
    # The middle of a triangle of wire lies at a third of its height, here over 10 cm at the boom.
    base = 0.1
    strung, wires = strung_of("two-triangle-loops", beam)
    presses = frame_presses(strung=wires)
    assert [press.place for press in presses] == pytest.approx([rear.position, front.position])
    for press, long in zip(presses, side, strict=True):
        high = long * math.sqrt(3.0) / 2.0
        # Wind from either side sees all of it, or its height twice over.
        assert press.across == pytest.approx(1.2 * 0.002 * 2.0 * high, rel=0.01)
        along = 1.2 * 0.002 * 3.0 * long
        assert press.couple == pytest.approx(along * (base + high / 3.0), rel=0.02)
        assert press.twist == pytest.approx(press.across * (base + high / 2.0), rel=0.02)
    # Of three poles alike one stands upright, which brings their middle to a third of its own.
    tubes = beam.frame.spreader.sections
    ends = [sum(tube.length for tube in tubes[: k + 1]) for k in range(len(tubes))]
    areas = [tube.length * tube.diameter for tube in tubes]
    pole = sum(
        area * (end - 0.5 * tube.length)
        for tube, end, area in zip(tubes, ends, areas, strict=True)
    ) / sum(areas)  # fmt: skip
    assert pole / 3.0 < wind_middle(beam=beam, strung=strung) < 2.0 * pole / 3.0
    assert wind_middle(beam=replace(beam, frame=None), strung=wires) == 0.0
    assert frame_rise(strung) == pytest.approx(side[0] * 0.866, rel=0.04)


def test_an_arm_under_side_force_couple_and_twist_as_by_hand():
    shape = TubeShape(diameter=0.05, wall=0.003)
    press = BoomPress(place=1.5, across=200.0, couple=300.0, twist=250.0)
    given = {"shape": shape, "elastic_modulus": 69e9, "length": 2.0, "loads": [(1.5, 60.0)]}
    arm = arm_bending(**given, line_weight=12.0, line_wind=40.0, presses=(press,))
    down = 60.0 * 1.5 + 12.0 * 2.0
    across = 200.0 * 1.5 + 40.0 * 2.0
    normal, shear = math.hypot(down, across) / shape.modulus, 250.0 / (2.0 * shape.modulus)
    assert arm.stress == pytest.approx(math.sqrt(normal**2 + 3.0 * shear**2), rel=1e-9)
    assert arm.wind_moment == pytest.approx(across)
    lifted = replace(press, couple=900.0)
    arm = arm_bending(**given, line_weight=12.0, line_wind=40.0, presses=(lifted,))
    assert arm.stress == pytest.approx((down + 900.0) / shape.modulus, rel=1e-9)


def test_upright_sides_of_loops_count_in_the_torque():
    beam = beam_of("two-square-loops")
    _, wires = strung_of("two-square-loops")
    sides = [each.half_length / 4.0 for each in beam.elements]
    far = 0.5 * (beam.elements[1].position - beam.elements[0].position)
    lever = 0.0
    for half in sides:
        # Two upright sides at half the width, two level ones from there to the middle.
        lever += 2.0 * 2.0 * half * math.hypot(far, half)
        lever += 4.0 * half * math.hypot(far, half / 2.0)
    force = 500.0 * 1.2 * 0.002
    by_hand = 0.5 * 0.15 * force * lever
    uneven = force * far * abs(4.0 * sides[0] - 4.0 * sides[1])
    found = frame_torque(strung=wires, pressure=500.0, axis=beam.boom_middle)
    assert found.worst == pytest.approx(by_hand + uneven, rel=0.03)
    # It is the frame's, not that of straight elements as long as half the wire.
    text = text_of("two-square-loops")
    report, _ = ledger_of(text)
    torque = report.beams[0].torque
    assert torque.gust_elements > 5.0 * torque.gust_boom - 5.0 * torque.gust_elements


def test_a_push_along_a_spreader_grows_its_bending_like_a_column():
    """A rod of 20 mm, 3 m: wires at 45 degrees to either side, or one straight to its root."""
    beam = beam_of("vee")
    rod = Spreader(
        to=("end",), sections=(TubeSection(diameter=0.02, length=3.0),),
        elastic_modulus=20e9, density=1900.0,
    )  # fmt: skip
    point = FramePoint(name="end", place=(0.0, 3.0, 0.0))
    buckling = math.pi**2 * 20e9 * math.pi / 64.0 * 0.02**4 / (4.0 * 3.0**2)
    area = math.pi / 4.0 * 0.02**2

    def stress(pull, starts):
        frame = Frame(points=(point,), hub=0.0, pull=pull, spreader=rod)
        wires = tuple(
            replace(
                beam.elements[0],
                path=(FramePoint(name="", place=(x, 0.0, 0.0)), point),
                half=(TubeSection(diameter=0.002, length=math.hypot(x, 3.0)),),
                position=x,
            )
            for x in starts
        )
        held = replace(beam, elements=wires, frame=frame)
        return spreader_bending(beam=held, frame=frame, spreader=rod, point=point).stress

    pull = 0.3 * buckling
    push = 2.0 * pull * math.cos(math.radians(45.0))
    grown = stress(0.0, (-3.0, 3.0)) / (1.0 - 1.6 * push / buckling) + push / area
    assert stress(pull, (-3.0, 3.0)) == pytest.approx(grown, rel=1e-6)
    assert math.isinf(stress(0.5 * buckling, (-3.0, 3.0)))
    # A pull that points at the root all the way takes four times as much.
    grown = stress(0.0, (0.0,)) / (1.0 - 1.6 * 0.3 / 4.0) + pull / area
    assert stress(pull, (0.0,)) == pytest.approx(grown, rel=1e-6)


def test_the_wire_at_a_drawn_point_counts_though_the_frame_droops_or_the_loop_is_cut():
    """Every point of every spreader carries wire, and its weight, wind and pull."""
    for shape in ("hexagon", "rectangle", "two-square-loops", "two-triangle-loops"):
        beam = beam_of(shape)
        frame = beam.frame
        for point in spreader_points(frame):
            given = {"beam": beam, "spreader": frame.spreader, "point": point}
            bare = replace(frame, pull=0.0)
            pulled = spreader_bending(**given, frame=frame, pressure=600.0)
            limp = spreader_bending(**given, frame=bare, pressure=600.0)
            alone = spreader_bending(
                **(given | {"beam": replace(beam, elements=())}), frame=bare, pressure=600.0
            )
            assert pulled.stress > limp.stress > 1.02 * alone.stress


def test_elevated_radials_catch_wind_and_weigh():
    beam = beam_of("raised-vertical")
    radials = beam.radials
    assert isinstance(radials, Radials)
    strung, _ = strung_of("raised-vertical")
    bare = [bar for bar in strung if bar.length != pytest.approx(radials.length)]
    assert len(bare) == len(strung) - radials.count
    more = beam_wind(pieces=strung).worst.projected - beam_wind(pieces=bare).worst.projected
    whole = radials.count * radials.length * radials.diameter
    assert 0.5 * whole < more < whole


@pytest.mark.parametrize("shape", list(SHAPES))
def test_no_first_plan_in_wind_is_within_or_free_to_go_up(shape):
    report, lines = ledger_of(text_of(shape))
    assert any(line.verdict == "not checked" for line in report.ledger)
    plan = read_plan(text_of(shape))
    spread = plan.beams[0].frame.spreader is not None
    missing = "spreaders in wind" if spread else "ropes in wind"
    assert lines[f"20 m: {missing}"].verdict == "not checked"
    if not spread:
        assert lines["20 m: what the ropes are tied to"].verdict == "not checked"
        _, lines = ledger_of(text_of(shape, complete=True))
        assert lines["20 m: ropes in wind"].verdict == "within"
        assert "20 m: what the ropes are tied to" not in lines
    if plan.support is not None:
        # The wire hangs 5 cm above the mast's top, on its hub or insulator.
        assert lines["mast: bending at the top bearing"].verdict != "not checked"


@pytest.mark.parametrize(
    ("shape", "old", "new", "name", "reason"),
    [
        ("hexagon", 'top = "10.55 m"', 'top = "10.4 m"',
         "mast: bending at the top bearing", "off the mast"),
        ("dipole", 'pull = "40 N"\n', "", "support tube: bending", "pull in the wires"),
        ("dipole", '"4 kN"', '"300 N"', "20 m: ropes in wind", ""),
        ("two-square-loops", '    density = "1900 kg/m3"\n    strength = "250 MPa"\n', "",
         "20 m: boom in wind", "density of the spreaders"),
        ("rectangle", '  hub_mass = "2 kg"\n', "", "support tube: bending", "mass of the hub"),
        ("two-square-loops", '    elastic_modulus = "20 GPa"\n', "",
         "support tube: bending", "elastic_modulus"),
    ],
)  # fmt: skip
def test_what_a_frame_lacks_leaves_what_it_loads_open(shape, old, new, name, reason):
    text = text_of(shape, complete=True)
    assert old in text
    _, lines = ledger_of(text.replace(old, new))
    assert lines[name].verdict == ("not checked" if reason else "exceeded")
    assert reason in told(lines[name].reason)


def test_spreaders_that_start_from_a_boom_need_it():
    text = text_of("two-square-loops", complete=True)
    begin, end = text.index("  [beam.boom]"), text.index("  [[beam.element]]")
    _, lines = ledger_of(text[:begin] + text[end:])
    assert lines["20 m: spreaders in wind"].verdict == "not checked"
    assert lines["support tube: bending"].verdict == "not checked"
    assert "start from a boom" in told(lines["support tube: bending"].reason)


def test_a_straight_rod_among_wires_needs_its_wall_and_a_boom():
    text = text_of("hexagon", complete=True)
    mixed = text.replace('  through = ["front", "side"]\n', "")
    _, lines = ledger_of(mixed)
    assert "sit on a boom" in told(lines["support tube: bending"].reason)
    boom = (
        '  [beam.boom]\n  diameter = "51 mm"\n  wall = "3 mm"\n  length = "3.2 m"\n'
        '  rear_end = "-3 m"\n  material = "6061-T6"\n'
    )
    cut = mixed.index("  [[beam.element]]")
    _, lines = ledger_of(mixed[:cut] + boom + mixed[cut:])
    assert "wall" in told(lines["support tube: bending"].reason)


def test_what_ropes_hold_needs_no_rotator_but_its_mast_a_hold_below():
    _, lines = ledger_of(text_of("dipole", complete=True))
    assert not [name for name in lines if name.startswith("rotator")]
    assert lines["mast: hold below its bearing"].verdict == "not checked"
    mast = "[support.mast]\n"
    deep = text_of("dipole", complete=True).replace(mast, f'{mast}rotator_below = "0.6 m"\n')
    _, lines = ledger_of(deep)
    assert "mast: hold below its bearing" not in lines
    _, lines = ledger_of(text_of("hexagon", complete=True))
    assert lines["rotator: holding torque"].verdict == "not checked"


def test_upright_wire_on_the_ground_needs_its_ropes_alone():
    _, lines = ledger_of(text_of("vertical", complete=True))
    assert {name: line.verdict for name, line in lines.items()} == {
        "20 m: wires in wind": "within",
        "20 m: ropes in wind": "within",
    }
    _, lines = ledger_of(text_of("vertical", complete=True).replace('  pull = "40 N"\n', ""))
    assert lines["20 m: wires in wind"].verdict == "not checked"


def test_the_ground_kept_empty_counts_what_stands_above_the_clamp():
    text = text_of("two-triangle-loops", complete=True) + "[raising]\nground_crew = 5\n"
    plan = read_plan(text)
    (beam,) = plan.beams
    report = check_structure(inputs=structure_inputs(plan))
    job = raising_job(plan, beam, report.beams[0])
    strung, _ = strung_of("two-triangle-loops")
    assert job.top == pytest.approx(beam.height + frame_rise(strung), abs=0.05)
    assert job.top > beam.height + 4.0


def test_beams_on_the_same_spreaders_go_up_together():
    """Each lift weighs and catches the wind of all that hangs on the hook."""
    text = shape_plan("hexagon", band="20 m", further=("15 m",)) + "[raising]\nground_crew = 5\n"
    plan = read_plan(text)
    jobs = [each.lift.job for each in raise_plan(plan).lifts]
    whole = sum(station_assembly(plan).mass(beam.name) for beam in plan.beams)
    assert [job.load.mass for job in jobs] == pytest.approx([whole + RIGGING_MASS] * 2)
    assert jobs[0].load.drag_area == pytest.approx(jobs[1].load.drag_area)
    assert jobs[0].load.reach == pytest.approx(jobs[1].load.reach)
    # Nothing of them is in the way of the rest.
    assert [job.others for job in jobs] == [(), ()]

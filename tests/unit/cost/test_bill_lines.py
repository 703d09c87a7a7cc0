"""Bills: tube pieces from a beam, and everything besides."""

import math

import numpy as np
import pytest

from boomwright.base.quantity import write
from boomwright.cost import Bill, Services, beam_bill, join_bills, parts_bill, services_bill
from boomwright.cost.pieces import tube_pieces
from boomwright.parts import (
    MATERIALS,
    Beam,
    BeamFrame,
    BoomTube,
    ConcreteBlock,
    Element,
    Feed,
    GuyRing,
    Hardware,
    Joints,
    LatticeTower,
    LineHardware,
    LineRun,
    SupportHardware,
    TubeSection,
    Wire,
    boom_parts,
    element_parts,
    ground_parts,
    guy_parts,
    line_parts,
    tower_parts,
    wire_parts,
)
from boomwright.plan import read_plan
from boomwright.plan.resolve import plan_bill, station_assembly
from boomwright.session.files import packaged_text


def element(role, place, half):
    sections = tuple(TubeSection(diameter=d, length=n, wall=w) for d, n, w in half)
    return Element(role=role, position=place, half=sections)


HALF = ((0.0254, 1.7, 0.00147), (0.0222, 1.2, 0.00147), (0.01905, 2.0, 0.00147))
BEAM = Beam(
    name="20m",
    band=(14.0e6, 14.35e6),
    design_frequency=14.175e6,
    height=16.0,
    heading=0.0,
    material=MATERIALS["6061-T6"],
    feed=Feed(kind="split", gap=0.04),
    elements=(
        element("reflector", 0.0, HALF),
        element("driven", 2.6, HALF),
        element("director", 5.9, ((0.0254, 1.9, 0.00147), *HALF[1:])),
    ),
    wires=(
        Wire(name="tail", diameter=0.002, points=np.array([[0, 0, 0], [3, 4, 0], [3, 4, 12.0]])),
    ),
)
BOOM = BoomTube(diameter=0.0762, wall=0.002, length=6.2)


def parts_of(beam, *, longest_stock=12 * 0.3048, boom=None, joints=None):
    frame = BeamFrame(
        beam=beam,
        rear=0.0,
        boom_diameter=None if boom is None else boom.diameter,
        hardware=Hardware(),
        line=LineHardware(),
        joints=joints or Joints(),
        longest_stock=longest_stock,
    )
    booms = () if boom is None else boom_parts(frame, boom)
    return (*element_parts(frame), *wire_parts(frame), *booms)


def lengths_of(listed, diameter):
    return sorted(p.length for p in listed.pieces if p.kind.diameter == diameter)


def test_pieces_count_overlaps_gaps_and_centres():
    parts = parts_of(BEAM, longest_stock=3.6576, boom=BOOM)
    listed = tube_pieces(parts)
    # reflector 1.7 m twice in one run; driven halves less half the gap; director too long whole
    assert lengths_of(listed, 0.0254) == pytest.approx([1.68, 1.68, 1.9, 1.9, 3.4], rel=1e-12)
    # overlap is 100 mm at 22.2 and 19.05 mm, both under 3 diameters of 33 mm
    assert lengths_of(listed, 0.0222) == pytest.approx([1.3] * 6, rel=1e-12)
    assert lengths_of(listed, 0.01905) == pytest.approx([2.1] * 6, rel=1e-12)
    assert lengths_of(listed, 0.0762) == pytest.approx([3.1, 3.1], rel=1e-12)
    # one inside the director's middle, one inside the boom's joint
    assert [part.mark for part in parts if part.role == "sleeve"] == ["3.1SL1", "BS1"]
    # sleeves and the insulating rod are sawn from bought lengths like all else
    assert {"3.1SL1", "BS1", "2.I"} <= {piece.mark for piece in listed.pieces}
    (sleeve,) = [piece for piece in listed.pieces if piece.mark == "BS1"]
    # bore of the boom less 1 mm of play; five diameters of the boom to either side
    assert sleeve.kind.diameter == pytest.approx(0.0762 - 2 * 0.002 - 0.001)
    assert sleeve.length == pytest.approx(10 * 0.0762)
    assert listed.notices == ()


def test_thick_tubes_overlap_three_diameters():
    assert Joints().overlap(0.05) == pytest.approx(0.15, rel=1e-12)


def test_missing_boom_and_walls_are_said():
    plain = Beam(
        name="b",
        band=BEAM.band,
        design_frequency=BEAM.design_frequency,
        height=10.0,
        heading=0.0,
        material=BEAM.material,
        feed=Feed(kind="gamma", gap=0.0),
        elements=(element("driven", 0.0, ((0.02, 2.0, 0.0),)),),
    )
    parts = parts_of(plain, longest_stock=3.0)
    listed = tube_pieces(parts)
    assert {notice.code for notice in listed.notices} == {"cost.boom-missing", "cost.wall-missing"}
    # an uncut driven element that does not fit in one run is joined at the boom
    assert [part.mark for part in parts if part.role == "sleeve"] == ["1.1SL1"]


def test_beam_bill_buys_what_is_cut():
    bill = beam_bill(parts_of(BEAM, boom=BOOM))
    for order in bill.tubes:
        lines = [line for line in bill.lines if line.item.startswith(order.kind.name)]
        assert sum(line.quantity for line in lines) == len(order.packing.bars)
        assert all(line.unit == "length" for line in lines)
    items = {line.item: line.quantity for line in bill.lines}
    assert items["tube 22.20 x 1.47 mm 6061-T6, 3.658 m"] == 3
    assert items["element bracket with clamps"] == 3
    assert items["rod 22.46 mm glass fibre, 1.829 m"] == 1
    # two rivets at each of twelve joints; sleeves: rivets in the director's, bolts in the boom's
    assert items["rivet or screw 4.8 mm"] == 24 + 4
    assert items["through bolt, stainless, with lock nut, 8 mm"] == 4
    assert items["tip plug"] == 6
    assert items["wire 2.00 mm"] == pytest.approx(17.0 * 1.05, rel=1e-12)
    assert all(line.driver for line in bill.lines)


def test_what_stands_and_runs_is_billed_by_its_parts():
    ring = GuyRing(height=12.0, radius=9.0, count=3, first=0.0, anchor_height=0.0, strand="s",
                   diameter=0.005, mass=0.1)  # fmt: skip
    base = ConcreteBlock(width=1.0, length=1.0, high=2.0, top=0.0)
    anchor = ConcreteBlock(width=0.5, length=1.0, high=0.4, top=-1.0)
    bill = parts_bill((
        *tower_parts(LatticeTower(height=15.0, section=3.0)),
        *guy_parts((ring,), from_axis=0.0, hardware=SupportHardware()),
        *ground_parts((ring,), base=base, anchor=anchor, hardware=SupportHardware()),
        *line_parts(LineRun(
            name="feed line", length=33.0, connectors=4, legs=3, rods=2, hardware=LineHardware()
        )),
    ))  # fmt: skip
    items = {line.item: line.quantity for line in bill.lines}
    # By hand: guys of 15 m; 2 m3 of footing and three blocks of 0.2 m3, dug down to 1.4 m.
    assert items == {
        "tower section": 5,
        "guy strand s": pytest.approx(3 * 15.0 * 1.05, rel=1e-12),
        "guy grip": 6,
        "thimble": 6,
        "turnbuckle": 3,
        "guy anchor": 3,
        "concrete": pytest.approx(2.6 * 1.08, rel=1e-12),
        "reinforcing steel": pytest.approx(2.6 * 75.0, rel=1e-12),
        "anchor bolts and template": 1,
        "excavation and spoil": pytest.approx(2.0 + 3 * 0.5 * 1.4, rel=1e-12),
        "feed line": pytest.approx(36.3, rel=1e-12),
        "connector": 4,
        "earth rod with clamp": 5,
    }
    assert [line.group for line in bill.lines] == sorted(
        (line.group for line in bill.lines),
        key=["Support", "Guys", "Ground", "Line and earth"].index,
    )
    assert all(line.driver for line in bill.lines)
    assert parts_bill(()).lines == ()


def test_services_bill():
    hire = services_bill(Services(crane_days=0.2, lift_truck_days=1.1, own_time=144e3))
    items = {entry.item: entry.quantity for entry in hire.lines if not entry.is_open}
    assert items == {"lift truck": 1.5, "crane with operator": 0.5}
    assert hire.labour_hours == 40.0
    # Nobody said anything of freight, papers and an engineer: they are named, each with its key.
    unsaid = {entry.item: entry.driver for entry in hire.lines if entry.is_open}
    assert list(unsaid) == ["freight", "permits", "engineer"]
    freight = write(unsaid["freight"], system="metric")
    assert freight.endswith("0 where all is fetched (deliveries in [prices.hire])")


def test_the_hired_truck_is_named_with_what_it_must_reach():
    told = {
        entry.item: entry
        for entry in services_bill(
            Services(lift_truck_days=1.0, crane_days=1.0), truck="floor to 17 m"
        ).lines
    }
    assert write(told["lift truck"].driver, system="metric").endswith("floor to 17 m")
    assert "floor" not in write(told["crane with operator"].driver, system="metric")


def test_what_is_said_to_be_none_is_not_named():
    none = Services(deliveries=0, lift_truck_days=0.0, permits=0, engineer_stamps=0)
    assert services_bill(none).lines == ()
    assert "crane or lift truck" in [line.item for line in services_bill(Services()).lines]


def test_joined_bills_add_up():
    one = beam_bill(parts_of(BEAM, boom=BOOM))
    both = join_bills((one, one, Bill(lines=(), tubes=(), labour_hours=8.0, notices=())))
    assert len(both.lines) == len(one.lines)
    for single, double in zip(one.lines, both.lines, strict=True):
        assert double.quantity == pytest.approx(2 * single.quantity, rel=1e-12)
    assert both.labour_hours == 8.0
    assert math.isclose(len(both.tubes), 2 * len(one.tubes))


def test_a_plate_says_what_comes_with_it_as_the_fastener_list_counts_it():
    plan = read_plan(packaged_text("demo.toml"))
    told = {
        line.item: write(line.driver, system="metric")
        for line in plan_bill(plan).lines
        if "with clamps" in line.item
    }
    parts = station_assembly(plan).of("20m")
    bolts = [part for part in parts if part.role == "U-bolt"]
    elements, mast = (
        told[f"{name} with clamps"] for name in ("element bracket", "boom to mast plate")
    )
    assert elements.endswith("with 12 U-bolts, 6 saddles, 6 shells, 24 nuts")
    assert mast.endswith("with 4 U-bolts, 8 nuts")
    assert len(bolts) == 12 + 4
    assert sum(each.count for part in bolts for each in part.fasteners) == 24 + 8

"""Every part of the station once, built from the plan; what the plan leaves out the trade fills."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from boomwright.base.records import dataclass, replace
from boomwright.cost import DEFAULT_STOCK
from boomwright.parts import (
    GROUND,
    MAST,
    Assembly,
    Beam,
    BeamFrame,
    Block,
    BoomTie,
    BoomTube,
    Carrier,
    ConcreteBlock,
    GuyRing,
    Hardware,
    Joints,
    LatticeTower,
    LineHardware,
    LineRun,
    MastTube,
    Part,
    Point,
    Pole,
    SupportHardware,
    boom_parts,
    boom_unsaid,
    buried_radials,
    clamp_plate,
    clear_joints,
    element_parts,
    feed_parts,
    foot_box,
    frame_parts,
    from_above,
    ground_parts,
    guy_parts,
    line_parts,
    mast_parts,
    mast_plate_parts,
    mast_plate_unplaced,
    pole_parts,
    ring_parts,
    share_totals,
    top_of,
    tower_parts,
    turning_parts,
    wire_parts,
)
from boomwright.plan.model import Plan
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.model_support import BasePlan, SupportPlan
from boomwright.plan.resolve.places import mast_place, support_height

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel, StructureReport

#: length of a tower section where the plan does not say, 10 ft [m] {common-practice-tubing}
DEFAULT_SECTION = 3.048
#: from the top bearing down to the rotator where the plan does not say [m]
#: {common-practice-hardware}
DEFAULT_DROP = 1.0
#: steps in which a beam is balanced at most, and how near two of them end it [m]
_BALANCING, _BALANCED = 40, 1e-12
#: beams whose parts are remembered
_REMEMBERED = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class _Holder:
    """What a boom is clamped to."""

    diameter: float  #: its diameter; 0 while it is not known [m]
    rotor: str  #: what turns it; empty when it stands
    top: float  #: its upper end above ground [m]


def station_assembly(plan: Plan, *, structure: StructureReport | None = None) -> Assembly:
    """Build every part of a plan's station.

    Args:
        structure: what the structure room found, for balance points; None takes those of the parts
    """
    reports = (None,) * len(plan.beams) if structure is None else structure.beams
    told = zip(plan.beams, reports, strict=True)
    return _station(plan, tuple(mast_place(plan, beam, report) for beam, report in told))


# One judgement of a plan asks for its parts a dozen times; to balance a beam takes longest.
@lru_cache(maxsize=8)
def _station(plan: Plan, clamps: tuple[float | None, ...]) -> Assembly:
    """Build every part of a station whose booms are held there [m] (n_beams,)."""
    parts: list[Part] = []
    carriers = [Carrier(name=GROUND, origin=(0.0, 0.0, 0.0))]
    mast = _mast(plan.stand)
    if mast is not None:
        carriers.append(Carrier(name=MAST, origin=(0.0, 0.0, 0.0), rotor=MAST))
        parts += mast_parts(mast)
    for beam, place in zip(plan.beams, clamps, strict=True):
        frame, boom = beam_frame(plan, beam), _boom(plan.boom_of(beam.name), beam, place)
        made, carrier = _beam(plan, frame, boom, mast)
        carrier = replace(carrier, rear=frame.rear)
        if carrier.origin is None:
            carrier = replace(carrier, stands=_stands(plan, frame, made))
        parts += (*made, *buried_radials(frame, carrier), *foot_box(frame, carrier))
        carriers.append(carrier)
    if plan.support is not None:
        parts += _support(plan, plan.support, mast)
    if plan.line is not None:
        on_booms = sum(part.quantity for part in parts if part.role == "boom cable")
        parts += line_parts(replace(_line(plan), on_booms=on_booms))
    return Assembly(parts=tuple(parts), carriers=tuple(carriers))


def swing_radius(plan: Plan, beam: Beam) -> float:
    """Radius of the circle that a turning beam sweeps, by its parts.

    Returns:
        farthest outside of any part from what it turns about; where nothing is known to hold it,
        from its clamp or balance point, without those from the worse end of the boom [m]
    """
    return station_assembly(plan).reach(beam.name)


def antenna_top(plan: Plan) -> float:
    """Highest part of any beam above ground, truss and wires included [m]."""
    return max(beam.height + beam_rise(plan, beam) for beam in plan.beams)


def beam_rise(plan: Plan, beam: Beam) -> float:
    """Highest part of a beam above its boom or hub, truss and wires included [m]."""
    parts = station_assembly(plan).of(beam.name)
    return max(top_of(solid) for part in parts for solid in part.solids)


def turning_axis(plan: Plan, beam: Beam) -> tuple[float, float]:
    """Where the vertical over the support's foot stands in a beam's axes, by its parts [m] (2,).

    The middle of the boom while nothing is known to hold it.
    """
    carrier = station_assembly(plan).carrier(beam.name)
    along = sum(x for x, _ in carrier.axes) / len(carrier.axes)
    return carrier.rear + along, carrier.axes[0][1]


def beam_frame(plan: Plan, beam: Beam) -> BeamFrame:
    """What the parts of one beam have in common: stock, overlaps, hardware, rear end."""
    boom, paid = plan.boom_of(beam.name), plan.prices
    overlap = None if paid is None else paid.overlap
    stock = () if paid is None else paid.stock
    held = beam.frame if boom is None else boom
    hardware = None if held is None else held.hardware
    return BeamFrame(
        beam=beam,
        rear=min(each.position for each in beam.elements) if boom is None else boom.rear_end,
        boom_diameter=None if boom is None else boom.diameter,
        hardware=hardware or Hardware(),
        joints=Joints() if overlap is None else Joints(least_overlap=overlap),
        longest_stock=max(stock or DEFAULT_STOCK),
        line=_line_hardware(plan),
    )


def _line_hardware(plan: Plan) -> LineHardware:
    given = None if plan.line is None else plan.line.hardware
    return given or LineHardware()


def _boom(boom: BoomPlan | None, beam: Beam, place: float | None) -> BoomTube | None:
    if boom is None:
        return None
    tie = boom.tie
    return BoomTube(
        diameter=boom.diameter,
        wall=boom.wall,
        length=boom.length,
        material=boom.material,
        clamp=None if place is None else place - boom.rear_end,
        joints=None if boom.joints is None else tuple(at - boom.rear_end for at in boom.joints),
        tie=None if tie is None else BoomTie(share=tie.share, rise=tie.rise, area=tie.area),
        fittings=tuple(
            each if each.place is None else replace(each, place=each.place - boom.rear_end)
            for each in boom.fitting
        ),
    )


def _beam(
    plan: Plan, frame: BeamFrame, boom: BoomTube | None, mast: MastTube | None
) -> tuple[Sequence[Part], Carrier]:
    """List the parts of one beam and place it on what holds it."""
    beam = frame.beam
    if boom is None:
        wires = (*wire_parts(frame), *frame_parts(frame))
        if beam.bent:
            return _hung(plan, frame, wires, mast)
        parts = [*element_parts(frame), *wires, boom_unsaid(frame), *feed_parts(frame, None)]
        return parts, _unplaced(beam, "the plan does not give its boom")
    holder, given = _holder(plan, beam, mast), plan.boom_of(beam.name)
    missing = "what holds the boom is not given" if holder is None else ""
    if holder is not None and holder.diameter == 0.0:
        missing = "the width of the tower that its ring goes round is not given"
    known = holder if holder is not None and not missing else None
    beside = 0.0 if known is None else _beside(given, frame, boom, beam, known)
    across = 0.0 if holder is None else holder.diameter
    line = "" if plan.line is None else "feed line"
    said = given is not None and given.clamp is not None
    # How high it hangs, and what hangs beside it, is nothing to the parts of a boom: heights are
    # priced one after the other, and every subject of an edited plan asks for the same parts.
    beside_it = beam.neighbours if beam.post_line is not None else ()
    alone = replace(beam, height=0.0, neighbours=beside_it, conductors=())
    frame = replace(frame, beam=alone)
    made, clamp = _balanced(frame, boom, across, beside, missing, line, said=said)
    if known is None or clamp is None:
        return made, _unplaced(beam, missing or "the place of its clamp is not known")
    return made, _placed(beam, clamp, beside, known.rotor)


def _stands(plan: Plan, frame: BeamFrame, parts: Sequence[Part]) -> tuple[tuple[float, float], ...]:
    """Where a beam may turn that nothing is known to hold, in its frame [m] (n_stands, 2)."""
    boom = plan.boom_of(frame.beam.name)
    beside = 0.0 if boom is None else -(boom.offset or 0.0)
    clamp = None if boom is None else boom.clamp
    known = _balance(frame.beam, parts) if clamp is None else clamp - frame.rear
    if known is not None:
        return ((known, beside),)
    corners = [corner for part in parts for solid in part.solids for corner in from_above(solid)]
    ends = min(x for x, _ in corners), max(x for x, _ in corners)
    return tuple((x, beside) for x in ends)


def _hung(
    plan: Plan, frame: BeamFrame, wires: tuple[Part, ...], mast: MastTube | None
) -> tuple[list[Part], Carrier]:
    """Place wire on a frame with its hub, or its middle, on what holds it."""
    beam, holder = frame.beam, _holder(plan, frame.beam, mast)
    parts = [*element_parts(frame), *wires]
    if beam.upright:
        return parts, _placed(beam, beam.boom_middle - frame.rear, 0.0, "")
    parts += feed_parts(frame, None)
    if holder is None:
        return parts, _unplaced(beam, "what holds the frame is not given")
    held = beam.frame is not None and beam.frame.held
    rotor = "" if held else holder.rotor
    return parts, _placed(beam, beam.boom_middle - frame.rear, 0.0, rotor)


@lru_cache(maxsize=_REMEMBERED)
def _balanced(
    frame: BeamFrame,
    boom: BoomTube,
    across: float,
    beside: float,
    missing: str,
    line: str,
    *,
    said: bool,
) -> tuple[tuple[Part, ...], float | None]:
    """List the parts of a beam with its clamp where the plan says, else where all of it balances.

    Args:
        across: diameter of what the boom is clamped to [m]
        beside: its axis to the left of the boom's [m]
        missing: what the place of the mast plate lacks, in words
        line: feed line that runs along the boom; empty while the plan gives none
        said: whether the plan gives the place of the clamp

    Returns:
        parts, and place of the clamp from the rear end; None while a mass is not known [m]
    """
    tubes = (*element_parts(frame), *wire_parts(frame), *frame_parts(frame))

    def at(clamp: float | None) -> tuple[Part, ...]:
        held = replace(boom, clamp=clamp)
        lacks = missing or ("" if clamp is not None else "the place of its clamp is not known")
        plate = (
            (mast_plate_unplaced(frame, lacks),)
            if lacks
            else mast_plate_parts(frame, held, mast=across, beside=beside)
        )
        rest = (*boom_parts(frame, held), *feed_parts(frame, held, line=line), *plate)
        return share_totals(frame, held, (*tubes, *rest))

    held = replace(boom, clamp=boom.length / 2.0)
    plate = () if missing else mast_plate_parts(frame, held, mast=across, beside=beside)
    wide = [each.size[0] for part in plate[:1] for each in part.solids if isinstance(each, Block)]
    boom = replace(boom, held=0.5 * max(wide, default=0.0))
    if boom.joints is None and not said:
        # Where its tubes meet is settled once: their sleeves hardly move the balance.
        place = _balance(frame.beam, at(None))
        boom = replace(boom, joints=clear_joints(frame, replace(boom, clamp=place)))
    clamp, parts = boom.clamp, at(boom.clamp)
    if clamp is not None:
        return parts, clamp
    for _ in range(_BALANCING):
        # The truss and the rods stand where the clamp lets them, so they move what they balance.
        found = _balance(frame.beam, parts)
        if found is None or (clamp is not None and abs(found - clamp) < _BALANCED):
            break
        clamp = min(max(found, 0.0), boom.length)
        parts = at(clamp)
    return parts, clamp


def _balance(beam: Beam, parts: Sequence[Part]) -> float | None:
    """Balance point of a beam's parts from the rear end; None while a mass is not known [m]."""
    alone = Assembly(parts=tuple(parts), carriers=(_unplaced(beam, ""),))
    return alone.balance(beam.name)


def _unplaced(beam: Beam, missing: str) -> Carrier:
    return Carrier(name=beam.name, origin=None, heading=beam.heading, missing=missing)


def _placed(beam: Beam, clamp: float, beside: float, rotor: str) -> Carrier:
    turned = Carrier(name=beam.name, origin=(0.0, 0.0, 0.0), heading=beam.heading)
    x, y, _ = turned.at_foot((clamp, beside, 0.0))
    origin: Point = (-x, -y, beam.height)
    return Carrier(name=beam.name, origin=origin, heading=beam.heading, rotor=rotor)


def _holder(plan: Plan, beam: Beam, mast: MastTube | None) -> _Holder | None:
    support = plan.support
    if support is None:
        return None
    if any(ring.beam == beam.name for ring in plan.rings):
        return _Holder(diameter=2.0 * _across(support), rotor=f"ring of {beam.name}", top=math.inf)
    if mast is not None:
        return _Holder(diameter=mast.diameter, rotor=MAST, top=mast.top)
    tube = support.tube
    return None if tube is None else _Holder(diameter=tube.diameter, rotor="", top=tube.height)


def _across(support: SupportPlan) -> float:
    """Outside of the support from its axis; 0 while its width is not known [m]."""
    if support.tube is not None:
        return 0.5 * support.tube.diameter
    tower = _tower(support)
    return 0.0 if tower is None else tower.across


def _beside(
    given: BoomPlan | None, frame: BeamFrame, boom: BoomTube, beam: Beam, holder: _Holder
) -> float:
    """Axis of the holder to the left of the boom's: the owner's, else what plate and tubes need."""
    if given is not None and given.offset is not None:
        return -given.offset
    if holder.top <= beam.height - 0.5 * boom.diameter:
        return 0.0  # the boom lies on its end
    plate = frame.hardware.mast_plate
    thick = plate[2] if plate else clamp_plate(
        name="", level="", level_diameter=boom.diameter, upright="",
        upright_diameter=holder.diameter,
    ).thickness / 1e3  # fmt: skip
    return -(0.5 * (boom.diameter + holder.diameter) + thick)


def _mast(support: SupportPlan) -> MastTube | None:
    mast = support.mast
    if mast is None:
        return None
    drop = DEFAULT_DROP if support.rotator is not None else 0.0
    return MastTube(
        diameter=mast.diameter,
        wall=mast.wall,
        foot=mast.bearing - (drop if mast.rotator_below is None else mast.rotator_below),
        bearing=mast.bearing,
        top=mast.top,
        material=mast.material,
        foot_known=mast.rotator_below is not None,
        bearing_mass=mast.bearing_mass,
    )


def _tower(support: SupportPlan) -> LatticeTower | None:
    tower = support.tower
    if tower is None:
        return None
    drawn = LatticeTower(
        height=tower.height,
        section=tower.section or DEFAULT_SECTION,
        section_known=tower.section is not None,
        mass=tower.mass,
    )
    steel = tower.lattice
    if steel is None:
        return drawn
    return replace(drawn, faces=steel.faces, face_width=steel.face_width, leg=steel.leg)


def _support(plan: Plan, support: SupportPlan, mast: MastTube | None) -> list[Part]:
    parts: list[Part] = []
    own = support.hardware or SupportHardware()
    tower, tube = _tower(support), support.tube
    if mast is not None:
        turned = support.rotator
        parts += turning_parts(
            mast,
            rotator=turned is not None,
            rotator_mass=None if turned is None else turned.mass,
            hardware=own,
        )
    if tower is not None:
        parts += tower_parts(tower)
    if tube is not None:
        caged = 0.0 if tube.cage is None else tube.cage.height
        pole = Pole(diameter=tube.diameter, wall=tube.wall, height=tube.height - caged,
                    material=tube.material,
                    foot=0.0 if tube.brackets is None else tube.brackets.foot,
                    brackets=() if tube.brackets is None else tube.brackets.heights)  # fmt: skip
        parts += pole_parts(pole, buried=buried_length(support))
    across = _across(support)
    for ring in plan.rings:
        parts += ring_parts(
            ring.beam, height=ring.height, across=across, mass=ring.mass, hardware=own
        )
    rings, block = tuple(_guy(ring) for ring in support.guy), support.anchor
    anchor = None if block is None else ConcreteBlock(
        width=block.width, length=block.length, high=block.thickness, top=-block.cover
    )  # fmt: skip
    parts += guy_parts(rings, from_axis=across, on_pole=tube is not None, hardware=own)
    parts += ground_parts(
        rings,
        base=None if support.base is None else _base(support.base),
        anchor=anchor,
        hardware=own,
        bolted=buried_length(support) == 0.0,
    )
    return [_weighed(part, own) for part in parts]


def _weighed(part: Part, hardware: SupportHardware) -> Part:
    """Weigh hardware of the support as its owner says."""
    mass = {
        "shelf": hardware.shelf_mass,
        "guy ring": hardware.guy_ring_mass,
        "guy grip": hardware.guy_grip_mass,
        "turnbuckle": hardware.turnbuckle_mass,
        "house bracket": hardware.house_bracket_mass,
        "anchor bolts": hardware.anchor_bolts_mass,
    }.get(part.role)
    if mass is None:
        return part
    return replace(part, mass=part.quantity * mass, known="plan", basis="")


def buried_length(support: SupportPlan) -> float:
    """Length of a pole in its pier; a hinged one stands on its footing [m]."""
    tube, base = support.tube, support.base
    if tube is None or base is None or tube.hinged or base.depth is None:
        return 0.0
    return base.depth


def _guy(ring: GuyLevel) -> GuyRing:
    return GuyRing(
        height=ring.height,
        radius=ring.anchor_radius,
        count=ring.count,
        first=ring.first_azimuth,
        anchor_height=ring.anchor_height,
        strand=ring.strand.name,
        diameter=ring.strand.outer_diameter,
        mass=ring.strand.mass_per_length,
    )


def _base(base: BasePlan) -> ConcreteBlock:
    pad = base.thickness is not None
    return ConcreteBlock(
        width=base.width,
        length=base.width,
        high=base.thickness or base.depth or 0.0,
        top=base.stands_out - base.cover if pad else 0.0,
        is_round=base.is_round and not pad,
    )


def _clear(support: SupportPlan) -> float:
    """How far footing and support reach from their axis [m]."""
    base = None if support.base is None else _base(support.base)
    corner = 0.0 if base is None else 0.5 * base.width * (1.0 if base.is_round else math.sqrt(2.0))
    return max(corner, _across(support))


def _between_guys(support: SupportPlan) -> float:
    """Half-way from the first anchor to the next, where no guy runs [rad]."""
    if not support.guy:
        return 0.0
    ring = support.guy[0]
    return ring.first_azimuth + math.pi / ring.count


def _line(plan: Plan) -> LineRun:
    line, support = plan.line, plan.stand
    if line is None:
        return LineRun(name="feed line", length=0.0, hardware=LineHardware())
    tower = support.tower
    name = line.line_type if isinstance(line.line_type, str) else line.line_type.name
    return LineRun(
        name=f"feed line {name}",
        length=line.length,
        loop=line.loop,
        connectors=line.connectors,
        control=line.control_cable,
        legs=0 if tower is None else tower.legs or 0,
        rods=line.earth_rods,
        bonding=line.bonding,
        arresters=line.arresters,
        cores=line.choke_cores,
        clear=_clear(support),
        turn=_between_guys(support),
        top=support_height(plan) or 0.0,
        hardware=_line_hardware(plan),
    )

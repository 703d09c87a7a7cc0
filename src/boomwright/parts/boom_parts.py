"""Parts of one boom: tubes, sleeves, caps, mast plate, truss, feed with its box, fittings."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Final, Literal, get_args

from boomwright.base.records import dataclass, replace
from boomwright.parts.assembly import Carrier
from boomwright.parts.beams import Beam, Feed
from boomwright.parts.element_parts import (
    TERMINAL_WAY,
    BeamFrame,
    bolts_on_boom,
    element_group,
    element_height,
    hole_through,
    is_cut,
    mount_group,
    passes_through,
    plate_holes,
    plate_reach,
    u_bolt_nuts,
)
from boomwright.parts.folded_parts import folded_parts, strap
from boomwright.parts.hardware import (
    BOLT_PROUD,
    BOOM_WEEP,
    BOX_MASS,
    BOX_SIZE,
    CABLE,
    CAP_THICKNESS,
    CAPACITOR_MASS,
    CAPACITOR_SIZE,
    HUB_RADIUS,
    LINE_MASS,
    MAST_PLATE_MASS,
    ROD_BEHIND,
    ROD_BEYOND,
    SHORT_BLOCK,
    SLEEVE_PLAY,
    SLEEVE_REACH,
    SLEEVE_WALL,
    STRAP,
    TERMINAL_HOLE,
    TRUSS_EYE,
    WEEP,
    Hardware,
    given_or,
    stands,
    whose,
)
from boomwright.parts.part import Cut, Fastener, Hole, Part, weighed
from boomwright.parts.plates import ClampPlate, clamp_plate, u_bolt
from boomwright.parts.solids import Bar, Block, Solid, bent
from boomwright.parts.support_parts import GROUND
from boomwright.parts.tubes import TubeKind, part_count, part_letter

#: parts whose mass an owner may give as one total; empty for a fitting of its own
StandsFor = Literal["", "element hardware", "mast hardware", "feed box"]
STOOD_FOR: Final[tuple[StandsFor, ...]] = get_args(StandsFor)[1:]
_TRADE = "common practice"
#: through bolts of a boom's sleeve, and the hole over them [m] {common-practice-building}
_BOLT, _BOLT_HOLE = 0.008, 0.0085
#: how the holes of a sleeve are drilled {common-practice-building}
_SLEEVE_WAY = "level, square to the boom, through boom and sleeve together"
#: what hangs this near to the feed is taken for its box [m]
_AT_FEED = 0.3
#: a joint nearer than this to an element's middle lies under its plate; what is kept clear besides
#: [m] {common-practice-tubing}
_AT_ELEMENT, _SLACK = 0.15, 0.05
#: from the middle of a sleeve's bolt to that of a U-bolt, for nut and spanner; how far a joint is
#: moved for that, the least first, in whole millimetres
_BOLT_ROOM, _NUDGES = 2.5 * _BOLT, sorted(range(-80, 81), key=abs)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomFitting:
    """Something that the owner hangs on the boom."""

    name: str
    mass: float  #: its mass [kg]
    #: along the boom, of a ``BoomTube`` from its rear end; None for what stands for parts [m]
    place: float | None = None
    span: float = 0.0  #: length across the boom over which it is spread [m]
    size: tuple[float, ...] = ()  #: along the boom, across it, high; empty while not known [m] (3,)
    stands_for: StandsFor = ""  #: parts that share its mass


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomTie:
    """A truss from a post over the mast down to both arms."""

    share: float  #: place along each arm [-]
    rise: float  #: its upper end above the boom's axis [m]
    area: float  #: its cross section [m^2]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomTube:
    """The boom as bought, and what holds it."""

    diameter: float  #: outer diameter [m]
    length: float  #: length of the boom [m]
    wall: float = 0.0  #: wall thickness, 0 when not said [m]
    material: str = "6061-T6"  #: alloy and temper
    clamp: float | None = None  #: mast clamp from the rear end; None while it is not known [m]
    held: float = 0.0  #: half the length of the plate that holds it [m]
    #: where its tubes meet, from the rear end; None parts it so that its tubes fit the stock and
    #: meet clear of every clamp [m] (n_joints,)
    joints: tuple[float, ...] | None = None
    tie: BoomTie | None = None
    fittings: tuple[BoomFitting, ...] = ()  #: what the owner hangs on it (n_fittings,)


def boom_parts(frame: BeamFrame, boom: BoomTube) -> tuple[Part, ...]:
    """List tubes, sleeves, caps, truss and fittings of a boom."""
    base = Part(
        mark="", name="boom", role="boom", carrier=frame.beam.name, group="boom", form="tube",
        material=boom.material,
    )  # fmt: skip
    return (
        *_boom_tubes(frame, boom, base),
        *_caps(frame, boom, base),
        *_truss(frame, boom, base),
        *(_fitting(boom, base, k) for k, each in enumerate(boom.fittings) if not each.stands_for),
    )


def _boom_tubes(frame: BeamFrame, boom: BoomTube, base: Part) -> list[Part]:
    kind = TubeKind(material=boom.material, diameter=boom.diameter, wall=boom.wall)
    bore = max(0.0, boom.diameter - 2.0 * boom.wall) if boom.wall else 0.0
    given, reach = frame.hardware.sleeve, _sleeve_reach(frame, boom)
    joints = clear_joints(frame, boom) if boom.joints is None else boom.joints
    count = len(joints) + 1
    parts: list[Part] = []
    for k, (start, stop) in enumerate(pairwise((0.0, *joints, boom.length))):
        long = stop - start
        bar = Bar(start=(start, 0.0, 0.0), end=(stop, 0.0, 0.0),
                  diameter=boom.diameter, bore=bore)  # fmt: skip
        ends = [0.0] * (k > 0) + [long] * (k < count - 1)
        at = tuple(abs(end - step * reach) for end in ends for step in (0.25, 0.75))
        drained = (BOOM_WEEP,) * (k == 0) + (long - BOOM_WEEP,) * (k == count - 1)
        parts.append(
            replace(
                base, mark="B" if count == 1 else "B" + part_letter(k),
                name="boom" if count == 1 else f"boom, part {k + 1} of {count}",
                solids=(bar,), mass=weighed(boom.material, (bar,)) if boom.wall else None,
                drag="round", cut=Cut(kind=kind, sawn=long, exposed=long),
                holes=(
                    *((Hole(diameter=_BOLT_HOLE, at=at, purpose="through bolt of the sleeve",
                            way=_SLEEVE_WAY, proud=stands(BOLT_PROUD, _BOLT),
                            level=True),) if at else ()),
                    *_through(frame, start, stop),
                    *((Hole(diameter=WEEP, at=drained, purpose="weep hole",
                            way="lower side only"),) if drained else ()),
                ),
                price_key=kind.name, quantity=long, unit="m",
                known="plan" if boom.wall else "unknown",
                basis="" if boom.wall else "the wall is not given",
            )
        )  # fmt: skip
    parts += [
        _boom_sleeve(boom, base, place, reach, number, given)
        for number, place in enumerate(joints, start=1)
    ]
    return parts


def _through(frame: BeamFrame, start: float, stop: float) -> list[Hole]:
    """Holes of one boom tube for the elements that pass through it."""
    found: dict[float, list[float]] = {}
    for element in frame.order:
        at = element.position - frame.rear
        if passes_through(element) and start < at < stop:
            found.setdefault(hole_through(element), []).append(at - start)
    return [
        Hole(diameter=size, at=tuple(at), purpose="element through the boom",
             way="level, square to the boom, through both walls")
        for size, at in found.items()
    ]  # fmt: skip


def _sleeve_reach(frame: BeamFrame, boom: BoomTube) -> float:
    given = frame.hardware.sleeve
    return 0.5 * given[2] if given else SLEEVE_REACH * boom.diameter


def clear_joints(frame: BeamFrame, boom: BoomTube) -> tuple[float, ...]:
    """Part a boom to fit the stock where its tubes meet clear of every clamp [m] (n_joints,).

    Equal tubes where they do; else the cut that hits no clamp of the mast, takes the fewest tubes,
    hits the fewest elements and is nearest to equal.
    """
    long, stock, reach = boom.length, frame.longest_stock, _sleeve_reach(frame, boom)
    elements = [each.position - frame.rear for each in frame.order]
    held = [] if boom.clamp is None else [(boom.clamp, reach + boom.held + _SLACK)]
    zones = held + [(at, _AT_ELEMENT + _SLACK) for at in elements]

    def parted(whole: float) -> tuple[float, ...]:
        pieces = part_count(whole, longest_stock=stock)
        return tuple(whole * k / pieces for k in range(1, pieces))

    def even(pieces: int) -> tuple[float, ...]:
        return tuple(long * k / pieces for k in range(1, pieces))

    first = part_count(long, longest_stock=stock)
    found = [even(first)]
    if first > 1:
        found.append(even(first + 1))
        for joint in (at + sign * room for at, room in zones for sign in (-1.0, 1.0)):
            if reach < joint < long - reach:
                front = tuple(joint + step for step in parted(long - joint))
                found.append((*parted(joint), joint, *front))

    bolts = bolts_on_boom(frame)

    def clear(joint: float) -> bool:
        own = [joint + step * reach for step in (-0.75, -0.25, 0.25, 0.75)]
        return all(abs(mine - at) >= _BOLT_ROOM for mine in own for at in bolts)

    def nudged(joint: float) -> float:
        # As little as lets its bolts pass the U-bolts of the elements.
        return next((each for step in _NUDGES if clear(each := joint + 1e-3 * step)), joint)

    def fits(joints: tuple[float, ...]) -> bool:
        return all(b - a <= stock + 1e-9 for a, b in pairwise((0.0, *joints, long)))

    def badness(joints: tuple[float, ...]) -> tuple[float, ...]:
        def hits(places: list[tuple[float, float]]) -> int:
            return sum(abs(joint - at) < room - _SLACK for joint in joints
                       for at, room in places)  # fmt: skip

        ends = [0.0, *joints, long]
        pieces = [b - a for a, b in pairwise(ends)]
        tight = sum(not clear(joint) for joint in joints)
        return hits(held), tight, len(joints), hits(zones), max(pieces) - min(pieces)

    return min([*found, *filter(fits, (tuple(map(nudged, each)) for each in found))], key=badness)


def _boom_sleeve(
    boom: BoomTube, base: Part, place: float, reach: float, number: int, given: tuple[float, ...]
) -> Part:
    wall = boom.wall or SLEEVE_WALL
    outer = boom.diameter - 2.0 * wall - 2.0 * SLEEVE_PLAY
    thick = min(max(wall, SLEEVE_WALL), 0.4 * outer)
    if given:
        outer, thick = given[:2]
    bar = Bar(start=(place - reach, 0.0, 0.0), end=(place + reach, 0.0, 0.0), diameter=outer,
              bore=outer - 2.0 * thick)  # fmt: skip
    at = tuple(reach + sign * step * reach for sign in (-1.0, 1.0) for step in (0.25, 0.75))
    kind = TubeKind(material=boom.material, diameter=outer, wall=thick)
    return replace(
        base, mark=f"BS{number}", name="sleeve in the boom", role="sleeve", solids=(bar,),
        mass=weighed(boom.material, (bar,)),
        cut=Cut(kind=kind, sawn=2.0 * reach, exposed=0.0, overlap=2.0 * reach),
        holes=(Hole(diameter=_BOLT_HOLE, at=tuple(sorted(at)), purpose="through bolt",
                    way=_SLEEVE_WAY),),
        fasteners=(Fastener(name=f"through bolt {1e3 * _BOLT:.0f} mm, stainless", count=4,
                            how="through bolt, stainless, with lock nut,", size=_BOLT,
                            grip=boom.diameter),),
        price_key=kind.name, quantity=2.0 * reach, unit="m",
        known="plan" if given else "assumed", basis="" if given else _TRADE,
    )  # fmt: skip


def _caps(frame: BeamFrame, boom: BoomTube, base: Part) -> list[Part]:
    parts, thick = [], given_or(frame.hardware.boom_cap, CAP_THICKNESS)
    for mark, name, x, sign in (("E1", "rear", 0.0, -1.0), ("E2", "front", boom.length, 1.0)):
        disc = Bar(start=(x, 0.0, 0.0), end=(x + sign * thick, 0.0, 0.0),
                   diameter=boom.diameter)  # fmt: skip
        parts.append(
            replace(
                base, mark=mark, name=f"boom cap, {name}", role="cap", form="bought",
                material="polyethylene", solids=(disc,), mass=weighed("polyethylene", (disc,)),
                conductor=False, price_key="boom cap", **whose(frame.hardware.boom_cap),
            )
        )  # fmt: skip
    return parts


def _truss(frame: BeamFrame, boom: BoomTube, base: Part) -> list[Part]:
    tie, clamp = boom.tie, boom.clamp
    if tie is None or clamp is None:
        return []
    size = 2.0 * math.sqrt(tie.area / math.pi)
    metal = frame.hardware.truss_material or "stainless steel"
    top = 0.5 * boom.diameter
    parts = []
    for mark, end in (("T1", clamp - tie.share * clamp),
                      ("T2", clamp + tie.share * (boom.length - clamp))):  # fmt: skip
        bar = Bar(start=(clamp, 0.0, tie.rise), end=(end, 0.0, top), diameter=size)
        parts.append(
            replace(
                base, mark=mark, name="boom truss", role="truss", form="strand",
                material=metal, solids=(bar,), mass=weighed(metal, (bar,)),
                joins=("mast plate", "mast"),
                drag="round",
                fasteners=(Fastener(name="turnbuckle of the truss", count=1),
                           Fastener(name="thimble and clip", count=2)),
                price_key="boom truss", quantity=bar.length, unit="m",
                basis="" if frame.hardware.truss_material else
                "its metal is taken for stainless steel",
            )
        )  # fmt: skip
        parts.append(_truss_eye(frame, boom, base, f"{mark}E", end))
    return parts


def _truss_eye(frame: BeamFrame, boom: BoomTube, base: Part, mark: str, x: float) -> Part:
    """Strip with an eye under a U-bolt, which wants no hole in the boom."""
    along, thick = given_or(frame.hardware.truss_eye, TRUSS_EYE)
    thread, face = given_or(frame.hardware.u_bolt, _BOLT), 0.5 * boom.diameter
    strip = Block(middle=(x, 0.0, face + 0.5 * thick),
                  size=(along, boom.diameter + 6.0 * thread, thick))  # fmt: skip
    bow = u_bolt(middle=(x, 0.0, 0.0), along=(1.0, 0.0, 0.0), away=(0.0, 0.0, 1.0),
                 reach=face + thick, diameter=boom.diameter, thread=thread)  # fmt: skip
    solids: tuple[Solid, ...] = (strip, *bow)
    return replace(
        base, mark=mark, name="eye of the truss with its U-bolt", role="truss eye", form="bought",
        material="stainless steel", solids=solids, mass=weighed("stainless steel", solids),
        group="truss", joins=("boom",), fasteners=(u_bolt_nuts(bow),),
        price_key="eye of the truss with its U-bolt", **whose(frame.hardware.truss_eye),
    )  # fmt: skip


def _fitting(boom: BoomTube, base: Part, index: int, *, place: float = 0.0) -> Part:
    # Its place is the owner's, its shape is not known: it hangs under the boom.
    each, side = boom.fittings[index], 0.05
    x = place if each.place is None else each.place
    long, wide, high = each.size or (side, max(side, each.span), side)
    box = Block(middle=(x, 0.0, -0.5 * boom.diameter - 0.5 * high), size=(long, wide, high))
    return replace(
        base, mark=f"F{index + 1}", name=each.name, role="fitting", form="bought",
        material="as bought", solids=(box,), mass=each.mass,
        joins=("mast plate", "feed"), known="plan",
        basis="" if each.size else "its shape is not known",
    )  # fmt: skip


def _is_stood_for(part: Part, group: StandsFor) -> bool:
    if group == "element hardware":
        return part.group.startswith("mount ")
    return part.group == "mast plate" if group == "mast hardware" else part.role == "box"


def share_totals(frame: BeamFrame, boom: BoomTube, parts: Iterable[Part]) -> tuple[Part, ...]:
    """Let the parts that a fitting stands for weigh together what the owner says.

    A total without such parts stays a fitting of its own, so that no mass is lost.
    """
    found = list(parts)
    base = next(part for part in found if part.role == "boom")
    driven = next(each for each in frame.order if each.role == "driven")
    place = min(max(driven.position - frame.rear, 0.0), boom.length)
    for group in STOOD_FOR:
        mine = [k for k, each in enumerate(boom.fittings) if each.stands_for == group]
        theirs = [k for k, part in enumerate(found) if _is_stood_for(part, group) and part.mass]
        if not mine:
            continue
        if not theirs:
            bare = replace(base, cut=None, holes=(), price_key="", quantity=1.0, unit="each",
                           drag="none")  # fmt: skip
            found += [_fitting(boom, bare, k, place=place) for k in mine]
            continue
        total = sum(boom.fittings[k].mass for k in mine)
        share = total / sum(found[k].mass or 0.0 for k in theirs)
        basis = f"its mass is its share of {boom.fittings[mine[0]].name}"
        for k in theirs:
            known = "plan" if group == "feed box" else found[k].known
            found[k] = replace(found[k], mass=share * (found[k].mass or 0.0), basis=basis,
                               known=known)  # fmt: skip
    return tuple(found)


def boom_unsaid(frame: BeamFrame) -> Part:
    """Stand for a boom that the plan does not give: nobody knows what the beam weighs."""
    return Part(
        mark="B", name="boom", role="boom", carrier=frame.beam.name, group="boom", form="bought",
        material="as bought", known="unknown", basis="the plan does not give the boom",
    )  # fmt: skip


def mast_plate_parts(
    frame: BeamFrame, boom: BoomTube, *, mast: float, beside: float
) -> tuple[Part, ...]:
    """List the plate between boom and mast with its U-bolts.

    Args:
        mast: diameter of the mast [m]
        beside: axis of the mast to the left of the boom's axis [m]
    """
    clamp = boom.clamp
    if clamp is None or abs(beside) < 1e-9:
        return (mast_plate_unplaced(frame, "where it sits is not known"),)
    layout = clamp_plate(name="mast plate", level="boom", level_diameter=boom.diameter,
                         upright="mast", upright_diameter=mast,
                         thread=frame.hardware.u_bolt)  # fmt: skip
    given = frame.hardware.mast_plate
    wide, high, thick = given or tuple(
        each / 1e3 for each in (layout.width, layout.height, layout.thickness)
    )
    side = 1.0 if beside > 0.0 else -1.0
    face = 0.5 * boom.diameter
    plate = Block(middle=(clamp, side * (face + 0.5 * thick), 0.0), size=(wide, thick, high))
    base = Part(
        mark="MP", name="mast plate", role="mast plate", carrier=frame.beam.name,
        group="mast plate", form="plate", material="6061-T6", solids=(plate,),
        mass=weighed("6061-T6", (plate,)), joins=("boom", "mast"), bonded=True, drag="flat",
        holes=plate_holes(layout), price_key="boom to mast plate with clamps",
        known="plan" if given else "assumed", basis="" if given else _TRADE,
    )  # fmt: skip
    parts = [base]
    sizes = (frame.hardware.boom_clamp or boom.diameter, frame.hardware.mast_clamp or mast)
    usual = sizes == (boom.diameter, mast) and frame.hardware.u_bolt is None
    for mark, what, solids in _mast_bolts(layout, clamp, beside, sizes, (face, thick)):
        # Not joined to what they close round: a clamp of another size runs into its tube.
        parts.append(
            replace(
                base, mark=mark, name=f"U-bolt round the {what}", role="U-bolt", form="rod",
                material="stainless steel", solids=solids, drag="none", holes=(), joins=(),
                mass=weighed("stainless steel", solids), price_key="",
                fasteners=(u_bolt_nuts(solids),),
                known="assumed" if usual else "plan", basis=_TRADE if usual else "",
            )
        )  # fmt: skip
    return tuple(parts)


def mast_plate_unplaced(frame: BeamFrame, missing: str) -> Part:
    """Stand for the plate between a boom and what holds it while its place is not known.

    Args:
        missing: what is not known, in words
    """
    return Part(
        mark="MP", name="mast plate", role="mast plate", carrier=frame.beam.name,
        group="mast plate", form="bought", material="as bought",
        mass=MAST_PLATE_MASS, price_key="boom to mast plate with clamps", known="unknown",
        basis=missing,
    )  # fmt: skip


def _mast_bolts(
    layout: ClampPlate, clamp: float, beside: float, sizes: tuple[float, float],
    plate: tuple[float, float],
) -> list[tuple[str, str, tuple[Solid, ...]]]:  # fmt: skip
    face, thick = plate
    side = 1.0 if beside > 0.0 else -1.0
    found: list[tuple[str, str, tuple[Solid, ...]]] = []
    along, up = layout.level_holes[0] / 1e3, layout.upright_holes[1] / 1e3
    for number, sign in enumerate((-1.0, 1.0), start=1):
        found.append(
            (f"MU{number}", "boom",
             u_bolt(middle=(clamp + sign * along, 0.0, 0.0), along=(1.0, 0.0, 0.0),
                    away=(0.0, side, 0.0), reach=face + thick, diameter=sizes[0],
                    thread=layout.level_bolt / 1e3))
        )  # fmt: skip
    for number, sign in enumerate((1.0, -1.0), start=1):
        found.append(
            (f"MV{number}", "mast",
             u_bolt(middle=(clamp, beside, sign * up), along=(0.0, 0.0, 1.0),
                    away=(0.0, -side, 0.0), reach=abs(beside) - face, diameter=sizes[1],
                    thread=layout.upright_bolt / 1e3))
        )  # fmt: skip
    return found


def feed_parts(frame: BeamFrame, boom: BoomTube | None, *, line: str = "") -> tuple[Part, ...]:
    """List rods, straps, capacitor, box and cable of the feed of a beam."""
    number, driven = next(
        (number, each) for number, each in enumerate(frame.order, 1) if each.role == "driven"
    )
    x = driven.position - frame.rear
    z = element_height(driven, boom_diameter=frame.boom_diameter)
    way = 1.0 if frame.beam.rods_forward else -1.0
    base = Part(
        mark="", name="", role="match", carrier=frame.beam.name, group="feed", form="rod",
        material=frame.beam.material.name,
        joins=(element_group(number), mount_group(number)),
        known="plan" if frame.hardware.rods else "assumed",
        basis="" if frame.hardware.rods else "rods run away from the mast",
    )  # fmt: skip
    feed = frame.beam.feed
    if feed.kind == "folded" and not driven.bent:
        rods = folded_parts(feed, base, driven, x=x, z=z, way=way, hardware=frame.hardware,
                            longest_stock=frame.longest_stock)  # fmt: skip
    else:
        rods = _rods(feed, base, x, z, way, driven.half[0].diameter, frame.hardware)
    parts = [*rods, *_under_short(frame, boom, rods), *_capacitors(frame, boom, base, rods)]
    # Beams on one feed point have one box.
    if (is_cut(frame.beam, driven) or parts) and not frame.beam.fed_with:
        # A hub holds the spreaders of a bent element; the box stands clear of it.
        parts += _box(frame, boom, base, x + way * (HUB_RADIUS if driven.bent else 0.0), way)
    return tuple(parts if boom is None else [*parts, *_cable(frame, boom, base, x, line)])


def _rods(
    feed: Feed, base: Part, x: float, z: float, way: float, element: float, hardware: Hardware
) -> list[Part]:
    if feed.rod_diameter is None or feed.rod_spacing is None or feed.rod_length is None:
        return []
    rod, apart, long = feed.rod_diameter, feed.rod_spacing, feed.rod_length
    wide, thick = given_or(hardware.strap, STRAP)
    # The terminal hole lies over the element's axis, the rod's end behind it.
    behind = max(rod, ROD_BEHIND)
    lines: list[tuple[str, str, Bar]] = []
    straps: list[tuple[str, str, Block]] = []
    if feed.kind == "hairpin":
        z += 0.5 * (element + rod)  # the rods lie on top of the halves
        for mark, sign in (("R1", 1.0), ("R2", -1.0)):
            y = sign * 0.5 * apart
            lines.append((mark, "rod of the hairpin",
                          Bar(start=(x - way * behind, y, z),
                              end=(x + way * (long + ROD_BEYOND), y, z),
                              diameter=rod)))  # fmt: skip
        straps.append(("RS", "short of the hairpin",
                       Block(middle=(x + way * long, 0.0, z + 0.5 * rod + 0.5 * thick),
                             size=(wide, apart + max(rod, wide), thick))))  # fmt: skip
    elif feed.kind in {"gamma", "tee"}:
        sides = (1.0,) if feed.kind == "gamma" else (1.0, -1.0)
        for k, sign in enumerate(sides, start=1):
            # Beside the element on the same level, where no plate is in the way.
            lines.append((f"R{k}", f"rod of the {feed.kind}",
                          Bar(start=(x + way * apart, sign * 0.02 * long, z),
                              end=(x + way * apart, sign * (long + ROD_BEYOND), z),
                              diameter=rod)))  # fmt: skip
            over = z + 0.5 * max(rod, element) + 0.5 * thick
            straps.append((f"RS{k}", "strap to the element",
                           Block(middle=(x + way * 0.5 * apart, sign * long, over),
                                 size=(apart + max(rod, wide), wide, thick))))  # fmt: skip
    kind = TubeKind(material=base.material, diameter=rod, is_rod=True)
    # The terminal screw of the half holds the rod of a hairpin at its end.
    held = (Hole(diameter=TERMINAL_HOLE, at=(behind,), purpose="feed terminal",
                 way=TERMINAL_WAY),) if feed.kind == "hairpin" else ()  # fmt: skip
    found = [
        replace(
            base, mark=mark, name=name, solids=(bar,), mass=weighed(base.material, (bar,)),
            drag="round", cut=Cut(kind=kind, sawn=bar.length, exposed=bar.length),
            price_key=kind.name, quantity=bar.length, unit="m", holes=held,
        )
        for mark, name, bar in lines
    ]  # fmt: skip
    held_by = (rod, rod) if feed.kind == "hairpin" else (element, rod)[:: int(way)]
    found += [
        strap(replace(base, mark=mark, name=name), block, apart, held_by, hardware)
        for mark, name, block in straps
    ]
    return found


def _under_short(frame: BeamFrame, boom: BoomTube | None, rods: list[Part]) -> list[Part]:
    """Block between boom and short of a hairpin, which no rod of it touches; none over a plate."""
    short = next((part for part in rods if part.mark == "RS"), None)
    if boom is None or short is None or not isinstance(short.solids[0], Block):
        return []
    strap, rod = short.solids[0], next(part.solids[0] for part in rods if part.mark == "R1")
    x, high = strap.middle[0], strap.middle[2] - 0.5 * strap.size[2] - 0.5 * boom.diameter
    wide = min(SHORT_BLOCK[1], 2.0 * rod.middle[1] - 2.0 * SHORT_BLOCK[2])
    if high < SHORT_BLOCK[2] or wide < SHORT_BLOCK[2] or not 0.0 < x < boom.length:
        return []
    room = 0.5 * SHORT_BLOCK[0]
    if any(abs(each.position - frame.rear - x) < plate_reach(frame, each) + room
           for each in frame.order):  # fmt: skip
        return []
    block = Block(middle=(x, 0.0, 0.5 * boom.diameter + 0.5 * high),
                  size=(SHORT_BLOCK[0], wide, high))  # fmt: skip
    return [
        replace(
            short, mark="RB", name="block under the short", role="block", form="bought",
            material="polyethylene", solids=(block,), mass=weighed("polyethylene", (block,)),
            joins=("boom",), conductor=False, drag="none", holes=(), fasteners=(), price_key="",
        )
    ]  # fmt: skip


def _capacitors(
    frame: BeamFrame, boom: BoomTube | None, base: Part, rods: list[Part]
) -> list[Part]:
    """Capacitor of a gamma or of each rod of a tee, in a box at the rod's inner end."""
    feed = frame.beam.feed
    if feed.kind not in {"gamma", "tee"} or (feed.kind == "tee" and feed.capacitance is None):
        return []
    known, hardware = feed.capacitance is not None, frame.hardware
    size = given_or(hardware.capacitor_box, CAPACITOR_SIZE)
    said = whose(hardware.capacitor_mass)
    radius = 0.0 if boom is None else 0.5 * boom.diameter
    found = []
    for part in rods:
        rod = part.solids[0]
        if not part.mark.startswith("R") or part.form != "rod" or not isinstance(rod, Bar):
            continue
        x, y, z = rod.start
        side = math.copysign(1.0, rod.end[1])
        inner = side * max(abs(y), radius)
        box = Block(middle=(x, inner + side * 0.5 * size[1],
                            z - 0.5 * rod.diameter - 0.5 * size[2]),
                    size=(size[0], size[1], size[2]))  # fmt: skip
        found.append(
            replace(
                base, mark=part.mark.replace("R", "KC"), name="capacitor of the match in its box",
                role="capacitor", form="bought", material="as bought", solids=(box,),
                mass=given_or(hardware.capacitor_mass, CAPACITOR_MASS), conductor=False,
                drag="flat", price_key="capacitor in its box",
                **(said if known else {**said, "basis": "its capacitance is not given"}),
            )
        )  # fmt: skip
    return found


def _cable(frame: BeamFrame, boom: BoomTube, base: Part, x: float, line: str) -> list[Part]:
    """Feed line along the underside of the boom, from the feed to the mast."""
    size = given_or(frame.line.diameter, CABLE)
    if not line or boom.clamp is None or abs(boom.clamp - x) < size:
        return []
    z = -0.5 * boom.diameter - 0.5 * size
    run = Bar(start=(x, 0.0, z), end=(boom.clamp, 0.0, z), diameter=size)
    mass = given_or(frame.line.mass, LINE_MASS)
    return [
        replace(
            base, mark="LB", name="feed line along the boom", role="boom cable", form="cable",
            material="as bought", solids=(run,), mass=mass * run.length, group="line",
            joins=(), conductor=False, quantity=run.length, unit="m",
            **whose(frame.line.mass, frame.line.diameter),
        )
    ]  # fmt: skip


def _feed_level(beam: Beam) -> float:
    """Height of a bent element's feed over the hub: where it comes nearest to the middle [m]."""
    driven = beam.elements[beam.driven_index]
    return min((abs(y), z) for _, y, z in driven.corners)[1]


def _box(frame: BeamFrame, boom: BoomTube | None, base: Part, x: float, way: float) -> list[Part]:
    near = [each for each in (() if boom is None else boom.fittings)
            if each.place is not None and not each.stands_for and each.span == 0.0
            and abs(each.place - x) < _AT_FEED]  # fmt: skip
    hung = boom is None and frame.beam.bent  # a hub of a frame takes the place of the boom
    if near or (boom is None and not hung):
        return []
    mass = frame.hardware.box_mass
    under = _feed_level(frame.beam) - HUB_RADIUS if boom is None else -0.5 * boom.diameter
    long, wide, high = given_or(frame.hardware.box, BOX_SIZE)
    if boom is not None:  # clear of the U-bolts that hold the driven element's plate
        ahead = [way * (at - x) for at in bolts_on_boom(frame) if 0.0 < way * (at - x) < _AT_FEED]
        x += way * (min(ahead) + _BOLT_ROOM if ahead else 0.0)
    box = Block(middle=(x + way * 0.5 * long, 0.0, under - 0.5 * high), size=(long, wide, high))
    return [
        replace(
            base, mark="K", name="choke or balun box", role="box", form="bought",
            material="as bought", solids=(box,), mass=BOX_MASS if mass is None else mass,
            joins=("boom", *(("frame", "mast", "support") if hung else ()), *base.joins),
            conductor=False, drag="flat",
            price_key="choke or balun box", **whose(mass),
        )
    ]  # fmt: skip


def foot_box(frame: BeamFrame, carrier: Carrier) -> tuple[Part, ...]:
    """Choke or balun box beside the foot of an upright element: on the ground, or up at its feed.

    Args:
        carrier: the beam's own, which says where its foot stands
    """
    beam, own = frame.beam, frame.hardware
    if not beam.upright or beam.fed_with:
        return ()
    long, wide, high = given_or(own.box, BOX_SIZE)
    x, y, z = beam.elements[beam.driven_index].corners[0]
    beside = x - frame.rear - HUB_RADIUS - 0.5 * long
    # Over radials in the air it hangs as high as they are, fixed to what holds the foot.
    level = 0.5 * high - beam.height if beam.stands_on_ground else z - 0.5 * high
    box = Block(middle=(beside, y, level), size=(long, wide, high))
    part = Part(
        mark="K", name="choke or balun box", role="box", carrier=beam.name, group="feed",
        form="bought", material="as bought", solids=(box,), mass=given_or(own.box_mass, BOX_MASS),
        joins=("frame", "mast", "support", *frame.groups),
        conductor=False, drag="flat", price_key="choke or balun box", **whose(own.box_mass),
    )  # fmt: skip
    if not beam.stands_on_ground:
        return (part,)
    return (
        replace(part, mark=f"{beam.name} K", carrier=GROUND, group="earth", drag="none",
                solids=(carrier.solid_at_foot(box),), joins=("base", "anchors", "support")),
    )  # fmt: skip


def wire_parts(frame: BeamFrame) -> tuple[Part, ...]:
    """List the further wires of a beam."""
    material = frame.beam.material
    parts = []
    for number, wire in enumerate(frame.beam.wires, start=1):
        points = tuple((float(a) - frame.rear, float(b), float(c)) for a, b, c in wire.points)
        solids = bent(points, diameter=wire.diameter)
        long = sum(bar.length for bar in solids)
        parts.append(
            Part(
                mark=f"W{number}", name=wire.name, role="wire", carrier=frame.beam.name,
                group=f"wire {number}", form="rod", material=material.name, solids=solids,
                mass=material.density * sum(bar.volume for bar in solids), drag="round",
                joins=frame.groups,
                price_key=f"wire {wire.diameter * 1000.0:.2f} mm", quantity=long, unit="m",
            )
        )  # fmt: skip
    return tuple(parts)

"""Parts of the elements of one beam: tubes, joints, tips, plates, clamps, saddles, insulators.

Numbers count the elements from the rear of the boom, sections from the boom outwards; a mark ends
in ``C`` through the middle, ``L`` or ``R`` seen from the rear; parts of one run end in a, b, ...
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from itertools import takewhile
from string import ascii_lowercase

from boomwright.base.records import dataclass, replace
from boomwright.parts.beams import Beam, Element, Trap, TubeSection
from boomwright.parts.hardware import (
    PLUG_LENGTH,
    RIVET_PROUD,
    ROD_REACH,
    SADDLE,
    SCREW_PROUD,
    SHELL,
    TERMINAL,
    TERMINAL_HOLE,
    TERMINAL_PLACE,
    TERMINAL_ROOM,
    TIP_WEEP,
    Hardware,
    LineHardware,
    given_or,
    stands,
    whose,
)
from boomwright.parts.part import Cut, Fastener, Hole, Part, weighed
from boomwright.parts.plates import PLATE_PLAY, ClampPlate, clamp_plate, u_bolt
from boomwright.parts.solids import Bar, Block, Point, Solid, between
from boomwright.parts.tubes import Joints, TubeKind, part_count, part_letter

#: tubes from this size up take the larger rivet or screw [m] {common-practice-building}
_LARGE_TUBE = 0.019
#: the larger and the smaller rivet or screw, and the drill over it [m] {common-practice-building}
_RIVETS, _DRILL_OVER = (0.0048, 0.0032), 0.0001
_TRADE = "common practice"
#: how the holes of a joint, of a terminal and of a plate are drilled {common-practice-building}
JOINT, TIP_JOINT = "joint", "outermost joint, drilled after the check on stands"
_JOINT_WAY = "from above and from below in turn, both tubes at once"
TERMINAL_WAY = "upright, right through, tube and rod together"
_PLATE_WAY = "square through the plate"


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamFrame:
    """What the parts of one beam have in common."""

    beam: Beam
    rear: float  #: rear end of the boom on the beam's x axis; here x is 0 [m]
    boom_diameter: float | None  #: None while the plan does not give the boom [m]
    hardware: Hardware
    joints: Joints
    longest_stock: float  #: longest tube that can be bought [m]
    line: LineHardware  #: the line that runs along the boom

    @property
    def order(self) -> tuple[Element, ...]:
        """Elements from the rear to the front."""
        return tuple(sorted(self.beam.elements, key=lambda each: each.position))

    @property
    def numbered(self) -> list[tuple[int, Element, str]]:
        """The same with their numbers, from 1, and their labels."""
        labels = dict(zip(map(id, self.beam.elements), self.beam.element_labels, strict=True))
        return [(n, each, labels[id(each)]) for n, each in enumerate(self.order, start=1)]

    @property
    def groups(self) -> tuple[str, ...]:
        """Groups of all elements, from the rear to the front (n_elements,)."""
        return tuple(element_group(number) for number, _ in enumerate(self.order, start=1))


def element_height(element: Element, *, boom_diameter: float | None) -> float:
    """Axis of an element above that of its boom; 0 for one through it, or without it [m].

    Args:
        boom_diameter: diameter of the boom; None while the plan does not give one [m]
    """
    mount = element.mount
    if mount is not None and not mount.above and mount.kind != "non-conducting boom":
        return 0.0
    boom = mount.boom[0] if mount is not None and mount.boom else boom_diameter
    if boom is None:
        return 0.0
    radius = 0.5 * element.half[0].diameter
    return 0.5 * boom + _clearance(element, boom) + radius


def _clearance(element: Element, boom: float) -> float:
    """Between boom and element; where it is not said a plate and a saddle of half a diameter."""
    mount = element.mount
    if mount is not None and mount.clearance is not None:
        return mount.clearance
    return _plate_thickness(element, boom) + 0.5 * element.half[0].diameter


def plate_reach(frame: BeamFrame, element: Element) -> float:
    """Half of the plate of an element along the boom; 0 without a boom that it sits on [m]."""
    boom, mount = frame.boom_diameter, element.mount
    if boom is None or element.bent or (mount is not None and mount.kind.endswith("through")):
        return 0.0
    given = (() if mount is None else mount.plate) or frame.hardware.element_plate
    return 0.5 * (given[1] if given else _layout(element, boom).height / 1000.0)


def _plate_thickness(element: Element, boom: float) -> float:
    mount = element.mount
    if mount is not None and len(mount.plate) > 2:
        return mount.plate[2]
    usual = _layout(element, boom).thickness / 1000.0
    given = None if mount is None else mount.clearance
    return usual if given is None else min(usual, given)


def _layout(
    element: Element, boom: float, *, shell: float = 0.0, thread: float | None = None,
    keep_clear: tuple[float, float] | None = None,
) -> ClampPlate:  # fmt: skip
    return clamp_plate(
        name="element plate", level="element",
        level_diameter=element.half[0].diameter + 2.0 * shell, upright="boom",
        upright_diameter=boom, thread=thread, keep_clear=keep_clear,
    )  # fmt: skip


def _insulated(frame: BeamFrame, element: Element) -> bool:
    mount = element.mount
    return is_cut(frame.beam, element) or mount is None or not mount.bonded


def _drilled(frame: BeamFrame, element: Element, boom: float) -> tuple[ClampPlate, float]:
    """Pattern of an element's plate, and thickness of the shell under its U-bolts [m]."""
    shell = min(
        given_or(frame.hardware.shell, SHELL),
        max(0.0, _clearance(element, boom) - _plate_thickness(element, boom)),
    )
    shell = shell if _insulated(frame, element) else 0.0
    layout = _layout(element, boom, shell=shell, thread=frame.hardware.u_bolt,
                     keep_clear=_beside_terminals(frame, element))  # fmt: skip
    return layout, shell


def _past_saddles(frame: BeamFrame, element: Element, boom: float) -> float:
    """Outer end of the saddles under an element, from its middle [m]."""
    held = _drilled(frame, element, boom)[0].level_holes[0] / 1e3
    return held + 0.5 * given_or(frame.hardware.saddle, SADDLE)


def passes_through(element: Element) -> bool:
    """Whether an element passes through its boom, not over it."""
    return element.mount is not None and element.mount.kind.endswith("through")


def hole_through(element: Element) -> float:
    """Hole in the boom for an element: its own, or with a bushing as thick as a shell [m]."""
    mount, tube = element.mount, element.half[0].diameter
    if mount is None or mount.bonded:
        return tube
    return tube + 2.0 * SHELL if mount.hole is None else mount.hole


def _on_plate(element: Element) -> bool:
    return not element.bent and not passes_through(element)


def bolts_on_boom(frame: BeamFrame) -> tuple[float, ...]:
    """Places of the U-bolts that hold element plates to the boom, from its rear end [m]."""
    boom, found = frame.boom_diameter, list[float]()
    for element in frame.order:
        if boom is not None and _on_plate(element):
            along = _drilled(frame, element, boom)[0].upright_holes[1] / 1e3
            found += [element.position - frame.rear + sign * along for sign in (-1.0, 1.0)]
    return tuple(found)


def _beside_terminals(frame: BeamFrame, element: Element) -> tuple[float, float] | None:
    """Where saddle and shell of a U-bolt would leave no room for a terminal's nut and spanner.

    Plates for the same tube are drilled by one pattern, so the others keep that room too.
    """
    tube = element.half[0].diameter
    cut = (each for each in frame.order if is_cut(frame.beam, each) and not each.bent)
    if all(each.half[0].diameter != tube for each in cut):
        return None
    at = terminal_place(frame.beam)
    room = 0.5 * given_or(frame.hardware.saddle, SADDLE) + TERMINAL_ROOM
    return at - room, at + room


def is_cut(beam: Beam, element: Element) -> bool:
    """Whether an element is in two halves for its feed."""
    return element.role == "driven" and beam.feed.cuts_element


def element_group(number: int) -> str:
    """Group of the tubes of one element, counted from the rear."""
    return f"element {number}"


def mount_group(number: int) -> str:
    """Group of what holds one element on the boom, counted from the rear."""
    return f"mount {number}"


def left_tubes(parts: Iterable[Part]) -> dict[str, list[Part]]:
    """Tubes of the left half of each element, from the boom outwards; the right half is alike.

    Returns:
        tubes by the group of their element, one through the middle among them
    """
    found: dict[str, list[Part]] = {}
    for part in parts:
        if part.role == "element tube" and part.mark.rstrip(ascii_lowercase)[-1] in "LC":
            found.setdefault(part.group, []).append(part)
    return found


def element_parts(frame: BeamFrame) -> tuple[Part, ...]:
    """List every part of every straight element, as placed from the rear end of the boom."""
    return tuple(
        part
        for number, element, label in frame.numbered
        if not element.bent
        for listed in (_tubes, _traps, _tips, _mounting)
        for part in listed(frame, element, number, label)
    )


def _place(frame: BeamFrame, element: Element) -> tuple[float, float]:
    height = element_height(element, boom_diameter=frame.boom_diameter)
    return element.position - frame.rear, height


def _tubes(frame: BeamFrame, element: Element, number: int, label: str) -> list[Part]:
    parts: list[Part] = []
    reached = 0.0
    for index, section in enumerate(element.half, start=1):
        outer = reached + section.length
        slid_in = 0.0 if index == 1 else frame.joints.overlap(section.diameter)
        inner = reached - slid_in
        name = f"{label}, {'inner tube' if index == 1 else f'section {index}'}"
        ends = {"L": (inner, outer), "R": (-inner, -outer)}
        if index == 1 and is_cut(frame.beam, element):
            half = 0.5 * frame.beam.feed.gap
            ends = {"L": (half, outer), "R": (-half, -outer)}
        elif index == 1 and 2.0 * _first_size(element) <= frame.longest_stock:
            ends = {"C": (-outer, outer)}
            name = f"{label}, centre tube"
        following = element.half[index] if index < len(element.half) else None
        for side, (near, far) in ends.items():
            outside = element.half[index - 2].wall if slid_in else 0.0
            run = _run(frame, element, section, (near, far), slid_in, outside)
            holes = _joint_holes(frame, section, following, abs(far - near), slid_in,
                                 both=side == "C", beyond=len(element.half) - index)  # fmt: skip
            if index == 1 and is_cut(frame.beam, element):
                terminal = _terminal_hole(terminal_place(frame.beam) - abs(near))
                holes = (replace(terminal, proud=stands(SCREW_PROUD, TERMINAL)), *holes)
                screw = _terminal_screw(frame, section)
                run = replace(run, fasteners=(*run.fasteners, screw, RING_TERMINAL))
            if 1 < index == len(element.half):
                # A clamp holds the outermost joint until the check on stands.
                held = hose_clamp(element.half[index - 2].diameter)
                run = replace(run, fasteners=(*run.fasteners, held))
            run = replace(run, mark=f"{number}.{index}{side}", name=name,
                          group=element_group(number), holes=holes)  # fmt: skip
            for piece in _between_traps(run, element):
                parts += _in_stock(frame, piece, section)
        reached = outer
    return parts


def _first_size(element: Element) -> float:
    """How far out the tube at the boom reaches: inside it another one may end before [m]."""
    first = element.half[0].diameter
    return sum(each.length for each in takewhile(lambda e: e.diameter == first, element.half))


def _between_traps(run: Part, element: Element) -> list[Part]:
    """Part a tube where traps sit in it; the piece towards the boom keeps its mark and overlap."""
    (solid,) = run.solids
    cut = run.cut
    if cut is None or not isinstance(solid, Bar):
        return [run]
    start, end = solid.start[1], solid.end[1]
    way = 1.0 if end > start else -1.0
    gaps = [
        (way * (sign * trap.place - start), trap.width)
        for trap in element.traps
        for sign in (-1.0, 1.0)
        if min(start, end) < sign * trap.place < max(start, end)
    ]
    if not gaps:
        return [run]
    sides = [side for at, width in sorted(gaps) for side in (at - 0.5 * width, at + 0.5 * width)]
    pieces, number = [], Counter[str]()
    edges = (0.0, *sides, solid.length)
    for near, far in zip(edges[::2], edges[1::2], strict=True):
        ends = start + way * near, start + way * far
        side = "C" if ends[0] * ends[1] < 0.0 else "L" if sum(ends) > 0.0 else "R"
        # Seen from the boom: what lies beyond a trap goes on in letters of its own.
        beyond = side != run.mark[-1] or (near > 0.0 and side != "C")
        number[side] += beyond
        letter = ascii_lowercase[12 + number[side]] if beyond else ""
        x, _, z = solid.start
        bar = replace(solid, start=(x, ends[0], z), end=(x, ends[1], z))
        hidden = cut.overlap if near == 0.0 else 0.0
        pieces.append(
            replace(
                run,
                mark=f"{run.mark[:-1]}{side}{letter}",
                name=f"{run.name}, beyond the trap" if beyond else run.name,
                solids=(bar,),
                mass=None if run.mass is None else run.mass * bar.length / solid.length,
                quantity=bar.length,
                cut=replace(cut, sawn=bar.length, exposed=bar.length - hidden, overlap=hidden),
                fasteners=run.fasteners if near == 0.0 else (),
                holes=_holes_of_piece(run.holes, near, bar.length),
            )
        )
    return sorted(pieces, key=lambda each: abs(sum(bar.middle[1] for bar in each.solids)))


def _traps(frame: BeamFrame, element: Element, number: int, label: str) -> list[Part]:
    x, z = _place(frame, element)
    parts = []
    for count, trap in enumerate(element.traps, start=1):
        for side, sign in (("L", 1.0), ("R", -1.0)):
            near, far = (sign * (trap.place + way * trap.long) for way in (-0.5, 0.5))
            parts.append(
                trap_part(
                    frame, trap, mark=f"{number}.W{count}{side}", name=f"{label}, trap {count}",
                    number=number, ends=((x, near, z), (x, far, z)),
                )
            )  # fmt: skip
    return parts


def hose_clamp(over: float) -> Fastener:
    """Clamp over the mouth of a tube that another slides into {common-practice-building}.

    Args:
        over: outer diameter of that tube [m]
    """
    return Fastener(name=f"hose clamp, stainless, over {1e3 * over:g} mm", count=1,
                    how="hose clamp, stainless, over", size=over)  # fmt: skip


def trap_part(
    frame: BeamFrame, trap: Trap, *, mark: str, name: str, number: int, ends: tuple[Point, Point]
) -> Part:
    """A trap in its place.

    Args:
        number: of its element, counted from the rear
        ends: of its body [m]
    """
    said = trap.mass is not None and trap.diameter is not None
    return Part(
        mark=mark, name=name, role="trap", carrier=frame.beam.name, group=element_group(number),
        form="bought", material="glass fibre",
        solids=(Bar(start=ends[0], end=ends[1], diameter=trap.wide),), mass=trap.weighs,
        conductor=False, drag="round", price_key=f"trap for {trap.resonance / 1e6:.2f} MHz",
        known="plan" if said else "assumed", basis="" if said else _TRADE,
    )  # fmt: skip


#: what holds lead, and rod where there is one, to one half of a cut element; what ends its lead
TERMINAL_SCREW = Fastener(name=f"terminal screw {1e3 * TERMINAL:g} mm, stainless", count=1,
                          how="terminal screw, stainless, with washers and lock nut,",
                          size=TERMINAL)  # fmt: skip
RING_TERMINAL = Fastener(name=f"ring terminal {1e3 * TERMINAL:g} mm, tinned copper", count=1,
                         how="ring terminal, tinned copper, for a screw of",
                         size=TERMINAL)  # fmt: skip


def _terminal_screw(frame: BeamFrame, section: TubeSection) -> Fastener:
    """Screw of one half: through its tube, and the rod of a hairpin on top of it."""
    feed = frame.beam.feed
    rod = (feed.rod_diameter or 0.0) if feed.kind == "hairpin" else 0.0
    return replace(TERMINAL_SCREW, grip=section.diameter + rod)


def terminal_place(beam: Beam) -> float:
    """Place of a feed terminal from the middle of a cut element: where a match's rod sits [m]."""
    half = 0.5 * beam.feed.gap
    rods = beam.feed.rod_spacing if beam.feed.kind == "hairpin" else None
    return max(half + 0.5 * TERMINAL_PLACE, half + TERMINAL_PLACE if rods is None else 0.5 * rods)


def _terminal_hole(*at: float) -> Hole:
    return Hole(diameter=TERMINAL_HOLE, at=at, purpose="feed terminal", way=TERMINAL_WAY)


def _run(
    frame: BeamFrame,
    element: Element,
    section: TubeSection,
    ends: tuple[float, float],
    slid_in: float,
    outside: float,
) -> Part:
    """One tube between two places along the element, before it is parted for the stock.

    Args:
        outside: wall of the tube that it slides into; 0 when unknown [m]
    """
    x, z = _place(frame, element)
    bore = max(0.0, section.diameter - 2.0 * section.wall) if section.wall > 0.0 else 0.0
    solid = Bar(start=(x, ends[0], z), end=(x, ends[1], z), diameter=section.diameter, bore=bore)
    metal = frame.beam.material.name
    kind = TubeKind(material=metal, diameter=section.diameter, wall=section.wall)
    mount = element.mount
    return Part(
        mark="",
        name="",
        role="element tube",
        carrier=frame.beam.name,
        group="",
        form="tube",
        material=metal,
        solids=(solid,),
        mass=frame.beam.material.density * solid.volume if section.wall > 0.0 else None,
        joins=("boom",) if mount is not None and mount.kind.endswith("through") else (),
        bonded=mount is not None and mount.bonded,
        drag="round",
        cut=Cut(kind=kind, sawn=solid.length, exposed=solid.length - slid_in, overlap=slid_in),
        fasteners=()
        if slid_in == 0.0
        else (_joint_fastener(section, 2, outside),),
        price_key=kind.name,
        quantity=solid.length,
        unit="m",
        known="plan" if section.wall > 0.0 else "unknown",
        basis="" if section.wall > 0.0 else "the wall is not given",
    )  # fmt: skip


def _rivet(diameter: float) -> float:
    return _RIVETS[0] if diameter >= _LARGE_TUBE else _RIVETS[1]


def _joint_fastener(section: TubeSection, count: int, other: float) -> Fastener:
    """Rivets through one wall of a tube and the other's; without a grip where a wall is unknown."""
    size = _rivet(section.diameter)
    grip = section.wall + other if min(section.wall, other) > 0.0 else 0.0
    return Fastener(name=f"rivet or screw {1e3 * size:.1f} mm", count=count, how="rivet or screw",
                    size=size, grip=grip)  # fmt: skip


def _joint_holes(
    frame: BeamFrame,
    section: TubeSection,
    following: TubeSection | None,
    long: float,
    slid_in: float,
    *,
    both: bool,
    beyond: int,
) -> tuple[Hole, ...]:
    """Holes at a quarter and three quarters of each overlap, through both walls.

    Args:
        beyond: how many sections follow
    """
    holes = []
    if slid_in > 0.0:
        holes.append(Hole(diameter=_rivet(section.diameter) + _DRILL_OVER,
                          at=(0.25 * slid_in, 0.75 * slid_in),
                          purpose=TIP_JOINT if beyond == 0 else JOINT, way=_JOINT_WAY))  # fmt: skip
    if following is not None:
        deep = frame.joints.overlap(following.diameter)
        near_end = (long - 0.75 * deep, long - 0.25 * deep)
        at = (0.25 * deep, 0.75 * deep, *near_end) if both else near_end
        holes.append(
            Hole(
                diameter=_rivet(following.diameter) + _DRILL_OVER,
                at=at,
                purpose=TIP_JOINT if beyond == 1 else JOINT,
                way=_JOINT_WAY,
                proud=stands(RIVET_PROUD, _rivet(following.diameter)),
            )
        )
    return tuple(holes)


def _in_stock(frame: BeamFrame, run: Part, section: TubeSection) -> list[Part]:
    """Part a run that is longer than the stock into equal pieces, with sleeves between them."""
    (solid,) = run.solids
    cut = run.cut
    if cut is None or not isinstance(solid, Bar):
        return [run]
    count = part_count(solid.length, longest_stock=frame.longest_stock)
    sleeves = []
    joined = [k / count for k in range(1, count)]
    number = int(run.group.rsplit(" ", 1)[1])
    element = frame.order[number - 1]
    halved = run.mark.endswith((".1L", ".1R")) and not is_cut(frame.beam, element)
    at_boom = halved and run.mark.endswith("L")
    for k, share in enumerate([0.0, *joined] if at_boom else joined, start=1):
        steps = _sleeve_steps(frame, element, section, share)
        sleeves.append(_sleeve(frame, run, section, solid, share, k, steps))
    at = _sleeve_holes(frame, element, section, solid, joined, from_boom=halved)
    if at:
        drilled = Hole(diameter=_rivet(section.diameter) + _DRILL_OVER, at=at, purpose="sleeve",
                       way=_JOINT_WAY,
                       proud=stands(RIVET_PROUD, _rivet(section.diameter)))  # fmt: skip
        run = replace(run, holes=(*run.holes, drilled))
    if count == 1:
        return [run, *sleeves]
    pieces = []
    for k in range(count):
        low, high = (between(solid.start, solid.end, each / count) for each in (k, k + 1))
        part = replace(solid, start=low if k else solid.start,
                       end=high if k < count - 1 else solid.end)  # fmt: skip
        hidden = cut.overlap if k == 0 else 0.0
        pieces.append(
            replace(
                run,
                mark=run.mark + part_letter(k),
                name=f"{run.name}, part {k + 1} of {count}",
                solids=(part,),
                mass=None if run.mass is None else run.mass / count,
                quantity=part.length,
                cut=replace(cut, sawn=part.length, exposed=part.length - hidden, overlap=hidden),
                fasteners=run.fasteners if k == 0 else (),
                holes=_holes_of_piece(run.holes, k * part.length, part.length),
            )
        )  # fmt: skip
    return [*pieces, *sleeves]


def _sleeve_holes(
    frame: BeamFrame, element: Element, section: TubeSection, run: Bar, joined: list[float],
    *, from_boom: bool,
) -> tuple[float, ...]:  # fmt: skip
    """Holes of a run over the sleeves inside it, from its inner end [m]."""
    at = list(_sleeve_steps(frame, element, section, 0.0)) if from_boom else []
    for share in joined:
        steps = _sleeve_steps(frame, element, section, share)
        at += [share * run.length + sign * step for sign in (-1.0, 1.0) for step in steps]
    return tuple(sorted(at))


def _holes_of_piece(holes: tuple[Hole, ...], start: float, long: float) -> tuple[Hole, ...]:
    kept = []
    for hole in holes:
        at = tuple(place - start for place in hole.at if start <= place < start + long)
        if at:
            kept.append(replace(hole, at=at))
    return tuple(kept)


def _sleeve_steps(
    frame: BeamFrame, element: Element, section: TubeSection, share: float
) -> tuple[float, float]:
    """Rivets of one side of a sleeve, from the joint: those over the boom pass the saddles [m].

    Args:
        share: place of the joint on its run, 0 at the boom
    """
    reach, boom, past = frame.joints.overlap(section.diameter), frame.boom_diameter, 0.0
    if share == 0.0 and boom is not None and _on_plate(element):
        past = _past_saddles(frame, element, boom)
    return (past + 0.25 * reach, past + 0.75 * reach)


def _sleeve(
    frame: BeamFrame, run: Part, section: TubeSection, solid: Bar, share: float, number: int,
    steps: tuple[float, float],
) -> Part:  # fmt: skip
    """A tube inside the joint of two tubes of one size, as thick as they are where not given."""
    reach = 1.5 * steps[1] - 0.5 * steps[0]
    outer = max(section.diameter - 2.0 * section.wall, 0.5 * section.diameter)
    given = frame.hardware.element_sleeve
    bore = max(0.0, outer - 2.0 * (given or section.wall or 0.1 * section.diameter))
    x, y, z = between(solid.start, solid.end, share)
    bar = Bar(start=(x, y - reach, z), end=(x, y + reach, z), diameter=outer, bore=bore)
    kind = TubeKind(material=run.material, diameter=outer, wall=0.5 * (outer - bore))
    return Part(
        mark=f"{run.mark[:-1]}S{run.mark[-1]}{number}",
        name=f"{run.name}, sleeve",
        role="sleeve",
        carrier=run.carrier,
        group=run.group,
        form="tube",
        material=run.material,
        solids=(bar,),
        mass=weighed(run.material, (bar,)) if section.wall > 0.0 else None,
        cut=Cut(kind=kind, sawn=2.0 * reach, exposed=0.0, overlap=2.0 * reach),
        holes=(Hole(diameter=_rivet(section.diameter) + _DRILL_OVER, purpose="sleeve",
                    at=tuple(sorted(reach + sign * step for sign in (-1.0, 1.0)
                                    for step in steps)),
                    way=_JOINT_WAY),),
        fasteners=(_joint_fastener(section, 4, 0.5 * (outer - bore)),),
        price_key=kind.name, quantity=2.0 * reach, unit="m",
        **whose(given) if section.wall > 0.0
        else {"known": "unknown", "basis": "the wall is not given"},
    )  # fmt: skip


def _tips(frame: BeamFrame, element: Element, number: int, label: str) -> list[Part]:
    x, z = _place(frame, element)
    last, tip = element.half[-1], element.half_length
    if last.wall == 0.0 or last.diameter <= 2.0 * last.wall:
        return []
    parts, plug = [], given_or(frame.hardware.tip_plug, PLUG_LENGTH)
    for side, sign in (("L", 1.0), ("R", -1.0)):
        bar = Bar(start=(x, sign * (tip - plug), z), end=(x, sign * tip, z),
                  diameter=last.diameter - 2.0 * last.wall)  # fmt: skip
        parts.append(
            Part(
                mark=f"{number}.T{side}", name=f"{label}, tip plug", role="tip",
                carrier=frame.beam.name, group=element_group(number), form="bought",
                material="polyethylene", solids=(bar,), mass=weighed("polyethylene", (bar,)),
                conductor=False, price_key="tip plug", **whose(frame.hardware.tip_plug),
                # Its tube is trimmed first.
                holes=(Hole(diameter=TIP_WEEP, at=(-2.0 * TIP_WEEP,), purpose="weep hole",
                            way="in the tube beside the plug, lower side only, after the check on "
                            "stands"),),
            )
        )  # fmt: skip
    return parts


def _mounting(frame: BeamFrame, element: Element, number: int, label: str) -> list[Part]:
    boom = frame.boom_diameter
    parts: list[Part] = []
    if is_cut(frame.beam, element):
        parts += _insulating_rod(frame, element, number, label)
    if boom is None:
        return parts
    if not _on_plate(element):
        return [*parts, *_bushings(frame, element, number, label, boom)]
    return [*parts, *_plate_set(frame, element, number, label, boom)]


def _bushings(
    frame: BeamFrame, element: Element, number: int, label: str, boom: float
) -> list[Part]:
    """Insulator in the boom round an element through it, with a clamp to either side."""
    mount, tube = element.mount, element.half[0].diameter
    if mount is None or mount.bonded or hole_through(element) <= tube:
        return []
    x, z = _place(frame, element)
    reach = 0.5 * boom + SHELL
    bar = Bar(start=(x, -reach, z), end=(x, reach, z), diameter=hole_through(element), bore=tube)
    return [
        Part(
            mark=f"{number}.G", name=f"{label}, bushing in the boom", role="shell",
            carrier=frame.beam.name, group=mount_group(number), form="bought",
            material="polyamide", solids=(bar,), mass=weighed("polyamide", (bar,)),
            joins=("boom", element_group(number)), conductor=False,
            fasteners=(replace(hose_clamp(tube), count=2),), price_key="bushing in the boom",
            **whose(mount.hole),
        )
    ]  # fmt: skip


def _insulating_rod(frame: BeamFrame, element: Element, number: int, label: str) -> list[Part]:
    """Rod that fits the bore of both halves and keeps their gap."""
    first, gap = element.half[0], frame.beam.feed.gap
    x, z = _place(frame, element)
    size = first.diameter - 2.0 * first.wall if first.wall > 0.0 else 0.0
    given = frame.hardware.insulating_rod
    # Where the U-bolts squeeze the tube, the rod is inside it.
    boom, past = frame.boom_diameter, 0.0
    if boom is not None and _on_plate(element):
        past = _past_saddles(frame, element, boom)
    reach = max(0.5 * gap + ROD_REACH * size, past) if given is None else 0.5 * given
    if given is None:  # its middle, and so its holes, on whole millimetres
        reach = 1e-3 * math.ceil(1e3 * reach - 1e-6)
    reach = min(reach, first.length)
    bar = Bar(start=(x, -reach, z), end=(x, reach, z), diameter=size)
    known = size > 0.0
    kind = TubeKind(material="glass fibre", diameter=size, is_rod=True)
    return [
        Part(
            mark=f"{number}.I", name=f"{label}, insulating rod", role="insulator",
            carrier=frame.beam.name, group=element_group(number), form="rod",
            material="glass fibre", solids=(bar,) if known else (),
            mass=weighed("glass fibre", (bar,)) if known else None, conductor=False,
            cut=Cut(kind=kind, sawn=2.0 * reach, exposed=gap, overlap=2.0 * reach - gap)
            if known else None,
            holes=(_terminal_hole(reach - terminal_place(frame.beam),
                                  reach + terminal_place(frame.beam)),) if known else (),
            price_key=kind.name if known else "insulating rod",
            quantity=2.0 * reach if known else 1.0,
            unit="m" if known else "each",
            **(whose(given) if known else
               {"known": "unknown", "basis": "the wall of its tube is not given"}),
        )
    ]  # fmt: skip


def _plate_set(
    frame: BeamFrame, element: Element, number: int, label: str, boom: float
) -> list[Part]:
    """Plate on the boom, two U-bolts round the boom, two round the element on their saddles."""
    x, z = _place(frame, element)
    mount, radius = element.mount, 0.5 * element.half[0].diameter
    insulated = _insulated(frame, element)
    layout, shell = _drilled(frame, element, boom)
    thick = _plate_thickness(element, boom)
    wide, long = layout.width / 1000.0, layout.height / 1000.0
    given: tuple[float, ...] = () if mount is None else mount.plate
    if not given and frame.hardware.element_plate:
        given = frame.hardware.element_plate
        thick = min(frame.hardware.element_plate[2], z - radius - 0.5 * boom)
    if given:
        wide, long = given[0], given[1]
    plate = Block(middle=(x, 0.0, 0.5 * (boom + thick)), size=(long, wide, thick))
    base = Part(
        mark="", name=label, role="", carrier=frame.beam.name, group=mount_group(number),
        form="rod", material="stainless steel", joins=("boom", element_group(number)),
        known="assumed", basis=_TRADE,
    )  # fmt: skip
    metal = "6061-T6"
    parts = [
        replace(
            base, mark=f"{number}.P", name=f"{label}, element plate", role="element plate",
            form="plate", material=metal, solids=(plate,), mass=weighed(metal, (plate,)),
            bonded=not insulated, drag="flat", holes=plate_holes(layout),
            price_key="element bracket with clamps", known="plan" if given else "assumed",
            basis="" if given else _TRADE,
        )
    ]  # fmt: skip
    clamped = frame.hardware.boom_clamp or boom
    bolts = _bolts(layout, (x, z), boom=boom, clamped=clamped, thick=thick,
                   element=2.0 * (radius + shell))  # fmt: skip
    for mark, what, solids in bolts:
        parts.append(
            replace(
                base, mark=f"{number}.{mark}", name=f"{label}, U-bolt round the {what}",
                role="U-bolt", solids=solids, mass=weighed("stainless steel", solids),
                bonded=what == "boom" or not insulated, **whose(frame.hardware.u_bolt),
                # Not joined to what it closes round: a clamp of another size runs into its tube.
                joins=(), fasteners=(u_bolt_nuts(solids),),
            )
        )  # fmt: skip
    parts += _shells(layout, (x, z), radius, shell, frame.hardware, base)
    return [
        *parts,
        *_saddles(layout, (x, z), plate, radius + shell, frame.hardware, base, insulated),
    ]


def u_bolt_nuts(solids: tuple[Solid, ...]) -> Fastener:
    """Nuts and washers of one U-bolt."""
    size = max((each.diameter for each in solids if isinstance(each, Bar)), default=0.0)
    return Fastener(name="nut and washer, stainless", count=2,
                    how="lock nut with washer, stainless,", size=size)  # fmt: skip


def _shells(
    layout: ClampPlate, place: tuple[float, float], radius: float, shell: float,
    hardware: Hardware, base: Part,
) -> list[Part]:  # fmt: skip
    """Insulating shells round the element under its U-bolts, so that no bolt touches it."""
    if shell < 1e-4:
        return []
    (x, z), number = place, base.group.rsplit(" ", 1)[1]
    parts, long = [], given_or(hardware.saddle, SADDLE)
    for index, sign in enumerate((1.0, -1.0), start=1):
        y = sign * layout.level_holes[0] / 1e3
        bar = Bar(start=(x, y - 0.5 * long, z), end=(x, y + 0.5 * long, z),
                  diameter=2.0 * (radius + shell), bore=2.0 * radius)  # fmt: skip
        parts.append(
            replace(
                base, mark=f"{number}.J{index}", name=f"{base.name}, insulating shell",
                role="shell", form="bought", material="polyamide", solids=(bar,),
                mass=weighed("polyamide", (bar,)), conductor=False,
                **whose(hardware.shell, hardware.saddle),
            )
        )  # fmt: skip
    return parts


def plate_holes(layout: ClampPlate) -> tuple[Hole, ...]:
    """Holes of a clamp plate, from its middle."""
    (ax, ay), (bx, by) = layout.level_holes, layout.upright_holes
    return (
        Hole(diameter=layout.level_bolt / 1e3 + PLATE_PLAY, at=(-ax / 1e3, ax / 1e3),
             across=ay / 1e3, purpose=f"U-bolts round the {layout.level_tube}",
             way=_PLATE_WAY),
        Hole(diameter=layout.upright_bolt / 1e3 + PLATE_PLAY, at=(-bx / 1e3, bx / 1e3),
             across=by / 1e3, purpose=f"U-bolts round the {layout.upright_tube}",
             way=_PLATE_WAY),
    )  # fmt: skip


def _bolts(
    layout: ClampPlate, place: tuple[float, float], *, boom: float, clamped: float, thick: float,
    element: float,
) -> list[tuple[str, str, tuple[Solid, ...]]]:  # fmt: skip
    x, z = place
    side, along = layout.level_holes[0] / 1e3, layout.upright_holes[1] / 1e3
    found: list[tuple[str, str, tuple[Solid, ...]]] = []
    for number, sign in enumerate((1.0, -1.0), start=1):
        found.append(
            (f"U{number}", "element",
             u_bolt(middle=(x, sign * side, z), along=(0.0, 1.0, 0.0), away=(0.0, 0.0, -1.0),
                    reach=z - 0.5 * boom, diameter=element, thread=layout.level_bolt / 1e3))
        )  # fmt: skip
    for number, sign in enumerate((-1.0, 1.0), start=1):
        found.append(
            (f"V{number}", "boom",
             u_bolt(middle=(x + sign * along, 0.0, 0.0), along=(1.0, 0.0, 0.0),
                    away=(0.0, 0.0, 1.0), reach=0.5 * boom + thick, diameter=clamped,
                    thread=layout.upright_bolt / 1e3))
        )  # fmt: skip
    return found


def _saddles(
    layout: ClampPlate, place: tuple[float, float], plate: Block, radius: float,
    hardware: Hardware, base: Part, insulated: bool,
) -> list[Part]:  # fmt: skip
    x, z = place
    top = plate.middle[2] + 0.5 * plate.size[2]
    high = z - radius - top
    if high < 1e-4:
        return []
    material = "polyamide" if insulated else "6061-T6"
    number = base.group.rsplit(" ", 1)[1]
    parts, along = [], given_or(hardware.saddle, SADDLE)
    for index, sign in enumerate((1.0, -1.0), start=1):
        block = Block(middle=(x, sign * layout.level_holes[0] / 1e3, top + 0.5 * high),
                      size=(2.0 * radius, along, high))  # fmt: skip
        parts.append(
            replace(
                base, mark=f"{number}.S{index}", name=f"{base.name}, saddle", role="saddle",
                form="bought", material=material, solids=(block,),
                mass=weighed(material, (block,)), conductor=not insulated, bonded=not insulated,
                **whose(hardware.saddle),
            )
        )  # fmt: skip
    return parts

"""Parts of wire on a frame: wire cut from the roll, insulators, cords, ropes, spreaders, hub.

Wire is cut longer than it shows by what a knot or crimp takes at each end
{common-practice-wire-ends}; where it runs over a corner it carries a mark.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from string import ascii_lowercase

from boomwright.parts.assembly import Carrier
from boomwright.parts.beams import Beam, Element, Frame, FramePoint, Radials, TubeSection
from boomwright.parts.element_parts import BeamFrame, element_group, hose_clamp, is_cut, trap_part
from boomwright.parts.hardware import (
    CORD,
    CORD_DENSITY,
    HUB_RADIUS,
    INSULATOR,
    INSULATOR_MASS,
    RADIAL_DEPTH,
    given_or,
    whose,
)
from boomwright.parts.part import Cut, Fastener, Part
from boomwright.parts.solids import Bar, Block, Point, bent, between
from boomwright.parts.support_parts import GROUND
from boomwright.parts.tubes import TubeKind

#: wire that a knot or crimp takes at each end {common-practice-wire-ends} [m]
KNOT = 0.15
#: hub of spreaders: half of its height [m]
_HUB_HALF = 0.02
_SPREADER = "glass fibre"
_TRADE = "common practice"
#: of fibreglass where the plan does not say {common-practice-hardware} [kg/m^3]
_DENSITY = 1900.0
#: group of all that holds the wires
_GROUP = "frame"

#: what joins the halves of a cut wire, or the foot of an upright one, to its line; what wire runs
#: through at the end of a spreader {common-practice-building}
_FEED_BLOCK = Fastener(name="feed block with eyes and terminals", count=1)
_LOOP = Fastener(name="wire loop at the end of a spreader", count=1)


def frame_parts(frame: BeamFrame) -> tuple[Part, ...]:
    """List wire with corners and what holds it, as placed from the rear end of the boom."""
    beam = frame.beam
    found = [*_phasing_lines(frame), *_post_line(beam)]
    if not beam.bent:
        return tuple(found)
    for number, element, label in frame.numbered:
        if element.bent:
            found += _wires(frame, element, number, label)
    found += _radials(frame)
    found += _cords(frame)
    if beam.frame is not None:
        found += _poles(frame, beam.frame)
    return tuple(found)


def _phasing_lines(frame: BeamFrame) -> list[Part]:
    """Lines from several driven elements to where they are fed."""
    return [
        Part(
            mark=f"{number}.P", name=f"{label}, phasing line", role="phasing line",
            carrier=frame.beam.name, group=element_group(number), form="bought",
            material="as bought", mass=0.0, known="assumed",
            basis="its maker knows its weight, and something else carries it",
            price_key=f"coaxial line {element.phasing_line.impedance:g} ohm",
            quantity=element.phasing_line.length, unit="m",
        )
        for number, element, label in frame.numbered
        if element.phasing_line is not None
    ]  # fmt: skip


def _post_line(beam: Beam) -> list[Part]:
    """The piece of a line along a post that ends at the feed of a beam."""
    line = beam.post_line
    if line is None:
        return []
    below = [
        other.post_line.length
        for other in beam.neighbours
        if other.post_line is not None
        and other.shares_feed(beam)
        and other.post_line.length < line.length
    ]
    key = f"coaxial line {line.impedance:g} ohm" if line.impedance else ""
    key = key or f"wire {line.wire * 1000.0:.2f} mm"
    return [
        Part(
            mark="PL", name="line along the post", role="phasing line", carrier=beam.name,
            group="feed", form="bought", material="as bought", mass=0.0, known="assumed",
            basis="its maker knows its weight, and something else carries it", price_key=key,
            quantity=(line.length - max(below, default=0.0)) * (1.0 if line.impedance else 2.0),
            unit="m",
        )
    ]  # fmt: skip


def corner_marks(element: Element) -> tuple[tuple[str, float], ...]:
    """Where a half is marked for the points it runs over.

    Returns:
        name of each point that it passes, and its place from the middle along the wire [m]
    """
    named = {point.place: point.name for point in element.path if point.name}
    walked, found = 0.0, []
    scaled = element.closed
    names = [point.name for point in element.path if point.name]
    corners = element.corners
    turns = [corner for corner in corners if scaled or corner in named]
    for low, high in pairwise(corners):
        walked += math.dist(low, high)
        if high not in turns or high == corners[-1] or high[1] == 0.0:
            continue
        name = named.get(high, "") or next(
            (each for each in names if _alike(element, each, high)), ""
        )
        if name:
            found.append((name, walked))
    return tuple(found)


def _alike(element: Element, name: str, corner: Point) -> bool:
    """Whether a corner of a loop lies towards a point of its frame, seen from its middle."""
    place = next(point.place for point in element.path if point.name == name)
    middle = [
        0.5 * (a + b) for a, b in zip(element.path[0].place, element.path[-1].place, strict=True)
    ]
    ways = [[a - m for a, m in zip(each, middle, strict=True)] for each in (place, corner)]
    size = math.hypot(*ways[0]) * math.hypot(*ways[1])
    return size > 0.0 and sum(a * b for a, b in zip(*ways, strict=True)) > 0.9999 * size


def _wires(frame: BeamFrame, element: Element, number: int, label: str) -> list[Part]:
    """Wire of one element: two halves when its feed cuts it, else one piece; and its insulators."""
    outline = [(x - frame.rear, y, z) for x, y, z in element.outline]
    middle = len(outline) // 2
    cut = is_cut(frame.beam, element) and not element.upright
    runs = {"L": outline[middle:], "R": outline[middle::-1]} if cut else {"C": outline}
    if element.upright:
        runs = {"U": outline}
    diameter, material = element.half[0].diameter, frame.beam.material
    parts, host = [], frame.beam.carrier
    elsewhere = () if host is None else (f"{host.name}/{_GROUP}",)
    fed = (_FEED_BLOCK,) if element.upright or is_cut(frame.beam, element) else ()
    pieces = [(f"{number}.W{side}", f"{label}, wire", bent(tuple(corners), diameter=diameter))
              for side, corners in runs.items()]  # fmt: skip
    if element.traps:
        pieces = _between_traps(element, *pieces[0])
        parts += _wire_traps(frame, element, number, label, outline)
    for mark, name, solids in pieces:
        shown = sum(bar.length for bar in solids)
        parts.append(
            Part(
                mark=mark, name=name, role="wire",
                carrier=frame.beam.name, group=element_group(number), form="rod",
                material=material.name, solids=solids,
                mass=material.density * sum(bar.volume for bar in solids), drag="round",
                joins=(_GROUP, *elsewhere, *frame.groups),
                price_key=f"wire {diameter * 1000.0:.2f} mm", quantity=shown + 2.0 * KNOT, unit="m",
                fasteners=fed if mark == pieces[0][0] else (),
            )
        )  # fmt: skip
    ends = {} if element.closed else {"L": outline[-1], "R": outline[0]}
    if element.upright:
        ends = {"U": outline[-1]}
    joins = (_GROUP, *frame.groups)
    for side, place in ends.items():
        made = _insulators(f"{number}.E{side}", f"{label}, end insulator", frame, number,
                           [place])  # fmt: skip
        parts.append(replace(made, joins=joins))
    held = frame.beam.frame
    if element.closed and held is not None and held.held:
        places = [(x - frame.rear, y, z) for x, y, z in _turns(element)]
        made = _insulators(f"{number}.EC", f"{label}, corner insulators", frame, number, places)
        parts.append(replace(made, joins=joins))
    return parts


def _between_traps(
    element: Element, mark: str, name: str, solids: tuple[Bar, ...]
) -> list[tuple[str, str, tuple[Bar, ...]]]:
    """Mark, name and pieces of an upright wire parted by its traps, from its foot up."""
    sides = [trap.place + way * trap.width for trap in element.traps for way in (-0.5, 0.5)]
    edges = (0.0, *sides, sum(bar.length for bar in solids))
    found = []
    for count, (low, high) in enumerate(zip(edges[::2], edges[1::2], strict=True)):
        beyond = f", beyond trap {count}" if count else ""
        letter = ascii_lowercase[12 + count] if count else ""
        found.append((f"{mark}{letter}", name + beyond, _stretch(solids, low, high)))
    return found


def _stretch(solids: tuple[Bar, ...], low: float, high: float) -> tuple[Bar, ...]:
    """What lies between two places along some bars in a row [m]."""
    found, reached = [], 0.0
    for bar in solids:
        near, far = max(low - reached, 0.0), min(high - reached, bar.length)
        if far - near > 1e-9:
            start, end = (between(bar.start, bar.end, at / bar.length) for at in (near, far))
            found.append(replace(bar, start=start, end=end))
        reached += bar.length
    return tuple(found)


def _wire_traps(
    frame: BeamFrame, element: Element, number: int, label: str, outline: list[Point]
) -> list[Part]:
    """Traps that hang in an upright wire."""
    wire = bent(tuple(outline), diameter=element.half[0].diameter)
    return [
        trap_part(
            frame, trap, mark=f"{number}.T{count}", name=f"{label}, trap {count}", number=number,
            ends=(piece[0].start, piece[-1].end),
        )
        for count, trap in enumerate(element.traps, start=1)
        for piece in [_stretch(wire, trap.place - 0.5 * trap.long, trap.place + 0.5 * trap.long)]
    ]  # fmt: skip


def _radials(frame: BeamFrame) -> list[Part]:
    """Radials in the air at the foot of each upright element."""
    beam, radials = frame.beam, frame.beam.radials
    if radials is None or radials.laid == "buried":
        return []
    parts = []
    for number, element in enumerate(frame.order, start=1):
        x, y, z = element.corners[0]
        bars = _spread(radials, (x - frame.rear, y, z))
        wires, ends = _radial_wires(beam, radials, bars, 2.0), [bar.end for bar in bars]
        parts += [
            replace(
                wires, mark=f"{number}.R", carrier=beam.name,
                group=element_group(number), drag="round",
                joins=(_GROUP, "mast", "support", *frame.groups),
            ),
            _insulators(f"{number}.RE", "end insulators of the radials", frame, number, ends),
        ]  # fmt: skip
    return parts


def buried_radials(frame: BeamFrame, carrier: Carrier) -> tuple[Part, ...]:
    """List the radials in the ground under each upright element of a beam.

    Args:
        carrier: the beam's own, which says where its feet stand
    """
    beam, radials = frame.beam, frame.beam.radials
    if radials is None or radials.laid == "elevated":
        return ()
    parts = []
    for number, element in enumerate(frame.order, start=1):
        x, y, _ = element.corners[0]
        level = -beam.height - given_or(radials.depth, RADIAL_DEPTH)
        bars = tuple(
            replace(bar, start=carrier.at_foot(bar.start), end=carrier.at_foot(bar.end))
            for bar in _spread(radials, (x - frame.rear, y, level))
        )
        wires = _radial_wires(beam, radials, bars, 1.0)
        parts.append(
            replace(wires, mark=f"{beam.name} {number}.R", joins=("base", "anchors", "support"),
                    basis=f"{_TRADE}: how deep they lie" if radials.depth is None else "")
        )  # fmt: skip
    return tuple(parts)


def _radial_wires(beam: Beam, radials: Radials, bars: tuple[Bar, ...], knots: float) -> Part:
    """Radials of one foot.

    Args:
        knots: ends of each that are tied or joined
    """
    return Part(
        mark="", name=f"{radials.count} radials, {radials.laid}", role="radial", carrier=GROUND,
        group="earth", form="rod", material=beam.material.name, solids=bars,
        mass=beam.material.density * sum(bar.volume for bar in bars),
        price_key=f"wire {radials.diameter * 1000.0:.2f} mm",
        quantity=radials.count * (radials.length + knots * KNOT), unit="m",
    )  # fmt: skip


def _spread(radials: Radials, foot: Point) -> tuple[Bar, ...]:
    """Elevated radials around one foot (count,)."""
    return tuple(
        Bar(
            start=foot, diameter=radials.diameter,
            end=(
                foot[0] + radials.length * way[0],
                foot[1] + radials.length * way[1],
                foot[2] + radials.length * way[2],
            ),
        )
        for way in radials.ways
    )  # fmt: skip


def _insulators(
    mark: str, name: str, frame: BeamFrame, number: int, places: Sequence[Point]
) -> Part:
    beam, count, own = frame.beam, len(places), frame.hardware
    side = given_or(own.end_insulator, INSULATOR)
    size, mass = (side, side, side), given_or(own.end_insulator_mass, INSULATOR_MASS)
    return Part(
        mark=mark, name=name, role="wire insulator", carrier=beam.name,
        group=element_group(number), form="bought", material="as bought", mass=mass * count,
        solids=tuple(Block(middle=place, size=size) for place in places),
        conductor=False, price_key="end insulator",
        **whose(own.end_insulator, own.end_insulator_mass),
        quantity=float(count),
    )  # fmt: skip


def _cords(frame: BeamFrame) -> list[Part]:
    """Cord from each open end to the next end or point of its frame, or ropes away."""
    beam, held = frame.beam, frame.beam.frame
    strung = [element for element in beam.elements if element.bent]
    loose = [element for element in strung if not element.closed]
    if held is None or not (loose or held.held):
        return []
    if held.held:
        count = float(sum(_rope_count(element) for element in strung))
        return [
            Part(
                mark="RO", name="ropes to trees, roof or poles", role="rope",
                carrier=beam.name, group=_GROUP, form="bought", material="as bought", mass=0.0,
                conductor=False, known="assumed", basis="its length is the owner's to measure",
                price_key="rope, one end of a wire", quantity=count,
            )
        ]  # fmt: skip
    size = given_or(frame.hardware.cord, CORD)
    long = sum(2.0 * (math.dist(*cord_way(beam, element)) + 2.0 * KNOT) for element in loose)
    solids = tuple(
        Bar(start=_placed(frame, end, side), end=_placed(frame, held_at, side), diameter=size)
        for end, held_at in (cord_way(beam, element) for element in loose)
        for side in (1.0, -1.0)
        if end != held_at
    )
    return [
        Part(
            mark="CO", name="cord from wire end to wire end", role="cord", carrier=beam.name,
            group=_GROUP, form="bought", material="as bought", solids=solids,
            mass=CORD_DENSITY * math.pi / 4.0 * size**2 * long, joins=frame.groups,
            conductor=False, price_key=f"cord {1e3 * size:g} mm, no stretch", quantity=long,
            unit="m", **whose(frame.hardware.cord),
        )
    ]  # fmt: skip


def _rope_count(element: Element) -> int:
    """Ropes that hold a wire: one at each end, of a loop one at each of its corners."""
    if not element.closed:
        return 1 if element.upright else 2
    return len(_turns(element))


def _turns(element: Element) -> list[Point]:
    """Corners of a loop, where ropes hold it; wire straight through its middle has none there."""
    half = [point.place for point in element.path]
    outline = [*half, *((x, -y, z) for x, y, z in reversed(half) if y != 0.0)]
    ways = [
        _unit([b - a for a, b in zip(low, high, strict=True)])
        for low, high in pairwise([outline[-1], *outline, outline[0]])
    ]
    turned = zip(outline, pairwise(ways), strict=True)
    return [place for place, (into, out) in turned if math.dist(into, out) > 1e-6]


def _unit(way: Sequence[float]) -> list[float]:
    size = math.hypot(*way)
    return [each / size for each in way]


def cord_way(beam: Beam, element: Element) -> tuple[Point, Point]:
    """From an open end half-way to the nearest other end, or to its last point [m]."""
    end = element.corners[-1]
    tips = [each.corners[-1] for each in beam.elements if each is not element]
    others = [between(end, tip, 0.5) for tip in tips]
    return end, min([*others, element.path[-1].place], key=lambda place: math.dist(end, place))


def _placed(frame: BeamFrame, place: Point, side: float) -> Point:
    return (place[0] - frame.rear, side * place[1], place[2])


def _poles(frame: BeamFrame, held: Frame) -> list[Part]:
    """Spreaders section by section, and the hub they meet in."""
    spreader, parts = held.spreader, []
    if spreader is None:
        return []
    numbers = [point for point in held.points if point.name in spreader.to]
    for number, point in enumerate(numbers, start=1):
        for side in ("L", "R") if point.place[1] else ("C",):
            parts += _pole(frame, held, point, number, side)
    if held.post is not None:
        parts.append(_post(frame, held, held.post))
    if held.hub is not None:
        known, x = held.hub_mass > 0.0, frame.beam.boom_middle - frame.rear
        # An upright disc stands for the hub, whose shape its maker knows.
        disc = Bar(start=(x, 0.0, -_HUB_HALF), end=(x, 0.0, _HUB_HALF), diameter=2.0 * HUB_RADIUS)
        parts.append(
            Part(
                mark="H", name="hub", role="hub", carrier=frame.beam.name, group=_GROUP,
                form="bought", material="as bought", mass=held.hub_mass if known else None,
                solids=(disc,), joins=("boom", "mast", "support"),
                known="plan" if known else "unknown",
                basis="" if known else "hub_mass in [beam.frame] is not given",
                price_key=f"hub for {held.spreader_count} spreaders",
            )
        )  # fmt: skip
    return parts


def _post(frame: BeamFrame, held: Frame, post: TubeSection) -> Part:
    density = 0.0 if held.spreader is None else held.spreader.density
    x = frame.beam.boom_middle - frame.rear
    bar = Bar(
        start=(x, 0.0, 0.0), end=(x, 0.0, post.length), diameter=post.diameter,
        bore=post.diameter - 2.0 * post.wall if post.wall else 0.0,
    )  # fmt: skip
    kind = TubeKind(
        material=_SPREADER, diameter=post.diameter, wall=post.wall, is_rod=not post.wall
    )
    return Part(
        mark="PO", name="post on the hub", role="spreader", carrier=frame.beam.name, group=_GROUP,
        form="rod" if kind.is_rod else "tube", material=_SPREADER, solids=(bar,),
        joins=("boom", "mast"), mass=(density or _DENSITY) * bar.volume, conductor=False,
        drag="round", cut=Cut(kind=kind, sawn=bar.length, exposed=bar.length),
        known="plan" if density else "assumed", basis="" if density else _TRADE,
        price_key=kind.name, quantity=bar.length, unit="m",
    )  # fmt: skip


def _pole(frame: BeamFrame, held: Frame, point: FramePoint, number: int, side: str) -> list[Part]:
    spreader = held.spreader
    if spreader is None:
        return []
    root, tip = held.root(point), point.place
    sign = -1.0 if side == "R" else 1.0
    away, reached, found = math.dist(root, tip), 0.0, []

    def at(share: float) -> Point:
        return _placed(frame, between(root, tip, share / away), sign)

    for index, tube in enumerate(spreader.sections, start=1):
        slid = 0.0 if index == 1 else frame.joints.overlap(tube.diameter)
        kind = TubeKind(
            material=_SPREADER, diameter=tube.diameter, wall=tube.wall, is_rod=not tube.wall
        )
        bar = Bar(
            start=at(reached - slid), end=at(reached + tube.length), diameter=tube.diameter,
            bore=tube.diameter - 2.0 * tube.wall if tube.wall else 0.0,
        )  # fmt: skip
        # Glass fibre is not drilled: a clamp closes the slit end of the larger tube.
        clamps = () if index == 1 else (hose_clamp(spreader.sections[index - 2].diameter),)
        if index == len(spreader.sections):
            clamps = (*clamps, _LOOP)
        found.append(
            Part(
                mark=f"S{number}.{index}{side}",
                name=f"spreader to {point.name}, section {index}", role="spreader",
                carrier=frame.beam.name, group=_GROUP, form="rod" if kind.is_rod else "tube",
                material=_SPREADER, solids=(bar,),
                # Its root sits in the hub, which is clamped to whatever holds the frame.
                joins=("boom", "mast") if index == 1 else (),
                mass=(spreader.density or _DENSITY) * bar.volume, conductor=False, drag="round",
                cut=Cut(kind=kind, sawn=bar.length, exposed=tube.length, overlap=slid),
                known="plan" if spreader.density else "assumed",
                basis="" if spreader.density else _TRADE, price_key=kind.name,
                quantity=bar.length, unit="m", fasteners=clamps,
            )
        )  # fmt: skip
        reached += tube.length
    return found

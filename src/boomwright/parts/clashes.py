"""Which parts of the station run into each other, turning parts through a full turn.

Bars are compared as the capsules inside them (a flat end counts only where it is full), blocks as
they are. What turns is looked at in steps so small that nothing can slip between two of them: a
point at the reach R moves by R times the step, so a pair further apart than that needs no closer
look, and every other step is parted until none promises to come closer.
"""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts.assembly import Assembly, Carrier
from boomwright.parts.part import Part
from boomwright.parts.solids import Bar, Block, Point, Solid
from boomwright.parts.support_parts import GROUND, MAST

#: less than this is a fit, not a clash [m]
TOUCH = 0.0005
#: what has no shape of its own: fittings and towers of which no plan gives one, and cables, which
#: give way
_SHAPELESS = frozenset({"fitting", "tower outline", "line", "boom cable", "control cable"})
#: role of screws, bolts and rivets that stand proud of a part; what they may not reach into even
#: where it is fastened to that part; washer over the hole [-]
SCREW = "screw"
_HOLDERS = frozenset(
    {"element plate", "mast plate", "U-bolt", "shell", "saddle", "mast", "truss eye"}
)
_WASHER = 1.8
#: step of a full turn that is looked at first [rad]
_STEP = math.radians(3.0)
_TURNS = np.arange(0.0, 2.0 * math.pi, _STEP)
#: what a closer look must promise to be worth it [m]; turns that are followed at once
_CLOSE, _MOST = 0.0001, 1000
#: nets in which the deepest place along a bar is followed, and points of each
_NETS, _NET = 8, 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Two parts that need the same place."""

    one: Part  #: part of a beam
    other: Part  #: what it runs into
    overlap: float  #: how deep; this much further apart they clear each other [m]
    #: heading at which it happens while the other stands; None for parts that turn together [rad]
    heading: float | None = None

    @property
    def assumed(self) -> bool:
        """Whether the size or place of one of them is ours."""
        return "assumed" in {self.one.known, self.other.known}


def find_clashes(assembly: Assembly) -> tuple[Clash, ...]:
    """Find every two parts that run into each other, the deepest of each two groups first."""
    bodies = [_Body(carrier, assembly) for carrier in assembly.carriers if carrier.origin]
    beams = [body for body in bodies if body.carrier.name not in {GROUND, MAST}]
    found: dict[tuple[tuple[str, str, bool], ...], Clash] = {}
    pairs = [(beam, beam) for beam in beams]
    pairs += list(combinations(beams, 2))
    pairs += [(beam, body) for beam in beams for body in bodies if body not in beams]
    for first, second in pairs:
        for clash in _between(assembly, first, second):
            sides = [
                (part.carrier, part.group, part.role == SCREW) for part in (clash.one, clash.other)
            ]
            key = tuple(sorted(sides))
            if key not in found or found[key].overlap < clash.overlap:
                found[key] = clash
    return tuple(sorted(found.values(), key=lambda clash: -clash.overlap))


def _screws(part: Part) -> list[Part]:
    """What stands proud of a part at its holes, as parts of their own."""
    if len(part.solids) != 1:
        return []
    (solid,) = part.solids
    across = _corners(solid)[[0, -1]]
    if isinstance(solid, Bar):
        inner, along, thick = across[0], across[1] - across[0], 0.5 * solid.diameter
    else:  # a strap is drilled from its middle, along its longer side
        longer = np.argmax(solid.size[:2])
        inner, thick = across.mean(axis=0), 0.5 * solid.size[2]
        along = np.eye(3)[longer]
    along = along / np.linalg.norm(along)
    aside = np.cross((0.0, 0.0, 1.0), along)
    found = []
    for hole in part.holes:
        if not any(hole.proud):
            continue
        way = aside if hole.level else np.array((0.0, 0.0, 1.0))
        head, nut = ((thick + each) * way for each in hole.proud)
        bars = tuple(
            Bar(start=_point(inner + at * along - head), end=_point(inner + at * along + nut),
                diameter=_WASHER * hole.diameter)
            for at in hole.at
        )  # fmt: skip
        found.append(
            replace(part, name=f"head or nut of the {hole.purpose} in {part.name}", role=SCREW,
                    solids=bars, known="assumed")
        )  # fmt: skip
    return found


def _point(place: Floats) -> Point:
    x, y, z = map(float, place)
    return (x, y, z)


def _apart(assembly: Assembly, one: Part, other: Part) -> bool:
    """Whether two parts are to stand clear of each other."""
    roles = {one.role, other.role}
    if SCREW not in roles:
        return not assembly.joined(one, other)
    if roles == {SCREW} or (one.carrier, one.group) == (other.carrier, other.group):
        return False
    # A screw goes through what is fastened to its piece, but never through what holds it up.
    return bool(roles & _HOLDERS) or not assembly.joined(one, other)


class _Body:
    """Solids of one carrier in the frame of the foot, with the parts they belong to."""

    def __init__(self, carrier: Carrier, assembly: Assembly) -> None:
        self.carrier = carrier
        shaped = [part for part in assembly.of(carrier.name) if part.role not in _SHAPELESS]
        shaped += [screw for part in shaped for screw in _screws(part)]
        self.entries: list[tuple[Part, Solid]] = [
            (part, carrier.solid_at_foot(solid)) for part in shaped for solid in part.solids
        ]
        count = len(self.entries)
        self.low, self.high = np.empty((count, 3)), np.empty((count, 3))
        self.near, self.far = np.empty(count), np.empty(count)
        for k, (_, solid) in enumerate(self.entries):
            corners, thick = _corners(solid), _thick(solid)
            self.low[k], self.high[k] = corners.min(axis=0) - thick, corners.max(axis=0) + thick
            near, far = _reach(solid)
            self.near[k], self.far[k] = near - thick, far + thick

    def meeting(self, other: _Body, number: int, *, turning: bool) -> NDArray[np.intp]:
        """Solids of this body that share a height, and a place or a reach, with one of another."""
        share = (self.low <= other.high[number]) & (other.low[number] <= self.high)
        if turning:
            reach = (self.near <= other.far[number]) & (other.near[number] <= self.far)
            return np.flatnonzero(share[:, 2] & reach)
        return np.flatnonzero(share.all(axis=1))


def _between(assembly: Assembly, first: _Body, second: _Body) -> list[Clash]:
    turning = first.carrier.rotor != second.carrier.rotor
    clashes = []
    for i, (part, solid) in enumerate(first.entries):
        for k in second.meeting(first, i, turning=turning):
            other, body = second.entries[k]
            if other is part or (first is second and k <= i) or not _apart(assembly, part, other):
                continue
            if turning and SCREW in {part.role, other.role}:
                continue  # what it sits on passes nearly as near
            deep, turn = _turning_depth(solid, body) if turning else (_depth(solid, body), None)
            if deep <= TOUCH:
                continue
            heading = None if turn is None else (first.carrier.heading - turn) % (2.0 * math.pi)
            clashes.append(Clash(one=part, other=other, overlap=deep, heading=heading))
    return clashes


def _corners(solid: Solid) -> Floats:
    if isinstance(solid, Bar):
        return np.array([solid.start, solid.end])
    signs = np.array([(a, b, c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)])
    local = 0.5 * signs * np.array(solid.size)
    c, s = math.cos(solid.turn), math.sin(solid.turn)
    turned = np.stack(
        [c * local[:, 0] - s * local[:, 1], s * local[:, 0] + c * local[:, 1], local[:, 2]], axis=1
    )
    placed: Floats = turned + np.array(solid.middle)
    return placed


def _thick(solid: Solid) -> float:
    return 0.5 * solid.diameter if isinstance(solid, Bar) else 0.0


def _reach(solid: Solid) -> tuple[float, float]:
    """Least and greatest distance of a bar's axis or a block from the vertical over the foot."""
    corners = _corners(solid)[:, :2]
    far = float(np.hypot(corners[:, 0], corners[:, 1]).max())
    if isinstance(solid, Block):
        half = 0.5 * math.hypot(solid.size[0], solid.size[1])
        return max(0.0, math.hypot(solid.middle[0], solid.middle[1]) - half), far
    a, along = corners[0], corners[1] - corners[0]
    size = float(along @ along)
    share = 0.0 if size == 0.0 else min(1.0, max(0.0, -float(a @ along) / size))
    return float(np.hypot(*(a + share * along))), far


def _turning_depth(solid: Solid, other: Solid) -> tuple[float, float]:
    """How deep a solid gets into one that stands, and how far to the left it is turned then."""
    reach = _reach(solid)[1] + _thick(solid)
    turns, half = _TURNS, 0.5 * _STEP
    best, where = -math.inf, 0.0
    while True:
        deep = _depths(solid, other, turns)
        top = int(np.argmax(deep))
        if deep[top] > best:
            best, where = float(deep[top]), float(turns[top])
        turns = turns[deep + reach * half > max(best, TOUCH) + _CLOSE]
        if len(turns) == 0 or len(turns) > _MOST:
            return best, where
        half /= 4.0
        turns = (turns[:, None] + half * np.array([-3.0, -1.0, 1.0, 3.0])).ravel()


def _depth(one: Solid, other: Solid) -> float:
    return float(_depths(one, other, np.zeros(1))[0])


def _depths(one: Solid, other: Solid, turns: Floats) -> Floats:
    """Depth of one solid in another, the first turned to the left; negative when they are clear."""
    if isinstance(one, Bar) and isinstance(other, Bar):
        return _bars_deep(one, other, turns)
    if isinstance(one, Bar) and isinstance(other, Block):
        return _bar_block(one, other, turns)
    if isinstance(one, Block) and isinstance(other, Bar):
        return _bar_block(other, one, -turns)
    if isinstance(one, Block) and isinstance(other, Block):
        return np.array([_block_block(_turned(one, turn), other) for turn in turns])
    return np.full(len(turns), -math.inf)


def _turned(block: Block, turn: float) -> Block:
    c, s = math.cos(turn), math.sin(turn)
    x, y, z = block.middle
    return Block(middle=(c * x - s * y, s * x + c * y, z), size=block.size, turn=block.turn + turn)


def _turned_point(point: Floats, turns: Floats) -> Floats:
    cos, sin = np.cos(turns), np.sin(turns)
    x, y, z = point
    return np.stack([cos * x - sin * y, sin * x + cos * y, np.full(len(turns), z)], axis=1)


def _capsule(bar: Bar) -> tuple[Floats, Floats, float]:
    """Axis and radius of the largest capsule inside a bar with flat ends."""
    a, b = np.array(bar.start), np.array(bar.end)
    long = float(np.linalg.norm(b - a))
    radius = min(0.5 * bar.diameter, 0.5 * long)
    back = (b - a) * (radius / long) if long > 0.0 else 0.0 * a
    return a + back, b - back, radius


def _bars_deep(one: Bar, other: Bar, turns: Floats) -> Floats:
    a, b, r = _capsule(one)
    c, d, q = _capsule(other)
    return r + q - _lines_apart(_turned_point(a, turns), _turned_point(b, turns), c, d)


def _lines_apart(a: Floats, b: Floats, c: Floats, d: Floats) -> Floats:
    """Least distance of straight lines with ends from one such line."""
    u, v, w = b - a, d - c, a - c
    uu, vv = np.einsum("ij,ij->i", u, u), float(v @ v)
    uv, uw, vw = u @ v, np.einsum("ij,ij->i", u, w), w @ v
    det = uu * vv - uv * uv
    steep = det > 1e-12 * uu * vv
    s = np.where(steep, (uv * vw - vv * uw) / np.where(steep, det, 1.0), 0.0).clip(0.0, 1.0)
    t = ((uv * s + vw) / vv if vv > 0.0 else 0.0 * uv).clip(0.0, 1.0)
    s = np.where(uu > 0.0, (uv * t - uw) / np.where(uu > 0.0, uu, 1.0), 0.0).clip(0.0, 1.0)
    apart: Floats = np.linalg.norm(w + s[:, None] * u - t[:, None] * v, axis=1)
    return apart


def _bar_block(bar: Bar, block: Block, turns: Floats) -> Floats:
    """Depth of a turned bar in a block: its axis is followed to where it is deepest."""
    a, b, radius = _capsule(bar)
    start, along = _turned_point(a, turns), _turned_point(b - a, turns)
    half = 0.5 * np.array(block.size)
    c, s = math.cos(block.turn), math.sin(block.turn)
    into = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
    start, along = (start - np.array(block.middle)) @ into, along @ into

    def deep(shares: Floats) -> Floats:
        out = np.abs(start[:, None] + shares[:, :, None] * along[:, None]) - half
        outside = np.linalg.norm(np.maximum(out, 0.0), axis=2)
        depth: Floats = np.where(outside > 0.0, -outside, -out.max(axis=2))
        return depth

    low, high = np.zeros(len(turns)), np.ones(len(turns))
    # Depth has one top along a straight line, as a box bulges everywhere.
    for _ in range(_NETS):
        shares = np.linspace(low, high, _NET, axis=1)
        best = np.argmax(deep(shares), axis=1)
        rows = np.arange(len(turns))
        low, high = (shares[rows, np.clip(best + step, 0, _NET - 1)] for step in (-1, 1))
    return radius + deep((0.5 * (low + high))[:, None])[:, 0]


def _block_block(one: Block, other: Block) -> float:
    """Least overlap of two upright boxes over the directions that can part them."""
    (ca, sa), (cb, sb) = ((math.cos(x.turn), math.sin(x.turn)) for x in (one, other))
    ways = np.array([(0, 0, 1), (ca, sa, 0), (-sa, ca, 0), (cb, sb, 0), (-sb, cb, 0)])
    a, b = _corners(one) @ ways.T, _corners(other) @ ways.T
    inside = np.minimum(a.max(axis=0) - b.min(axis=0), b.max(axis=0) - a.min(axis=0))
    return float(inside.min())

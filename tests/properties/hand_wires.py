"""Wire on frames, by hand like ``hand_rules``: areas, weight, spreaders, wires and ropes.

Nothing of the programs under test is used: points and paths come from the plain plan, a wire is
walked off along its points, and a straight piece in wind is a cylinder seen square to its axis.
Sources as in docs/sources.toml: hoerner-crossflow, irvine-cables, beam-theory; half of the strength
of spreaders and wire and a fifth of that of ropes are common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import dist, hypot, inf, pi
from typing import Any

import hand_rules as by_hand

Entry = Mapping[str, Any]
Place = tuple[float, float, float]
#: density, Young's modulus and breaking strength of soft copper
COPPER = (8930.0, 117e9, 220e6)
#: a least figure leaves so much for droop and for loops that are cut to their length [-]
LEAST = 0.95


def bent(entry: Entry) -> bool:
    """Whether its elements are wires with corners."""
    return any("through" in element for element in entry["element"])


def points_of(entry: Entry) -> dict[str, Place]:
    """Points of the frame [m]."""
    rows = (entry.get("frame") or {}).get("points") or ()
    return {row[0]: tuple(by_hand.si(value) for value in row[1:4]) for row in rows}


def way(entry: Entry, element: Entry) -> list[Place]:
    """Points that one half runs along, from its middle [m]."""
    points = points_of(entry)
    found = [points[name] for name in element["through"]]
    return found if found[0][1] == 0.0 else [(by_hand.si(element["at"]), 0.0, 0.0), *found]


def upright(entry: Entry) -> bool:
    """Whether its wire stands on end."""
    strung = [element for element in entry["element"] if "through" in element]
    return all(y == 0.0 for element in strung for _, y, _ in way(entry, element))


def pulled_up(entry: Entry) -> bool:
    """Whether ropes hold all its wire, so that people pull it up by hand."""
    return bent(entry) and bool(entry.get("frame", {}).get("held"))


def wires(entry: Entry) -> Iterator[tuple[Place, Place, float]]:
    """Straight pieces of wire of both sides with their diameter, walked off to their length [m]."""
    for element in entry["element"]:
        if "through" not in element:
            continue
        path, diameter = way(entry, element), by_hand.si(element["diameter"])
        left = by_hand.si(element["length"]) * (1.0 if upright(entry) else 0.5)
        for low, high in pairwise(path):
            share = min(1.0, max(0.0, left / dist(low, high)))
            left -= dist(low, high)
            end = tuple(a + share * (b - a) for a, b in zip(low, high, strict=True))
            yield low, end, diameter
            if not upright(entry):
                yield (low[0], -low[1], low[2]), (end[0], -end[1], end[2]), diameter


def poles(entry: Entry) -> Iterator[tuple[Place, Place, float]]:
    """Spreaders of both sides as one cylinder each, of their mean diameter [m]."""
    frame, points = entry.get("frame") or {}, points_of(entry)
    spreader = frame.get("spreader")
    if spreader is None:
        return
    rows = [(by_hand.si(row[0]), by_hand.si(row[1])) for row in spreader["sections"]]
    long = sum(length for _, length in rows)
    mean = sum(diameter * length for diameter, length in rows) / long
    for name in spreader["to"]:
        x, y, z = points[name]
        root = (by_hand.si(frame["hub"]) if "hub" in frame else x, 0.0, 0.0)
        grown = long / dist(root, (x, y, z))
        end = tuple(a + grown * (b - a) for a, b in zip(root, (x, y, z), strict=True))
        for side in (1.0, -1.0) if y else (1.0,):
            yield root, (end[0], side * end[1], end[2]), mean


def lacks(entry: Entry) -> tuple[str, ...]:
    """Places without which nobody knows what a frame weighs or pulls."""
    frame = entry.get("frame") or {}
    spreader = frame.get("spreader")
    if spreader is None:
        needs = [key for key in ("held", "pull") if key not in frame]
    else:
        needs = [key for key in ("elastic_modulus", "density") if key not in spreader]
        needs += [] if "hub" in frame or "boom" in entry else ["hub or boom"]
        needs += [] if "hub" not in frame or "hub_mass" in frame else ["hub_mass"]
    for element in entry["element"]:
        if "through" in element:
            continue
        needs += [] if "boom" in entry else ["boom"]
        needs += [] if all(row[2:] for row in element.get("half", [[]])) else ["wall"]
    return tuple(f"frame {key}" for key in needs)


def reckonable(entry: Entry) -> bool:
    """Whether metals and frame are among those typed in here."""
    strung = all("through" in element for element in entry["element"])
    return strung and entry["material"] == "copper" and not lacks(entry)


def reach(entry: Entry) -> float:
    """Least that a beam reaches out [m]."""
    return LEAST * max(abs(end[1]) for _, end, _ in wires(entry))


def top(entry: Entry) -> float:
    """Least height of its highest part above its boom or hub [m]."""
    return LEAST * max(0.0, *(end[2] for _, end, _ in wires(entry)))


def _boom(entry: Entry) -> tuple[float, float, float]:
    """Diameter and length of a boom, and its mass; nothing without one."""
    boom = entry.get("boom")
    if boom is None:
        return 0.0, 0.0, 0.0
    diameter, wall, length = (by_hand.si(boom[key]) for key in ("diameter", "wall", "length"))
    return diameter, length, 2700.0 * by_hand.section(diameter, wall)[0] * length


def beam(entry: Entry) -> by_hand.Beam:
    """Least drag area of the worst direction, the greatest, weight, and least pull on the mast."""
    along = across = whole = middle = torque = mass = 0.0
    for low, high, diameter in (*wires(entry), *poles(entry)):
        x, y, z = (b - a for a, b in zip(low, high, strict=True))
        long = hypot(x, y, z)
        if long == 0.0:
            continue
        area = by_hand.DRAG * diameter * long
        along += area * (1.0 - (x / long) ** 2) ** 1.5
        across += area * (1.0 - (y / long) ** 2) ** 1.5
        whole, middle = whole + area, middle + area * (low[2] + high[2]) / 2.0
        torque += area * max(hypot(*low[:2]), hypot(*high[:2]))
    copper = COPPER[0] * sum(pi / 4.0 * d**2 * dist(low, high) for low, high, d in wires(entry))
    frame = entry.get("frame") or {}
    spreader = frame.get("spreader")
    if spreader is not None:
        one = sum(_section(row)[0] * by_hand.si(row[1]) for row in spreader["sections"])
        mass += len(list(poles(entry))) * one * by_hand.si(spreader["density"])
    diameter, length, boom = _boom(entry)
    rods = entry.get("radials")
    strung = 0.0
    if rods is not None and rods["laid"] == "elevated":
        strung = rods["count"] * by_hand.si(rods["length"]) * by_hand.si(rods["diameter"])
    seen = by_hand.DRAG * diameter * length
    return by_hand.Beam(
        name=entry["name"],
        height=by_hand.si(entry["height"])
        + (LEAST * max(0.0, middle / whole) if spreader is not None else 0.0),
        drag_area=LEAST * max(along, across + seen),
        most_drag=(whole + seen + by_hand.DRAG * strung) / LEAST,
        mass=LEAST * copper + mass + by_hand.si(frame.get("hub_mass", 0.0)) + boom,
        clamp=0.0,
        torque_area=by_hand.UNEVEN * (torque + seen * length),
        inertia=0.0,
        pull=_forward(entry),
    )


def _forward(entry: Entry) -> float:
    """Least side pull of wires between mast and ropes: that of still air, both sides alike [N]."""
    frame = entry.get("frame") or {}
    if "held" not in frame or upright(entry):
        return 0.0
    pull = 0.0
    for element in entry["element"]:
        path = way(entry, element)
        if path[-1][1] == 0.0:  # a loop, held by ropes alone
            continue
        low, high = path[:2]
        pull += 2.0 * by_hand.si(frame["pull"]) * (high[0] - low[0]) / dist(low, high)
    return abs(pull)


def _section(row: list[str]) -> tuple[float, float, float]:
    diameter = by_hand.si(row[0])
    return by_hand.section(diameter, by_hand.si(row[2]) if len(row) > 2 else diameter / 2.0)


def tension(*, span: float, still: float, weight: float, load: float, stretch: float) -> float:
    """Pull in a wire between fixed ends: the longer parabola is what the pull stretches [N]."""

    def too_long(pull: float) -> bool:
        grown = (span * load / pull) ** 2 / 24.0 - (span * weight / still) ** 2 / 24.0
        return grown > (pull - still) / stretch

    low, high = still, still + load * span * 1e3 + 1.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if too_long(middle) else (low, middle)
    return high


def hardest(entry: Entry, q: float) -> tuple[float, float]:
    """Pull in the most strained wire [N], and half of what it breaks at [N]."""
    worst = (0.0, inf)
    for low, high, diameter in wires(entry):
        area = pi / 4.0 * diameter**2
        weight = COPPER[0] * area * by_hand.G
        pull = tension(
            span=dist(low, high),
            still=by_hand.si(entry["frame"]["pull"]),
            weight=weight,
            load=hypot(weight, q * by_hand.DRAG * diameter),
            stretch=COPPER[1] * area,
        )
        worst = max(worst, (pull, COPPER[2] * area / 2.0), key=lambda one: one[0] / one[1])
    return worst


def spreader_use(entry: Entry, low_q: float, high_q: float) -> tuple[float, float]:
    """Least and greatest use of the spreaders: wind on the pole alone; all that may pull on it."""
    spreader = entry["frame"]["spreader"]
    out = least = greatest = 0.0
    stiff = inf
    for row in spreader["sections"]:
        diameter, length = by_hand.si(row[0]), by_hand.si(row[1])
        area, second, _ = _section(row)
        arm = out + length / 2.0
        least += low_q * by_hand.DRAG * diameter * length * arm
        greatest += (
            high_q * by_hand.DRAG * diameter + by_hand.si(spreader["density"]) * area * by_hand.G
        ) * (length * arm)
        out += length
        stiff = min(stiff, second)
    modulus = _section(spreader["sections"][0])[2]
    element = max(by_hand.si(each["diameter"]) for each in entry["element"])
    longest = max(dist(low, high) for low, high, _ in wires(entry))
    wire = high_q * by_hand.DRAG * element + COPPER[0] * pi / 4.0 * element**2 * by_hand.G
    pull = by_hand.si(entry["frame"]["pull"])
    # Three wires meet at a point at most, each half of the longest piece, all across the pole.
    greatest += (3.0 * wire * longest / 2.0 + 2.0 * pull) * out
    buckles = pi**2 * by_hand.si(spreader["elastic_modulus"]) * stiff / (4.0 * out**2)
    grown = inf if 1.6 * 1.5 * pull >= buckles else 1.0 / (1.0 - 1.6 * 1.5 * pull / buckles)
    allowed = by_hand.si(spreader["strength"]) / 2.0
    return least / modulus / allowed, grown * greatest / modulus / allowed


def boom_moments(entry: Entry) -> float:
    """Least moment in a boom for each pascal: wind across the frame, or along above it [m^3]."""
    sides: dict[float, list[float]] = {}
    for low, high, diameter in (*wires(entry), *poles(entry)):
        x, y, z = (b - a for a, b in zip(low, high, strict=True))
        half = 0.5 * by_hand.DRAG * diameter
        for end in (low, high):
            found = sides.setdefault(round(end[0], 3), [0.0, 0.0])
            found[0] += half * hypot(x, z)
            found[1] += half * hypot(y, z) * end[2]
    places = sorted(sides)
    first, last = sides[places[0]], sides[places[-1]]
    # Wherever the mast holds it, one of both ends has as much as this.
    across = first[0] * last[0] / (first[0] + last[0]) * (places[-1] - places[0])
    return LEAST * max(across, min(abs(first[1]), abs(last[1])))


def rules(plan: Entry) -> Iterator[by_hand.HandRule]:
    """Spreaders, wires and ropes of every frame."""
    for number, entry in enumerate(plan["beam"]):
        if not bent(entry):
            continue
        name, frame = by_hand.re.escape(entry["name"]), entry.get("frame") or {}
        here, low = f"beam[{number}].frame", by_hand.si(entry["height"])
        spreader, held = frame.get("spreader"), "held" in frame
        for iced, suffix in by_hand._cases(plan):
            absent = by_hand._needs(plan, iced)
            what = "with ice and its wind" if iced else "in wind"
            absent += () if "pull" in frame else (f"{here}.pull",)
            known = not absent and reckonable(entry) and by_hand.reckonable(plan, iced=iced)
            known = known and not suffix
            q = [
                by_hand.pressure(plan, z, ultimate=False, iced=False) if known else 0.0
                for z in (low, low + top(entry) / LEAST + 0.1)
            ]
            if spreader is not None:
                lacking = tuple(
                    f"{here}.spreader.{key}"
                    for key in ("elastic_modulus", "density", "strength")
                    if key not in spreader
                )
                use = spreader_use(entry, *q) if known and not lacking else (None, None)
                yield by_hand.HandRule(rf"^{name}: spreaders {what}$", *use, (*absent, *lacking))
            pull, breaks = hardest(entry, q[1]) if known else (0.0, 1.0)
            least = hardest(entry, q[0])[0] if known else 0.0
            use = (LEAST * least / breaks, pull / breaks) if known else (None, None)
            yield by_hand.HandRule(rf"^{name}: wires {what}$", *use, absent)
            if not held:
                continue
            lacking = () if "rope_strength" in frame else (f"{here}.rope_strength",)
            use = (None, None)
            if known and not lacking:
                rope = by_hand.si(frame["rope_strength"]) / 5.0
                use = (LEAST * least / rope, 2.0 * pull / rope)
            yield by_hand.HandRule(rf"^{name}: ropes {what}$", *use, (*absent, *lacking))
        if held:
            said = () if frame.get("said_by") else (f"{here}.said_by",)
            yield by_hand.HandRule(rf"^{name}: what the ropes are tied to$", missing=said)
        elif spreader is None:
            yield by_hand.HandRule(rf"^{name}: what holds the wires$", missing=(f"{here}.held",))

"""What stands against raising a beam, as a careful crew leader would reckon on paper.

Like ``hand_rules`` it rests on nothing of the programs under test: plain TOML, figures typed in
again, statics of a handbook. Every rule is a *least* demand: jerks, wind and what is not known are
left out where they only add, so that a lift refused here can never be a go.

Sources as in docs/sources.toml: plane-statics, michigan-r408-42943 (five times the load for rope
and blocks), cfr-29-1926-1408 (10 ft from a power line up to 50 kV); hoisting below 10 mph, three
quarters of a crane's chart, 220 kg for two people with tools, four or five people on the ground:
common practice.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from math import hypot
from typing import Any

import hand_wires
from hand_rules import FOOT, MILE, G, at, beam, half_rows, limit, section, si

BREAKING, KNOT, HAND, CREW, SHARE = 5.0, 0.5, 35.0, 220.0, 0.75
HOIST_BELOW = 10.0 * MILE / 3600.0
LEAST_GAP = 10.0 * FOOT
#: hands above a platform's floor [m]
HANDS = 1.5
#: part by which a least demand must be over its limit before it refuses [-]
SLACK = 0.10

#: southern, northern, western and eastern ends of countries, about [deg]
_BOXES = {
    "US": (18.0, 72.0, -180.0, -66.0), "GB": (49.0, 61.0, -9.0, 2.0), "DE": (47.0, 55.2, 5.7, 15.2),
    "FR": (41.0, 51.3, -5.3, 9.8), "JP": (24.0, 46.0, 122.0, 146.0),
}  # fmt: skip

Plan = Mapping[str, Any]


def yes(plan: Plan, place: str, wanted: bool = True) -> bool:
    """Whether somebody answered so, with name and day."""
    said = at(plan, place)
    if not isinstance(said, Mapping):
        return False
    return said.get("answer") is wanted and bool(said.get("by")) and bool(said.get("on"))


def _over(demand: float, allowed: Any) -> bool:
    """Whether a limit is missing or passed by more than the slack."""
    return allowed is None or demand > (1.0 + SLACK) * si(allowed)


def least_mass(plan: Plan, entry: Plan) -> float | None:
    """Mass of a beam as weighed, or of its tubes; None when neither is known [kg]."""
    if (weighed := at(plan, "raising.mass")) is not None:
        return si(weighed)
    if hand_wires.bent(entry):
        # Half, for metals that are not reckoned and what a loop is cut by.
        return 0.5 * beam(entry).mass if hand_wires.reckonable(entry) else None
    walls = all(wall > 0.0 for element in entry["element"] for _, _, wall in half_rows(element))
    if "boom" not in entry or not walls:
        return None
    light = entry["material"][:1] == "6" and entry["boom"]["material"][:1] == "6"
    # Steel and copper are heavier than what is reckoned.
    return beam(entry).mass if light else 0.5 * beam(entry).mass


def tip(entry: Plan) -> float:
    """Half the longest element, the least that a beam in the ropes can reach [m]."""
    if hand_wires.bent(entry):
        return hand_wires.reach(entry)
    return max(sum(row[1] for row in half_rows(element)) for element in entry["element"])


def height(plan: Plan) -> float | None:
    """Height of the support [m]."""
    for place in ("support.tower.height", "support.tube.height"):
        if at(plan, place) is not None:
            return si(at(plan, place))
    return None


# Each way up ----------------------------------------------------------------------------------


def _climbers(plan: Plan) -> Iterator[str]:
    if (at(plan, "raising.trained_climbers") or 0) < 2:
        yield "two climbers"
    for place in ("raising.training", "raising.rescue_plan"):
        if not yes(plan, place):
            yield place
    if at(plan, "support.tube") is not None and not yes(plan, "raising.climbable"):
        yield "a tube made to be climbed"


def _ground(plan: Plan, least: int) -> Iterator[str]:
    if (at(plan, "raising.ground_crew") or 0) < least:
        yield f"{least} people on the ground"


def _past_guys(plan: Plan) -> Iterator[str]:
    if at(plan, "support.guy") and not yes(plan, "raising.guys_in_the_way", wanted=False):
        yield "way past the guys"


def _between_guys(plan: Plan) -> Iterator[str]:
    """The middle of the load, at least, lies inside the sector that its tips need."""
    found = at(plan, "raising.lift_truck")
    if found is None or not at(plan, "support.guy"):
        return
    tips = min(tip(entry) for entry in plan["beam"])
    for ring in at(plan, "support.guy"):
        sector = math.tan(math.pi / ring.get("count", 3))
        if si(found["needed_outreach"]) * sector * (1.0 + SLACK) < tips:
            yield "truck too near between the guys"


def _platform(plan: Plan, top: float) -> Iterator[str]:
    truck = at(plan, "raising.lift_truck")
    if truck is None:
        yield "a lift truck"
        return
    if (si(truck["platform_height"]) + HANDS) * (1.0 + SLACK) < top:
        yield "platform too low"
    if si(truck["outreach"]) * (1.0 + SLACK) < si(truck["needed_outreach"]):
        yield "outreach"
    if _over(CREW, truck.get("platform_capacity")):
        yield "platform for two people"
    for place in ("raising.level_access", "raising.lift_truck.operator"):
        if not yes(plan, place):
            yield place


def _wind_limit(plan: Plan, *machines: str) -> Iterator[str]:
    gust = at(plan, "raising.forecast_gust")
    for machine in machines:
        allowed = at(plan, f"raising.{machine}.wind_limit")
        if gust is not None and allowed is not None and si(gust) > (1.0 + SLACK) * si(allowed):
            yield f"gust over that of the {machine}"


def truck(plan: Plan, mass: float, top: float) -> Iterator[str]:
    """Carry the beam on a platform: two people, tools and the beam are on it."""
    yield from _platform(plan, top)
    yield from _ground(plan, 4)
    yield from _past_guys(plan)
    yield from _between_guys(plan)
    yield from _wind_limit(plan, "lift_truck")
    if not yes(plan, "raising.lift_truck.carries_beam"):
        yield "leave to carry the beam"
    if _over(CREW + mass, at(plan, "raising.lift_truck.platform_capacity")):
        yield "platform for people and beam"


def crane(plan: Plan, mass: float, top: float) -> Iterator[str]:
    """Hang the beam on a hook; somebody must reach the clamp."""
    found = at(plan, "raising.crane")
    if found is None:
        yield "a crane"
        return
    if list(_climbers(plan)) and list(_platform(plan, top)):
        yield "nobody can bolt it"
    yield from _ground(plan, 4)
    yield from _wind_limit(plan, "crane")
    for place in ("raising.crane.operator", "raising.level_access"):
        if not yes(plan, place):
            yield place
    if _over(mass / SHARE, found.get("capacity")):
        yield "crane's chart"
    # Upright legs halve the weight: no bridle asks less of a sling.
    if _over(BREAKING * mass * G / 2.0, found.get("slings")):
        yield "slings"
    if si(found["hook_height"]) * (1.0 + SLACK) < top:
        yield "hook too low"


def _hauling(plan: Plan, mass: float) -> Iterator[str]:
    line = at(plan, "raising.haul_line")
    yield from _climbers(plan)
    yield from _ground(plan, 4)
    if line is None:
        yield "a hauling line"
        return
    pull = mass * G / line.get("parts", 1)
    kept = KNOT if line.get("ends", "knot") == "knot" else 1.0
    if _over(BREAKING * pull / kept, line["breaking_strength"]):
        yield "hauling rope"
    if _over(BREAKING * mass * G, line.get("block_breaking_strength")):
        yield "top block"
    winch = line.get("capstan")
    if winch is None and mass / line.get("parts", 1) > (1.0 + SLACK) * HAND:
        yield "too heavy by hand"
    if winch is not None and any(_over(pull, winch.get(k)) for k in ("rated_pull", "fastening")):
        yield "capstan"
    if at(plan, "raising.top_rating") is None:
        yield "what the top may take sideways"


def hand_line(plan: Plan, mass: float, _top: float) -> Iterator[str]:
    """Haul it up on a rope."""
    yield from _hauling(plan, mass)
    yield from _past_guys(plan)


def gin_pole(plan: Plan, mass: float, _top: float) -> Iterator[str]:
    """Haul it over a pole at the top."""
    yield from _hauling(plan, mass)
    yield from _past_guys(plan)
    pole = at(plan, "raising.gin_pole")
    if pole is None:
        yield "a gin pole"
        return
    if _over(mass * G, pole.get("rated_load")):
        yield "gin pole's load"
    if _over(si(pole["overhang"]), pole.get("maximum_overhang")):
        yield "gin pole's overhang"
    if not yes(plan, "raising.trained_rigger"):
        yield "a rigger"


def tram(plan: Plan, mass: float, top: float) -> Iterator[str]:
    """Haul it along a carrier: W L / 4 sag level, and the slope of the chord at the tower."""
    yield from _hauling(plan, mass)
    line = at(plan, "raising.tram")
    if line is None:
        yield "a tram line"
        return
    level = mass * G * si(line["span"]) / (4.0 * si(line["sag"]))
    pulled = hypot(level, mass * G / 2.0 + level * top / si(line["span"]))
    if _over(BREAKING * pulled, line["breaking_strength"]):
        yield "carrier"
    if _over(level, line.get("anchor")):
        yield "tram anchor"
    if _over(level, at(plan, "raising.top_rating")):
        yield "top against the carrier"
    for place in ("raising.tram.back_guyed", "raising.trained_rigger"):
        if not yes(plan, place):
            yield place


def tilt(plan: Plan, mass: float, top: float) -> Iterator[str]:
    """Lay the support down: moments about the hinge of what lies on it, at 0 deg, no jerks."""
    found, tall = at(plan, "raising.tilt"), height(plan)
    if found is None or tall is None:
        yield "gear for tilting"
        return
    yield from _ground(plan, 4)
    tube = at(plan, "support.tube")
    if tube is not None and not tube.get("hinged"):
        yield "a foot that turns"
    for place in ("raising.tilt.hinged", "raising.tilt.side_guys"):
        if not yes(plan, place):
            yield place
    line, long = si(found["line_at"]), si(found.get("length", tall))
    weights = [(mass, max(0.0, top - tall + long))]
    weights += [(si(part["mass"]), si(part["at"])) for part in found.get("part", ())]
    if at(plan, "support.rotator") is not None and not found.get("part"):
        yield "weight of the rotator"
    if tube is not None:
        dense = 2700.0 if tube["material"][:2] == "60" else 7850.0
        own = dense * section(si(tube["diameter"]), si(tube["wall"]))[0] * tall
        # Of the support itself, the part beyond the line counts in bending.
        beyond = max(0.0, long - line)
        bent = sum(m * max(0.0, x - line) for m, x in weights) + own / long * beyond**2 / 2.0
        yield from _lying(plan, tube, G * bent)
        weights.append((own, long / 2.0))
    elif at(plan, "support.tower.mass") is not None:
        weights.append((si(at(plan, "support.tower.mass")), long / 2.0))
        if "allowed_moment" not in found:
            yield "bending of the lying support"
    else:
        yield "weight of the tower"
    yield from _tilt_gear(found, turning=G * sum(m * x for m, x in weights))


def _lying(plan: Plan, tube: Plan, bent: float) -> Iterator[str]:
    certified = si(tube["yield_strength"]) if "yield_strength" in tube else None
    allowed = limit(tube["material"], "allowable", certified=certified)
    modulus = section(si(tube["diameter"]), si(tube["wall"]))[2]
    if (given := at(plan, "raising.tilt.allowed_moment")) is not None:
        if _over(bent, given):
            yield "bending of the lying support"
    elif allowed is None or bent > (1.0 + SLACK) * 4.0 / 3.0 * allowed * modulus:
        yield "bending of the lying support"


def _tilt_gear(found: Plan, *, turning: float) -> Iterator[str]:
    """Least pulls: on a pole square to the support the whole moment is the winch line's too."""
    kept = KNOT if found.get("ends", "knot") == "knot" else 1.0
    up, line = si(found["lifter_height"]), si(found["line_at"])
    lifted = turning * hypot(up, line) / (up * line)
    out = found.get("winch_distance")
    if found["lifter"] == "gin pole":
        pull = turning * hypot(up, si(out)) / (up * si(out))
        if _over(BREAKING * lifted / kept, found.get("lift_line")):
            yield "lift line"
    else:
        behind = si(found.get("sheave_behind", 0.0))
        pull = turning * hypot(up, line + behind) / (up * line)
    if _over(BREAKING * pull / found.get("winch_parts", 1) / kept, found.get("rope")):
        yield "winch rope"
    for what, demand in (
        ("winch", pull / found.get("winch_parts", 1)), ("anchor", pull), ("hinge_rating", 0.0),
        ("lifter_rating", 0.0), ("operator_out", line),
    ):  # fmt: skip
        if _over(demand, found.get(what)):
            yield what
    back = found.get("back_line")
    if back is None or back.get("anchor") is None:
        yield "hold-back line and its anchor"


def by_hand(plan: Plan, mass: float) -> Iterator[str]:
    """Pull wire up on ropes over pulleys: rope and block with the weight alone on them."""
    yield from _ground(plan, 3)
    for place in ("raising.pulleys_up", "raising.holds_sound", "raising.ropes_clear"):
        if not yes(plan, place):
            yield place
    line = at(plan, "raising.haul_line")
    if line is None:
        yield "a hauling line"
        return
    kept = KNOT if line.get("ends", "knot") == "knot" else 1.0
    if _over(BREAKING * mass * G / line.get("parts", 1) / kept, line["breaking_strength"]):
        yield "hauling rope"
    if _over(BREAKING * mass * G, line.get("block_breaking_strength")):
        yield "top block"


_WAYS = (tilt, truck, crane, tram, gin_pole, hand_line)


# The whole lift -------------------------------------------------------------------------------


def lift_refusals(plan: Plan, entry: Plan) -> list[str]:
    """Everything for which raising a beam can be no go; empty when nothing is known against it."""
    found = list(around_refusals(plan, entry))
    gust = at(plan, "raising.forecast_gust")
    if gust is None or si(gust) > (1.0 + SLACK) * HOIST_BELOW:
        found.append("forecast gust")
    mass = least_mass(plan, entry)
    pulled = hand_wires.pulled_up(entry)
    known = height(plan) is not None or pulled
    if at(plan, "raising") is None or mass is None or not known:
        return [*found, "crew, mass or support"]
    if pulled:
        return [*found, *by_hand(plan, mass)]
    ways = {way.__name__: list(way(plan, mass, si(entry["height"]))) for way in _WAYS}
    if all(ways.values()):
        found.append(f"no way up: {ways}")
    return found


def around_refusals(plan: Plan, entry: Plan) -> Iterator[str]:
    """Power lines, boundary and ways around the foot."""
    if not yes(plan, "permits.power_lines_surveyed"):
        yield "power lines"
    high = max(si(entry["height"]), height(plan) or 0.0)
    if hand_wires.bent(entry):
        high = max(high, si(entry["height"]) + hand_wires.top(entry))
    for line in at(plan, "permits.power_line") or ():
        away = hypot(si(line["distance"]), si(line["height"])) - hypot(high, tip(entry))
        if "voltage" not in line or away < LEAST_GAP * (1.0 - SLACK):
            yield f"power line {line['name']}"
    for place in ("permits.boundary", "permits.walkway"):
        given = at(plan, place)
        # A public way may be none at all; a boundary there is always.
        if given is None and place == "permits.walkway":
            continue
        if _over(high + tip(entry), given) and not yes(plan, "raising.ground_beyond"):
            yield place
    if at(plan, "support.guy") and not (
        yes(plan, "raising.guys_in_the_way", wanted=False)
        # A no to the way past them is an answer; the ways that do not pass stay open.
        or at(plan, "raising.guys_in_the_way") not in (None, False)
    ):
        yield "guys"


def _inside(where: str, box: tuple[float, ...]) -> bool:
    north, east = (
        float(part.split()[0]) * (-1.0 if part.split()[1] in "SW" else 1.0)
        for part in where.split(",")
    )
    return box[0] <= north <= box[1] and box[2] <= east <= box[3]


def permit_refusals(plan: Plan) -> Iterator[str]:
    """What the permits need before they can call a plan within."""
    for place in ("permits.country", "site.position", "permits.boundary"):
        if at(plan, place) is None:
            yield place
    for entry in plan["beam"]:
        if at(plan, "permits.boundary") is not None:
            room = si(at(plan, "permits.boundary")) * (1.0 + SLACK)
            if tip(entry) > room or si(entry["height"]) > room:
                yield "room to the boundary"
    box = _BOXES.get(at(plan, "permits.country") or "")
    where = at(plan, "site.position")
    if box is not None and where is not None and not _inside(where, box):
        yield "the position lies in another country"
    if at(plan, "permits.country") == "US":
        # Taller than 200 ft needs notice anywhere.
        high = max(si(entry["height"]) for entry in plan["beam"])
        if high > (1.0 + SLACK) * 200.0 * FOOT:
            yield "200 ft"

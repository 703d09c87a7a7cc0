"""Textbook rules for one plan, worked by hand: what a careful owner would reckon on paper.

Nothing here comes from the programs under test: the plan is read as plain TOML, units, strengths
and constants are typed in again, and each rule is a formula of a handbook. A rule gives the least
and the greatest use (demand over limit) that the figures of the plan allow, and the places of the
plan that it needs. A program that calls a check *within* although the least use is over one, or
although a place is empty, is wrong; a plan is sound when no greatest use is over 0.9.

Sources as in docs/sources.toml: asce-7-16, ibc-nominal-speed, en-1991-1-4, en-1990, beam-theory,
plane-statics, guy-statics, ibc-1807, aluminum-design-manual, guy-turning-radius; factors of common
practice. Ice is reckoned with American editions only; a wind that is not reckoned here leaves only
what the plan lacks.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import cos, exp, hypot, inf, log, pi, sqrt
from typing import Any

import hand_wires

G = 9.80665
FOOT, INCH, POUND, MILE = 0.3048, 0.0254, 4.4482216152605, 1609.344
PSF, KSI = POUND / FOOT**2, 1000.0 * POUND / INCH**2
#: drag of round things, directionality of round things, uneven gust, holding, guys, footings
DRAG, KD, UNEVEN, HOLDING, GUY, FOOTING = 1.2, 0.95, 0.15, 1.5, 2.0, 1.5
#: room kept between what turns and a guy [m]
KEPT_FREE = 0.5
BRACKETS = "support.tube.brackets"
CONCRETE, SOIL = 150.0 * POUND / FOOT**3, 100.0 * POUND / FOOT**3

_UNITS = {
    "": 1.0, "m": 1.0, "mm": 1e-3, "cm": 1e-2, "km": 1e3, "in": INCH, "ft": FOOT, "mi": MILE,
    "m/s": 1.0, "km/h": 1.0 / 3.6, "mph": MILE / 3600.0, "kn": 1852.0 / 3600.0,
    "deg": pi / 180.0, "rad": 1.0, "deg/s": pi / 180.0, "rad/s": 1.0, "rpm": 2.0 * pi / 60.0,
    "kg": 1.0, "g": 1e-3, "lb": 0.45359237, "t": 1e3, "kg/m": 1.0, "lb/ft": 0.45359237 / FOOT,
    "N": 1.0, "kN": 1e3, "lbf": POUND, "N m": 1.0, "kN m": 1e3, "lbf ft": POUND * FOOT,
    "Pa": 1.0, "kPa": 1e3, "MPa": 1e6, "GPa": 1e9, "psi": KSI / 1e3, "ksi": KSI, "psf": PSF,
    "m2": 1.0, "cm2": 1e-4, "mm2": 1e-6, "ft2": FOOT**2, "%": 1e-2, "N m2": 1.0, "kN m2": 1e3,
    "kg/m3": 1.0, "lb/ft3": 0.45359237 / FOOT**3, "N/m3": 1.0, "kN/m3": 1e3,
    "Pa/m": 1.0, "kPa/m": 1e3, "psf/ft": PSF / FOOT,
}  # fmt: skip
_FEET = re.compile(r"([0-9.]+) *ft +([0-9.]+) *in")
_NUMBER = re.compile(r"([-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?) *(.*)")

#: yield and rupture in MPa as ASTM B210/B221 have them; the thin row of 6063-T832 not counted
_ALLOYS = {
    "6061-T6": (241.0, 262.0), "6063-T832": (241.0, 276.0), "6063-T6": (172.0, 207.0),
    "6063-T5": (110.0, 152.0), "6005A-T61": (241.0, 262.0), "6005A-T5": (214.0, 262.0),
    "6082-T6": (250.0, 295.0),
}  # fmt: skip
_STEELS = {"A500 B round": 42.0, "A500 C round": 46.0, "A53 A": 30.0, "A53 B": 35.0,
           "4130 normalized": 75.0, "unmarked pipe": 30.0}  # fmt: skip
#: breaking strength in lbf and weight in lb for 1000 ft of 7-wire strand (ASTM A475)
_STRANDS = {"1/8 in EHS": (1830.0, 32.0), "3/16 in EHS": (3990.0, 73.0),
            "1/4 in EHS": (6650.0, 121.0), "5/16 in EHS": (11200.0, 205.0)}  # fmt: skip
#: bearing in psf, lateral in psf for each foot, friction; clay holds by 130 psf (IBC 1806)
_SOILS = {"sandy gravel": (3000.0, 200.0, 0.35), "sand": (2000.0, 150.0, 0.25),
          "clay": (1500.0, 100.0, None)}  # fmt: skip
#: constant and, for B, C and D, exponent and gradient height in ft (ASCE 7 table 26.10-1)
_OLD = {"B": (7.0, 1200.0), "C": (9.5, 900.0), "D": (11.5, 700.0)}
_NEW = {"B": (7.5, 3280.0), "C": (9.8, 2460.0), "D": (11.5, 1935.0)}
_FLOORS = {"B": 0.70, "C": 0.85, "D": 1.03}
_ULTIMATE = ("ASCE 7-10", "ASCE 7-16", "ASCE 7-22", "TIA-222-H")
_DOUBLED = ("ASCE 7-05", "ASCE 7-10", "TIA-222-G")
_EDITIONS = ("ASCE 7-05", "TIA-222-G", *_ULTIMATE)
#: roughness length and least height of EN 1991-1-4 table 4.1 [m]
_TERRAINS = {"0": (0.003, 1.0), "I": (0.01, 1.0), "II": (0.05, 2.0), "III": (0.3, 5.0),
             "IV": (1.0, 10.0)}  # fmt: skip
#: factors on weight and wind: EN 1990, and towers and masts by class of EN 1993-3-1
_FACTORS = {None: (1.35, 1.5), 1: (1.0, 1.2), 2: (1.1, 1.4), 3: (1.2, 1.6)}


def si(raw: Any) -> float:
    """Read a quantity of a plan [SI]."""
    if isinstance(raw, (int, float)):
        return float(raw)
    if both := _FEET.fullmatch(raw.strip()):
        return float(both[1]) * FOOT + float(both[2]) * INCH
    number = _NUMBER.fullmatch(raw.strip())
    if number is None:
        raise ValueError(raw)
    return float(number[1]) * _UNITS[number[2].strip()]


@dataclass(frozen=True)
class HandRule:
    """One rule for one plan.

    Args:
        line: regular expression of the ledger lines that it judges
        low, high: least and greatest use; None where the plan or the rule cannot tell
        missing: places of the plan that the check needs and that are empty
        every: whether every such line must be refused, or at least one of them
    """

    line: str
    low: float | None = None
    high: float | None = None
    missing: tuple[str, ...] = ()
    every: bool = True


def at(plan: Mapping[str, Any], place: str) -> Any:
    """Value at a dotted place; None where there is none."""
    node: Any = plan
    for step in place.split("."):
        node = node.get(step) if isinstance(node, Mapping) else None
    return node


def lacking(plan: Mapping[str, Any], *places: str) -> tuple[str, ...]:
    return tuple(place for place in places if at(plan, place) is None)


# Wind and ice ---------------------------------------------------------------------------------


def kz(*, edition: str, exposure: str, height: float) -> float:
    """Exposure coefficient, c (z / zg)^(2 / alpha) with z not below 15 ft [-]."""
    constant, table = (2.41, _NEW) if edition == "ASCE 7-22" else (2.01, _OLD)
    exponent, gradient = table[exposure]
    share = min(max(height, 15.0 * FOOT) / (gradient * FOOT), 1.0)
    least = _FLOORS[exposure] if edition in ("TIA-222-G", "TIA-222-H") else 0.0
    return max(least, constant * share ** (2.0 / exponent))


def peak_pressure(plan: Mapping[str, Any], height: float) -> float:
    """Peak pressure without a factor: (1 + 7 Iv) rho vm^2 / 2, or as an engineer gave it [Pa]."""
    basis = plan["site"]["wind_basis"]
    if "pressure" in basis:
        points = [(si(z), si(q)) for z, q in basis["pressure"]]
        below = [point for point in points if point[0] <= height] or points[:1]
        above = [point for point in points if point[0] >= height] or points[-1:]
        (low, q1), (high, q2) = below[-1], above[0]
        share = 0.0 if high <= low else (height - low) / (high - low)
        return q1 + max(0.0, share) * (q2 - q1)
    rough, least = _TERRAINS[basis["terrain"]]
    hill, z = basis.get("orography", 1.0), max(height, least)
    speed = si(plan["site"]["wind"])
    for key in ("direction", "season", "probability"):
        speed *= basis.get(key, 1.0)
    mean = 0.19 * (rough / 0.05) ** 0.07 * log(z / rough) * hill * speed
    stirred = 1.0 / (hill * log(z / rough))
    return (1.0 + 7.0 * stirred) * si(basis.get("air_density", 1.25)) * mean**2 / 2.0


def european(plan: Mapping[str, Any]) -> bool:
    """Whether the wind is that of EN 1991-1-4 or an engineer's pressures."""
    basis = plan["site"].get("wind_basis", {})
    return "pressure" in basis or "EN 1991-1-4" in basis.get("edition", "")


def load_factors(plan: Mapping[str, Any]) -> tuple[float, float]:
    """Factors on weight and on wind of the plan's code."""
    basis = plan["site"]["wind_basis"]
    weight, wind = _FACTORS[basis.get("reliability_class")]
    wind = basis.get("load_factor", wind)
    return min(weight, wind), wind


def pressure(plan: Mapping[str, Any], height: float, *, ultimate: bool, iced: bool) -> float:
    """Velocity pressure of round things, 0.613 Ke Kz Kzt Kd I V^2 [Pa]."""
    if european(plan):
        return peak_pressure(plan, height) * (load_factors(plan)[1] if ultimate else 1.0)
    basis, site = plan["site"]["wind_basis"], plan["site"]
    edition = basis["edition"]
    speed = si(site["ice_basis"]["gust"]) if iced else si(site["wind"])
    if not iced and not ultimate and basis["kind"] == "ultimate":
        speed *= sqrt(0.6)
    thin = edition in ("ASCE 7-16", "ASCE 7-22", "TIA-222-H")
    air = exp(-0.0000362 * si(site.get("elevation", 0.0)) / FOOT) if thin else 1.0
    hill, weight = basis.get("topography", 1.0), basis.get("importance", 1.0)
    here = kz(edition=edition, exposure=basis["exposure"], height=height)
    return 0.613 * air * here * hill * KD * weight * speed**2


def ice_thickness(plan: Mapping[str, Any], height: float) -> float:
    """Radial ice, the larger reading where nobody said whether it is mapped [m]."""
    given = si(plan["site"].get("ice", 0.0))
    basis = at(plan, "site.ice_basis") or {}
    wind = plan["site"].get("wind_basis", {})
    grown = given * min(max(height, 1e-3), 900.0 * FOOT) ** 0.1 / (33.0 * FOOT) ** 0.1
    hill = wind.get("topography", wind.get("orography", 1.0) ** 2)
    grown *= hill**0.35 * basis.get("importance", 1.0)
    grown *= 2.0 if wind.get("edition") in _DOUBLED else 1.0
    mapped = basis.get("mapped")
    return max(given, grown) if mapped is None else grown if mapped else given


def wind_places(plan: Mapping[str, Any]) -> tuple[str, ...]:
    """Places that a wind needs: a speed with its terrain, or pressures and who gave them."""
    here = "site.wind_basis."
    if at(plan, f"{here}pressure") is not None:
        return f"{here}kind", f"{here}edition", f"{here}by"
    european = "EN 1991-1-4" in (at(plan, f"{here}edition") or "")
    terrain = "terrain" if european else "exposure"
    return "site.wind", f"{here}kind", f"{here}edition", f"{here}{terrain}"


def reckonable(plan: Mapping[str, Any], *, iced: bool = False) -> bool:
    """Whether the wind is one of the rules above, for the method of the plan."""
    basis = plan["site"].get("wind_basis", {})
    if european(plan):
        points = basis.get("pressure")
        tops = [si(entry["height"]) for entry in plan["beam"]] + [
            si(at(plan, f"support.{place}") or 0.0)
            for place in ("mast.top", "tower.height", "tube.height")
        ]
        reached = points is None or si(points[-1][0]) >= max(tops)
        return basis.get("kind") == "characteristic" and reached and not iced
    known = basis.get("edition") in _EDITIONS and not basis.get("load_factor")
    strength = at(plan, "support.method") == "strength"
    return known and not (strength and basis.get("kind") != "ultimate")


# Tubes ----------------------------------------------------------------------------------------


def section(diameter: float, wall: float) -> tuple[float, float, float]:
    """Area [m^2], second moment [m^4] and modulus [m^3] of a tube."""
    bore = max(0.0, diameter - 2.0 * wall)
    second = pi / 64.0 * (diameter**4 - bore**4)
    return pi / 4.0 * (diameter**2 - bore**2), second, 2.0 * second / diameter


def limit(material: str, method: str, *, certified: float | None = None) -> float | None:
    """Stress that a tube may carry; None where nobody says what it is made of [Pa].

    Args:
        method: ``allowable`` stresses, ``strength`` design or ``design`` values of EN 1999 and
            EN 1993
    """
    yielding = {"allowable": 1.0 / 1.65, "strength": 0.9, "design": 1.0 / 1.1}[method]
    rupturing = {"allowable": 1.0 / 1.95, "strength": 0.75, "design": 1.0 / 1.25}[method]
    if material in _ALLOYS:
        least, rupture = (1e6 * value for value in _ALLOYS[material])
        return min(yielding * (certified or least), rupturing * rupture)
    least = certified or _STEELS.get(material, 0.0) * KSI
    least = 205e6 if material == "stainless steel" and not certified else least
    steel = {"allowable": 1.0 / 1.67, "strength": 0.9, "design": 1.0}[method]
    return steel * least if least else None


def half_rows(element: Mapping[str, Any]) -> list[tuple[float, float, float]]:
    """Diameter, length and wall of each tube of one half; wall 0 where it is not given."""
    if "half" in element:
        return [(si(r[0]), si(r[1]), si(r[2]) if len(r) > 2 else 0.0) for r in element["half"]]
    return [(si(element["diameter"]), si(element["length"]) / 2.0, 0.0)]


def element_stress(
    rows: Iterable[tuple[float, float, float]], *, q: float, ice: float, dead: float
) -> float:
    """Highest bending stress of a stepped half element, weight and wind as squares [Pa]."""
    shear_w = moment_w = shear_q = moment_q = worst = 0.0
    for diameter, length, wall in reversed(list(rows)):
        area, _, modulus = section(diameter, wall)
        weight = dead * G * (2700.0 * area + 897.0 * pi * ice * (diameter + ice))
        wind = q * DRAG * (diameter + 2.0 * ice)
        moment_w += shear_w * length + weight * length**2 / 2.0
        moment_q += shear_q * length + wind * length**2 / 2.0
        shear_w, shear_q = shear_w + weight * length, shear_q + wind * length
        worst = max(worst, hypot(moment_w, moment_q) / modulus)
    return worst


def element_mass(element: Mapping[str, Any], ice: float = 0.0) -> float:
    """Mass of a whole element, with ice [kg]."""
    return 2.0 * sum(
        length * (2700.0 * section(diameter, wall)[0] + 897.0 * pi * ice * (diameter + ice))
        for diameter, length, wall in half_rows(element)
    )


@dataclass(frozen=True)
class Beam:
    """One beam as the rules see it: areas, weight, arms and what it asks of the mast.

    Args:
        drag_area: largest drag area of all directions [m^2]
        mass: [kg]
        clamp: mast on the boom [m]
        torque_area: wind torque for each pascal of pressure [m^3]
        inertia: about the mast [kg m^2]
        most_drag: greatest drag area where the other is a least one; 0 for the same [m^2]
        pull: least side pull of wires between mast and ropes [N]
    """

    name: str
    height: float
    drag_area: float
    mass: float
    clamp: float
    torque_area: float
    inertia: float
    most_drag: float = 0.0
    pull: float = 0.0


def fittings(entry: Mapping[str, Any]) -> list[tuple[float, float, float]]:
    """Place, mass and width of what the owner weighed; plates that nobody weighed are left out.

    So the uses are least ones; a plan that is sound by hand needs room for its plates.
    """
    found = []
    for one in entry["boom"].get("fitting", ()):
        mass, stands = si(one["mass"]), one.get("stands_for", "")
        if stands == "element hardware":
            share = mass / len(entry["element"])
            found += [(si(e["at"]), share, 0.0) for e in entry["element"]]
        elif stands == "feed box":
            driven = next(e for e in entry["element"] if e["role"] == "driven")
            found.append((si(driven["at"]), mass, 0.0))
        elif not stands:
            found.append((si(one["at"]), mass, si(one.get("span", 0.0))))
    return found


def beam(entry: Mapping[str, Any], ice: float = 0.0) -> Beam:
    """Sum up a beam of aluminium elements on a boom; every wall and the boom must be there."""
    if hand_wires.bent(entry):
        return hand_wires.beam(entry)
    boom, elements = entry["boom"], entry["element"]
    diameter, wall, length, rear = (
        si(boom[key]) for key in ("diameter", "wall", "length", "rear_end")
    )
    seen = diameter + 2.0 * ice
    tube = 2700.0 * section(diameter, wall)[0] + 897.0 * pi * ice * (diameter + ice)
    points = [(si(e["at"]), element_mass(e, ice), 2.0 * sum(r[1] for r in half_rows(e)))
              for e in elements]  # fmt: skip
    points += fittings(entry)
    mass = sum(m for _, m, _ in points) + tube * length
    middle = rear + length / 2.0
    balance = (sum(m * x for x, m, _ in points) + tube * length * middle) / mass
    clamp = si(boom["clamp"]) if "clamp" in boom else min(max(balance, rear), rear + length)
    across = sum(2.0 * (d + 2.0 * ice) * run for e in elements for d, run, _ in half_rows(e))
    extra = si(boom.get("drag_area", 0.0))
    first = sum(_first_moment(half_rows(e), ice) for e in elements)
    arms = clamp - rear, rear + length - clamp
    along = DRAG * across * abs(si(boom.get("offset", 0.0))) + UNEVEN * DRAG * first
    sideways = DRAG * seen * abs(arms[0] ** 2 - arms[1] ** 2) / 2.0
    sideways += UNEVEN * DRAG * seen * (arms[0] ** 2 + arms[1] ** 2) / 4.0
    inertia = sum(m * ((x - clamp) ** 2 + span**2 / 12.0) for x, m, span in points)
    inertia += tube * length * (length**2 / 12.0 + (middle - clamp) ** 2)
    return Beam(
        name=entry["name"],
        height=si(entry["height"]),
        drag_area=DRAG * max(across, seen * length) + extra,
        mass=mass,
        clamp=clamp,
        torque_area=max(along, sideways),
        inertia=inertia,
    )


def _first_moment(rows: Iterable[tuple[float, float, float]], ice: float) -> float:
    out = total = 0.0
    for diameter, length, _ in rows:
        total += (diameter + 2.0 * ice) * length * (out + length / 2.0)
        out += length
    return total


def boom_stress(
    entry: Mapping[str, Any], *, q: float, ice: float, dead: float
) -> tuple[float, float | None]:
    """Least and greatest stress of a boom at its clamp; a tie helps against weight alone [Pa]."""
    boom, found = entry["boom"], beam(entry, ice)
    diameter, wall, length, rear = (
        si(boom[key]) for key in ("diameter", "wall", "length", "rear_end")
    )
    area, _, modulus = section(diameter, wall)
    line = dead * G * (2700.0 * area + 897.0 * pi * ice * (diameter + ice))
    least = greatest = 0.0
    for side, arm in ((-1.0, found.clamp - rear), (1.0, rear + length - found.clamp)):
        masses = [(si(e["at"]), element_mass(e, ice)) for e in entry["element"]]
        masses += [(x, m) for x, m, _ in fittings(entry)]
        down = line * arm**2 / 2.0
        down += sum(dead * G * m * max(0.0, side * (x - found.clamp)) for x, m in masses)
        wind = q * DRAG * (diameter + 2.0 * ice) * arm**2 / 2.0
        least = max(least, (wind if "tie" in boom else hypot(down, wind)) / modulus)
        greatest = max(greatest, hypot(down, wind) / modulus)
    return least, None if "tie" in boom else greatest


# The rules ------------------------------------------------------------------------------------


def _cases(plan: Mapping[str, Any]) -> Iterator[tuple[bool, str]]:
    yield False, ""
    if si(plan["site"].get("ice", 0.0)) > 0.0:
        yield True, ", ice with its wind"


def _needs(plan: Mapping[str, Any], iced: bool) -> tuple[str, ...]:
    return lacking(plan, *wind_places(plan), *(("site.ice", "site.ice_basis.gust") if iced else ()))


def _walls(entry: Mapping[str, Any], number: int) -> tuple[str, ...]:
    return tuple(
        f"beam[{number}].element[{index}] wall"
        for index, element in enumerate(entry["element"])
        if "through" not in element and any(wall == 0.0 for _, _, wall in half_rows(element))
    )


def _method(plan: Mapping[str, Any]) -> tuple[str, float]:
    """Method of elements, booms and mast, and the factor on their weight."""
    if european(plan):
        return "design", load_factors(plan)[0]
    strength = at(plan, "support.method") == "strength"
    return ("strength", 1.2) if strength else ("allowable", 1.0)


def _use(stress: float, allowed: float | None) -> float | None:
    return None if allowed is None else stress / allowed


def beam_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Elements and boom of every beam."""
    method, dead = _method(plan)
    for number, entry in enumerate(plan["beam"]):
        name, height = re.escape(entry["name"]), si(entry["height"])
        allowed = limit(entry["material"], method)
        for iced, suffix in _cases(plan):
            missing = _needs(plan, iced)
            ice = ice_thickness(plan, height) if iced else 0.0
            known = not missing and reckonable(plan, iced=iced)
            factored = method != "allowable"
            q = pressure(plan, height, ultimate=factored, iced=iced) if known else 0.0
            what = "ice with its wind" if iced else "bending in wind"
            for index, element in enumerate(() if hand_wires.bent(entry) else entry["element"]):
                rows = half_rows(element)
                walls = tuple(f"wall of {index}" for _, _, wall in rows if wall == 0.0)
                use = None
                if known and not walls and entry["material"] in _ALLOYS:
                    use = _use(element_stress(rows, q=q, ice=ice, dead=dead), allowed)
                label = rf"^{name} \w+ \(element {index + 1}\): {what}$"
                yield HandRule(label, use, use, (*missing, *walls))
            label = rf"^{name}: boom{suffix if iced else ' in wind'}$"
            absent = (*missing, *_walls(entry, number))
            if "boom" not in entry and hand_wires.bent(entry):
                continue
            if "boom" not in entry:
                yield HandRule(label, missing=(*absent, f"beam[{number}].boom"))
                continue
            low = high = None
            metals = {entry["material"], entry["boom"]["material"]}
            if hand_wires.bent(entry):
                absent += hand_wires.lacks(entry)
                if known and not absent and not iced and entry["boom"]["material"] in _ALLOYS:
                    boom = entry["boom"]
                    modulus = section(si(boom["diameter"]), si(boom["wall"]))[2]
                    allowed_boom = limit(boom["material"], method)
                    low = _use(q * hand_wires.boom_moments(entry) / modulus, allowed_boom)
            elif known and not absent and metals <= _ALLOYS.keys():
                least, most = boom_stress(entry, q=q, ice=ice, dead=dead)
                allowed_boom = limit(entry["boom"]["material"], method)
                low = _use(least, allowed_boom)
                high = None if most is None else _use(most, allowed_boom)
            yield HandRule(label, low, high, absent)


def turning_beams(plan: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """Beams on the mast: all but those on a ring."""
    rings = {ring["beam"] for ring in at(plan, "support.ring") or ()}
    rings |= {at(plan, "reach.ring")} - {None}
    return [entry for entry in plan["beam"] if entry["name"] not in rings]


def _absent_beams(plan: Mapping[str, Any], entries: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    found: list[str] = []
    for entry in entries:
        number = plan["beam"].index(entry)
        found += _walls(entry, number)
        if hand_wires.bent(entry):
            found += hand_wires.lacks(entry)
            continue
        found += [] if "boom" in entry else [f"beam[{number}].boom"]
    return tuple(found)


def _plain(entries: Iterable[Mapping[str, Any]]) -> bool:
    """Whether the sums above hold: aluminium, no further wires."""
    return all(
        hand_wires.reckonable(entry)
        if hand_wires.bent(entry)
        else {entry["material"], entry["boom"]["material"]} <= _ALLOYS.keys()
        for entry in entries
        if not entry.get("wire")
    ) and not any(entry.get("wire") for entry in entries)


def mast_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Mast above its bearing, bending alone: sum(F h) + w h^2 / 2 over the modulus."""
    entries = turning_beams(plan)
    method, _ = _method(plan)
    for iced, suffix in _cases(plan):
        label = rf"^mast: bending{suffix if iced else ' at the top bearing'}$"
        missing = (*_needs(plan, iced), *lacking(plan, "support.mast"))
        missing += _absent_beams(plan, entries)
        mast = at(plan, "support.mast")
        if mast is None and entries and all(map(hand_wires.pulled_up, entries)):
            continue  # ropes hold it all: nothing is bolted to a mast
        ends = at(plan, "support.tower.height") or at(plan, "support.tube.height")
        if mast is not None and ends is not None and si(mast["bearing"]) > si(ends) + 0.55:
            missing += ("support below the bearing",)
        allowed = None
        if mast is not None:
            certified = si(mast["yield_strength"]) if "yield_strength" in mast else None
            allowed = limit(mast["material"], method, certified=certified)
            missing += () if allowed else ("support.mast.yield_strength",)
        if missing or mast is None or allowed is None or not reckonable(plan, iced=iced):
            yield HandRule(label, missing=missing)
            continue
        if not _plain(entries):
            continue
        bearing, top = si(mast["bearing"]), si(mast["top"])
        middle = (bearing + top) / 2.0

        def q(height: float, iced: bool = iced) -> float:
            return pressure(plan, height, ultimate=method != "allowable", iced=iced)

        diameter = si(mast["diameter"])
        area, second, modulus = section(diameter, si(mast["wall"]))
        ice = ice_thickness(plan, top) if iced else 0.0
        moment = q(middle) * DRAG * (diameter + 2.0 * ice) * (top - bearing) ** 2 / 2.0
        weight = area * 7850.0 * G * (top - bearing)
        torque = more = 0.0
        for entry in entries:
            one = beam(entry, ice_thickness(plan, si(entry["height"])) if iced else 0.0)
            arm = one.height - bearing
            moment += (q(one.height) * one.drag_area + one.pull) * arm
            more += q(one.height) * max(0.0, one.most_drag - one.drag_area) * arm * 1.3
            torque += q(one.height) * one.torque_area
            weight += 1.2 * one.mass * G
        # A column twice as long as all of it, its stiffness taken at 0.8, 1.6 times the weight.
        back = si(mast.get("rotator_below", 0.0))
        young = 69e9 if mast["material"] in _ALLOYS else 200e9
        buckles = 0.8 * pi**2 * young * second / (2.0 * (top - bearing + back)) ** 2
        grown = inf if 1.6 * weight >= buckles else 1.0 / (1.0 - 1.6 * weight / buckles)
        worst = hypot(
            (moment + more) * grown / modulus + weight / area, sqrt(3.0) * torque / 2.0 / modulus
        )
        # A code may add a gust factor for the sway: 1.6 is that of a bare pole, the most there is.
        yield HandRule(label, moment / modulus / allowed, 1.6 * worst / allowed)


def rotator_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Rotator: wind torque, stopping torque and weight, each against its own rating."""
    turning = [entry for entry in turning_beams(plan) if not at(entry, "frame.held")]
    if at(plan, "support.rotator") is None and not turning:
        return
    if at(plan, "support.rotator") is None:
        yield HandRule(r"^rotator: holding torque$", missing=("support.rotator",))
        return
    here, entries = "support.rotator", turning_beams(plan)
    absent = (*lacking(plan, *wind_places(plan)), *_absent_beams(plan, entries))
    rotator = plan["support"]["rotator"]
    asked: dict[str, float] = {}
    if not absent and reckonable(plan) and _plain(entries):
        found = [beam(entry) for entry in entries]
        q = [pressure(plan, one.height, ultimate=False, iced=False) for one in found]
        torque = sum(p * one.torque_area for p, one in zip(q, found, strict=True))
        # Booms hung on both sides of the mast take from each other: one beam is exact.
        exact = len(found) == 1 and not hand_wires.bent(entries[0])
        asked["holding"] = HOLDING * torque if exact else 0.0
        asked["stop"] = sum(one.inertia for one in found)
    for what, key, further in (
        ("holding torque", "holding_torque", ()),
        ("turning torque", "turning_torque", ("turning_gust",)),
        ("start and stop torque", "start_stop_torque", ("turning_speed",)),
        ("vertical load", "vertical_load", ()),
        ("side force", "side_force", ()),
    ):
        places = tuple(f"{here}.{name}" for name in (key, *further))
        missing = (*absent, *lacking(plan, *places))
        use = None
        if not missing and asked:
            rated = si(rotator[key])
            if key == "holding_torque" and asked["holding"]:
                use = asked["holding"] / rated
            if key == "start_stop_torque":
                stop = si(rotator.get("stop_angle", "1 deg"))
                use = asked["stop"] * si(rotator["turning_speed"]) ** 2 / (2.0 * stop) / rated
        yield HandRule(rf"^rotator: {what}$", use, use, missing)


def reach(entry: Mapping[str, Any]) -> float | None:
    """Radius that a beam sweeps; None while the clamp is not entered [m]."""
    boom = entry.get("boom")
    if boom is None or "clamp" not in boom:
        return None
    clamp, offset = si(boom["clamp"]), abs(si(boom.get("offset", 0.0)))
    tips = [(si(e["at"]), sum(r[1] for r in half_rows(e))) for e in entry["element"]]
    ends = [(si(boom["rear_end"]) + share * si(boom["length"]), 0.0) for share in (0.0, 1.0)]
    return max(hypot(x - clamp, y + offset) for x, y in (*tips, *ends))


def room_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Room below the guys' hold: g (h - a) / h, straight guys, half a metre kept free."""
    rings = at(plan, "support.guy") or ()
    for entry in plan["beam"]:
        swept, height = reach(entry), si(entry["height"])
        over = [ring for ring in rings if height < si(ring["height"])]
        if swept is None or not over:
            continue
        least = min(
            si(ring["radius"]) * (si(ring["height"]) - height)
            / (si(ring["height"]) - si(ring.get("anchor_height", 0.0)))
            for ring in over
        )  # fmt: skip
        yield HandRule(rf"^{re.escape(entry['name'])}: room to turn$", (swept + KEPT_FREE) / least)


def side_force(
    plan: Mapping[str, Any], *, iced: bool, above: float = 0.0
) -> tuple[float, float, float]:
    """Wind on beams, mast and support by hand: force [N], moment about the foot [N m], weight [N].

    Gust factors over one that a code may add are not counted: these are least values. Wind below
    ``above`` is left out, and the moment is about that height [m].
    """
    force = moment = weight = 0.0
    for entry in plan["beam"]:
        one = beam(entry, ice_thickness(plan, si(entry["height"])) if iced else 0.0)
        height = one.height
        push = pressure(plan, height, ultimate=False, iced=iced) * one.drag_area + one.pull
        weight += one.mass * G
        if height >= above:
            force, moment = force + push, moment + push * (height - above)
    support = plan["support"]
    spans = []
    if "mast" in support:
        mast = support["mast"]
        spans.append((si(mast["bearing"]), si(mast["top"]), DRAG * si(mast["diameter"])))
    if "tube" in support:
        spans.append((0.0, si(support["tube"]["height"]), DRAG * si(support["tube"]["diameter"])))
    elif "tower" in support and "drag_width" in support["tower"] and not iced:
        # Lattice: directionality 0.85 in place of 0.95.
        width = si(support["tower"]["drag_width"]) * 0.85 / KD
        spans.append((0.0, si(support["tower"]["height"]), width))
    for low, high, width in spans:
        low = max(low, above)
        piece = max(0.0, high - low) / 50.0
        for step in range(50):
            z = low + (step + 0.5) * piece
            push = pressure(plan, z, ultimate=False, iced=iced) * width * piece
            force, moment = force + push, moment + push * (z - above)
    return force, moment, weight


def guy_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Guys of a support that can tilt at its foot: the moment of the wind is all theirs.

    From straight behind a guy it and its neighbours within a right angle carry H / cos a, and any
    pull of the others adds to it, so no sharing between rings can bring every ring under its
    limit when the moment is over the sum of all limits.
    """
    support = plan.get("support") or {}
    rings = support.get("guy") or ()
    entries = plan["beam"]
    for iced, suffix in _cases(plan):
        if not rings:
            continue
        missing = (*_needs(plan, iced), *_absent_beams(plan, entries))
        missing += tuple(f"guy[{i}].tension" for i, r in enumerate(rings) if "tension" not in r)
        label = rf"^guys at .*: tension{suffix}$"
        tilts = "tower" in support or at(support, "tube.hinged")
        if missing or not reckonable(plan, iced=iced) or not _plain(entries) or not tilts:
            yield HandRule(label, missing=missing)
            continue
        _, moment, _ = side_force(plan, iced=iced)
        held = sum(
            strand(ring)[0]
            / GUY
            * cos_of(ring)
            * pulling(ring.get("count", 3))
            * si(ring["height"])
            for ring in rings
        )
        yield HandRule(label, moment / held, every=False)


def cos_of(ring: Mapping[str, Any]) -> float:
    """Cosine of a guy against the horizontal [-]."""
    out, up = si(ring["radius"]), si(ring["height"]) - si(ring.get("anchor_height", 0.0))
    return out / hypot(out, up)


def pulling(count: int) -> float:
    """Guys that pull against a wind straight behind one of them, each by its share [-]."""
    return sum(max(0.0, cos(2.0 * pi * number / count)) for number in range(count))


def strand(ring: Mapping[str, Any]) -> tuple[float, float]:
    """Breaking strength [N] and weight of a metre [N/m] of a guy."""
    kind = ring["strand"]
    if isinstance(kind, str):
        strength, weight = _STRANDS[kind]
        return strength * POUND, weight * POUND / (1000.0 * FOOT)
    return si(kind["breaking_strength"]), si(kind["mass"]) * G


def base_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Footing of a support without guys: the larger of the entered and the reckoned loads."""
    support = plan.get("support") or {}
    base = support.get("base")
    if base is None or support.get("guy"):
        return
    pad = base["kind"] == "pad"
    label = rf"^base: {'overturning' if pad else 'depth of the block'}$"
    missing = (
        *lacking(plan, *wind_places(plan), "support.soil"),
        *_absent_beams(plan, plan["beam"]),
    )
    tower = support.get("tower")
    if (tower is not None and tower["kind"] == "bracketed") or at(plan, BRACKETS):
        return
    if missing or not reckonable(plan) or not _plain(plan["beam"]):
        entered = support.get("base_loads")
        yield HandRule(label, missing=() if entered else missing)
        return
    force, moment, weight = side_force(plan, iced=False)
    entered = support.get("base_loads") or {}
    if entered.get("kind") == "nominal":
        moment, force = max(moment, si(entered["moment"])), max(force, si(entered["shear"]))
    weight += si(tower["mass"]) * G if tower is not None and "mass" in tower else 0.0
    if "tube" in support:
        tube = support["tube"]
        area = section(si(tube["diameter"]), si(tube["wall"]))[0]
        weight += area * 7850.0 * si(tube["height"]) * G
    width = si(base["width"])
    if pad:
        thick, cover = si(base["thickness"]), si(base.get("cover", 0.0))
        depth = thick + cover - si(base.get("stands_out", 0.0))
        heavy = width**2 * (CONCRETE * thick + SOIL * cover)
        # Weights that the plan does not give are taken large: twice what is known.
        holds = (heavy + 2.0 * weight + 5e3) * width / 2.0
        yield HandRule(label, FOOTING * (moment + force * depth) / holds)
        return
    soil = support["soil"]
    if isinstance(soil, str):
        lateral = _SOILS[soil][1] * PSF / FOOT
    elif "lateral" in soil:
        lateral = si(soil["lateral"])
    else:
        yield HandRule(label, missing=("support.soil.lateral",))
        return
    lateral *= 2.0 if base.get("may_move") else 1.0
    depth, broad = si(base["depth"]), width if base.get("round") else width * sqrt(2.0)
    term = 2.34 * force / (lateral * min(depth, 12.0 * FOOT) / 3.0 * broad)
    needed = term / 2.0 * (1.0 + sqrt(1.0 + 4.36 * moment / force / term))
    yield HandRule(label, needed / depth)


def tower_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Base moment of a tower without guys against its maker's."""
    tower = at(plan, "support.tower")
    if tower is None or at(plan, "support.guy") or tower["kind"] == "bracketed":
        return
    # Its own weight on its drifted top is a moment too: W x drift, so nobody passes without it.
    drift = lacking(plan, "support.tower.top_drift")
    yield HandRule(r"^tower: weight on the drifted top$", missing=drift)
    label = r"^tower: base moment$"
    here = "support.tower.rating.base_moment"
    missing = (*lacking(plan, *wind_places(plan), here), *_absent_beams(plan, plan["beam"]))
    if "drag_width" not in tower and "lattice" not in tower:
        missing += ("support.tower.drag_width",)
    if missing or not reckonable(plan) or not _plain(plan["beam"]):
        yield HandRule(label, missing=missing)
        return
    _, moment, _ = side_force(plan, iced=False)
    yield HandRule(label, moment / si(at(plan, here)))


def guyed_tower_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """A guyed lattice: its maker's figures or drawing, and the moment of what stands above guys."""
    tower, rings = at(plan, "support.tower"), at(plan, "support.guy")
    if tower is None or not rings:
        return
    drawn = "drawing" in tower
    figures = lacking(
        plan, *(f"support.tower.rating.{key}" for key in ("section_moment", "leg_load"))
    )
    missing = () if drawn else figures
    missing = (*missing, *lacking(plan, *wind_places(plan)), *_absent_beams(plan, plan["beam"]))
    label = r"^tower: bending moment$"
    if missing or drawn or not reckonable(plan) or not _plain(plan["beam"]):
        yield HandRule(label, missing=missing)
        return
    held = max(si(ring["height"]) for ring in rings)
    moment = 0.0
    for one in (beam(entry) for entry in plan["beam"]):
        q = pressure(plan, one.height, ultimate=False, iced=False)
        moment += q * one.drag_area * max(0.0, one.height - held)
    yield HandRule(label, moment / si(tower["rating"]["section_moment"]))


def column_stress(*, yield_strength: float, slenderness: float, young: float = 200e9) -> float:
    """Allowable stress of a steel column, AISC 360 E3 with 1.67 [Pa]."""
    euler = pi**2 * young / slenderness**2
    if slenderness <= 4.71 * sqrt(young / yield_strength):
        return 0.658 ** (yield_strength / euler) * yield_strength / 1.67
    return 0.877 * euler / 1.67


def pole_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """A tube from the ground up: M / S where it is fixed and alone, and a column of steel."""
    tube, rings = at(plan, "support.tube"), at(plan, "support.guy") or ()
    if tube is None:
        return
    missing = (*lacking(plan, *wind_places(plan)), *_absent_beams(plan, plan["beam"]))
    missing += tuple(f"guy[{i}].tension" for i, r in enumerate(rings) if "tension" not in r)
    certified = si(tube["yield_strength"]) if "yield_strength" in tube else None
    if european(plan) and "kind" in plan["site"].get("wind_basis", {}):
        # Characteristic wind against strength / (W x M).
        allowed = limit(tube["material"], "design", certified=certified)
        allowed = allowed and allowed / load_factors(plan)[1]
    else:
        allowed = limit(tube["material"], "allowable", certified=certified)
    missing += () if allowed else ("support.tube.yield_strength",)
    label = r"^support tube: (bending|column and bending together)$"
    if missing or allowed is None or not reckonable(plan) or not _plain(plan["beam"]):
        yield HandRule(label, missing=missing)
        return
    brackets = at(plan, BRACKETS)
    above = si(brackets["heights"][-1]) if brackets else 0.0
    _, moment, carried = side_force(plan, iced=False, above=above)
    if not rings:
        modulus = section(si(tube["diameter"]), si(tube["wall"]))[2]
        # By AISC a round tube may use its plastic modulus; 4/3 of the elastic one is not reached.
        yield HandRule(label, 0.75 * moment / modulus / allowed)
    if tube["material"] not in _ALLOYS and not european(plan):
        use = _column_use(tube, rings, carried, 1.67 * allowed)
        yield HandRule(r"^support tube: (bending|column.*)$", use, every=False)


def _column_use(
    tube: Mapping[str, Any], rings: Iterable[Mapping[str, Any]], carried: float, strength: float
) -> float:
    """Least use of a pole as a column: the free one, or its length below the lowest guys.

    The guys pull with their initial tension alone; ends are as stiff as theory has them.
    """
    area, second, _ = section(si(tube["diameter"]), si(tube["wall"]))
    own, rings = area * 7850.0 * si(tube["height"]) * G, tuple(rings)
    if "brackets" in tube:
        # What stands free above the uppermost bracket, as if clamped there.
        free = si(tube["height"]) - si(tube["brackets"]["heights"][-1])
        length, load = max(2.0 * free, 1e-3), carried
    elif rings:
        length = min(si(ring["height"]) for ring in rings) * (1.0 if tube.get("hinged") else 0.7)
        pulls = (
            si(ring["tension"]) * sqrt(1.0 - cos_of(ring) ** 2) * ring.get("count", 3)
            for ring in rings
        )
        load = carried + own + sum(pulls)
    else:
        # A third of its own weight acts as if on top in the first sway shape.
        length, load = 2.0 * si(tube["height"]), carried + own / 3.0
    stress = column_stress(yield_strength=strength, slenderness=length / sqrt(second / area))
    return load / (area * stress)


def bracket_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Brackets of a house: the couple M / s about the hold below the uppermost one, and weights.

    Two holds are statics; of more, the moment above the uppermost is carried back over the next
    span in any case, so M / s of that span is the least.
    """
    brackets = at(plan, BRACKETS)
    if brackets is None:
        return
    yield HandRule(
        r"^support tube: wall behind its brackets$", missing=lacking(plan, f"{BRACKETS}.said_by")
    )
    missing = (*lacking(plan, *wind_places(plan)), *_absent_beams(plan, plan["beam"]))
    heights, foot = [si(each) for each in brackets["heights"]], si(brackets.get("foot", 0.0))
    unrated = lacking(plan, f"{BRACKETS}.side_force")
    label = r"^support tube: force on a house bracket$"
    if missing or unrated or not reckonable(plan) or not _plain(plan["beam"]):
        yield HandRule(label, missing=(*missing, *unrated))
    else:
        below = heights[-2] if len(heights) > 1 else foot
        _, moment, _ = side_force(plan, iced=False, above=below)
        use = moment / (heights[-1] - below) / si(brackets["side_force"])
        # A bare pole's gusts are the most there are; a span that holds on adds up to a half.
        yield HandRule(label, use, 1.6 * 1.5 * use)
    if foot > 0.0:
        unrated = lacking(plan, f"{BRACKETS}.vertical_load")
        label = r"^support tube: load straight down on its brackets$"
        if missing or unrated or not reckonable(plan) or not _plain(plan["beam"]):
            yield HandRule(label, missing=(*missing, *unrated))
            return
        tube = plan["support"]["tube"]
        area = section(si(tube["diameter"]), si(tube["wall"]))[0]
        dense = 2700.0 if tube["material"] in _ALLOYS else 7850.0
        weight = area * dense * (si(tube["height"]) - foot) * G
        weight += sum(beam(entry).mass * G for entry in plan["beam"])
        use = weight / si(brackets["vertical_load"])
        yield HandRule(label, use, 2.0 * use)


def hill_rules(plan: Mapping[str, Any]) -> Iterator[HandRule]:
    """Whether somebody looked for a hill or bluff; an engineer's pressures have it in them."""
    if at(plan, "site.wind_basis.pressure") is None and at(plan, "site.wind") is not None:
        here = "site.wind_basis." + ("orography" if european(plan) else "topography")
        yield HandRule(r"^wind: hills and bluffs near$", missing=lacking(plan, here))


def hand_rules(plan: Mapping[str, Any]) -> tuple[HandRule, ...]:
    """Every rule for a plan read as plain TOML."""
    families = (
        beam_rules, mast_rules, rotator_rules, room_rules, guy_rules, base_rules, tower_rules,
        guyed_tower_rules, pole_rules, bracket_rules, hill_rules, hand_wires.rules,
    )  # fmt: skip
    return tuple(rule for family in families for rule in family(plan))


def contradictions(
    rules: Iterable[HandRule], verdicts: Mapping[str, str], *, slack: float = 0.02
) -> list[str]:
    """Lines called within that a rule refuses.

    Args:
        verdicts: ledger line to its verdict
        slack: how far a use may be over one before it refuses, for other roundings [-]
    """
    found = []
    for rule in rules:
        lines = [name for name in verdicts if re.search(rule.line, name)]
        passed = [name for name in lines if verdicts[name] == "within"]
        if rule.missing:
            found += [
                f"{name}: within, but {', '.join(rule.missing)} is missing" for name in passed
            ]
        elif rule.low is not None and rule.low > 1.0 + slack:
            wrong = passed if rule.every or len(passed) == len(lines) else []
            found += [f"{name}: within, by hand {rule.low:.2f}" for name in wrong]
    return found


def sound(rules: Iterable[HandRule], *, most: float = 0.9) -> bool:
    """Whether no rule lacks a place and none of known use is over a share of its limit."""
    return all(not rule.missing and (rule.high is None or rule.high <= most) for rule in rules)

"""Whole plans that a careful owner would call finished: strong, rated, surveyed and signed for.

Every figure that a check may ask for is there. Sizes reach from ample to too weak for their wind,
so that whoever wants a sound plan draws again until the hand rules call it so. Stations,
makers' figures and people are made up; the places lie far from any airfield of the tables.
"""

from __future__ import annotations

import random
import tomllib
from itertools import pairwise
from typing import Any

from boomwright.plan.shapes import SHAPES, shape_plan

Table = dict[str, Any]

#: places with no airfield within 25 km, by the country they lie in
_EMPTY = {
    "US": ("46.60 N, 106.60 W", "41.50 N, 117.50 W", "42.90 N, 104.90 W"),
    "FR": ("43.50 N, 2.80 E", "43.60 N, 6.25 E"),
    "DE": ("52.80 N, 10.85 E", "53.10 N, 13.55 E"),
    "ES": ("38.10 N, 2.25 W", "38.00 N, 5.40 W"),
}
#: free-space wavelength share of a half element by role [-]
_HALVES = {"reflector": 0.246, "driven": 0.237, "director": 0.226}


def _m(value: float) -> str:
    return f"{value:.3f} m"


def _mm(value: float) -> str:
    return f"{value:.2f} mm"


def signed(rng: random.Random, answer: bool = True) -> Table:
    """An answer with who gave it and when."""
    by = rng.choice(["station owner", "crew leader", "hirer", "maker"])
    return {"answer": answer, "by": by, "on": f"2026-0{rng.randint(3, 9)}-{rng.randint(10, 28)}"}


def _element(role: str, at: float, half: float, stout: float) -> Table:
    root = stout * max(32.0, 11.5 * half)
    wide = [root * share for share in (1.0, 0.84, 0.7, 0.55)]
    # Each tube goes into the bore of the one before it, with 0.3 mm to spare.
    walls = [0.5 * (outer - inner - 0.3) for outer, inner in pairwise(wide)]
    rows = zip((0.3, 0.27, 0.23, 0.2), wide, [*walls, 1.65], strict=True)
    tubes = [[_mm(size), _m(half * share), _mm(wall)] for share, size, wall in rows]
    return {"role": role, "at": _m(at), "half": tubes}


def beam(rng: random.Random, height: float) -> Table:
    """Two to four aluminium elements on a boom for 10 to 17 m."""
    low, high = rng.choice([(28.0, 28.6), (24.89, 24.99), (21.0, 21.45), (18.068, 18.168)])
    wave = 299.8 / low
    roles = ["reflector", "driven", *["director"] * rng.randint(0, 2)]
    apart, at, elements = rng.uniform(0.12, 0.18) * wave, 0.0, []
    stout = rng.uniform(0.4, 0.72)
    for role in roles:
        elements.append(_element(role, at, _HALVES[role] * wave, stout))
        at += apart
    long = at - apart
    clamp = long / 2.0 + rng.uniform(-0.1, 0.1)
    near = round(clamp / apart) * apart
    if abs(clamp - near) < 0.2:  # the mast stands clear of every element
        clamp = near + (0.2 if clamp > near else -0.2)
    return {
        "name": "beam", "band": [f"{low} MHz", f"{high} MHz"], "design": f"{(low + high) / 2} MHz",
        "height": _m(height), "heading": f"{rng.randint(0, 359)} deg", "material": "6061-T6",
        "feed": {"kind": "split", "gap": "40 mm"}, "element": elements,
        "boom": {
            "diameter": _mm(rng.choice([50.8, 63.5, 76.2])), "wall": _mm(rng.choice([2.1, 3.2])),
            "length": _m(long + 0.2), "rear_end": "-0.1 m", "material": "6061-T6",
            "clamp": _m(clamp),
            "fitting": [{"name": "balun", "at": _m(apart), "mass": "0.8 kg"}],
        },
    }  # fmt: skip


def _american(rng: random.Random) -> Table:
    edition = rng.choice(["ASCE 7-10", "ASCE 7-16", "ASCE 7-22", "TIA-222-H"])
    return {
        "position": rng.choice(_EMPTY["US"]), "ground": "medium dry", "ice": "0 mm",
        "wind": rng.choice([f"{rng.uniform(38.0, 44.0):.1f} m/s", f"{rng.randint(86, 98)} mph"]),
        "elevation": f"{rng.randint(0, 900)} m",
        "wind_basis": {
            "kind": "ultimate", "edition": edition, "exposure": rng.choice("BC"), "topography": 1,
        },
    }  # fmt: skip


def _european(rng: random.Random, country: str) -> Table:
    return {
        "position": rng.choice(_EMPTY[country]), "ground": "medium dry", "ice": "0 mm",
        "wind": f"{rng.uniform(20.0, 23.5):.1f} m/s", "elevation": f"{rng.randint(0, 900)} m",
        "wind_basis": {
            "kind": "characteristic", "edition": f"{country} EN 1991-1-4",
            "terrain": rng.choice(["II", "III"]), "orography": 1,
        },
    }  # fmt: skip


def _iced(rng: random.Random, site: Table) -> Table:
    """Add a little ice, one time in three."""
    if rng.random() < 1.0 / 3.0:
        site["ice"] = f"{rng.uniform(2.0, 5.0):.1f} mm"
        site["ice_basis"] = {"gust": "16 m/s", "mapped": rng.random() < 0.5}
    return site


def _mast(rng: random.Random, bearing: float, top: float) -> Table:
    return {
        "diameter": _mm(rng.choice([48.3, 60.3, 73.0])), "wall": _mm(rng.uniform(3.5, 6.0)),
        "bearing": _m(bearing), "top": _m(top), "material": "4130 normalized",
        "rotator_below": _m(rng.uniform(1.0, 1.8)),
    }  # fmt: skip


def _rotator(rng: random.Random) -> Table:
    return {
        "place": "inside tower", "turning_torque": "450 N m",
        "holding_torque": f"{rng.uniform(0.5, 3.0):.2f} kN m", "start_stop_torque": "1500 N m",
        "vertical_load": "15 kN", "side_force": "20 kN", "turning_speed": "6 deg/s",
        "turning_gust": "18 m/s", "area_inside": "4 m2", "area_rule": "projected",
    }  # fmt: skip


def _permits(rng: random.Random, country: str, reach: float) -> Table:
    found: Table = {
        "country": country, "boundary": _m(rng.uniform(1.9, 3.0) * reach),
        "walkway": _m(rng.uniform(1.9, 3.0) * reach), "power_lines_surveyed": signed(rng),
    }  # fmt: skip
    if rng.random() < 0.6:
        found["power_line"] = [{
            "name": "along the lane", "distance": _m(rng.uniform(3.0, 6.0) * reach),
            "height": _m(rng.uniform(6.0, 10.0)), "voltage": rng.choice(["400 V", "11 kV"]),
        }]  # fmt: skip
    return found


def _truck(rng: random.Random, height: float) -> Table:
    return {
        "platform_height": _m(height + rng.uniform(0.0, 4.0)), "outreach": "10 m",
        "needed_outreach": "9 m", "platform_capacity": "450 kg", "wind_limit": "12.5 m/s",
        "operator": signed(rng), "carries_beam": signed(rng),
    }  # fmt: skip


def _crane(rng: random.Random, height: float) -> Table:
    return {
        "radius": _m(rng.uniform(9.0, 11.0)), "hook_height": _m(height + rng.uniform(5.0, 9.0)),
        "capacity": "900 kg", "slings": "30 kN", "wind_limit": "9 m/s", "operator": signed(rng),
    }  # fmt: skip


def _hauling(rng: random.Random) -> Table:
    line: Table = {
        "breaking_strength": "30 kN", "block_breaking_strength": "40 kN", "ends": "eye",
        "parts": rng.choice([2, 3]), "bearing": "ball",
    }  # fmt: skip
    if rng.random() < 0.5:
        line |= {"parts": 1, "capstan": {"rated_pull": "4.5 kN", "fastening": "8 kN", "turns": 5}}
    return line


def raising(rng: random.Random, way: str, height: float) -> Table:
    """Crew, answers and gear for one way up."""
    found: Table = {
        "ground_crew": rng.randint(6, 9), "forecast_gust": f"{rng.uniform(1.0, 3.8):.1f} m/s",
        "support_stands": signed(rng), "level_access": signed(rng),
        "guys_in_the_way": signed(rng, answer=False),
    }  # fmt: skip
    if way in {"crane", "hand line", "gin pole", "tram"}:
        found |= {
            "trained_climbers": rng.randint(2, 4), "training": signed(rng),
            "rescue_plan": signed(rng),
        }  # fmt: skip
    if "truck" in way:
        found["lift_truck"] = _truck(rng, height)
    if "crane" in way:
        found["crane"] = _crane(rng, height)
    if way in {"hand line", "gin pole", "tram"}:
        found |= {"haul_line": _hauling(rng), "top_rating": "12 kN", "trained_rigger": signed(rng)}
    if way == "gin pole":
        found["gin_pole"] = {
            "overhang": "3 m", "rated_load": "6 kN", "maximum_overhang": "4 m",
        }  # fmt: skip
    if way == "tram":
        found["tram"] = {
            "span": _m(rng.uniform(30.0, 40.0)), "sag": "4 m", "breaking_strength": "60 kN",
            "line_mass": "0.2 kg/m", "anchor": "15 kN", "back_guyed": signed(rng),
        }  # fmt: skip
    return found


_WAYS = ("truck", "crane", "crane and truck", "hand line", "gin pole", "tram")


def standing_tower(rng: random.Random) -> Table:
    """A self-supporting tower inside its maker's rating, on a pad."""
    tall = rng.uniform(9.0, 15.0)
    site, aerial = _iced(rng, _american(rng)), beam(rng, tall + rng.uniform(0.4, 0.8))
    top = float(aerial["height"].split()[0]) + 0.3
    return {
        "boomwright": 1, "title": "Standing tower", "site": site, "beam": [aerial],
        "support": {
            "sway": f"{rng.uniform(1.3, 2.5):.2f} Hz", "soil": "sandy gravel",
            "frost_depth": "0.5 m",
            "tower": {
                "kind": "self-supporting", "height": _m(tall), "mass": "600 kg",
                "top_drift": _m(rng.uniform(0.1, 0.4)), "drag_width": "0.35 m",
                "section": "3 m", "legs": 3,
                "lattice": {
                    "faces": 3, "face_width": "450 mm", "leg": "48 mm", "brace": "16 mm",
                    "braces": 2.2,
                },
                "rating": {
                    "area": "5 m2", "area_rule": "projected", "area_height": _m(top),
                    "speed": "52 m/s", "averaging": "3 s gust", "kind": "ultimate",
                    "exposure": "C", "edition": "TIA-222-H", "ice": "25 mm",
                    "ice_gust": "25 m/s",
                    "mast_extension": "2 m", "base_moment": "160 kN m", "base_shear": "20 kN",
                },
            },
            "mast": _mast(rng, tall, top), "rotator": _rotator(rng),
            "base": {
                "kind": "pad", "width": _m(rng.uniform(3.2, 3.8)), "thickness": "1.4 m",
                "stands_out": "0.1 m",
            },
        },
        "permits": _permits(rng, "US", top + 12.0),
        "raising": raising(rng, rng.choice(_WAYS), top),
    }  # fmt: skip


def crank_up(rng: random.Random) -> Table:
    """A crank-up tower, rated by an older edition, whose drift its maker states."""
    plan = standing_tower(rng)
    tower, site = plan["support"]["tower"], plan["site"]
    site["ice"] = "0 mm"
    site.pop("ice_basis", None)
    tower |= {"kind": "crank-up", "mass": "500 kg"}
    tower["rating"] |= {
        "speed": "42 m/s", "averaging": "fastest mile", "kind": "nominal", "edition": "TIA-222-F",
    }  # fmt: skip
    plan["title"] = "Crank-up tower"
    return plan


def guyed_lattice(rng: random.Random) -> Table:
    """A guyed lattice tower inside its maker's figures, its guys where its maker drew them."""
    tall = rng.uniform(15.0, 24.0)
    plan, out = standing_tower(rng), 0.8 * tall
    support, rings = plan["support"], (0.5 * tall, 0.95 * tall)
    site = plan["site"] = _american(rng)
    site["wind_basis"]["edition"] = rng.choice(["ASCE 7-16", "TIA-222-H"])
    tower = support["tower"]
    tower |= {"kind": "guyed", "height": _m(tall), "bending_stiffness": "1800 kN m2"}
    del tower["top_drift"]
    tower |= {"mass": "400 kg", "drag_width": "0.28 m"}
    del tower["rating"]["base_moment"], tower["rating"]["base_shear"]
    tower["rating"] |= {
        "area_height": _m(tall + 1.0), "axial": "150 kN", "section_moment": "40 kN m",
        "section_shear": "20 kN", "leg_load": "120 kN",
    }  # fmt: skip
    tower["drawing"] = {
        "height": _m(tall), "guys": [_m(ring) for ring in rings], "radius": _m(out),
        "said_by": "maker's sheet, read by the owner on 2026-02-14",
    }  # fmt: skip
    ring = {"radius": _m(out), "strand": "1/4 in EHS", "tension": "3 kN"}
    support["guy"] = [{**ring, "height": _m(height)} for height in rings]
    support["anchor"] = {"length": "1.8 m", "width": "1 m", "thickness": "0.9 m", "cover": "1.4 m"}
    support["base"] = {"kind": "pad", "width": "2 m", "thickness": "1.3 m", "stands_out": "0.1 m"}
    support["mast"] = _mast(rng, tall, tall + 0.9)
    del support["sway"]
    plan["beam"][0]["height"], plan["title"] = _m(tall + 0.6), "Guyed lattice"
    plan["permits"] = _permits(rng, "US", tall + 12.0)
    plan["raising"] = raising(rng, rng.choice(_WAYS), tall + 0.9)
    return plan


def tilting_tube(rng: random.Random) -> Table:
    """A steel tube on a hinge, held by two rings of guys, laid down to mount the beam."""
    tall, country = rng.uniform(9.0, 12.0), rng.choice(["US", "US", "FR", "DE", "ES"])
    site = _iced(rng, _american(rng) if country == "US" else _european(rng, country))
    aerial = beam(rng, tall + 0.5)
    out = 0.72 * tall
    ring = {"radius": _m(out), "strand": "1/4 in EHS", "tension": f"{rng.uniform(2.6, 3.2):.2f} kN"}
    line_at = 0.72 * tall
    return {
        "boomwright": 1, "title": "Tilting tube", "site": site, "beam": [aerial],
        "support": {
            "soil": "sandy gravel", "frost_depth": "0.5 m",
            "tube": {
                "diameter": "139.7 mm", "wall": _mm(rng.uniform(5.0, 8.0)), "height": _m(tall),
                "material": "A53 B", "hinged": True,
                "cage": {"height": "2.2 m", "side_force": "25 kN"},
            },
            "mast": _mast(rng, tall, tall + 0.8), "rotator": _rotator(rng),
            "guy": [
                {**ring, "height": _m(0.92 * tall)},
                {**ring, "height": _m(0.5 * tall)},
            ],
            "anchor": {"length": "1.6 m", "width": "1 m", "thickness": "0.8 m", "cover": "1.2 m"},
            "base": {"kind": "pier", "width": "1.0 m", "depth": "1.4 m"},
        },
        "permits": _permits(rng, country, tall + 12.0),
        "raising": {
            **raising(rng, rng.choice(["tilt", "tilt", "tilt and truck"]), tall),
            "tilt": {
                "lifter": "gin pole", "lifter_height": _m(0.45 * tall), "line_at": _m(line_at),
                "winch_distance": _m(out), "hinged": signed(rng), "side_guys": signed(rng),
                "hinge_rating": "45 kN", "lifter_rating": "40 kN", "lift_line": "120 kN",
                "winch": "30 kN", "rope": "120 kN", "ends": "eye", "anchor": "30 kN",
                "operator_out": _m(tall + 12.0),
                "back_line": {
                    "breaking_strength": "40 kN", "line_at": _m(line_at), "distance": _m(out),
                    "anchor": "12 kN",
                },
                "part": [{"name": "rotator and cage", "mass": "18 kg", "at": _m(tall - 0.4)}],
            },
        },
    }  # fmt: skip


def _machines(rng: random.Random, height: float) -> Table:
    """A truck, a crane, or both; who climbs a tube says that it is made for it."""
    found = raising(rng, rng.choice(("truck", "crane", "crane and truck")), height)
    return found | ({"climbable": signed(rng)} if "trained_climbers" in found else {})


def set_tube(rng: random.Random) -> Table:
    """A thick steel tube standing free in its pier, the beam brought by a machine."""
    plan = tilting_tube(rng)
    support, tall = plan["support"], rng.uniform(5.0, 6.5)
    for gone in ("guy", "anchor"):
        del support[gone]
    support["tube"] |= {"height": _m(tall), "diameter": "273 mm", "wall": "9.3 mm"}
    del support["tube"]["hinged"]
    support["mast"] = _mast(rng, tall, tall + 0.8)
    support["base"] = {"kind": "pier", "width": "1.5 m", "depth": _m(rng.uniform(2.6, 3.0))}
    plan["title"], plan["beam"][0]["height"] = "Set tube", _m(tall + 0.5)
    plan["raising"] = _machines(rng, tall + 0.8)
    return plan


def tube_on_a_house(rng: random.Random) -> Table:
    """A steel tube on two or three brackets of a gable, clear of the ground or standing on it."""
    plan = set_tube(rng)
    support, low, apart = plan["support"], rng.uniform(3.0, 4.5), rng.uniform(1.2, 2.2)
    heights = [low + number * apart for number in range(rng.choice([2, 2, 3]))]
    tall = heights[-1] + rng.uniform(0.6, 1.8)
    support["tube"] |= {
        "diameter": _mm(rng.choice([76.1, 88.9, 114.3])), "wall": _mm(rng.uniform(4.0, 8.0)),
        "height": _m(tall),
        "brackets": {
            "heights": [_m(height) for height in heights], "foot": _m(low - 0.3),
            "side_force": f"{rng.uniform(3.0, 20.0):.2f} kN", "vertical_load": "8 kN",
            "said_by": "structural engineer, 2026-05-04",
        },
    }  # fmt: skip
    if rng.random() < 0.3:
        del support["tube"]["brackets"]["foot"], support["tube"]["brackets"]["vertical_load"]
        support["base"] = {"kind": "pier", "width": "0.6 m", "depth": "1.2 m"}
    else:
        del support["base"], support["soil"], support["frost_depth"]
    support["mast"] = _mast(rng, tall, tall + 0.8)
    plan["title"], plan["beam"][0]["height"] = "Tube on a house", _m(tall + 0.5)
    plan["raising"] = _machines(rng, tall + 0.8)
    return plan


def first_plan(shape: str, band: str = "20 m", height: float | None = None) -> Table:
    """A first plan of wire with wind, as its owner gets it."""
    further = ("15 m",) if shape == "two-band-dipole" else ()
    plan: Table = tomllib.loads(shape_plan(shape, band=band, further=further, height=height))
    plan["site"] |= {
        "position": _EMPTY["US"][0], "wind": "40 m/s", "ice": "0 mm",
        "wind_basis": {
            "kind": "ultimate", "edition": "ASCE 7-16", "exposure": "C", "topography": 1,
        },
    }  # fmt: skip
    return plan


def wire_on_a_tube(rng: random.Random, shape: str = "") -> Table:
    """Wire on spreaders, or in ropes that somebody looked at, on a thick tube in its pier."""
    plan, shape = set_tube(rng), shape or rng.choice(_WIRE_SHAPES)
    height = None if shape == "raised-vertical" else rng.uniform(6.4, 7.6)
    entry = first_plan(shape, rng.choice(["10 m", "12 m"]), height)["beam"][0]
    frame, high = entry["frame"], float(entry["height"].split()[0])
    support, tall = plan["support"], high - 0.6
    support["tube"]["height"] = _m(tall)
    support["mast"] = _mast(rng, tall, high - 0.05)
    if "held" in frame:
        frame |= {"rope_strength": f"{rng.uniform(2.0, 6.0):.2f} kN"}
        frame["said_by"] = "arborist, 2026-05-04"
        del support["rotator"]
    else:
        stout = rng.uniform(1.7, 2.6)
        frame["spreader"]["strength"] = f"{rng.randint(250, 400)} MPa"
        for row in frame["spreader"]["sections"]:
            row[0] = _mm(stout * float(row[0].split()[0]))
    plan["title"], plan["beam"] = f"Wire: {shape}", [entry]
    plan["permits"] = _permits(rng, plan["permits"]["country"], high + 14.0)
    plan["raising"] = _machines(rng, high + 6.0)
    if "held" in frame:
        plan["raising"] |= {
            **dict.fromkeys(("pulleys_up", "holds_sound", "ropes_clear"), signed(rng)),
            "haul_line": {
                "breaking_strength": "12 kN", "block_breaking_strength": "16 kN", "ends": "eye",
            },
        }  # fmt: skip
    return plan


#: shapes of one beam that a sound plan may have: a square loop crosses a tube in its middle, and
#: wire that stands on the ground has no support to be raised on
_WIRE_SHAPES = tuple(
    shape
    for shape in SHAPES
    if shape not in {"square-loop", "two-band-dipole", "vertical", "two-verticals"}
)
#: ways to build a sound plan
KINDS = (
    standing_tower, crank_up, guyed_lattice, tilting_tube, set_tube, tube_on_a_house,
    wire_on_a_tube,
)  # fmt: skip

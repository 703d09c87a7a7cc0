"""Stations whose parts stand clear of each other, and ways to plant a clash in one.

Everything is worked by hand from the plan's own figures, with no help from the parts: a tube's
middle over the boom is half the boom, the clearance and half the tube; a guy's distance from the
tower falls in proportion with its height; what turns sweeps a ring about the mast.
"""

from __future__ import annotations

import copy
import math
import random
from typing import Any

from sound_plans import guyed_lattice, set_tube, standing_tower, tilting_tube

Table = dict[str, Any]
#: clearance of every element over its boom in these stations [m]
CLEARANCE = 0.02


def metres(text: str) -> float:
    value, unit = text.split()
    return float(value) * {"m": 1.0, "mm": 1e-3}[unit]


def _m(value: float) -> str:
    return f"{value:.5f} m"


def thick(element: Table) -> float:
    return metres(element["half"][0][0])


def half_length(element: Table) -> float:
    return sum(metres(row[1]) for row in element["half"])


def clear_station(rng: random.Random) -> Table:
    """A station with every part clear: mast beside the boom, plates that fit, room to turn."""
    kind = rng.choice([standing_tower, guyed_lattice, tilting_tube, set_tube])
    plan = kind(rng)
    beam = plan["beam"][0]
    beam["name"] = "lower"
    beam["mount"] = {"kind": "insulated above", "clearance": _m(CLEARANCE)}
    if rng.random() < 0.5:
        places = [metres(each["at"]) for each in beam["element"]]
        clamp = metres(beam["boom"]["clamp"])
        # The rods end well before the mast.
        room = abs(clamp - places[1]) - 0.12
        beam["feed"] = {
            "kind": "hairpin", "gap": "40 mm", "rod_diameter": "10 mm", "rod_spacing": "90 mm",
            "rod_length": _m(min(0.6, max(0.05, rng.uniform(0.3, 0.9) * room))),
        }  # fmt: skip
    if rng.random() < 0.4:
        _second_beam(rng, plan)
    return plan


def _second_beam(rng: random.Random, plan: Table) -> None:
    """Hang the same beam once more, well above the first, turned to where it likes."""
    apart = rng.uniform(1.2, 3.0)
    upper = copy.deepcopy(plan["beam"][0])
    upper["name"] = "upper"
    upper["height"] = _m(metres(upper["height"]) + apart)
    upper["heading"] = f"{rng.randint(0, 359)} deg"
    plan["beam"].append(upper)
    mast = plan["support"]["mast"]
    mast["top"] = _m(metres(mast["top"]) + apart)


def add_ring_beam(rng: random.Random, plan: Table, height: float) -> Table:
    """Let a copy of the beam turn on a ring round a guyed tower."""
    ring = copy.deepcopy(plan["beam"][0])
    ring["name"], ring["height"] = "ring", _m(height)
    ring["heading"] = f"{rng.randint(0, 359)} deg"
    plan["beam"].append(ring)
    plan["support"]["ring"] = [{"beam": "ring", "mass": "30 kg"}]
    return ring


def _uncut(rng: random.Random, beam: Table) -> int:
    """Number of an element that is not cut for its feed."""
    return rng.choice([k for k, each in enumerate(beam["element"]) if each["role"] != "driven"])


def _label(beam: Table, number: int) -> str:
    role = beam["element"][number]["role"]
    count = [k for k, each in enumerate(beam["element"]) if each["role"] == role]
    return f"{role} {count.index(number) + 1}" if role == "director" else role


def element_in_mast(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    beam = plan["beam"][0]
    number = rng.randrange(len(beam["element"]))
    element = beam["element"][number]
    mast = metres(plan["support"]["mast"]["diameter"])
    off = rng.uniform(-0.4, 0.4) * (thick(element) + mast)
    boom = beam["boom"]
    place = metres(element["at"]) + off
    low = metres(boom["rear_end"])
    boom["clamp"] = _m(min(max(place, low), low + metres(boom["length"])))
    beam["feed"] = {"kind": "split", "gap": "40 mm"}
    return plan, (_label(beam, number), "mast")


def rod_in_mast(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    beam = plan["beam"][0]
    boom, mast = beam["boom"], metres(plan["support"]["mast"]["diameter"])
    driven, after = (metres(each["at"]) for each in (*beam["element"][1:], beam["element"][1])[:2])
    far = after - driven if after > driven else 0.09
    long = rng.uniform(0.5, 0.8) * min(far, 1.0) if far > 0.5 else 0.6
    boom["length"] = _m(max(metres(boom["length"]), driven + 1.2))
    beside = 0.5 * (metres(boom["diameter"]) + mast) + rng.uniform(0.008, 0.03)
    boom["offset"] = _m(beside)
    boom["clamp"] = _m(driven + rng.uniform(0.4, 0.8) * long)
    beam["feed"] = {
        "kind": "hairpin", "gap": "40 mm", "rod_diameter": "12 mm",
        "rod_spacing": _m(2.0 * (beside + rng.uniform(-0.4, 0.4) * mast)), "rod_length": _m(long),
    }  # fmt: skip
    boom["hardware"] = {"rods": "forward"}
    return plan, ("rod of the hairpin", "mast")


def truss_in_element(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    beam = plan["beam"][0]
    boom = beam["boom"]
    low, clamp = metres(boom["rear_end"]), metres(boom["clamp"])
    high, rise = 0.5 * metres(boom["diameter"]), rng.uniform(0.5, 0.9)
    # The reflector stands 0.1 m from the rear end of the boom: let the truss pass its middle.
    reflector = beam["element"][0]
    over = CLEARANCE + 0.5 * thick(reflector) + rng.uniform(-0.3, 0.3) * thick(reflector)
    share_of_rise = over / (rise - high)
    arm = (clamp - metres(reflector["at"])) / (1.0 - share_of_rise)
    needed = 1.03 * arm - (clamp - low)
    if needed > 0.0:  # a boom long enough for the truss's foot
        boom["rear_end"] = _m(low - needed)
        boom["length"] = _m(metres(boom["length"]) + needed)
        low -= needed
    boom["tie"] = {"share": arm / (clamp - low), "rise": _m(rise), "area": "20 mm2",
                   "elastic_modulus": "100 GPa"}  # fmt: skip
    boom["tie"]["share"] = f"{100.0 * boom['tie']['share']:.5f} %"
    return plan, ("reflector", "boom truss")


def boom_in_mast(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    boom = plan["beam"][0]["boom"]
    both = metres(boom["diameter"]) + metres(plan["support"]["mast"]["diameter"])
    boom["offset"] = _m(rng.choice((-1.0, 1.0)) * rng.uniform(0.0, 0.45) * both)
    return plan, ("boom", "mast")


def boom_in_clamp(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    boom = plan["beam"][0]["boom"]
    held = metres(boom["diameter"]) - rng.uniform(0.003, 0.012)
    boom["hardware"] = {"boom_clamp": _m(held)}
    return plan, ("boom", "U-bolt round the boom")


def _guyed(rng: random.Random) -> Table:
    plan = guyed_lattice(rng)
    plan["beam"][0]["name"] = "upper"
    plan["beam"][0]["mount"] = {"kind": "insulated above", "clearance": _m(CLEARANCE)}
    return plan


def ring_in_guys(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = _guyed(rng)
    top = max(metres(each["height"]) for each in plan["support"]["guy"])
    radius = metres(plan["support"]["guy"][0]["radius"])
    beam = plan["beam"][0]
    clamp = metres(beam["boom"]["clamp"])
    number = _uncut(rng, beam)
    element = beam["element"][number]
    out = abs(metres(element["at"]) - clamp)
    # The guy stands between the middle of the element and its tip, as far as the tip turns.
    away = out + rng.uniform(0.35, 0.8) * half_length(element)
    away = min(away, 0.9 * math.hypot(out, half_length(element)))
    # A guy starts where a leg stands, not at the axis; the beam hangs where it is that far out.
    start = 0.45 / math.sqrt(3.0) + 0.024
    height = top * (1.0 - (away - start) / (radius - start))
    over = 0.5 * metres(beam["boom"]["diameter"]) + CLEARANCE + 0.5 * thick(element)
    add_ring_beam(rng, plan, height - over)
    return plan, ("ring", "guy")


def ring_in_tower(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = _guyed(rng)
    tall = metres(plan["support"]["tower"]["height"])
    ring = add_ring_beam(rng, plan, rng.uniform(0.15, 0.3) * tall)
    number = _uncut(rng, ring)
    # Legs stand 0.26 m from the axis: what passes nearer than that sweeps them.
    place = metres(ring["element"][number]["at"]) + rng.uniform(-0.2, 0.2)
    boom = ring["boom"]
    low, high = metres(boom["rear_end"]), metres(boom["rear_end"]) + metres(boom["length"])
    boom["clamp"] = _m(min(max(place, low), high))
    return plan, (_label(ring, number), "tower section")


def beams_in_each_other(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    while len(plan["beam"]) < 2:
        plan = clear_station(rng)
    lower, upper = plan["beam"]
    # Alike and turned alike, the upper one's boom runs through the middles of the lower one's
    # elements when it hangs as high as they do.
    number = _uncut(rng, lower)
    element = lower["element"][number]
    over = 0.5 * metres(lower["boom"]["diameter"]) + CLEARANCE + 0.5 * thick(element)
    deep = rng.uniform(-0.4, 0.4) * (thick(element) + metres(upper["boom"]["diameter"]))
    upper["height"] = _m(metres(lower["height"]) + over + deep)
    upper["heading"] = lower["heading"]
    return plan, (_label(lower, number), "of upper")


#: from the joint to the bolts of a sleeve that reaches five boom diameters to either side
_BOLTS = (0.25 * 5.0, 0.75 * 5.0)


def _joints_for(boom: Table, place: float) -> list[float]:
    """Joints that put a through bolt at a place, with room for their sleeves on the boom."""
    steps = [sign * step * metres(boom["diameter"]) for sign in (-1.0, 1.0) for step in _BOLTS]
    low, reach = metres(boom["rear_end"]), 5.0 * metres(boom["diameter"])
    high = low + metres(boom["length"])
    return [place + step for step in steps if low + reach < place + step < high - reach]


def bolt_in_mast_plate(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    boom = plan["beam"][0]["boom"]
    # Between the legs of the U-bolts round the mast, where only the plate is.
    place = metres(boom["clamp"]) + rng.uniform(-0.012, 0.012)
    boom["joints"] = [_m(rng.choice(_joints_for(boom, place)))]
    return plan, ("through bolt of the sleeve", "mast plate")


def bolt_in_element_clamp(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    beam = plan["beam"][0]
    beam["boom"]["hardware"] = {"u_bolt": "8 mm"}
    # Shell of 3 mm, half a thread, and two and a half threads for nut and spanner.
    offset = rng.choice((-1.0, 1.0)), rng.uniform(-0.005, 0.005)
    found = []
    for number, element in enumerate(beam["element"]):
        out = 0.5 * thick(element) + 0.003 + 0.004 + 0.020
        place = metres(element["at"]) + offset[0] * out + offset[1]
        found += [(number, joint) for joint in _joints_for(beam["boom"], place)]
    number, joint = rng.choice(found)
    beam["boom"]["joints"] = [_m(joint)]
    return plan, ("through bolt of the sleeve", f"{_label(beam, number)}, U-bolt")


def truss_eye_in_plate(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    beam = plan["beam"][0]
    boom, low = beam["boom"], metres(beam["boom"]["rear_end"])
    clamp, number = metres(boom["clamp"]), _uncut(rng, beam)
    place = metres(beam["element"][number]["at"]) + rng.uniform(-0.03, 0.03)
    arm = low + metres(boom["length"]) - clamp if place > clamp else clamp - low
    share = abs(place - clamp) / arm
    boom["tie"] = {"share": f"{100.0 * share:.5f} %", "rise": "1 m", "area": "20 mm2",
                   "elastic_modulus": "100 GPa"}  # fmt: skip
    return plan, (_label(beam, number), "eye of the truss")


def terminal_in_plate(rng: random.Random) -> tuple[Table, tuple[str, str]]:
    plan = clear_station(rng)
    beam = plan["beam"][0]
    # The head of a 5 mm screw takes 5 mm under the tube; over a plate of 6 mm there are 1 to 4.
    beam["mount"]["clearance"] = _m(rng.uniform(0.007, 0.010))
    beam["feed"] = {"kind": "split", "gap": "40 mm"}
    return plan, ("feed terminal", "element plate")


#: what stands proud of a part, or sits on the boom by a band of its own
OF_FASTENERS = (
    bolt_in_mast_plate,
    bolt_in_element_clamp,
    truss_eye_in_plate,
    terminal_in_plate,
)
PLANTS = (
    element_in_mast,
    rod_in_mast,
    truss_in_element,
    boom_in_mast,
    boom_in_clamp,
    ring_in_guys,
    ring_in_tower,
    beams_in_each_other,
    *OF_FASTENERS,
)

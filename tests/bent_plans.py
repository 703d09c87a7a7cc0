"""Plans of wire with corners, invented: a beam on a frame, a loop, a vee, verticals."""

from __future__ import annotations

HEAD = """\
boomwright = 1
title = "Wire"
[site]
ground = "{ground}"
[[beam]]
name = "20m"
band = ["14.000 MHz", "14.350 MHz"]
design = "14.175 MHz"
height = "{height}"
heading = "0 deg"
material = "copper"
feed = {{ kind = "split", gap = "40 mm" }}
"""

#: two elements bent into a hexagon of 3.2 m spreaders
HEXAGON = """\
  [beam.frame]
  points = [
    ["front", "2.771 m", "1.6 m", "0 m"],
    ["side", "0 m", "3.2 m", "0 m"],
    ["rear", "-2.771 m", "1.6 m", "0 m"],
  ]
  [[beam.element]]
  role = "reflector"
  at = "-2.771 m"
  diameter = "2 mm"
  length = "10.52 m"
  through = ["rear", "side", "front"]
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "2 mm"
  length = "11.14 m"
  through = ["front", "side"]
  insulation = { thickness = "0.2 mm", permittivity = 2.3 }
"""

#: one wire through a point
VEE = """\
  [beam.frame]
  points = [["end", "{x} m", "{y} m", "{z} m"]]
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "{diameter} m"
  length = "{length} m"
  through = ["end"]
"""

#: a square loop fed in the middle of its lower side
LOOP = """\
  [beam.frame]
  points = [
    ["bottom", "0 m", "0 m", "-2.7 m"],
    ["lower corner", "0 m", "2.7 m", "-2.7 m"],
    ["upper corner", "0 m", "2.7 m", "2.7 m"],
    ["top", "0 m", "0 m", "2.7 m"],
  ]
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "{diameter} m"
  length = "{length} m"
  through = ["bottom", "lower corner", "upper corner", "top"]
"""

#: a quarter wave over radials
UPRIGHT = """\
  [beam.frame]
  points = [["foot", "0 m", "0 m", "0 m"], ["top", "0 m", "0 m", "8 m"]]
  [beam.radials]
  count = {count}
  length = "5.2 m"
  diameter = "2 mm"
  laid = "{laid}"
  slope = "{slope} deg"
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "2 mm"
  length = "5.1 m"
  through = ["foot", "top"]
"""


#: ropes at the ends of a dipole
HELD = """\
  pull = "40 N"
  held = "ropes"
  rope_strength = "4 kN"
  said_by = "arborist, 2026-05-04"
"""

#: what carries the hexagon, with every key of a frame
SPREADER = """\
  hub = "0 m"
  hub_mass = "1.5 kg"
  pull = "15 N"
    [beam.frame.spreader]
    to = ["front", "side", "rear"]
    sections = [["32 mm", "1.1 m", "2.5 mm"], ["26 mm", "1.1 m", "2.5 mm"], ["19 mm", "1.1 m"]]
    elastic_modulus = "20 GPa"
    density = "1900 kg/m3"
    strength = "200 MPa"
"""


def hexagon(ground="free space", height="10.6 m", spreader=""):
    text = HEAD.format(ground=ground, height=height) + HEXAGON
    return text.replace("  ]\n", f"  ]\n{spreader}", 1)


def vee(
    x=0.0, y=6.0, z=0.0, length=10.2, diameter=0.002, ground="free space", height="12 m", held=""
):
    body = VEE.format(x=x, y=y, z=z, length=length, diameter=diameter)
    body = body.replace('m"]]\n', f'm"]]\n{held}', 1)
    return HEAD.format(ground=ground, height=height) + body


def loop(length=22.4, diameter=0.002, ground="free space", height="12 m"):
    return HEAD.format(ground=ground, height=height) + LOOP.format(length=length, diameter=diameter)


def upright(count=32, laid="buried", slope=0, ground="medium dry", height="0.1 m"):
    return HEAD.format(ground=ground, height=height) + UPRIGHT.format(
        count=count, laid=laid, slope=slope
    )

"""A small plan for which Reach has power, heading and height to propose."""

from __future__ import annotations

PLAN = """boomwright = 1
title = "A dipole above a terrace"

[site]
position = "52.20 N, 0.10 E"
ground = "medium dry"

[[beam]]
name = "10m"
band = ["28.0 MHz", "29.0 MHz"]
design = "28.5 MHz"
height = "5 m"
heading = "20 deg"
material = "copper"
feed = { kind = "split", gap = "20 mm" }
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "2 mm"
  length = "5.0 m"

[transmitter]
power = "5 kW"
emission = "carrier"
transmit = "6 min"
listen = "0 min"

[reach]
wanted = ["10 deg"]
target = [{ name = "Azores", position = "38.5 N, 28.0 W" }]

[permits]
country = "GB"
exposure = [{ place = "terrace", distance = "8 m", height = "1.8 m" }]
"""

"""Small plans for the feed: two elements in free space, so that the field is quick."""

from __future__ import annotations

from functools import lru_cache

from boomwright.plan import read_plan
from boomwright.study.feed import feed_plan
from boomwright.study.feed_parts.results import FeedResult

TEXT = """boomwright = 1
title = "Two elements for a test"

[site]
ground = "free space"

[[beam]]
name = "15m"
band = ["21.000 MHz", "21.450 MHz"]
design = "21.200 MHz"
height = "12 m"
heading = "0 deg"
material = "6061-T6"
feed = FEED
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["25.4 mm", "1.5 m"], ["19.05 mm", "2.12 m"]]
  [[beam.element]]
  role = "driven"
  at = "2.0 m"
  half = [["25.4 mm", "1.5 m"], ["19.05 mm", "1.86 m"]]
"""
STATION = """
[transmitter]
power = "100 W"
emission = "morse"

[line]
type = "RG-213"
length = "30 m"
choke = ["3000 ohm", "2000 ohm"]
"""
GAMMA = '{ kind = "gamma", rod_diameter = "9.5 mm", rod_spacing = "90 mm" }'
SPLIT = '{ kind = "split", gap = "20 mm" }'


def plan_text(feed: str, *, station: bool = True) -> str:
    """Write the plan with a feed, with or without line and power."""
    return TEXT.replace("FEED", feed) + (STATION if station else "")


@lru_cache
def solved(feed: str, *, station: bool = True) -> FeedResult:
    """Solve the feed of such a plan, once in a run of the tests."""
    return feed_plan(read_plan(plan_text(feed, station=station), source="test.toml"))

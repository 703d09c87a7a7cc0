"""A result of every kind there is a report on, computed once for all tests of the readers."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import boomwright as bw
from boomwright.plan import read_place, read_plan
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.session.plan_session import PlanSession
from boomwright.study.advice.advise import advise
from boomwright.study.advice.table import usual_table
from boomwright.study.computing import compute
from boomwright.study.cost import price_plan
from boomwright.study.frontier_fit import beam_trade_off
from boomwright.study.permits import permit_plan
from boomwright.study.raising import raise_plan
from boomwright.study.structure import structure_plan
from boomwright.web import PlanDesk

ROOT = Path(__file__).resolve().parents[3]
DAY = "2026-11-25"

BEAM = """boomwright = 1
title = "Two elements for 6 m"
[site]
ground = "free space"
[[beam]]
name = "6m"
band = ["50.0 MHz", "50.5 MHz"]
design = "50.2 MHz"
height = "10 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["16 mm", "1.0 m", "1.5 mm"], ["12 mm", "0.48 m", "1 mm"]]
  [[beam.element]]
  role = "driven"
  at = "0.9 m"
  half = [["16 mm", "1.0 m", "1.5 mm"], ["12 mm", "0.40 m", "1 mm"]]
[wish]
boom = "1.2 m"
swr = 2
matched = true
"""
TWO_BANDS = f"""{BEAM}closest = "0.2 m"
bands = [{{ band = ["51.0 MHz", "51.2 MHz"], design = "51.1 MHz", driven = 2 }}]
"""
PLACE = """
boomwright = 1
title = "Corner house with a long garden"
[site]
position = "51.40 N, 0.95 W"
ground = "medium dry"
wind = "22.5 m/s"
[place]
bands = ["20 m"]
highest = "12 m"
lot = ["24 m", "16 m"]
  [[place.standing]]
  name = "the two limes"
  kind = "trees"
  height = "11 m"
[reach]
target = [{ name = "Boston", position = "42.4 N, 71.1 W" }]
"""


@pytest.fixture(scope="session")
def desk(tmp_path_factory: Any) -> PlanDesk:
    """The demo on a desk, whose session remembers what it solved."""
    folder = tmp_path_factory.mktemp("demo")
    text = packaged_text("demo.toml")
    (folder / "plan.toml").write_text(text, encoding="utf-8")
    (folder / "prices.csv").write_text(packaged_text("demo_prices.csv"), encoding="utf-8")
    session = PlanSession(folder / "plan.toml", state=None)
    return PlanDesk(session=session, name="plan.toml", text=text)


@pytest.fixture(scope="session")
def results(desk: PlanDesk) -> dict[str, Any]:
    """A result of every kind, by the name of its subject."""
    plan, session = desk.plan, desk.session
    computation = compute(plan, points=3, prepare=session._prepare)
    files, table = PlanFolder(session._path.parent), usual_table()
    light = replace(
        table,
        shape=tuple(row for row in table.shape if row.name == "inverted-vee"),
        support=tuple(row for row in table.support if row.kind == "trees"),
    )
    return {
        "compute": computation,
        "feed": session._feed_of(plan),
        "reach": session._reach_of(plan),
        "structure": structure_plan(plan),
        "permits": permit_plan(plan, exposure=()),
        "cost": price_plan(plan, files=files, today=DAY),
        "raising": raise_plan(plan, measured=computation.as_measured, today=DAY),
        "tuning": bw.tune(bw.load(ROOT / "examples/tuning/three-elements-20m.toml")),
        "trade-off": beam_trade_off(plan.beams[0]),
        "improve": bw.improve(read_plan(BEAM), starts=2, compare=True, tolerance=True),
        "bands": bw.improve(read_plan(TWO_BANDS), starts=2),
        "advice": advise(read_place(PLACE), table=light),
    }

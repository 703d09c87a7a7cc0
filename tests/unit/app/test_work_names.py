"""Every name that ``cost --json`` and ``raise --json`` print has its line in the nomenclature."""

from __future__ import annotations

import re
from pathlib import Path

from boomwright.plan import read_plan
from boomwright.render.json.cost import cost_document
from boomwright.render.json.raising import raising_document
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.study.as_measured import measure_plan
from boomwright.study.cost import price_plan
from boomwright.study.raising import raise_plan

DAY = "2026-11-25"


def names(found: object) -> set[str]:
    if isinstance(found, dict):
        return set(found).union(*(names(value) for value in found.values()))
    return set().union(*(names(value) for value in found)) if isinstance(found, list) else set()


def test_every_name_has_its_line(tmp_path):
    page = (Path(__file__).parents[3] / "docs" / "nomenclature.md").read_text(encoding="utf-8")
    section = page.split("## Names of `cost --json` and `raise --json`")[1].split("\n## ")[0]
    known = set(re.findall(r"`([a-z_]+)`", section)) | set(re.findall(r"^\| `(\w+)`", page, re.M))
    # What is printed as a whole value of its own kind is explained by its line.
    within = {"falls", "weather", "stops", "crew", "signals", "hold_points", "power_lines",
              "swr_check"}  # fmt: skip
    plan = read_plan(packaged_text("demo.toml"))
    (tmp_path / "prices.csv").write_text(packaged_text("demo_prices.csv"))
    cost = cost_document(price_plan(plan, files=PlanFolder(tmp_path), today=DAY))
    raised = raising_document(raise_plan(plan, measured=measure_plan(plan), today=DAY))
    for beam in raised["beams"]:
        for name in within:
            beam["lift"][name] = None
        beam["lift"]["taking_down"]["hold_points"] = None
    found = names(cost) | names(raised)
    assert found <= known, sorted(found - known)
    assert {"lines", "cutting", "changes", "methods", "picks", *within} <= found

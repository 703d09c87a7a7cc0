"""The worked stations run end to end, and the page about them says what the programs say."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path

import pytest

from boomwright.render.json.permits import permits_document
from boomwright.render.json.structure import structure_document
from boomwright.session.files import load_plan
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan
from example_stations import STATIONS

ROOT = Path(__file__).parents[2]


def test_there_are_twelve():
    assert len(STATIONS) == 12


@pytest.mark.parametrize("path", STATIONS, ids=lambda path: path.stem)
def test_a_station_runs_from_plan_to_findings(path):
    plan = load_plan(path).plan
    found = structure_plan(plan, fixes=False)
    assert not found.notices or path.stem.startswith("09"), found.notices
    for line in found.report.ledger:
        if line.verdict == "within":
            assert line.use is not None
            assert line.use <= 1.0
            assert line.basis
        if line.verdict == "not checked":
            assert line.reason
    permits = permit_plan(plan)
    for finding in permits.sheet.findings:
        assert finding.basis
        assert finding.whom_to_ask
        assert finding.dated
    for document in (structure_document(found), permits_document(permits)):
        json.dumps(document, allow_nan=False)


def test_what_a_newcomer_knows_passes_nothing():
    report = structure_plan(load_plan(STATIONS[8]).plan, fixes=False).report
    assert {line.verdict for line in report.ledger} == {"not checked"}


@pytest.mark.slow
def test_the_page_about_the_stations_is_current():
    spec = importlib.util.spec_from_file_location(
        "station_table", ROOT / "tools" / "station_table.py"
    )
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    assert (ROOT / "docs" / "stations.md").read_text(encoding="utf-8") == tool.station_page()

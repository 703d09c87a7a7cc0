"""The advice as one plain document: what ``advise --json`` prints."""

from __future__ import annotations

import math
from typing import Any

from boomwright.base.quantity import write
from boomwright.render.json.fields import fields
from boomwright.render.json.plan import verdict_document
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.judged import Candidate
from boomwright.study.advice.ranking import Step
from boomwright.study.advice.served import BandServed


def advice_document(advice: Advice) -> dict[str, Any]:
    """Write candidates, those that no other beats and those put forward as plain data."""
    return {
        "bands": list(advice.bands),
        "targets": [each.name for each in advice.wanted],
        "dipole_dbi": [list(row) for row in advice.dipole_dbi],
        "not_tried": advice.untried,
        "candidates": [
            _candidate(advice, number, each) for number, each in enumerate(advice.candidates, 1)
        ],
        "unbeaten": [number + 1 for number in advice.front],
        "put_forward": [
            {
                "number": pick.number + 1,
                "as": list(pick.kinds),
                "checked": pick.checked,
            }
            for pick in advice.picks
        ],
        "not_made": [
            {
                "name": each.station.name,
                "height_m": each.station.height,
                "reason": write(each.reason, system="metric"),
            }
            for each in advice.unmade
        ],
    }


def _candidate(advice: Advice, number: int, one: Candidate) -> dict[str, Any]:
    beside = advice.compared[number - 1]
    return {
        "number": number,
        "name": one.name,
        "height_m": one.station.height,
        "headings_deg": [math.degrees(each) for each in one.served.headings],
        "mean_db": one.served.mean_db,
        "worst_db": one.served.worst_db,
        "s_units": one.served.s_units,
        "bands": [_band(each) for each in one.served.bands],
        **fields(one, "cost", "priced_in_full"),
        "not_priced": list(one.unpriced),
        "people": None if one.people is None else list(one.people),
        "hours": one.hours,
        "over_cheaper": _step(beside.cheaper),
        "sure": advice.sure(number - 1),
        **fields(beside, "metre_db", "metre_cost"),
        "element": _step(beside.element),
        "stops": None if one.stops is None else write(one.stops.name, system="metric"),
        "verdict": verdict_document(one.verdict),
        "questions": [
            {
                "whom": each.whom,
                "name": write(each.finding.name, system="metric"),
                "verdict": each.finding.verdict,
            }
            for each in one.questions
        ],
        "assumed": list(one.assumed),
    }


def _band(served: BandServed) -> dict[str, Any]:
    return {
        "band": served.band,
        "gain_dbi": list(served.gains_dbi),
        "over_db": list(served.over_db),
        **fields(served, "swr", "line_loss_db"),
    }


def _step(step: Step | None) -> dict[str, Any] | None:
    if step is None:
        return None
    return {
        "number": step.number + 1,
        **fields(step, "gain_db", "s_units", "dearer_by"),
    }

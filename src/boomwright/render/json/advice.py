"""The advice as one plain document: what ``advise --json`` prints."""

from __future__ import annotations

import math
from typing import Any

from boomwright.base.quantity import write
from boomwright.render.json.plan import verdict_document
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.choosing import assumed
from boomwright.study.advice.judged import Candidate


def advice_document(advice: Advice) -> dict[str, Any]:
    """Write candidates, those that no other beats and those put forward as plain data."""
    return {
        "band": advice.band,
        "targets": [each.name for each in advice.wanted],
        "dipole_dbi": advice.dipole_dbi,
        "candidates": [
            _candidate(advice, number, each) for number, each in enumerate(advice.candidates, 1)
        ],
        "unbeaten": [number + 1 for number in advice.front],
        "put_forward": [
            {
                "number": pick.number + 1,
                "as": list(pick.kinds),
                "over_dipole_db": pick.over_dipole_db,
                "cheaper": None if pick.cheaper is None else pick.cheaper + 1,
                "over_cheaper_db": pick.over_cheaper_db,
                "dearer_by": pick.dearer_by,
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
    return {
        "number": number,
        "name": one.name,
        "height_m": one.station.height,
        "heading_deg": math.degrees(one.served.heading),
        "gain_dbi": list(one.served.gains_dbi),
        "mean_gain_dbi": one.served.mean_dbi,
        "worst_gain_dbi": one.served.worst_dbi,
        "swr": one.served.swr,
        "line_loss_db": one.served.line_loss_db,
        "cost": one.cost,
        "priced_in_full": one.priced_in_full,
        "people": None if one.people is None else list(one.people),
        "verdict": verdict_document(one.verdict),
        "questions": [
            {"name": write(each.name, system="metric"), "verdict": each.verdict}
            for each in one.questions
        ],
        "assumed": list(assumed(advice, one)),
    }

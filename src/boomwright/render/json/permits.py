"""The permits as one plain document: what ``permits --json`` prints."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from boomwright.render.json.fields import notice_rows
from boomwright.study.permits import PermitCheck


def permits_document(result: PermitCheck) -> dict[str, Any]:
    """Write the findings as numbers, texts, lists and dictionaries only.

    Returns
    -------
    dict[str, Any]
        the document; the unit of each figure is in its name
    """
    held = result.installation
    heights, around = held.heights, held.around
    return {
        "general_information": result.sheet.general_information,
        "country": held.country,
        "countries_looked_at": list(held.countries),
        "tables": held.tables,
        "counted": result.sheet.counted(),
        "findings": [asdict(finding) for finding in result.sheet.findings],
        "heights": {
            "structure_top_m": heights.structure_top,
            "antenna_top_m": heights.antenna_top,
            "lightning_rod_top_m": heights.lightning_rod_top,
            "crane_top_m": heights.crane_top,
            "highest_m": heights.highest,
        },
        "around": {
            "swing_radius_m": around.swing_radius,
            "boundary_m": around.boundary_distance,
            "walkway_m": around.walkway_distance,
        },
        "airports": None
        if held.airports is None
        else [
            {
                "code": airport.code,
                "name": airport.name,
                "kind": airport.kind,
                "elevation_m": airport.elevation,
                "dated": airport.dated,
            }
            for airport in held.airports
        ],
        "surfaces": [
            {
                "airport": check.airport.code,
                "ratio": check.surface.ratio,
                "paragraph": check.surface.paragraph,
                "distance_m": check.point.distance,
                "distance_used_m": check.distance,
                "allowed_amsl_m": check.allowed_amsl,
                "certain_amsl_m": check.certain_amsl,
                "known": check.point.known,
            }
            for check in result.surfaces
        ],
        "notices": notice_rows(result.all_notices),
    }

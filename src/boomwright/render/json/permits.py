"""The permits as one plain document: what ``permits --json`` prints."""

from __future__ import annotations

from typing import Any, Final

from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain_rows
from boomwright.report.permits import findings_table, surface_table
from boomwright.study.permits import PermitCheck

#: what is said of a finding beside the columns of its table
_FINDING: Final = ("verdict", "whom_to_ask", "basis", "dated", "seen", "source", "standing", "use")
_AIRPORT: Final = ("code", "name", "kind", "dated")


def permits_document(result: PermitCheck) -> dict[str, Any]:
    """Write the findings as numbers, texts, lists and dictionaries only.

    Returns:
        the document; the unit of each figure is in its name
    """
    held, findings = result.installation, result.sheet.findings
    around = held.around
    return {
        "general_information": result.sheet.general_information,
        **fields(held, "country", "countries_looked_at", "tables"),
        "counted": result.sheet.counted(),
        "findings": [
            row | {name: getattr(finding, name) for name in _FINDING}
            for row, finding in zip(plain_rows(findings_table(findings)), findings, strict=True)
        ],
        "heights": {
            f"{name}_m": getattr(held.heights, name)
            for name in (
                "structure_top", "antenna_top", "lightning_rod_top", "crane_top", "highest",
            )
        },
        "around": {
            "swing_radius_m": around.swing_radius,
            "boundary_m": around.boundary_distance,
            "walkway_m": around.walkway_distance,
        },
        "airports": None
        if held.airports is None
        else [
            {name: getattr(airport, name) for name in _AIRPORT}
            | {"elevation_m": airport.elevation}
            for airport in held.airports
        ],
        "surfaces": [
            row
            | {
                "airport": check.airport.code,
                "ratio": check.surface.ratio,
                "certain_amsl_m": check.certain_amsl,
                "known": check.point.known,
            }
            for row, check in zip(plain_rows(surface_table(result)), result.surfaces, strict=True)
        ],
        "notices": notice_rows(result.all_notices),
    }  # fmt: skip

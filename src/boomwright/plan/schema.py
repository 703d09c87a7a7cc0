"""The plan file as JSON Schema, for editors that complete and check while one types."""

from __future__ import annotations

from typing import Any

from boomwright.plan.tables.root import PLAN_VERSION, ROOT


def plan_schema() -> dict[str, Any]:
    """Describe the plan file as JSON Schema, draft 2020-12 {json-schema-2020-12}.

    It knows keys, types, units and lists, while what holds between fields (overlaps, one driven
    element) only ``read_plan`` checks.
    """
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"boomwright plan, version {PLAN_VERSION}",
        **ROOT.schema(),
    }

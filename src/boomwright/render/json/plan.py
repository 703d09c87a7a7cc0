"""What is said of a plan as a whole, its faults or its verdict, as one plain document."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from boomwright.base import Fault, PlanVerdict
from boomwright.base.quantity import write


def verdict_document(verdict: PlanVerdict) -> dict[str, Any]:
    """Write the verdict of a plan as plain data: word, counts, and all that is not within."""
    return {
        "word": verdict.word,
        "counts": verdict.counts,
        "worst": [
            {
                "name": write(finding.name, system="metric"),
                "verdict": finding.verdict,
                "use": finding.use
                if finding.use is not None and math.isfinite(finding.use)
                else None,
                "change": write(finding.change, system="metric"),
            }
            for finding in verdict.worst
        ],
    }


def fault_document(faults: Sequence[Fault]) -> dict[str, Any]:
    """Write the faults of a plan as plain data, for editors.

    Args:
        faults: the faults; none for a plan in order
    """
    return {
        "faults": [
            {
                "path": fault.path,
                "line": fault.line,
                "message": write(fault.message, system="metric"),
                "value": fault.value,
                "remedy": write(fault.remedy, system="metric"),
            }
            for fault in faults
        ]
    }

"""May it stand: every rule held against the plan, gravest first."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import Quantity
from boomwright.permits import PermitFinding
from boomwright.report.model import Fact, Report, Table, column
from boomwright.study.permits import PermitCheck

#: verdicts, gravest first
ORDER: Final = ("exceeded", "notice needed", "not checked", "ask", "within")


def permits_report(found: PermitCheck) -> Report:
    """Say which permissions to ask for, and which limits are passed."""
    sheet, held = found.sheet, found.installation
    return Report(
        subject="permits",
        title=f"Permissions for {found.plan.title}",
        answer=(
            Fact(label="Highest part above ground", value=Quantity(held.heights.highest, "span")),
            Fact(label="Beams swing over", value=Quantity(held.around.swing_radius, "span")),
            Fact(label="Mind", value=sheet.general_information),
        ),
        tables=(
            Table(
                name="findings",
                caption="What was held against which rule",
                columns=(
                    column("rule", lambda one: one.subject, key="subject"),
                    column("verdict", lambda one: one.verdict, key="verdict"),
                    column("yours", lambda one: one.value, key="value"),
                    column("limit", lambda one: one.limit, key="limit"),
                    column("means", lambda one: one.text, key="text", full=True),
                    column("basis", _basis, full=True),
                    column("ask", lambda one: one.whom_to_ask, key="whom_to_ask"),
                ),
                items=sorted(sheet.findings, key=lambda one: ORDER.index(one.verdict)),
                sentences=True,
            ),
        ),
        findings=tuple(one.finding for one in sheet.findings),
    )


def _basis(finding: PermitFinding) -> str:
    known = "" if finding.seen == "read" else f", {finding.seen}"
    return f"{finding.basis} ({finding.dated}{known})"

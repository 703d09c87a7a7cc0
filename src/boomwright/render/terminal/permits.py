"""The permits as text for a terminal."""

from __future__ import annotations

from functools import partial

from rich.console import Console
from rich.padding import Padding

from boomwright.base import UnitSystem, quantity_text
from boomwright.permits import PermitFinding
from boomwright.render.terminal.lines import (
    make_console,
    make_table,
    span_text,
    words,
)
from boomwright.study.permits import PermitCheck

#: verdicts, gravest first
ORDER = ("exceeded", "notice needed", "not checked", "ask", "within")


def print_permits(found: PermitCheck, *, system: UnitSystem) -> None:
    """Print everything found about the permissions of a plan."""
    console = make_console()
    console.print(words(found.plan.title, style="bold"))
    console.print(words(found.sheet.general_information, style="bold"))
    heights = found.installation.heights
    console.print(
        words(
            f"Highest part {span_text(heights.highest, system=system)} above ground; beams swing "
            f"over {span_text(found.installation.around.swing_radius, system=system)}."
        )
    )
    console.print()
    if found.surfaces:
        _print_surfaces(console, found, system=system)
    ranked = sorted(found.sheet.findings, key=lambda finding: ORDER.index(finding.verdict))
    for finding in ranked:
        _print_finding(console, finding)


def _print_surfaces(console: Console, found: PermitCheck, *, system: UnitSystem) -> None:
    table = make_table("airport", "distance", "used", "slope", "surface above sea level")
    far = partial(quantity_text, unit="km", system=system, form=".2f")
    for check in found.surfaces:
        height = check.allowed_amsl
        table.add_row(
            words(f"{check.airport.code} {check.airport.name}"),
            far(check.point.distance / 1e3),
            far(check.distance / 1e3),
            f"{check.surface.ratio:.0f}:1",
            "not known" if height is None else span_text(height, system=system),
        )
    console.print(table)
    console.print(words(f"Airfields: {found.installation.tables}.", style="dim"))
    console.print()


def _print_finding(console: Console, finding: PermitFinding) -> None:
    style = {"exceeded": "bold red", "notice needed": "bold red", "not checked": "bold"}
    held = " against ".join(part for part in (finding.value, finding.limit) if part)
    console.print(
        words(
            f"{finding.verdict}: {finding.subject}{f' ({held})' if held else ''}",
            style=style.get(finding.verdict, ""),
        )
    )
    known = "" if finding.seen == "read" else f", {finding.seen}"
    for text in (
        finding.text,
        f"Basis: {finding.basis} ({finding.dated}{known}). Ask: {finding.whom_to_ask}.",
    ):
        if text:
            console.print(Padding(words(text, style="dim"), (0, 0, 0, 4)))

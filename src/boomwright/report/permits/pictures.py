"""What the permits show, for page and book."""

from __future__ import annotations

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownSubject, ShownTable
from boomwright.permits import PermitFinding
from boomwright.study.permits import PermitCheck

#: verdicts, gravest first
VERDICTS = ("exceeded", "notice needed", "not checked", "ask", "within")

_TITLES = {
    "exceeded": "Exceeded",
    "notice needed": "Notice needed",
    "not checked": "Not checked",
    "ask": "To be asked",
    "within": "Within the limit",
}


def show_permits(
    found: PermitCheck,
    *,
    palette: Palette,
    system: UnitSystem = "metric",
    width: float = 520.0,
) -> ShownSubject:
    """Draw and list everything found about permissions and clearances.

    Parameters
    ----------
    width
        width of the pictures [user units]
    """
    held = found.installation
    pictures = [
        ShownPicture(
            name="elevation",
            words="Station from the side, to scale",
            svg=charts.station_elevation(
                plan=found.plan, installation=held, palette=palette, system=system, width=width
            ),
            caption="Fall circle, swing circle, and what is near at its distance.",
            behind=ShownTable(
                name="elevation-numbers",
                caption="What is near, and how far",
                table=charts.clearance_table(held, system=system),
            ),
            units=width,
        )
    ]
    if any(check.allowed_amsl is not None for check in found.surfaces):
        pictures.append(
            ShownPicture(
                name="airports",
                words="Notice surfaces of airports over the site",
                svg=charts.airport_slopes(
                    checks=found.surfaces, installation=held, palette=palette, system=system,
                    width=width,
                ),
                caption="Heights have a scale of their own, far larger than that of distances.",
                behind=ShownTable(
                    name="airports-numbers",
                    caption="Surfaces over the site, lowest first",
                    table=charts.airport_table(found.surfaces, held),
                ),
                units=width,
            )
        )  # fmt: skip
    counted = found.sheet.counted()
    return ShownSubject(
        title="Permits",
        facts=(
            *((_TITLES[word], str(counted[word])) for word in VERDICTS if word in counted),
            ("Highest part", write(Quantity(held.heights.highest, "span"), system=system)),
            ("Country", held.country or "not given"),
            *((("Tables of airfields", held.tables),) if held.tables else ()),
        ),
        pictures=tuple(pictures),
        tables=tuple(
            verdict_table(found, verdict=verdict) for verdict in VERDICTS if verdict in counted
        ),
        notices=found.all_notices,
    )


def verdict_table(found: PermitCheck, *, verdict: str) -> ShownTable:
    """List the findings of one verdict."""
    rows = [_row(finding) for finding in found.sheet.findings if finding.verdict == verdict]
    return ShownTable(
        name=f"findings-{verdict.replace(' ', '-')}",
        caption=_TITLES[verdict],
        table=ReadingTable(
            header=("Subject", "Seen, held against", "What it means", "Basis, and whom to ask"),
            rows=tuple(rows),
        ),
        note=found.sheet.general_information if verdict == "within" else "",
    )


def _row(finding: PermitFinding) -> tuple[str, ...]:
    known = "" if finding.seen == "read" else f", {finding.seen}"
    joint = "; " if finding.limit == "found out by asking" else "; held against "
    held = joint.join(part for part in (finding.value, finding.limit) if part)
    return (
        finding.subject,
        held,
        finding.text,
        f"{finding.basis} ({finding.dated}{known}). Ask {finding.whom_to_ask}.",
    )

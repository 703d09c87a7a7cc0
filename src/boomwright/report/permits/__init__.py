"""What there is to say of permissions, clearances and airspace: may it stand, and whom to ask."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any, Final

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.permits import (
    Installation,
    PermitFinding,
    SurfaceCheck,
    Verdict,
    fall_gap,
    least_clearance,
    nearest_points,
    standing_gap,
)
from boomwright.report.model import (
    Fact,
    Offered,
    Picture,
    Report,
    Table,
    cells,
    column,
    drawing,
    fact,
)
from boomwright.structure import GuyLevel
from boomwright.study.permits import PermitCheck

#: verdicts, gravest first, each with what a list of such findings is headed
_VERDICTS: Final[dict[Verdict, str]] = {
    "exceeded": "Exceeded",
    "notice needed": "Notice needed",
    "not checked": "Not checked",
    "ask": "To ask",
    "within": "Within the limit",
}


#: aerodromes named in the answer
_NEAREST: Final = 3


def permits_report(found: PermitCheck) -> Report:
    """Say which permissions to ask for, which limits are passed, and what nobody has checked."""
    sheet, held = found.sheet, found.installation
    lists = tuple(
        findings_table(one for one in sheet.findings if one.verdict == verdict)
        for verdict in _VERDICTS
        if verdict in sheet.counted()
    )
    surfaces = surface_table(found)
    drawn = any(check.allowed_amsl is not None for check in found.surfaces)
    shown_elsewhere = drawn or not found.surfaces
    return Report(
        subject="permits",
        title="Permits",
        answer=tuple(_answer(found)),
        pictures=(
            Picture(
                name="elevation",
                title="Station from the side, to scale",
                draw=drawing(charts.station_elevation, plan=found.plan, installation=held),
                caption="Fall circle, swing circle, and what is near at its distance.",
                behind=_clearances(held),
                group="pictures",
            ),
            Picture(
                name="site",
                title="Site from above, to scale",
                draw=drawing(charts.site_plan, installation=held, guys=_guys(found)),
                caption="Boundary, ways and power lines are drawn all round, because the plan "
                "gives no bearing.",
                behind=_clearances(held),
                group="pictures",
            ),
            *((_airports(found, surfaces),) if drawn else ()),
        ),
        tables=(*(() if shown_elsewhere else (surfaces,)), *lists, *_questions(sheet.findings)),
        brief=(_open(sheet.findings),),
        next=_steps(found),
        offers=_lower(found),
        findings=tuple(one.finding for one in sheet.findings),
        notices=sheet.notices,
        notices_in_tables=True,
    )


def _guys(found: PermitCheck) -> tuple[GuyLevel, ...]:
    support = found.plan.support
    return () if support is None else support.guy


def _answer(found: PermitCheck) -> Iterator[Fact]:
    held = found.installation
    counted = Counter(one.verdict for one in found.sheet.findings if not one.standing)
    told = [
        phrase("{count} {words}", count=counted[verdict], words=words.lower())
        for verdict, words in _VERDICTS.items()
        if verdict in counted
    ]
    if standing := sum(one.standing for one in found.sheet.findings):
        told.append(phrase("{count} asked of every station", count=standing))
    yield fact("Rules looked at", listed(told))
    yield fact("Note", found.sheet.general_information)
    yield from _aerodromes(held)
    lengths = (
        ("Highest part above ground", held.heights.highest),
        ("Turning radius", held.around.swing_radius),
    )
    yield from [fact(words, Quantity(far, "span")) for words, far in lengths]
    yield fact("Country", held.country or "not given")
    if held.tables:
        yield fact("Tables of airfields", held.tables)


def _aerodromes(held: Installation) -> Iterator[Fact]:
    """Name the landing places nearest to the site, as far as the tables know them."""
    if held.latitude is None or held.longitude is None or held.airports is None:
        return
    at = {"latitude": held.latitude, "longitude": held.longitude}
    near = [
        (nearest_points(each, **at)[0].distance, f"{each.code} {each.name}")
        for each in held.airports
        if each.kind != "heliport"
    ]
    told = [
        phrase("{name} {away:distance}", name=name, away=away)
        for away, name in sorted(near)[:_NEAREST]
    ]
    if told:
        yield fact("Aerodromes near", listed(told, between="; "))


def findings_table(findings: Iterable[PermitFinding]) -> Table[PermitFinding]:
    """List findings of one verdict."""
    items = tuple(findings)
    verdict: Verdict = items[0].verdict if items else "within"
    return Table(
        name=f"findings-{verdict.replace(' ', '-')}",
        caption=_VERDICTS[verdict],
        columns=(
            column("rule", lambda one: one.subject, key="subject"),
            column("yours", lambda one: one.value, key="value"),
            column("limit", lambda one: one.limit, key="limit"),
            column("what it means", lambda one: one.text, key="text"),
            column("basis, and whom to ask", _basis),
        ),
        items=items,
        group="findings",
        sentences=True,
        folded=verdict == "within",
    )


def _steps(found: PermitCheck) -> tuple[Value, ...]:
    counted = found.sheet.counted()
    steps = []
    if "exceeded" in counted:
        steps.append("change what is exceeded; each check above says how")
    if set(counted) - {"exceeded", "within"}:
        steps.append(
            "ask the offices below before you spend money; the annex, chapter Permits, has "
            "the sheet “Questions to take along”"
        )
    return tuple(steps)


def _lower(found: PermitCheck) -> tuple[Offered, ...]:
    """Propose the boom's height that keeps the local limits, where one boom is too high."""
    held, beams = found.installation, found.plan.beams
    top = held.heights.permanent_top
    limit = min((each.maximum_height or top for each in held.local_limits), default=top)
    support = 0.0 if found.plan.support is None else held.heights.structure_top
    if not max(support, held.heights.lightning_rod_top) <= limit < top:
        return ()
    tall = [
        number
        for number, beam in enumerate(beams)
        if beam.height + max(z for one in beam.elements for _, _, z in one.outline) > limit
    ]
    if not tall or not all(beams[number].shares_boom(beams[tall[0]]) for number in tall):
        return ()
    first = beams[tall[0]]
    # A hand's breadth below the limit, whatever the height is rounded to.
    lowered = math.floor(10.0 * (first.height - (top - limit)) - 0.5) / 10.0
    height = Quantity(lowered, "height")
    words = "hang the boom of {} at {}, so that nothing of it is above {:span}"
    text = phrase(words, first.name, height, limit)
    offer = Offered(text=text, place=f"beam[{tall[0]}].height", value=height)
    return (offer,) if lowered > 0.0 else ()


def _open(findings: Iterable[PermitFinding]) -> Table[PermitFinding]:
    """List what is not within, gravest first and what concerns this plan before what all ask."""
    order = list(_VERDICTS)
    items = [one for one in findings if one.verdict != "within"]
    return Table(
        name="open",
        caption="Whom to ask",
        columns=(
            column("rule", lambda one: one.subject),
            column("answer", lambda one: one.verdict),
            column("limit", lambda one: one.limit),
            column("ask", lambda one: one.whom_to_ask),
        ),
        items=sorted(items, key=lambda one: (order.index(one.verdict), one.finding.standing)),
    )


def _questions(findings: Iterable[PermitFinding]) -> tuple[Table[Any], ...]:
    """Sheet of questions to take along: each office with what it decides, and room to write."""
    asked: dict[str, list[str]] = {}
    for one in findings:
        if one.verdict != "within":
            asked.setdefault(one.whom_to_ask, []).append(one.subject)
    rows = [
        (office, subject, "", "", "") for office, subjects in asked.items() for subject in subjects
    ]
    if not rows:
        return ()
    return (
        Table(
            name="questions",
            caption="Questions to take along",
            columns=cells("office", "what to ask about", "answer", "name, file number", "date"),
            items=rows,
            note="Take along: “Station from the side” and “Site from above” of this chapter, and "
            "“What must be carried” of the chapter Structure.",
            group="findings",
            folded=True,
        ),
    )


#: how a text is known that nobody read for this sheet
_KNOWN: Final = {
    "from memory": "written from memory",
    "common practice": "common practice",
    "owner": "looked up by the owner",
}


def _basis(finding: PermitFinding) -> str:
    said = f"{finding.basis} ({finding.dated}"
    # Common practice is said once.
    known = "" if finding.seen == "read" or finding.seen in said else f", {_KNOWN[finding.seen]}"
    dated = finding.dated
    if "common practice" in finding.basis:
        dated = dated.removeprefix("common practice, ")
    return f"{finding.basis} ({dated}{known}). Ask {finding.whom_to_ask}."


def surface_table(found: PermitCheck) -> Table[SurfaceCheck]:
    """List the notice surfaces of airports over the site, lowest first."""
    ground = found.installation.site_elevation

    def allowed(check: SurfaceCheck) -> float | None:
        if ground is None or check.allowed_amsl is None:
            return None
        return max(0.0, check.allowed_amsl - ground)

    return Table(
        name="airports",
        caption="Notice surfaces of airports over the site, lowest first",
        columns=(
            column("airport", lambda check: f"{check.airport.code} {check.airport.name}"),
            column(
                "distance",
                lambda check: check.point.distance,
                kind="slope distance",
                key="distance_m",
            ),
            column(
                "distance used",
                lambda check: check.distance,
                kind="slope distance",
                key="distance_used_m",
            ),
            column("slope", lambda check: phrase("{ratio}:1", ratio=_number(check.surface.ratio))),
            column(
                "surface above sea level",
                lambda check: check.allowed_amsl,
                kind="surface height",
                key="allowed_amsl_m",
            ),
            column("allowed above ground", allowed, kind="surface height"),
            column("paragraph", lambda check: check.surface.paragraph, key="paragraph", full=True),
        ),
        items=found.surfaces,
        group="pictures",
        rows=len(found.surfaces),
    )


def _number(value: float) -> Quantity:
    return Quantity(value, "number")


def _airports(found: PermitCheck, surfaces: Table[SurfaceCheck]) -> Picture:
    return Picture(
        name="airports",
        title="Notice surfaces of airports over the site",
        draw=drawing(charts.airport_slopes, checks=found.surfaces, installation=found.installation),
        caption="Heights have a scale of their own, far larger than that of distances.",
        behind=surfaces,
        group="pictures",
    )


def _clearances(held: Installation) -> Table[Any]:
    """What stands near, and how far the station reaches towards it."""
    high, swing = held.heights.highest, held.around.swing_radius
    fall = math.hypot(held.heights.permanent_top, swing)
    edges = (
        ("boundary", held.around.boundary_distance),
        ("public way", held.around.walkway_distance),
    )
    rows: list[tuple[Value | float, ...]] = [(name, far, "", fall, swing) for name, far in edges]
    rows += [
        (
            line.name,
            line.distance,
            least_clearance(voltage=line.voltage).distance,
            fall_gap(line=line, height=high, swing_radius=swing),
            standing_gap(line=line, height=high, swing_radius=swing),
        )
        for line in held.power_lines
    ]
    return Table(
        name="elevation-numbers",
        caption="What is near, and how far",
        columns=(
            column("what is near", lambda row: row[0]),
            column("distance", lambda row: row[1], kind="clearance"),
            column("least clearance", lambda row: row[2], kind="clearance"),
            column("fall circle, or gap to it", lambda row: row[3], kind="clearance"),
            column("swing circle, or gap standing", lambda row: row[4], kind="clearance"),
        ),
        items=rows,
        rows=len(rows),
    )

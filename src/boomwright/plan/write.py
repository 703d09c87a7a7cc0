"""A plan as canonical TOML: the inverse of reading, without an owner's comments."""

from __future__ import annotations

import json
from typing import Any

from boomwright.parts import Beam, Element, Frame, Spreader, TubeSection, Wire
from boomwright.plan.directions import position_text
from boomwright.plan.faults import split_path
from boomwright.plan.format import decimal_text, quantity_text
from boomwright.plan.kinds import Flag
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.plan_text import PlanText
from boomwright.plan.spec import TableSpec
from boomwright.plan.tables.boom import BOOM
from boomwright.plan.tables.element import PHASING_LINE, POST_LINE, TRAP
from boomwright.plan.tables.feed import FEED
from boomwright.plan.tables.frame import RADIALS, through_names
from boomwright.plan.tables.further import further_lines
from boomwright.plan.tables.mount import INSULATION, MOUNT
from boomwright.plan.tables.root import PLAN_VERSION
from boomwright.plan.tables.site import GROUND_FIELD, WIND_BASIS
from boomwright.plan.writing import inline_table, table_lines, value_text


def _quoted(value: float | None, unit: str) -> str:
    return "" if value is None else json.dumps(quantity_text(value, unit, digits=14))


def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False) if value else ""


def _table(spec: TableSpec, value: Any) -> str:
    return "" if value is None else inline_table(spec, value)


def _said(**values: str) -> list[str]:
    """Lines of the keys that have something to say."""
    return [f"{key} = {text}" for key, text in values.items() if text]


def _site_lines(site: Site) -> list[str]:
    placed = site.latitude is not None and site.longitude is not None
    mapped, importance = site.ice_mapped, site.ice_importance
    ice = _said(
        gust=_quoted(site.ice_gust, "m/s"),
        mapped="" if mapped is None else value_text(Flag(), mapped),
        density=_quoted(site.ice_density, "kg/m3"),
        importance="" if importance is None else decimal_text(importance, digits=14),
    )
    return [
        "[site]",
        *_said(
            position=_text(position_text((site.latitude or 0.0, site.longitude or 0.0)))
            if placed
            else "",
            ground=value_text(GROUND_FIELD.kind, site.ground),
            wind=_quoted(site.wind_speed, "m/s"),
            ice=_quoted(site.ice_thickness, "mm"),
            elevation=_quoted(site.elevation, "m"),
        ),
        *(["", *table_lines(WIND_BASIS, site.wind_basis, "site.wind_basis")]
          if site.wind_basis.kind else []),
        *(["", "[site.ice_basis]", *ice] if ice else []),
    ]  # fmt: skip


def _element_lines(element: Element) -> list[str]:
    sections, rows = element.half, [inline_table(TRAP, trap) for trap in element.traps]
    alike = len(sections) == 1 and sections[0].wall == 0
    names = map(_text, through_names(element))
    return [
        "[[beam.element]]",
        *_said(
            role=_text(element.role),
            at=_quoted(element.position, "m"),
            diameter=_quoted(sections[0].diameter, "mm") if alike else "",
            length=_quoted(element.length, "m") if alike else "",
            half="" if alike else f"[{', '.join(map(_tube_row, sections))}]",
            traps=f"[{', '.join(rows)}]" if rows else "",
            through=f"[{', '.join(names)}]" if element.bent else "",
            phasing_line=_table(PHASING_LINE, element.phasing_line),
            mount=_table(MOUNT, element.mount),
            insulation=_table(INSULATION, element.insulation),
        ),
    ]


def _wire_lines(wire: Wire) -> list[str]:
    rows = [[decimal_text(float(value), digits=14) for value in row] for row in wire.points]
    corners = [f"[{', '.join(row)}]" for row in rows]
    return [
        "[[beam.wire]]",
        *_said(
            name=_text(wire.name),
            diameter=_quoted(wire.diameter, "mm"),
            points=f"[{', '.join(corners)}]",
            insulation=_table(INSULATION, wire.insulation),
        ),
    ]


def _frame_table(frame: Frame) -> list[str]:
    rows = [
        f"  [{_text(point.name)}, {', '.join(_quoted(value, 'm') for value in point.place)}],"
        for point in frame.points
    ]
    lines = [
        "[beam.frame]",
        "points = [",
        *rows,
        "]",
        *_said(
            hub=_quoted(frame.hub, "m"),
            hub_mass=_quoted(frame.hub_mass or None, "kg"),
            pull=_quoted(frame.pull, "N"),
            held=_text(frame.held),
            post="" if frame.post is None else _tube_row(frame.post),
            rope_strength=_quoted(frame.rope_strength, "N"),
            said_by=_text(frame.said_by),
        ),
    ]
    return lines if frame.spreader is None else [*lines, *_spreader_lines(frame.spreader)]


def _spreader_lines(spreader: Spreader) -> list[str]:
    return [
        "[beam.frame.spreader]",
        *_said(
            to=f"[{', '.join(map(_text, spreader.to))}]",
            sections=f"[{', '.join(map(_tube_row, spreader.sections))}]",
            elastic_modulus=_quoted(spreader.elastic_modulus or None, "Pa"),
            density=_quoted(spreader.density or None, "kg/m3"),
            strength=_quoted(spreader.strength or None, "Pa"),
        ),
    ]


def _tube_row(section: TubeSection) -> str:
    sides = ((section.diameter, "mm"), (section.length, "m"), (section.wall or None, "mm"))
    return f"[{', '.join(filter(None, (_quoted(*side) for side in sides)))}]"


def _beam_lines(beam: Beam, boom: BoomPlan | None) -> list[str]:
    low, high = (_quoted(frequency, "MHz") for frequency in beam.band)
    lines = [
        "[[beam]]",
        *_said(
            name=_text(beam.name),
            band=f"[{low}, {high}]",
            design=_quoted(beam.design_frequency, "MHz"),
            height=_quoted(beam.height, "m"),
            heading=_quoted(beam.heading, "deg"),
            material=_text(beam.material.name),
            feed=_table(FEED, beam.feed),
            idle_feed=_text(beam.idle_feed),
            fed_with=_text(beam.fed_with),
            post_line=_table(POST_LINE, beam.post_line),
            on_boom_of=_text(beam.on_boom_of),
        ),
    ]
    below = [] if boom is None else [table_lines(BOOM, boom, "beam.boom")]
    below += [] if beam.frame is None else [_frame_table(beam.frame)]
    below += [table_lines(RADIALS, beam.radials, "beam.radials")] if beam.radials else []
    below += [_element_lines(element) for element in beam.elements]
    below += [_wire_lines(wire) for wire in beam.wires]
    for table in below:
        lines += ["", *(f"  {line}" for line in table)]
    return lines


def write_plan(plan: Plan) -> str:
    """Write a plan as TOML in metric units."""
    lines = [
        f"boomwright = {PLAN_VERSION}",
        *_said(title=_text(plan.title), dated=_text(plan.dated)),
        "",
        *_site_lines(plan.site),
    ]
    for beam in plan.beams:
        lines += ["", *_beam_lines(beam, plan.boom_of(beam.name))]
    lines += further_lines(plan)
    text = "\n".join(lines) + "\n"
    if not plan.assumed:
        return text
    work = PlanText(text, keep_units=False)
    for each in plan.assumed:
        work.mark(split_path(each.place) or (), assumed=True)
    return work.text

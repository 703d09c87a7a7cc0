"""A plan as canonical TOML: the inverse of reading, without an owner's comments."""

from __future__ import annotations

import json

from boomwright.parts import Beam, Element, Frame, Insulation, Spreader, TubeSection, Wire
from boomwright.plan.directions import position_text
from boomwright.plan.faults import split_path
from boomwright.plan.format import decimal_text, quantity_text
from boomwright.plan.model import Plan, Site
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.plan_text import PlanText
from boomwright.plan.tables.boom import BOOM
from boomwright.plan.tables.element import PHASING_LINE, POST_LINE, TRAP
from boomwright.plan.tables.feed import FEED
from boomwright.plan.tables.frame import RADIALS, through_names
from boomwright.plan.tables.further import further_lines
from boomwright.plan.tables.mount import INSULATION, MOUNT
from boomwright.plan.tables.root import PLAN_VERSION
from boomwright.plan.tables.site import GROUND_FIELD, WIND_BASIS
from boomwright.plan.writing import inline_table, table_lines, value_text


def _quoted(value: float, unit: str) -> str:
    return json.dumps(quantity_text(value, unit, digits=14))


def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False)


def _site_lines(site: Site) -> list[str]:
    lines = ["[site]"]
    if site.latitude is not None and site.longitude is not None:
        lines.append(f'position = "{position_text((site.latitude, site.longitude))}"')
    lines.append(f"ground = {value_text(GROUND_FIELD.kind, site.ground)}")
    if site.wind_speed is not None:
        lines.append(f"wind = {_quoted(site.wind_speed, 'm/s')}")
    if site.ice_thickness is not None:
        lines.append(f"ice = {_quoted(site.ice_thickness, 'mm')}")
    if site.elevation is not None:
        lines.append(f"elevation = {_quoted(site.elevation, 'm')}")
    if site.wind_basis.kind:
        lines += ["", *table_lines(WIND_BASIS, site.wind_basis, "site.wind_basis")]
    return lines + _ice_basis_lines(site)


def _number_lines(**numbers: float | None) -> list[str]:
    return [
        f"{key} = {decimal_text(value, digits=14)}"
        for key, value in numbers.items()
        if value is not None
    ]


def _ice_basis_lines(site: Site) -> list[str]:
    lines = []
    if site.ice_gust is not None:
        lines.append(f"gust = {_quoted(site.ice_gust, 'm/s')}")
    if site.ice_mapped is not None:
        lines.append(f"mapped = {'true' if site.ice_mapped else 'false'}")
    if site.ice_density is not None:
        lines.append(f"density = {_quoted(site.ice_density, 'kg/m3')}")
    lines += _number_lines(importance=site.ice_importance)
    return ["", "[site.ice_basis]", *lines] if lines else []


def _element_lines(element: Element) -> list[str]:
    lines = [
        "[[beam.element]]",
        f"role = {_text(element.role)}",
        f"at = {_quoted(element.position, 'm')}",
    ]
    sections = element.half
    if len(sections) == 1 and sections[0].wall == 0:
        lines.append(f"diameter = {_quoted(sections[0].diameter, 'mm')}")
        lines.append(f"length = {_quoted(element.length, 'm')}")
        return lines + _further_element_lines(element)
    lines.append(f"half = [{', '.join(_tube_row(section) for section in sections)}]")
    return lines + _further_element_lines(element)


def _further_element_lines(element: Element) -> list[str]:
    rows = ", ".join(inline_table(TRAP, trap) for trap in element.traps)
    lines = [f"traps = [{rows}]"] if rows else []
    if element.bent:
        lines.append(f"through = [{', '.join(_text(name) for name in through_names(element))}]")
    if element.phasing_line is not None:
        lines.append(f"phasing_line = {inline_table(PHASING_LINE, element.phasing_line)}")
    if element.mount is not None:
        lines.append(f"mount = {inline_table(MOUNT, element.mount)}")
    return lines + _insulation_lines(element.insulation)


def _insulation_lines(insulation: Insulation | None) -> list[str]:
    return [] if insulation is None else [f"insulation = {inline_table(INSULATION, insulation)}"]


def _wire_lines(wire: Wire) -> list[str]:
    corners = [[decimal_text(float(value), digits=14) for value in row] for row in wire.points]
    points = ", ".join(f"[{', '.join(row)}]" for row in corners)
    return [
        "[[beam.wire]]",
        f"name = {_text(wire.name)}",
        f"diameter = {_quoted(wire.diameter, 'mm')}",
        f"points = [{points}]",
        *_insulation_lines(wire.insulation),
    ]


def _frame_table(frame: Frame) -> list[str]:
    rows = [
        f"  [{_text(point.name)}, {', '.join(_quoted(value, 'm') for value in point.place)}],"
        for point in frame.points
    ]
    lines = ["[beam.frame]", "points = [", *rows, "]"]
    lines += [] if frame.hub is None else [f"hub = {_quoted(frame.hub, 'm')}"]
    lines += [f"hub_mass = {_quoted(frame.hub_mass, 'kg')}"] if frame.hub_mass else []
    lines += [] if frame.pull is None else [f"pull = {_quoted(frame.pull, 'N')}"]
    lines += [f"held = {_text(frame.held)}"] if frame.held else []
    lines += [] if frame.post is None else [f"post = {_tube_row(frame.post)}"]
    rope = frame.rope_strength
    lines += [] if rope is None else [f"rope_strength = {_quoted(rope, 'N')}"]
    lines += [f"said_by = {_text(frame.said_by)}"] if frame.said_by else []
    return lines if frame.spreader is None else [*lines, *_spreader_lines(frame.spreader)]


def _spreader_lines(spreader: Spreader) -> list[str]:
    lines = [
        "[beam.frame.spreader]",
        f"to = [{', '.join(_text(name) for name in spreader.to)}]",
        f"sections = [{', '.join(_tube_row(tube) for tube in spreader.sections)}]",
    ]
    for key, unit in (("elastic_modulus", "Pa"), ("density", "kg/m3"), ("strength", "Pa")):
        if getattr(spreader, key):
            lines.append(f"{key} = {_quoted(getattr(spreader, key), unit)}")
    return lines


def _tube_row(section: TubeSection) -> str:
    row = [_quoted(section.diameter, "mm"), _quoted(section.length, "m")]
    if section.wall > 0:
        row.append(_quoted(section.wall, "mm"))
    return f"[{', '.join(row)}]"


def _frame_lines(beam: Beam) -> list[list[str]]:
    found = []
    if beam.frame is not None:
        found.append(_frame_table(beam.frame))
    if beam.radials is not None:
        found.append(table_lines(RADIALS, beam.radials, "beam.radials"))
    return found


def _beam_lines(beam: Beam, boom: BoomPlan | None) -> list[str]:
    low, high = (_quoted(frequency, "MHz") for frequency in beam.band)
    lines = [
        "[[beam]]",
        f"name = {_text(beam.name)}",
        f"band = [{low}, {high}]",
        f"design = {_quoted(beam.design_frequency, 'MHz')}",
        f"height = {_quoted(beam.height, 'm')}",
        f"heading = {_quoted(beam.heading, 'deg')}",
        f"material = {_text(beam.material.name)}",
        f"feed = {inline_table(FEED, beam.feed)}",
        *([f"idle_feed = {_text(beam.idle_feed)}"] if beam.idle_feed else []),
        *([f"fed_with = {_text(beam.fed_with)}"] if beam.fed_with else []),
        *([f"post_line = {inline_table(POST_LINE, beam.post_line)}"] if beam.post_line else []),
        *([f"on_boom_of = {_text(beam.on_boom_of)}"] if beam.on_boom_of else []),
    ]
    below = [] if boom is None else [table_lines(BOOM, boom, "beam.boom")]
    below += _frame_lines(beam)
    below += [_element_lines(element) for element in beam.elements]
    below += [_wire_lines(wire) for wire in beam.wires]
    for table in below:
        lines += ["", *(f"  {line}" for line in table)]
    return lines


def write_plan(plan: Plan) -> str:
    """Write a plan as TOML in metric units."""
    lines = [
        f"boomwright = {PLAN_VERSION}",
        f"title = {_text(plan.title)}",
        *([f"dated = {_text(plan.dated)}"] if plan.dated else []),
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

"""A match adopted into the owner's plan: its dimensions and one length to cut, all else stays."""

from __future__ import annotations

from typing import Any

from boomwright.base import BoomwrightError
from boomwright.base.records import dataclass, replace
from boomwright.feed import (
    FieldMatch,
    FoldedShape,
    GammaShape,
    HairpinShape,
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    TeeShape,
)
from boomwright.parts import Beam, Feed
from boomwright.plan import Plan, read_plan, rewrite, set_element_length
from boomwright.plan.resolve import beam_named, coax_type
from boomwright.plan.tables.feed import KEYS_OF, UNCUT
from boomwright.study.as_measured import field_setting, line_resistance, measure_beam
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.feed_parts.shapes import at_antenna, propose
from boomwright.study.requests import RequestError

#: smaller differences of the driven element are not written: nobody can cut them [m]
_LEAST_CHANGE = 5e-5
#: keys of a feed that hold no dimension of its match
_KEPT = ("kind", "gap", "balun")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Adoption:
    """A match written into a plan, and what that changes."""

    text: str  #: the plan with the match in it
    plan: Plan  #: the plan in that text
    before: AsMeasured | NotMeasured  #: what the owner would have measured
    after: AsMeasured | NotMeasured  #: what he will measure, of the plan as written


def adopt_match(text: str, plan: Plan, *, number: int, kind: str = "") -> Adoption:
    """Write a match that was solved in the field into a plan.

    Args:
        kind: another kind of match; empty for the plan's own

    Returns:
        the plan with dimensions in the owner's units; figures are those of the plan as written

    Raises:
        RequestError: when there is no such kind of match
        BoomwrightError: when that kind cannot be matched to this beam
        PlanError: when it cannot be written where it would have to stand
    """
    if kind and kind not in KEYS_OF:
        raise RequestError(
            f"there is no kind of match {kind!r}", remedy=f"choose one of: {', '.join(KEYS_OF)}"
        )
    beam = plan.beams[number]
    wanted = _with_kind(beam, kind)
    match = _solved(plan, wanted)
    new = _written(text, number, beam, wanted.feed, match)
    adopted = read_plan(new)
    return Adoption(
        text=new,
        plan=adopted,
        before=measure_beam(plan, beam),
        after=measure_beam(adopted, adopted.beams[number]),
    )


def adopt_beams(text: str, plan: Plan, *, kind: str = "", name: str = "") -> tuple[Adoption, ...]:
    """Write matches into a plan, one beam after the other.

    Args:
        kind: another kind of match; empty for each beam's own
        name: name of the only beam that takes it; empty for all whose match can be adjusted

    Returns:
        one entry a beam; the text of the last holds them all (n_adopted,)

    Raises:
        BoomwrightError: when there is no such beam, nothing to adopt or no match
    """
    chosen = [plan.beams.index(beam_named(plan, name))] if name else [*range(len(plan.beams))]
    made: list[Adoption] = []
    for number in chosen:
        if not kind and not name and plan.beams[number].feed.kind == "split":
            continue
        made.append(adopt_match(text, plan, number=number, kind=kind))
        text, plan = made[-1].text, made[-1].plan
    if not made:
        raise RequestError(
            "every beam is fed straight at its split", remedy="name a match with --kind"
        )
    return tuple(made)


def _with_kind(beam: Beam, kind: str) -> Beam:
    """The beam fed in another way, with nothing said of that match but gap and balun."""
    if kind in {"", beam.feed.kind}:
        return beam
    balun = beam.feed.balun if "balun" in KEYS_OF[kind] else None
    fed = Feed(kind=kind, gap=beam.feed.gap, balun=balun)
    if kind == "L-section":
        fed = replace(fed, at_antenna="series coil")
    return replace(beam, feed=fed)


def _solved(plan: Plan, beam: Beam) -> FieldMatch:
    try:
        return propose(
            beam,
            reference=line_resistance(plan),
            velocity_factor=coax_type(plan.line.line_type).velocity_factor if plan.line else None,
            setting=field_setting(plan),
        )
    except BoomwrightError as refusal:
        raise RequestError(f"beam {beam.name}, {beam.feed.kind}: {refusal}") from refusal


def written_match(text: str, plan: Plan, *, number: int, match: FieldMatch) -> str:
    """Write a match of the plan's own kind that was solved already into the plan's text."""
    beam = plan.beams[number]
    return _written(text, number, beam, beam.feed, match)


def _written(text: str, number: int, beam: Beam, feed: Feed, match: FieldMatch) -> str:
    place, old = f"beam[{number}].feed", beam.feed
    values = dimensions(match)
    edits: dict[str, Any] = {
        f"{place}.{key}": value for key, value in values.items() if getattr(old, key) != value
    }
    if feed.kind != old.kind:
        edits[f"{place}.kind"] = feed.kind
        if feed.kind not in UNCUT and old.kind in UNCUT:
            edits[f"{place}.gap"] = feed.gap
    for key in KEYS_OF[old.kind]:
        unwanted = key not in values and (key not in _KEPT or key not in KEYS_OF[feed.kind])
        if unwanted and getattr(old, key) not in {None, ""}:
            edits[f"{place}.{key}"] = None
    return with_driven(rewrite(text, edits), number, beam, match)


def with_driven(text: str, number: int, beam: Beam, match: FieldMatch) -> str:
    """Write the length of the driven element that a match asks for into a plan.

    Args:
        number: number of the beam, from 0
    """
    driven = beam.driven_index
    length = match.beam.elements[match.beam.driven_index].length
    if abs(length - beam.elements[driven].length) > _LEAST_CHANGE:
        text = set_element_length(text, number, driven, length)
    return text


def kept_keys(feed: Feed) -> dict[str, float | str]:
    """What a feed says beside the dimensions of its match, under the plan's keys [SI]."""
    found = {key: getattr(feed, key) for key in _KEPT}
    return {key: value for key, value in found.items() if value is not None}


def dimensions(match: FieldMatch) -> dict[str, float | str]:
    """Dimensions of a match under the keys that a plan has for them [SI]."""
    shape = match.shape
    found: dict[str, float | str] = {}
    if isinstance(shape, GammaShape | TeeShape):
        found = {
            "rod_diameter": shape.rod_diameter,
            "rod_spacing": shape.spacing,
            "rod_length": shape.rod_length,
            "capacitance": shape.capacitance,
        }
    elif isinstance(shape, HairpinShape):
        found = {
            "rod_diameter": shape.rod_diameter,
            "rod_spacing": shape.spacing,
            "rod_length": shape.length,
        }
    elif isinstance(shape, FoldedShape):
        found = {"rod_diameter": shape.conductor_diameter, "rod_spacing": shape.spacing}
    else:
        for stage in match.match.stages:
            if isinstance(stage, LineSection):
                found["section_impedance"] = stage.impedance
                found["section_length"] = stage.length
                found["velocity_factor"] = stage.velocity_factor
            elif isinstance(stage, ShuntStub):
                found["stub_length"], found["stub_end"] = stage.length, stage.end
            elif isinstance(stage, SeriesCapacitor | ShuntCapacitor):
                found["capacitance"] = stage.capacitance
            elif isinstance(stage, SeriesInductor | ShuntInductor):
                found["inductance"] = stage.inductance
        if component := at_antenna(match.match):
            found["at_antenna"] = component
    return found

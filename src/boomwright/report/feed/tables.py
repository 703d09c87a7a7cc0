"""The tables of a feed: dimensions, parts, line, its outside, other kinds of feed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final

import numpy as np

from boomwright.base.quantity import PerReader, Quantity, Value, listed, phrase, settled
from boomwright.feed import HAIRPIN_LENGTH, HALF_LENGTH, Comparison, FieldMatch, HairpinShape
from boomwright.report.feed.adoption import comparison_table
from boomwright.report.feed.answer import swr
from boomwright.report.model import Table, cells, column, thinned
from boomwright.report.wording import CLAMPED, first_upper, has_joints
from boomwright.study.computing import USUAL_POINTS
from boomwright.study.feed import phase_lengths
from boomwright.study.feed_parts.results import AsMeasured, BeamFeed, BraidCase, FeedResult
from boomwright.study.feed_parts.tries import stages_phrase

_KIND_OF_UNIT = {"m": "sawn length", "F": "capacitance", "ohm": "resistance"}
#: frequencies over the band that a quick look shows
_FEW: Final = 5


def feed_tables(result: FeedResult, each: BeamFeed) -> tuple[Table[Any], ...]:
    """Gather all tables of one beam's feed."""
    tables = (
        _dimensions(each),
        _comparison(each),
        _ratings(result, each),
        turning_table(each) if each.turns else None,
        _line(each),
        *(_braid(each, case, number) for number, case in enumerate(each.braids)),
        kinds_table(each),
        _phase(each),
        _stack(result),
    )
    return tuple(table for table in tables if table is not None)


def feed_brief(
    each: BeamFeed, tables: Sequence[Table[Any]]
) -> tuple[tuple[Table[Any], ...], tuple[Value, ...]]:
    """Choose what a quick look shows of the tables, and say what to do next."""
    known = {table.name: table for table in tables}
    line = known.get("line")
    few = () if line is None else (replace(line, items=thinned(line.items, _FEW)),)
    if "dimensions" in known:
        steps = (
            _what_to_cut(each),
            *((f"outermost joint of each half: {CLAMPED}",) if has_joints(each.beam) else ()),
            phrase(
                "measure the SWR over the band and read it {}",
                PerReader(file="with boomwright tune", forms="on the Tuning sheet", sheet="tuning"),
            ),
        )
        return (known["dimensions"], *few), steps
    kinds = sorted(known["kinds"].items, key=lambda one: one.swr_worst)
    chosen = replace(known["kinds"], items=kinds, sentences=False)
    step = settled("choose a kind of feed for this beam", "beam.feed", "kind")
    return (*few, chosen), () if few else (step,)


def _what_to_cut(each: BeamFeed) -> Value:
    """Which dimensions to cut: the plan's own where it has them, as its build sheets say."""
    if each.drawn is None:
        return phrase(
            "write the proposed match into the plan {}, then cut to the build sheets",
            PerReader(file="with boomwright feed --write", forms="on the Feed sheet", sheet="feed"),
        )
    own = "cut to the plan's own match, as the build sheets say"
    before, after = each.measured, each.offered
    if each.better_offered and isinstance(before, AsMeasured) and isinstance(after, AsMeasured):
        return phrase(
            "compare both matches before you cut: worst SWR in the band {after} as proposed, "
            "{before} as in the plan",
            after=swr(after.swr_worst[0]),
            before=swr(before.swr_worst[0]),
        )
    return own


def _dimensions(each: BeamFeed) -> Table[Any] | None:
    """Dimensions from the circuit equations and from the field, side by side."""
    match = each.proposed
    if match is None or not match.comparisons:
        return None

    def value(item: Comparison, figure: float) -> Quantity:
        return Quantity(figure, _KIND_OF_UNIT[item.unit])

    def difference(item: Comparison) -> Value:
        if math.isnan(item.circuit) or item.circuit == 0.0:
            return "–"
        return Quantity(item.difference / item.circuit, "signed share")

    def planned(item: Comparison) -> Value:
        figure = _planned(item, each.drawn)
        return "–" if figure is None else value(item, figure)

    rows: list[tuple[Value, ...]] = [
        (item.name, planned(item), value(item, item.field), value(item, item.circuit),
         difference(item))
        for item in match.comparisons
    ]  # fmt: skip
    drawn = "–" if each.drawn is None else swr(each.drawn.swr)
    ratios = drawn, swr(match.swr), swr(match.swr_of_start)
    rows.append(("SWR at design, solved in the field", *ratios, ""))
    heads = [
        "dimension",
        "the plan's own",
        "proposed",
        "by circuit equations",
        "field over circuit",
    ]
    if each.drawn is None:
        heads, rows = heads[:1] + heads[2:], [row[:1] + row[2:] for row in rows]
    return Table(
        name="dimensions",
        group="match",
        caption=f"{first_upper(match.kind)}: {'' if each.drawn is None else 'the plan, '}"
        "the proposal as solved in the field, and circuit equations",
        columns=cells(*heads),
        items=rows,
        note=phrase(
            "Impedance at the line ± {all:resistance} (finer pieces {pieces:resistance}, round "
            "conductors {round:resistance}, mounts of the elements {mounts:resistance}); clamps of "
            "the match, insulators and housings are not in it. {standing}",
            standing=_standing(each),
            all=match.error.impedance,
            pieces=match.error.pieces,
            round=match.error.proximity,
            mounts=match.error.mounts,
        ),
    )


def _planned(item: Comparison, drawn: FieldMatch | None) -> float | None:
    """What the plan's own match has of a figure; None where it has no such figure [unit]."""
    if drawn is None:
        return None
    if item.name == HALF_LENGTH:
        return drawn.beam.elements[drawn.beam.driven_index].half_length
    if isinstance(drawn.shape, HairpinShape) and item.name == HAIRPIN_LENGTH:
        return drawn.shape.length
    return None


def _standing(each: BeamFeed) -> str:
    """What the proposal is worth beside the plan."""
    if each.drawn is None:
        return "The plan has no match of its own yet: nothing is cut until this one is in it."
    return "The plan has a match of its own: cut to that, unless you write this one into the plan."


def _comparison(each: BeamFeed) -> Table[Any] | None:
    """What adopting the proposal would change; nothing when the plan has it already."""
    if each.offered is None:
        return None
    return comparison_table(each.measured, each.offered)


def kinds_table(each: BeamFeed) -> Table[Any]:
    """All kinds of feed by their circuit equations."""
    return Table(
        name="kinds",
        group="kinds",
        folded=True,
        sentences=True,
        caption=phrase(
            "Every kind of feed by its circuit equations, against {line:nominal resistance}",
            line=each.reference,
        ),
        columns=(
            column("feed", lambda item: item.kind, key="kind"),
            column(
                "first values",
                lambda item: stages_phrase(item.match.stages) if item.match else item.refusal,
                full=True,
            ),
            column("SWR at design", lambda item: item.swr_design, kind="swr", key="swr"),
            column(
                "greatest over the band", lambda item: item.swr_worst, kind="swr", key="swr_worst"
            ),
        ),
        items=each.tries,
        note=(
            "First values for choosing a kind, not for cutting: rods come out up to twice or half "
            "as long in the field. Write the kind into the plan to have it solved there."
        ),
    )


def _ratings(result: FeedResult, each: BeamFeed) -> Table[Any] | None:
    """Parts at the owner's power."""
    if not each.ratings or result.power is None:
        return None
    rows: list[tuple[Value, ...]] = [
        (
            item.part,
            Quantity(item.peak_voltage, "voltage"),
            Quantity(item.rated_voltage, "voltage") if item.rated_voltage else "",
            Quantity(item.current, "current"),
        )
        for item in each.ratings
    ]
    if each.choke_work is not None:
        work = each.choke_work
        size = abs(work.impedance)
        name = phrase("choke of {:impedance}, {:heat} of heat", work.impedance, work.heat)
        crest = Quantity(math.sqrt(2.0) * work.voltage, "voltage")
        rows.append((name, crest, "", Quantity(work.voltage / size, "small current")))
    if each.line is not None and each.line.rating is not None:
        rating = each.line.rating
        words = (
            "line {}, {:heat per metre} in its warmest metre, jacket about "
            "{:temperature rise} above still air"
        )
        name = phrase(words, each.line.line.name, rating.heat, rating.jacket_rise)
        crest = Quantity(rating.peak_voltage, "voltage")
        rows.append((name, crest, "", Quantity(rating.current, "current")))
    return Table(
        name="ratings",
        group="power",
        sentences=True,
        caption=phrase(
            "At {power:power} peak envelope power, mean {duty:number} of it while transmitting, "
            "worst over the band",
            power=result.power,
            duty=result.duty_factor,
        ),
        columns=cells("part", "crest voltage", "buy a capacitor for", "effective current"),
        items=rows,
        note="Voltages and currents at the peak envelope power, heat at the mean power.",
    )


def turning_table(each: BeamFeed) -> Table[Any]:
    """What to turn first at a gamma, by what the meter reads."""
    return Table(
        name="turning",
        group="turning",
        sentences=True,
        caption="At the antenna: what to turn first",
        columns=(
            column("the meter reads", lambda turn: turn.reads, key="reads"),
            column("do", lambda turn: listed(turn.do, between=" "), key="do"),
        ),
        items=each.turns,
        note="Transmitter off and locked while anybody touches strap, rod or capacitor.",
    )


def _line(each: BeamFeed) -> Table[Any] | None:
    """The line over the band."""
    line = each.line
    if line is None:
        return None
    # At the frequencies at which a beam is computed.
    grid = np.linspace(line.frequency[0], line.frequency[-1], USUAL_POINTS)
    at = np.abs(line.frequency[:, None] - grid).argmin(axis=0).tolist()
    return Table(
        name="line",
        group="line",
        caption=phrase(
            "{length:span} of {kind}, {loss:loss} when matched",
            length=line.length,
            kind=line.line.name,
            loss=line.reading.matched_loss_db,
        ),
        columns=(
            column("frequency", lambda i: line.frequency[i], kind="frequency"),
            column("SWR at the feed", lambda i: line.feed_swr[i], kind="swr"),
            column("SWR at the radio", lambda i: line.shack_swr[i], kind="swr"),
            column("loss in the line", lambda i: line.loss_db[i], kind="loss"),
            column("radio sees", lambda i: complex(line.shack_impedance[i]), kind="impedance"),
        ),
        items=at,
        note=phrase(
            "A radio without tuner leaves {unused:loss} unused where its SWR is greatest. The "
            "line's loss hides part of the SWR that the antenna has.",
            unused=line.worst.mismatch_loss_db,
        ),
    )


def _braid(each: BeamFeed, case: BraidCase, number: int) -> Table[Any]:
    """The outside of the line with some chokes, on one way down."""
    enough: Value = "no choke is enough"
    if case.enough is not None:
        enough = phrase("a choke of {:choke impedance}, as a resistance, is enough", case.enough)
    rule: Value = ""
    if each.choke_needed is not None and number == 0:
        words = " By the circuit rule, for the wanted suppression: {:choke impedance}."
        rule = phrase(words, each.choke_needed.impedance)
    return Table(
        name="braid" if number == 0 else f"braid-{number + 1}",
        group="braid",
        caption=phrase(
            "Outside of the line, {}: changes against no braid, in the main lobe", case.words
        ),
        columns=(
            column("choke", lambda row: row[0]),
            column(
                "braid / feed current", lambda row: row[1].greatest_current, kind="relative current"
            ),
            column("pattern", lambda row: row[1].pattern_change_db, kind="loss"),
            column("left-right", lambda row: row[1].left_right_db, kind="loss"),
            column("lobe turned", lambda row: math.degrees(row[1].direction_shift), kind="turn"),
            column(
                "front-to-back lost", lambda row: row[1].front_to_back_loss_db, kind="gain change"
            ),
        ),
        items=case.readings,
        note=phrase("To keep within 0.1 dB {enough}.{rule}", enough=enough, rule=rule),
    )


def _phase(each: BeamFeed) -> Table[Any] | None:
    """Lengths of the plan's line for wanted phases."""
    lengths = phase_lengths(each)
    if not lengths or each.line is None:
        return None
    kind = each.line.line
    return Table(
        name="phase",
        group="kinds",
        folded=True,
        caption=phrase(
            "Lengths of {} for a wanted delay at {:frequency}, velocity factor {:number}",
            kind.name,
            each.beam.design_frequency,
            kind.velocity_factor,
        ),
        columns=(
            column("delay", lambda row: math.degrees(row[0]), kind="whole angle"),
            column("length", lambda row: row[1], kind="sawn length"),
        ),
        items=lengths,
        note=(
            "True for a line that is matched at its end. The velocity factor of a drum differs by "
            "some per cent: measure a piece before cutting."
        ),
    )


def _stack(result: FeedResult) -> Table[Any] | None:
    """Lines from the beams of a stack to their junction."""
    lines = result.stack_lines
    if lines is None:
        return None
    words = "{:sawn length} of {:nominal resistance}, velocity factor {:number}"
    each = phrase(words, lines.length, lines.line_impedance, lines.velocity_factor)
    return Table(
        name="stack",
        group="kinds",
        caption=f"Lines of a stack of {lines.beams}, fed in phase",
        columns=cells("quantity", "value"),
        items=(
            ("each line", each),
            ("electrical length", f"{lines.quarter_waves} quarter wavelengths"),
            ("junction, every beam matched", Quantity(lines.junction, "resistance")),
            ("SWR from the junction on", swr(lines.swr)),
        ),
        note="Cut all lines of a stack alike from one drum; equal lengths keep the phase.",
    )

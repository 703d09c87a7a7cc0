"""What there is to say of measured sweeps, of the next trim and of readings on the air."""

from __future__ import annotations

import math
from typing import Any, Final

from boomwright.base import METRES_PER_INCH
from boomwright.base.quantity import InPlan, PerReader, PerSystem, Quantity, Value, listed, phrase
from boomwright.plan.resolve.tuning import stage_keys
from boomwright.report.model import Fact, Report, Table, column, fact
from boomwright.report.tuning.pictures import tuning_pictures
from boomwright.report.wording import AGAIN, RIVET, has_joints
from boomwright.study.tuning_parts.results import TuneResult
from boomwright.tuning import BAND, GOOD_SWR, Cause, Foretold, Step

#: kinds of a deviation and of the width of its band, by the unit of its cause
_PARTS: Final = {"m": ("move", "trim"), "share": ("signed share", "exact share")}
_NOT_ASKED: Final = phrase(
    "not looked for{how}", how=PerReader(file="; boomwright tune PLAN --faults does", forms="")
)
_WHOLE: Final = {"F": "capacitance", "H": "inductance"}


def tuning_report(result: TuneResult) -> Report:
    """Say what to move, what to expect of it, and what the sweeps cannot tell."""
    tables = (
        _advice(result),
        _deviations(result),
        _alike(result),
        further_table(result),
        _faults(result),
        _heard(result),
        _aims(result),
        _trials(result),
    )
    return Report(
        subject="tuning",
        title=f"Tuning of {result.beam.name}",
        answer=_answer(result),
        next=_next(result),
        brief=tuple(table for table in tables[:2] if table.items),
        pictures=tuning_pictures(result),
        tables=tuple(table for table in tables if table.items),
        notices=result.notices,
    )


def _answer(result: TuneResult) -> tuple[Fact, ...]:
    last, swr = result.last, result.sweep.swr
    advice, at = last.advice, int(result.sweep.swr.argmin())
    lowest = phrase("{:swr} at {:frequency}", float(swr[at]), float(result.sweep.frequencies[at]))
    sweep = ", ".join(part for part in (result.files[-1], last.day) if part)
    facts = [
        fact("To move", _verdict(result)),
        fact("Sweep", sweep),
        fact(f"Lowest SWR {result.where}", lowest),
    ]
    if advice.verdict != "cannot tell":
        facts.append(fact("SWR at the antenna, design frequency", _told(advice.now)))
    if advice.verdict == "move":
        facts.append(fact("SWR expected after the move", _told(advice.after)))
    if not advice.within_reach:
        facts.append(fact("Out of reach", _out_of_reach(result)))
    facts += [fact("Explained", _explained(result)), fact("Fault", _fault(result))]
    if result.aimed is not None:
        facts.append(fact("Rotator, by aims at known bearings", _to_add(result)))
    reading = result.line_reading
    if reading is not None:
        words = "{:resistance}, {:span} electrically, {:loss}"
        measured = phrase(words, reading.impedance, reading.electrical_length, reading.loss_db)
        facts.append(fact("Line as measured", measured))
    return tuple(facts)


def _verdict(result: TuneResult) -> Value:
    advice = result.last.advice
    if advice.verdict == "cannot tell":
        return "nothing yet: the sweep is not explained by this antenna"
    if advice.verdict == "leave it":
        return "nothing: no move is likely to make it better than the meter can tell"
    return listed([step.text for step in advice.steps], between="; ")


def _told(swr: Foretold) -> Value:
    """Say a ratio with its band and the chance that it is good."""
    words = "{:swr} ({:swr} to {:swr} with 95 % probability); {:swr} or better with {:share}"
    return phrase(words, swr.middle, swr.low, swr.high, GOOD_SWR, swr.chance)


def _out_of_reach(result: TuneResult) -> Value:
    """Say that what may be moved cannot make a good match, and what the line would see."""
    advice = result.last.advice
    kind = result.beam.feed.kind
    movable = "tips alone" if kind == "split" else "tips and match as they are"
    return phrase(
        f"{{good:swr}} is not to be had with {movable}: resistance {{resistance:resistance}}, "
        "reactance {reactance:reactance}; change the match",
        good=GOOD_SWR,
        resistance=advice.resistance,
        reactance=advice.reactance,
    )


def _next(result: TuneResult) -> tuple[Value, ...]:
    """The moves of the advice, and to measure again."""
    advice = result.last.advice
    if advice.verdict == "cannot tell":
        return (
            "move nothing; check that sweep and plan are of the same antenna",
            "read open, short and load with the meter, then sweep again",
        )
    if not advice.steps:
        leave = "leave it; keep this sweep as the one to compare later ones with"
        return (leave, RIVET) if has_joints(result.beam) else (leave,)
    moves = tuple(phrase("{text}", text=step.text) for step in advice.steps)
    record = "measure again and add the new sweep to the plan as a trial"
    held = (f"before it goes up: {AGAIN}; {RIVET}",) if has_joints(result.beam) else ()
    return (listed(moves, between="; "), record, *held)


def _explained(result: TuneResult) -> Value:
    trimming = result.last.trimming
    return phrase(
        "what is left over is {:times} times the meter's scatter, {:reflection} of full reflection",
        trimming.misfit,
        trimming.scatter,
    )


def _fault(result: TuneResult) -> Value:
    if result.faults is None:
        few = any(notice.code == "tuning.no-fault-search" for notice in result.notices)
        return "not looked for: too few readings" if few else _NOT_ASKED
    kind, share = result.faults.kinds[0]
    if result.faults.verdict != kind:
        return result.faults.verdict
    return phrase("{kind}, {share:share}", kind=kind, share=share)


def _deviation(cause: Cause, amount: float, band: float) -> Value:
    """Take a deviation of a part with the half width of its 95 % band.

    Args:
        amount: by how much it is off, in the unit of the cause, mixed units [-]
        band: half width of its band, in the same unit [-]
    """
    if cause.unit in _PARTS:
        return Quantity(amount, _PARTS[cause.unit][0], band)
    if cause.unit in _WHOLE:
        return Quantity(max(amount, 0.0), _WHOLE[cause.unit], band)
    return phrase(
        "times {}, {} to {}", _factor(amount), _factor(amount - band), _factor(amount + band)
    )


def _factor(logarithm: float) -> Quantity:
    return Quantity(math.exp(logarithm), "factor")


def _width(cause: Cause, band: float) -> Value:
    if cause.unit in _PARTS:
        fine = round(band, 3) if cause.unit == "m" else band
        return phrase("±{band}", band=Quantity(fine, _PARTS[cause.unit][1]))
    if cause.unit in _WHOLE:
        return phrase("±{band}", band=Quantity(band, _WHOLE[cause.unit]))
    return phrase("times or over {factor}", factor=_factor(band))


def _advice(result: TuneResult) -> Table[Step]:
    causes = {cause.key: cause for cause in result.last.trimming.causes}
    steps = result.last.advice.steps
    moved = listed([_moved(result, causes[step.key], step) for step in steps])
    return Table(
        name="advice",
        group="advice",
        caption="What to move",
        columns=(
            column("part", lambda step: causes[step.key].label),
            column("what to do", lambda step: step.text),
            column("by", lambda step: _deviation(causes[step.key], step.amount, step.band)),
        ),
        items=steps,
        note=phrase(
            "Each with its 95 % band. Tips and halves of a loop: both by the same amount, plus is "
            "longer. Measure again after moving, and record the new sweep as a trial{how}",
            how=PerReader(
                file=phrase(": a [[measured.trial]], with moved = [{moved}]", moved=moved),
                forms=phrase(", with what was moved{}", InPlan("measured.trial", many=True)),
            ),
        ),
    )


def _moved(result: TuneResult, cause: Cause, step: Step) -> Value:
    """Write a step as the plan records it when it was made as advised."""
    kind, _, number = step.key.partition(".")
    amount: Value = f"{step.amount * 100.0:.1f} %"
    if kind == "tip" or cause.unit == "m":
        amount = PerSystem(
            metric=f"{step.amount * 1e3:g} mm", us=f"{step.amount / METRES_PER_INCH:.3f} in"
        )
    made = "tips" if kind == "tip" else "longer" if cause.unit == "m" else "more"
    what = "element" if kind == "tip" else "stage"
    if kind != "tip":
        keys = stage_keys(result.installation)
        number = str(next(place for place, key in keys.items() if key == step.key))
    words = f'{{{{ {what} = {number}, {made} = "{{amount}}" }}}}'
    return phrase(words, amount=amount)


def _deviations(result: TuneResult) -> Table[Any]:
    trimming = result.last.trimming
    rows = (trimming.causes, trimming.mean, BAND * trimming.spread, BAND * trimming.before)
    return Table(
        name="deviations",
        group="told",
        caption="What the sweeps say of antenna and line against the plan",
        columns=(
            column("part", lambda item: item[0].label),
            column("off by", lambda item: _deviation(*item[:3])),
            column("band before", lambda item: _width(item[0], item[3])),
        ),
        items=[
            (cause, float(mean), float(band), float(before))
            for cause, mean, band, before in zip(*rows, strict=True)
            if trimming.explained
        ],
        note="Each with its 95 % band. A band hardly narrower than before means that the sweeps "
        "say nothing of that part. The meter's own errors are part of the bands.",
    )


def _alike(result: TuneResult) -> Table[Any]:
    return Table(
        name="alike",
        group="told",
        folded=True,
        caption="What the sweeps cannot tell apart",
        columns=(
            column("parts", lambda group: ", ".join(cause.label for cause in group.causes)),
            column("correlation", lambda group: group.correlation, kind="signed factor"),
            column(
                "what would tell", lambda group: group.further.name if group.further else "none"
            ),
        ),
        items=result.identification.alike,
        sentences=True,
        note="Their sum or difference is known well, each alone is not.",
    )


def further_table(result: TuneResult) -> Table[Any]:
    """List measurements that would tell more."""
    return Table(
        name="further",
        group="told",
        caption="Which further measurement would tell",
        columns=(
            column("measurement", lambda each: each.name, key="name"),
            column(
                "band left, of the present one",
                lambda each: each.remaining,
                kind="use",
                key="remaining",
            ),
        ),
        items=result.identification.measurements,
    )


def _faults(result: TuneResult) -> Table[Any]:
    report = result.faults
    return Table(
        name="faults",
        group="told",
        sentences=True,
        caption="Faults that could explain the first sweep",
        columns=(
            column("kind", lambda each: each.kind),
            column("in words", lambda each: each.text),
            column("probability", lambda each: Quantity(each.probability, "share")),
            column("look first at", lambda each: each.look),
        ),
        items=() if report is None else report.named,
        note=phrase(
            "Verdict: {verdict}. With a fault in question, look there before moving anything.",
            verdict="" if report is None else report.verdict,
        ),
    )


def _turned(angle: float) -> Quantity:
    return Quantity(math.degrees(angle) % 360.0, "whole angle")


def _off(offset: float, band: float = 0.0) -> Quantity:
    return Quantity(math.degrees(offset), "offset", math.degrees(band))


def _heard(result: TuneResult) -> Table[Any]:
    """List readings over the headings against the computed pattern."""

    def width(angle: float) -> Value:
        return Quantity(math.degrees(angle), "whole angle") if angle > 0.0 else "not seen"

    def level(name: str) -> Any:
        return lambda each: Quantity(getattr(each.reading, name), "whole loss")

    return Table(
        name="heard",
        group="air",
        caption="On the air against the computed pattern",
        columns=(
            column(
                "heard", lambda each: ", ".join(filter(None, (each.note or each.name, each.day)))
            ),
            column("bearing", lambda each: _turned(each.bearing)),
            column("front to back", level("front_to_back_db")),
            column("computed", level("computed_front_to_back_db")),
            column("width", lambda each: width(each.reading.beam_width)),
            column("computed", lambda each: width(each.reading.computed_beam_width)),
            column(
                "add to rotator", lambda each: _off(each.reading.offset, each.reading.offset_band)
            ),
            column("scatter", lambda each: Quantity(each.reading.scatter_db, "ratio")),
        ),
        items=result.heard,
        note="Beam width 3 dB down. Computed for the antenna as the sweeps found it. S-units count "
        "6 dB each, which few meters keep to. Front to back on the air holds what the paths and "
        "the ground do, too.",
    )


def _to_add(result: TuneResult) -> Value:
    """Say what to add to the azimuth that the rotator shows."""
    if result.aimed is None:
        return ""
    found = result.aimed.alignment
    return phrase("add {offset} to what it shows", offset=_off(found.offset, found.band))


def _aims(result: TuneResult) -> Table[Any]:
    aimed = result.aimed
    items = (
        ()
        if aimed is None
        else tuple(zip(aimed.names, aimed.aims, aimed.alignment.left, strict=True))
    )
    return Table(
        name="aims",
        group="air",
        caption="Rotator against known bearings",
        columns=(
            column("aimed at", lambda item: item[0]),
            column("true bearing", lambda item: _turned(item[1].bearing)),
            column("rotator shows", lambda item: _turned(item[1].shows)),
            column("off the others", lambda item: _off(item[2])),
        ),
        items=items,
        note=phrase(
            "Together: {add}. Turn the mast or set the rotator's scale, then aim again.",
            add=_to_add(result),
        ),
    )


def _trials(result: TuneResult) -> Table[Any]:
    causes = {cause.key: cause for cause in result.last.trimming.causes}

    def moved(item: Any) -> Value:
        made = [
            listed([causes[key].label, _amount(causes[key], amount)], between=" ")
            for key, amount in item[0].moves.items()
            if key in causes
        ]
        return listed(made, between="; ") if made else "nothing yet"

    def advised(item: Any) -> Value:
        texts = [step.text for step in item[0].advice.steps]
        return listed(texts, between="; ") if texts else "nothing"

    foretold = [None, *(Quantity(trial.advice.after.middle, "swr") for trial in result.trials[:-1])]
    return Table(
        name="trials",
        group="trials",
        sentences=True,
        caption="Record of trials",
        columns=(
            column("trial", lambda item: item[0].number),
            column("day", lambda item: item[0].day or "not said"),
            column("sweep", lambda item: item[1]),
            column("moved so far", moved),
            column("SWR", lambda item: Quantity(item[0].swr, "swr")),
            column("SWR foretold", lambda item: item[2] or "none"),
            column("advice then", advised),
            column("note", lambda item: item[0].note or "none"),
        ),
        items=tuple(zip(result.trials, result.files, foretold, strict=True)),
        note="SWR at the antenna's end of the line at the design frequency, as the fit sees it; "
        "foretold: by the advice before.",
    )


def _amount(cause: Cause, amount: float) -> Value:
    if cause.unit in _PARTS:
        return Quantity(amount, _PARTS[cause.unit][0])
    return phrase("times {factor}", factor=_factor(amount))

"""What there is to say of measured sweeps, of the next trim and of readings on the air."""

from __future__ import annotations

import math
from typing import Any, Final

from boomwright.base import METRES_PER_INCH
from boomwright.base.quantity import PerSystem, Quantity, Value, listed, phrase
from boomwright.report.model import Fact, Report, Table, column
from boomwright.report.tuning.pictures import tuning_pictures
from boomwright.study.tuning_results import TuneResult
from boomwright.tuning import BAND, Cause, Step

__all__ = ["tuning_report"]

#: kinds of a deviation and of the width of its band, by the unit of its cause
_PARTS: Final = {"m": ("move", "trim"), "share": ("signed share", "exact share")}
#: pairs that are told apart badly, named in the table
_MOST_PAIRS: Final = 6


def tuning_report(result: TuneResult) -> Report:
    """Say what to move, what to expect of it, and what the sweeps cannot tell."""
    tables = (
        _advice(result),
        _deviations(result),
        _alike(result),
        _further(result),
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
    at = int(swr.argmin())
    lowest = phrase(
        "{swr} at {frequency}",
        swr=Quantity(float(swr[at]), "swr"),
        frequency=Quantity(float(result.sweep.frequencies[at]), "frequency"),
    )
    expected = phrase(
        "{swr}, below {limit} with 97.5 % probability",
        swr=Quantity(last.advice.expected_swr, "swr"),
        limit=Quantity(last.advice.expected_swr_limit, "swr"),
    )
    sweep = ", ".join(part for part in (result.files[-1], last.day) if part)
    facts = [
        Fact(label="Sweep", value=sweep),
        Fact(label=f"Lowest SWR {result.where}", value=lowest),
        Fact(label="SWR at the antenna, design frequency", value=Quantity(last.swr, "swr")),
        Fact(label="SWR expected after the change", value=expected),
    ]
    if not last.advice.steps:
        facts.append(Fact(label="To move", value="nothing at the design frequency"))
    elif last.done:
        good = "the match is good already; move only if you are there anyway"
        facts.append(Fact(label="Worth it", value=good))
    facts += [
        Fact(label="Explained", value=_explained(result)),
        Fact(label="Fault", value=_fault(result)),
    ]
    if result.aimed is not None:
        facts.append(Fact(label="Rotator, by aims at known bearings", value=_to_add(result)))
    reading = result.line_reading
    if reading is not None:
        measured = phrase(
            "{impedance}, {length} electrically, {loss}",
            impedance=Quantity(reading.impedance, "resistance"),
            length=Quantity(reading.electrical_length, "span"),
            loss=Quantity(reading.loss_db, "loss"),
        )
        facts.append(Fact(label="Line as measured", value=measured))
    return tuple(facts)


def _next(result: TuneResult) -> tuple[Value, ...]:
    """The moves of the advice, and to measure again."""
    advice = result.last.advice
    if not advice.steps:
        return ("nothing to move; keep this sweep as the one to compare later ones with",)
    moves = tuple(phrase("{text}", text=step.text) for step in advice.steps)
    record = "measure again and write the new sweep into the plan as a [[measured.trial]]"
    return (listed(moves, between="; "), record)


def _explained(result: TuneResult) -> Value:
    fit = result.last.fit
    return phrase(
        "what is left over is {times} times the meter's scatter, {noise} of full reflection",
        times=Quantity(math.sqrt(fit.misfit), "times"),
        noise=Quantity(fit.noise, "reflection"),
    )


def _fault(result: TuneResult) -> Value:
    if result.beam.wires:
        return "not looked for: the beam has further wires"
    if result.faults is None:
        return "not looked for; boomwright tune PLAN --faults does"
    kind, share = result.faults.kinds[0]
    if result.faults.verdict != kind:
        return result.faults.verdict
    return phrase("{kind}, {share}", kind=kind, share=Quantity(share, "share"))


def _deviation(cause: Cause, amount: float, band: float) -> Value:
    """Take a deviation of a part with the half width of its 95 % band.

    Args:
        amount: by how much it is off, in the unit of the cause, mixed units [-]
        band: half width of its band, in the same unit [-]
    """
    if cause.unit in _PARTS:
        return Quantity(amount, _PARTS[cause.unit][0], band)
    return phrase(
        "times {factor}, {low} to {high}",
        factor=_factor(amount),
        low=_factor(amount - band),
        high=_factor(amount + band),
    )


def _factor(logarithm: float) -> Quantity:
    return Quantity(math.exp(logarithm), "factor")


def _width(cause: Cause, band: float) -> Value:
    if cause.unit in _PARTS:
        return phrase("±{band}", band=Quantity(band, _PARTS[cause.unit][1]))
    return phrase("times or over {factor}", factor=_factor(band))


def _advice(result: TuneResult) -> Table[Step]:
    causes = {cause.key: cause for cause in result.last.fit.before.causes}
    steps = result.last.advice.steps
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
            "Each with its 95 % band. Tips: each of both ends by the same amount, plus is "
            "outwards. Measure again after moving, and write the new sweep into the plan as a "
            "[[measured.trial]], with moved = [{moved}]",
            moved=listed([_moved(causes[step.key], step) for step in steps]),
        ),
    )


def _moved(cause: Cause, step: Step) -> Value:
    """Write a step as the plan records it when it was made as advised."""
    kind, _, number = step.key.partition(".")
    amount: Value = f"{step.amount * 100.0:.1f} %"
    if kind == "tip" or cause.unit == "m":
        amount = PerSystem(
            metric=f"{step.amount * 1e3:g} mm", us=f"{step.amount / METRES_PER_INCH:.3f} in"
        )
    made = "tips" if kind == "tip" else "longer" if cause.unit == "m" else "more"
    what = "element" if kind == "tip" else "stage"
    words = f'{{{{ {what} = {number}, {made} = "{{amount}}" }}}}'
    return phrase(words, amount=amount)


def _deviations(result: TuneResult) -> Table[Any]:
    fit = result.last.fit
    items = zip(fit.after.causes, fit.after.mean, fit.after.spread, fit.before.spread, strict=True)
    return Table(
        name="deviations",
        group="told",
        caption="What the sweeps say of the antenna against the plan",
        columns=(
            column("part", lambda item: item[0].label),
            column("off by", lambda item: _deviation(*item[:3])),
            column("band before", lambda item: _width(item[0], item[3])),
        ),
        items=[
            (cause, float(mean), BAND * float(after), BAND * float(before))
            for cause, mean, after, before in items
        ],
        note="Each with its 95 % band. A band hardly narrower than before means that the sweeps "
        "say nothing of that part.",
    )


def _alike(result: TuneResult) -> Table[Any]:
    return Table(
        name="alike",
        group="told",
        folded=True,
        caption="What the sweeps cannot tell apart",
        columns=(
            column("part", lambda pair: pair.first.label),
            column("other part", lambda pair: pair.second.label),
            column("correlation", lambda pair: pair.correlation, kind="signed factor"),
        ),
        items=result.identification.alike[:_MOST_PAIRS],
        note="Their sum or difference is known well, each alone is not.",
    )


def _further(result: TuneResult) -> Table[Any]:
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
                "add to rotator",
                lambda each: _off(each.reading.offset, each.reading.offset_band),
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
    causes = {cause.key: cause for cause in result.last.fit.before.causes}

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

    foretold = [
        None, *(Quantity(trial.advice.expected_swr, "swr") for trial in result.trials[:-1])
    ]  # fmt: skip
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

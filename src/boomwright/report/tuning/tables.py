"""Facts and tables of tuning, as page, book and command all show them."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem, feet_inches_sixteenths, inches_sixteenths
from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.charts import ReadingTable, ShownTable
from boomwright.report.tuning.on_air_tables import aim_table, heard_table, offset_text
from boomwright.study.tuning_results import TuneResult
from boomwright.tuning import Cause, Step

#: half width of a 95 % band in standard deviations
BAND = 1.96
_PLUS_MINUS = "\N{PLUS-MINUS SIGN}"
#: pairs that are told apart badly, named in the table
_MOST_PAIRS = 6


def amount_text(cause: Cause, amount: float, system: UnitSystem = "metric") -> str:
    """Write a deviation in its unit.

    Parameters
    ----------
    amount
        by how much, in the unit of the cause, mixed units [-]
    """
    if cause.unit == "m" and system == "us":
        sign = "−" if amount < 0.0 else "+"
        return f"{sign}{inches_sixteenths(abs(amount))}"
    if cause.unit == "m":
        return f"{amount * 1e3:+.0f} mm".replace("-", "−")
    if cause.unit == "share":
        return f"{amount * 100.0:+.0f} %".replace("-", "−")
    return f"times {math.exp(amount):.2f}"


def band_text(cause: Cause, width: float, system: UnitSystem = "metric") -> str:
    """Write the half width of a band; lengths are rounded up to millimetres or sixteenths.

    Parameters
    ----------
    width
        half width, in the unit of the cause, mixed units [-]
    """
    if cause.unit == "m" and system == "us":
        sixteenth = METRES_PER_INCH / 16.0
        return f"{_PLUS_MINUS} {inches_sixteenths(math.ceil(width / sixteenth - 1e-6) * sixteenth)}"
    if cause.unit == "m":
        return f"{_PLUS_MINUS} {math.ceil(width * 1e3 - 1e-9)} mm"
    if cause.unit == "share":
        return f"{_PLUS_MINUS} {math.ceil(width * 100.0 - 1e-9)} %"
    return f"times or over {math.exp(width):.2f}"


def tuning_facts(result: TuneResult) -> tuple[tuple[str, str], ...]:
    """Write the figures that count most."""
    last, advice = result.last, result.last.advice
    swr = result.sweep.swr
    at = int(swr.argmin())
    where = result.where
    facts = [
        ("Sweep", f"{result.files[-1]}, {last.day}" if last.day else result.files[-1]),
        (
            f"Lowest SWR {where}",
            f"{swr[at]:.2f} at {result.sweep.frequencies[at] / 1e6:.3f} MHz",
        ),
        ("SWR at the antenna, design frequency", f"{last.swr:.2f}"),
        (
            "Expected after the change",
            f"SWR {advice.expected_swr:.2f}, below {advice.expected_swr_limit:.2f} with 97.5 % "
            "probability",
        ),
    ]
    if not advice.steps:
        facts.append(("To move", "nothing at the design frequency"))
    if last.done and advice.steps:
        facts.append(("Worth it", "the match is good already; move only if you are there anyway"))
    facts.append(("Explained", _explained(result)))
    if result.beam.wires:
        facts.append(("Fault", "not looked for: the beam has further wires"))
    elif result.faults is None:
        facts.append(("Fault", "not looked for; boomwright tune PLAN --faults does"))
    else:
        kind, share = result.faults.kinds[0]
        verdict = result.faults.verdict
        said = verdict if verdict != kind else f"{kind}, {100.0 * share:.0f} %"
        facts.append(("Fault", said))
    if result.aimed is not None:
        facts.append(("Rotator, by aims at known bearings", offset_text(result.aimed.alignment)))
    reading = result.line_reading
    if reading is not None:
        facts.append(
            (
                "Line as measured",
                f"{reading.impedance:.1f} ohm, {_electrical(reading.electrical_length)}, "
                f"{reading.loss_db:.2f} dB",
            )
        )
    return tuple(facts)


def _electrical(length: float) -> str:
    return f"{length:.2f} m ({feet_inches_sixteenths(length)}) electrically"


def _explained(result: TuneResult) -> str:
    fit = result.last.fit
    noise = f"{fit.noise:.4f} of full reflection"
    return f"what is left over is {math.sqrt(fit.misfit):.1f} times the meter's scatter, {noise}"


def tuning_tables(result: TuneResult, *, system: UnitSystem = "metric") -> tuple[ShownTable, ...]:
    """Write all tables.

    Parameters
    ----------
    system
        unit of the advice that stands first
    """
    tables = (
        _advice_table(result, system),
        _deviation_table(result, system),
        _alike_table(result),
        _further_table(result),
        _fault_table(result),
        heard_table(result.heard),
        aim_table(result.aimed),
        _trial_table(result, system),
    )
    return tuple(table for table in tables if table is not None)


def _advice_table(result: TuneResult, system: UnitSystem) -> ShownTable | None:
    causes = {cause.key: cause for cause in result.last.fit.before.causes}
    steps = result.last.advice.steps
    rows = tuple(_advice_row(causes[step.key], step, system) for step in steps)
    if not rows:
        return None
    header: tuple[str, ...] = ("part", "what to do", "by", "95 % band", "nearest 1/16 in")
    if system == "us":
        order = (0, 1, 4, 3, 2)
        header = tuple(header[i] for i in order)
        rows = tuple(tuple(row[i] for i in order) for row in rows)
    return ShownTable(
        name="advice",
        caption="What to move",
        table=ReadingTable(header=header, rows=rows),
        note="Tips: each of both ends by the same amount, plus is outwards. Measure again after "
        "moving, and write the new sweep into the plan as a [[measured.trial]], with "
        f"moved = [{', '.join(_moved(causes[step.key], step) for step in steps)}]",
    )


def _moved(cause: Cause, step: Step) -> str:
    """Write a step as the plan records it when it was made as advised."""
    kind, _, number = step.key.partition(".")
    if kind == "tip":
        return f'{{ element = {number}, tips = "{step.amount * 1e3:g} mm" }}'
    if cause.unit == "m":
        return f'{{ stage = {number}, longer = "{step.amount * 1e3:g} mm" }}'
    return f'{{ stage = {number}, more = "{step.amount * 100.0:.1f} %" }}'


def _advice_row(cause: Cause, step: Step, system: UnitSystem) -> tuple[str, ...]:
    inches = inches_sixteenths(abs(step.amount)) if cause.unit == "m" else "none"
    said = step.text
    if cause.unit == "m":
        # The amounts have columns of their own.
        said = step.text.split(f" {_PLUS_MINUS}")[0].rsplit(" ", 1)[0]
        way = step.text.rsplit(") ", 1)
        said = f"{said} {way[1]}" if len(way) == 2 else said
    return (
        cause.label,
        said,
        amount_text(cause, step.amount),
        band_text(cause, step.band, system),
        inches,
    )


def _deviation_table(result: TuneResult, system: UnitSystem) -> ShownTable:
    fit = result.last.fit
    rows = []
    for cause, mean, before, after in zip(
        fit.after.causes, fit.after.mean, fit.before.spread, fit.after.spread, strict=True
    ):
        widths = [band_text(cause, BAND * float(each), system) for each in (after, before)]
        rows.append((cause.label, amount_text(cause, float(mean), system), *widths))
    return ShownTable(
        name="deviations",
        caption="What the sweeps say of the antenna against the plan",
        table=ReadingTable(
            header=("part", "most probable", "95 % band", "band before"), rows=tuple(rows)
        ),
        note="A band hardly narrower than before means that the sweeps say nothing of that part.",
    )


def _alike_table(result: TuneResult) -> ShownTable | None:
    pairs = result.identification.alike[:_MOST_PAIRS]
    if not pairs:
        return None
    return ShownTable(
        name="alike",
        caption="What the sweeps cannot tell apart",
        table=ReadingTable(
            header=("one", "other", "correlation"),
            rows=tuple(
                (p.first.label, p.second.label, f"{p.correlation:+.2f}".replace("-", "−"))
                for p in pairs
            ),
        ),
        note="Their sum or difference is known well, each alone is not.",
    )


def _further_table(result: TuneResult) -> ShownTable | None:
    wanted = result.identification.measurements
    if not wanted:
        return None
    return ShownTable(
        name="further",
        caption="Which further measurement would tell",
        table=ReadingTable(
            header=("measurement", "band left, of the present one"),
            rows=tuple((each.name, f"{100.0 * each.remaining:.0f} %") for each in wanted),
        ),
    )


def _fault_table(result: TuneResult) -> ShownTable | None:
    if result.faults is None:
        return None
    return ShownTable(
        name="faults",
        caption="Faults held against the first sweep",
        table=ReadingTable(
            header=("kind", "in words", "probability"),
            rows=tuple(
                (each.kind, each.text, f"{100.0 * each.probability:.0f} %")
                for each in result.faults.named
            ),
        ),
        note=f"Verdict: {result.faults.verdict}. With a fault in question, look there before "
        "moving anything.",
    )


def _trial_table(result: TuneResult, system: UnitSystem) -> ShownTable:
    causes = {cause.key: cause for cause in result.last.fit.before.causes}
    rows = []
    expected = "none"
    for trial, name in zip(result.trials, result.files, strict=True):
        moved = "; ".join(
            f"{causes[key].label} {_both(causes[key], amount, system)}"
            for key, amount in trial.moves.items()
            if key in causes
        )
        advised = "; ".join(step.text for step in trial.advice.steps)
        rows.append(
            (
                str(trial.number),
                trial.day or "not said",
                name,
                moved or "nothing yet",
                f"{trial.swr:.2f}",
                expected,
                advised or "nothing",
                trial.note or "none",
            )
        )
        expected = f"{trial.advice.expected_swr:.2f}"
    return ShownTable(
        name="trials",
        caption="Record of trials",
        table=ReadingTable(
            header=(
                "trial", "day", "sweep", "moved so far", "SWR", "SWR foretold", "advice then",
                "note",
            ),
            rows=tuple(rows),
        ),
        note="SWR at the antenna's end of the line at the design frequency, as the fit sees it; "
        "foretold: by the advice before.",
    )  # fmt: skip


def _both(cause: Cause, amount: float, system: UnitSystem) -> str:
    """Write a move in both units of length."""
    texts = [amount_text(cause, amount, each) for each in ("metric", "us")]
    if cause.unit != "m":
        return texts[0]
    first, second = reversed(texts) if system == "us" else texts
    return f"{first} ({second})"

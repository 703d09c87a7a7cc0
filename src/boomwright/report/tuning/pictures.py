"""The pictures of tuning: measured against computed, trial by trial, and on the air."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from boomwright import charts
from boomwright.base.array_types import Floats
from boomwright.base.quantity import MINUS, Value, phrase
from boomwright.report.model import Picture, Table, column, drawing
from boomwright.study.tuning_parts.on_air import HeardRun
from boomwright.study.tuning_parts.results import TuneResult
from boomwright.tuning import Sweep, without_line

#: SWR charts end here
_HIGHEST_SWR: Final = 5.0
#: rows behind a chart
_ROWS: Final = 12
#: trials drawn, the last ones
_MOST_TRIALS: Final = 4
#: levels are drawn so far down [dB]
_DEEPEST: Final = 45.0


def tuning_pictures(result: TuneResult) -> tuple[Picture, ...]:
    """Gather all pictures of tuning."""
    pictures = [_swr(result)]
    if result.sweep.phase_known:
        pictures += [_impedance(result, "R", "Resistance"), _impedance(result, "X", "Reactance")]
    if len(result.trials) > 1:
        pictures.append(_tried(result))
    heard = enumerate(result.heard, start=1)
    return (*pictures, *(_heard(number, each) for number, each in heard))


def _sweeps(result: TuneResult) -> list[tuple[str, Sweep]]:
    """The sweeps that are held against each other."""
    measured = _used(result)
    trimming = result.last.trimming

    def computed(reflection: NDArray[np.complex128]) -> Sweep:
        return replace(measured, reflection=reflection, phase_known=True, notices=())

    sweeps = [("measured", measured), ("as planned", computed(result.planned))]
    if trimming.explained:
        sweeps.append(("explained", computed(trimming.predicted[-1])))
    if trimming.advice.verdict == "move":
        sweeps.append(("after the change", computed(trimming.advice.expected)))
    return sweeps


def _used(result: TuneResult) -> Sweep:
    """The last sweep as it was fitted."""
    return result.last.trimming.model.readings[-1].sweep


def _at_antenna(result: TuneResult, name: str, sweep: Sweep) -> Sweep:
    """Take the line away: as planned for the plan, as found for everything else."""
    base = result.installation
    if base.line is None:
        return sweep
    trimming = result.last.trimming
    found: dict[str, float] = {}
    if name != "as planned":
        pairs = zip(trimming.causes, trimming.mean.tolist(), strict=True)
        found = {cause.key: value for cause, value in pairs}
    return without_line(
        sweep=sweep,
        line=base.line,
        length=max(0.0, base.line_length + found.get("line.length", 0.0)),
        loss_factor=max(0.0, base.line_loss_factor + found.get("line.loss", 0.0)),
    )


def _swr(result: TuneResult) -> Picture:
    return _picture(
        result,
        [(name, sweep.swr) for name, sweep in _sweeps(result)],
        f"Standing wave ratio {result.where}. Explained: the plan with the deviations "
        "found. After the change: expected with the advised moves.",
        name="swr",
        title=f"SWR {result.where}",
        kind="swr",
    )


def _tried(result: TuneResult) -> Picture:
    """The measured sweep of every trial."""
    at = _used(result).frequencies
    sweeps = result.last.trimming.model.readings
    measured = [
        (f"trial {trial.number}", np.interp(at, reading.sweep.frequencies, reading.sweep.swr))
        for trial, reading in zip(result.trials, sweeps, strict=True)
    ][-_MOST_TRIALS:]
    before = result.trials[-2]
    foretold = Sweep(
        frequencies=before.advice.frequencies,
        reflection=before.advice.expected,
        reference=result.sweep.reference,
    ).swr
    name = f"foretold for trial {result.last.number}"
    return _picture(
        result,
        [*measured, (name, np.interp(at, before.advice.frequencies, foretold))],
        "As measured in each trial, and what the advice before the last one foretold had "
        "it been followed exactly.",
        name="tried",
        title=f"SWR {result.where} of each trial",
        kind="swr",
        group="trials",
    )


def _impedance(result: TuneResult, part: str, words: str) -> Picture:
    curves = []
    for name, sweep in _sweeps(result):
        seen = _at_antenna(result, name, sweep).impedance
        curves.append((name, seen.real if part == "R" else seen.imag))
    return _picture(
        result,
        curves,
        f"{words} where the line meets the match; the line has been taken away, with the "
        "length and loss found.",
        name=part.lower(),
        title=f"{words} at the antenna's end of the line",
        kind=words.lower(),
        y_label=f"{words.lower()} {part}, ohm",
    )


def _picture(
    result: TuneResult,
    curves: list[tuple[str, Floats]],
    caption: Value,
    *,
    name: str,
    title: str,
    kind: str,
    y_label: str = "standing wave ratio",
    group: str = "compared",
) -> Picture:
    """Draw curves over the measured band; SWR up to where charts of it end."""
    at = _used(result).frequencies
    digits, most = (2, _HIGHEST_SWR) if kind == "swr" else (1, math.inf)
    said = "; ".join(f"{label} {y.min():.{digits}f} to {y.max():.{digits}f}" for label, y in curves)

    def told(label: str, y: Floats) -> Any:
        return column(label, lambda row: float(y[row]), kind=kind)

    return Picture(
        name=name,
        title=title,
        group=group,
        caption=caption,
        draw=drawing(
            charts.line_chart,
            units=False,
            kind=f"tuning-{name}",
            title=title,
            description=f"Over the measured band: {said}.".replace("-", MINUS),
            x=at / 1e6,
            curves=[(label, np.minimum(y, most)) for label, y in curves],
            x_label="frequency, MHz",
            y_label=y_label,
            x_name="mhz",
            mark=(result.beam.design_frequency / 1e6, "design"),
        ),
        behind=Table(
            name=name,
            caption=title,
            columns=(
                column("frequency", lambda row: float(at[row]), kind="frequency"),
                *(told(*curve) for curve in curves),
            ),
            items=range(0, len(at), max(1, len(at) // _ROWS)),
        ),
    )


def _heard(number: int, each: HeardRun) -> Picture:
    """One run over the headings against the computed pattern."""
    offset = each.reading.offset
    turned = np.mod(each.run.azimuth + offset, 2.0 * np.pi)
    order = np.argsort(turned)
    turned, level = turned[order], each.run.level_db[order]
    read = np.interp(each.headings, turned, level, period=2.0 * np.pi)
    computed = np.interp(turned, each.headings, each.computed_db)
    title = f"Level of {each.name} while the beam turns"
    off = f"{math.degrees(offset):+.0f}°"
    bearing = math.degrees(each.bearing) % 360.0
    said = (
        f"Signal from {bearing:.0f}°; readings from {level.min():.0f} to {level.max():.0f} dB, "
        f"turned by {off}."
    )
    shown = np.degrees(turned - offset) % 360.0
    return Picture(
        name=f"heard-{number}",
        title=title,
        group="air",
        caption=phrase(
            "Read levels, joined by straight lines and turned by {off:offset}, against the "
            "computed pattern of the antenna as the sweeps found it, put to the same mean level.",
            off=math.degrees(offset),
        ),
        draw=drawing(
            charts.line_chart,
            units=False,
            kind="tuning-heard",
            title=title,
            description=said.replace("-", MINUS),
            x=np.degrees(each.headings),
            curves=[("read", read), ("computed", each.computed_db)],
            x_label="true heading of the beam, degrees",
            y_label="level, dB",
            x_name="heading",
            deepest=_DEEPEST,
            mark=(bearing, "signal"),
        ),
        behind=Table(
            name=f"heard-{number}",
            caption=title,
            columns=(
                column("rotator", lambda row: float(shown[row]), kind="whole angle"),
                column("true", lambda row: math.degrees(turned[row]), kind="whole angle"),
                column("read", lambda row: float(level[row]), kind="whole loss"),
                column("computed", lambda row: float(computed[row]), kind="whole loss"),
            ),
            items=range(len(turned)),
        ),
    )

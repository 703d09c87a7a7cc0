"""The pictures of tuning, as page and book both show them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownSubject, ShownTable
from boomwright.report.tuning.on_air_shown import heard_pictures
from boomwright.report.tuning.tables import tuning_facts, tuning_tables
from boomwright.study.tuning_results import TuneResult
from boomwright.tuning import Sweep, without_line

Floats = NDArray[np.float64]

_WIDTH = 520.0
#: SWR charts end here
_HIGHEST_SWR = 5.0
_ROWS = 12
#: trials drawn, the last ones
_MOST_TRIALS = 4


def show_tuning(
    result: TuneResult, *, palette: Palette, system: UnitSystem = "metric", width: float = _WIDTH
) -> ShownSubject:
    """Draw everything tuning says about the measured beam.

    Parameters
    ----------
    system
        unit of the advice that stands first
    width
        width of the pictures [user units]
    """
    pictures = [_swr(result, palette, width)]
    if result.sweep.phase_known:
        for part, words in (("R", "Resistance"), ("X", "Reactance")):
            pictures.append(_impedance(result, part, words, palette, width))
    if len(result.trials) > 1:
        pictures.append(_trials(result, palette, width))
    pictures += heard_pictures(result.heard, palette=palette, width=width)
    return ShownSubject(
        title=f"Tuning of {result.beam.name}",
        facts=tuning_facts(result),
        pictures=tuple(pictures),
        tables=tuning_tables(result, system=system),
        notices=result.notices,
    )


def _sweeps(result: TuneResult) -> list[tuple[str, Sweep]]:
    """The four sweeps that are held against each other."""
    fit = result.last.fit
    reference = result.sweep.reference

    def computed(reflection: NDArray[np.complex128]) -> Sweep:
        return Sweep(frequencies=fit.sweep.frequencies, reflection=reflection, reference=reference)

    return [
        ("measured", fit.sweep),
        ("as planned", computed(result.planned)),
        ("explained", computed(fit.predicted)),
        ("after the change", computed(result.last.advice.expected)),
    ]


def _at_antenna(result: TuneResult, name: str, sweep: Sweep) -> Sweep:
    """Take the line away: as planned for the plan, as found for everything else."""
    base = result.installation
    if base.line is None:
        return sweep
    found = {} if name == "as planned" else result.last.fit.after.changes()
    return without_line(
        sweep=sweep,
        line=base.line,
        length=max(0.0, base.line_length + found.get("line.length", 0.0)),
        loss_factor=max(0.0, base.line_loss_factor + found.get("line.loss", 0.0)),
    )


def _swr(result: TuneResult, palette: Palette, width: float) -> ShownPicture:
    curves = [(name, sweep.swr) for name, sweep in _sweeps(result)]
    return _picture(
        result,
        name="swr",
        words=f"SWR {result.where}: measured, planned and after the change",
        curves=curves,
        drawn=[(name, np.minimum(y, _HIGHEST_SWR)) for name, y in curves],
        y_label="standing wave ratio",
        caption=f"Standing wave ratio {result.where}. Explained: the plan with the deviations "
        "found. After the change: expected with the advised moves.",
        digits=2,
        palette=palette,
        width=width,
    )


def _trials(result: TuneResult, palette: Palette, width: float) -> ShownPicture:
    """The measured sweep of every trial."""
    at = result.last.fit.sweep.frequencies
    measured = [
        (f"trial {trial.number}", np.interp(at, trial.fit.sweep.frequencies, trial.fit.sweep.swr))
        for trial in result.trials[-_MOST_TRIALS:]
    ]
    before = result.trials[-2]
    foretold = Sweep(
        frequencies=before.advice.frequencies,
        reflection=before.advice.expected,
        reference=result.sweep.reference,
    ).swr
    name = f"foretold for trial {result.last.number}"
    curves = [*measured, (name, np.interp(at, before.advice.frequencies, foretold))]
    return _picture(
        result,
        name="tried",
        words=f"SWR {result.where} of each trial",
        curves=curves,
        drawn=[(label, np.minimum(y, _HIGHEST_SWR)) for label, y in curves],
        y_label="standing wave ratio",
        caption="As measured in each trial, and what the advice before the last one foretold had "
        "it been followed exactly.",
        digits=2,
        palette=palette,
        width=width,
    )


def _impedance(
    result: TuneResult, part: str, words: str, palette: Palette, width: float
) -> ShownPicture:
    curves = []
    for name, sweep in _sweeps(result):
        seen = _at_antenna(result, name, sweep).impedance
        curves.append((name, seen.real if part == "R" else seen.imag))
    return _picture(
        result,
        name=part.lower(),
        words=f"{words} at the antenna's end of the line",
        curves=curves,
        drawn=curves,
        y_label=f"{words.lower()} {part}, ohm",
        caption=f"{words} where the line meets the match; the line has been taken away, with the "
        "length and loss found.",
        digits=1,
        palette=palette,
        width=width,
    )


def _picture(
    result: TuneResult,
    *,
    name: str,
    words: str,
    curves: list[tuple[str, Floats]],
    drawn: list[tuple[str, Floats]],
    y_label: str,
    caption: str,
    digits: int,
    palette: Palette,
    width: float,
) -> ShownPicture:
    at = result.last.fit.sweep.frequencies
    said = "; ".join(f"{label} {y.min():.{digits}f} to {y.max():.{digits}f}" for label, y in curves)
    svg = charts.line_chart(
        kind=f"tuning-{name}",
        title=words,
        description=f"Over the measured band: {said}.".replace("-", "−"),
        x=at / 1e6,
        curves=drawn,
        x_label="frequency, MHz",
        y_label=y_label,
        x_name="mhz",
        mark=(result.beam.design_frequency / 1e6, "design"),
        palette=palette,
        width=width,
    )
    every = range(0, len(at), max(1, len(at) // _ROWS))
    rows = tuple(
        (
            f"{at[i] / 1e6:.3f}",
            *(f"{float(y[i]):.{digits}f}".replace("-", "−") for _, y in curves),
        )
        for i in every
    )
    return ShownPicture(
        name=name,
        words=words,
        svg=svg,
        caption=caption,
        behind=ShownTable(
            name=name,
            caption=words,
            table=ReadingTable(header=("MHz", *(label for label, _ in curves)), rows=rows),
        ),
        units=width,
    )

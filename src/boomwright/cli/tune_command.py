"""The ``tune`` command: from a measured sweep to what to move."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from boomwright.cli import options

SweepFile = Annotated[
    Path | None,
    typer.Option(
        "--sweep",
        metavar="FILE",
        help="A sweep (Touchstone, or a table) to read in place of the plan's own and its trials.",
    ),
]
Faults = Annotated[
    bool,
    typer.Option("--faults", help="Look for a fault too; takes some seconds more."),
]


def tune(
    plan: options.PlanFile,
    *,
    sweep: SweepFile = None,
    faults: Faults = False,
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
) -> None:
    """Read the measured sweep of a plan and say what to move, by how much, and what it will do.

    Advice with its 95 % band, what the sweep cannot tell and which measurement would, and the
    record of trials. The sweep is that of [measured] in the plan.
    """
    from boomwright.session.files import load_plan
    from boomwright.study.tuning import tune_plan

    loaded = load_plan(plan)
    result = tune_plan(
        loaded.plan,
        files=loaded.files,
        sweep="" if sweep is None else str(sweep.resolve()),
        faults=faults,
    )
    if as_json:
        import json

        from boomwright.render.json.tuning import tuning_document

        document = tuning_document(result)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
        return
    from boomwright.render.terminal.subject import print_subject
    from boomwright.report.tuning import tuning_report

    units = options.units(system, otherwise=loaded.system)
    reports = (tuning_report(result),)
    print_subject(loaded.plan.title, reports, notices=result.notices, system=units, full=full)

"""The ``feed`` command: match, ratings, choke and line."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import end_over_limit

TouchstoneFolder = Annotated[
    Path | None,
    typer.Option(
        "--touchstone",
        metavar="FOLDER",
        help="Also write both ends of each beam's line there as Touchstone files.",
    ),
]


def feed(
    plan: options.PlanFile,
    *,
    touchstone: TouchstoneFolder = None,
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Solve the feed: what to cut, what it must stand, what the radio sees.

    The match by its circuit equations and in the field, the voltage of its capacitor, the choke
    the braid needs, and loss and SWR of the line.
    """
    from boomwright.session.files import load_plan
    from boomwright.study.feed import exceeded_feed_limits, feed_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    result = feed_plan(loaded.plan)
    written = []
    if touchstone is not None:
        from boomwright.session.drawings import write_touchstone

        written = list(write_touchstone(result, touchstone))
    if as_json:
        import json

        from boomwright.render.json.feed import feed_document

        document = feed_document(result)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
    else:
        from boomwright.render.terminal.subject import print_subject
        from boomwright.report.feed import feed_report

        reports = (feed_report(result, number=number) for number in range(len(result.beams)))
        print_subject(result.plan.title, reports, notices=result.notices, system=units, full=full)
        for path in written:
            typer.echo(str(path))
    if strict:
        end_over_limit(exceeded_feed_limits(result), system=units)

"""The ``raise`` command: how the beam gets up."""

from __future__ import annotations

from typing import Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import Status, say


def raise_(
    plan: options.PlanFile,
    *,
    today: Annotated[
        str,
        typer.Option("--date", metavar="DAY", help="Day of the magnetic declination."),
    ] = "",
    system: options.Units = None,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Choose a way up, with go, no-go or ask for each, and everything the crew must know.

    Loads, picks, ground kept empty, weather stops, power lines, hold points, compass bearing.
    Climbing and rigging are for people trained in them; whoever is not gets someone who is.
    """
    import json

    from boomwright.render.json.raising import raising_document
    from boomwright.session.files import load_plan
    from boomwright.study.computing import compute
    from boomwright.study.raising import raise_plan

    loaded = load_plan(plan)
    computation = compute(loaded.plan, points=5)
    result = raise_plan(loaded.plan, readings=computation.beams, today=options.day(today))
    if as_json:
        document = raising_document(result)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
    else:
        from boomwright.render.terminal.raising import print_raising

        print_raising(result, system=options.units(system, otherwise=loaded.system))
    if strict and result.exceeded:
        say(f"limit exceeded: {notice.text}" for notice in result.exceeded)
        raise typer.Exit(Status.OVER_LIMIT)

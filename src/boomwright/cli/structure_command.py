"""The ``structure`` command: will it stand."""

from __future__ import annotations

import typer

from boomwright.cli import options
from boomwright.cli.faults import Status, say


def structure(
    plan: options.PlanFile,
    *,
    system: options.Units = None,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Check boom, elements, mast, rotator, tower, guys and base.

    A ledger of margins, worst first, each with the wind and the rule behind it; what cannot be
    checked says why. Fixes for weak elements come with their effect on the electrical length.
    """
    import json

    from boomwright.render.json.structure import structure_document
    from boomwright.session.files import load_plan
    from boomwright.study.structure import structure_plan

    loaded = load_plan(plan)
    found = structure_plan(loaded.plan)
    if as_json:
        document = structure_document(found)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
    else:
        from boomwright.render.terminal.structure import print_structure

        print_structure(found, system=options.units(system, otherwise=loaded.system))
    if strict and found.exceeded:
        say(f"limit exceeded: {line.text}" for line in found.exceeded)
        raise typer.Exit(Status.OVER_LIMIT)

"""The ``permits`` command: may it stand."""

from __future__ import annotations

import typer

from boomwright.cli import options
from boomwright.cli.faults import Status, say


def permits(
    plan: options.PlanFile,
    *,
    system: options.Units = None,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Find the permissions and clearances before money is spent.

    Airspace, places and their rules, local limits, fall and swing circles, power lines: each
    with its basis and whom to ask. General information, not legal advice.
    """
    from boomwright.cli import verdict_head
    from boomwright.render.json.permits import permits_document
    from boomwright.session.files import load_plan
    from boomwright.study.permits import permit_plan
    from boomwright.study.verdict import judge_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    found = permit_plan(loaded.plan)
    verdict = judge_plan(loaded.plan, files=loaded.files, permits=found)
    if as_json:
        verdict_head.print_document(verdict, permits_document(found))
    else:
        from boomwright.render.terminal.permits import print_permits

        verdict_head.print_verdict(verdict, system=units)
        print_permits(found, system=units)
    if strict and found.exceeded:
        say(
            f"limit exceeded: {each.subject}: {each.verdict} ({each.value}, {each.limit})"
            for each in found.exceeded
        )
        raise typer.Exit(Status.OVER_LIMIT)

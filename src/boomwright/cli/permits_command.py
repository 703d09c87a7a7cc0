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
    from boomwright import app as use_cases
    from boomwright.cli import verdict_head

    loaded = use_cases.load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    found = use_cases.permit_plan(loaded.plan)
    verdict = use_cases.judge_plan(loaded.plan, folder=loaded.folder, permits=found)
    if as_json:
        verdict_head.print_document(verdict, use_cases.permits_document(found))
    else:
        from boomwright.cli.permits_tables import print_permits

        verdict_head.print_verdict(verdict, system=units)
        print_permits(found, system=units)
    if strict and found.exceeded:
        say(
            f"limit exceeded: {each.subject}: {each.verdict} ({each.value}, {each.limit})"
            for each in found.exceeded
        )
        raise typer.Exit(Status.OVER_LIMIT)

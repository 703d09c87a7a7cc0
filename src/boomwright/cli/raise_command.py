"""The ``raise`` command: how the beam gets up."""

from __future__ import annotations

from typing import Annotated

import typer

from boomwright.cli import options


def raise_(
    plan: options.PlanFile,
    *,
    today: Annotated[
        str,
        typer.Option("--date", metavar="DAY", help="Day of the magnetic declination."),
    ] = "",
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.StrictHold = False,
) -> None:
    """Choose a way up, with go, no-go or ask for each, and everything the crew must know.

    Loads, picks, ground kept empty, weather stops, power lines, hold points, compass bearing.
    Climbing and rigging are for people trained in them; whoever is not gets someone who is.
    """
    from boomwright.cli import verdict_head
    from boomwright.render.json.raising import raising_document
    from boomwright.session.files import day_of_today, load_plan
    from boomwright.study.as_measured import measure_plan
    from boomwright.study.raising import raise_plan
    from boomwright.study.verdict import judge_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    result = raise_plan(
        loaded.plan, measured=measure_plan(loaded.plan), today=options.day(today) or day_of_today()
    )
    verdict = judge_plan(loaded.plan, files=loaded.files, raising=result)
    if as_json:
        verdict_head.print_document(verdict, raising_document(result))
    else:
        from boomwright.render.terminal.subject import print_subject
        from boomwright.report.raising import SAID_IN_THE_ANSWER, raising_report

        reports = (raising_report(result, number=number) for number in range(len(result.lifts)))
        print_subject(
            result.plan.title,
            reports,
            notices=result.notices,
            system=units,
            verdict=verdict,
            full=full,
            told=SAID_IN_THE_ANSWER,
        )
    if strict:
        verdict_head.end_strict(verdict, ("raising",), system=units)

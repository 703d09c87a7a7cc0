"""The ``permits`` command: may it stand."""

from __future__ import annotations

from boomwright.cli import options
from boomwright.cli.faults import end_over_limit


def permits(
    plan: options.PlanFile,
    *,
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Find the permissions and clearances before money is spent.

    Airspace, places and their rules, local limits, fall and swing circles, power lines: each
    with its basis and whom to ask. General information, not legal advice.
    """
    from boomwright.cli import verdict_head
    from boomwright.permits import finding_notice
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
        from boomwright.render.terminal.subject import print_subject
        from boomwright.report.permits import permits_report

        reports = (permits_report(found),)
        print_subject(
            loaded.plan.title, reports, notices=(), system=units, verdict=verdict, full=full
        )
    if strict:
        notices = [finding_notice(finding) for finding in found.exceeded]
        end_over_limit(notices, system=units)

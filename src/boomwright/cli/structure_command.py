"""The ``structure`` command: will it stand."""

from __future__ import annotations

from boomwright.cli import options


def structure(
    plan: options.PlanFile,
    *,
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.StrictHold = False,
) -> None:
    """Check boom, elements, mast, rotator, tower, guys and base.

    A ledger of margins, worst first, each with the wind and the rule behind it; what cannot be
    checked says why. Fixes for weak elements come with their effect on the electrical length.
    """
    from boomwright.cli import verdict_head
    from boomwright.render.json.structure import structure_document
    from boomwright.session.files import load_plan
    from boomwright.study.structure import structure_plan
    from boomwright.study.verdict import judge_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    found = structure_plan(loaded.plan)
    verdict = judge_plan(loaded.plan, files=loaded.files)
    if as_json:
        verdict_head.print_document(verdict, structure_document(found))
    else:
        from boomwright.render.terminal.subject import print_subject
        from boomwright.report.structure import structure_report

        report = structure_report(found)
        print_subject(
            found.plan.title,
            (report,),
            notices=report.notices,
            system=units,
            verdict=verdict,
            full=full,
        )
    if strict:
        verdict_head.end_strict(verdict, ("structure",), system=units)

"""The ``reach`` command: heights, paths, stacks and fields where people are."""

from __future__ import annotations

import typer

from boomwright.cli import options
from boomwright.cli.faults import end_over_limit


def reach(
    plan: options.PlanFile,
    *,
    system: options.Units = None,
    figures: options.FiguresFolder = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Say what the height gives, where it goes, and who stands near it.

    Lobes against height, paths to the plan's targets with hop angles and gains, stacked beams,
    and the fields where people are, with their limits.
    """
    from boomwright.session.files import load_plan
    from boomwright.study.reach import exceeded_reach_limits, reach_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    result = reach_plan(loaded.plan, files=loaded.files)
    if as_json:
        import json

        from boomwright.render.json.reach import reach_document

        document = reach_document(result)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
    else:
        from boomwright.render.terminal.subject import NO_VERDICT, print_subject
        from boomwright.report.reach import reach_report

        numbers = range(len(result.beams))
        reports = (reach_report(result, number=n, together=n == 0) for n in numbers)
        print_subject(
            result.plan.title,
            reports,
            notices=result.notices,
            system=units,
            full=full,
            end=NO_VERDICT,
        )
    if figures is not None:
        from boomwright.session.drawings import write_reach_figures

        write_reach_figures(result, figures, system=units)
    if strict:
        end_over_limit(exceeded_reach_limits(result), system=units)

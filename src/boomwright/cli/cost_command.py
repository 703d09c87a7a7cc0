"""The ``cost`` command: what to buy, how to cut it, and what it costs."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import end_over_limit


def cost(
    plan: options.PlanFile,
    *,
    prices: Annotated[
        Path | None,
        typer.Option("--prices", metavar="FILE", help="A price list in place of the plan's."),
    ] = None,
    blank: Annotated[
        Path | None,
        typer.Option("--blank", metavar="FILE", help="Write the price list to fill in, and end."),
    ] = None,
    today: Annotated[
        str,
        typer.Option("--date", metavar="DAY", help="Day the ages of prices are counted to."),
    ] = "",
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """List what to buy and hire, cut from stock lengths, and price it from your own list.

    Every line says what drives it; a line without a price is shown as such and never counts as
    zero. Ends with what one metre more height and one element more cost. With --blank the rows of
    the bill are written as a price list: known prices stand, the rest is to fill in.
    """
    from boomwright.cli import verdict_head
    from boomwright.render.json.cost import cost_document
    from boomwright.session.files import day_of_today, load_plan, load_prices, save_bytes
    from boomwright.study.cost import blank_price_list, price_plan
    from boomwright.study.verdict import judge_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    given = None if prices is None else load_prices(prices)
    if blank is not None:
        text = blank_price_list(loaded.plan, files=loaded.files, prices=given, system=units)
        save_bytes(blank, text.encode("utf-8"), new=True)
        typer.echo(
            f"{blank} is written. Fill in low, likely, high and the day of each price, and name "
            "the file as list in [prices]."
        )
        return
    result = price_plan(
        loaded.plan, files=loaded.files, prices=given, today=options.day(today) or day_of_today()
    )
    verdict = judge_plan(loaded.plan, costing=result)
    if as_json:
        verdict_head.print_document(verdict, cost_document(result))
    else:
        from boomwright.render.terminal.subject import print_subject
        from boomwright.report.cost import cost_report

        print_subject(
            loaded.plan.title,
            (cost_report(result),),
            notices=result.notices,
            system=units,
            verdict=verdict,
            full=full,
        )
    if strict:
        end_over_limit(result.exceeded, system=units)

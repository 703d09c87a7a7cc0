"""The ``cost`` command: what to buy, how to cut it, and what it costs."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import Status, say


def cost(
    plan: options.PlanFile,
    *,
    prices: Annotated[
        Path | None,
        typer.Option("--prices", metavar="FILE", help="A price list in place of the plan's."),
    ] = None,
    today: Annotated[
        str,
        typer.Option("--date", metavar="DAY", help="Day the ages of prices are counted to."),
    ] = "",
    system: options.Units = None,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """List what to buy and hire, cut from stock lengths, and price it from your own list.

    Every line says what drives it; a line without a price is shown as such and never counts as
    zero. Ends with what one metre more height and one element more cost.
    """
    import json

    from boomwright.render.json.cost import cost_document
    from boomwright.session.files import load_plan
    from boomwright.study.cost import price_plan

    loaded = load_plan(plan)
    result = price_plan(
        loaded.plan,
        folder=loaded.path.parent if loaded.path else None,
        prices=prices,
        today=options.day(today),
    )
    if as_json:
        document = cost_document(result)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
    else:
        from boomwright.render.terminal.cost import print_cost

        print_cost(result, system=options.units(system, otherwise=loaded.system))
    if strict and result.exceeded:
        say(f"limit exceeded: {notice.text}" for notice in result.exceeded)
        raise typer.Exit(Status.OVER_LIMIT)

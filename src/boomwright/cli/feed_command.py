"""The ``feed`` command: match, ratings, choke and line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from boomwright.cli import options
from boomwright.cli.faults import end_over_limit, say

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.session.files import LoadedPlan

TouchstoneFolder = Annotated[
    Path | None,
    typer.Option(
        "--touchstone",
        metavar="FOLDER",
        help="Also write both ends of each beam's line there as Touchstone files.",
    ),
]


def feed(
    plan: options.PlanFile,
    *,
    write: Annotated[
        bool,
        typer.Option(
            "--write", help="Write the proposed match into the plan; the previous file is kept."
        ),
    ] = False,
    kind: Annotated[
        str,
        typer.Option(
            "--kind",
            metavar="KIND",
            help="Compare the plan with another kind of match, such as hairpin or gamma; with "
            "--write adopt it.",
        ),
    ] = "",
    beam: Annotated[
        str,
        typer.Option("--beam", metavar="NAME", help="Adopt for this beam; all if left out."),
    ] = "",
    touchstone: TouchstoneFolder = None,
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Solve the feed: what to cut, what it must stand, what the radio sees.

    The match by its circuit equations and in the field, the voltage of its capacitor, the choke
    the braid needs, and loss and SWR of the line. With --write the plan takes the proposed
    dimensions, and the answer holds what is measured before and after.
    """
    from boomwright.session.files import load_plan

    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    if write or kind:
        if touchstone is not None:
            message = "--touchstone writes the plan as it stands -> leave out --write and --kind"
            raise typer.BadParameter(message)
        _adopt(loaded, kind=kind, name=beam, write=write, as_json=as_json, system=units)
        if not strict:
            return
        loaded = load_plan(plan)
    told = write or bool(kind)
    _tell(loaded, touchstone, as_json=as_json, strict=strict, system=units, full=full, told=told)


def _tell(
    loaded: LoadedPlan,
    touchstone: Path | None,
    *,
    as_json: bool,
    strict: bool,
    system: UnitSystem,
    full: bool,
    told: bool,
) -> None:
    """Solve the feed and tell of it, unless that was told already; strict ends over a limit."""
    from boomwright.study.feed import exceeded_feed_limits, feed_plan

    result = feed_plan(loaded.plan)
    written = []
    if touchstone is not None:
        from boomwright.session.drawings import write_touchstone

        written = list(write_touchstone(result, touchstone))
    if as_json and not told:
        from boomwright.render.json.feed import feed_document

        _print_json(feed_document(result))
    elif not told:
        from boomwright.render.terminal.subject import NO_VERDICT, print_subject
        from boomwright.report.feed import feed_report

        reports = (feed_report(result, number=number) for number in range(len(result.beams)))
        print_subject(
            result.plan.title,
            reports,
            notices=result.notices,
            system=system,
            full=full,
            end=NO_VERDICT,
        )
        for path in written:
            typer.echo(str(path))
    if strict:
        end_over_limit(exceeded_feed_limits(result), system=system)


def _print_json(document: dict[str, Any]) -> None:
    typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))


def _adopt(
    loaded: LoadedPlan, *, kind: str, name: str, write: bool, as_json: bool, system: UnitSystem
) -> None:
    """Adopt the match into the plan where told to, and compare before and after."""
    from boomwright.render.json.feed import adoption_document
    from boomwright.render.terminal.lines import make_console
    from boomwright.render.terminal.report import print_report
    from boomwright.report.feed.adoption import adoption_report
    from boomwright.session.files import previous_path, save_text
    from boomwright.study.adopting import adopt_beams

    if write and loaded.path is None:
        message = "a plan from standard input cannot be written back -> give its file"
        raise typer.BadParameter(message)
    made = adopt_beams(loaded.text, loaded.plan, kind=kind, name=name)
    if as_json:
        _print_json({"adopted": [adoption_document(each) for each in made], "written": write})
    else:
        console = make_console()
        for each in made:
            print_report(console, adoption_report(each), system=system)
            console.print()
    if write and loaded.path is not None:
        save_text(loaded.path, made[-1].text, expected=loaded.text)
        say((f"written: {loaded.path}; before: {previous_path(loaded.path)}",))
    elif not as_json:
        say(("The plan is as it was; --write adopts this match.",))

"""The commands, in the order of the job: one function each."""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Protocol

import typer

from boomwright.base import written_notices
from boomwright.cli import options
from boomwright.cli.advise_command import advise
from boomwright.cli.cost_command import cost
from boomwright.cli.faults import CommandGroup, Status, end_over_limit, error_lines, say
from boomwright.cli.feed_command import feed
from boomwright.cli.frontier_command import frontier
from boomwright.cli.improve_command import improve
from boomwright.cli.new_command import new
from boomwright.cli.permits_command import permits
from boomwright.cli.raise_command import raise_
from boomwright.cli.reach_command import reach
from boomwright.cli.structure_command import structure
from boomwright.cli.tune_command import tune

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.study.computing import Computation


class OpenPage(Protocol):
    """Serves the live page; given from outside, because the shells do not know each other."""

    def __call__(self, *, path: Path, port: int, browser: bool, beyond: str, password: str) -> None:
        """Serve one plan until interrupted."""
        ...


#: a password that could be guessed over a network is none [characters]
_SHORTEST_PASSWORD = 12

app = typer.Typer(
    name="boomwright",
    cls=CommandGroup,
    help="Plan, compute, build, raise and tune directional antennas for amateur stations.",
    epilog="Exit status: 0 done, 2 bad input, 3 a limit is exceeded under --strict.",
    rich_markup_mode=None,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)


def run(arguments: Sequence[str], *, open_page: OpenPage) -> int:
    """Run one command."""
    try:
        app(args=list(arguments), prog_name="boomwright", obj=open_page)
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else Status.BROKEN
    return Status.DONE


def _show_version(wanted: bool) -> None:
    if wanted:
        from boomwright import __version__

        typer.echo(f"boomwright {__version__}")
        raise typer.Exit(Status.DONE)


def _print_json(document: dict[str, Any]) -> None:
    typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))


@app.callback()
def _root(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_show_version, is_eager=True, help="Print the version and end."
        ),
    ] = False,
    debug: Annotated[
        bool, typer.Option("--debug", help="Let an error through with its traceback.")
    ] = False,
) -> None:
    return


app.command("new")(new)


@app.command("check")
def check(
    plan: Annotated[
        str | None,
        typer.Argument(metavar="PLAN", help="The plan file, or - for standard input."),
    ] = None,
    *,
    schema: Annotated[
        bool, typer.Option("--schema", help="Print the JSON Schema of plan files for editors.")
    ] = False,
    system: options.Units = None,
    as_json: options.Json = False,
) -> None:
    """List every fault of a plan.

    Each comes with its place, its value and a remedy.
    """
    if schema:
        from boomwright.plan import plan_schema

        _print_json(plan_schema())
        return
    if plan is None:
        message = "give the plan file, - for standard input, or --schema"
        raise typer.BadParameter(message, param_hint="PLAN")
    if as_json:
        _check_as_json(plan)
        return
    from boomwright.render.terminal.plan import print_plan
    from boomwright.session.files import load_plan

    loaded = load_plan(plan)
    print_plan(loaded.plan, system=options.units(system, otherwise=loaded.system))


def _check_as_json(plan: str) -> None:
    from boomwright.base import PlanError
    from boomwright.render.json.plan import fault_document
    from boomwright.session.files import load_plan

    try:
        load_plan(plan)
    except PlanError as error:
        _print_json(fault_document(error.faults))
        say(error_lines(error)[0])
        raise typer.Exit(Status.REFUSED) from None
    _print_json(fault_document(()))


@app.command("compute")
def compute(
    plan: options.PlanFile,
    *,
    frequency: options.Frequencies = None,
    points: options.Points = 21,
    reference: options.Reference = "50",
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Compute every beam of a plan.

    Impedance, SWR, gain, front-to-back ratio over the band, and the lobes over the ground, each
    with its error band.
    """
    from boomwright.render.json.computation import computation_document
    from boomwright.session.files import load_plan
    from boomwright.study.computing import compute, exceeded_limits
    from boomwright.study.requests import read_frequencies, read_resistance

    loaded = load_plan(plan)
    computation = compute(
        loaded.plan,
        frequencies=read_frequencies(frequency) if frequency else None,
        points=points,
        reference=read_resistance(reference),
    )
    units = options.units(system, otherwise=loaded.system)
    if as_json:
        _print_json(computation_document(computation))
    else:
        _show(computation, system=units, full=full)
    if strict:
        end_over_limit(exceeded_limits(computation), system=units)


def _show(computation: Computation, *, system: UnitSystem, full: bool) -> None:
    from boomwright.render.terminal.subject import NO_VERDICT, print_subject
    from boomwright.report.beam.computed import computed_reports

    reports = computed_reports(computation)
    notices = [*computation.told, *(each for one in reports for each in one.notices)]
    print_subject(
        computation.plan.title, reports, notices=notices, system=system, full=full, end=NO_VERDICT
    )


app.command("advise")(advise)
app.command("improve")(improve)
app.command("frontier")(frontier)
app.command("feed")(feed)
app.command("reach")(reach)
app.command("structure")(structure)
app.command("permits")(permits)
app.command("cost")(cost)
app.command("raise")(raise_)
app.command("tune")(tune)


@app.command("book")
def book(
    plan: options.PlanFile,
    *,
    out: options.OutputFile = None,
    drawings: options.DrawingsFolder = None,
    figures: options.FiguresFolder = None,
    system: options.Units = None,
    paper: options.PaperSize = None,
    points: options.Points = 21,
    reference: options.Reference = "50",
    today: Annotated[
        str,
        typer.Option(
            "--date",
            metavar="DAY",
            help="Day of issue, of prices and declination; if left out the plan's own, and a plan "
            "without one leaves it for hand entry.",
        ),
    ] = "",
    part: Annotated[
        list[options.BookPart] | None,
        typer.Option(
            "--part",
            help="Make this part only; may be repeated. The book has the job, the annex every "
            "check with its basis, the pocket sheets what is carried along.",
        ),
    ] = None,
    as_json: options.Json = False,
    strict: options.StrictHold = False,
) -> None:
    """Make the book of a plan, its annex and its pocket sheets, PDFs.

    The book buys, builds, raises and tunes; the annex holds every check with what it rests on;
    each pocket sheet is one page. The same plan, version and options give the same files to the
    byte, on any day.
    """
    from boomwright.cli import verdict_head
    from boomwright.session.book import book_of, write_parts
    from boomwright.session.drawings import write_drawings, write_figures
    from boomwright.session.files import load_plan, make_way
    from boomwright.session.work_files import write_work
    from boomwright.study.computing import compute, exceeded_limits
    from boomwright.study.feed import exceeded_feed_limits, feed_plan
    from boomwright.study.reach import reach_over_ground
    from boomwright.study.requests import read_resistance
    from boomwright.study.verdict import judge_plan

    day = options.day(today)
    loaded = load_plan(plan)
    units = options.units(system, otherwise=loaded.system)
    target = out or loaded.files.path / "book.pdf"
    for file in (target, *(folder / "any" for folder in (drawings, figures) if folder)):
        make_way(file)
    computation = compute(loaded.plan, points=points, reference=read_resistance(reference))
    verdict = judge_plan(loaded.plan, files=loaded.files)
    if not as_json:
        verdict_head.print_verdict(verdict, system=units)
    fed = feed_plan(loaded.plan)
    reached = reach_over_ground(loaded.plan, files=loaded.files)
    made = book_of(
        loaded.plan,
        files=loaded.files,
        path=loaded.path,
        digest=loaded.digest,
        system=units,
        paper=options.paper(paper, system=units),
        today=day,
        computation=computation,
        verdict=verdict,
        reach=reached,
        feed=fed,
        parts=[each.value for each in part or options.BookPart],
    )
    written = write_parts(made, target)
    if drawings is not None:
        written += write_drawings(computation, drawings, system=units)
        written += write_work(loaded.plan, drawings, digest=loaded.digest, system=units, today=day)
    if figures is not None:
        written += write_figures(computation, figures, system=units, reach=reached)
    if as_json:
        verdict_head.print_document(verdict, {"files": [str(path) for path in written]})
    else:
        for path in written:
            typer.echo(str(path))
    if strict:
        over = (*exceeded_limits(computation), *exceeded_feed_limits(fed))
        more = [str(notice.text) for notice in written_notices(over, system=units)]
        verdict_head.end_strict(verdict, verdict_head.SUBJECTS, system=units, more=more)


@app.command("open")
def open_(
    context: typer.Context,
    plan: Annotated[
        Path,
        typer.Argument(
            metavar="[PLAN]",
            help="The plan file, or a folder of plans; left out, the folder you are in.",
        ),
    ] = Path(),
    *,
    port: Annotated[
        int,
        typer.Option("--port", min=0, max=65535, metavar="N", help="Port; 0 for any free one."),
    ] = 0,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help="Open it in the browser too.")
    ] = True,
    beyond: Annotated[
        str,
        typer.Option(
            "--beyond-this-machine",
            metavar="ADDRESS",
            help="Serve others too, at this address of this machine; a password is asked for, or "
            "taken from BOOMWRIGHT_PASSWORD. Nothing is encrypted.",
        ),
    ] = "",
) -> None:
    """Open the live page of a plan, or of a folder of plans to begin in.

    It is served to this machine only, until Ctrl-C.
    """
    password = _password() if beyond else ""
    context.obj(path=plan, port=port, browser=browser, beyond=beyond, password=password)


def _password() -> str:
    """Take the password others must give, and warn of what it does not do."""
    say(
        (
            "The page will be open to other machines. Whoever has the password can change the "
            "plan and read the plans in its folder.",
            "Password and plan travel unencrypted: use this on a network you trust only.",
        )
    )
    password = os.environ.get("BOOMWRIGHT_PASSWORD") or str(
        typer.prompt("Password for others", hide_input=True, confirmation_prompt=True)
    )
    if len(password) < _SHORTEST_PASSWORD:
        message = f"the password has {len(password)} characters -> choose one of 12 or more"
        raise typer.BadParameter(message)
    return password


@app.command("demo")
def demo(
    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", help="Where to; made when missing.")
    ] = Path("demo"),
    *,
    system: options.Units = None,
    paper: options.PaperSize = None,
    as_json: options.Json = False,
) -> None:
    """Run the whole job on a demo plan.

    Readings on the screen; the plan, its book and drawings in the folder.
    """
    from boomwright.cli import verdict_head
    from boomwright.render.json.computation import computation_document
    from boomwright.session.demo import write_demo

    units = options.units(system, otherwise="metric")
    made = write_demo(folder, system=units, paper=options.paper(paper, system=units))
    if as_json:
        files = {"plan": str(made.plan), "files": [str(path) for path in made.files]}
        verdict_head.print_document(made.verdict, files | computation_document(made.computation))
        return
    verdict_head.print_verdict(made.verdict, system=units)
    _show(made.computation, system=units, full=False)
    typer.echo("")
    typer.echo(f"{made.plan}  {'used as found' if made.was_there else 'the demo plan'}")
    counts = Counter(path.parent for path in made.files)
    for path in made.files:
        if path.parent == folder:
            typer.echo(str(path))
    for place, count in counts.items():
        if place != folder:
            typer.echo(f"{place}  {count} files")
    typer.echo(f"See and change it on a page: boomwright open {made.plan}")

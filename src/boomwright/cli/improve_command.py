"""The ``improve`` command: the best beam for the plan's wishes, written back when told to."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import end_over_limit, refuse, say
from boomwright.cli.progress import ProgressLine, stopping

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.session.files import LoadedPlan
    from boomwright.session.search import SearchProgress
    from boomwright.study.improve import ImproveResult
    from boomwright.study.several_bands import BandsResult


def improve(
    plan: options.PlanFile,
    *,
    write: Annotated[
        bool,
        typer.Option("--write", help="Write the beam into the plan; the previous file is kept."),
    ] = False,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="FILE", help="Write the plan with the beam there."),
    ] = None,
    starts: Annotated[
        int, typer.Option("--starts", min=2, metavar="N", help="Starts in each round.")
    ] = 12,
    seed: Annotated[
        int,
        typer.Option("--seed", min=0, metavar="N", help="Seed: the same one, the same beam."),
    ] = 0,
    workers: options.Workers = None,
    cluster: options.Cluster = "",
    resume: Annotated[
        bool, typer.Option("--resume", help="Go on with the search that was broken off.")
    ] = False,
    compare: Annotated[
        bool, typer.Option("--compare", help="Also show even against free spacing.")
    ] = False,
    tolerance: Annotated[
        bool, typer.Option("--tolerance", help="Also say how finely to cut the new beam.")
    ] = False,
    figures: Annotated[
        Path | None,
        typer.Option("--figures", metavar="FOLDER", help="Write the pictures of --compare there."),
    ] = None,
    system: options.Units = None,
    full: options.Full = False,
    as_json: options.Json = False,
    strict: options.Strict = False,
) -> None:
    """Search the best beam for the plan's [wish], with its own tubing.

    Nothing is written into the plan without --write or --out. The search is kept beside the plan
    as it goes; Ctrl-C ends it and keeps the best so far. With bands in [wish] all of them are
    searched at once, on one boom.
    """
    from boomwright.session.files import load_plan
    from boomwright.session.new_plan import refuse_existing
    from boomwright.session.search import search_plan

    loaded = load_plan(plan)
    bands = loaded.plan.wish is not None and bool(loaded.plan.wish.bands)
    refuse(
        {
            "--write and --out are both given -> give one of them": write and out is not None,
            "--figures draws even against free spacing -> add --compare": figures is not None
            and not compare,
            "a plan from standard input cannot be written back -> give --out FILE": write
            and loaded.path is None,
            "--workers and --cluster are both given -> give one of them": bool(cluster)
            and workers is not None,
            "--resume, --compare and --tolerance are for one band -> leave them out": bands
            and (resume or compare or tolerance),
        }
    )
    if out is not None:
        refuse_existing(out)
    with stopping() as line:
        result = search_plan(
            loaded.plan,
            text=loaded.text,
            files=loaded.files,
            path=loaded.path,
            seed=seed,
            starts=starts,
            workers=workers,
            cluster=cluster,
            resume=resume,
            compare=compare,
            tolerance=tolerance,
            on_progress=lambda progress: _go_on(line, progress),
        )
    _tell(result, as_json=as_json, full=full, system=options.units(system, otherwise=loaded.system))
    _keep(result, (out, loaded.path), figures=figures)
    _write(result.text, loaded, out=out, write=write, quiet=as_json)
    if strict:
        exceeded = [notice for notice in result.notices if notice.severity == "limit"]
        end_over_limit(exceeded, system=options.units(system, otherwise=loaded.system))


def _tell(
    result: ImproveResult | BandsResult, *, as_json: bool, full: bool, system: UnitSystem
) -> None:
    import json

    from boomwright.render.json.improve import bands_document, improve_document
    from boomwright.render.terminal.subject import print_subject
    from boomwright.report.improve import bands_report, improve_report
    from boomwright.study.improve import ImproveResult

    if not as_json:
        report = (
            improve_report(result) if isinstance(result, ImproveResult) else bands_report(result)
        )
        print_subject(
            result.plan.title,
            (report,),
            notices=result.notices,
            system=system,
            full=full,
            end=f"Searched for {result.seconds:.1f} s.",
        )
        return
    document = (
        improve_document(result) if isinstance(result, ImproveResult) else bands_document(result)
    )
    typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))


def _keep(
    result: ImproveResult | BandsResult, paths: tuple[Path | None, ...], *, figures: Path | None
) -> None:
    """Keep what was found for the book, and write the pictures that were asked for."""
    from boomwright.session.search_records import keep_found
    from boomwright.study.improve import ImproveResult

    if not isinstance(result, ImproveResult):
        return
    for path in paths:
        if path is not None:
            # For the book; a full disk takes nothing from the result.
            with suppress(OSError):
                keep_found(path, result)
    if figures is not None:
        from boomwright.session.drawings import write_comparison

        say(f"written: {path}" for path in write_comparison(result, figures))


def _write(text: str, loaded: LoadedPlan, *, out: Path | None, write: bool, quiet: bool) -> None:
    """Write the new beam where the owner wants it, and say where it is."""
    from boomwright.session.files import previous_path, save_text
    from boomwright.session.new_plan import make_plan

    if out is not None:
        make_plan(out, text)
        say((f"written: {out}",))
    elif write and loaded.path is not None:
        save_text(loaded.path, text, expected=loaded.text)
        say((f"written: {loaded.path}; before: {previous_path(loaded.path)}",))
    elif not quiet:
        say(("The plan is as it was; --write or --out FILE writes the new beam.",))


def _go_on(line: ProgressLine, progress: SearchProgress) -> bool:
    """Show how far the search is, and carry the wish to stop to it."""
    line.show(_progress_line(progress))
    return not line.stop


def _progress_line(progress: SearchProgress) -> str:
    parts = [f"{progress.doing}: {progress.done} of {progress.total} starts"]
    if progress.best_gain_dbi is not None:
        parts.append(f"best {progress.best_gain_dbi:.2f} dBi")
    if progress.seconds_left is not None:
        parts.append(f"about {max(progress.seconds_left, 1.0):.0f} s left")
    return ", ".join((*parts, "Ctrl-C ends it"))

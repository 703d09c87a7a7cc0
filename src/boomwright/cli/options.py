"""Arguments and options the commands share, each with the help a user reads."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

if TYPE_CHECKING:
    from boomwright.base import UnitSystem

PaperName = Literal["a4", "letter"]


class UnitChoice(StrEnum):
    """Unit systems for lengths."""

    METRIC = "metric"
    US = "us"


class BookPart(StrEnum):
    """Parts of the book, each a file."""

    BOOK = "book"
    ANNEX = "annex"
    POCKET = "pocket"


class PaperChoice(StrEnum):
    """Paper sizes of the book."""

    A4 = "a4"
    LETTER = "letter"


PlanFile = Annotated[
    str, typer.Argument(metavar="PLAN", help="The plan file, or - for standard input.")
]
NewPlanFile = Annotated[Path, typer.Argument(metavar="PLAN", help="The new plan file.")]
Workers = Annotated[
    int | None,
    typer.Option("--workers", min=1, metavar="N", help="Processes; one a core if left out."),
]
Cluster = Annotated[
    str,
    typer.Option(
        "--cluster",
        metavar="ADDRESS",
        help="Work on the workers of the dask scheduler there (tcp://HOST:8786) in place of "
        "processes. A scheduler runs whatever is sent to it: keep it on a network you trust, "
        "or use tls://.",
    ),
]
Json = Annotated[
    bool,
    typer.Option("--json", help="Print one JSON document on standard output and nothing else."),
]
Full = Annotated[
    bool, typer.Option("--full", help="Print every table, doubt and note, not only the answer.")
]
Strict = Annotated[
    bool, typer.Option("--strict", help="End with status 3 when a limit is exceeded.")
]
StrictHold = Annotated[
    bool,
    typer.Option(
        "--strict",
        help="End with status 3 when a limit is exceeded, or a check of what holds the beam up "
        "could not be made.",
    ),
]
Frequencies = Annotated[
    list[str] | None,
    typer.Option(
        "--frequency",
        "-f",
        metavar="FREQUENCY",
        help='A frequency with its unit, such as "14.175 MHz", in place of the band; '
        "may be given again.",
    ),
]
Points = Annotated[
    int,
    typer.Option(
        "--points",
        min=1,
        max=10_001,
        metavar="N",
        help="Number of frequencies over the band, edges included.",
    ),
]
Reference = Annotated[
    str,
    typer.Option("--reference", metavar="OHM", help="Resistance that the SWR refers to, in ohm."),
]
Units = Annotated[
    UnitChoice | None,
    typer.Option("--system", help="Units of lengths; those the plan is written in if left out."),
]
PaperSize = Annotated[
    PaperChoice | None,
    typer.Option("--paper", help="Paper size; that usual with the units if left out."),
]
OutputFile = Annotated[
    Path | None,
    typer.Option(
        "--out",
        "-o",
        metavar="FILE",
        help="The book; book.pdf beside the plan if left out. Annex and pocket sheets get the same "
        "name with a suffix.",
    ),
]
DrawingsFolder = Annotated[
    Path | None,
    typer.Option(
        "--drawings",
        metavar="FOLDER",
        help="Also write cut lists (CSV) and plan views (DXF) there.",
    ),
]
FiguresFolder = Annotated[
    Path | None,
    typer.Option("--figures", metavar="FOLDER", help="Also write every figure as SVG there."),
]


def units(asked: UnitChoice | None, *, otherwise: UnitSystem) -> UnitSystem:
    """Settle the units of an answer.

    Args:
        asked: what ``--system`` said; None without it
    """
    return asked.value if asked else otherwise


def paper(asked: PaperChoice | None, *, system: UnitSystem) -> PaperName:
    """Settle the paper of the book.

    Args:
        asked: what ``--paper`` said; None without it

    Returns:
        A4 in metric, Letter in US units, unless asked otherwise
    """
    usual: PaperName = "letter" if system == "us" else "a4"
    return asked.value if asked else usual


def day(text: str) -> str:
    """Read a day given on the command line.

    Args:
        text: day as ``2026-01-31``, or empty

    Raises:
        typer.BadParameter: when it is no day
    """
    from boomwright.base.days import day_number

    try:
        if text:
            day_number(text)
    except ValueError:
        message = f"{text} is no day -> write it as 2026-01-31"
        raise typer.BadParameter(message, param_hint="--date") from None
    return text

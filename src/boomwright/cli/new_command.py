"""The ``new`` command: a plan to start from."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, cast

import typer

from boomwright.cli import options
from boomwright.cli.faults import refuse

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.plan.bands import Region


def new(
    plan: options.NewPlanFile,
    *,
    band: Annotated[
        list[str],
        typer.Option(
            "--band",
            "-b",
            metavar="BAND",
            help='Amateur band, such as "20 m"; repeat it for a shape that takes several.',
        ),
    ],
    elements: Annotated[
        int, typer.Option("--elements", "-n", metavar="N", help="Number of elements.")
    ] = 3,
    shape: Annotated[
        str,
        typer.Option(
            "--shape",
            metavar="SHAPE",
            help="A plan of wire: dipole, vee, inverted-vee, two-band-dipole, end-loaded-dipole, "
            "hexagon, rectangle, square-loop, triangle-loop, two-square-loops, "
            "two-triangle-loops, vertical, raised-vertical or two-verticals.",
        ),
    ] = "",
    boom: Annotated[
        str, typer.Option("--boom", metavar="LENGTH", help='Longest boom, such as "6 m".')
    ] = "",
    height: Annotated[
        str, typer.Option("--height", metavar="LENGTH", help="Boom above ground.")
    ] = "",
    heading: Annotated[
        float,
        typer.Option("--heading", metavar="DEGREES", help="Clockwise from true north."),
    ] = 0.0,
    ground: Annotated[
        str, typer.Option("--ground", metavar="CLASS", help="Ground class at the site.")
    ] = "medium dry",
    position: Annotated[
        str, typer.Option("--position", metavar="PLACE", help='Such as "52.20 N, 0.10 E".')
    ] = "",
    title: Annotated[str, typer.Option("--title", metavar="TEXT", help="Title of the plan.")] = "",
    region: Annotated[
        int, typer.Option("--region", min=1, max=3, help="ITU region, for the band's edges.")
    ] = 1,
    searched: Annotated[
        bool,
        typer.Option(
            "--searched",
            help="Lengths and spacings off the trade-off computed beforehand, not the first guess.",
        ),
    ] = False,
    place: Annotated[
        bool,
        typer.Option(
            "--place",
            help="A place to fill in for boomwright advise, which finds the antenna: what is "
            "allowed, what stands there, whom to reach. Every line says what it means.",
        ),
    ] = False,
    system: options.Units = None,
) -> None:
    """Write a new plan for a band.

    It is the trade's first guess, or with --searched a design that a search found for so many
    elements on such a boom; to be computed and changed from there. With --shape it is a plan of
    wire, trimmed to its height and ground.
    """
    from boomwright.plan import spoken_system
    from boomwright.session.new_plan import make_searched, make_starter
    from boomwright.study.requests import Wishes

    if place:
        _place(plan, band, region=region, ground=ground, position=position, title=title,
               system=options.units(system, otherwise="metric"),
               drawn=searched or bool(shape or boom or height))  # fmt: skip
        return
    wishes = Wishes(
        band=band[0],
        further_bands=tuple(band[1:]),
        elements=elements,
        shape=shape,
        boom=boom,
        height=height,
        heading=heading,
        ground=ground,
        position=position,
        title=title,
        region=cast("Region", region),
        system=options.units(system, otherwise=spoken_system([boom, height])),
    )
    if searched:
        made = make_searched(plan, wishes)
        typer.echo(f"{plan}: {made.label}; {made.words}")
    else:
        make_starter(plan, wishes)
        typer.echo(f"{plan}")
    typer.echo(f"Next: boomwright compute {plan}, or boomwright open {plan}")


def _place(
    path: Path,
    bands: list[str],
    *,
    region: int,
    ground: str,
    position: str,
    title: str,
    system: UnitSystem,
    drawn: bool,
) -> None:
    """Write a place to fill in.

    Args:
        drawn: whether an antenna was asked for too
    """
    from boomwright.session.new_plan import make_place

    refuse(
        {
            "a place has no antenna yet -> leave out --shape, --boom, --height and --searched": (
                drawn
            )
        }
    )
    typed = {
        "bands": ", ".join(bands),
        "region": "" if region == 1 else str(region),
        "ground": ground,
        "place": position,
        "title": title,
    }
    make_place(path, typed, system=system)
    typer.echo(f"{path}")
    typer.echo(f"Next: fill it in, then boomwright advise {path}")

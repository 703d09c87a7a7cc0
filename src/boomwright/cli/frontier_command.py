"""The ``frontier`` command: what so many elements on such a boom can reach, at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import say

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.study.frontier import TradeOff


def frontier(
    *,
    elements: Annotated[
        int, typer.Option("--elements", metavar="N", help="Number of elements, 2 to 8.")
    ],
    boom: Annotated[
        str,
        typer.Option("--boom", metavar="LENGTH", help='From first to last element, as "8 m".'),
    ],
    band: Annotated[
        str,
        typer.Option(
            "--band", metavar="BAND", help='Such as "20 m", or its edges: "14.0 to 14.2 MHz".'
        ),
    ],
    diameter: Annotated[
        str,
        typer.Option(
            "--diameter",
            metavar="LENGTH",
            help="Diameter of the elements; a thousandth of the wavelength if left out.",
        ),
    ] = "",
    region: Annotated[
        int, typer.Option("--region", min=1, max=3, help="ITU region, for the band's edges.")
    ] = 1,
    figures: Annotated[
        Path | None,
        typer.Option("--figures", metavar="FOLDER", help="Also write the picture as SVG there."),
    ] = None,
    system: options.Units = None,
    as_json: options.Json = False,
) -> None:
    """Show the trade-off of gain, boom and front-to-rear ratio.

    Read at once from designs computed beforehand: plain tubes without loss in free space, an SWR
    of 2 at most over the band after a match, 12.5 ohm or more at the feed.
    """
    import json

    from boomwright.plan import spoken_system
    from boomwright.session.drawings import write_trade_off
    from boomwright.study.frontier import ask_trade_off, trade_off_document

    units = options.units(system, otherwise=spoken_system([boom, diameter]))
    made = ask_trade_off(elements=elements, boom=boom, band=band, diameter=diameter, region=region)
    if figures is not None:
        say(f"written: {path}" for path in write_trade_off(made, figures, system=units))
    if as_json:
        document = trade_off_document(made)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
        return
    _print_trade_off(made, system=units)


def _print_trade_off(made: TradeOff, *, system: UnitSystem) -> None:
    from boomwright.render.terminal.lines import (
        make_console,
        make_table,
        megahertz,
        span_text,
        words,
    )

    console = make_console()
    low, high = (megahertz(edge) for edge in made.band)
    console.print(
        words(
            f"{made.elements} elements of {1e3 * made.diameter:.1f} mm, {low} to {high} MHz",
            style="bold",
        )
    )
    demands = [_demand(row.rear_db) for row in made.asked]
    table = make_table("boom", *(f"gain, {words_}" for words_ in demands))
    count = len(demands)
    rows = [made.curve[i : i + count] for i in range(0, len(made.curve), count)]
    for row in sorted([*rows, made.asked], key=lambda row: row[0].boom):
        mark = " asked" if row is made.asked else ""
        table.add_row(
            span_text(row[0].boom, system=system) + mark,
            *(f"{one.point.gain_dbi:.2f}{'' if one.point.kept else ' *'}" for one in row),
            style="bold" if mark else "",
        )
    console.print(table)
    console.print("Worst gain in the band, dBi. * The front-to-rear ratio is not reached there.")
    console.print(
        "Read closer in band and angle than they were computed, designs fall short by a third of a "
        "decibel of ratio and 0.12 in SWR at most."
    )
    console.print()
    boom = span_text(made.boom, system=system)
    console.print(words(f"Designs for a boom of {boom}", style="bold"))
    table = make_table("front to rear", "reached, dB", "SWR", "ohm", "places", "lengths")
    for demand, one in zip(demands, made.asked, strict=True):
        point = one.point
        table.add_row(
            demand,
            f"{point.front_to_rear_db:.1f}",
            f"{point.swr:.2f}",
            f"{point.resistance:.1f}",
            ", ".join(f"{at * made.wavelength:.2f}" for at in point.positions),
            ", ".join(f"{2.0 * half * made.wavelength:.3f}" for half in point.half_lengths),
        )
    console.print(table)
    console.print(
        "Places and lengths in metres, for the next shorter boom and the next wider band of the "
        "table, of plain tube.\nSearch with your own tubing: boomwright improve."
    )


def _demand(rear_db: float) -> str:
    return f"rear {rear_db:.0f} dB" if rear_db else "any rear"

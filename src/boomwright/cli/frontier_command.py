"""The ``frontier`` command: what so many elements on such a boom can reach, at once."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from boomwright.cli import options
from boomwright.cli.faults import say


def frontier(
    *,
    elements: Annotated[
        int, typer.Option("--elements", metavar="N", help="Number of elements, 2 to 16.")
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
    full: options.Full = False,
    as_json: options.Json = False,
) -> None:
    """Show the trade-off of gain, boom and front-to-rear ratio.

    Read from designs computed beforehand and fitted to this band: plain tubes without loss in
    free space, an SWR of 2 at most over the band behind a hairpin to 50 ohm, 12.5 ohm or more at
    the feed, the driven element no longer than the reflector and no shorter than the directors.
    """
    import json

    from boomwright.plan import spoken_system
    from boomwright.session.drawings import write_trade_off
    from boomwright.study.frontier import trade_off_document
    from boomwright.study.frontier_fit import ask_trade_off

    units = options.units(system, otherwise=spoken_system([boom, diameter]))
    made = ask_trade_off(elements=elements, boom=boom, band=band, diameter=diameter, region=region)
    if figures is not None:
        say(f"written: {path}" for path in write_trade_off(made, figures, system=units))
    if as_json:
        document = trade_off_document(made)
        typer.echo(json.dumps(document, indent=2, allow_nan=False, ensure_ascii=False))
        return
    from boomwright.render.terminal.subject import print_subject
    from boomwright.report.improve import trade_off_report

    print_subject("", (trade_off_report(made),), notices=(), system=units, full=full)

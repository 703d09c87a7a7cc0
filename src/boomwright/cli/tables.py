"""Results as text for a terminal: plain columns, every figure with its error band."""

from __future__ import annotations

import math
from collections.abc import Iterable

from rich.console import Console
from rich.table import Table
from rich.text import Text

from boomwright.app import Computation, LoadedPlan
from boomwright.base import Notice, UnitSystem, feet_inches_sixteenths
from boomwright.cli.faults import plain
from boomwright.parts import Beam
from boomwright.reach import BeamReadings, OverGround
from boomwright.solver import SweepPoint

# Narrower, the sweep's columns would break within a figure.
_LEAST_WIDTH = 112


def print_computation(computation: Computation, *, system: UnitSystem = "metric") -> None:
    """Print all readings."""
    console = make_console()
    console.print(words(computation.plan.title, style="bold"))
    for readings in computation.beams:
        console.print()
        _print_readings(console, readings, system=system)
    if computation.notices:
        console.print()
        print_notices(console, computation.notices)


def print_plan(loaded: LoadedPlan, *, system: UnitSystem = "metric") -> None:
    """Print what a faultless plan says."""
    from boomwright.plan import plan_notices

    console = make_console()
    console.print(words(loaded.plan.title, style="bold"))
    table = make_table("beam", "elements", "boom", "height", "heading", "band, MHz", "design, MHz")
    for beam in loaded.plan.beams:
        low, high = (megahertz(edge) for edge in beam.band)
        table.add_row(
            words(beam.name),
            str(len(beam.elements)),
            span_text(beam.boom_length, system=system),
            span_text(beam.height, system=system),
            f"{math.degrees(beam.heading):.0f}°",
            f"{low} to {high}",
            megahertz(beam.design_frequency),
        )
    console.print(table)
    print_notices(console, plan_notices(loaded.plan))
    console.print("The plan is in order.")


def make_console() -> Console:
    """Make a console that prints plain text, wide enough for the sweep."""
    console = Console(highlight=False, markup=False, emoji=False)
    console.width = max(console.width, _LEAST_WIDTH)
    return console


def make_table(*headings: str) -> Table:
    """Make a table without rules, its first column to the left."""
    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0), header_style="dim")
    for number, heading in enumerate(headings):
        table.add_column(heading, justify="left" if number == 0 else "right", no_wrap=True)
    return table


def words(text: str, style: str = "") -> Text:
    """Make text of the owner fit for a terminal."""
    return Text(plain(text), style=style)


def _print_readings(console: Console, readings: BeamReadings, *, system: UnitSystem) -> None:
    console.print(_headline(readings.beam, system=system))
    table = make_table(
        "MHz",
        "impedance, ohm",
        f"SWR to {readings.reference_resistance:g} ohm",
        "gain, dBi",
        "front-to-back, dB",
        "front-to-rear, dB",
        "efficiency",
    )
    for point in readings.sweep:
        table.add_row(*_cells(point))
    console.print(table)
    console.print(_at_design(readings.free_space))
    _print_matched(console, readings)
    console.print(
        "Impedance, SWR, gain and ratios are those in free space; gain is towards the heading. "
        f"Power balance {readings.power_balance:.1e}."
    )
    if readings.over_ground is not None:
        _print_over_ground(console, readings.over_ground, system=system)
    print_notices(console, readings.notices)


def _headline(beam: Beam, *, system: UnitSystem) -> Text:
    facts = (
        f"{len(beam.elements)} elements",
        f"boom {span_text(beam.boom_length, system=system)}",
        f"{span_text(beam.height, system=system)} high",
        f"heading {math.degrees(beam.heading):.0f}°",
        beam.material.name,
    )
    return words(beam.name, style="bold").append(plain("  " + ", ".join(facts)), style="not bold")


def _cells(point: SweepPoint) -> tuple[str, ...]:
    return (
        megahertz(point.frequency),
        impedance_text(point.impedance, error=point.impedance_error),
        banded(point.swr, error=point.swr_error, decimals=2),
        banded(point.gain_dbi, error=point.gain_error_db, decimals=2),
        banded(point.front_to_back_db, error=point.front_to_back_error_db, decimals=1),
        fixed(point.front_to_rear_db, decimals=1),
        f"{fixed(100.0 * point.efficiency, decimals=1)} %",
    )


def _at_design(point: SweepPoint) -> str:
    _, impedance, swr, gain, back, _, _ = _cells(point)
    return (
        f"At {megahertz(point.frequency)} MHz, the design frequency: {impedance} ohm, SWR {swr}, "
        f"gain {gain} dBi, front-to-back {back} dB."
    )


def _print_matched(console: Console, readings: BeamReadings) -> None:
    """Say what the plan's match makes of the ratio, where its circuit equations tell."""
    from boomwright.plan.resolve import match_words, matched_points

    beam, reference = readings.beam, readings.reference_resistance
    if beam.feed.kind == "split" and beam.feed.balun is None:
        return
    here = matched_points(beam, (readings.free_space,), reference=reference)[0]
    sweep = matched_points(beam, readings.sweep, reference=reference)
    ratios = [point.swr for point in sweep]
    console.print(
        f"SWR {match_words(beam)}: {banded(here.swr, error=here.swr_error, decimals=2)} at the "
        f"design frequency, {min(ratios):.2f} to {max(ratios):.2f} over the frequencies above. "
        "The command feed solves the match in the field; the table above is the bare split."
    )


def _print_over_ground(console: Console, over: OverGround, *, system: UnitSystem) -> None:
    gain = banded(over.peak_gain_dbi, error=over.gain_error_db, decimals=2)
    console.print()
    console.print(
        f"Over {plain(over.ground.name) or 'its'} ground, boom "
        f"{span_text(over.height, system=system)} high: "
        f"{'strongest lobe' if over.lobes else 'no lobe ahead, at most'} {gain} dBi at "
        f"{over.peak_elevation_deg:.1f}° elevation; "
        f"{impedance_text(over.impedance)} ohm at the feed."
    )
    table = make_table("lobe at elevation", "gain, dBi")
    for lobe in over.lobes:
        table.add_row(f"{lobe.elevation_deg:.1f}°", fixed(lobe.gain_dbi, decimals=2))
    if over.lobes:
        console.print(table)
    if over.nulls_deg:
        console.print(f"Nulls at {', '.join(f'{null:.1f}°' for null in over.nulls_deg)} elevation.")


def print_notices(console: Console, notices: Iterable[Notice]) -> None:
    """Print notices, each with its severity."""
    for notice in notices:
        held = f"{notice.value} against {notice.limit}" if notice.limit else notice.value
        parts = (
            f"{notice.severity}: {notice.text}",
            f"({held})" if held else "",
            f"[{notice.source}]" if notice.source else "",
        )
        style = {"caution": "bold", "limit": "bold red"}.get(notice.severity, "")
        console.print(words(" ".join(part for part in parts if part), style=style))


def span_text(length: float, *, system: UnitSystem) -> str:
    """Write a boom length or a height.

    Parameters
    ----------
    length
        length [m]
    system
        ``metric`` or ``us``

    Returns
    -------
    str
        metres to the centimetre, or feet and inches [m or ft and in]
    """
    return f"{length:.2f} m" if system == "metric" else feet_inches_sixteenths(length)


def megahertz(frequency: float) -> str:
    """Write a frequency in megahertz.

    Parameters
    ----------
    frequency
        frequency [Hz]

    Returns
    -------
    str
        at least three decimals, more where they say something [MHz]
    """
    text = f"{frequency / 1e6:.6f}".rstrip("0")
    whole, _, decimals = text.partition(".")
    return f"{whole}.{decimals.ljust(3, '0')}"


def fixed(value: float, *, decimals: int) -> str:
    """Write a figure.

    Parameters
    ----------
    value
        the figure [any unit]

    Returns
    -------
    str
        the figure, or ``no limit`` or ``none`` when it has no finite value [same unit]
    """
    if math.isnan(value):
        return "none"
    if math.isinf(value):
        return "no limit" if value > 0 else "none"
    text = f"{value:.{decimals}f}"
    return text[1:] if float(text) == 0.0 and text.startswith("-") else text


def banded(value: float, *, error: float, decimals: int) -> str:
    """Write a figure with its error band, which is rounded up and never to nothing.

    Parameters
    ----------
    value
        the figure [any unit]
    error
        half width of its band [same unit]

    Returns
    -------
    str
        for instance ``7.52 ±0.03`` [same unit]
    """
    if not (math.isfinite(value) and math.isfinite(error)):
        return fixed(value, decimals=decimals)
    step = 10.0**-decimals
    shown = max(math.ceil(error / step - 1e-9), 1) * step
    return f"{fixed(value, decimals=decimals)} ±{shown:.{decimals}f}"


def impedance_text(impedance: complex, *, error: float | None = None) -> str:
    """Write an impedance in rectangular form.

    Parameters
    ----------
    impedance
        the impedance [ohm]
    error
        half width of its band as a modulus; None to leave it out [ohm]

    Returns
    -------
    str
        for instance ``28.1 - j3.2 ±0.2`` [ohm]
    """
    sign = "-" if impedance.imag < 0 else "+"
    real = fixed(impedance.real, decimals=1)
    text = f"{real} {sign} j{fixed(abs(impedance.imag), decimals=1)}"
    if error is None or not math.isfinite(error):
        return text
    return f"{text} {banded(0.0, error=error, decimals=1).removeprefix('0.0 ')}"

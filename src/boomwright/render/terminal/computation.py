"""Results as text for a terminal: plain columns, every figure with its error band."""

from __future__ import annotations

import math

from rich.console import Console
from rich.text import Text

from boomwright.base import UnitSystem
from boomwright.base.owner_text import plain
from boomwright.base.quantity import write
from boomwright.parts import Beam
from boomwright.reach import BeamReadings, OverGround
from boomwright.render.rows import fact_rows
from boomwright.render.terminal.lines import (
    banded,
    impedance_text,
    make_console,
    megahertz,
    print_notices,
    span_text,
    words,
)
from boomwright.render.terminal.report import print_table
from boomwright.report.beam.measured import measured_facts, measured_words
from boomwright.report.beam.readings import lobe_table, sweep_table
from boomwright.solver import SweepPoint
from boomwright.study.computing import Computation
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


def print_computation(computation: Computation, *, system: UnitSystem = "metric") -> None:
    """Print all readings."""
    console = make_console()
    console.print(words(computation.plan.title, style="bold"))
    for readings, measured in zip(computation.beams, computation.as_measured, strict=True):
        console.print()
        console.print(_headline(readings.beam, system=system))
        print_measured(console, measured, system=system)
        _print_readings(console, readings, system=system)
    if computation.notices:
        console.print()
        print_notices(console, computation.notices, system=system)


def _print_readings(console: Console, readings: BeamReadings, *, system: UnitSystem) -> None:
    print_table(
        console,
        sweep_table(readings.sweep, reference=readings.reference_resistance),
        system=system,
    )
    console.print(_at_design(readings.free_space))
    _print_matched(console, readings)
    console.print(
        "Impedance, SWR, gain and ratios of this table are those in free space, without the "
        "match; gain is towards the heading. "
        f"Power balance {readings.power_balance:.1e}."
    )
    if readings.over_ground is not None:
        _print_over_ground(console, readings.over_ground, system=system)
    print_notices(console, readings.notices, system=system)


def print_measured(
    console: Console, measured: AsMeasured | NotMeasured, *, system: UnitSystem
) -> None:
    """Print what the owner will measure, and what that stands for."""
    if isinstance(measured, AsMeasured):
        for label, value in fact_rows(measured_facts(measured), system=system):
            console.print(words(f"{label}: {value}", style="bold"))
    console.print(words(write(measured_words(measured), system=system) + "."))


def _headline(beam: Beam, *, system: UnitSystem) -> Text:
    facts = (
        f"{len(beam.elements)} elements",
        f"boom {span_text(beam.boom_length, system=system)}",
        f"{span_text(beam.height, system=system)} high",
        f"heading {math.degrees(beam.heading):.0f}°",
        beam.material.name,
    )
    return words(beam.name, style="bold").append(plain("  " + ", ".join(facts)), style="not bold")


def _at_design(point: SweepPoint) -> str:
    impedance = impedance_text(point.impedance, error=point.impedance_error)
    return (
        f"At {megahertz(point.frequency)} MHz, the design frequency: {impedance} ohm, SWR "
        f"{banded(point.swr, error=point.swr_error, decimals=2)}, gain "
        f"{banded(point.gain_dbi, error=point.gain_error_db, decimals=2)} dBi, front-to-back "
        f"{banded(point.front_to_back_db, error=point.front_to_back_error_db, decimals=1)} dB."
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
    strongest = "strongest lobe" if over.lobes else "no lobe forward, at most"
    console.print()
    console.print(
        f"Over {plain(over.ground.name) or 'its'} ground, boom "
        f"{span_text(over.height, system=system)} high: {strongest} {gain} dBi at "
        f"{over.peak_elevation_deg:.1f}° elevation; "
        f"{impedance_text(over.impedance, error=over.impedance_error)} ohm at the feed."
    )
    print_table(console, lobe_table(over), system=system)

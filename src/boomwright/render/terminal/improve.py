"""An improvement as text for a terminal: before and after, dimensions, comparison, tolerance."""

from __future__ import annotations

from rich.console import Console

from boomwright.base import UnitSystem
from boomwright.charts.build_tolerance import tolerance_sentence, tolerance_table
from boomwright.design import ComparedSpacing, Tolerance
from boomwright.plan.resolve import boom_order
from boomwright.render.terminal.computation import (
    make_console,
    make_table,
    megahertz,
    print_notices,
    span_text,
    words,
)
from boomwright.study.improve import ImproveResult
from boomwright.study.several_bands import BandsResult


def print_improvement(result: ImproveResult, *, system: UnitSystem) -> None:
    """Print what was found."""
    console = make_console()
    console.print(words(f"{result.plan.title}: {result.before.name}", style="bold"))
    best = result.best
    made = sum(one.starts for one in result.found)
    console.print(
        f"{made} starts, {best.agreeing} of {best.starts} ended at the best within 0.02 dB; "
        f"seed {result.seed}; {result.seconds:.1f} s"
    )
    console.print()
    _print_figures(console, result, system=system)
    _print_elements(console, result, system=system)
    if len(result.found) > 1:
        _print_counts(console, result, system=system)
    if result.compared:
        _print_compared(console, result.compared, system=system)
    if result.tolerance is not None:
        _print_tolerance(console, result.tolerance, system=system)
    console.print()
    print_notices(console, result.notices)


def print_bands(result: BandsResult, *, system: UnitSystem) -> None:
    """Print what a search over several bands found."""
    console = make_console()
    console.print(words(f"{result.plan.title}: {result.before.name}", style="bold"))
    console.print(
        f"{len(result.uses)} bands at once, {result.starts} starts a round; seed {result.seed}; "
        f"{result.seconds:.1f} s"
    )
    console.print()
    console.print(words("Worst in each band, free space, by the full solver", style="bold"))
    table = make_table(
        "band, MHz", "", "gain, dBi", "front to back, dB", "front to rear, dB", "SWR"
    )
    for use, before, after in zip(
        result.uses, result.found.before, result.found.after, strict=True
    ):
        low, high = (megahertz(edge) for edge in use.band)
        for name, figures in (("before", before), ("after", after)):
            gain, back, rear, swr = figures.worst
            table.add_row(
                f"{low} to {high}" if name == "before" else "", name, f"{gain:.2f}", f"{back:.1f}",
                f"{rear:.1f}", f"{swr:.2f}",
            )  # fmt: skip
    console.print(table)
    order = boom_order(result.before)
    fed = {order[use.driven]: use for use in result.uses}
    table = make_table("element", "fed on, MHz", "along the boom", "tip to tip", "before")
    for number, (old, new) in enumerate(
        zip(result.before.elements, result.after.elements, strict=True)
    ):
        served = fed.get(number)
        table.add_row(
            str(number + 1),
            megahertz(served.design_frequency) if served else "",
            span_text(new.position, system=system),
            span_text(new.length, system=system),
            span_text(old.length, system=system),
        )
    console.print(table)
    console.print()
    print_notices(console, result.notices)


def _print_figures(console: Console, result: ImproveResult, *, system: UnitSystem) -> None:
    console.print(
        words("Worst in the band, free space, by the full solver"
              + (", SWR after a match" if result.wish.targets.match == "matched" else ""),
              style="bold")
    )  # fmt: skip
    table = make_table("", "gain, dBi", "front to back, dB", "front to rear, dB", "SWR", "boom")
    for name, beam, figures in (
        ("before", result.before, result.figures_before),
        ("after", result.after, result.figures_after),
    ):
        gain, back, rear, swr = figures.worst
        table.add_row(
            name, f"{gain:.2f}", f"{back:.1f}", f"{rear:.1f}", f"{swr:.2f}",
            span_text(beam.boom_length, system=system),
        )  # fmt: skip
    console.print(table)


def _print_elements(console: Console, result: ImproveResult, *, system: UnitSystem) -> None:
    console.print()
    table = make_table("element", "at", "was", "length", "was", "tip from boom")
    before = sorted(result.before.elements, key=lambda each: each.position)
    after = sorted(result.after.elements, key=lambda each: each.position)
    for number, new in enumerate(after):
        old = before[number] if number < len(before) else None
        table.add_row(
            words(f"{number + 1} {new.role}"),
            span_text(new.position, system=system),
            "new" if old is None else span_text(old.position, system=system),
            span_text(new.length, system=system),
            "new" if old is None else span_text(old.length, system=system),
            span_text(new.half[-1].length, system=system) if len(new.half) > 1 else "",
        )
    console.print(table)


def _print_counts(console: Console, result: ImproveResult, *, system: UnitSystem) -> None:
    console.print()
    table = make_table(
        "elements", "gain, dBi", "front to back, dB", "front to rear, dB", "SWR", "boom", ""
    )
    for number, one in enumerate(result.found):
        gain, back, rear, swr = one.after.worst
        table.add_row(
            str(len(one.beam.elements)),
            f"{gain:.2f}",
            f"{back:.1f}",
            f"{rear:.1f}",
            f"{swr:.2f}",
            span_text(one.beam.boom_length, system=system),
            "taken" if number == result.chosen else "" if one.kept else "limits not kept",
        )
    console.print(table)


def _print_compared(
    console: Console, compared: tuple[ComparedSpacing, ...], *, system: UnitSystem
) -> None:
    console.print()
    console.print(words("Even against free spacing, each at its best", style="bold"))
    table = make_table(
        "spacing", "gain, dBi", "front to back, dB", "front to rear, dB", "SWR", "places"
    )
    for one in compared:
        gain, back, rear, swr = one.sweep.worst
        places = ", ".join(
            span_text(each.position, system=system) for each in one.improvement.beam.elements
        )
        table.add_row(
            one.spacing, f"{gain:.2f}", f"{back:.1f}", f"{rear:.1f}", f"{swr:.2f}", places
        )
    console.print(table)


def _print_tolerance(console: Console, made: Tolerance, *, system: UnitSystem) -> None:
    console.print()
    console.print(words(tolerance_sentence(made=made, system=system), style="bold"))
    behind = tolerance_table(made=made, system=system)
    table = make_table(*behind.header)
    for row in behind.rows:
        table.add_row(*(words(cell) for cell in row))
    console.print(table)

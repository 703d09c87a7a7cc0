"""What reach says, as text for a terminal."""

from __future__ import annotations

import math

from rich.console import Console
from rich.text import Text

from boomwright.base import UnitSystem
from boomwright.charts import height_cost_table
from boomwright.permits import LimitCheck
from boomwright.reach import RingSweep
from boomwright.render.terminal.lines import (
    make_console,
    make_table,
    print_notices,
    span_text,
    words,
)
from boomwright.report.reach.drawing import band_words, far_unit, length_words
from boomwright.report.reach.people_tables import SHORT_STANDARDS
from boomwright.study.reach_results import BeamReach, ExposureReading, ReachResult, StackResult

#: heights listed on a terminal [-]
_ROWS = 12


def print_reach(result: ReachResult, *, system: UnitSystem) -> None:
    """Print everything reach says."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    for each in result.beams:
        console.print()
        _print_heights(console, each, system=system)
        _print_costs(console, each, system=system)
        _print_paths(console, each, system=system)
        _print_pointing(console, each)
        if each.exposure is not None:
            _print_exposure(console, each.exposure, system=system)
    if result.stack is not None:
        console.print()
        _print_stack(console, result.stack, system=system)
    if result.ring is not None:
        console.print()
        _print_ring(console, result.ring)
    for pair in result.isolation:
        received = "" if pair.received is None else f", {pair.received:.3g} W from the transmitter"
        console.print(
            words(
                f"Isolation {pair.sender} to {pair.receiver} at {pair.frequency / 1e6:.3f} MHz: "
                f"{pair.decibels:.1f} dB in 50 ohm{received}"
            )
        )
    console.print()
    print_notices(console, result.notices)


def _print_heights(console: Console, each: BeamReach, *, system: UnitSystem) -> None:
    beam, scan = each.beam, each.scan
    console.print(
        words(
            f"{beam.name}: strongest lobe at {each.take_off_deg:.1f}° from "
            f"{span_text(beam.height, system=system)}",
            style="bold",
        )
    )
    table = make_table(
        "height",
        "lobes, dBi at degrees",
        "minima, degrees",
        *(f"dBi at {angle:g}°" for angle in each.wanted_deg),
    )
    wanted = [scan.gain_at(elevation_deg=angle) for angle in each.wanted_deg]
    step = max(1, len(scan.heights) // _ROWS)
    for row in range(0, len(scan.heights), step):
        table.add_row(
            length_words(float(scan.heights[row]), system),
            ", ".join(f"{b.gain_dbi:.1f} at {b.elevation_deg:.0f}" for b in scan.lobes[row]),
            ", ".join(f"{null:.0f}" for null in scan.nulls_deg[row]),
            *(f"{gains[row]:.1f}" for gains in wanted),
        )
    console.print(table)
    for split in scan.splits:
        console.print(
            f"From {span_text(split.height, system=system)} up there are {split.lobes} lobes; "
            f"the new minimum comes in at {split.null_deg:.0f}°."
        )
    table = make_table("gain over", *(f"at {angle:g}°, dB (S)" for angle in each.wanted_deg))
    count = len(each.plain)
    for index, plain in enumerate(each.plain):
        cells = each.advantages[index::count]
        table.add_row(plain.name, *(f"{a.decibels:+.1f} ({a.s_units:+.1f})" for a in cells))
    console.print(table)


def _print_costs(console: Console, each: BeamReach, *, system: UnitSystem) -> None:
    costs = each.costs
    if not costs.priced:
        console.print(words(f"What height costs is not priced, because {costs.reason}."))
        return
    shown = height_cost_table(
        each.scan,
        each.wanted_deg,
        heights=costs.heights,
        likely=costs.likely,
        low=costs.low,
        high=costs.high,
        currency=costs.currency,
        system=system,
    )
    table = make_table(*shown.header)
    for cells in shown.rows:
        table.add_row(*cells)
    console.print(table)
    if costs.unpriced:
        console.print(words(f"Without a price, so not in it: {', '.join(costs.unpriced)}."))
    if costs.lacks:
        console.print(words(costs.lacks))


def _print_paths(console: Console, each: BeamReach, *, system: UnitSystem) -> None:
    if not each.paths:
        return
    unit, name = far_unit(system)
    table = make_table("path to", "way", "bearing", name, "off heading", "costs, dB", "turn, s")
    for path in each.paths:
        table.add_row(
            words(path.target),
            path.path.way,
            f"{path.path.bearing_deg:.1f}°",
            f"{path.path.distance / unit:.0f}",
            f"{path.off_heading_deg:+.0f}°",
            f"{path.off_heading_db:.1f}",
            "" if path.turn_time is None else f"{path.turn_time:.0f}",
        )
    console.print(table)
    table = make_table(
        "hops to", "way", "layer", "hops", "elevation", "gain, dBi", "over dipole at 10 m, dB (S)"
    )
    for path in each.paths:
        for gained in path.hops:
            hop, low = gained.hop, gained.advantages[1]
            table.add_row(
                words(path.target),
                path.path.way,
                hop.layer.name,
                str(hop.hops),
                f"{hop.lowest_elevation_deg:.1f} to {hop.highest_elevation_deg:.1f}°",
                f"{_gain(hop.lowest_gain_dbi)} to {_gain(hop.highest_gain_dbi)}",
                f"{low.decibels:+.1f} ({low.s_units:+.1f})",
            )
    console.print(table)


def _gain(gain_dbi: float) -> str:
    """Deep in the null at the horizon only the fact counts, not the figure."""
    return "below -20" if gain_dbi < -20.0 else f"{gain_dbi:.1f}"


def _print_pointing(console: Console, each: BeamReach) -> None:
    losses = ", ".join(
        f"{loss.loss_db:g} dB {loss.left_deg:.0f}° left or {loss.right_deg:.0f}° right"
        for loss in each.pointing
    )
    console.print(f"Off heading, at the take-off angle: {losses}.")


def _print_exposure(console: Console, exposure: ExposureReading, *, system: UnitSystem) -> None:
    if exposure.checks:
        table = make_table("place", "limit", "for", "near", "over body", "formula", "margin", "by")
        for check in exposure.checks:
            table.add_row(
                *_who(check),
                f"{100.0 * (check.near.governing or 0.0):.1f} %",
                f"{100.0 * (check.averaged.governing or 0.0):.1f} %",
                f"{100.0 * (check.far.governing or 0.0):.1f} %",
                f"{check.margin_db:.1f} dB",
                check.method.split()[0],
            )
        console.print(table)
        table = make_table("place", "limit", "for", "W", "E / limit, V/m", "H / limit, A/m")
        for check in exposure.checks:
            root, limit = math.sqrt(check.power), check.limit
            table.add_row(
                *_who(check),
                f"{check.power:.0f}",
                f"{check.place.electric * root:.1f} / {limit.electric_field or 0.0:.1f}",
                f"{check.place.magnetic * root:.3f} / {limit.magnetic_field or 0.0:.3f}",
            )
        console.print(table)
        console.print(
            "W: average power over the time of the limit. Near: computed near field, greatest on "
            "the body; over body: its average from head to feet; formula: far field with 1.6-fold "
            "ground reflection, main lobe on the place. The strictest counts."
        )
    angles = [f"{angle:g}° off" for angle, _ in exposure.distances[0].around]
    table = make_table("exceeded at head height to", "for", "ahead", *angles, "formula")
    for each in exposure.distances:
        table.add_row(
            SHORT_STANDARDS.get(each.limit.source, each.limit.standard),
            each.limit.group,
            *(
                length_words(distance, system) if distance else "nowhere"
                for distance in (each.near, *(far for _, far in each.around))
            ),
            length_words(each.far, system),
        )
    console.print(table)


def _who(check: LimitCheck) -> tuple[Text, str, str]:
    limit = check.limit
    return (
        words(check.place.place[:20]),
        SHORT_STANDARDS.get(limit.source, limit.standard),
        limit.group + ("" if check.applies else " (not here)"),
    )


def _print_stack(console: Console, stack: StackResult, *, system: UnitSystem) -> None:
    gain = stack.gain
    names = " and ".join(beam.name for beam in stack.beams)
    console.print(words(f"{names} together, {stack.frequency / 1e6:.3f} MHz", style="bold"))
    console.print(
        f"In phase {gain.decibels:+.2f} {band_words(gain.error_db)} dB over the best alone, "
        f"{gain.over_bare_db:+.2f} dB over it with the others off the tower, "
        f"{gain.peak_gain_dbi:.1f} dBi at {gain.peak_elevation_deg:.1f}°."
    )
    table = make_table("fed", "peak, dBi", "at", "feed impedances, ohm")
    for (name, cut), impedances in zip(stack.cuts, stack.impedances, strict=True):
        best = int(cut.gain_dbi.argmax())
        table.add_row(
            words(name),
            f"{cut.gain_dbi[best]:.1f}",
            f"{cut.angle_deg[best]:.1f}°",
            ", ".join("idle" if z is None else f"{z.real:.1f}{z.imag:+.1f}j" for z in impedances),
        )
    console.print(table)
    for phase, spacing in zip(stack.phases, stack.spacings, strict=True):
        console.print(
            f"At {phase.elevation_deg:.1f}°: best phase {phase.best_phase_deg:.0f}° "
            f"({phase.best_gain_dbi:.2f} dBi; no feeding can exceed {phase.bound_dbi:.2f} dBi); "
            "best height of the lower beam, in phase, "
            f"{span_text(spacing.best_height, system=system)} ({spacing.gain_dbi.max():.2f} dBi)."
        )


def _print_ring(console: Console, ring: RingSweep) -> None:
    both = (ring.fixed, ring.turning)
    console.print(
        words(f"{ring.turning.name} on a ring, turned against {ring.fixed.name}", style="bold")
    )
    table = make_table(
        "apart",
        *(f"{each.name}: {what}" for each in both for what in ("dBi", "F/B, dB", "ohm")),
    )
    for row, turn in enumerate(ring.turn_deg):
        cells = [
            (
                f"{each.gain_dbi[row]:.2f}",
                f"{each.front_to_back_db[row]:.1f}",
                f"{each.impedance[row].real:.1f}{each.impedance[row].imag:+.1f}j",
            )
            for each in both
        ]
        table.add_row(f"{turn:.0f}°", *cells[0], *cells[1])
    console.print(table)
    for each in both:
        console.print(
            words(
                f"{each.name}: fed alone at {each.frequency / 1e6:.3f} MHz, elevation "
                f"{each.elevation_deg:.1f}°, the other feed {ring.idle}; "
                f"{band_words(each.gain_error_db)} dB, "
                f"{band_words(each.front_to_back_error_db, 1)} dB, "
                f"{band_words(each.impedance_error, 1)} ohm."
            )
        )

"""The tables of the line: band, braid, phase and the lines of a stack."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem, length_text
from boomwright.charts import ReadingTable, ShownTable
from boomwright.report.feed.texts import ohms, swr_text
from boomwright.study.feed import phase_lengths
from boomwright.study.feed_results import BeamFeed, BraidCase, FeedResult


def line_table(each: BeamFeed, *, system: UnitSystem) -> ShownTable | None:
    """The line over the band.

    Returns
    -------
    ShownTable or None
        None when the plan has no line
    """
    line = each.line
    if line is None:
        return None
    picks = range(0, len(line.frequency), 2)
    feet = length_text(line.length, system="us")
    length = f"{line.length:g} m" if system == "metric" else feet
    return ShownTable(
        name="line",
        caption=(
            f"{length} of {line.line.name}, {line.reading.matched_loss_db:.2f} dB when "
            "matched"
        ),
        table=ReadingTable(
            header=(
                "MHz", "SWR at the feed", "SWR at the radio", "loss in the line, dB",
                "radio sees, ohm",
            ),
            rows=tuple(
                (
                    f"{line.frequency[i] / 1e6:.3f}",
                    swr_text(float(line.feed_swr[i])),
                    swr_text(float(line.shack_swr[i])),
                    f"{line.loss_db[i]:.2f}",
                    ohms(complex(line.shack_impedance[i])),
                )
                for i in picks
            ),
        ),
        note=(
            f"A radio without tuner leaves {line.worst.mismatch_loss_db:.2f} dB unused where its "
            "SWR is greatest. The line's loss hides part of the SWR that the antenna has."
        ),
    )  # fmt: skip


def braid_tables(each: BeamFeed) -> tuple[ShownTable, ...]:
    """The outside of the line with some chokes, one table a way down."""
    return tuple(_braid(each, case, number) for number, case in enumerate(each.braids))


def _braid(each: BeamFeed, case: BraidCase, number: int) -> ShownTable:
    rows = tuple(
        (
            name,
            f"{reading.greatest_current:.3f}",
            f"{reading.pattern_change_db:.2f}",
            f"{reading.left_right_db:.2f}",
            f"{math.degrees(reading.direction_shift):+.1f}".replace("-", "−"),
            f"{reading.front_to_back_loss_db:+.2f}".replace("-", "−"),
        )
        for name, reading in case.readings
    )
    enough = "no choke is enough"
    if case.enough is not None:
        enough = f"a choke of {case.enough:.0f} ohm, as a resistance, is enough"
    rule = ""
    if each.choke_needed is not None and number == 0:
        needed = each.choke_needed.impedance
        rule = f" By the circuit rule, for the wanted suppression: {needed:.0f} ohm."
    return ShownTable(
        name="braid" if number == 0 else f"braid-{number + 1}",
        caption=f"Outside of the line, {case.words}: changes against no braid, in the main lobe",
        table=ReadingTable(
            header=(
                "choke",
                "braid / feed current",
                "pattern, dB",
                "left-right, dB",
                "lobe turned, °",
                "front-to-back lost, dB",
            ),
            rows=rows,
        ),
        note=f"To keep within 0.1 dB {enough}.{rule}",
    )


def phase_table(each: BeamFeed, *, system: UnitSystem) -> ShownTable | None:
    """Lengths of the plan's line for wanted phases.

    Returns
    -------
    ShownTable or None
        None when the plan has no line
    """
    lengths = phase_lengths(each)
    if not lengths or each.line is None:
        return None
    kind = each.line.line
    return ShownTable(
        name="phase",
        caption=(
            f"Lengths of {kind.name} for a wanted delay at "
            f"{each.beam.design_frequency / 1e6:.3f} MHz, velocity factor {kind.velocity_factor:g}"
        ),
        table=ReadingTable(
            header=("delay, degrees", "length"),
            rows=tuple(
                (f"{math.degrees(delay):.0f}", length_text(length, system=system))
                for delay, length in lengths
            ),
        ),
        note=(
            "True for a line that is matched at its end. The velocity factor of a drum differs by "
            "some per cent: measure a piece before cutting."
        ),
    )


def stack_table(result: FeedResult, *, system: UnitSystem) -> ShownTable | None:
    """Lines from the beams of a stack to their junction.

    Returns
    -------
    ShownTable or None
        None without a stack
    """
    lines = result.stack_lines
    if lines is None:
        return None
    return ShownTable(
        name="stack",
        caption=f"Lines of a stack of {lines.beams}, fed in phase",
        table=ReadingTable(
            header=("quantity", "value"),
            rows=(
                ("each line", f"{length_text(lines.length, system=system)} of "
                 f"{lines.line_impedance:g} ohm, velocity factor {lines.velocity_factor:g}"),
                ("electrical length", f"{lines.quarter_waves} quarter wavelengths"),
                ("junction, every beam matched", f"{lines.junction:.1f} ohm"),
                ("SWR from the junction on", swr_text(lines.swr)),
            ),
        ),
        note="Cut all lines of a stack alike from one drum; equal lengths keep the phase.",
    )  # fmt: skip

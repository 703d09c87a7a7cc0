"""The tables of the feed, as page and book both show them."""

from __future__ import annotations

import math

from boomwright.app.feed import phase_lengths
from boomwright.app.feed_results import BeamFeed, BraidCase, FeedResult
from boomwright.base import UnitSystem, length_text
from boomwright.feed import Comparison
from boomwright.figures import ReadingTable, ShownTable


def swr_text(swr: float) -> str:
    """Write a standing wave ratio.

    Parameters
    ----------
    swr
        standing wave ratio [-]

    Returns
    -------
    str
        two decimals, ``above 20`` or ``none`` [-]
    """
    if math.isnan(swr) or math.isinf(swr):
        return "none"
    return "above 20" if swr > 20.0 else f"{swr:.2f}"


def value_text(value: float, *, unit: str, system: UnitSystem) -> str:
    """Write a value of a comparison.

    Parameters
    ----------
    value
        the value, NaN when there is none [m, F or ohm]
    unit
        ``m``, ``F`` or ``ohm`` [-]
    system
        units of lengths [-]

    Returns
    -------
    str
        value with its unit, or ``none`` [-]
    """
    if math.isnan(value):
        return "none"
    if unit == "m":
        return length_text(value, system=system)
    return f"{value * 1e12:.0f} pF" if unit == "F" else f"{value:.1f} ohm"


def ohms(impedance: complex) -> str:
    """Write an impedance in rectangular form.

    Parameters
    ----------
    impedance
        impedance [ohm]

    Returns
    -------
    str
        for instance ``35.0 − j2.6`` [ohm]
    """
    sign = "+" if impedance.imag >= 0.0 else "−"
    return f"{impedance.real:.1f} {sign} j{abs(impedance.imag):.1f}"


def difference_text(each: Comparison) -> str:
    """Write how far the field is from the circuit equations.

    Parameters
    ----------
    each
        both values [-]

    Returns
    -------
    str
        percent of the circuit's value [%]
    """
    if math.isnan(each.circuit) or each.circuit == 0.0:
        return "–"
    return f"{100.0 * each.difference / each.circuit:+.1f} %".replace("-", "−")


def comparison_table(each: BeamFeed, *, system: UnitSystem) -> ShownTable | None:
    """Dimensions from the circuit equations and from the field, side by side.

    Parameters
    ----------
    each
        what the feed says about a beam [-]
    system
        units of lengths [-]

    Returns
    -------
    ShownTable or None
        None when nothing was proposed [-]
    """
    match = each.proposed
    if match is None or not match.comparisons:
        return None
    rows = [
        (
            item.name,
            value_text(item.circuit, unit=item.unit, system=system),
            value_text(item.field, unit=item.unit, system=system),
            difference_text(item),
        )
        for item in match.comparisons
    ]
    rows.append(
        (
            "SWR at the design frequency, solved in the field",
            swr_text(match.swr_of_start),
            swr_text(match.swr),
            "",
        )
    )
    return ShownTable(
        name="dimensions",
        caption=f"Proposed {match.kind}: circuit equations, and cut as solved in the field",
        table=ReadingTable(
            header=("dimension", "circuit equations", "field: cut this", "difference"),
            rows=tuple(rows),
        ),
        note=(
            f"Impedance at the line ± {match.error.impedance:.1f} ohm (finer pieces "
            f"{match.error.pieces:.1f}, round conductors {match.error.proximity:.1f}); clamps, "
            "insulators and housings are not in it. Keep what slides sliding until it is measured."
        ),
    )


def tries_table(each: BeamFeed) -> ShownTable:
    """All kinds of feed by their circuit equations.

    Parameters
    ----------
    each
        what the feed says about a beam [-]

    Returns
    -------
    ShownTable
        one row a kind [-]
    """
    rows = []
    for item in each.tries:
        if item.match is None:
            rows.append((item.kind, item.refusal.split(": ", 1)[-1], "none", "none"))
            continue
        rows.append(
            (item.kind, item.dimensions, swr_text(item.swr_design), swr_text(item.swr_worst))
        )
    return ShownTable(
        name="kinds",
        caption=f"Every kind of feed by its circuit equations, against {each.reference:g} ohm",
        table=ReadingTable(
            header=("feed", "first values", "SWR at design", "greatest over the band"),
            rows=tuple(rows),
        ),
        note=(
            "First values for choosing a kind, not for cutting: rods come out up to twice or half "
            "as long in the field. Write the kind into the plan to have it solved there."
        ),
    )


def rating_table(result: FeedResult, each: BeamFeed) -> ShownTable | None:
    """Parts at the owner's power.

    Parameters
    ----------
    result
        the result [-]
    each
        what it says about a beam [-]

    Returns
    -------
    ShownTable or None
        None when the power is not known [-]
    """
    if not each.ratings or result.power is None:
        return None
    rows = [
        (
            item.part,
            f"{item.peak_voltage:.0f} V",
            f"{item.rated_voltage:.0f} V" if item.rated_voltage else "",
            f"{item.current:.1f} A",
        )
        for item in each.ratings
    ]
    if each.choke_work is not None:
        work = each.choke_work
        rows.append(
            (
                f"choke of {abs(work.impedance):.0f} ohm, {work.heat:.1f} W of heat",
                f"{math.sqrt(2.0) * work.voltage:.0f} V",
                "",
                f"{work.voltage / abs(work.impedance):.3f} A",
            )
        )
    if each.line is not None and each.line.rating is not None:
        rating = each.line.rating
        rows.append(
            (
                f"line {each.line.line.name}, {rating.heat:.2f} W/m in its warmest metre, jacket "
                f"about {rating.jacket_rise:.0f} K above still air",
                f"{rating.peak_voltage:.0f} V",
                "",
                f"{rating.current:.1f} A",
            )
        )
    return ShownTable(
        name="ratings",
        caption=(
            f"At {result.power:g} W peak envelope power, duty {result.duty_factor:g}, worst over "
            "the band"
        ),
        table=ReadingTable(
            header=("part", "crest voltage", "buy a capacitor for", "effective current"),
            rows=tuple(rows),
        ),
        note="Voltages and currents at the peak envelope power, heat at the mean power.",
    )


def line_table(each: BeamFeed) -> ShownTable | None:
    """The line over the band.

    Parameters
    ----------
    each
        what the feed says about a beam [-]

    Returns
    -------
    ShownTable or None
        None when the plan has no line [-]
    """
    line = each.line
    if line is None:
        return None
    picks = range(0, len(line.frequency), 2)
    return ShownTable(
        name="line",
        caption=(
            f"{line.length:g} m of {line.line.name}, {line.reading.matched_loss_db:.2f} dB when "
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
    """The outside of the line with some chokes, one table a way down.

    Parameters
    ----------
    each
        what the feed says about a beam [-]

    Returns
    -------
    tuple of ShownTable
        as many as there are ways [-]
    """
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

    Parameters
    ----------
    each
        what the feed says about a beam [-]
    system
        units of lengths [-]

    Returns
    -------
    ShownTable or None
        None when the plan has no line [-]
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

    Parameters
    ----------
    result
        the result [-]
    system
        units of lengths [-]

    Returns
    -------
    ShownTable or None
        None without a stack [-]
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


def turning_table(each: BeamFeed) -> ShownTable | None:
    """What to turn first at a gamma, by what the meter reads.

    Parameters
    ----------
    each
        what the feed says about a beam [-]

    Returns
    -------
    ShownTable or None
        None for other feeds [-]
    """
    if not each.turns:
        return None
    return ShownTable(
        name="turning",
        caption="At the antenna: what to turn first",
        table=ReadingTable(
            header=("the meter reads", "do"),
            rows=tuple((turn.reads, " ".join(turn.do)) for turn in each.turns),
        ),
        note="Transmitter off and locked while anybody touches strap, rod or capacitor.",
    )

"""What readings on the air say, as tables that command, page and book all show."""

from __future__ import annotations

import math

from boomwright.charts import ReadingTable, ShownTable
from boomwright.study.tuning_on_air import AimedAt, HeardRun
from boomwright.tuning import Alignment

_PLUS_MINUS = "\N{PLUS-MINUS SIGN}"


def offset_text(alignment: Alignment) -> str:
    """Say what to add to the azimuth that the rotator shows."""
    return f"add {_offset(alignment.offset, alignment.band)} to what it shows"


def heard_table(heard: tuple[HeardRun, ...]) -> ShownTable | None:
    """Readings over the headings against the computed pattern.

    Returns
    -------
    ShownTable or None
        a row for each run; None without one
    """
    if not heard:
        return None
    rows = tuple(
        (
            _name(each),
            _degrees(each.bearing),
            f"{each.reading.front_to_back_db:.0f} dB".replace("-", "−"),
            f"{each.reading.computed_front_to_back_db:.0f} dB".replace("-", "−"),
            _width(each.reading.beam_width),
            _width(each.reading.computed_beam_width),
            _offset(each.reading.offset, each.reading.offset_band),
            f"{each.reading.scatter_db:.1f} dB",
        )
        for each in heard
    )
    return ShownTable(
        name="heard",
        caption="On the air against the computed pattern",
        table=ReadingTable(
            header=(
                "heard", "bearing", "front to back", "computed", "width", "computed",
                "add to rotator", "scatter",
            ),
            rows=rows,
        ),
        note="Beam width 3 dB down. Computed for the antenna as the sweeps found it. S-units count "
        "6 dB each, which few meters keep to. Front to back on the air holds what the paths and "
        "the ground do, too.",
    )  # fmt: skip


def aim_table(aimed: AimedAt | None) -> ShownTable | None:
    """Aims at known bearings.

    Parameters
    ----------
    aimed
        the aims; None without any

    Returns
    -------
    ShownTable or None
        a row for each aim; None without one
    """
    if aimed is None:
        return None
    rows = tuple(
        (
            name,
            _degrees(aim.bearing),
            _degrees(aim.shows),
            f"{_signed(left)} deg",
        )
        for name, aim, left in zip(aimed.names, aimed.aims, aimed.alignment.left, strict=True)
    )
    return ShownTable(
        name="aims",
        caption="Rotator against known bearings",
        table=ReadingTable(
            header=("aimed at", "true bearing", "rotator shows", "off the others"), rows=rows
        ),
        note=f"Together: {offset_text(aimed.alignment)}. Turn the mast or set the rotator's scale, "
        "then aim again.",
    )


def _name(each: HeardRun) -> str:
    return ", ".join(part for part in (each.note or each.name, each.day) if part)


def _degrees(angle: float) -> str:
    return f"{math.degrees(angle) % 360.0:.0f} deg"


def _width(angle: float) -> str:
    return f"{math.degrees(angle):.0f} deg" if angle > 0.0 else "not seen"


def _offset(offset: float, band: float) -> str:
    return f"{_signed(offset)} {_PLUS_MINUS} {math.ceil(math.degrees(band) - 1e-9)} deg"


def _signed(angle: float) -> str:
    whole = round(math.degrees(angle))
    return f"{whole:+d}".replace("-", "−") if whole else "0"

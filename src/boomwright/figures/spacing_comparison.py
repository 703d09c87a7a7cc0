"""Even and free spacing of the elements on one boom, laid over each other."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import UnitSystem, length_text
from boomwright.design import ComparedSpacing
from boomwright.figures.line_chart import line_chart
from boomwright.figures.palette import LIGHT, Palette
from boomwright.figures.tables import ReadingTable

_MEGA = 1e-6


def spacing_gain_chart(
    *, compared: Sequence[ComparedSpacing], palette: Palette = LIGHT, width: float = 600.0
) -> str:
    """Draw the gain over the band for each way to space the elements.

    Parameters
    ----------
    compared
        the ways, each at its best [-] (n,)
    palette
        colours [-]
    width
        width of the picture [user units]

    Returns
    -------
    str
        SVG text [-]
    """
    return line_chart(
        kind="spacing-gain",
        title="Gain over the band, even against free spacing",
        description=spacing_sentence(compared=compared),
        x=compared[0].sweep.frequencies * _MEGA,
        curves=[(one.spacing, one.sweep.gain_dbi) for one in compared],
        x_label="frequency, MHz",
        y_label="gain, dBi",
        x_name="mhz",
        palette=palette,
        width=width,
    )


def spacing_pattern_chart(
    *, compared: Sequence[ComparedSpacing], palette: Palette = LIGHT, width: float = 600.0
) -> str:
    """Draw the free-space azimuth patterns of each way over each other, heading to rear.

    Parameters
    ----------
    compared
        the ways, each at its best [-] (n,)
    palette
        colours [-]
    width
        width of the picture [user units]

    Returns
    -------
    str
        SVG text; gains 40 dB below the strongest are drawn at the lower edge [-]
    """
    half = compared[0].azimuth.angle_deg <= 180.0
    return line_chart(
        kind="spacing-pattern",
        title="Azimuth patterns at the design frequency, even against free spacing",
        description=spacing_sentence(compared=compared),
        x=compared[0].azimuth.angle_deg[half],
        curves=[(one.spacing, one.azimuth.gain_dbi[half]) for one in compared],
        x_label="azimuth from the heading, deg",
        y_label="gain, dBi",
        x_name="azimuth_deg",
        deepest=40.0,
        palette=palette,
        width=width,
    )


def spacing_sentence(*, compared: Sequence[ComparedSpacing]) -> str:
    """Say in a sentence what free spacing gains.

    Parameters
    ----------
    compared
        the ways, each at its best [-] (n,)

    Returns
    -------
    str
        the sentence [-]
    """
    told = [
        f"{one.spacing} {one.sweep.worst[0]:.2f} dBi with {one.sweep.worst[2]:.1f} dB front to rear"
        for one in compared
    ]
    return f"Worst in the band on the same boom: {'; '.join(told)}."


def spacing_table(
    *, compared: Sequence[ComparedSpacing], system: UnitSystem = "metric"
) -> ReadingTable:
    """Give the numbers behind the charts.

    Parameters
    ----------
    compared
        the ways, each at its best [-] (n,)
    system
        ``metric`` or ``us`` lengths [-]

    Returns
    -------
    ReadingTable
        a row for each way [-]
    """
    rows = []
    for one in compared:
        gain, back, rear, swr = one.sweep.worst
        beam = one.improvement.beam
        places = ", ".join(length_text(each.position, system=system) for each in beam.elements)
        rows.append(
            (one.spacing, f"{gain:.2f}", f"{back:.1f}", f"{rear:.1f}", f"{swr:.2f}", places)
        )
    return ReadingTable(
        header=(
            "spacing",
            "gain, dBi",
            "front to back, dB",
            "front to rear, dB",
            "SWR",
            "places",
        ),
        rows=tuple(rows),
    )

"""Even and free spacing of the elements on one boom, laid over each other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.charts.beam.patterns import azimuth_pattern
from boomwright.charts.line_charts import line_chart
from boomwright.charts.palette import LIGHT, Palette
from boomwright.solver import PatternCut

_MEGA = 1e-6
#: standing wave ratio beyond which a chart tells no more
_HIGHEST_SWR = 5.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SpacingCurves(ReadOnlyArrays):
    """One way to space the elements, at its best."""

    spacing: str  #: how they are spaced
    places: tuple[float, ...]  #: along the boom [m] (n_elements,)
    #: least gain, front-to-back and front-to-rear ratio, largest SWR in the band [dBi, dB, dB, -]
    #: (4,)
    worst: tuple[float, float, float, float]
    kept: bool  #: whether all limits of the wish are kept
    frequencies: Floats  #: frequencies [Hz] (f,)
    gain_dbi: Floats  #: gain over the band [dBi] (f,)
    swr: Floats  #: standing wave ratio over the band, after the match when one is assumed (f,)
    azimuth: PatternCut  #: free-space cut at the design frequency


def spacing_gain_chart(
    *, compared: Sequence[SpacingCurves], palette: Palette = LIGHT, width: float = 600.0
) -> str:
    """Draw the gain over the band for each way to space the elements."""
    return line_chart(
        kind="spacing-gain",
        title="Gain, even against free spacing",
        description=spacing_sentence(compared=compared),
        x=compared[0].frequencies * _MEGA,
        curves=[(one.spacing, one.gain_dbi) for one in compared],
        x_label="frequency, MHz",
        y_label="gain, dBi",
        x_name="mhz",
        palette=palette,
        width=width,
    )


def spacing_swr_chart(
    *, compared: Sequence[SpacingCurves], palette: Palette = LIGHT, width: float = 600.0
) -> str:
    """Draw the standing wave ratio over the band for each way to space the elements.

    Returns:
        SVG text; ratios above 5 are drawn at the upper edge
    """
    return line_chart(
        kind="spacing-swr",
        title="SWR, even against free spacing",
        description=spacing_sentence(compared=compared),
        x=compared[0].frequencies * _MEGA,
        curves=[(one.spacing, np.minimum(one.swr, _HIGHEST_SWR)) for one in compared],
        x_label="frequency, MHz",
        y_label="SWR",
        x_name="mhz",
        palette=palette,
        width=width,
    )


def spacing_pattern(
    *, compared: Sequence[SpacingCurves], palette: Palette = LIGHT, width: float = 600.0
) -> str:
    """Draw the free-space azimuth patterns of each way over each other."""
    return azimuth_pattern(
        cuts=[one.azimuth for one in compared],
        labels=[one.spacing for one in compared],
        title="Azimuth, even against free spacing",
        palette=palette,
        width=width,
    )


def spacing_sentence(*, compared: Sequence[SpacingCurves]) -> str:
    """Say in a sentence what free spacing gains."""
    told = [
        f"{one.spacing} {one.worst[0]:.2f} dBi with {one.worst[2]:.1f} dB front to rear"
        for one in compared
    ]
    return f"Worst in the band on the same boom: {'; '.join(told)}."

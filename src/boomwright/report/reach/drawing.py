"""Drawing for reach: one palette, one unit system, one width; lengths in words of both systems."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownTable
from boomwright.solver import PatternCut

Floats = NDArray[np.float64]

_FOOT, _MILE = 0.3048, 1609.344
#: rows of the numbers behind a chart, at most [-]
_ROWS = 45


def length_unit(system: UnitSystem) -> tuple[float, str]:
    """Give the unit of heights and distances on the site.

    Parameters
    ----------
    system
        ``metric`` or ``us``

    Returns
    -------
    tuple
        one of it [m] and its name [-]
    """
    return (1.0, "m") if system == "metric" else (_FOOT, "ft")


def length_words(length: float, system: UnitSystem) -> str:
    """Write a height or a distance on the site.

    Parameters
    ----------
    length
        length [m]
    system
        ``metric`` or ``us``
    """
    unit, name = length_unit(system)
    return f"{length / unit:.1f} {name}"


def far_unit(system: UnitSystem) -> tuple[float, str]:
    """Give the unit of distances on the Earth.

    Parameters
    ----------
    system
        ``metric`` or ``us``

    Returns
    -------
    tuple
        one of it [m] and its name [-]
    """
    return (1e3, "km") if system == "metric" else (_MILE, "mi")


def band_words(half_width: float, decimals: int = 2) -> str:
    """Write half the width of an error band, rounded up so that it never looks narrower.

    Parameters
    ----------
    half_width
        half width [any unit]
    """
    step = 10.0**-decimals
    return f"± {math.ceil(half_width / step - 1e-9) * step:.{decimals}f}"


def front_gain(cut: PatternCut, angle: Floats) -> Floats:
    """Gain of a cut at some elevations towards the heading.

    Parameters
    ----------
    angle
        elevations [deg] (n,)

    Returns
    -------
    NDArray
        gain [dBi] (n,)
    """
    gain: Floats = np.interp(angle, cut.angle_deg, cut.gain_dbi)
    return gain


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """How the pictures of reach are drawn."""

    palette: Palette  #: colours
    system: UnitSystem  #: units of lengths
    width: float  #: width of a picture [user units]

    def shown(
        self, name: str, words: str, svg: str, *, caption: str, table: ReadingTable, about: str
    ) -> ShownPicture:
        """Put a picture together with its numbers."""
        return ShownPicture(
            name=name,
            words=words,
            svg=svg,
            caption=caption,
            behind=ShownTable(name=name, caption=about, table=table),
            units=self.width,
        )

    def curves(
        self,
        name: str,
        words: str,
        *,
        x: Floats,
        curves: list[tuple[str, Floats]],
        x_label: str,
        caption: str,
        y_label: str = "gain, dBi",
        y_unit: str = "dBi",
        x_name: str = "x",
        deepest: float | None = None,
        mark: tuple[float, str] | None = None,
    ) -> ShownPicture:
        """Draw a plain chart with its numbers.

        Parameters
        ----------
        x
            running value [any unit] (n,)
        curves
            name and values of each curve [any unit] (n_curves,)
        deepest
            how far below the highest value the chart reaches; None for all [unit of y]
        mark
            running value to be marked, and its words; None for none [unit of x]
        """
        svg = charts.line_chart(
            kind=name,
            title=words,
            description="; ".join(
                f"{label}: at most {y.max():.1f} {y_unit} at {x[int(y.argmax())]:.1f}"
                for label, y in curves
            )
            + ".",
            x=x,
            curves=curves,
            x_label=x_label,
            y_label=y_label,
            x_name=x_name,
            deepest=deepest,
            mark=mark,
            palette=self.palette,
            width=self.width,
        )
        step = max(1, len(x) // _ROWS)
        return self.shown(
            name,
            words,
            svg,
            caption=caption,
            table=ReadingTable(
                header=(x_label, *(f"{label}, {y_unit}" for label, _ in curves)),
                rows=tuple(
                    (f"{x[i]:.4g}", *(f"{y[i]:.2f}".replace("-", "−") for _, y in curves))
                    for i in range(0, len(x), step)
                ),
            ),
            about=words,
        )

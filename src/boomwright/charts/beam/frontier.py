"""The trade-off of gain, boom and front-to-rear ratio, every point of it readable."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays, UnitSystem
from boomwright.base.records import dataclass
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import document, line, marker, number, pen, tag
from boomwright.charts.legends import legend_rows
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds
from boomwright.charts.shown import ReadingTable

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_FOOT_M = 0.3048


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TradeOffCurve(ReadOnlyArrays):
    """Gain against boom under one demand on the rear."""

    rear_db: float  #: front-to-rear ratio demanded over the band, 0 for none [dB]
    boom: NDArray[np.float64]  #: boom from first to last element, rising [m] (n,)
    gain_dbi: NDArray[np.float64]  #: best worst-in-band gain [dBi] (n,)
    front_to_rear_db: NDArray[np.float64]  #: worst front-to-rear ratio of the designs [dB] (n,)
    kept: NDArray[np.bool_]  #: whether the demand is kept [-] (n,)

    @property
    def name(self) -> str:
        """What is demanded, in words."""
        return f"rear {self.rear_db:.0f} dB" if self.rear_db else "any rear"


def trade_off_chart(
    *,
    curves: Sequence[TradeOffCurve],
    elements: int,
    own: tuple[float, float, str] | None = None,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Draw gain against boom, a series for each demand on the rear.

    Args:
        own: boom [m], gain [dBi] and name of a beam to be marked; None for none [-]

    Returns:
        SVG text; a hollow point does not keep its demand; every point carries ``data-choice``,
        its curve
            and its number along it
    """
    unit, unit_name = (1.0, "m") if system == "metric" else (_FOOT_M, "ft")
    gains = np.concatenate([one.gain_dbi for one in curves])
    low, high = float(gains.min()), float(gains.max())
    ends = [float(one.boom[-1]) for one in curves]
    if own is not None:
        low, high = min(low, own[1]), max(high, own[1])
        ends.append(own[0])
    styles = [line_style(palette=palette, index=i) for i in range(len(curves))]
    key, below = legend_rows(
        entries=[(one.name, style) for one, style in zip(curves, styles, strict=True)],
        x=_LEFT, y=38.0, room=width - _LEFT - 8.0, palette=palette,
    )  # fmt: skip
    frame = panel(
        left=_LEFT, top=_TOP + below, right=width - _RIGHT, bottom=360.0 - 42.0,
        x_range=(0.0, 1.03 * max(ends) / unit), y_range=nice_bounds(low=low, high=high),
        x_label=f"boom, {unit_name}", y_label="worst gain in the band, dBi", x_count=9,
    )  # fmt: skip
    body = [*key, *panel_frame(frame, palette=palette)]
    for number_, (one, style) in reversed(list(enumerate(zip(curves, styles, strict=True)))):
        places = one.boom / unit
        body.append(
            curve(
                frame,
                x=places,
                y=one.gain_dbi,
                label=one.name,
                style=style,
                x_data=one.boom,
                x_name="boom",
                markers=False,
            )
        )
        body += _points(
            frame, one, style, curve_number=number_, unit=(unit, unit_name), paper=palette.paper
        )
    if own is not None:
        body.append(_own(frame.x(own[0] / unit), frame.y(own[1]), own[2], frame.x.end, palette))
    return document(
        kind="trade-off", title=f"What {elements} elements can reach",
        description=trade_off_sentence(curves=curves, elements=elements, system=system),
        width=width, height=360.0, palette=palette,
        body=[tag("g", "".join(body), data_panel=0, data_x_unit=number(unit, decimals=4),
                  **frame.data())],
    )  # fmt: skip


def _points(
    frame: Panel,
    one: TradeOffCurve,
    style: LineStyle,
    *,
    curve_number: int,
    unit: tuple[float, str],
    paper: str,
) -> Iterator[str]:
    """Draw the points of a curve, each with its numbers; hollow where the demand is not kept."""
    for i, (boom, gain) in enumerate(zip(one.boom.tolist(), one.gain_dbi.tolist(), strict=True)):
        x, y = float(frame.x(boom / unit[0])), float(frame.y(gain))
        shown = marker(style.marker, x, y, fill=style.colour, size=3.6)
        if not one.kept[i]:
            shown += marker(style.marker, x, y, fill=paper, size=2.0)
        rear = float(one.front_to_rear_db[i])
        told = f"boom {boom / unit[0]:.2f} {unit[1]}, {gain:.2f} dBi, front to rear {rear:.1f} dB"
        yield tag(
            "g",
            tag("title", told) + shown,
            data_choice=f"{curve_number}.{i}",
            data_boom=number(boom),
            data_gain=number(gain),
            data_rear=number(rear),
            data_kept="yes" if one.kept[i] else "no",
        )


def _own(x: float, y: float, words: str, right_end: float, palette: Palette) -> str:
    left = x > 0.7 * right_end
    cross = line(x - 6.0, y, x + 6.0, y, **pen(palette.accent, "1.8"))
    cross += line(x, y - 6.0, x, y + 6.0, **pen(palette.accent, "1.8"))
    return tag("g", cross, data_part="own-beam") + halo_text(
        x + (-9.0 if left else 9.0), y + 12.0, words, fill=palette.accent, palette=palette,
        anchor="end" if left else "start",
    )  # fmt: skip


def trade_off_sentence(
    *, curves: Sequence[TradeOffCurve], elements: int, system: UnitSystem = "metric"
) -> str:
    """Say in a sentence what the chart shows."""
    unit, name = (1.0, "m") if system == "metric" else (_FOOT_M, "ft")
    first, last = curves[0], curves[-1]
    cost = float(np.max(first.gain_dbi - last.gain_dbi))
    return (
        f"{elements} elements reach {first.gain_dbi[0]:.2f} dBi on a boom of "
        f"{first.boom[0] / unit:.2f} {name} and {first.gain_dbi.max():.2f} dBi on one of "
        f"{first.boom[int(first.gain_dbi.argmax())] / unit:.2f} {name}, worst in the band; a "
        f"front-to-rear ratio of {last.rear_db:.0f} dB costs up to {cost:.2f} dB of it. A hollow "
        "point does not reach its ratio."
    )


def trade_off_table(
    *, curves: Sequence[TradeOffCurve], system: UnitSystem = "metric"
) -> ReadingTable:
    """Give the numbers behind the chart."""
    unit, name = (1.0, "m") if system == "metric" else (_FOOT_M, "ft")
    rows = []
    for i, boom in enumerate(curves[0].boom):
        gains = [
            f"{one.gain_dbi[i]:.2f}" + ("" if one.kept[i] else " (not reached)") for one in curves
        ]
        rows.append((f"{boom / unit:.2f}", *gains))
    heads = tuple(f"gain, dBi, {one.name}" for one in curves)
    return ReadingTable(header=(f"boom, {name}", *heads), rows=tuple(rows))

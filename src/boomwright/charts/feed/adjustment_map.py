"""What strap and capacitor of a gamma do: standing wave ratio over both."""

from __future__ import annotations

import numpy as np

from boomwright.base import UnitSystem, length_text
from boomwright.base.array_types import Floats
from boomwright.charts.axes import panel, panel_frame
from boomwright.charts.canvas import arrow_head, document, line, number, number_list, pen, tag
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import classes_of, halo_text, refined, shade, shade_key
from boomwright.charts.shown import ReadingTable
from boomwright.feed import GammaAdjustment

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_SWR = (1.1, 1.5, 2.0, 3.0, 5.0)
_NAMES = ("to 1.1", "to 1.5", "to 2", "to 3", "to 5", "above")
_OPACITIES = (0.95, 0.7, 0.47, 0.28, 0.12, 0.0)
_PICO = 1e-12
#: cells drawn for one of the solved picture, each way
_FINER = 4


def _finer(values: Floats) -> Floats:
    steps = np.linspace(0.0, len(values) - 1.0, _FINER * (len(values) - 1) + 1)
    return np.interp(steps, np.arange(len(values)), values)


def _edges(values: Floats) -> Floats:
    middles = 0.5 * (values[1:] + values[:-1])
    return np.concatenate(([values[0]], middles, [values[-1]]))


def adjustment_map(
    *,
    adjustment: GammaAdjustment,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 520.0,
) -> str:
    """Draw the standing wave ratio against the place of the strap and the capacitor.

    Args:
        width: size of the picture [user units]
    """
    unit, name = (1e-3, "mm") if system == "metric" else (0.0254, "in")
    tap, farad = adjustment.rod_length / unit, adjustment.capacitance / _PICO
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=360.0 - 42.0,
        x_range=(float(tap[0]), float(tap[-1])), y_range=(float(farad[0]), float(farad[-1])),
        x_label=f"strap from the element's middle, {name}", y_label="capacitor, pF", x_count=7,
    )  # fmt: skip
    ratio = refined(np.minimum(adjustment.swr, 99.0), factor=_FINER)
    numbers = classes_of(-ratio.T, levels=tuple(-limit for limit in _SWR))
    colour = palette.series[0]
    body = shade(
        numbers,
        x_edges=frame.x.places(_edges(_finer(tap))),
        y_edges=frame.y.places(_edges(_finer(farad))),
        opacities=_OPACITIES,
        colour=colour,
    )
    body += panel_frame(frame, palette=palette)
    x, y = frame.x(adjustment.best_rod_length / unit), frame.y(adjustment.best_capacitance / _PICO)
    body += [
        line(x - 7.0, y, x + 7.0, y, **pen(palette.accent, "1.6")),
        line(x, y - 7.0, x, y + 7.0, **pen(palette.accent, "1.6")),
    ]
    body += _ways(frame.x.start, frame.x.end, x, y, palette)
    words = f"match: {adjustment.best_rod_length / unit:.0f} {name}, " \
            f"{adjustment.best_capacitance / _PICO:.0f} pF"  # fmt: skip
    right = x < 0.6 * frame.x.end
    body.append(
        halo_text(x + (10.0 if right else -10.0), y - 14.0, words, fill=palette.accent,
                  palette=palette, anchor="start" if right else "end")
    )  # fmt: skip
    key = shade_key(names=_NAMES, opacities=_OPACITIES, colour=colour, x=_LEFT, y=38.0,
                    pitch=(width - _LEFT - _RIGHT) / len(_NAMES), palette=palette)  # fmt: skip
    return document(
        kind="adjustment-map", title="Gamma: strap and capacitor",
        description=adjustment_sentence(adjustment, system=system),
        width=width, height=360.0, palette=palette,
        body=[*key, tag("g", "".join(body), data_panel=0, **frame.data())],
        data={
            "strap": number_list(adjustment.rod_length, decimals=5),
            "capacitance-pf": number_list(farad, decimals=3),
            "swr": "[" + ",".join(number_list(np.minimum(row, 99.0), decimals=3)
                                  for row in adjustment.swr) + "]",
            "x-unit": number(unit, decimals=5),
        },
    )  # fmt: skip


def _ways(start: float, end: float, x: float, y: float, palette: Palette) -> list[str]:
    """Short arrows along both adjustments: strap changes R and X, capacitor only X."""
    made = []
    for direction, tip in ((0.0, min(x + 34.0, end)), (np.pi, max(x - 34.0, start))):
        made.append(line(x, y, tip, y, **pen(palette.accent, "0.8")))
        made.append(arrow_head(tip, y, angle=float(direction), fill=palette.accent, size=6.0))
    return made


def adjustment_sentence(adjustment: GammaAdjustment, *, system: UnitSystem) -> str:
    """Say what strap and capacitor do."""
    step, words = (0.01, "10 mm") if system == "metric" else (0.0127, "1/2 in")
    return (
        f"At {adjustment.frequency / 1e6:.3f} MHz the match is at a strap of "
        f"{length_text(adjustment.best_rod_length, system=system)} and "
        f"{adjustment.best_capacitance / _PICO:.0f} pF. {words} of strap outwards change the "
        f"resistance by {adjustment.resistance_slope * step:+.1f} ohm and the reactance by "
        f"{adjustment.reactance_slope * step:+.1f} ohm; the capacitor changes the reactance only."
    )


def adjustment_table(adjustment: GammaAdjustment, *, system: UnitSystem) -> ReadingTable:
    """Write the map as numbers, every fifth place."""
    unit, name = (1e-3, "mm") if system == "metric" else (0.0254, "in")
    columns = range(0, len(adjustment.capacitance), 5)
    return ReadingTable(
        header=(
            f"strap, {name}",
            *(f"SWR at {adjustment.capacitance[c] / _PICO:.0f} pF" for c in columns),
        ),
        rows=tuple(
            (
                f"{adjustment.rod_length[row] / unit:.{0 if system == 'metric' else 1}f}",
                *(f"{adjustment.swr[row, c]:.2f}" for c in columns),
            )
            for row in range(0, len(adjustment.rod_length), 5)
        ),
    )

"""The reflection-coefficient chart: impedances over the band, and the way through a match."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.charts.canvas import (
    arrow_head,
    document,
    line,
    marker,
    number,
    number_list,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.labels import shortened, wrapped
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.feed import Leg, reflection_coefficient, standing_wave_ratio

_GRID_R = (0.2, 0.5, 1.0, 2.0, 5.0)
_GRID_X = (0.2, 0.5, 1.0, 2.0, 5.0)
_SWR_RINGS = (1.5, 2.0, 3.0)
_TOP, _MARGIN, _ROW = 30.0, 30.0, 16.0

Places = tuple[NDArray[np.float64], NDArray[np.float64]]


class _Disc:
    """Places of reflection coefficients on the paper."""

    def __init__(self, *, x: float, y: float, radius: float, reference: float) -> None:
        self.x, self.y, self.radius, self.reference = x, y, radius, reference

    def places(self, gamma: ArrayLike) -> Places:
        value = np.asarray(gamma, dtype=complex)
        return self.x + self.radius * value.real, self.y - self.radius * value.imag

    def of(self, impedance: ArrayLike) -> Places:
        return self.places(reflection_coefficient(impedance, reference=self.reference))


def _grid(disc: _Disc, palette: Palette) -> Iterator[str]:
    """Circles of equal resistance, arcs of equal reactance, rings of equal SWR."""
    faint = {"fill": "none", "stroke": palette.grid, "stroke_width": "0.4"}
    yield tag("circle", cx=disc.x, cy=disc.y, r=disc.radius, fill="none", **pen(palette.ink, "1"))
    yield line(disc.x - disc.radius, disc.y, disc.x + disc.radius, disc.y,
               **pen(palette.grid, "0.6"))  # fmt: skip
    sweep = np.concatenate((-np.geomspace(60.0, 1e-3, 90), np.geomspace(1e-3, 60.0, 90)))
    for r in _GRID_R:
        yield tag("path", d=path_data(*disc.of(disc.reference * (r + 1j * sweep))), **faint)
        x, y = disc.of(disc.reference * complex(r, 0.0))
        yield halo_text(float(x) + 3.0, float(y) + 7.0, f"{r * disc.reference:g}",
                        fill=palette.quiet, palette=palette)  # fmt: skip
    along = np.concatenate(([0.0], np.geomspace(1e-3, 60.0, 90)))
    for size in _GRID_X:
        for sign in (1.0, -1.0):
            arc = disc.of(disc.reference * (along + 1j * sign * size))
            yield tag("path", d=path_data(*arc), **faint)
            rim = complex(reflection_coefficient(1j * sign * size, reference=1.0))
            x, y = disc.places(rim * (1.0 + 11.0 / disc.radius))
            words = f"{'+' if sign > 0 else '−'}j{size * disc.reference:g}"
            anchor = "end" if rim.real < -0.3 else "start" if rim.real > 0.3 else "middle"
            yield text(float(x), float(y), words, fill=palette.quiet, anchor=anchor)
    for swr in _SWR_RINGS:
        radius = disc.radius * (swr - 1.0) / (swr + 1.0)
        yield tag("circle", cx=disc.x, cy=disc.y, r=radius, fill="none",
                  **pen(palette.quiet, "0.8", "2 3"), data_swr=number(swr))  # fmt: skip
        yield halo_text(disc.x - 0.5 * radius, disc.y - 0.866 * radius, f"SWR {swr:g}",
                        fill=palette.quiet,
                        palette=palette, anchor="middle")  # fmt: skip


def _trace(
    disc: _Disc, impedance: ArrayLike, frequency: ArrayLike, style: LineStyle, *, label: str
) -> str:
    z = np.asarray(impedance, dtype=complex)
    x, y = disc.of(z)
    drawn = tag("path", d=path_data(x, y), fill="none", **pen(style.colour, "2", style.dash),
                stroke_linejoin="round")  # fmt: skip
    ends = marker(style.marker, float(x[0]), float(y[0]), fill=style.colour, size=3.4)
    head = ""
    if len(x) > 1 and abs(x[-1] - x[-2]) + abs(y[-1] - y[-2]) > 1e-6:
        angle = float(np.arctan2(y[-2] - y[-1], x[-1] - x[-2]))
        head = arrow_head(float(x[-1]), float(y[-1]), angle=angle, fill=style.colour, size=8.0)
    return tag(
        "g",
        drawn + ends + head,
        data_series=label,
        data_frequency=number_list(frequency, decimals=1),
        data_resistance=number_list(z.real, decimals=3),
        data_reactance=number_list(z.imag, decimals=3),
    )


def _legs(disc: _Disc, legs: Sequence[Leg], palette: Palette) -> Iterator[str]:
    for count, leg in enumerate(legs, start=1):
        x, y = disc.of(leg.impedance)
        yield tag("path", d=path_data(x, y), fill="none", **pen(palette.accent, "1.6"),
                  data_leg=count, stroke_linecap="round")  # fmt: skip
        if abs(x[-1] - x[0]) + abs(y[-1] - y[0]) < 2.0:
            continue
        middle = len(x) // 2
        # Clear of the resistances, which stand below and right of their circles.
        yield halo_text(float(x[middle]) - 7.0, float(y[middle]) - 7.0, str(count),
                        fill=palette.accent, palette=palette, anchor="middle",
                        bold=True)  # fmt: skip


def reflection_chart(
    *,
    traces: Sequence[tuple[str, ArrayLike, ArrayLike]],
    reference: float,
    legs: Sequence[Leg] = (),
    leg_names: Sequence[str] = (),
    palette: Palette = LIGHT,
    width: float = 520.0,
) -> str:
    """Draw impedances in the plane of the reflection coefficient, the wanted one in the middle.

    Args:
        traces: name, frequencies [Hz] and impedances [ohm] of each curve, an arrow at its
            highest frequency
            (n_traces,)
        reference: resistance in the middle of the chart [ohm]

    Raises:
        ValueError: when names and legs do not match
    """
    if len(legs) != len(leg_names):
        msg = f"{len(leg_names)} names for {len(legs)} pieces of the match; give one each"
        raise ValueError(msg)
    radius = min(width / 2.0 - 2.0 * _MARGIN, 200.0)
    disc = _Disc(x=width / 2.0, y=_TOP + 18.0 + radius, radius=radius, reference=reference)
    styles = [line_style(palette=palette, index=i) for i in range(len(traces))]
    body = list(_grid(disc, palette))
    body += _legs(disc, legs, palette)
    for (label, frequency, impedance), style in zip(traces, styles, strict=True):
        body.append(_trace(disc, impedance, frequency, style, label=label))
    foot = disc.y + radius + 30.0
    for (label, _, _), style in zip(traces, styles, strict=True):
        body.append(line(14.0, foot, 38.0, foot, **pen(style.colour, "2", style.dash)))
        body.append(marker(style.marker, 14.0, foot, fill=style.colour))
        body.append(text(46.0, foot, shortened(label, size=10.0, room=width - 60.0),
                         fill=palette.ink))  # fmt: skip
        foot += _ROW
    if leg_names:
        told = "At the design frequency: " + ", ".join(
            f"{count} {name}" for count, name in enumerate(leg_names, start=1)
        )
        for row in wrapped(told, size=10.0, room=width - 28.0):
            body.append(text(14.0, foot, row, fill=palette.accent))
            foot += _ROW
    how = "arrow: upper end of the band · rim: reactance in ohm, axis: resistance in ohm"
    for row in wrapped(how, size=10.0, room=width - 28.0):
        body.append(text(14.0, foot, row, fill=palette.quiet))
        foot += _ROW
    foot -= _ROW
    return document(
        kind="reflection-chart", title="Impedance on its way to the line",
        description=_sentence(traces, reference),
        width=width, height=foot + 16.0, palette=palette, body=body,
        data={"reference": number(reference), "centre-x": number(disc.x),
              "centre-y": number(disc.y), "radius": number(radius)},
    )  # fmt: skip


def _sentence(traces: Sequence[tuple[str, ArrayLike, ArrayLike]], reference: float) -> str:
    said = []
    for label, _, impedance in traces:
        ratio = standing_wave_ratio(np.asarray(impedance, dtype=complex), reference=reference)
        said.append(f"{label}: SWR {ratio.min():.2f} to {ratio.max():.2f}")
    return f"Impedances over the band against {reference:g} ohm. {'; '.join(said)}."

"""Figures of a beam over frequency: standing wave ratio, impedance, gain and front-to-back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass
from boomwright.charts.axes import Panel, curve, error_strip, panel, panel_frame
from boomwright.charts.canvas import document, line, pen, tag, text
from boomwright.charts.labels import shortened, text_width
from boomwright.charts.legends import legend
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.scale import nice_bounds
from boomwright.charts.sentences import summary_sentence
from boomwright.reach import BeamReadings

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 66.0
_GAP = 46.0
_SWR_CAP = 10.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Series:
    """One quantity of one set of readings."""

    label: str
    frequency: NDArray[np.float64]
    value: NDArray[np.float64]
    error: NDArray[np.float64] | None
    style: LineStyle


def _frequency_range(readings: BeamReadings) -> tuple[float, float]:
    """Range in MHz with a margin that leaves the band edges free of the axes."""
    if not readings.sweep:
        raise ValueError("a chart over frequency needs readings with at least one frequency")
    ends = [*readings.beam.band, *(point.frequency for point in readings.sweep)]
    low, high = min(ends) / 1e6, max(ends) / 1e6
    margin = 0.04 * (high - low) or 0.005 * high
    return low - margin, high + margin


def _band_marks(frame: Panel, readings: BeamReadings, palette: Palette) -> Iterator[str]:
    low, high = (frame.x(edge / 1e6) for edge in readings.beam.band)
    top, bottom = frame.y.end, frame.y.start
    for place, part in ((low, "band-edge"), (high, "band-edge")):
        yield line(place, top, place, bottom, **pen(palette.ink, "0.9", "2 2"), data_part=part)
    design = readings.beam.design_frequency
    place = frame.x(design / 1e6)
    if frame.x.start <= place <= frame.x.end:
        yield line(
            place,
            top - 3.0,
            place,
            bottom,
            **pen(palette.accent, "1", "8 3"),
            data_part="design-frequency",
            data_frequency=f"{design:.0f}",
        )


def _held(place: float, frame: Panel, *, half: float) -> float:
    return min(max(place, frame.x.start + half), frame.x.end - half)


def _band_labels(frame: Panel, readings: BeamReadings, palette: Palette) -> Iterator[str]:
    """Name the band and the design frequency above the panel, as far as there is room."""
    beam, y = readings.beam, frame.y.end - 10.0
    low, high = (edge / 1e6 for edge in beam.band)
    design = beam.design_frequency / 1e6
    quiet = palette.quiet
    first, last = f"band from {low:.3f}", f"to {high:.3f} MHz"
    name = f"design {design:.3f} MHz"
    half = 0.5 * text_width(name, size=10.0)
    left = frame.x(low) + text_width(first, size=10.0) + half + 8.0
    right = frame.x(high) - text_width(last, size=10.0) - half - 8.0
    if left > right:
        whole = f"band {low:.3f} to {high:.3f} MHz, design {design:.3f} MHz"
        middle = _held(frame.x(0.5 * (low + high)), frame, half=0.5 * text_width(whole, size=10.0))
        yield text(middle, y, whole, fill=quiet, anchor="middle")
        return
    yield text(frame.x(low), y, first, fill=quiet)
    yield text(frame.x(high), y, last, fill=quiet, anchor="end")
    if frame.x.start <= frame.x(design) <= frame.x.end:
        place = min(max(frame.x(design), left), right)
        yield text(place, y, name, fill=palette.accent, anchor="middle")


def _value_range(series: Sequence[_Series], *, least: float | None = None) -> tuple[float, float]:
    lows = [s.value - (0.0 if s.error is None else s.error) for s in series]
    highs = [s.value + (0.0 if s.error is None else s.error) for s in series]
    low, high = min(float(v.min()) for v in lows), max(float(v.max()) for v in highs)
    if least is not None and high - low < least:
        middle = 0.5 * (low + high)
        low, high = middle - 0.5 * least, middle + 0.5 * least
    return nice_bounds(low=low, high=high, count=5)


def _drawn(frame: Panel, /, *, series: Sequence[_Series]) -> list[str]:
    strips = [
        error_strip(frame, x=s.frequency / 1e6, middle=s.value, half_width=s.error, style=s.style)
        for s in series
        if s.error is not None
    ]
    curves = [
        curve(
            frame,
            x=s.frequency / 1e6,
            y=s.value,
            label=s.label,
            style=s.style,
            x_data=s.frequency,
            x_name="frequency",
        )
        for s in reversed(series)
    ]
    return strips + curves


def _chart(
    *,
    kind: str,
    title: str,
    readings: BeamReadings,
    rows: Sequence[tuple[str, Sequence[_Series], tuple[float, float]]],
    palette: Palette,
    width: float,
    height: float,
) -> str:
    room = (height - _TOP - 40.0 - _GAP * (len(rows) - 1)) / len(rows)
    x_range = _frequency_range(readings)
    body: list[str] = []
    for i, (y_label, series, y_range) in enumerate(rows):
        top = _TOP + i * (room + _GAP)
        frame = panel(
            left=_LEFT, top=top, right=width - _RIGHT, bottom=top + room, x_range=x_range,
            y_range=y_range, x_label="frequency, MHz" if i == len(rows) - 1 else "",
            y_label=y_label, x_count=7,
        )  # fmt: skip
        entries = [(s.label, s.style) for s in series]
        share = (width - _LEFT - _RIGHT) / len(entries) - 48.0
        entries = [(shortened(n, size=10.0, room=share), style) for n, style in entries]
        widths = [text_width(name, size=10.0) for name, _ in entries]
        items = panel_frame(frame, palette=palette)
        items += _band_marks(frame, readings, palette)
        items += _drawn(frame, series=series)
        if i == 0:
            body += _band_labels(frame, readings, palette)
        y = 38.0 if i == 0 else top - 13.0
        body += legend(entries=entries, x=_LEFT, y=y, palette=palette, widths=widths)
        body.append(tag("g", "".join(items), data_panel=i, **frame.data()))
    return document(kind=kind, title=title, description=summary_sentence(readings.sweep),
                    width=width, height=height, palette=palette, body=body)  # fmt: skip


def _over_band(
    readings: BeamReadings,
    label: str,
    palette: Palette,
    *,
    name: str,
    error: str | None = None,
    style: int = 0,
) -> _Series:
    return _Series(
        label=label,
        frequency=readings.over_band("frequency"),
        value=readings.over_band(name),
        error=None if error is None else readings.over_band(error),
        style=line_style(palette=palette, index=style),
    )


def sweep_chart(
    *,
    readings: BeamReadings,
    title: str = "Standing wave ratio",
    palette: Palette = LIGHT,
    width: float = 600.0,
    height: float = 340.0,
) -> str:
    """Draw the standing wave ratio over frequency with its error band.

    Returns:
        SVG text; ratios above 10 are drawn at the upper edge
    """
    swr = _over_band(readings, readings.beam.name, palette, name="swr", error="swr_error")
    high = float((swr.value + (0.0 if swr.error is None else swr.error)).max(initial=1.0))
    top = _SWR_CAP if high > _SWR_CAP else nice_bounds(low=1.0, high=max(high, 2.0))[1]
    rows = [(f"SWR against {readings.reference_resistance:g} ohm", [swr], (1.0, top))]
    return _chart(kind="sweep-chart", title=title, readings=readings, rows=rows, palette=palette,
                  width=width, height=height)  # fmt: skip


def impedance_chart(
    *, readings: BeamReadings, palette: Palette = LIGHT, width: float = 600.0, height: float = 340.0
) -> str:
    """Draw resistance and reactance over frequency with their error bands."""
    impedance = np.array([point.impedance for point in readings.sweep])
    series = [
        _Series(
            label=label,
            frequency=readings.over_band("frequency"),
            value=value,
            error=readings.over_band("impedance_error"),
            style=line_style(palette=palette, index=index),
        )
        for index, (label, value) in enumerate(
            (("resistance", impedance.real), ("reactance", impedance.imag))
        )
    ]
    rows = [("impedance, ohm", series, _value_range(series, least=10.0))]
    return _chart(kind="impedance-chart", title="Feed-point impedance", readings=readings,
                  rows=rows, palette=palette, width=width, height=height)  # fmt: skip


def gain_chart(
    *, readings: BeamReadings, palette: Palette = LIGHT, width: float = 600.0, height: float = 460.0
) -> str:
    """Draw gain above, front-to-back and front-to-rear ratio below, over frequency."""
    gain = [_over_band(readings, "gain", palette, name="gain_dbi", error="gain_error_db")]
    ratios = [
        _over_band(readings, "front-to-back", palette, name="front_to_back_db",
                   error="front_to_back_error_db", style=1),
        _over_band(readings, "front-to-rear", palette, name="front_to_rear_db", style=2),
    ]  # fmt: skip
    rows = [
        ("gain, dBi", gain, _value_range(gain, least=0.5)),
        ("ratio, dB", ratios, _value_range(ratios, least=5.0)),
    ]
    return _chart(kind="gain-chart", title="Gain and front-to-back ratio in free space",
                  readings=readings, rows=rows, palette=palette, width=width,
                  height=height)  # fmt: skip

"""A boom on its mast: bending moments above, sag below, with what sits on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, Value, factor_of, listed, phrase, unit_of, write
from boomwright.base.records import dataclass
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import document, line, pen, tag
from boomwright.charts.labels import text_width
from boomwright.charts.legends import legend_rows
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.structure import BeamReport, BoomCourse

_LEFT, _RIGHT, _TOP, _GAP = 62.0, 24.0, 78.0, 30.0


def _units(system: UnitSystem) -> tuple[float, str, float, str, float, str]:
    """Length, moment and sag: SI value of one printed unit, and its name."""
    length, moment, sag = ("height", "turning load", "sag")
    return (
        1.0 / factor_of(length, system=system), unit_of(length, system=system),
        1.0 / factor_of(moment, system=system), unit_of(moment, system=system),
        1.0 / factor_of(sag, system=system), unit_of(sag, system=system),
    )  # fmt: skip


def _needed(report: BeamReport) -> BoomCourse:
    if report.course is None:
        raise ValueError(f"the boom of {report.name} could not be bent; see its line in the ledger")
    return report.course


def _marks(
    frame: Panel, report: BeamReport, beam: Beam, palette: Palette, *, unit: float, names: bool
) -> list[str]:
    made = []
    for element in beam.elements:
        x = frame.x(element.position / unit)
        made.append(line(x, frame.y.end, x, frame.y.start, **pen(palette.grid, "0.6", "2 2"),
                         data_part="element"))  # fmt: skip
    spots = [("mast clamp", report.clamp), ("balance", report.balance)]
    apart = report.clamp is None or report.balance is None
    apart = apart or abs(report.clamp - report.balance) > 1e-6  # type: ignore[operator]
    if not apart:
        spots = [("mast clamp at the balance point", report.clamp)]
    for i, (name, place) in enumerate(spots):
        if place is None:
            continue
        x = frame.x(place / unit)
        made.append(line(x, frame.y.end, x, frame.y.start,
                         **pen(palette.accent, "1.1", "8 3" if i == 0 else "2 2"),
                         data_part=name.replace(" ", "-")))  # fmt: skip
        if names:
            half = 0.5 * text_width(name, size=10.0)
            spot = min(max(x, frame.x.start + half), frame.x.end - half)
            made.append(halo_text(spot, frame.y.end - 10.0 - 11.0 * i, name,
                                  fill=palette.accent, palette=palette,
                                  anchor="middle"))  # fmt: skip
    return made


def _sentence(report: BeamReport, system: UnitSystem) -> str:
    said: list[Value] = []
    for which, arm in zip(("rear", "front"), report.arms, strict=False):
        part = phrase(
            which + " arm {length} long, {weights} from weights, {wind} from wind, sag {sag}",
            length=Quantity(arm.length, "span"),
            weights=Quantity(arm.moment, "turning load"),
            wind=Quantity(arm.wind_moment, "turning load"),
            sag=Quantity(arm.sag, "sag"),
        )
        if arm.tie is not None:
            pull = Quantity(arm.tie.pull, "load")
            part = phrase("{part}, tie pull {pull}", part=part, pull=pull)
        said.append(part)
    clamp = "" if report.clamp is None else Quantity(report.clamp, "span")
    told = phrase("{name}, boom: {arms}; mast clamp at {clamp}.", name=report.name,
                  arms=listed(said, between="; "), clamp=clamp)  # fmt: skip
    return write(told, system=system)


def boom_chart(
    *,
    report: BeamReport,
    beam: Beam,
    title: str = "",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 420.0,
) -> str:
    """Draw bending moments and sag along the boom.

    Args:
        title: title of the picture, made from the beam's name when empty
    """
    course = _needed(report)
    unit, name, torque, torque_name, small, small_name = _units(system)
    iced = report.iced_course
    moments = [("weights, bare", course.moment / torque, 0)]
    if course.wind_moment.any():
        moments.append(("wind across, bare", course.wind_moment / torque, 1))
    # Drawn hanging: a boom sags downwards.
    sags = [("sag, bare", -course.sag / small, 0)]
    if iced is not None:
        moments.append(("weights, iced", iced.moment / torque, 2))
        sags.append(("sag, iced", -iced.sag / small, 2))
    rows = (
        _Row(y_label=f"moment, {torque_name}", x_label="", series=tuple(moments)),
        _Row(
            y_label=f"below the clamp, {small_name}",
            x_label=f"place along the boom, {name}",
            series=tuple(sags),
        ),
    )
    place = course.place / unit
    room = (height - _TOP - 42.0 - _GAP) / 2.0
    body = []
    for number, row in enumerate(rows):
        top = _TOP + number * (room + _GAP)
        frame = _frame(row, place=place, top=top, bottom=top + room, right=width - _RIGHT)
        items = panel_frame(frame, palette=palette)
        items += _marks(frame, report, beam, palette, unit=unit, names=number == 0)
        items += _curves(frame, row, place, palette)
        if number == 1:
            word, values, _ = row.series[-1]
            unit_said = f"{small_name}{', iced' if 'iced' in word else ''}"
            items += _ends(frame, values=values, place=place, unit=unit_said, palette=palette)
        body.append(tag("g", "".join(items), data_panel=number, **frame.data()))
    entries = [(word, line_style(palette=palette, index=i)) for word, _, i in moments]
    named, _ = legend_rows(entries=entries, x=14.0, y=36.0, room=width - 28.0, palette=palette,
                           markers=False)  # fmt: skip
    body += named
    return document(
        kind="boom-bending",
        title=title or f"{report.name}: boom, moments and sag",
        description=_sentence(report, system),
        width=width,
        height=height,
        palette=palette,
        body=body,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Row:
    """One panel: name, values and style of each curve."""

    y_label: str
    x_label: str
    series: tuple[tuple[str, NDArray[np.float64], int], ...]


def _frame(
    row: _Row, *, place: NDArray[np.float64], top: float, bottom: float, right: float
) -> Panel:
    values = np.concatenate([v for _, v, _ in row.series] + [np.zeros(1)])
    return panel(
        left=_LEFT,
        top=top,
        right=right,
        bottom=bottom,
        x_range=(float(place[0]), float(place[-1])),
        y_range=nice_bounds(low=float(values.min()), high=float(values.max()), count=4),
        x_label=row.x_label,
        y_label=row.y_label,
        x_count=7,
        y_count=4,
    )


def _curves(frame: Panel, row: _Row, place: NDArray[np.float64], palette: Palette) -> list[str]:
    return [
        curve(frame, x=place, y=values, label=word, markers=False,
              style=line_style(palette=palette, index=index))
        for word, values, index in row.series
    ]  # fmt: skip


def _ends(
    frame: Panel, /, *, values: NDArray[np.float64], place: NDArray[np.float64], unit: str,
    palette: Palette,
) -> list[str]:  # fmt: skip
    return [
        halo_text(frame.x(float(place[end])) + side, frame.y(float(values[end])) - 3.0,
                  f"{-values[end]:.0f} {unit}", fill=palette.ink, palette=palette,
                  anchor=anchor)
        for end, side, anchor in ((0, 26.0, "start"), (-1, -26.0, "end"))
    ]  # fmt: skip

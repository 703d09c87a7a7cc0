"""Guy tension against the direction of the wind, each ring held against its limit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem, quantity_text
from boomwright.charts.axes import curve, panel, panel_frame
from boomwright.charts.canvas import document, line, tag
from boomwright.charts.legend_rows import legend_rows
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.scale import nice_bounds
from boomwright.charts.shaded_field import halo_text
from boomwright.charts.tables import ReadingTable

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel, GuyReport, Margin

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_KIP = 4448.2216  # 1000 lbf {nist-sp-811}


def _unit(system: UnitSystem) -> tuple[float, str]:
    return (1e3, "kN") if system == "metric" else (_KIP, "kip")


def _span(length: float, *, system: UnitSystem) -> str:
    return quantity_text(length, unit="m", system=system, form=".1f")


def _limits(levels: Sequence[GuyLevel], ledger: Sequence[Margin]) -> list[float | None]:
    """Limit of each ring as the ledger holds it."""
    found: list[float | None] = []
    for level in levels:
        name = f"{level.name}: tension"
        held = [item.capacity for item in ledger if item.name == name]
        found.append(held[0] if held else None)
    return found


def guy_chart(
    *,
    guys: GuyReport,
    levels: Sequence[GuyLevel],
    ledger: Sequence[Margin],
    title: str = "Guy tension against wind direction",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 340.0,
) -> str:
    """Draw the highest tension of each ring over all wind directions.

    Parameters
    ----------
    levels
        the rings (n_levels,)
    system
        ``metric`` or ``us``
    width
        width of the picture [user units]
    height
        height of the picture [user units]
    """
    unit, name = _unit(system)
    states = sorted(guys.states, key=lambda state: state.wind_deg)
    angles = [state.wind_deg for state in states]
    limits = _limits(levels, ledger)
    tensions = [[max(state.tensions[i]) / unit for state in states] for i in range(len(levels))]
    highest = max([v for ring in tensions for v in ring] + [(v or 0.0) / unit for v in limits])
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 46.0,
        x_range=(0.0, max(angles)), y_range=(0.0, nice_bounds(low=0.0, high=1.05 * highest)[1]),
        x_label="wind towards, degrees from true north", y_label=f"highest tension, {name}",
        x_ticks=tuple(float(a) for a in range(0, 361, 45) if a <= max(angles)),
    )  # fmt: skip
    items = panel_frame(frame, palette=palette)
    entries, drawn = [], set()
    for i, level in enumerate(levels):
        style = line_style(palette=palette, index=i)
        label = f"at {_span(level.height, system=system)}"
        entries.append((label, style))
        items.append(curve(frame, x=angles, y=tensions[i], label=label, style=style))
        limit = limits[i]
        if limit is None or round(limit) in drawn:
            continue
        drawn.add(round(limit))
        y = frame.y(limit / unit)
        items += [
            line(frame.x.start, y, frame.x.end, y, stroke=palette.accent, stroke_width="1.4",
                 stroke_dasharray="8 3", data_part="limit"),
            halo_text(frame.x.end - 4.0, y - 8.0,
                      f"limit {limit / unit:.1f} {name}, {level.strand.name}, breaking / "
                      f"{level.strand.breaking_strength / limit:.2g} (from memory)",
                      fill=palette.accent, palette=palette, size=9.0, anchor="end"),
        ]  # fmt: skip
    slack = max((state.slack for state in states), default=0)
    said = ", ".join(
        f"{max(ring):.2f} {name} {entry[0]}" for ring, entry in zip(tensions, entries, strict=True)
    )
    named, _ = legend_rows(entries=entries, x=14.0, y=36.0, room=width - 28.0, palette=palette)
    body = [
        *named,
        tag("g", "".join(items), data_panel=0, **frame.data()),
    ]
    return document(
        kind="guy-tension", title=title,
        description=f"Highest tension over all wind directions: {said}; "
        f"{slack} guys slack at once at most.",
        width=width, height=height, palette=palette, body=body,
    )  # fmt: skip


def guy_table(
    guys: GuyReport, levels: Sequence[GuyLevel], *, system: UnitSystem = "metric"
) -> ReadingTable:
    """Write the tensions as a table.

    Parameters
    ----------
    levels
        the rings (n_levels,)
    system
        ``metric`` or ``us``
    """
    unit, name = _unit(system)
    heads = [f"at {_span(level.height, system=system)}, {name}" for level in levels]
    return ReadingTable(
        header=("wind, degrees", *heads, "slack guys"),
        rows=tuple(
            (
                f"{state.wind_deg:.0f}",
                *(f"{max(ring) / unit:.2f}" for ring in state.tensions),
                f"{state.slack}",
            )
            for state in guys.states
        ),
    )

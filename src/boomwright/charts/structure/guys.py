"""Guy tension against the direction of the wind, each ring held against its limit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.charts.axes import curve, panel, panel_frame
from boomwright.charts.canvas import document, line, pen, tag
from boomwright.charts.legends import legend_rows
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel, GuyReport, Margin

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0


def _limits(levels: Sequence[GuyLevel], ledger: Sequence[Margin]) -> Iterator[float | None]:
    """Limit of each ring as the ledger holds it."""
    for level in levels:
        held = [item.capacity for item in ledger if item.name == level.check("tension")]
        yield held[0] if held else None


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
    """Draw the highest tension of each ring over all wind directions."""
    unit = 1.0 / factor_of("large force", system=system)
    name = unit_of("large force", system=system)
    states = sorted(guys.states, key=lambda state: state.wind_deg)
    angles = [state.wind_deg for state in states]
    limits = list(_limits(levels, ledger))
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
        held_at = write(Quantity(level.height, "height"), system=system)
        label = f"at {held_at}"
        entries.append((label, style))
        items.append(curve(frame, x=angles, y=tensions[i], label=label, style=style))
        limit = limits[i]
        if limit is None or round(limit) in drawn:
            continue
        drawn.add(round(limit))
        y = frame.y(limit / unit)
        items += [
            line(frame.x.start, y, frame.x.end, y, **pen(palette.accent, "1.4", "8 3"),
                 data_part="limit"),
            halo_text(frame.x.end - 4.0, y - 8.0,
                      f"limit {write(Quantity(limit, 'large force'), system=system)}, "
                      f"{level.strand.name}, breaking / "
                      f"{level.strand.breaking_strength / limit:.2g} (from memory)",
                      fill=palette.accent, palette=palette, anchor="end"),
        ]  # fmt: skip
    slack = max((state.slack for state in states), default=0)
    said = ", ".join(
        f"{write(Quantity(max(ring) * unit, 'large force'), system=system)} {entry[0]}"
        for ring, entry in zip(tensions, entries, strict=True)
    )
    named, _ = legend_rows(entries=entries, x=14.0, y=36.0, room=width - 28.0, palette=palette)
    body = [*named, tag("g", "".join(items), data_panel=0, **frame.data())]
    return document(
        kind="guy-tension", title=title,
        description=f"Highest tension over all wind directions: {said}; "
        f"{slack} guys slack at once at most.",
        width=width, height=height, palette=palette, body=body,
    )  # fmt: skip

"""The notice surfaces of airports over the site: what rises where, and what stands there."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from boomwright.base import UnitSystem, quantity_text
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import document, line, number, pen, tag
from boomwright.charts.labels import shortened
from boomwright.charts.legends import legend_rows
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds
from boomwright.permits import Installation, SurfaceCheck, surface_verdict

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 92.0
_FOOT = 0.3048  # exact {nist-sp-811}
#: airports drawn, lowest surface first
MOST_AIRPORTS = 3


def _units(system: UnitSystem) -> tuple[float, str, float, str]:
    return (1e3, "km", 1.0, "m") if system == "metric" else (1e3 * _FOOT, "1000 ft", _FOOT, "ft")


def _over_site(check: SurfaceCheck) -> float:
    """Elevation of the surface over the site; only checks that have one are drawn."""
    return math.nan if check.allowed_amsl is None else check.allowed_amsl


def _start(check: SurfaceCheck) -> float:
    """Elevation where the surface begins, its doubt taken off."""
    return _over_site(check) - check.distance / check.surface.ratio


def _verdict(check: SurfaceCheck, held: Installation) -> str:
    return surface_verdict(check, top=held.heights.highest, ground=held.site_elevation)


def _allowed(check: SurfaceCheck, held: Installation) -> float | None:
    """Height above ground allowed without notice; never below the ground."""
    if held.site_elevation is None or check.allowed_amsl is None:
        return None
    return max(0.0, check.allowed_amsl - held.site_elevation)


def _name(check: SurfaceCheck, held: Installation, *, tall: float, tall_name: str) -> str:
    name = f"{check.airport.code}, {check.surface.ratio:.0f}:1"
    allowed = _allowed(check, held)
    if allowed is None:
        return name
    verdict = _verdict(check, held)
    said = "" if verdict == "within" else f", {verdict}"
    return f"{name}, {allowed / tall:.0f} {tall_name} allowed{said}"


def _stands(
    frame: Panel, /, *, check: SurfaceCheck, held: Installation, long: float, tall: float,
    palette: Palette,
) -> list[str]:  # fmt: skip
    if held.site_elevation is None:
        return []
    ground = held.site_elevation
    top = ground + held.heights.permanent_top
    x = frame.x(check.distance / long)
    colour = palette.ink if _verdict(check, held) == "within" else palette.accent
    made = [
        line(x, frame.y(ground / tall), x, frame.y(top / tall), **pen(colour, "3.5"),
             data_part="structure", data_airport=check.airport.code),
        halo_text(x, frame.y(ground / tall) + 9.0, check.airport.code, fill=colour,
                  palette=palette, anchor="middle"),
    ]  # fmt: skip
    if held.heights.crane_top > held.heights.permanent_top:
        crane = ground + held.heights.crane_top
        made.append(
            line(x, frame.y(top / tall), x, frame.y(crane / tall), **pen(colour, "1.2", "2 2"),
                 data_part="crane")
        )  # fmt: skip
    return made


def _sentence(checks: Sequence[SurfaceCheck], held: Installation, *, system: UnitSystem) -> str:
    tall = partial(quantity_text, unit="m", system=system, form=".1f")
    far = partial(quantity_text, unit="km", system=system, form=".2f")
    said = []
    for check in checks:
        part = (
            f"{check.airport.code} {check.airport.name}, {check.surface.ratio:.0f}:1, "
            f"{far(check.distance / 1e3)} used of {far(check.point.distance / 1e3)}"
        )
        allowed = _allowed(check, held)
        if allowed is not None:
            part += f", {tall(allowed)} above ground allowed without notice"
        said.append(part)
    return f"Highest part {tall(held.heights.highest)} above ground. {'; '.join(said)}."


def airport_slopes(
    *,
    checks: Sequence[SurfaceCheck],
    installation: Installation,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 640.0,
    height: float = 340.0,
) -> str:
    """Draw how airports' notice surfaces rise towards the site, and the station under them.

    Args:
        checks: surfaces over the site, lowest first; three are drawn (n_surfaces,)

    Returns:
        SVG text; heights have a scale of their own, far larger than that of distances

    Raises:
        ValueError: there is no surface to draw
    """
    shown = tuple(check for check in checks if check.allowed_amsl is not None)[:MOST_AIRPORTS]
    if not shown:
        raise ValueError("no surface of known height reaches the site, so there is none to draw")
    long, long_name, tall, tall_name = _units(system)
    held = installation
    reach = max(check.surface.reach for check in shown)
    heights = [_start(check) + check.surface.reach / check.surface.ratio for check in shown]
    heights += [_start(check) for check in shown]
    if held.site_elevation is not None:
        heights += [held.site_elevation, held.site_elevation + held.heights.highest]
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 46.0,
        x_range=(0.0, reach / long),
        y_range=nice_bounds(low=min(heights) / tall, high=max(heights) / tall, count=5),
        x_label=f"distance from the nearest runway point, {long_name}",
        y_label=f"above mean sea level, {tall_name}",
    )  # fmt: skip
    items = panel_frame(frame, palette=palette)
    entries = []
    for i, check in enumerate(shown):
        style = line_style(palette=palette, index=i)
        end = check.surface.reach
        ys = [_start(check) / tall, (_start(check) + end / check.surface.ratio) / tall]
        name = _name(check, held, tall=tall, tall_name=tall_name)
        entries.append((name, style))
        items.append(curve(frame, x=[0.0, end / long], y=ys, label=name, style=style,
                           markers=False))  # fmt: skip
    if held.site_elevation is not None:
        y = frame.y(held.site_elevation / tall)
        items += [
            line(frame.x.start, y, frame.x.end, y, **pen(palette.quiet, "1", "2 2"),
                 data_part="site-ground"),
            halo_text(frame.x.start + 4.0, y + 9.0, "ground at the site", fill=palette.quiet,
                      palette=palette),
        ]  # fmt: skip
    for check in shown:
        items += _stands(frame, check=check, held=held, long=long, tall=tall, palette=palette)
    exact = all(check.point.known != "reference point" for check in shown)
    how = "distances from runway ends" if exact else (
        "where runway ends are unknown, from as near as a runway may come"
    )  # fmt: skip
    named, lower = legend_rows(entries=entries, x=14.0, y=36.0, room=width - 28.0,
                               palette=palette, markers=False)  # fmt: skip
    body = [
        *named,
        halo_text(14.0, 51.0 + lower, shortened(how, size=10.0, room=width - 28.0),
                  fill=palette.quiet, palette=palette),
        tag("g", "".join(items), data_panel=0, **frame.data()),
    ]  # fmt: skip
    return document(
        kind="airport-slopes", title="Notice surfaces of airports over the site",
        description=_sentence(shown, held, system=system),
        width=width, height=height, palette=palette, body=body,
        data={"airports": number(float(len(shown)))},
    )  # fmt: skip

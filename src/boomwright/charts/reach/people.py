"""Fields where people are: how much of the limit is used, around the station and through it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.charts.axes import Panel, panel, panel_frame
from boomwright.charts.canvas import arrow_head, document, line, number, number_list, pen, tag
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import classes_of, halo_text, refined, shade, shade_key
from boomwright.reach import NEAREST

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_LEVELS = (1.0, 0.5, 0.2, 0.05, 0.01)
#: share of a limit below which nothing is shaded [-]
LEAST_SHADE = _LEVELS[-1]
_NAMES = ("over limit", "to 50 %", "to 20 %", "to 5 %", "to 1 %", "less")
_SHORT_NAMES = ("over", "50 %", "20 %", "5 %", "1 %", "less")
#: pictures narrower than this have the short names [user units]
_NARROW = 450.0
_OPACITIES = (0.9, 0.6, 0.38, 0.2, 0.08, 0.0)
_REFINED = 4


def people_map(
    *,
    plane: str,
    across: Floats,
    up: Floats,
    share: Floats,
    electric: Floats | None = None,
    magnetic: Floats | None = None,
    limit_name: str,
    places: Sequence[tuple[str, float, float]] = (),
    boom_height: float = 0.0,
    title: str = "Fields at head height, from above",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Shade how much of an exposure limit is used.

    Args:
        plane: ``level`` seen from above, or ``upright`` through the heading
        across: places along the heading, 0 at the mast [m] (nx,)
        up: places to the left of the heading, or heights [m] (ny,)
        share: part of the limit used, NaN within arm's length of a wire (ny, nx)
        electric, magnetic: effective fields there, for exact reading; None leaves them out
            [V/m, A/m] (ny, nx)
        places: name and coordinates of places with people [m] (n_places,)
        boom_height: height of the boom, drawn in the upright picture [m]

    Returns:
        SVG text; its root holds the grid
    """
    unit = 1.0 / factor_of("height", system=system)
    name = unit_of("height", system=system)
    room = width - _LEFT - _RIGHT
    tall = room * float(up[-1] - up[0]) / float(across[-1] - across[0])
    bottom = _TOP + 18.0 + tall
    level = plane == "level"
    frame = panel(
        left=_LEFT, top=_TOP + 18.0, right=width - _RIGHT, bottom=bottom,
        x_range=(float(across[0]) / unit, float(across[-1]) / unit),
        y_range=(float(up[0]) / unit, float(up[-1]) / unit),
        x_label=f"along the heading, {name}",
        y_label=f"to the left, {name}" if level else f"above ground, {name}",
        x_count=10, y_count=10 if level else 6,
    )  # fmt: skip
    fine = refined(share, factor=_REFINED)
    cells = 0.25 * (fine[:-1, :-1] + fine[1:, :-1] + fine[:-1, 1:] + fine[1:, 1:])
    numbers = classes_of(cells, levels=_LEVELS)
    numbers[numbers < 0] = 0
    body = shade(
        numbers,
        x_edges=frame.x.places(np.linspace(across[0], across[-1], fine.shape[1]) / unit),
        y_edges=frame.y.places(np.linspace(up[0], up[-1], fine.shape[0]) / unit),
        opacities=_OPACITIES,
        colour=palette.accent,
    )
    body = panel_frame(frame, palette=palette) + body
    mast = frame.x(0.0)
    if level:
        body.append(tag("circle", cx=mast, cy=frame.y(0.0), r=3.6, fill=palette.ink))
        body.append(line(mast, frame.y(0.0), mast + 40.0, frame.y(0.0), **pen(palette.ink, "1.2")))
        body.append(arrow_head(mast + 46.0, frame.y(0.0), angle=0.0, fill=palette.ink))
    else:
        body.append(line(mast, frame.y.start, mast, frame.y(boom_height / unit),
                         **pen(palette.ink, "2")))  # fmt: skip
    body += _places(frame, places=places, unit=unit, palette=palette)
    names = _NAMES if width >= _NARROW else _SHORT_NAMES
    key = shade_key(names=names, opacities=_OPACITIES, colour=palette.accent, x=_LEFT, y=38.0,
                    pitch=room / len(_NAMES), palette=palette)  # fmt: skip
    key.append(halo_text(_LEFT, 57.0, limit_name, fill=palette.quiet, palette=palette))
    return document(
        kind=f"people-{plane}", title=title,
        description=f"{title}: {limit_name}. {_most(share, system)}",
        width=width, height=bottom + 42.0, palette=palette,
        body=[*key, tag("g", "".join(body), data_panel=0, **frame.data())],
        data={
            "across": number_list(across, decimals=2),
            "up": number_list(up, decimals=2),
            "shares": "["
            + ",".join(number_list(np.nan_to_num(row, nan=-1.0), decimals=4) for row in share)
            + "]",
            "x-unit": number(unit, decimals=4),
            "nearest": _apart(system),
            **_fields(electric, magnetic),
        },
    )  # fmt: skip


def _fields(electric: Floats | None, magnetic: Floats | None) -> dict[str, str]:
    if electric is None or magnetic is None:
        return {}
    return {
        name: "["
        + ",".join(number_list(np.nan_to_num(row, nan=-1.0), decimals=places) for row in grid)
        + "]"
        for name, grid, places in (("electric", electric, 2), ("magnetic", magnetic, 4))
    }


def _places(
    frame: Panel, /, *, places: Sequence[tuple[str, float, float]], unit: float, palette: Palette
) -> Iterator[str]:
    taken: list[tuple[float, float]] = []
    for place, x, y in places:
        at = (frame.x(x / unit), frame.y(y / unit))
        # Names of places above each other stand in rows of their own.
        rows = sum(abs(at[0] - a) < 60.0 and abs(at[1] - b) < 10.0 for a, b in taken)
        taken.append(at)
        yield from _place(*at, place, frame.x.end, palette, down=12.0 * rows)


def _place(
    x: float, y: float, name: str, right: float, palette: Palette, *, down: float
) -> list[str]:
    beyond = x > right - 110.0
    return [
        tag("circle", cx=x, cy=y, r=4.2, fill=palette.paper, **pen(palette.series[0], "2")),
        halo_text(x + (-8.0 if beyond else 8.0), y + down, name, fill=palette.series[0],
                  palette=palette, anchor="end" if beyond else "start", bold=True),
    ]  # fmt: skip


def _apart(system: UnitSystem) -> str:
    """Least distance from a wire at which fields are said."""
    return write(Quantity(NEAREST, "clearance"), system=system)


def _most(share: Floats, system: UnitSystem) -> str:
    """Largest part of the limit used, in words."""
    worst = write(Quantity(float(np.nanmax(share)), "part of limit"), system=system)
    return f"Most of the limit used in the picture, {_apart(system)} or more from a wire: {worst}."

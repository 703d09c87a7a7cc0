"""The world as the station sees it: straight lines from the middle are paths."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.charts.canvas import (
    arrow_head,
    document,
    line,
    number,
    number_list,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.labels import Box, first_free
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import classes_of, halo_text, shade_key
from boomwright.reach import EARTH_RADIUS, Footprint, GreatCircle, Place, project, project_polylines

_RIM = math.pi * EARTH_RADIUS
_LEVELS = (-3.0, -6.0, -10.0)
_NAMES = ("0 to −3 dB", "to −6 dB", "to −10 dB", "below")
_OPACITIES = (0.55, 0.34, 0.16, 0.0)
#: narrower than this the key takes two lines [user units]
_WIDE = 500.0
#: coastline points nearer than this on paper are left out [user units]
_FINENESS = 0.7


def station_map(
    *,
    station: Place,
    coastlines: Sequence[Floats],
    footprint: Footprint | None = None,
    heading: float = 0.0,
    targets: Sequence[tuple[str, Place, GreatCircle]] = (),
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Draw the map centred on the station, with coastlines, footprint and paths.

    Args:
        coastlines: longitude and latitude along each line [rad] (n_points, 2)
        footprint: gains by bearing and distance; None draws none
        heading: heading of the beam, clockwise from true north [rad]
        targets: name, place and short path of each target (n_targets,)

    Returns:
        SVG text; targets carry bearing and distance as data
    """
    middle, radius = 0.5 * width, 0.5 * width - 26.0
    top = 60.0
    centre_y = top + radius + 14.0
    height = centre_y + radius + 24.0
    scale = radius / _RIM
    body = [tag("circle", cx=middle, cy=centre_y, r=radius, fill="none", **pen(palette.ink, "1.2"))]
    if footprint is not None:
        body += _footprint(footprint, middle, centre_y, scale, palette)
    body.append(_coast(coastlines, station, middle, centre_y, scale, palette))
    body += _rings(middle, centre_y, radius, scale, palette, system)
    end = (middle + radius * math.sin(heading), centre_y - radius * math.cos(heading))
    body.append(line(middle, centre_y, *end, **pen(palette.accent, "1.6")))
    body.append(arrow_head(*end, angle=math.pi / 2 - heading, fill=palette.accent, size=11.0))
    body += _targets(targets, station, middle, centre_y, scale, radius, palette)
    body.append(tag("circle", cx=middle, cy=centre_y, r=3.6, fill=palette.accent))
    key: list[str] = []
    if footprint is not None:
        key = shade_key(names=_NAMES, opacities=_OPACITIES, colour=palette.series[0], x=14.0,
                        y=38.0, pitch=92.0, palette=palette)  # fmt: skip
        wide = width >= _WIDE
        key.append(
            text(
                width - 14.0 if wide else 14.0,
                38.0 if wide else 53.0,
                f"by fewest hops off {footprint.layer.name}",
                fill=palette.quiet,
                anchor="end" if wide else "start",
            )
        )
    return document(
        kind="station-map", title="Where it goes",
        description=map_sentence(heading, targets, system=system),
        width=width,
        height=height, palette=palette, body=[*key, *body],
        data=_data(footprint, middle, centre_y, radius)
        | {"distance-unit": unit_of("path", system=system)},
    )  # fmt: skip


def _data(
    footprint: Footprint | None, middle: float, centre_y: float, radius: float
) -> dict[str, str]:
    data = {
        "map-x": number(middle),
        "map-y": number(centre_y),
        "map-radius": number(radius),
        "map-rim": number(_RIM, decimals=0),
    }
    if footprint is None:
        return data
    return data | {
        "distances": number_list(footprint.distance / 1e3, decimals=0),
        "elevations": number_list(footprint.elevation_deg, decimals=1),
        "hops": number_list(footprint.hops, decimals=0),
        "bearings": number_list(np.degrees(footprint.bearing), decimals=1),
        "gains": "[" + ",".join(number_list(row, decimals=1) for row in footprint.gain_dbi) + "]",
    }


def map_sentence(
    heading: float, targets: Sequence[tuple[str, Place, GreatCircle]], *, system: UnitSystem
) -> str:
    """Say where the targets lie.

    Args:
        heading: heading of the beam [rad]
        targets: name, place and short path of each target (n_targets,)
    """
    said = [
        f"; {name} at {path.bearing_deg:.0f}°, "
        f"{write(Quantity(path.distance, 'path'), system=system)}"
        for name, _, path in targets
    ]
    return (
        "Azimuthal map centred on the station, north up; the beam points to "
        f"{math.degrees(heading):.0f}°{''.join(said)}."
    )


def _coast(
    coastlines: Sequence[Floats],
    station: Place,
    middle: float,
    centre_y: float,
    scale: float,
    palette: Palette,
) -> str:
    drawn = []
    for piece in project_polylines(coastlines, centre=station):
        x, y = middle + scale * piece[:, 0], centre_y - scale * piece[:, 1]
        kept = thinned(x, y)
        if len(kept) > 1:
            drawn.append(path_data(x[kept], y[kept]))
    return tag(
        "path", d="".join(drawn), fill="none", **pen(palette.quiet, "0.7"),
        stroke_linejoin="round", data_part="coastline",
    )  # fmt: skip


def thinned(x: Floats, y: Floats) -> list[int]:
    """Find the points of a line that lie apart on paper; both ends stay.

    Args:
        x, y: places on paper [user units] (n,)
    """
    # Plain numbers: a coast has thousands of points.
    places = list(zip(x.tolist(), y.tolist(), strict=True))
    kept = [0]
    for i in range(1, len(places) - 1):
        if math.dist(places[i], places[kept[-1]]) >= _FINENESS:
            kept.append(i)
    if math.dist(places[-1], places[0]) > 0.0 or len(kept) > 2:
        kept.append(len(places) - 1)
    return kept


def _sector(
    middle: float, centre_y: float, inner: float, outer: float, low: float, high: float
) -> str:
    def at(radius: float, bearing: float) -> str:
        x, y = middle + radius * math.sin(bearing), centre_y - radius * math.cos(bearing)
        return f"{x:.1f},{y:.1f}"

    return (
        f"M{at(inner, low)}L{at(outer, low)}A{outer:.1f},{outer:.1f} 0 0 1 {at(outer, high)}"
        f"L{at(inner, high)}A{inner:.1f},{inner:.1f} 0 0 0 {at(inner, low)}Z"
    )


def _footprint(
    footprint: Footprint, middle: float, centre_y: float, scale: float, palette: Palette
) -> Iterator[str]:
    top = float(footprint.gain_dbi.max())
    numbers = classes_of(footprint.gain_dbi - top, levels=_LEVELS)
    half_bearing = 0.5 * float(footprint.bearing[1] - footprint.bearing[0])
    half_step = 0.5 * float(footprint.distance[1] - footprint.distance[0])
    for number_, opacity in enumerate(_OPACITIES):
        if opacity <= 0.0:
            continue
        parts = []
        for row, bearing in enumerate(footprint.bearing):
            cells = (numbers[row] == number_).astype(int)
            steps = np.flatnonzero(np.diff(np.concatenate(([0], cells, [0]))))
            for start, end in zip(steps[::2], steps[1::2], strict=True):
                inner = max(0.0, float(footprint.distance[start]) - half_step)
                outer = min(_RIM, float(footprint.distance[end - 1]) + half_step)
                parts.append(
                    _sector(middle, centre_y, scale * inner, scale * outer,
                            float(bearing) - half_bearing, float(bearing) + half_bearing)
                )  # fmt: skip
        if parts:
            yield tag(
                "path",
                d="".join(parts),
                fill=palette.series[0],
                fill_opacity=opacity,
                data_part="footprint",
                data_class=number_,
            )


def _rings(
    middle: float,
    centre_y: float,
    radius: float,
    scale: float,
    palette: Palette,
    system: UnitSystem,
) -> Iterator[str]:
    unit, name = 1.0 / factor_of("path", system=system), unit_of("path", system=system)
    for bearing in range(0, 360, 30):
        angle = math.radians(bearing)
        x, y = math.sin(angle), -math.cos(angle)
        yield line(
            middle + 0.06 * radius * x,
            centre_y + 0.06 * radius * y,
            middle + radius * x,
            centre_y + radius * y,
            **pen(palette.grid, "0.4"),
        )
        yield text(
            middle + (radius + 13.0) * x,
            centre_y + (radius + 12.0) * y,
            "N" if bearing == 0 else f"{bearing}°",
            fill=palette.quiet,
            anchor="middle",
        )
    for distance in (5000, 10000, 15000) if system == "metric" else (3000, 6000, 9000):
        ring = scale * distance * unit
        yield tag(
            "circle", cx=middle, cy=centre_y, r=ring, fill="none", **pen(palette.grid, "0.6", "2 3")
        )
        yield halo_text(
            middle,
            centre_y + ring,
            f"{distance} {name}",
            fill=palette.quiet,
            palette=palette,
            anchor="middle",
        )


def _targets(
    targets: Sequence[tuple[str, Place, GreatCircle]],
    station: Place,
    middle: float,
    centre_y: float,
    scale: float,
    radius: float,
    palette: Palette,
) -> Iterator[str]:
    taken: list[Box] = []
    area = Box(left=4.0, top=centre_y - radius, right=2.0 * middle - 4.0, bottom=centre_y + radius)
    for name, place, path in targets:
        right, up = project(longitude=[place.longitude], latitude=[place.latitude], centre=station)
        x, y = middle + scale * float(right[0]), centre_y - scale * float(up[0])
        items = [
            line(middle, centre_y, x, y, **pen(palette.ink, "1", "5 3")),
            tag("circle", cx=x, cy=y, r=4.0, fill=palette.paper, **pen(palette.ink, "1.6")),
        ]
        tries = [
            (x + 8.0, y, "start"), (x - 8.0, y, "end"), (x, y - 12.0, "middle"),
            (x, y + 13.0, "middle"), (x + 8.0, y + 13.0, "start"), (x - 8.0, y - 13.0, "end"),
        ]  # fmt: skip
        content = f"{name} {path.bearing_deg:.0f}°"
        found = first_free(tries, content, size=10.0, taken=taken, area=area)
        if found:
            items.append(
                halo_text(
                    found[0], found[1], content, fill=palette.ink, palette=palette, anchor=found[2]
                )
            )
            taken.append(found[3])
        yield tag("g", "".join(items), data_target=name,
                  data_bearing=number(path.bearing_deg),
                  data_distance=number(path.distance))  # fmt: skip

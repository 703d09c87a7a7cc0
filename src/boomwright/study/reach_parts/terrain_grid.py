"""A terrain profile cut out of a height grid (GeoTIFF), through an optional extra."""

from __future__ import annotations

import io
from typing import Any

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.files import HEIGHT_GRID, ReadFile, last_part
from boomwright.reach import Place, TerrainProfile, path_points
from boomwright.study.reach_parts.terrain import terrain_bytes

#: how far the profile runs, and its points [m], [-]
_FAR, _POINTS = 10_000.0, 401
#: most cells unpacked; a tile of one degree at one second of arc has 13 million [-]
_MOST_CELLS = 16_000_000
#: tags of the format {geotiff-1-1}: pixel size, tie point, keys, value of missing cells
_SCALE, _TIE, _KEYS, _MISSING = 33550, 33922, 34735, 42113
#: key and value that say latitude and longitude in degrees {geotiff-1-1}
_MODEL_KEY, _GEOGRAPHIC = 1024, 2


def is_grid(name: str) -> bool:
    """Whether a terrain file is a grid of heights, by its name."""
    return name.lower().endswith((".tif", ".tiff"))


def profile_from_grid(
    name: str, *, files: ReadFile, station: Place, bearing: float
) -> TerrainProfile:
    """Cut the profile along a bearing out of a grid of heights in latitude and longitude.

    Args:
        bearing: direction, clockwise from true north [rad]

    Raises:
        BoomwrightError: when the extra is not installed, the file is no such grid, or the mast
            is off it
    """
    shown = last_part(name)
    heights, corner, step = _grid(name, files)
    points = np.degrees(path_points(station=station, bearing=bearing, distance=_FAR, count=_POINTS))
    # The tie point is the outer corner of the first cell; heights belong to its middle.
    column = (points[:, 0] - corner[0]) / step[0] - 0.5
    row = (corner[1] - points[:, 1]) / step[1] - 0.5
    inside = (column >= 0) & (row >= 0)
    inside &= (column <= heights.shape[1] - 1) & (row <= heights.shape[0] - 1)
    ends = int(np.argmin(inside)) if not inside.all() else len(inside)
    if ends < 2:
        msg = f"terrain file {shown}: the mast is not on this grid; choose the tile it is on"
        raise BoomwrightError(msg)
    found = between(heights, row[:ends], column[:ends])
    if not np.isfinite(found).all():
        msg = f"terrain file {shown}: heights are missing along the heading; fill the gaps"
        raise BoomwrightError(msg)
    return TerrainProfile(distance=np.linspace(0.0, _FAR, _POINTS)[:ends], height=found)


def _grid(name: str, files: ReadFile) -> tuple[Floats, tuple[float, float], tuple[float, float]]:
    """Heights with NaN for missing cells, upper left corner and cell size [deg]."""
    shown = last_part(name)
    try:
        import tifffile
    except ImportError as error:
        raise BoomwrightError(
            f"terrain file {shown}: reading height grids needs an extra; "
            "install boomwright[terrain], or give the profile as CSV"
        ) from error
    # What it finds amiss it writes to the terminal; what matters of it is said below.
    tifffile.logger().setLevel("CRITICAL")
    content = terrain_bytes(name, files=files, kind=HEIGHT_GRID)
    try:
        with tifffile.TiffFile(io.BytesIO(content)) as opened:
            page = opened.pages.first
            tags: dict[int, Any] = {tag.code: tag.value for tag in page.tags.values()}
            _refuse_tags(tags, page.shape)
            heights = np.array(page.asarray(), dtype=float).reshape(page.shape)
        missing = tags.get(_MISSING)
        if missing is not None:
            heights[heights == float(str(missing).strip("\x00 "))] = np.nan
        tie, scale = (np.asarray(tags[code], dtype=float) for code in (_TIE, _SCALE))
        corner = (float(tie[3] - tie[0] * scale[0]), float(tie[4] + tie[1] * scale[1]))
        step = (float(scale[0]), float(scale[1]))
    except _GridError as error:
        raise BoomwrightError(f"terrain file {shown}: {error}") from None
    except Exception as error:
        # On damaged bytes the library raises whatever its arithmetic runs into.
        msg = f"terrain file {shown}: is no TIFF that can be read; give a GeoTIFF of heights"
        raise BoomwrightError(msg) from error
    if not (np.isfinite([*corner, *step]).all() and min(step) > 0.0):
        msg = f"terrain file {shown}: its place makes no sense; export the grid again"
        raise BoomwrightError(msg)
    return heights, corner, step


class _GridError(Exception):
    """What is wrong with a TIFF that can be read, and the remedy."""


def _refuse_tags(tags: dict[int, Any], shape: tuple[int, ...]) -> None:
    """Refuse, before anything is unpacked, what is no grid in degrees or too large."""
    if len(shape) != 2 or min(shape) < 2 or _SCALE not in tags or _TIE not in tags:
        raise _GridError("no height grid with a place; export one band of heights")
    keys = np.reshape(tags.get(_KEYS, ()), (-1, 4))
    model = {int(key[0]): int(key[3]) for key in keys}
    if model.get(_MODEL_KEY) != _GEOGRAPHIC:
        raise _GridError("its grid is not in latitude and longitude; export it in EPSG:4326")
    cells = shape[0] * shape[1]
    if cells > _MOST_CELLS:
        raise _GridError(
            f"has {cells / 1e6:.0f} million cells, at most {_MOST_CELLS / 1e6:.0f} million are "
            "read; cut out the tile that the station is on"
        )


def between(grid: Floats, row: Floats, column: Floats) -> Floats:
    """Read a grid between its points, straight in both directions [unit of the grid] (n,).

    Args:
        row, column: places, counted from its first point (n,)
    """
    top = np.clip(np.floor(row).astype(int), 0, grid.shape[0] - 2)
    left = np.clip(np.floor(column).astype(int), 0, grid.shape[1] - 2)
    down, across = row - top, column - left
    upper = grid[top, left] * (1 - across) + grid[top, left + 1] * across
    lower = grid[top + 1, left] * (1 - across) + grid[top + 1, left + 1] * across
    result: Floats = upper * (1 - down) + lower * down
    return result

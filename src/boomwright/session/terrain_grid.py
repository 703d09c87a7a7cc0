"""A terrain profile cut out of a height grid (GeoTIFF), through an optional extra."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import BoomwrightError
from boomwright.reach import Place, TerrainProfile, path_points

Floats = NDArray[np.float64]

#: how far the profile runs, and its points [m], [-]
_FAR, _POINTS = 10_000.0, 401
#: tags of the format {geotiff-1-1}: pixel size, tie point, keys, value of missing cells
_SCALE, _TIE, _KEYS, _MISSING = 33550, 33922, 34735, 42113
#: key and value that say latitude and longitude in degrees {geotiff-1-1}
_MODEL_KEY, _GEOGRAPHIC = 1024, 2


def profile_from_grid(path: Path, *, station: Place, bearing: float) -> TerrainProfile:
    """Cut the profile along a bearing out of a grid of heights in latitude and longitude.

    Parameters
    ----------
    bearing
        direction, clockwise from true north [rad]

    Raises
    ------
    BoomwrightError
        when the extra is not installed, the file is no such grid, or the mast is off it
    """
    heights, corner, step = _grid(path)
    points = np.degrees(path_points(station=station, bearing=bearing, distance=_FAR, count=_POINTS))
    # The tie point is the outer corner of the first cell; heights belong to its middle.
    column = (points[:, 0] - corner[0]) / step[0] - 0.5
    row = (corner[1] - points[:, 1]) / step[1] - 0.5
    inside = (column >= 0) & (row >= 0)
    inside &= (column <= heights.shape[1] - 1) & (row <= heights.shape[0] - 1)
    ends = int(np.argmin(inside)) if not inside.all() else len(inside)
    if ends < 2:
        msg = f"terrain file {path.name}: the mast is not on this grid; choose the tile it is on"
        raise BoomwrightError(msg)
    found = _between(heights, row[:ends], column[:ends])
    if not np.isfinite(found).all():
        msg = f"terrain file {path.name}: heights are missing along the heading; fill the gaps"
        raise BoomwrightError(msg)
    return TerrainProfile(distance=np.linspace(0.0, _FAR, _POINTS)[:ends], height=found)


def _grid(path: Path) -> tuple[Floats, tuple[float, float], tuple[float, float]]:
    """Heights with NaN for missing cells, upper left corner and cell size [deg]."""
    try:
        import tifffile
    except ImportError as error:
        msg = (
            f"terrain file {path.name}: reading height grids needs an extra; "
            "install boomwright[terrain], or give the profile as CSV"
        )
        raise BoomwrightError(msg) from error
    try:
        with tifffile.TiffFile(path) as opened:
            page = opened.pages.first
            tags: dict[int, Any] = {tag.code: tag.value for tag in page.tags.values()}
            heights = np.asarray(page.asarray(), dtype=float)
    except (OSError, ValueError, tifffile.TiffFileError) as error:
        msg = f"terrain file {path.name}: {error}; give a GeoTIFF of heights"
        raise BoomwrightError(msg) from error
    keys = np.reshape(tags.get(_KEYS, ()), (-1, 4)) if _KEYS in tags else np.zeros((0, 4))
    model = {int(key[0]): int(key[3]) for key in keys}
    if heights.ndim != 2 or _SCALE not in tags or _TIE not in tags:
        msg = f"terrain file {path.name}: no height grid with a place; export one band of heights"
        raise BoomwrightError(msg)
    if model.get(_MODEL_KEY) != _GEOGRAPHIC:
        msg = (
            f"terrain file {path.name}: its grid is not in latitude and longitude; "
            "export it in EPSG:4326"
        )
        raise BoomwrightError(msg)
    missing = tags.get(_MISSING)
    if missing is not None:
        heights[heights == float(str(missing).strip("\x00 "))] = np.nan
    tie, scale = tags[_TIE], tags[_SCALE]
    corner = (tie[3] - tie[0] * scale[0], tie[4] + tie[1] * scale[1])
    return heights, corner, (scale[0], scale[1])


def _between(heights: Floats, row: Floats, column: Floats) -> Floats:
    """Heights between the middles of cells, straight in both directions."""
    top = np.clip(np.floor(row).astype(int), 0, heights.shape[0] - 2)
    left = np.clip(np.floor(column).astype(int), 0, heights.shape[1] - 2)
    down, across = row - top, column - left
    upper = heights[top, left] * (1 - across) + heights[top, left + 1] * across
    lower = heights[top + 1, left] * (1 - across) + heights[top + 1, left + 1] * across
    result: Floats = upper * (1 - down) + lower * down
    return result

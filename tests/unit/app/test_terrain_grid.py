"""A profile out of a height grid: known slopes come back, foreign files are refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.reach import Place
from boomwright.session.files import PlanFolder
from boomwright.study.reach_parts.terrain_grid import profile_from_grid

tifffile = pytest.importorskip("tifffile")

STEP = 0.001
CORNER = (10.0, 50.0)
STATION = Place.from_degrees(latitude_deg=49.9, longitude_deg=10.1)


def cut(name, folder, *, station, bearing):
    files = PlanFolder(folder)
    return profile_from_grid(name, files=files, station=station, bearing=bearing)


def _write(path, heights, *, model=2, missing=None):
    keys = (1, 1, 0, 1, 1024, 0, 1, model)
    tags = [
        (33550, "d", 3, (STEP, STEP, 0.0), True),
        (33922, "d", 6, (0.0, 0.0, 0.0, *CORNER, 0.0), True),
        (34735, "H", len(keys), keys, True),
    ]
    if missing is not None:
        tags.append((42113, "s", 0, str(missing), True))
    tifffile.imwrite(path, heights.astype(np.float32), extratags=tags)


def _plane(*, north=0.0, east=0.0, base=100.0):
    """Heights that rise evenly, in metres a degree."""
    latitude = CORNER[1] - (np.arange(200) + 0.5) * STEP
    longitude = CORNER[0] + (np.arange(300) + 0.5) * STEP
    return base + north * (latitude[:, None] - 49.9) + east * (longitude[None, :] - 10.1)


def test_a_slope_to_the_north_is_found_going_north_and_not_going_east(tmp_path):
    _write(tmp_path / "hill.tif", _plane(north=1000.0))
    north = cut("hill.tif", tmp_path, station=STATION, bearing=0.0)
    # A degree of latitude is 111.2 km near 50 N on WGS84.
    wanted = 100.0 + 1000.0 * north.distance / 111_229.0
    assert north.height == pytest.approx(wanted, abs=0.05)
    east = profile_from_grid(
        "hill.tif", files=PlanFolder(tmp_path), station=STATION, bearing=math.pi / 2
    )
    assert east.height == pytest.approx(100.0, abs=0.5)


def test_the_profile_ends_where_the_grid_ends(tmp_path):
    _write(tmp_path / "hill.tif", _plane())
    west = profile_from_grid(
        "hill.tif", files=PlanFolder(tmp_path), station=STATION, bearing=1.5 * math.pi
    )
    assert west.distance[-1] == pytest.approx(7_150.0, abs=60.0)


def test_what_is_no_grid_of_heights_is_refused_with_a_remedy(tmp_path):
    path = tmp_path / "hill.tif"
    path.write_bytes(b"no picture")
    with pytest.raises(BoomwrightError, match="give a GeoTIFF"):
        cut(path.name, path.parent, station=STATION, bearing=0.0)
    _write(path, _plane(), model=1)
    with pytest.raises(BoomwrightError, match="EPSG:4326"):
        cut(path.name, path.parent, station=STATION, bearing=0.0)
    tifffile.imwrite(path, np.zeros((4, 4), dtype=np.float32))
    with pytest.raises(BoomwrightError, match="no height grid with a place"):
        cut(path.name, path.parent, station=STATION, bearing=0.0)
    _write(path, _plane())
    away = Place.from_degrees(latitude_deg=0.0, longitude_deg=0.0)
    with pytest.raises(BoomwrightError, match="not on this grid"):
        cut(path.name, path.parent, station=away, bearing=0.0)


def test_missing_heights_are_named(tmp_path):
    heights = _plane()
    heights[:95] = -9999.0
    _write(tmp_path / "hill.tif", heights, missing=-9999)
    with pytest.raises(BoomwrightError, match="missing along the heading"):
        cut("hill.tif", tmp_path, station=STATION, bearing=0.0)


def test_a_grid_that_unpacks_to_more_than_may_be_is_refused_before_it_is_unpacked(tmp_path):
    path = tmp_path / "hill.tif"
    _write(path, _plane())
    content = bytearray(path.read_bytes())
    with tifffile.TiffFile(path) as opened:
        for code in (256, 257):
            entry = opened.pages.first.tags[code]
            content[entry.valueoffset : entry.valueoffset + 4] = (60_000).to_bytes(4, "little")
    path.write_bytes(content)
    with pytest.raises(BoomwrightError, match=r"3600 million cells, at most 16 million are read"):
        cut(path.name, path.parent, station=STATION, bearing=0.0)


def test_a_grid_cut_off_anywhere_is_refused_with_a_remedy(tmp_path, caplog):
    path = tmp_path / "hill.tif"
    _write(path, _plane())
    content = path.read_bytes()
    for length in (0, 4, 8, 100, len(content) // 2, len(content) - 1):
        path.write_bytes(content[:length])
        with pytest.raises(BoomwrightError, match=r"give a GeoTIFF|export"):
            profile_from_grid(
                path.name, files=PlanFolder(path.parent), station=STATION, bearing=0.0
            )
    # What the library finds amiss would reach the terminal as lines of its own.
    assert caplog.records == []

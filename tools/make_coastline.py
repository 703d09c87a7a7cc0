"""Make the compact coastline file of the map from open Natural Earth data.

Source: Natural Earth 1:50m land, version 4.1.0, public domain, in the TopoJSON form of the
open package ``world-atlas`` 2.0.2 (file ``land-50m.json``).

Run: python tools/make_coastline.py land-50m.json src/boomwright/reach/data/coastline.npz
"""

from __future__ import annotations

import hashlib
import json
import sys
from pathlib import Path
from typing import Any

import numpy as np

EARTH_RADIUS_KM = 6371.009
#: a point is dropped when the line without it passes nearer than this
TOLERANCE_KM = 4.0
#: islands smaller than this from end to end are left out
SMALLEST_KM = 14.0
#: points are stored as whole hundredths of a degree
STEPS_PER_DEGREE = 100


def arcs_in_degrees(topology: dict[str, Any]) -> list[np.ndarray]:
    """Undo the quantised steps of the source's arcs."""
    scale = np.array(topology["transform"]["scale"])
    shift = np.array(topology["transform"]["translate"])
    return [np.cumsum(arc, axis=0) * scale + shift for arc in topology["arcs"]]


def without_frame(line: np.ndarray) -> list[np.ndarray]:
    """Cut out the edges that only close a polygon along the date line or the pole."""
    on_date_line = np.abs(np.abs(line[:, 0]) - 180.0) < 0.02
    at_pole = line[:, 1] < -89.5
    frame = (on_date_line[1:] & on_date_line[:-1]) | at_pole[1:] | at_pole[:-1]
    pieces = np.split(np.arange(len(line)), np.flatnonzero(frame) + 1)
    return [line[p] for p in pieces if len(p) >= 2]


def in_space(line: np.ndarray) -> np.ndarray:
    """Longitude and latitude in degrees to points in space, in kilometres."""
    lon, lat = np.radians(line).T
    return EARTH_RADIUS_KM * np.column_stack(
        (np.cos(lat) * np.cos(lon), np.cos(lat) * np.sin(lon), np.sin(lat))
    )


def simplified(line: np.ndarray, *, tolerance: float = TOLERANCE_KM) -> np.ndarray:
    """Ramer, Douglas and Peucker's line simplification, on chords in space."""
    points = in_space(line)
    keep = np.zeros(len(line), dtype=bool)
    keep[[0, -1]] = True
    if np.allclose(points[0], points[-1]):  # a ring: split at the farthest point
        far = int(np.argmax(np.linalg.norm(points - points[0], axis=1)))
        keep[far] = True
        spans = [(0, far), (far, len(line) - 1)]
    else:
        spans = [(0, len(line) - 1)]
    while spans:
        first, last = spans.pop()
        if last - first < 2:
            continue
        chord = points[last] - points[first]
        inner = points[first + 1 : last] - points[first]
        along = np.clip(inner @ chord / max(chord @ chord, 1e-12), 0.0, 1.0)
        off = np.linalg.norm(inner - along[:, None] * chord, axis=1)
        worst = int(np.argmax(off))
        if off[worst] > tolerance:
            middle = first + 1 + worst
            keep[middle] = True
            spans += [(first, middle), (middle, last)]
    return line[keep]


def extent_km(line: np.ndarray) -> float:
    """Size of a line: the diagonal of its bounding box."""
    points = in_space(line)
    return float(np.linalg.norm(np.ptp(points, axis=0)))


def main(source: Path, target: Path) -> None:
    """Read the source, write the compact file and say what is in it."""
    raw = source.read_bytes()
    lines = [
        simplified(piece)
        for arc in arcs_in_degrees(json.loads(raw))
        for piece in without_frame(arc)
        if extent_km(piece) >= SMALLEST_KM
    ]
    whole = [np.round(line * STEPS_PER_DEGREE).astype(np.int16) for line in lines]
    starts = np.cumsum([0] + [len(line) for line in whole]).astype(np.int32)
    provenance = (
        "Natural Earth 1:50m land, version 4.1.0, public domain; "
        f"land-50m.json sha256 {hashlib.sha256(raw).hexdigest()}; "
        f"simplified to {TOLERANCE_KM} km, islands under {SMALLEST_KM} km left out; "
        "hundredths of a degree, longitude and latitude, line i = points[starts[i]:starts[i+1]]"
    )
    np.savez_compressed(
        target, points=np.concatenate(whole), starts=starts, provenance=np.array(provenance)
    )
    print(f"{target}: {len(whole)} lines, {starts[-1]} points, {target.stat().st_size} bytes")


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))

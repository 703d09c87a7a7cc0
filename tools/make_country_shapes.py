"""Make the compact file of country shapes that tells in which country a position lies.

Source: Natural Earth 1:10m countries, version 4.1.0, public domain, in the TopoJSON form of the
open package ``world-atlas`` 2.0.2 (file ``countries-10m.json``). The source numbers its countries;
their two-letter codes are those of most landing places inside (file of make_landing_places.py).

Run: python tools/make_country_shapes.py countries-10m.json \
src/boomwright/permits/data/landing-places.npz src/boomwright/permits/data/country-shapes.npz
"""

from __future__ import annotations

import hashlib
import json
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
from make_coastline import arcs_in_degrees, extent_km, simplified

from boomwright.permits.countries import CountryShapes, inside_ring

#: a point is dropped when the line without it passes nearer than this
BORDER_TOLERANCE_KM, COAST_TOLERANCE_KM = 0.4, 3.0
#: points are stored as whole thousandths of a degree, each ring as steps from point to point
STEPS_PER_DEGREE = 1000
#: pieces of the source without a number of their own, or without a landing place
NAMED = {
    "Akrotiri": "CY", "Anguilla": "AI", "Aruba": "AW", "Ashmore and Cartier Is.": "AU",
    "Baikonur": "KZ", "Br. Indian Ocean Ter.": "IO", "Clipperton I.": "FR",
    "Coral Sea Is.": "AU", "Cyprus U.N. Buffer Zone": "CY", "Dhekelia": "CY", "Gibraltar": "GI",
    "Grenada": "GD", "Indian Ocean Ter.": "AU", "Kosovo": "XK", "Maldives": "MV",
    "Micronesia": "FM", "N. Cyprus": "CY", "Pitcairn Is.": "PN", "San Marino": "SM",
    "Siachen Glacier": "IN", "Sint Maarten": "SX", "Somaliland": "SO",
    "USNB Guantanamo Bay": "CU", "Vatican": "VA",
}  # fmt: skip


def thinned(topology: dict[str, Any]) -> list[np.ndarray]:
    """Simplify every arc: one between two countries less than one along a coast."""
    uses: Counter[int] = Counter()
    for shape in topology["objects"]["countries"]["geometries"]:
        for ring in rings_of(shape):
            uses.update({arc if arc >= 0 else ~arc for arc in ring})
    found = []
    for i, arc in enumerate(arcs_in_degrees(topology)):
        tolerance = BORDER_TOLERANCE_KM if uses[i] > 1 else COAST_TOLERANCE_KM
        found.append(simplified(arc, tolerance=min(tolerance, extent_km(arc) / 4.0)))
    return found


def rings_of(shape: dict[str, Any]) -> list[list[int]]:
    """Rings of a country, holes among them, as numbers of arcs."""
    if shape["type"] == "Polygon":
        return list(shape["arcs"])
    if shape["type"] == "MultiPolygon":
        return [ring for polygon in shape["arcs"] for ring in polygon]
    return []


def joined(ring: list[int], arcs: list[np.ndarray]) -> np.ndarray:
    """Chain arcs to a closed ring of longitudes and latitudes."""
    lines = [arcs[i] if i >= 0 else arcs[~i][::-1] for i in ring]
    return np.concatenate([line[:-1] for line in lines] + [lines[-1][-1:]])


def unwrapped(ring: np.ndarray) -> list[np.ndarray]:
    """Draw a ring over the date line once on each side of it; close one round a pole."""
    x = np.degrees(np.unwrap(np.radians(ring[:, 0])))
    line = np.column_stack((x, ring[:, 1]))
    if abs(x[-1] - x[0]) > 180.0:
        pole = np.copysign(90.0, ring[:, 1].mean())
        line = np.vstack((line, (x[-1], pole), (x[0], pole), line[:1]))
    low, high = x.min(), x.max()
    if low >= -180.0 - 1e-6 and high <= 180.0 + 1e-6:
        return [line]
    turn = np.array([360.0, 0.0])
    return [line, line - turn if high > 180.0 else line + turn]


def code_of(name: str, rings: list[np.ndarray], places: np.ndarray, codes: np.ndarray) -> str:
    """Two-letter code of most landing places inside; empty where there is none."""
    if name in NAMED:
        return NAMED[name]
    votes: Counter[str] = Counter()
    inside = np.zeros(len(places), dtype=bool)
    for ring in rings:
        inside ^= inside_ring(ring, places)
    votes.update(code.decode() for code in codes[inside])
    return votes.most_common(1)[0][0] if votes else ""


def main(source: Path, table: Path, target: Path) -> None:
    """Read the source, write the compact file and say what is in it."""
    raw = source.read_bytes()
    topology = json.loads(raw)
    arcs = thinned(topology)
    with np.load(table) as held:
        places = held["position"][:, ::-1] / 100_000.0
        countries = held["country"]
    shapes: list[np.ndarray] = []
    codes: list[str] = []
    for shape in topology["objects"]["countries"]["geometries"]:
        rings = [each for ring in rings_of(shape) for each in unwrapped(joined(ring, arcs))]
        name = shape["properties"]["name"]
        code = code_of(name, rings, places, countries)
        if not code:
            print(f"left out, no code: {name}")
            continue
        shapes += rings
        codes += [code] * len(rings)
    whole = [np.round(ring * STEPS_PER_DEGREE).astype(np.int32) for ring in shapes]
    starts = np.cumsum([0] + [len(ring) for ring in whole]).astype(np.int32)
    steps = np.concatenate([np.diff(ring, axis=0, prepend=0).astype(np.int32) for ring in whole])
    np.savez_compressed(
        target,
        steps=steps,
        starts=starts,
        codes=np.array([code.encode() for code in codes], dtype="S2"),
        provenance=np.array(
            "Natural Earth 1:10m countries, version 4.1.0, public domain; countries-10m.json "
            f"sha256 {hashlib.sha256(raw).hexdigest()}; borders simplified to "
            f"{BORDER_TOLERANCE_KM} km, coasts to {COAST_TOLERANCE_KM} km; thousandths of a "
            "degree, longitude and latitude, each point as a step from the one before"
        ),
    )
    with np.load(target) as made:
        held_shapes = CountryShapes.unpacked(made)
    agree = sum(
        held_shapes.inside(latitude=float(np.radians(y)), longitude=float(np.radians(x)))
        == code.decode()
        for (x, y), code in zip(places[::20], countries[::20], strict=True)
    )
    print(
        f"{target}: {len(whole)} rings, {starts[-1]} points, {len(set(codes))} countries, "
        f"{target.stat().st_size} bytes; {agree} of {len(places[::20])} landing places agree"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]))

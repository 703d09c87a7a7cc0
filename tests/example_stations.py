"""The plans of whole stations that stand among the examples."""

from __future__ import annotations

from pathlib import Path

#: their files, in the order of their numbers
STATIONS = sorted((Path(__file__).parents[1] / "examples" / "stations").glob("*.toml"))


def station(start: str) -> Path:
    """The file of a station, by how its name begins."""
    return next(path for path in STATIONS if path.name.startswith(start))


def station_text(start: str) -> str:
    """What stands in it."""
    return station(start).read_text(encoding="utf-8")

"""Reads the check values of the feed room."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

_DATA = Path(__file__).parent / "data" / "feed_points.toml"


def check(name: str) -> dict[str, Any]:
    """One check value by its id."""
    entries = tomllib.loads(_DATA.read_text(encoding="utf-8"))["check"]
    return next(entry for entry in entries if entry["id"] == name)

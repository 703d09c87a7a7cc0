"""Reads the check values of every room, which stand in ``data``."""

from __future__ import annotations

from typing import Any

from antennas import read_data


def checks(*names: str) -> dict[str, dict[str, Any]]:
    """Check values of some files of the folder, by their ids."""
    return {check["id"]: check for name in names for check in read_data(name)["check"]}


def expected_values(*names: str) -> dict[str, Any]:
    """What is expected of each of them, by their ids."""
    return {name: check["expected"] for name, check in checks(*names).items()}


def feed_check(name: str) -> dict[str, Any]:
    """One check value of the feed room by its id."""
    return checks("feed_points.toml")[name]


def reach_check(name: str) -> dict[str, Any]:
    """One check value of the reach room by its id."""
    return checks("reach_points.toml")[name]

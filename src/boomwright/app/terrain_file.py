"""Terrain profiles from the owner's files."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.reach import TerrainProfile

#: largest profile read [bytes]
_LARGEST = 5_000_000


def read_terrain(path: Path) -> TerrainProfile:
    """Read a profile from a CSV file: distance from the mast and height, both in metres.

    A first line of words is skipped; commas, semicolons and tabs part the columns.

    Raises
    ------
    BoomwrightError
        when it cannot be read or a line is no pair of numbers; the message names the line
    """
    try:
        if path.stat().st_size > _LARGEST:
            msg = f"terrain file {path.name}: over {_LARGEST // 1_000_000} MB; thin the profile out"
            raise BoomwrightError(msg)
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        msg = (
            f"terrain file {path.name}: {error.strerror or error}; "
            "put it beside the plan, or correct reach.terrain"
        )
        raise BoomwrightError(msg) from error
    except UnicodeDecodeError as error:
        msg = f"terrain file {path.name}: not a text file; save the profile as CSV in UTF-8"
        raise BoomwrightError(msg) from error
    return terrain_from_csv(text, name=path.name)


def terrain_from_csv(text: str, *, name: str) -> TerrainProfile:
    """Read a profile from the text of a CSV file.

    Parameters
    ----------
    text
        the text: distance [m] and height [m] in the first two columns

    Raises
    ------
    BoomwrightError
        when a line is no pair of numbers; the message names the line
    """
    first = next((line for line in text.splitlines() if line.strip()), "")
    mark = next((sign for sign in (";", "\t", ",") if sign in first), ",")
    pairs = []
    for number, line in enumerate(text.splitlines(), start=1):
        # Line by line, without quotes: one left open would swallow the lines after it.
        row = [cell.strip().strip('"') for cell in line.split(mark)]
        if not any(cell.strip() for cell in row) or row[0].startswith("#"):
            continue
        try:
            pairs.append((float(row[0]), float(row[1])))
        except (ValueError, IndexError) as error:
            if not pairs and number <= 2:
                continue
            msg = (
                f"terrain file {name}, line {number}: {', '.join(row)[:60]!r} is no distance "
                "and height; write two numbers in metres, such as 120, 34.5"
            )
            raise BoomwrightError(msg) from error
    if len(pairs) < 2:
        msg = f"terrain file {name}: {len(pairs)} points; give at least two lines of two numbers"
        raise BoomwrightError(msg)
    data = np.array(pairs)
    try:
        return TerrainProfile(distance=data[:, 0], height=data[:, 1])
    except BoomwrightError as error:
        msg = f"terrain file {name}: {error}"
        raise BoomwrightError(msg) from error

"""Terrain profiles from the owner's files."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.reach import TerrainProfile
from boomwright.session.files import TERRAIN_PROFILE, FileKind, read_file


def read_terrain(path: Path) -> TerrainProfile:
    """Read a profile from a CSV file: distance from the mast and height, both in metres.

    A first line of words is skipped; commas, semicolons and tabs part the columns.

    Raises
    ------
    BoomwrightError
        when it cannot be read or a line is no pair of numbers; the message names the line
    """
    try:
        text = terrain_bytes(path, kind=TERRAIN_PROFILE).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"terrain file {path.name}: not a text file; save the profile as CSV in UTF-8"
        raise BoomwrightError(msg) from error
    return terrain_from_csv(text, name=path.name)


def terrain_bytes(path: Path, *, kind: FileKind) -> bytes:
    """Read a terrain file of any kind whole.

    Raises
    ------
    BoomwrightError
        when it cannot be read
    """
    try:
        return read_file(path, kind=kind)
    except OSError as error:
        msg = (
            f"terrain file {path.name}: {error.strerror or error}; "
            "put it beside the plan, or correct reach.terrain"
        )
        raise BoomwrightError(msg) from error


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
        row = [cell.strip().strip('"') for cell in line.split(mark)]
        if not any(row) or row[0].startswith("#"):
            continue
        try:
            pairs.append((float(row[0]), float(row[1])))
        except (ValueError, IndexError) as error:
            if not pairs and number <= 2:
                continue
            # What stands in a file is repeated only once it has shown to be a profile.
            shown = f"{', '.join(row)[:60]!r} is " if len(pairs) > 1 else ""
            msg = (
                f"terrain file {name}, line {number}: {shown}no distance and height; write two "
                "numbers in metres, such as 120, 34.5"
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

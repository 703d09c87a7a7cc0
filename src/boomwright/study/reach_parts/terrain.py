"""Terrain profiles from the owner's files."""

from __future__ import annotations

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.files import TERRAIN_PROFILE, FileKind, ReadFile, last_part
from boomwright.base.quantity import InPlan, phrase
from boomwright.reach import TerrainProfile


def read_terrain(name: str, *, files: ReadFile) -> TerrainProfile:
    """Read a profile from a CSV file: distance from the mast and height, both in metres.

    A first line of words is skipped; commas, semicolons and tabs part the columns.

    Raises:
        BoomwrightError: when it cannot be read or a line is no pair of numbers; the message
            names the line
    """
    try:
        text = terrain_bytes(name, files=files, kind=TERRAIN_PROFILE).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        msg = f"terrain file {last_part(name)}: not a text file; save the profile as CSV in UTF-8"
        raise BoomwrightError(msg) from error
    return terrain_from_csv(text, name=last_part(name))


def terrain_bytes(name: str, *, files: ReadFile, kind: FileKind) -> bytes:
    """Read a terrain file of any kind whole.

    Raises:
        BoomwrightError: when it cannot be read
    """
    try:
        return files(name, "reach.terrain", kind)
    except OSError as error:
        said = phrase(
            "terrain file {name}: {reason}; put it beside the plan, or correct its name{place}",
            name=last_part(name), reason=error.strerror or str(error),
            place=InPlan("reach", ("terrain",)),
        )  # fmt: skip
        raise BoomwrightError(said) from error


def terrain_from_csv(text: str, *, name: str) -> TerrainProfile:
    """Read a profile from the text of a CSV file.

    Args:
        text: the text: distance [m] and height [m] in the first two columns

    Raises:
        BoomwrightError: when a line is no pair of numbers; the message names the line
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
            raise BoomwrightError(
                f"terrain file {name}, line {number}: {shown}no distance and height; write two "
                "numbers in metres, such as 120, 34.5"
            ) from error
    if len(pairs) < 2:
        msg = f"terrain file {name}: {len(pairs)} points; give at least two lines of two numbers"
        raise BoomwrightError(msg)
    data = np.array(pairs)
    try:
        return TerrainProfile(distance=data[:, 0], height=data[:, 1])
    except BoomwrightError as error:
        raise BoomwrightError(f"terrain file {name}: {error}") from error

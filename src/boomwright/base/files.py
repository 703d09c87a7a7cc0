"""Files that a plan names: what each kind may be, and what reads them for a study.

A study has no disk. Whoever calls it hands in what reads a file that the plan names.
"""

from __future__ import annotations

from collections.abc import Callable

from boomwright.base.errors import BoomwrightError
from boomwright.base.records import dataclass


class FileRefusedError(BoomwrightError):
    """A file that would have been overwritten, or cannot be what it should be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """A kind of file that is read."""

    name: str  #: what it is called, with its article
    largest: int  #: most that is read of it [bytes]
    remedy: str  #: what to do about a larger one


PRICE_LIST = FileKind(
    name="a price list",
    largest=1_000_000,
    remedy="keep the prices that the bill of this plan names",
)
STATION_TABLE = FileKind(
    name="a table of stations",
    largest=1_000_000,
    remedy="keep the shapes and supports that are yours",
)
SWEEP_FILE = FileKind(name="a sweep", largest=5_000_000, remedy="keep one sweep a file")
TERRAIN_PROFILE = FileKind(
    name="a terrain profile", largest=5_000_000, remedy="thin the profile out"
)
HEIGHT_GRID = FileKind(
    name="a height grid", largest=128_000_000, remedy="cut out the tile that the station is on"
)

#: reads a file that a plan names: its name, the place of the plan that names it
#: (``reach.terrain``), and what it should be; raises FileRefusedError or OSError
ReadFile = Callable[[str, str, FileKind], bytes]


def no_files(name: str, place: str, kind: FileKind) -> bytes:
    """Find no file, as for a plan that lies in no folder.

    Raises:
        FileNotFoundError: always
    """
    del place, kind
    raise FileNotFoundError(2, "the plan lies in no folder", name)


def last_part(name: str) -> str:
    """Name a file without the folders that lead to it."""
    return name.replace("\\", "/").rsplit("/", 1)[-1]

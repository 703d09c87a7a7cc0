"""Reading and writing the owner's files: nothing is lost, whatever happens half-way.

Everything that is read comes through ``read_file``: from regular files only, opened once, and
never more of them than their kind may have.
"""

from __future__ import annotations

import errno
import hashlib
import os
import re
import secrets
import shutil
import stat
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Final

from boomwright.base import SaveConflictError, UnitSystem
from boomwright.base.files import PRICE_LIST, FileKind, FileRefusedError
from boomwright.base.records import dataclass, replace
from boomwright.plan import LARGEST_BYTES, Plan, PlanFile, read_place, read_plan, written_system

if TYPE_CHECKING:
    from boomwright.study.cost import PriceList

#: name that stands for standard input
STANDARD_INPUT = "-"
#: names of files that the page may ask for: one part, no leading dot
PAGE_NAME: Final = re.compile(r"\w[\w .+()-]{0,79}", re.ASCII)


PLAN_FILE = FileKind(
    name="a plan",
    largest=LARGEST_BYTES,
    remedy="give a plan file; measured data and drawings belong in files of their own",
)
#: what the program itself keeps: histories of plans, searches and what they found
OWN_RECORD = FileKind(name="a record", largest=50_000_000, remedy="delete the file")


@dataclass(frozen=True, slots=True)
class PlanFolder:
    """Reads the files that a plan names, for the studies: they lie in its folder."""

    path: Path
    #: whether names may not lead out of it: what others may edit reads no further
    closed: bool = False

    def __call__(self, name: str, place: str, kind: FileKind) -> bytes:
        """Read a file that a plan names.

        Args:
            place: where the plan names it, e.g. ``reach.terrain``

        Raises:
            FileRefusedError: when the name leads out of a closed folder, links followed, or it
                is no regular
                file
            OSError: when it cannot be read
        """
        return read_file(self.find(name, place=place), kind=kind)

    def find(self, name: str, *, place: str) -> Path:
        """Find a file that a plan names."""
        if not self.closed:
            return self.path / name
        try:
            path = (self.path / name).resolve()
            inside = path.is_relative_to(self.path.resolve())
        except (OSError, RuntimeError, ValueError):
            # Links in a circle, or a name that no system takes.
            inside = False
        if not inside:
            raise FileRefusedError(
                f"{place}: {name} is not in the folder of the plan, and the page reads nothing "
                "outside it",
                remedy="copy the file beside the plan, and name it without a path",
            )
        return path


def read_file(path: Path, *, kind: FileKind, shown: str = "") -> bytes:
    """Read a regular file whole.

    Args:
        shown: name of the file in messages; the last part of its path when empty

    Raises:
        FileRefusedError: when it is a folder, a pipe, a device or a socket, or is too large for
            its kind
        OSError: when it cannot be read
    """
    shown = shown or path.name
    # Opening a pipe would wait for a writer; and only what was opened tells what is read.
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    try:
        handle = os.open(path, flags)
    except OSError as error:
        if error.errno == errno.ENXIO:
            raise _no_file(shown, "a socket or a device") from None
        raise
    try:
        mode = os.fstat(handle).st_mode
        if not stat.S_ISREG(mode):
            raise _no_file(shown, _SPECIAL.get(stat.S_IFMT(mode), "a device"))
        found = bytearray()
        while part := os.read(handle, min(kind.largest + 1 - len(found), _PART)):
            found += part
    finally:
        os.close(handle)
    if len(found) > kind.largest:
        raise FileRefusedError(
            f"{shown}: is larger than the {kind.largest / 1e6:g} MB that {kind.name} may have",
            remedy=kind.remedy,
        )
    return bytes(found)


#: what is no regular file
_SPECIAL = {stat.S_IFDIR: "a folder", stat.S_IFIFO: "a pipe", stat.S_IFSOCK: "a socket"}
#: read at once [bytes]
_PART = 1 << 20


def _no_file(shown: str, what: str) -> FileRefusedError:
    return FileRefusedError(f"{shown}: is {what}, not a file", remedy="name a regular file")


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedPlan:
    """A plan with the text it was read from."""

    path: Path | None  #: file it came from; None for standard input
    text: str  #: content of the file
    plan: Plan
    digest: str  #: first 16 hexadecimal digits of the SHA-256 of the text, to tell versions apart

    @property
    def files(self) -> PlanFolder:
        """Reads the files it names, beside it; for standard input in the working folder."""
        return PlanFolder(Path() if self.path is None else self.path.parent)

    @property
    def system(self) -> UnitSystem:
        """The units the plan is written in, and so the ones to answer in."""
        return written_system(self.text)


def refuse_name(name: str, *endings: str) -> None:
    """Refuse a file name that the page does not take.

    Args:
        endings: what it may end in, in small letters

    Raises:
        FileRefusedError: when it is another
    """
    if PAGE_NAME.fullmatch(name) is None or not name.lower().endswith(endings):
        raise FileRefusedError(
            f"{name[:80]!r} is no file name taken here",
            remedy=f"use letters, digits, spaces, - and _, ending in {' or '.join(endings)}",
        )


def text_digest(text: str) -> str:
    """Shorten a text to a name of its version."""
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def load_text(path: Path, *, kind: FileKind = PLAN_FILE) -> str:
    """Read the text of a file, whatever state it is in.

    Raises:
        FileRefusedError: when it is no regular file, or too large for its kind
        OSError: when it cannot be read
    """
    return _text(read_file(path, kind=kind))


def _text(data: bytes) -> str:
    return data.decode("utf-8-sig", errors="replace")


def load_prices(path: Path) -> PriceList:
    """Read a price list from a file, CSV or TOML by its name.

    Raises:
        PlanError: with every fault found
        FileRefusedError: when it is no regular file, or too large
        OSError: when it cannot be read
    """
    # Checking a plan must not wait for the rooms that compute.
    from boomwright.study.cost import read_price_list

    return read_price_list(read_file(path, kind=PRICE_LIST), name=path.name)


def load_plan(path: Path | str, *, place: bool = False) -> LoadedPlan:
    """Read a plan from its file.

    Args:
        path: the file, or ``-`` for standard input
        place: whether it may be a place that has no antenna yet

    Raises:
        PlanError: with every fault found
        FileRefusedError: when it is no regular file, or too large for a plan
        OSError: when the file cannot be read
    """
    if str(path) == STANDARD_INPUT:
        # One byte more than a plan may have, so that the reader of plans can refuse it.
        data = sys.stdin.buffer.read(LARGEST_BYTES + 1)
    else:
        data = read_file(Path(path), kind=PLAN_FILE, shown=str(path))
    plan = (read_place if place else read_plan)(data, source=str(path))
    return LoadedPlan(
        path=None if str(path) == STANDARD_INPUT else Path(path),
        text=_text(data),
        plan=plan,
        digest=text_digest(_text(data)),
    )


def read(path: Path | str, *, place: bool = False) -> Plan:
    """Read a plan as :func:`load_plan` does; the plan remembers the file."""
    loaded = load_plan(path, place=place)
    folder, name = ("", "") if loaded.path is None else (str(loaded.path.parent), loaded.path.name)
    return replace(loaded.plan, file=PlanFile(folder=folder, name=name, text=loaded.text))


def packaged_text(name: str) -> str:
    """Read a text file that comes with the program."""
    return (resources.files("boomwright.session") / "data" / name).read_text(encoding="utf-8")


def previous_path(path: Path) -> Path:
    """Name the file that keeps what a save replaced."""
    return path.with_name(f"{path.stem}.previous{path.suffix or '.toml'}")


def draft_path(path: Path) -> Path:
    """Name the file that keeps work which could not go into the plan file."""
    return path.with_name(f"{path.stem}.unsaved{path.suffix or '.toml'}")


def found_text(path: Path) -> str | None:
    """Read the text of a plan file that may not be there; None when there is no such file.

    Raises:
        FileRefusedError: when it is no regular file, or too large for a plan
        OSError: when it cannot be read
    """
    try:
        return load_text(path)
    except FileNotFoundError:
        return None


def save_text(path: Path, text: str, *, expected: str | None, aside: bool = False) -> datetime:
    """Replace a plan file in one step, keeping the previous file beside it.

    A power cut at any moment leaves the old file or the new one, never half of one.

    Args:
        path: the plan file; a link is followed
        expected: content the file must still have; None when there must be no such file yet
        aside: whether what is replaced is somebody else's: kept under a name that no later save
            uses

    Raises:
        SaveConflictError: when the file holds something else; nothing is written then
        FileRefusedError: when it is no regular file, or too large for a plan
        OSError: when it cannot be written; the file is as it was
    """
    target = path.resolve()
    with _alone(target.parent):
        found = found_text(target)
        if found != expected:
            raise SaveConflictError(found)
        if found is not None and found != text:
            name = f"{target.stem}.replaced-{text_digest(found)[:8]}{target.suffix or '.toml'}"
            kept = target.with_name(name) if aside else previous_path(target)
            _replace(kept, read_file(target, kind=PLAN_FILE), like=target)
        _replace(target, text.encode(), like=target)
    return datetime.now().astimezone()


def day_of_today() -> str:
    """Look at the clock: the day here, ``2026-01-31``."""
    return datetime.now().astimezone().date().isoformat()


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Keep other programs of this kind from writing in a folder between a look and a write."""
    if os.name != "posix":
        yield
        return
    import fcntl

    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def save_bytes(path: Path, data: bytes, *, new: bool = False) -> None:
    """Write a made file, such as the book, in one step; its folder is made when missing.

    Args:
        new: whether an existing file is kept

    Raises:
        FileRefusedError: when the name is that of a plan, or of an existing file that is kept
        OSError: when it cannot be written
    """
    make_way(path)
    target = path.resolve()
    with _alone(target.parent):
        if new and target.exists():
            raise FileRefusedError(
                f"{path.name}: this file exists and is kept", remedy="choose another name"
            )
        _replace(target, data, like=target)


def make_way(path: Path) -> None:
    """Make the folder of a file that is to be written, so that a wrong name is told at once.

    Raises:
        FileRefusedError: when the name is that of a plan
        OSError: when there can be no such file
    """
    if path.suffix == ".toml":
        raise FileRefusedError(
            f"{path}: a made file never replaces a plan", remedy="choose a name not ending in .toml"
        )
    path.parent.mkdir(parents=True, exist_ok=True)
    if path.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    if not os.access(path.parent, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path.parent))


def _replace(target: Path, data: bytes, *, like: Path) -> None:
    temporary = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")
    handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if like.exists():
            shutil.copymode(like, temporary)
        temporary.replace(target)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def _sync_folder(folder: Path) -> None:
    # Without this a power cut may undo the renaming; folders cannot be opened on every system.
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)

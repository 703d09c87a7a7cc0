"""Reading and writing the owner's files: nothing is lost, whatever happens half-way."""

from __future__ import annotations

import hashlib
import os
import secrets
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from boomwright.base import BoomwrightError, SaveConflictError, UnitSystem
from boomwright.plan import LARGEST_BYTES, Plan, PlanFile, read_plan, written_system

#: name that stands for standard input
STANDARD_INPUT = "-"


class FileRefusedError(BoomwrightError):
    """A file that would have been overwritten, or cannot be what it should be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedPlan:
    """A plan with the text it was read from."""

    path: Path | None  #: file it came from; None for standard input
    text: str  #: content of the file
    plan: Plan
    digest: str  #: first 16 hexadecimal digits of the SHA-256 of the text, to tell versions apart

    @property
    def system(self) -> UnitSystem:
        """The units the plan is written in, and so the ones to answer in."""
        return written_system(self.text)


def text_digest(text: str) -> str:
    """Shorten a text to a name of its version."""
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def load_text(path: Path | str) -> str:
    """Read the text of a plan, whatever state it is in.

    Parameters
    ----------
    path
        the file, or ``-`` for standard input

    Raises
    ------
    OSError
        when it cannot be read
    """
    return _text(_load_bytes(path))


def _load_bytes(path: Path | str) -> bytes:
    # One byte more than a plan may have, so that the reader of plans can refuse it.
    if str(path) == STANDARD_INPUT:
        return sys.stdin.buffer.read(LARGEST_BYTES + 1)
    with Path(path).open("rb") as file:
        return file.read(LARGEST_BYTES + 1)


def _text(data: bytes) -> str:
    return data.decode("utf-8-sig", errors="replace")


def load_plan(path: Path | str) -> LoadedPlan:
    """Read a plan from its file.

    Parameters
    ----------
    path
        the file, or ``-`` for standard input

    Raises
    ------
    PlanError
        with every fault found
    OSError
        when the file cannot be read
    """
    data = _load_bytes(path)
    plan = read_plan(data, source=str(path))
    return LoadedPlan(
        path=None if str(path) == STANDARD_INPUT else Path(path),
        text=_text(data),
        plan=plan,
        digest=text_digest(_text(data)),
    )


def read(path: Path | str) -> Plan:
    """Read a plan from its file; the plan remembers the file.

    Parameters
    ----------
    path
        the file, or ``-`` for standard input

    Raises
    ------
    PlanError
        with every fault found
    OSError
        when the file cannot be read
    """
    loaded = load_plan(path)
    folder, name = ("", "") if loaded.path is None else (str(loaded.path.parent), loaded.path.name)
    return replace(loaded.plan, file=PlanFile(folder=folder, name=name, text=loaded.text))


def previous_path(path: Path) -> Path:
    """Name the file that keeps what a save replaced.

    Parameters
    ----------
    path
        the plan file, e.g. ``plan.toml``
    """
    return path.with_name(f"{path.stem}.previous{path.suffix or '.toml'}")


def draft_path(path: Path) -> Path:
    """Name the file that keeps work which could not go into the plan file.

    Parameters
    ----------
    path
        the plan file, e.g. ``plan.toml``
    """
    return path.with_name(f"{path.stem}.unsaved{path.suffix or '.toml'}")


def save_text(path: Path, text: str, *, expected: str | None) -> datetime:
    """Replace a plan file in one step, keeping the previous file beside it.

    A power cut at any moment leaves the old file or the new one, never half of one.

    Parameters
    ----------
    path
        the plan file; a link is followed
    expected
        content the file must still have; None when there must be no such file yet

    Raises
    ------
    SaveConflictError
        when the file holds something else; nothing is written then
    OSError
        when it cannot be written; the file is as it was
    """
    target = path.resolve()
    with _alone(target.parent):
        found = load_text(target) if target.exists() else None
        if found != expected:
            raise SaveConflictError(found or "")
        if found is not None and found != text:
            _replace(previous_path(target), target.read_bytes(), like=target)
        _replace(target, text.encode(), like=target)
    return datetime.now().astimezone()


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


def save_bytes(path: Path, data: bytes) -> None:
    """Write a made file, such as the book, in one step; its folder is made when missing.

    Raises
    ------
    FileRefusedError
        when the name is that of a plan
    OSError
        when it cannot be written
    """
    if path.suffix == ".toml":
        message = f"{path}: a made file never replaces a plan -> choose a name not ending in .toml"
        raise FileRefusedError(message)
    path.parent.mkdir(parents=True, exist_ok=True)
    target = path.resolve()
    _replace(target, data, like=target)


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

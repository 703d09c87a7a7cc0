"""What a name may stand for that is no regular file, and a bound on waiting for it."""

from __future__ import annotations

import os
import signal
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

#: kinds of special files
SPECIAL = ("device", "pipe", "folder", "socket", "link to a pipe")


def special_file(folder: Path, kind: str, name: str = "special") -> Path:
    """Put a special file into a folder, under a name, or name one that is there."""
    path = folder / name
    match kind:
        case "device":
            path.symlink_to("/dev/zero")
        case "pipe":
            os.mkfifo(path)
        case "folder":
            path.mkdir()
        case "socket":
            os.mknod(path, stat.S_IFSOCK | 0o600)
        case "link to a pipe":
            os.mkfifo(folder / f"{name}.pipe")
            path.symlink_to(folder / f"{name}.pipe")
    return path


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Turn a wait without end into a failure."""

    def too_long(*_: object) -> None:
        message = f"still waiting after {seconds:g} s"
        raise AssertionError(message)

    before = signal.signal(signal.SIGALRM, too_long)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)

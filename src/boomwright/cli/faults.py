"""What is said when something is wrong, and the exit statuses of every command."""

from __future__ import annotations

import errno
from collections.abc import Iterable, Sequence
from enum import IntEnum
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup
from typer.exceptions import TyperException

from boomwright.base.owner_text import plain
from boomwright.base.quantity import write

if TYPE_CHECKING:
    from boomwright.base import Fault, Notice, UnitSystem


class Status(IntEnum):
    """Exit statuses."""

    DONE = 0
    BROKEN = 1
    REFUSED = 2
    OVER_LIMIT = 3


def end_over_limit(exceeded: Sequence[Notice], *, system: UnitSystem) -> None:
    """End with status 3 where a limit is exceeded, naming each."""
    if exceeded:
        texts = (write(notice.text, system=system) for notice in exceeded)
        say(f"limit exceeded: {text}" for text in texts)
        raise typer.Exit(Status.OVER_LIMIT)


def fault_line(fault: Fault, *, source: str) -> str:
    """Write one fault of a plan on one line.

    Args:
        source: file name, or ``-``
    """
    file = "standard input" if source == "-" else source or "plan"
    where = f"{file}:{fault.line}" if fault.line else file
    value = f" ({fault.value})" if fault.value else ""
    message, remedy = (write(each, system="metric") for each in (fault.message, fault.remedy))
    return plain(f"{where} {fault.path}: {message}{value}{f' -> {remedy}' if remedy else ''}")


def error_lines(error: Exception) -> tuple[list[str], Status]:
    """Say what went wrong, and with which status the program ends."""
    from boomwright.base import BoomwrightError, PlanError

    if isinstance(error, PlanError):
        lines = [fault_line(fault, source=error.source) for fault in error.faults]
        count = len(lines)
        return [*lines, f"{count} fault{'s' if count != 1 else ''} in the plan"], Status.REFUSED
    if isinstance(error, BoomwrightError):
        return [plain(str(error))], Status.REFUSED
    if isinstance(error, OSError):
        return [_file_line(error)], Status.REFUSED
    kind = plain(f"{type(error).__name__}: {error}")
    line = f"boomwright failed, which is its own fault, not the plan's ({kind})"
    return [f"{line} -> run boomwright --debug to see where, and report it"], Status.BROKEN


_REMEDIES = {
    errno.ENOENT: "check the name; boomwright new makes a plan",
    errno.EISDIR: "name a file, not a folder",
    errno.ENOTDIR: "part of the path is a file; check the name",
    errno.EACCES: "change the permissions, or choose another place",
    errno.EROFS: "choose a place that can be written",
    errno.ENOSPC: "make room on the disk",
    errno.EADDRINUSE: "choose another port, or leave --port out",
}


def _file_line(error: OSError) -> str:
    name = f"{error.filename}: " if error.filename is not None else ""
    reason = (error.strerror or type(error).__name__).lower()
    remedy = _REMEDIES.get(error.errno or 0, "check the name and the place")
    return plain(f"{name}{reason} -> {remedy}")


def say(lines: Iterable[str]) -> None:
    """Write lines to the error stream."""
    for line in lines:
        typer.echo(line, err=True)


def refuse(contradictions: dict[str, bool]) -> None:
    """Refuse options that contradict each other.

    Args:
        contradictions: what is said of each, with its remedy, and whether it is there
    """
    for message, there in contradictions.items():
        if there:
            raise typer.BadParameter(message)


class CommandGroup(TyperGroup):
    """All commands; turns whatever they raise into lines and a status, never a traceback."""

    def invoke(self, ctx: typer.Context) -> Any:  # type: ignore[override]
        """Run the command asked for.

        Raises:
            typer.Exit: with the status, when the command failed
        """
        try:
            return super().invoke(ctx)
        except (TyperException, typer.Exit, typer.Abort):
            raise
        except Exception as error:
            broken_pipe = isinstance(error, OSError) and error.errno == errno.EPIPE
            if ctx.params.get("debug") or broken_pipe:
                raise
            lines, status = error_lines(error)
            say(lines)
            raise typer.Exit(status) from None

"""Long work at a terminal: one line that says how far it is, and Ctrl-C that ends it kindly."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from types import FrameType


class ProgressLine:
    """A line that is written over, and the wish to stop."""

    def __init__(self) -> None:
        self.stop = False
        self.shown = sys.stderr.isatty()
        self._width = 0

    def show(self, line: str) -> None:
        """Write the line over the one before, on a terminal."""
        if self.shown:
            self._width = max(self._width, len(line))
            typer.echo(f"\r{line:{self._width}}", err=True, nl=False)

    def end(self) -> None:
        """Wipe the line."""
        if self._width:
            typer.echo(f"\r{'':{self._width}}\r", err=True, nl=False)
            self._width = 0


@contextmanager
def stopping() -> Iterator[ProgressLine]:
    """Let the first Ctrl-C end the work and the second the program."""
    line = ProgressLine()

    def on_interrupt(number: int, frame: FrameType | None) -> None:
        del number, frame
        if line.stop:
            raise KeyboardInterrupt
        line.stop = True

    before = signal.signal(signal.SIGINT, on_interrupt)
    try:
        yield line
    finally:
        signal.signal(signal.SIGINT, before)
        line.end()

"""Running commands in process, as the shell would, with the page replaced by a note of the call."""

from __future__ import annotations

import io
import sys
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from boomwright.cli import run


@dataclass(kw_only=True)
class Ran:
    """What one command did."""

    status: int
    out: str
    err: str


@dataclass(kw_only=True)
class Shell:
    """Runs commands and notes which pages were opened."""

    capture: pytest.CaptureFixture[str]
    patch: pytest.MonkeyPatch
    opened: list[tuple[Path, int, bool]] = field(default_factory=list)
    beyond: list[tuple[str, str]] = field(default_factory=list)

    def open_page(
        self, *, path: Path, port: int, browser: bool, beyond: str, password: str
    ) -> None:
        self.opened.append((path, port, browser))
        self.beyond.append((beyond, password))

    def __call__(self, *words: object, stdin: bytes = b"") -> Ran:
        self.patch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        self.capture.readouterr()
        status = run([str(word) for word in words], open_page=self.open_page)
        out, err = self.capture.readouterr()
        assert "Traceback" not in err
        return Ran(status=status, out=out, err=err)

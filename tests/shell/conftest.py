"""One browser for each file that needs one, and commands run in process."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from fakes.command_line import Shell


@pytest.fixture(scope="module", autouse=True)
def _one_browser(request: pytest.FixtureRequest) -> Iterator[None]:
    """Start the browser of a file once: that takes longer than many a test in it."""
    if "browser" not in {mark.name for mark in request.node.iter_markers()}:
        yield
        return
    from fakes.browser import kept_browser

    with kept_browser():
        yield


@pytest.fixture
def shell(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Shell:
    """What runs commands, their output captured."""
    from fakes.command_line import Shell

    return Shell(capture=capsys, patch=monkeypatch)

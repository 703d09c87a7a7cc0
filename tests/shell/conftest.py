"""One browser for each file that needs one."""

from __future__ import annotations

from collections.abc import Iterator

import pytest


@pytest.fixture(scope="module", autouse=True)
def _one_browser(request: pytest.FixtureRequest) -> Iterator[None]:
    """Start the browser of a file once: that takes longer than many a test in it."""
    if "browser" not in {mark.name for mark in request.node.iter_markers()}:
        yield
        return
    from fakes.browser import kept_browser

    with kept_browser():
        yield

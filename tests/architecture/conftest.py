"""What the tests of the project's own shape share."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def root() -> Path:
    """Root of the project."""
    return Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def package(root: Path) -> Path:
    """Folder of the package."""
    return root / "src" / "boomwright"

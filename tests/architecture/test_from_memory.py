"""The structural figures from memory are those the register of sources calls so."""

from __future__ import annotations

import tomllib
from pathlib import Path

from boomwright.structure.memory import FROM_MEMORY

REGISTER = Path(__file__).parents[2] / "docs" / "sources.toml"


def test_the_register_calls_each_figure_from_memory():
    register = tomllib.loads(REGISTER.read_text(encoding="utf-8"))
    assert {key: register[key]["seen"] for key in FROM_MEMORY} == dict.fromkeys(
        FROM_MEMORY, "from memory"
    )

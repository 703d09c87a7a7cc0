"""Every row of the copied check values is held against by a test."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

import pytest

VALIDATION = Path(__file__).parents[1] / "validation"


def texts_of(file):
    """Every text in a module but its docstrings."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    told = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.FunctionDef) and isinstance(node.body[0], ast.Expr)
    }
    return {
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told
    }


@pytest.mark.parametrize("name", ["structure", "column", "wind", "permits", "raising"])
def test_every_row_is_used_by_a_check(name):
    rows = tomllib.loads((VALIDATION / "data" / f"{name}_checks.toml").read_text("utf-8"))["check"]
    opened = f"{name}_checks.toml"
    if name in {"structure", "column", "wind"}:
        opened = "structure_reference"
    readers = [f for f in VALIDATION.glob("test_*.py") if opened in f.read_text("utf-8")]
    used = set().union(*(texts_of(file) for file in readers))
    assert [row["id"] for row in rows if row["id"] not in used] == []
    for row in rows:
        assert row["source"], row["id"]
        assert row["provenance"].split(" (")[0] in {
            "published", "derived", "from memory", "common practice",
        }, row["id"]  # fmt: skip

"""No code takes a sentence of ours apart: patterns read what came from outside, and no more."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

from boomwright.session.files import packaged_text

#: who may use regular expressions, and what comes to them from outside
READS = {
    "charts/canvas.py": "characters that XML forbids, in the owner's names",
    "permits/united_states.py": "codes of airfields in public tables",
    "plan/": "what the owner wrote",
    "session/files.py": "names of files",
    "session/plan_library.py": "names of files",
    "session/price_list.py": "names of files",
    "session/search_workers.py": "the address of a cluster that somebody typed",
    "study/candidate_prices.py": "a budget that somebody typed",
    "study/cost.py": "the owner's price list",
    "tuning/sweep_table.py": "heads of a meter's table",
    "tuning/touchstone.py": "a meter's file",
    "web/": "addresses, names of files and edits that a browser sends",
}


def users(package: Path) -> set[str]:
    found = set()
    for path in package.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        # To parse all files takes seconds, and few hold one of the words.
        if not re.search(r"\b(re|regex)\b", text):
            continue
        tree = ast.parse(text)
        names = {
            name.name
            for node in ast.walk(tree)
            if isinstance(node, ast.Import)
            for name in node.names
        }
        names |= {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
        if {"re", "regex"} & names:
            found.add(path.relative_to(package).as_posix())
    return found


def test_patterns_read_only_what_comes_from_outside(package: Path) -> None:
    ours = {user for user in users(package) if not user.startswith(tuple(READS))}
    assert not ours, f"text of ours is searched in {sorted(ours)}"


def keys_said(path: Path) -> Iterator[str]:
    telling = {"Source", "cited", "recalled"}
    text = path.read_text(encoding="utf-8")
    if not any(name in text for name in telling):
        return
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            last = node.args[-1] if node.args else None
            said = node.func.id in telling
            if said and isinstance(last, ast.Constant) and isinstance(last.value, str):
                yield last.value


def test_every_source_that_is_said_is_registered(package: Path) -> None:
    said = {key for path in package.rglob("*.py") for key in keys_said(path)}
    assert len(said) > 15
    assert not said - set(tomllib.loads(packaged_text("sources.toml")))


def arrows(path: Path) -> bool:
    """Whether a text of a file holds the arrow between a fault and its remedy."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return any(
        isinstance(node, ast.Constant) and id(node) not in told and " -> " in str(node.value)
        for node in ast.walk(tree)
    )


def test_a_remedy_is_given_beside_its_fault_and_joined_by_the_error_alone(package: Path) -> None:
    holders = {p.relative_to(package).as_posix() for p in package.rglob("*.py") if arrows(p)}
    # The terminal's own refusals of options are read nowhere else.
    assert {each for each in holders if not each.startswith("cli/")} == {"base/errors.py"}

"""The page about work from Python: every line of it runs and gives the number beside it."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

import pytest

import boomwright

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs" / "python.md"


@pytest.mark.slow
def test_the_page_runs_as_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    lines = re.sub(r"^```.*$", "", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE)
    page = doctest.DocTestParser().get_doctest(lines, {"folder": tmp_path}, PAGE.name, None, 0)
    said: list[str] = []
    runner = doctest.DocTestRunner(verbose=False)
    runner.run(page, out=said.append)
    assert runner.tries > 30
    assert runner.failures == 0, "".join(said)


def test_the_page_shows_every_verb() -> None:
    text = PAGE.read_text(encoding="utf-8")
    verbs = {name for name in boomwright.__all__ if name.islower() and not name.startswith("_")}
    assert len(verbs) == 15
    assert verbs == set(re.findall(r"bw\.(\w+)\(", text))


def test_no_verb_hides_behind_a_room() -> None:
    """A room once imported is an attribute of the package and would take the name of a verb."""
    rooms = {path.parent.name for path in (ROOT / "src/boomwright").glob("*/__init__.py")}
    assert not rooms & set(boomwright.__all__)


def test_every_verb_is_found_and_says_what_it_does() -> None:
    for name in boomwright.__all__:
        found = getattr(boomwright, name)
        assert name == "__version__" or found.__doc__, name

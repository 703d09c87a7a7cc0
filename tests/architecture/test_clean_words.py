"""No file of the project holds a path of one machine, a registry's host or a sibling folder."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

# Written in pieces, so that this file passes its own check.
FORBIDDEN = {
    "a path of one machine": re.compile(
        r"(?<![\w.:*-])/(?:" + "|".join(("work", "root", "home")) + r")(?=[/\s\"'`),:]|$)",
        re.MULTILINE,
    ),
    "a registry's host": re.compile(
        "|".join(("py" + r"pi\.", "python" + "hosted", "npm" + r"js\.", "conda" + r"\.anaconda"))
    ),
    "a folder outside the project": re.compile(r"\.\./" + "shared"),
}


def project_files(root: Path) -> list[Path]:
    """Every file that belongs to the project: tracked, or new and not ignored."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
        cwd=root, capture_output=True, text=True, check=True,
    )  # fmt: skip
    paths = [root / name for name in listed.stdout.split("\0") if name]
    return [path for path in paths if path.is_file()]


def unclean(text: str) -> list[str]:
    return [
        f"line {text.count(chr(10), 0, found.start()) + 1}: {what}: {found[0]}"
        for what, pattern in FORBIDDEN.items()
        for found in pattern.finditer(text)
    ]


def test_no_file_holds_forbidden_words(root: Path) -> None:
    files = project_files(root)
    assert len(files) > 20
    found = [
        f"{path.relative_to(root)}: {fault}"
        for path in files
        for fault in unclean(path.read_text(encoding="utf-8", errors="ignore"))
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    "text",
    [
        "see /" + "work/main",
        "'/" + "root'",
        "/" + "home/anyone/x",
        "https://py" + "pi.org/simple",
        "../" + "shared/x",
    ],
)
def test_the_check_bites(text: str) -> None:
    assert unclean(f"one line\n{text}\n")


@pytest.mark.parametrize(
    "text", ["https://example.org/work/", "network/home", "a /workshop", "~/x"]
)
def test_the_check_lets_ordinary_words_pass(text: str) -> None:
    assert not unclean(text)

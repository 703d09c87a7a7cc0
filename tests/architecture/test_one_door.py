"""Files of the owner are read in one place, which knows pipes, devices and files without end."""

from __future__ import annotations

import re
from pathlib import Path

SOURCE = Path(__file__).parents[2] / "src" / "boomwright"
READS = re.compile(
    r"\.read_(?:text|bytes)\(|os\.open\(|(?<![\w.])open\(|\.open\(\"|TiffFile\((?!io\.)"
)
#: these read what comes with the program, and files.py is the door
KNOWN = {
    "render/book/typesetting.py", "session/files.py", "session/lessons.py",
    "study/advice/table.py", "study/frontier.py",
    "study/permits.py", "web/app.py",
}  # fmt: skip


def test_nothing_else_opens_a_file_to_read():
    found = {
        str(path.relative_to(SOURCE))
        for path in SOURCE.rglob("*.py")
        if READS.search(re.sub(r"def \w*open\w*\(", "", path.read_text(encoding="utf-8")))
    }
    assert found == KNOWN

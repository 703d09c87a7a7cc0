"""The same plan gives the same files, whatever order a run of Python gives its sets."""

from __future__ import annotations

import os
import subprocess
import sys

MAKE = """
import sys
from pathlib import Path
from boomwright.session.drawings import write_drawings
from boomwright.session.files import read
from boomwright.study.computing import compute
from boomwright.session.work_files import write_work
plan, folder = read(sys.argv[1]), Path(sys.argv[2])
write_drawings(compute(plan, points=2), folder, system="metric")
write_work(plan, folder / "drawings", digest="0", system="metric", today="2026-01-31")
"""


def test_two_hash_seeds_give_the_same_drawings(tmp_path):
    from boomwright.session.files import packaged_text

    plan = tmp_path / "plan.toml"
    plan.write_text(packaged_text("demo.toml"), encoding="utf-8")
    made = {}
    # Two seeds that order the types of a drawing differently.
    for seed in ("4", "5"):
        folder = tmp_path / seed
        environment = os.environ | {"PYTHONHASHSEED": seed}
        command = [sys.executable, "-c", MAKE, str(plan), str(folder)]
        subprocess.run(command, env=environment, check=True, timeout=300)
        made[seed] = {
            str(path.relative_to(folder)): path.read_bytes()
            for path in folder.rglob("*")
            if path.is_file()
        }
    one, other = made.values()
    assert len([name for name in one if name.endswith(".dxf")]) >= 8
    assert one.keys() == other.keys()
    assert [name for name in one if one[name] != other[name]] == []

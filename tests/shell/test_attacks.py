"""The attacks of tools/ hold, a small share of them; run the tools themselves for more."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

TOOLS = Path(__file__).parents[2] / "tools"
#: those that mostly wait take their time; ``BOOMWRIGHT_PLANS`` runs them too
WAITING = ["silence", "closing", "deaf", "ending"] if "BOOMWRIGHT_PLANS" in os.environ else []


def attacked(*words: str) -> None:
    command = [sys.executable, *words]
    ran = subprocess.run(command, cwd=TOOLS, capture_output=True, text=True, timeout=900)
    assert ran.returncode == 0, ran.stdout + ran.stderr


@pytest.mark.slow
@pytest.mark.parametrize(
    "name",
    ["frames", "requests", "passwords", "files", "plan", *WAITING],
)
def test_the_page_holds(name):
    attacked("attack_page.py", name, "--count", "5")


@pytest.mark.slow
def test_files_are_read_or_refused():
    attacked("attack_files.py", "--count", "30", "--runs", "1")


@pytest.mark.slow
def test_plans_are_answered_or_refused_by_every_command():
    attacked("attack_plans.py", "--checks", "80", "--runs", "6", "--seed", "3")

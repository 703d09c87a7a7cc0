"""A room's face gives what it names, whichever of its modules was imported first."""

from __future__ import annotations

import subprocess
import sys

import pytest


@pytest.mark.parametrize("first", ["boomwright.charts", "boomwright.charts.line_chart"])
def test_a_name_is_not_taken_by_the_module_that_is_called_alike(first):
    code = f"import {first}\nfrom boomwright import charts\nassert callable(charts.line_chart)"
    subprocess.run([sys.executable, "-c", code], check=True)

"""Three example stations alone and mounted: the table of docs/validation.md."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from boomwright.plan import read_plan
from boomwright.reach import read_beam
from boomwright.solver import FREE_SPACE

ROOT = Path(__file__).parents[2]
MOUNTS = {
    "01": 'mount = { kind = "insulated above", clearance = "8 mm" }',
    "02": 'mount = { kind = "insulated above", clearance = "12 mm", '
    'plate = ["150 mm", "100 mm", "5 mm"] }',
    "04": 'mount = { kind = "insulated above", clearance = "15 mm", '
    'plate = ["250 mm", "120 mm", "6 mm"] }',
}


def figures(text):
    beam = read_plan(text).beams[0]
    at = np.array([beam.design_frequency])
    return read_beam(beam=beam, ground=FREE_SPACE, frequencies=at).free_space


@pytest.mark.parametrize("station", MOUNTS)
def test_row_of_the_table(station):
    (path,) = (ROOT / "examples/stations").glob(f"{station}-*.toml")
    text = path.read_text(encoding="utf-8")
    alone = figures(text)
    held = figures(text.replace("\nfeed =", f"\n{MOUNTS[station]}\nfeed =", 1))
    rows = (ROOT / "docs/validation.md").read_text(encoding="utf-8").splitlines()
    (row,) = (each for each in rows if each.startswith(f"| {station}, "))
    cells = [
        [
            float(number)
            for number in re.findall(r"-?[0-9.]+", cell.replace("− j", "-").replace("j", ""))
        ]
        for cell in row.split("|")[2:-1]
    ]
    wanted = [
        [alone.impedance.real, alone.impedance.imag],
        [held.impedance.real, held.impedance.imag, held.impedance_error],
        [alone.gain_dbi, held.gain_dbi, held.gain_error_db],
        [alone.front_to_back_db, held.front_to_back_db, held.front_to_back_error_db],
    ]
    for printed, found, places in zip(cells, wanted, (1, 1, 2, 1), strict=True):
        assert printed == pytest.approx(found, abs=0.51 * 10.0**-places)

"""Three example stations alone, mounted and with a neighbour: the table of docs/validation.md."""

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


#: how much higher the same beam hangs once more, its feed shorted
ABOVE = {"01": 1.2, "02": 2.5, "04": 5.0}


def figures(text):
    beam = read_plan(text).beams[0]
    at = np.array([beam.design_frequency])
    return read_beam(beam=beam, ground=FREE_SPACE, frequencies=at).free_space


def with_neighbour(text, *, rise):
    """The same plan with its beam once more, higher up."""
    start = text.index("[[beam]]")
    following = re.search(r"^\[(?!\[?beam)", text[start:], re.MULTILINE)
    end = start + following.start() if following else len(text)
    height = read_plan(text).beams[0].height + rise
    again = re.sub(r'(?m)^(\s*name = )"[^"]*"', r'\1"second"', text[start:end], count=1)
    again = re.sub(
        r'(?m)^(\s*height = )"[^"]*"', rf'\1"{height:g} m"\nidle_feed = "shorted"', again, count=1
    )
    return f"{text[:end]}\n{again}{text[end:]}"


def row_figures(text, mount, *, rise):
    """Free-space figures alone, mounted, and mounted with the neighbour."""
    held = text.replace("\nfeed =", f"\n{mount}\nfeed =", 1)
    return figures(text), figures(held), figures(with_neighbour(held, rise=rise))


@pytest.mark.parametrize("station", MOUNTS)
def test_row_of_the_table(station):
    (path,) = (ROOT / "examples/stations").glob(f"{station}-*.toml")
    alone, held, beside = row_figures(
        path.read_text(encoding="utf-8"), MOUNTS[station], rise=ABOVE[station]
    )
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
        [beside.impedance.real, beside.impedance.imag, beside.impedance_error],
        [alone.gain_dbi, held.gain_dbi, beside.gain_dbi, beside.gain_error_db],
        [
            alone.front_to_back_db,
            held.front_to_back_db,
            beside.front_to_back_db,
            beside.front_to_back_error_db,
        ],
    ]
    for printed, found, places in zip(cells, wanted, (1, 1, 1, 2, 1), strict=True):
        assert printed == pytest.approx(found, abs=0.51 * 10.0**-places)

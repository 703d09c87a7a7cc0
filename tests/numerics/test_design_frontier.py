"""The shipped frontier against the full solver and against itself.

No outside table has these cells; the full solver, which is held against published antennas
elsewhere, judges the designs, and what must rise or fall along an axis judges the surface. The
gains of NBS Technical Note 688, Table 1 (P. P. Viezbicke, 1976; measured, +-0.5 dB) must not lie
above the frontier for as many elements on as long a boom.
"""

from __future__ import annotations

from itertools import product
from pathlib import Path

import numpy as np
import pytest

import boomwright.design
from antennas import beam_in_wavelengths, read_data
from boomwright.base import SPEED_OF_LIGHT
from boomwright.design import WishError, frontier_at, frontier_table
from boomwright.design.frontier import (
    BANDWIDTHS,
    BOOMS_WL,
    COUNTS,
    DIAMETERS_WL,
    LEAST_RESISTANCE,
    MOST_SWR,
    REARS_DB,
    axis_numbers,
)
from boomwright.solver import gain_dbi, solve_beam, standing_wave_ratio, working_detail
from boomwright.study.frontier import read_trade_off
from boomwright.study.frontier_fit import ask_trade_off

FILE = Path(boomwright.design.__file__).parent / "data" / "frontier.npz"


@pytest.fixture(scope="module")
def table():
    with np.load(FILE) as arrays:
        return frontier_table(arrays)


@pytest.fixture(scope="module")
def rows(table):
    return {tuple(cell): row for row, cell in enumerate(table.cell.tolist())}


def test_the_file_is_small_and_says_where_it_comes_from():
    assert FILE.stat().st_size < 1_500_000
    with np.load(FILE) as arrays:
        assert "make_frontier" in str(arrays["provenance"])


def test_every_cell_is_there(rows):
    expected = {
        (count, *numbers) for count in COUNTS for numbers in product(*axis_numbers(count=count))
    }
    assert set(rows) == expected
    assert max(COUNTS) == 16


def test_the_driven_element_lies_between_its_neighbours(table):
    for cell, halves in zip(table.cell.tolist(), table.half_lengths, strict=True):
        reflector, driven, first = halves[:3]
        assert reflector >= driven - 1e-9
        assert cell[0] == 2 or driven >= first - 1e-9


def test_packing_keeps_everything(table):
    again = frontier_table(table.packed())
    np.testing.assert_array_equal(again.positions, table.positions)
    np.testing.assert_array_equal(again.gain_dbi, table.gain_dbi)


def test_more_room_is_never_worse_and_more_demands_never_better(table, rows):
    broken, looked = [], 0
    for cell, row in rows.items():
        for axis, step in ((1, -1), (3, 1), (4, 1)):
            harder = list(cell)
            harder[axis] += step
            other = rows.get(tuple(harder))
            if other is None or not table.kept[other]:
                continue
            looked += 1
            if not table.kept[row] or table.gain_dbi[other] > table.gain_dbi[row] + 0.02:
                broken.append((cell, tuple(harder)))
    assert looked > 8000
    assert len(broken) <= 0.002 * looked, broken


def sampled_cells():
    generator = np.random.default_rng(17)
    cells = []
    for count in COUNTS:
        for _ in range(2):
            drawn = (generator.choice(each) for each in axis_numbers(count=count))
            cells.append((count, *(int(number) for number in drawn)))
    return cells


@pytest.mark.parametrize("cell", sampled_cells())
def test_designs_do_what_the_frontier_says(table, rows, cell):
    count, _, diameter, bandwidth, rear = cell
    row = rows[cell]
    places, halves = table.positions[row, :count], table.half_lengths[row, :count]
    beam = beam_in_wavelengths(
        lengths=2.0 * halves, spacings=np.diff(places), diameter=DIAMETERS_WL[diameter], driven=1
    )
    width = BANDWIDTHS[bandwidth]
    shares = np.linspace(-0.5, 0.5, 21) if width else np.zeros(1)
    solution = solve_beam(
        beam=beam,
        frequencies=SPEED_OF_LIGHT * (1.0 + width * shares),
        detail=working_detail(frequency=SPEED_OF_LIGHT * (1.0 + width / 2.0)),
    )
    gain = gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))
    assert gain.min() == pytest.approx(table.gain_dbi[row], abs=0.02)
    if not table.kept[row]:
        return
    azimuth = np.radians(np.arange(90.0, 181.0))
    behind = gain_dbi(solution=solution, azimuth=azimuth, elevation=0.0 * azimuth)
    assert (gain - behind).min() >= REARS_DB[rear] - 0.05
    middle = solution.impedance[len(shares) // 2]
    assert middle.real >= LEAST_RESISTANCE - 0.1
    # Behind a shunt coil that takes out the susceptance at mid-band, against 50 ohm.
    taken = max((1.0 / middle).imag, 0.0)
    seen = 1.0 / (1.0 / solution.impedance - 1j * taken / (1.0 + width * shares))
    swr = standing_wave_ratio(impedance=seen, reference=50.0)
    assert swr[len(shares) // 2] < 1.1
    assert not width or swr.max() < MOST_SWR + 0.05


@pytest.mark.parametrize(
    ("elements", "boom", "band", "diameter"),
    [
        (3, "7.3 m", "14.0 to 14.2 MHz", "22 mm"),
        (6, "2.55 m", "144.1 to 145.2 MHz", "6.3 mm"),
        (9, "5 m", "144.0 to 145.0 MHz", "8 mm"),
    ],
)
def test_between_nodes_a_design_does_what_is_read(elements, boom, band, diameter):
    made = ask_trade_off(elements=elements, boom=boom, band=band, diameter=diameter)
    table = read_trade_off(
        elements=elements, boom=made.boom, band=made.band, diameter=made.diameter
    )
    for row, read in zip(made.asked, table.asked, strict=True):
        point = row.point
        beam = beam_in_wavelengths(
            lengths=2.0 * point.half_lengths,
            spacings=np.diff(point.positions),
            diameter=made.diameter / made.wavelength,
            driven=1,
        )
        low, high = (edge * made.wavelength for edge in made.band)
        solution = solve_beam(
            beam=beam, frequencies=np.linspace(low, high, 15), detail=working_detail(frequency=high)
        )
        gain = gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))
        assert gain.min() == pytest.approx(point.gain_dbi, abs=0.02)
        # The surface between the cells is what such a design reaches.
        assert point.gain_dbi == pytest.approx(read.point.gain_dbi, abs=0.3)
        assert point.kept


@pytest.mark.parametrize("boom", ["0p4", "0p8"])
def test_measured_beams_lie_below_the_frontier(table, boom):
    check = next(c for c in read_data("wires.toml")["check"] if c["id"] == f"nbs688-{boom}")
    given = check["inputs"]
    point = frontier_at(
        table=table,
        count=2 + len(given["directors_wl"]),
        boom_wl=given["boom_wl"],
        diameter_wl=given["element_diameter_wl"],
    )
    assert check["expected"] + 2.15 <= point.gain_dbi + 0.5


def test_the_rear_is_kept_at_every_degree(table):
    # Read at every degree and at 21 frequencies by the full solver when the table was made.
    demand = np.array(REARS_DB)[table.cell[:, 4]]
    short = (demand - table.front_to_rear_db)[table.kept & (demand > 0.0)]
    assert short.max() <= 0.021


def test_reading_a_cell_gives_that_cell(table, rows):
    row = rows[(3, 5, 2, 2, 1)]
    point = frontier_at(
        table=table,
        count=3,
        boom_wl=BOOMS_WL[5],
        diameter_wl=DIAMETERS_WL[2],
        bandwidth=BANDWIDTHS[2],
        front_to_rear_db=REARS_DB[1],
    )
    assert point.gain_dbi == pytest.approx(table.gain_dbi[row], abs=1e-9)
    np.testing.assert_allclose(point.positions, table.positions[row, :3], rtol=0.0, atol=1e-12)


def test_reading_between_cells_is_between(table):
    asked = {"table": table, "count": 4, "bandwidth": 0.01, "front_to_rear_db": 10.0}
    low, between, high = (
        frontier_at(boom_wl=boom, diameter_wl=2e-3, **asked).gain_dbi for boom in (0.5, 0.57, 0.65)
    )
    assert low < between < high


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"count": 17, "boom_wl": 4.0}, "2 to 16 elements"),
        ({"count": 9, "boom_wl": 1.0}, "from 2.00"),
        ({"count": 6, "boom_wl": 0.2}, "from 0.40"),
        ({"count": 3, "boom_wl": 0.3, "bandwidth": 0.08}, "bands up to 5 %"),
    ],
)
def test_beyond_the_frontier_is_said(table, asked, words):
    with pytest.raises(WishError, match=words):
        frontier_at(table=table, **asked)

"""The example beams, from the plan file to its figures, book and drawings.

The five-element array is that of NBS Technical Note 688 (P. P. Viezbicke, 1976), Table 1: 9.2 dB
over a half-wave dipole measured, the author stating +-0.5 dB. What a telescoping three-element
beam for 20 m reaches is common practice: 7.5 to 8.5 dBi in free space.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from boomwright.session.book import book_bytes
from boomwright.session.drawings import write_drawings
from boomwright.session.files import load_plan
from boomwright.study.computing import compute
from boomwright.study.verdict import judge_plan

EXAMPLES = Path(__file__).parents[2] / "examples" / "beams"

#: half-wave dipole over isotropic [dB]
DIPOLE_DBI = 2.15


def test_every_example_beam_is_computed() -> None:
    plans = sorted(EXAMPLES.glob("*.toml"))
    assert plans
    for path in plans:
        computation = compute(load_plan(path).plan, points=3)
        for readings in computation.beams:
            assert abs(readings.power_balance) < 1e-4
            assert all(np.isfinite(point.gain_dbi) for point in readings.sweep)


def test_gain_of_the_measured_five_element_array() -> None:
    plan = load_plan(EXAMPLES / "five-elements-0.8-wavelength.toml").plan
    readings = compute(plan, points=1).beams[0]
    assert readings.free_space.gain_dbi == pytest.approx(9.2 + DIPOLE_DBI, abs=0.5)


def test_gain_of_the_telescoping_beam() -> None:
    plan = load_plan(EXAMPLES / "three-elements-20m-telescoping.toml").plan
    readings = compute(plan, points=3).beams[0]
    assert 7.5 < readings.free_space.gain_dbi < 8.5
    assert min(point.front_to_back_db for point in readings.sweep) > 15.0
    assert readings.over_ground is not None
    assert readings.over_ground.peak_gain_dbi > readings.free_space.gain_dbi + 4.0


def test_book_and_drawings_of_every_example(tmp_path: Path) -> None:
    for path in sorted(EXAMPLES.glob("*.toml")):
        loaded = load_plan(path)
        computation = compute(loaded.plan, points=3)
        book = book_bytes(
            computation,
            verdict=judge_plan(loaded.plan),
            digest=loaded.digest,
            system="us",
            paper="letter",
        )
        assert book["book"].startswith(b"%PDF")
        made = write_drawings(computation, tmp_path / path.stem, system="us")
        assert {file.suffix for file in made} >= {".csv", ".dxf"}

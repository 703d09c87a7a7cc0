"""Telescoped elements act like the elements of one diameter that they replace."""

from __future__ import annotations

import pytest

from antennas import solved_beam
from boomwright.base import BoomwrightError
from boomwright.parts import Beam
from boomwright.plan import read_plan, starter_plan
from boomwright.solver import remembering
from boomwright.study.advice.table import TaperRow, usual_table
from boomwright.study.advice.telescoping import telescoped

TAPERS = [row for row in usual_table().taper if row.longest > 5.5]
PREPARE = remembering()


@pytest.fixture(scope="module")
def beam() -> Beam:
    return read_plan(starter_plan(band="20 m", element_count=3)).beams[0]


def impedance(beam: Beam) -> complex:
    found = solved_beam(beam.alone, prepare=PREPARE)
    return complex(found.impedance[0])


@pytest.mark.parametrize("taper", TAPERS, ids=lambda taper: f"{1e3 * taper.half[0][0]:.0f} mm")
def test_the_whole_beam_keeps_its_impedance(beam: Beam, taper: TaperRow) -> None:
    made = telescoped(beam, taper, prepare=PREPARE)
    assert abs(impedance(made) - impedance(beam)) < 2.0
    # Stepped elements come out longer {common-practice-first-guess}: 1 to 6 %.
    for new, old in zip(made.elements, beam.elements, strict=True):
        assert 1.01 < new.length / old.length < 1.06
        assert len(new.half) == len(taper.half)
        assert all(tube.wall > 0.0 for tube in new.half)


def test_only_the_tip_is_cut(beam: Beam) -> None:
    made = telescoped(beam, TAPERS[0], prepare=PREPARE)
    for element in made.elements:
        kept = [(tube.diameter, tube.length, tube.wall) for tube in element.half[:-1]]
        assert kept == [*TAPERS[0].half[:-1]]


def test_tubes_too_short_are_refused(beam: Beam) -> None:
    short = next(row for row in usual_table().taper if row.longest < 3.0)
    with pytest.raises(BoomwrightError, match="cannot be made"):
        telescoped(beam, short, prepare=PREPARE)

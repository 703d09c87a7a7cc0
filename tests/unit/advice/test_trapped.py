"""Antennas with traps: each band acts as the plain array that it stands for."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.design import Targets, band_figures
from boomwright.parts import Beam
from boomwright.plan import Plan, Site, read_plan, write_plan
from boomwright.plan.model_wish import WishPlan
from boomwright.plan.resolve.further import in_further_bands
from boomwright.solver import GROUND_CLASSES, remembering
from boomwright.study.advice.antennas import Antenna, Designer
from boomwright.study.advice.table import usual_table
from boomwright.study.advice.trapped import plain_arrays

TABLE = usual_table()
GROUND = GROUND_CLASSES["medium dry"]
BANDS = ("20 m", "15 m")


@pytest.fixture(scope="module")
def designer() -> Designer:
    return Designer(table=TABLE, ground=GROUND, region=1, prepare=remembering())


def _designed(designer: Designer, name: str, bands: tuple[str, str] = BANDS) -> Antenna:
    shape = next(row for row in TABLE.shape if row.name == name)
    return designer.design(shape, bands=bands, height=0.1 if shape.wire else 12.0)


def _bands(antenna: Antenna) -> list[Beam]:
    plan = Plan(title="", site=Site(ground=GROUND), beams=antenna.beams)
    return [duty.of(plan).alone for duty in antenna.duties]


@pytest.mark.parametrize("count", [1, 2, 3])
def test_each_band_acts_as_its_plain_array(designer: Designer, count: int) -> None:
    name = ("trapped rotary dipole", "trapped two elements", "trapped three elements")[count - 1]
    shape = next(row for row in TABLE.shape if row.name == name)
    antenna = _designed(designer, name)
    arrays = plain_arrays(BANDS, elements=count, boom=shape.boom, region=1)
    for made, plain in zip(_bands(antenna), arrays, strict=True):
        assert made.band == plain.band
        seen, wanted = (band_figures(beam=each, targets=Targets()) for each in (made, plain))
        # Traps shorten it for the lower band and lose a little on both.
        assert wanted.worst[0] - 1.1 < seen.worst[0] < wanted.worst[0]
        assert seen.worst[3] < wanted.worst[3] + 0.45
    assert antenna.boom is not None
    assert antenna.boom.length > 0.5


def test_heavier_tubes_take_traps_too(designer: Designer) -> None:
    shape = next(row for row in TABLE.shape if row.name == "trapped two elements")
    sets = [designer.design(shape, bands=BANDS, height=12.0, heavier=n) for n in (0, 3)]
    thick = [each.beams[0].elements[0].half[0].diameter for each in sets]
    assert thick[1] > 1.5 * thick[0]
    for each in sets:
        for element in each.beams[0].elements:
            (trap,) = element.traps
            edges = np.cumsum([tube.length for tube in element.half])
            assert min(abs(edges - trap.place)) > 0.5 * trap.long + 0.1


def test_the_vertical_is_resonant_on_both_bands(designer: Designer) -> None:
    antenna = _designed(designer, "trapped vertical with buried radials", ("40 m", "20 m"))
    (beam,) = antenna.beams
    (wire,) = beam.elements
    (trap,) = wire.traps
    # Below the trap a quarter wave of the higher band; coil and rest stand in for the lower one.
    assert trap.place == pytest.approx(0.25 * 299.79 / 14.175, rel=0.05)
    assert 0.8 < wire.half_length / (0.25 * 299.79 / 7.1) < 0.95


def test_bands_too_near_or_too_far_apart_are_refused_by_name(designer: Designer) -> None:
    with pytest.raises(BoomwrightError, match=r"40 m and 15 m are 2\.99 apart"):
        _designed(designer, "trapped vertical with buried radials", ("40 m", "15 m"))


def test_the_plan_says_the_further_band(designer: Designer) -> None:
    antenna = _designed(designer, "trapped rotary dipole")
    name = antenna.beams[0].name
    plan = Plan(
        title="Trapped",
        site=Site(ground=GROUND),
        beams=antenna.beams,
        wish=WishPlan(beam=name, bands=antenna.further_bands),
    )
    again = read_plan(write_plan(plan))
    (further,) = in_further_bands(again, again.beams[0])
    assert further == antenna.duties[1].of(again)
    assert replace(further, band=again.beams[0].band) != again.beams[0]

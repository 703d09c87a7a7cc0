"""The shop's grid: as fine as the band asks, searched, and a limit it misses is said."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from design_beams import three_elements

from boomwright.design.improve import improve_beam
from boomwright.design.many_bands import BandUse, search_bands
from boomwright.design.minimax import judged
from boomwright.design.setting_up import Setting, built, set_up
from boomwright.design.shop_grid import on_grid, shop_grid
from boomwright.design.targets import Targets, margins
from boomwright.design.wish import Wish
from boomwright.parts import Beam

TARGETS = Targets(rear_weight=0.2, most_swr=1.5, match="matched", resistance=(15.0, np.inf))


def _scaled(beam: Beam, share: float) -> Beam:
    """The same beam for a wave so many times as long."""
    elements = tuple(
        replace(
            each,
            position=each.position * share,
            half=tuple(
                replace(
                    tube,
                    diameter=tube.diameter * share,
                    length=tube.length * share,
                    wall=None if tube.wall is None else tube.wall * share,
                )
                for tube in each.half
            ),
        )
        for each in beam.elements
    )
    low, high = beam.band
    return replace(
        beam,
        elements=elements,
        band=(low / share, high / share),
        design_frequency=beam.design_frequency / share,
        feed=replace(beam.feed, gap=beam.feed.gap * share),
    )


@pytest.fixture(scope="module")
def short_wave() -> Beam:
    """Three elements for 23 cm."""
    beam = three_elements()
    return _scaled(beam, 0.23 / beam.wavelength)


def test_the_grid_follows_the_band():
    assert shop_grid(wavelength=21.0) == 1e-3
    assert shop_grid(wavelength=2.08) == 1e-3
    assert shop_grid(wavelength=0.69) == 1e-4
    assert shop_grid(wavelength=0.23) == 1e-4


def _free(setting: Setting, beam: Beam) -> np.ndarray:
    return setting.problem.space.nearest(
        positions=np.array([each.position for each in beam.elements]),
        half_lengths=np.array([each.half_length for each in beam.elements]),
    )


def _fits(setting: Setting, beam: Beam) -> bool:
    space = setting.problem.space
    return bool(np.all(space.rows @ _free(setting, beam) >= space.least - 1e-9))


def _score(setting: Setting, beam: Beam) -> float:
    towards = setting.problem.targets.directions()
    found = margins(problem=setting.problem, towards=towards, free=_free(setting, beam))
    return judged(problem=setting.problem, found=found)[0]


def test_searched_dimensions_are_better_than_rounded_ones_and_on_the_grid(short_wave):
    wish = Wish(targets=TARGETS, places=1e-3)
    found = improve_beam(beam=short_wave, wish=wish, starts=2)
    best = np.array(found.state.best.free)
    setting = set_up(beam=short_wave, wish=wish, count=len(short_wave.elements))
    gains = []
    for places in (1e-3, 1.5e-3, 2e-3, 2.5e-3, 3e-3):
        rounded = built(setting=setting, free=best, places=places)
        searched, _ = on_grid(setting=setting, free=best, places=places)
        # Rounding alone may leave the boom or come too near to a neighbour.
        assert _fits(setting, searched)
        if _fits(setting, rounded):
            gains.append(_score(setting, searched) - _score(setting, rounded))
        for each in searched.elements:
            for length in (each.position, each.half[-1].length):
                assert length / places == pytest.approx(round(length / places), abs=1e-5)
    assert min(gains) >= 0.0
    assert max(gains) > 0.05


def test_the_usual_grid_keeps_the_limit_where_the_tape_misses_it(short_wave):
    tight = replace(TARGETS, rear_weight=0.0, least_front_to_rear_db=23.0)
    fine = improve_beam(beam=short_wave, wish=Wish(targets=tight), starts=2)
    assert fine.kept
    assert fine.after.worst[2] >= 23.0 - 0.3
    coarse = improve_beam(beam=short_wave, wish=Wish(targets=tight, places=5e-3), starts=2)
    assert not coarse.kept
    (notice,) = [n for n in coarse.notices if n.code == "design.limit-missed-by-rounding"]
    assert notice.severity == "limit"


def test_a_tight_ratio_of_23_cm_survives_the_cut(short_wave):
    tight = replace(TARGETS, rear_weight=0.0, most_swr=1.2, resistance=(20.0, np.inf))
    found = improve_beam(beam=short_wave, wish=Wish(targets=tight), starts=2)
    assert found.kept
    # The figures are those of the beam as cut, by the full solver.
    assert found.after.worst[3] <= 1.2 + 0.01
    assert found.after.impedance[len(found.after.frequencies) // 2].real >= 20.0 - 0.1


def test_several_bands_are_searched_on_the_grid_of_the_shortest(short_wave):
    low, high = short_wave.band
    uses = tuple(
        BandUse(
            band=(low * share, high * share),
            design_frequency=short_wave.design_frequency * share,
            driven=1,
        )
        for share in (0.995, 1.005)
    )
    asked = replace(
        TARGETS,
        rear_weight=0.0,
        least_front_to_rear_db=14.0,
        most_swr=2.0,
        resistance=(12.5, np.inf),
    )
    given = {"beam": short_wave, "uses": uses, "targets": asked, "closest": 0.015, "starts": 2}
    boom = short_wave.boom_length
    fine = search_bands(**given, boom_limit=boom)
    for each in fine.beams[0].elements:
        assert each.position * 1e4 == pytest.approx(round(each.position * 1e4), abs=1e-5)
    assert not [n for n in fine.notices if n.severity == "limit"]
    assert all(one.worst[3] <= 2.005 for one in fine.after)
    coarse = search_bands(**given, boom_limit=boom, places=4e-3)
    # The boom is no longer than asked for, whatever the grid.
    assert coarse.beams[0].boom_length <= boom + 1e-9
    limits = [n.code for n in coarse.notices if n.severity == "limit"]
    assert limits == ["design.limit-missed-by-rounding"]

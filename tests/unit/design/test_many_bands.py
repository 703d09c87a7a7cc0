"""Two bands on one boom, and traps."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.base import SPEED_OF_LIGHT, SolverError
from boomwright.design.figures_of import band_figures
from boomwright.design.improve import improve_beam
from boomwright.design.many_bands import BandUse, search_bands
from boomwright.design.space import WishError
from boomwright.design.targets import Targets
from boomwright.design.wish import Wish
from boomwright.parts import Element, Trap, TubeSection
from boomwright.plan import Plan, Site, read_plan, write_plan
from boomwright.solver import (
    FREE_SPACE,
    GapPlace,
    WirePath,
    assemble,
    solve_beam,
    solve_currents,
    wire_network,
    working_detail,
)
from boomwright.solver.element_response import element_family
from boomwright.solver.lumped import Lumped
from boomwright.solver.wire_network import PathLoad

TWENTY = BandUse(band=(14.1e6, 14.25e6), design_frequency=14.175e6, driven=1)
FIFTEEN = BandUse(band=(21.1e6, 21.3e6), design_frequency=21.2e6, driven=2)
TARGETS = Targets(most_swr=2.0, match="matched", resistance=(12.5, np.inf))


def interlaced():
    """Two elements for 20 m and two for 15 m."""
    return beam(
        lengths=[10.7, 10.2, 6.9, 6.5],
        places=[0.0, 2.6, 3.9, 5.6],
        diameter=0.022,
        driven=1,
        frequency=14.175e6,
        gap=0.02,
        material="6061-T6",
    )


@pytest.fixture(scope="module")
def found():
    return search_bands(
        beam=interlaced(),
        uses=(TWENTY, FIFTEEN),
        targets=TARGETS,
        boom_limit=6.0,
        closest=1.0,
        starts=2,
    )


def test_the_worst_band_becomes_better(found):
    before = min(one.worst[0] for one in found.before)
    after = min(one.worst[0] for one in found.after)
    assert after > before + 0.2
    assert after == pytest.approx(found.state.best.gain_dbi, abs=0.03)


def test_it_is_one_array(found):
    one, two = found.beams
    assert [e.position for e in one.elements] == [e.position for e in two.elements]
    assert [e.half for e in one.elements] == [e.half for e in two.elements]
    assert (one.driven_index, two.driven_index) == (1, 2)
    assert one.boom_length <= 6.0 + 1e-9
    assert np.diff([e.position for e in one.elements]).min() >= 1.0 - 2e-3


def test_swr_is_kept_in_both(found):
    for one in found.after:
        assert one.worst[3] <= 2.02


def test_a_trap_acts_as_in_the_full_network():
    half, radius, place, width = 0.21, 1e-3, 0.12, 4e-3
    frequency = np.array([SPEED_OF_LIGHT])
    trap = Trap(place=place, width=width, inductance=2e-7, capacitance=1e-12, quality=150.0)
    lumped = Lumped.of_trap(trap)
    load = lumped.impedance(frequencies=frequency)
    detail = working_detail(frequency=SPEED_OF_LIGHT)
    family = element_family(
        inner=(),
        tip_radius=radius,
        half_lengths=(0.19, 0.23),
        gap=2 * radius,
        frequencies=frequency,
        detail=detail,
        loads=(PathLoad(along=place, width=width, lumped=lumped),),
    )
    basis = np.polynomial.chebyshev.chebvander(2.0 * (half - 0.19) / 0.04 - 1.0, 10).ravel()
    condensed = np.einsum("t,tab->ab", basis, family.series[0])
    found = 0.5 / np.linalg.inv(condensed)[-1, -1]
    path = WirePath(
        name="element",
        points=np.array([[0.0, -half, 0.0], [0.0, half, 0.0]]),
        radii=np.array([radius]),
        conductivity=np.inf,
    )
    gaps = (
        GapPlace(path=0, along=half, width=2 * radius),
        GapPlace(path=0, along=half - place, width=width),
        GapPlace(path=0, along=half + place, width=width),
    )
    system = wire_network(paths=(path,), gaps=gaps, perfect_ground=False)
    currents = solve_currents(
        assembly=assemble(system=system, detail=detail, highest_frequency=SPEED_OF_LIGHT),
        frequencies=frequency,
    )
    loaded = np.linalg.inv(currents.admittance[0]) + np.diag([0.0, load[0], load[0]])
    expected = 1.0 / np.linalg.inv(loaded)[0, 0]
    assert found == pytest.approx(expected, rel=1e-3)
    # The beam's own model puts the same load into the same gap, and loses in it what the network
    # loses.
    element = Element(
        role="driven",
        position=0.0,
        half=(TubeSection(diameter=2 * radius, length=half),),
        traps=(trap,),
    )
    plain = beam(lengths=[2 * half], places=[0.0], diameter=2 * radius, driven=0,
                 frequency=SPEED_OF_LIGHT, gap=2 * radius)  # fmt: skip
    solved = solve_beam(
        beam=replace(plain, elements=(element,)), frequencies=frequency, detail=detail
    )
    assert solved.impedance[0] == pytest.approx(expected, rel=1e-3)
    volts = np.linalg.solve(loaded, np.array([expected, 0.0, 0.0]))
    lost = 0.5 * np.abs(volts[1:]) ** 2 @ np.full(2, load[0].real)
    assert solved.lost[0] == pytest.approx(lost, rel=1e-3)


@pytest.fixture(scope="module")
def trapped():
    """Below its resonance a trap is a coil: 7.7 m with it act like a director."""
    trap = Trap(
        place=3.2, width=0.1, inductance=3e-6,
        capacitance=1.0 / (3e-6 * (2 * np.pi * 21.2e6) ** 2), quality=200.0,
    )  # fmt: skip
    assert abs(Lumped.of_trap(trap).impedance(frequencies=np.array([21.2e6]))[0]) > 5e4
    start = beam(
        lengths=[10.0, 7.7],
        places=[0.0, 3.0],
        diameter=0.025,
        driven=0,
        frequency=14.175e6,
        gap=0.02,
        material="6061-T6",
    )
    driven, director = start.elements
    return search_bands(
        beam=replace(start, elements=(driven, replace(director, traps=(trap,)))),
        uses=(BandUse(band=(14.1e6, 14.25e6), design_frequency=14.175e6, driven=0),),
        targets=Targets(resistance=(5.0, np.inf)),
        boom_limit=3.2,
        closest=2.0,
        starts=2,
    )


def test_traps_are_checked_by_the_full_solver(trapped):
    before, after = trapped.before[0].worst, trapped.after[0].worst
    assert after[0] > max(5.0, before[0])
    (difference,) = trapped.differences_db
    assert after[0] - trapped.state.best.gain_dbi == pytest.approx(difference, abs=0.02)
    assert abs(difference) < 0.05
    assert trapped.notices == ()


def test_a_saved_plan_with_traps_computes_the_same(trapped):
    (found,) = trapped.beams
    plan = Plan(title="Two with a trap", site=Site(ground=FREE_SPACE), beams=(found,))
    text = write_plan(plan)
    assert text.count("traps = [") == 1
    again = band_figures(beam=read_plan(text).beams[0], targets=Targets())
    np.testing.assert_allclose(again.impedance, trapped.after[0].impedance, rtol=1e-9, atol=0.0)
    np.testing.assert_allclose(again.gain_dbi, trapped.after[0].gain_dbi, rtol=0.0, atol=1e-9)


def test_an_interlaced_array_is_checked_and_saved(found):
    assert all(abs(one) < 0.05 for one in found.differences_db)
    beams = tuple(replace(one, name=f"{one.design_frequency / 1e6:.0f} MHz") for one in found.beams)
    plan = Plan(title="Two bands", site=Site(ground=FREE_SPACE), beams=beams)
    for read, checked in zip(read_plan(write_plan(plan)).beams, found.after, strict=True):
        again = band_figures(beam=read, targets=TARGETS)
        np.testing.assert_allclose(again.swr, checked.swr, rtol=1e-9, atol=0.0)


def test_traps_are_refused_where_no_model_has_them(trapped):
    (found,) = trapped.beams
    with pytest.raises(WishError, match="has traps, which serve several bands"):
        improve_beam(beam=found, wish=Wish(), starts=2)
    (trap,) = found.elements[1].traps
    wide = replace(found.elements[1], traps=(replace(trap, place=found.elements[1].half_length),))
    with pytest.raises(SolverError, match=r"element 2: the trap from .* beyond the tip"):
        band_figures(beam=replace(found, elements=(found.elements[0], wide)), targets=Targets())


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"uses": ()}, "name elements"),
        ({"uses": (BandUse(band=(14e6, 14.2e6), design_frequency=14.1e6, driven=9),)}, "0 to 3"),
    ],
)
def test_bands_that_do_not_fit_are_refused(changes, words):
    given = {"uses": (TWENTY,), **changes}
    with pytest.raises(WishError, match=words):
        search_bands(
            beam=interlaced(), targets=TARGETS, boom_limit=6.0, closest=1.0, starts=1, **given
        )


def test_a_trap_on_the_part_that_moves_is_refused():
    array = interlaced()
    trap = Trap(place=5.2, width=0.1, inductance=3e-6, capacitance=2e-11, quality=200.0)
    loaded = (replace(array.elements[0], traps=(trap,)), *array.elements[1:])
    with pytest.raises(WishError, match="is to be changed"):
        search_bands(
            beam=replace(array, elements=loaded), uses=(TWENTY,), targets=TARGETS,
            boom_limit=6.0, closest=1.0, starts=1,
        )  # fmt: skip

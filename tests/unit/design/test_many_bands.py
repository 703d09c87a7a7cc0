"""Two bands on one boom, and traps."""

from __future__ import annotations

import numpy as np
import pytest

from antennas import beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.many_bands import BandUse, Trap, parallel_trap, search_bands
from boomwright.design.space import WishError
from boomwright.design.targets import Targets
from boomwright.solver import (
    GapPlace,
    WirePath,
    assemble,
    solve_currents,
    wire_network,
    working_detail,
)
from boomwright.solver.element_response import SeriesLoad, element_family

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
    load = parallel_trap(inductance=2e-7, capacitance=1e-12, q=150.0)(frequency)
    detail = working_detail(frequency=SPEED_OF_LIGHT)
    family = element_family(
        inner=(),
        tip_radius=radius,
        half_lengths=(0.19, 0.23),
        gap=2 * radius,
        frequencies=frequency,
        detail=detail,
        loads=(SeriesLoad(place=place, width=width, impedance=load),),
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


def test_a_trap_loads_a_short_element():
    # Below its resonance a trap is a coil: 7.7 m with it act like a director.
    trap = parallel_trap(
        inductance=3e-6, capacitance=1.0 / (3e-6 * (2 * np.pi * 21.2e6) ** 2), q=200
    )
    assert abs(trap(np.array([21.2e6]))[0]) > 5e4
    array = search_bands(
        beam=beam(
            lengths=[10.0, 7.7],
            places=[0.0, 3.0],
            diameter=0.025,
            driven=0,
            frequency=14.175e6,
            gap=0.02,
        ),
        uses=(BandUse(band=(14.1e6, 14.25e6), design_frequency=14.175e6, driven=0),),
        targets=Targets(resistance=(5.0, np.inf)),
        boom_limit=3.2,
        closest=2.0,
        traps=(Trap(element=1, place=3.2, width=0.1, impedance=trap),),
        starts=2,
    )
    assert array.after == ()
    assert array.state.best.gain_dbi > 5.0


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"uses": ()}, "name elements"),
        ({"uses": (BandUse(band=(14e6, 14.2e6), design_frequency=14.1e6, driven=9),)}, "0 to 3"),
        (
            {"traps": (Trap(element=0, place=5.3, width=0.1, impedance=abs),)},
            "is to be changed",
        ),
    ],
)
def test_bands_that_do_not_fit_are_refused(changes, words):
    given = {"uses": (TWENTY,), "traps": (), **changes}
    with pytest.raises(WishError, match=words):
        search_bands(
            beam=interlaced(), targets=TARGETS, boom_limit=6.0, closest=1.0, starts=1, **given
        )

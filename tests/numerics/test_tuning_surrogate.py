"""The quick stand-in of the antenna against full solutions; braids against the feed room's."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.feed import Braid, FieldSetting, solve_braid
from boomwright.solver import FREE_SPACE, GROUND_CLASSES
from boomwright.tuning import Installation, antenna_surrogate
from boomwright.tuning.braid_family import braid_family
from boomwright.tuning.causes import usual_causes
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights
from tuned_antennas import BAND, FREQUENCIES, gamma_dipole, station

GROUND = GROUND_CLASSES["medium dry"]


@pytest.mark.parametrize(
    "installation",
    [station(), gamma_dipole(), replace(gamma_dipole(), ground=GROUND)],
    ids=["hairpin", "gamma", "gamma over ground"],
)
def test_surrogate_follows_full_solutions(installation):
    """Off by at most 0.5 % with all parts one spread off, 1 % with two: below what is left out."""
    low, high = installation.beam.band
    found = antenna_surrogate(
        installation=installation, lowest_frequency=low, highest_frequency=high
    )
    planned = found.solved(np.zeros(len(found.keys)))
    np.testing.assert_allclose(found.at_nodes(np.zeros((1, len(found.keys))))[0], planned, 2e-3)
    assert found.error < 5e-3
    signs = np.array([(-1.0) ** number for number in range(len(found.keys))])
    for size, within in ((1.0, 5e-3), (2.0, 1e-2)):
        amounts = size * signs * found.spreads
        exact = found.solved(amounts)
        assert np.max(np.abs(exact - planned)) > 3.0 * within * np.max(np.abs(planned))
        off = np.abs(found.at_nodes(amounts[None])[0] - exact) / np.abs(exact)
        assert off.max() < within
    # Held against a full solution, it agrees there.
    tied = found.at_nodes(amounts[None])[0] + found.tie(amounts)
    np.testing.assert_allclose(tied, exact, rtol=1e-9)


def test_what_deviates_in_the_field_are_the_first_causes():
    installation = replace(gamma_dipole(), ground=GROUND)
    keys = [cause.key for cause in usual_causes(installation=installation)]
    assert keys[:4] == ["tip.0", "strap", "height", "ground"]


@pytest.mark.parametrize("ground", [FREE_SPACE, GROUND], ids=lambda ground: ground.kind)
def test_braid_is_what_the_feed_room_makes_of_it(ground):
    """A quarter wave of braid resonates; between the solved lengths it is met all the same."""
    beam = station(height=9.0).beam
    beam = replace(beam, elements=beam.elements[1:2])
    beam = replace(beam, elements=(replace(beam.elements[0], position=0.0),))
    nodes = chebyshev_nodes(np.array(BAND), 5)
    family = braid_family(beam=beam, ground=ground, frequencies=nodes)
    at = FREQUENCIES[[0, 15, 30]]
    for length in (2.5, 4.2, 5.3, 6.8):
        weights = lagrange_weights(nodes=nodes, at=at)
        found = family.added(np.array([length]), weights)[0]
        made = Braid(drop=0.5 * length, down=0.5 * length, mast_at=0.0, diameter=0.01)
        for number, frequency in enumerate(at):
            solved = solve_braid(
                beam=beam, braid=made, frequency=float(frequency),
                setting=FieldSetting(ground=ground),
            )  # fmt: skip
            exact = solved.admittance[0, 0] - 1.0 / solved.plain_impedance
            # As a reflection at 50 ohm across the antenna's own impedance.
            plain = solved.plain_impedance
            seen = [1.0 / (1.0 / plain + each) for each in (found[number], exact)]
            one, other = ((z - 50.0) / (z + 50.0) for z in seen)
            assert abs(one - other) < 0.03, (length, frequency)


def test_the_plan_of_a_split_element_is_the_beam_itself():
    installation = Installation(beam=station().beam)
    found = antenna_surrogate(
        installation=installation, lowest_frequency=BAND[0], highest_frequency=BAND[1]
    )
    solved = found.bench.solution(installation, found.nodes).impedance
    np.testing.assert_allclose(found.at_nodes(np.zeros((1, 3)))[0], solved, rtol=1e-3)

"""Properties of any wire the generator can think of."""

from __future__ import annotations

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from antennas import fed, impedance, solve, stepped_rod, wire
from boomwright.base import SPEED_OF_LIGHT, SolverError
from boomwright.parts import MATERIALS
from boomwright.solver import Ground, conductor_loss, standing_wave_ratio
from boomwright.solver.fresnel import fresnel_coefficients

FREQUENCY = SPEED_OF_LIGHT
LENGTHS = st.floats(0.05, 0.3)
RADII = st.floats(1e-5, 2e-3)


@st.composite
def stepped(draw):
    count = draw(st.integers(1, 4))
    radius = draw(RADII)
    sections = []
    for _ in range(count):
        sections.append((draw(LENGTHS), radius))
        radius *= draw(st.floats(0.5, 0.95))
    return sections


@settings(max_examples=25, deadline=None)
@given(stepped())
def test_a_passive_antenna_takes_power(sections):
    gap = 2.0 * sections[0][1]
    assert impedance(stepped_rod(sections=sections, gap=gap), frequency=FREQUENCY).real > 0.0


@settings(max_examples=15, deadline=None)
@given(stepped(), st.floats(0.2, 5.0))
def test_impedance_depends_on_lengths_over_wavelength_only(sections, scale):
    gap = 2.0 * sections[0][1]
    one = impedance(stepped_rod(sections=sections, gap=gap), frequency=FREQUENCY)
    larger = [(scale * length, scale * radius) for length, radius in sections]
    system = stepped_rod(sections=larger, gap=scale * gap)
    other = impedance(system, frequency=FREQUENCY / scale)
    assert abs(one - other) < 1e-7 * abs(one)


@settings(max_examples=15, deadline=None)
@given(LENGTHS, RADII, st.sampled_from(sorted(MATERIALS)))
def test_metal_never_gives_power(half, radius, name):
    assume(half > 20.0 * radius)
    rod = wire(
        [[0.0, -half, 0.0], [0.0, half, 0.0]], radius, conductivity=MATERIALS[name].conductivity
    )
    currents = solve(fed(rod, along=half, width=2.0 * radius), frequency=FREQUENCY)
    lost = conductor_loss(currents=currents, weights=np.ones((1, 1), dtype=complex))[0]
    accepted = 0.5 * currents.admittance[0, 0, 0].real
    assert 0.0 <= lost < accepted


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(*[st.floats(-0.5, 0.5)] * 3), min_size=2, max_size=5), st.floats(1e-4, 0.02)
)
def test_any_wire_is_solved_or_refused_in_words(points, radius):
    places = np.array(points)
    lengths = np.linalg.norm(np.diff(places, axis=0), axis=1)
    # Points that coincide have a test of their own among the refusals.
    assume((lengths > 1e-5).all())
    width = min(radius, lengths[0] / 4)
    refusal = None
    try:
        system = fed(wire(points, radius), along=0.5 * lengths[0], width=width)
    except SolverError as fault:
        refusal = str(fault)
    if refusal is not None:
        assert "wire" in refusal
        assert " m" in refusal
        return
    assert np.isfinite(solve(system, frequency=FREQUENCY / 4.0).admittance).all()


@given(
    st.floats(1.001, 90.0),
    st.floats(0.0, 10.0),
    st.floats(1e6, 60e6),
    st.floats(0.0, np.pi / 2.0),
)
def test_passive_ground_reflects_no_more_than_falls_on_it(permittivity, sigma, frequency, grazing):
    ground = Ground(kind="real", permittivity=permittivity, conductivity=sigma)
    found = fresnel_coefficients(
        elevation=np.array([grazing]),
        permittivity=ground.complex_permittivity(frequency=frequency),
    )
    assert max(abs(each[0]) for each in found) <= 1.0 + 1e-9


@given(st.floats(0.1, 5000.0), st.floats(-5000.0, 5000.0), st.floats(10.0, 600.0))
def test_standing_wave_ratio_is_at_least_one(resistance, reactance, reference):
    load = np.array([complex(resistance, reactance)])
    ratio = standing_wave_ratio(impedance=load, reference=reference)[0]
    conjugate = standing_wave_ratio(impedance=load.conj(), reference=reference)[0]
    assert 1.0 <= ratio <= 999.5
    assert ratio == conjugate

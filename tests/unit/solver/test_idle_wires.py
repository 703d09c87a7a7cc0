"""How much an idle wire re-radiates, by its length: the table of the estimate and the solver."""

from dataclasses import replace

import numpy as np
import pytest

from antennas import solved_beam
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.solver import neighbours

FREQUENCY = 29.9792458e6
APART = 30.0


def wire(name, length, *, height, radius):
    half = (TubeSection(diameter=2.0 * radius, length=length / 2.0),)
    return Beam(
        name=name,
        band=(FREQUENCY, FREQUENCY),
        design_frequency=FREQUENCY,
        height=height,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=0.004),
        elements=(Element(role="driven", position=0.0, half=half),),
        idle_feed="shorted",
    )


def reradiated(length, radius):
    """Moment of an idle wire three wavelengths from a dipole, over the dipole's own."""
    sender = wire("sender", 4.8, height=0.0, radius=0.005)
    idle = wire("idle", length, height=APART, radius=radius)
    solution = solved_beam(replace(sender, neighbours=(idle,)), FREQUENCY)
    there = solution.source.points[:, 2] > APART / 2.0
    moments = solution.source.vectors[0, :, 1]
    return abs(moments[there].sum() / moments[~there].sum())


def test_the_table_of_re_radiation_is_that_of_the_solver(monkeypatch):
    # All of them, also those that are left out as too weak to matter.
    monkeypatch.setattr(neighbours, "LEAST_SHARE", 0.0)
    lengths = [10.0 * each for each in neighbours._LENGTHS]
    found = [reradiated(length, 0.005) for length in lengths]
    strongest = max(reradiated(length, 0.005) for length in (4.6, 4.7, 4.75, 4.8, 4.85))
    levels = 20.0 * np.log10(np.array(found) / strongest)
    np.testing.assert_allclose(levels, neighbours._LEVELS, rtol=0.0, atol=0.2)


def test_a_resonant_wire_answers_as_the_far_field_says(monkeypatch):
    monkeypatch.setattr(neighbours, "LEAST_SHARE", 0.0)
    strongest = max(reradiated(length, 0.005) for length in (4.7, 4.75, 4.8))
    told = neighbours._SEEN_AT_WAVELENGTH * 10.0 / APART
    assert strongest == pytest.approx(told, rel=0.08)

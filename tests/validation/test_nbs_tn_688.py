"""Measured gains of optimised beams against National Bureau of Standards Technical Note 688.

P. P. Viezbicke, "Yagi Antenna Design", NBS Technical Note 688, National Bureau of Standards,
December 1976, doi 10.6028/NBS.TN.688: Table 1 (p. 7) for 0.4, 0.8 and 2.2 wavelengths of boom,
Fig. 9 and Example 1 (pp. 9, 17) for the change of length with diameter; Fig. 10 and both worked
examples (pp. 10, 17 to 21) for elements through a metal boom. Gains are printed over
a half-wave dipole, which has 2.15 dBi. The author states +-0.5 dB of measurement error, so that
is the tolerance; a lossless thin tube in free space is compared with a real antenna.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam_in_wavelengths, read_data, solved_beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import Element, Mount, TubeSection
from boomwright.solver import acts_longer, gain_dbi, mount_effect

CHECKS = {check["id"]: check for check in read_data("wires.toml")["check"]}
DIPOLE_DBI = 2.15
#: the length of the driven element is not printed; between 0.45 and 0.47 it does not matter
DRIVEN = 0.46


def gain(*, reflector, directors, diameter, driven=DRIVEN, spacing=0.2, boom=0.0):
    beam = beam_in_wavelengths(
        lengths=[reflector, driven, *directors],
        spacings=[0.2] + [spacing] * len(directors),
        diameter=diameter,
        driven=1,
    )
    if boom:
        mount = Mount(kind="bonded through", boom=(boom,))
        elements = (
            each if each.role == "driven" else replace(each, mount=mount) for each in beam.elements
        )
        beam = replace(beam, elements=tuple(elements))
    solution = solved_beam(beam, SPEED_OF_LIGHT)
    return float(gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))[0, 0])


@pytest.mark.parametrize("boom", ["0p4", "0p8", "2p2"])
def test_gain_of_table_1(boom):
    check = CHECKS[f"nbs688-{boom}"]
    given = check["inputs"]
    found = gain(
        reflector=given["reflector_wl"],
        directors=given["directors_wl"],
        diameter=given["element_diameter_wl"],
    )
    assert found == pytest.approx(check["expected"] + DIPOLE_DBI, abs=0.5)


def test_length_of_the_driven_element_hardly_matters():
    # The note in the data says 0.01 dB; a thick reflector nearby takes part, hence twice that.
    given = CHECKS["nbs688-0p8"]["inputs"]
    gains = [
        gain(
            reflector=given["reflector_wl"],
            directors=given["directors_wl"],
            diameter=given["element_diameter_wl"],
            driven=driven,
        )
        for driven in (0.45, 0.47)
    ]
    assert gains[0] == pytest.approx(gains[1], abs=0.02)


def test_lengths_compensated_for_diameter_keep_the_gain():
    given = CHECKS["nbs688-0p8"]["inputs"]
    changed = CHECKS["nbs688-diameter"]
    thick = gain(
        reflector=given["reflector_wl"],
        directors=given["directors_wl"],
        diameter=changed["inputs"]["d_over_wl_from"],
    )
    longer = changed["expected"]
    thin = gain(
        reflector=longer["reflector_0p482"],
        directors=[longer[f"director_0p{length * 1000:.0f}"] for length in given["directors_wl"]],
        diameter=changed["inputs"]["d_over_wl_to"],
    )
    uncompensated = gain(
        reflector=given["reflector_wl"],
        directors=given["directors_wl"],
        diameter=changed["inputs"]["d_over_wl_to"],
    )
    assert thin == pytest.approx(thick, abs=0.1)
    assert abs(uncompensated - thick) > 2.0 * abs(thin - thick)


#: wavelengths: diameter of the boom, of the elements in the worked example, and what it adds
BOOMS = [(0.0085, 0.00425, 0.005), (0.035, 0.0132, 0.026)]


@pytest.mark.parametrize(("boom", "diameter", "added"), BOOMS)
def test_length_to_add_for_a_metal_boom_lies_within_the_band(boom, diameter, added):
    # The note has up to 1.7 times what a full solution in three dimensions finds
    # (test_surface_moments_mounts.py), the trade 0.6 times: the band holds them all.
    half = (TubeSection(diameter=diameter, length=0.22),)
    mount = Mount(kind="bonded through", boom=(boom,))
    element = Element(role="director", position=0.0, half=half, mount=mount)
    effect = mount_effect(element=element, wavelength=1.0)
    found = -acts_longer(inductance=effect.inductance, element=element)
    width = acts_longer(inductance=effect.half_width, element=element)
    assert found == pytest.approx(added, abs=width)
    assert 0.5 * added < found < added
    assert not effect.unchecked


def test_lengths_for_a_metal_boom_need_the_boom():
    # Example 2: 15 elements cut 0.026 longer for a boom of 0.035. Without the boom the directors
    # are too long to direct anything; the gain of its table is 14.2 dB over a dipole (from memory).
    given = CHECKS["nbs688-example2"]["inputs"]
    lengths = CHECKS["nbs688-example2"]["expected"]
    wavelength = given["wavelength_cm"]
    beam = {
        "reflector": lengths["reflector_wl"],
        "directors": lengths["directors_wl"],
        "diameter": given["element_diameter_cm"] / wavelength,
        "spacing": given["spacing_wl"],
    }
    assert gain(**beam) < 2.0
    assert gain(**beam, boom=given["boom_diameter_cm"] / wavelength) == pytest.approx(
        14.2 + DIPOLE_DBI, abs=1.0
    )

"""Faults named from their sweeps, and antennas that are none of these."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.feed import ShuntInductor
from boomwright.solver import PERFECT_GROUND, reference_detail, remembering
from boomwright.tuning import (
    MetalFault,
    Sweep,
    after_changes,
    at_line,
    at_meter,
    compute_fault_antennas,
    faulty_impedance,
    faulty_wires,
    find_fault,
    list_suspects,
    swapped,
)
from tuned_antennas import BAND, FREQUENCIES, station
from written import metric

INSTALLATION = station()
ERRORS = {"tip.0": 0.003, "tip.1": -0.004, "tip.2": 0.002, "line.length": 0.05}


@pytest.fixture(scope="module")
def antennas():
    return compute_fault_antennas(
        installation=INSTALLATION, lowest_frequency=BAND[0], highest_frequency=BAND[1]
    )


def sweep_of(*, fault=None, beam=None, stages=None, leak=0.0, impedance=None):
    real = after_changes(installation=INSTALLATION, changes=ERRORS)
    beam = beam(real.beam) if beam else real.beam
    real = replace(real, beam=beam, stages=real.stages if stages is None else stages)
    if impedance is None:
        antenna = faulty_impedance(
            beam=real.beam, fault=fault or MetalFault(), ground=real.ground,
            frequencies=FREQUENCIES, detail=reference_detail(frequency=BAND[1]),
            prepare=remembering(),
        )  # fmt: skip
        impedance = at_line(installation=real, impedance=antenna, frequencies=FREQUENCIES)
    start = 1.0 / (1.0 / impedance + leak)
    clean = at_meter(installation=real, impedance=start, frequencies=FREQUENCIES)
    noise = 0.01 * np.random.default_rng(8).normal(size=(2, len(FREQUENCIES)))
    return Sweep(frequencies=FREQUENCIES, reflection=clean + noise[0] + 1j * noise[1])


FAULTS = {
    "no fault": {},
    "loose element": {"fault": MetalFault(open_middle=0)},
    "wrong element order": {"beam": lambda beam: swapped(beam, 0, 2)},
    "braid common mode": {"fault": MetalFault(braid_length=5.3)},
    "wet balun": {"leak": 1.0 / 150.0 + 1j / 200.0},
    "shorted match": {"stages": (ShuntInductor(inductance=4.0 / (2 * np.pi * 14.175e6)),)},
}


@pytest.mark.parametrize("kind", FAULTS)
def test_fault_is_named(antennas, kind):
    report = find_fault(
        installation=INSTALLATION, antennas=antennas, sweep=sweep_of(**FAULTS[kind])
    )
    assert report.verdict == kind
    assert report.kinds[0][0] == kind
    np.testing.assert_allclose(sum(share for _, share in report.kinds), 1.0, rtol=1e-9)
    assert report.notices[0].code == "tuning.fault"


@pytest.mark.parametrize(
    "impedance",
    [
        np.full(len(FREQUENCIES), 200.0 + 0.0j),
        45.0 * (1.0 + 60j * (FREQUENCIES / 14.1e6 - 14.1e6 / FREQUENCIES)),
        73.0 + 42.5j + 4e-4j * (FREQUENCIES - 14.175e6),
    ],
    ids=["load", "sharp resonance", "dipole"],
)
def test_other_antennas_are_not_one_of_these(antennas, impedance):
    report = find_fault(
        installation=INSTALLATION, antennas=antennas, sweep=sweep_of(impedance=impedance)
    )
    assert report.verdict == "not one of these"
    assert report.notices[0].code == "tuning.unknown-fault"


def test_suspects_cover_every_kind(antennas):
    suspects = list_suspects(installation=INSTALLATION, antennas=antennas, frequencies=FREQUENCIES)
    assert {suspect.kind for suspect in suspects} == set(FAULTS)
    texts = [metric(suspect.text) for suspect in suspects]
    assert "reflector and director are in each other's place" in texts
    assert any("halves do not touch" in text for text in texts)


def test_braid_must_stay_off_the_ground():
    with pytest.raises(BoomwrightError, match="reaches the ground"):
        faulty_wires(
            beam=INSTALLATION.beam, fault=MetalFault(braid_length=20.0), ground=PERFECT_GROUND
        )

"""Faults named from their sweeps, and antennas that are none of these."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.feed import Braid, FieldSetting, ShuntInductor, solve_braid
from boomwright.tuning import (
    Bench,
    Reading,
    Sweep,
    after_changes,
    antenna_surrogate,
    at_line,
    at_meter,
    find_fault,
    list_suspects,
)
from boomwright.tuning.causes import usual_causes
from boomwright.tuning.readings import METERS
from tuned_antennas import BAND, FREQUENCIES, station
from written import metric

STATION = station()
ERRORS = {"tip.0": 0.003, "tip.1": -0.004, "tip.2": 0.002, "line.length": 0.05}


@pytest.fixture(scope="module")
def suspects():
    low, high = BAND
    surrogate = antenna_surrogate(
        installation=STATION, lowest_frequency=low, highest_frequency=high
    )
    return list_suspects(surrogate, usual_causes(installation=STATION))


def swapped(beam):
    one, driven, other = beam.elements
    return replace(
        beam,
        elements=(
            replace(one, position=other.position),
            driven,
            replace(other, position=one.position),
        ),
    )


def broken(beam):
    """The reflector with its middle joint open: two rods that no current crosses."""
    first = beam.elements[0]
    left = (replace(first.half[0], length=0.45 * first.half_length),)
    return replace(beam, elements=(replace(first, half=left), *beam.elements[1:]))


def reading_of(*, beam=None, leak=0.0, braid=0.0, short=0.0, impedance=None, line=None):
    changes = ERRORS | (line or {})
    real = after_changes(installation=STATION, changes=changes)
    real = replace(real, beam=beam(real.beam) if beam else real.beam)
    if short:
        inductance = short / (2.0 * np.pi * 14.175e6)
        real = replace(real, stages=(ShuntInductor(inductance=inductance),))
    if impedance is None:
        port = Bench(real).impedance(real, FREQUENCIES)
        if braid:
            port = 1.0 / (1.0 / port + across(real.beam, braid))
        impedance = at_line(installation=real, impedance=port, frequencies=FREQUENCIES)
    start = 1.0 / (1.0 / impedance + leak)
    clean = at_meter(installation=real, impedance=start, frequencies=FREQUENCIES)
    noise = 0.003 * np.random.default_rng(8).normal(size=(2, len(FREQUENCIES)))
    return Reading(
        sweep=Sweep(frequencies=FREQUENCIES, reflection=clean + noise[0] + 1j * noise[1])
    )


def across(beam, length):
    """What a braid without a choke adds, by the feed room's own model, over the band."""
    mast = beam.elements[beam.driven_index].position
    made = Braid(drop=0.5 * length, down=0.5 * length, mast_at=mast, diameter=0.01)
    at = np.linspace(*BAND, 3)
    added = []
    for frequency in at:
        found = solve_braid(
            beam=beam, braid=made, frequency=float(frequency), setting=FieldSetting()
        )
        added.append(found.admittance[0, 0] - 1.0 / found.plain_impedance)
    return np.polyval(np.polyfit(at / 1e6, added, 2), FREQUENCIES / 1e6)


FAULTS = {
    "no fault": {},
    "open or loose element": {"beam": broken},
    "wrong element order": {"beam": swapped},
    "braid common mode": {"braid": 5.3},
    "wet balun": {"leak": 1.0 / 150.0 + 1j / 200.0},
    "shorted match": {"short": 4.0},
    "water in the line": {"line": {"line.loss": 3.0, "line.length": 0.8}},
    "wrong velocity factor": {"line": {"line.length": 18.0 * (0.66 / 0.85 - 1.0)}},
}


@pytest.mark.parametrize("kind", FAULTS)
def test_fault_is_named(suspects, kind):
    report = named(suspects, reading_of(**FAULTS[kind]))
    assert report.verdict == kind
    assert report.kinds[0][0] == kind
    np.testing.assert_allclose(sum(share for _, share in report.kinds), 1.0, rtol=1e-9)
    assert report.notices[0].code == "tuning.fault"
    assert report.named[0].look in metric(report.notices[0].text) or kind == "no fault"


def named(suspects, reading):
    return find_fault(suspects=suspects, reading=reading, meter=METERS["hand-held"])


def test_a_plainly_mis_cut_element_is_no_wrong_order(suspects):
    long = {"line": {"tip.2": 0.014}}
    assert named(suspects, reading_of(**long)).verdict == "no fault"


@pytest.mark.parametrize(
    "impedance",
    [
        np.full(len(FREQUENCIES), 200.0 + 0.0j),
        45.0 * (1.0 + 60j * (FREQUENCIES / 14.1e6 - 14.1e6 / FREQUENCIES)),
        73.0 + 42.5j + 4e-4j * (FREQUENCIES - 14.175e6),
    ],
    ids=["load", "sharp resonance", "dipole"],
)
def test_other_antennas_are_not_one_of_these(suspects, impedance):
    report = named(suspects, reading_of(impedance=impedance))
    assert report.verdict == "not one of these"
    assert report.notices[0].code == "tuning.unknown-fault"


def test_suspects_cover_every_kind(suspects):
    assert {suspect.kind for suspect in suspects} == {*FAULTS, "slipped strap"}
    texts = [metric(suspect.text) for suspect in suspects]
    assert "reflector and director are in each other's place" in texts
    assert any("halves do not touch" in text for text in texts)

"""Reach and fields where people are, in every band that an antenna serves."""

from __future__ import annotations

import math

import pytest

from boomwright.base import SPEED_OF_LIGHT
from boomwright.plan import read_plan
from boomwright.render.json.reach import reach_document
from boomwright.report.reach import reach_report
from boomwright.solver import remembering
from boomwright.study.permits import exposure_findings
from boomwright.study.reach import reach_plan

TRAPPED = """
boomwright = 1
title = "Trapped dipole"
[site]
position = "51.4 N, 0.9 W"
ground = "wet"
[[beam]]
name = "trapped"
band = ["14 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "10 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "25 mm"
  length = "8.6 m"
  traps = [{ at = "3.3 m", width = "0.1 m", inductance = "1.9 uH", capacitance = "30 pF", quality = 200 }]
[transmitter]
power = "400 W"
[[permits.exposure]]
place = "terrace"
distance = "5 m"
height = "4 m"
[wish]
bands = [{ band = ["21.0 MHz", "21.45 MHz"], design = "21.2 MHz", driven = 1 }]
"""  # noqa: E501


@pytest.fixture(scope="module")
def reached():
    return reach_plan(read_plan(TRAPPED), prepare=remembering())


def test_each_band_has_its_own_lobe(reached):
    (each,) = reached.beams
    low, high = each.every_band
    assert high.beam.design_frequency == 21.2e6
    for band in (low, high):
        # Over perfect ground the first lobe of a level dipole stands at sin e = wave / (4 height).
        wave = SPEED_OF_LIGHT / band.beam.design_frequency
        lobe = math.degrees(math.asin(wave / (4.0 * band.beam.height)))
        assert band.take_off_deg == pytest.approx(lobe, abs=2.5)
    (told,) = reach_document(reached)["beams"]
    (further,) = told["further_bands"]
    assert further["take_off_deg"] == high.take_off_deg
    assert further["band_hz"] == [21e6, 21.45e6]
    assert set(further) == {*told, "band_hz"} - {"further_bands"}
    names = [table.name for table in reach_report(reached, number=0).tables]
    assert len(names) == len(set(names))
    assert "places-2" in names


def test_people_are_held_against_the_worst_band(reached):
    bands = reached.beams[0].every_band
    worst = {}
    for band in bands:
        for check in band.exposure.checks:
            if check.applies:
                at = worst.get(check.limit.standard, (-math.inf, 0.0))
                here = (check.governing, band.beam.design_frequency)
                worst[check.limit.standard] = max(at, here)
    assert {frequency for _, frequency in worst.values()} == {21.2e6}
    for found in exposure_findings(reached.plan, prepare=remembering()):
        assert "transmitting on 21.2 MHz" in found.text


def test_bands_of_no_antenna_are_said():
    text = TRAPPED.replace("driven = 1", "driven = 2").replace("[transmitter]", "[line]")
    text = text.replace('power = "400 W"', 'type = "RG-213"\nlength = "20 m"')
    codes = [each.code for each in reach_plan(read_plan(text)).notices]
    assert "reach.further-bands" in codes

"""Readings of a beam say how its elements are held, and their bands hold what is not known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.parts import Feed, Mount
from boomwright.reach import read_beam
from boomwright.solver import FREE_SPACE

FREQUENCY = 144e6
ABOVE = Mount(kind="insulated above", boom=(0.0254, 0.0016), clearance=0.005)


def readings(*mounts):
    plain = beam(
        lengths=[1.02, 0.97, 0.91],
        places=[0.0, 0.4, 0.8],
        diameter=0.006,
        driven=1,
        frequency=FREQUENCY,
    )
    elements = (
        replace(each, mount=mount) for each, mount in zip(plain.elements, mounts, strict=True)
    )
    return read_beam(
        beam=replace(plain, elements=tuple(elements), feed=Feed(kind="split", gap=0.01)),
        ground=FREE_SPACE,
        frequencies=np.array([FREQUENCY]),
    )


def notice(found, code):
    return next((each for each in found.notices if each.code == code), None)


def test_bands_hold_the_mounts():
    bare, held = readings(None, None, None), readings(ABOVE, ABOVE, ABOVE)
    point = held.free_space
    assert bare.free_space.impedance_error < 0.2
    assert abs(point.impedance - bare.free_space.impedance) > 4.0
    # Off by a third, the mounts move the impedance by about a third of what they do.
    third = 0.38 * abs(point.impedance - bare.free_space.impedance)
    assert third < point.impedance_error < 2.0 * third
    assert point.gain_error_db > bare.free_space.gain_error_db


def test_more_doubtful_mounts_have_wider_bands():
    through = replace(ABOVE, kind="bonded through", clearance=None)
    doubtful = readings(through, ABOVE, through)
    assert (
        doubtful.free_space.impedance_error
        > readings(ABOVE, ABOVE, ABOVE).free_space.impedance_error
    )


def test_each_mount_is_said_with_its_shift():
    through = replace(ABOVE, kind="bonded through", clearance=None)
    found = readings(through, ABOVE, through)
    above, bonded = (each.text for each in found.notices if each.code == "solver.mount")
    if above.startswith("Held bonded"):
        above, bonded = bonded, above
    assert "driven 4." in above
    assert "reflector 11." in bonded
    assert "director 1 11." in bonded
    assert "in)" in bonded
    assert "threefold" in bonded
    assert "threefold" not in above
    assert "Balun" in notice(found, "solver.model").text


def test_what_is_not_in_the_model_is_said():
    assert "correction" in notice(readings(ABOVE, None, ABOVE), "solver.model").text
    assert notice(readings(None, None, None), "solver.mount") is None
    free = Mount(kind="non-conducting boom")
    assert notice(readings(free, free, free), "solver.mount") is None


def test_a_case_outside_is_a_doubt():
    found = readings(*[replace(ABOVE, boom=(0.1, 0.002))] * 3)
    assert notice(found, "solver.mount-unchecked").severity == "doubt"
    assert notice(readings(ABOVE, ABOVE, ABOVE), "solver.mount-unchecked") is None


@pytest.mark.parametrize("kind", ["insulated above", "bonded above", "insulated through"])
def test_no_mount_spoils_the_power_balance(kind):
    mount = replace(ABOVE, kind=kind, clearance=0.005 if kind.endswith("above") else None)
    assert abs(readings(mount, mount, mount).power_balance) < 1e-4

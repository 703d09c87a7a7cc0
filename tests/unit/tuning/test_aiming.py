"""Rotator offset from aims at known bearings."""

import math

import numpy as np
import pytest

from boomwright.tuning import Aim, align
from boomwright.tuning.errors import MeasurementError


def aims(*pairs, within=3.0):
    return tuple(
        Aim(shows=math.radians(shows), bearing=math.radians(bearing), within=math.radians(within))
        for shows, bearing in pairs
    )


def test_mean_goes_over_north():
    found = align(aims((355.0, 3.0), (2.0, 10.0)))
    np.testing.assert_allclose(math.degrees(found.offset), 8.0, rtol=0.0, atol=1e-9)
    np.testing.assert_allclose(math.degrees(found.band), 1.96 * 3.0 / 2**0.5, rtol=1e-9)
    assert found.notices == ()


def test_closer_aims_count_more():
    close, rough = aims((0.0, 10.0), within=1.0), aims((90.0, 104.0), within=2.0)
    found = align((*close, *rough))
    # Weights 4 to 1.
    np.testing.assert_allclose(math.degrees(found.offset), 10.8, rtol=1e-3)


def test_band_holds_the_offset_as_often_as_it_says():
    rng = np.random.default_rng(5)
    held = 0
    for _ in range(400):
        shows = rng.uniform(0.0, 2.0 * np.pi, size=3)
        noise = rng.normal(size=3) * math.radians(3.0)
        found = align(
            tuple(
                Aim(shows=float(at), bearing=float(at + 0.2 + off))
                for at, off in zip(shows, noise, strict=True)
            )
        )
        held += abs(found.offset - 0.2) <= found.band
    assert 0.92 <= held / 400 <= 0.99


def test_aims_that_disagree_are_doubted():
    found = align(aims((10.0, 20.0), (100.0, 110.0), (200.0, 240.0)))
    assert [notice.code for notice in found.notices] == ["tuning.aims-differ"]
    assert "aim 3" in found.notices[0].value
    assert math.degrees(found.band) > 10.0


def test_no_aim_is_refused():
    with pytest.raises(MeasurementError, match="known bearing"):
        align(())

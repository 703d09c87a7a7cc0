"""Published corrections for elements through a metal boom all lie within the band.

Common practice, with no source that measures them against each other: the trade's fit for bonded
elements, C/D = 25.195 B - 229 B^2 with B = D/wavelength, and half of it for insulated ones; rules
of thumb, 0.25 to 0.45 D bonded and 0.15 to 0.25 D insulated; tables in use, 3.0 to 3.5 mm for a
25 mm boom at 144 MHz and 6.0 to 8.1 mm for 25.4 mm at 432 MHz, insulated. Measured about 1940:
0.75 D for elements in contact (R. M. Fishenden, E. R. Wiblin, Proc. IEE 96 III, 1949). They
differ up to threefold among themselves.
"""

from __future__ import annotations

import pytest

from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import Element, Mount, TubeSection
from boomwright.solver import acts_longer, mount_effect

#: frequency [Hz], boom and element diameter [m]
SIZES = [(144e6, 0.0254, 0.005), (144e6, 0.030, 0.006), (432e6, 0.020, 0.004)]


def correction(kind, frequency, boom, diameter):
    """Length to add and half width of its band [m]."""
    wavelength = SPEED_OF_LIGHT / frequency
    element = Element(
        role="director",
        position=0.0,
        half=(TubeSection(diameter=diameter, length=0.225 * wavelength),),
        mount=Mount(kind=kind, boom=(boom, 0.0015)),
    )
    effect = mount_effect(element=element, wavelength=wavelength)
    return (
        -acts_longer(inductance=effect.inductance, element=element),
        acts_longer(inductance=effect.half_width, element=element),
    )


def fit(frequency, boom):
    share = boom * frequency / SPEED_OF_LIGHT
    return boom * (25.195 * share - 229.0 * share**2)


@pytest.mark.parametrize(("frequency", "boom", "diameter"), SIZES)
def test_bonded_through(frequency, boom, diameter):
    found, width = correction("bonded through", frequency, boom, diameter)
    published = (fit(frequency, boom), 0.25 * boom, 0.45 * boom, 0.75 * boom)
    assert max(published) > 2.0 * min(published)
    for each in published:
        assert found == pytest.approx(each, abs=width)


@pytest.mark.parametrize(("frequency", "boom", "diameter"), SIZES)
def test_insulated_through(frequency, boom, diameter):
    found, width = correction("insulated through", frequency, boom, diameter)
    for each in (0.5 * fit(frequency, boom), 0.15 * boom, 0.25 * boom):
        assert found == pytest.approx(each, abs=width)


@pytest.mark.parametrize(
    ("frequency", "boom", "low", "high"),
    [(144e6, 0.025, 3.0e-3, 3.5e-3), (432e6, 0.0254, 6.0e-3, 8.1e-3)],
)
def test_tables_in_use(frequency, boom, low, high):
    found, width = correction("insulated through", frequency, boom, 0.004)
    assert found - width < low
    assert high < found + width


def test_through_takes_more_than_above():
    shifts = [
        correction(kind, 144e6, 0.0254, 0.005)[0]
        for kind in ("insulated above", "insulated through", "bonded through")
    ]
    assert shifts == sorted(shifts)

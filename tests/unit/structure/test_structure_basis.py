"""Ultimate and nominal wind stay apart; a basis that cannot be is refused with a remedy."""

from __future__ import annotations

import pytest

from boomwright.structure import NominalSpeed, UltimateSpeed, WindBasis
from boomwright.structure.faults import BasisMixError, StructureInputError
from boomwright.structure.weather.wind import nominal_basis, velocity_pressure
from fakes.told import told


def _basis(**more):
    given = {
        "speed": UltimateSpeed(gust=50.0),
        "edition": "ASCE 7-16",
        "exposure": "C",
        "topography": 1.0,
    } | more
    return WindBasis(**given)


def test_an_ultimate_speed_does_not_go_with_a_nominal_map():
    with pytest.raises(BasisMixError, match="ASCE 7-05 maps are nominal"):
        _basis(edition="ASCE 7-05")


def test_nominal_basis_has_sixty_percent_of_the_pressure():
    basis = _basis()
    ultimate = velocity_pressure(basis=basis, height=20.0)
    nominal = velocity_pressure(basis=nominal_basis(basis), height=20.0)
    assert nominal.kind == "nominal"
    assert nominal.value == pytest.approx(0.6 * ultimate.value, rel=1e-12)
    assert nominal_basis(nominal_basis(basis)) == nominal_basis(basis)


def test_the_basis_tells_kind_exposure_and_edition():
    text = told(velocity_pressure(basis=_basis(), height=20.0).text)
    for word in ("ultimate", "exposure C", "ASCE 7-16", "Kzt 1", "Kd 0.95"):
        assert word in text
    assert "no topography entered" in told(_basis(topography=None).text)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"edition": "somewhere"}, "is not known"),
        ({"exposure": "A"}, "use B, C or D"),
        ({"edition": "TIA-222-F", "speed": NominalSpeed(gust=40.0)}, "old rating only"),
        ({"importance": 1.15}, "no importance factor"),
        ({"topography": 0.0}, "above zero"),
        ({"site_elevation": float("nan")}, "metres above the sea"),
    ],
)
def test_refusals(more, words):
    with pytest.raises(StructureInputError, match=words):
        _basis(**more)


def test_no_speed_is_no_speed():
    for maker in (UltimateSpeed, NominalSpeed):
        for gust in (0.0, -1.0, float("nan"), float("inf")):
            with pytest.raises(StructureInputError, match="wind speed"):
                maker(gust=gust)


def test_thin_air_on_a_mountain():
    # 0.83 at 5000 ft; formula from memory.
    low, high = (
        velocity_pressure(basis=_basis(site_elevation=z), height=20.0).value for z in (0.0, 1524.0)
    )
    assert high / low == pytest.approx(0.83, abs=0.01)

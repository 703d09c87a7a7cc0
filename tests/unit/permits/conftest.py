"""The tables of the package, read once."""

from importlib import resources

import numpy as np
import pytest

from boomwright.permits import CountryShapes, LandingTable


def arrays(name):
    path = resources.files("boomwright.permits") / "data" / name
    with path.open("rb") as file, np.load(file) as held:
        return dict(held)


@pytest.fixture(scope="session")
def landing_table():
    return LandingTable.unpacked(arrays("landing-places.npz"))


@pytest.fixture(scope="session")
def country_shapes():
    return CountryShapes.unpacked(arrays("country-shapes.npz"))

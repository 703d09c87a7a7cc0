"""Lengths, speeds and keys inside the sentences of this room, metric and US side by side."""

from __future__ import annotations

from boomwright.base import METRES_PER_INCH, both_quantities

#: metres in a foot, exact {nist-sp-811}
FOOT = 0.3048
#: metres a second in a mile an hour, exact {nist-sp-811}
MILE_PER_HOUR = 0.44704


def span(length: float) -> str:
    """Write a height or distance in metres and feet.

    Parameters
    ----------
    length
        length [m]
    """
    return both_quantities(length, unit="m", form=".1f", us_form=".0f")


def stretch(length: float) -> str:
    """Write a length of tube in metres and inches.

    Parameters
    ----------
    length
        length [m]
    """
    return f"{length:.3f} m ({length / METRES_PER_INCH:.1f} in)"


def thickness(length: float) -> str:
    """Write a thickness in millimetres and inches.

    Parameters
    ----------
    length
        thickness [m]
    """
    return both_quantities(length * 1e3, unit="mm", form=".1f", us_form=".2f")


def speed(value: float) -> str:
    """Write a wind speed in metres a second and miles an hour.

    Parameters
    ----------
    value
        speed [m/s]
    """
    return both_quantities(value, unit="m/s", form=".1f", us_form=".0f")


def pressure(value: float) -> str:
    """Write a wind pressure in kilopascals and pounds a square foot.

    Parameters
    ----------
    value
        pressure [Pa]
    """
    return both_quantities(value / 1e3, unit="kPa", form=".2f", us_form=".1f")

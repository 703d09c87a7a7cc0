"""Lengths, speeds and keys inside the sentences of this room, metric and US side by side."""

from __future__ import annotations

#: metres in a foot, exact {nist-sp-811}
FOOT = 0.3048
#: metres a second in a mile an hour, exact {nist-sp-811}
MILE_PER_HOUR = 0.44704
#: metres in an inch, exact {nist-sp-811}
_INCH = 0.0254


def span(length: float) -> str:
    """Write a height or distance in metres and feet.

    Parameters
    ----------
    length
        length [m]

    Returns
    -------
    str
        for instance ``20.0 m (66 ft)`` [-]
    """
    return f"{length:.1f} m ({length / FOOT:.0f} ft)"


def stretch(length: float) -> str:
    """Write a length of tube in metres and inches.

    Parameters
    ----------
    length
        length [m]

    Returns
    -------
    str
        for instance ``1.500 m (59.1 in)`` [-]
    """
    return f"{length:.3f} m ({length / _INCH:.1f} in)"


def thickness(length: float) -> str:
    """Write a thickness in millimetres and inches.

    Parameters
    ----------
    length
        thickness [m]

    Returns
    -------
    str
        for instance ``12.0 mm (0.47 in)`` [-]
    """
    return f"{length * 1e3:.1f} mm ({length / _INCH:.2f} in)"


def speed(value: float) -> str:
    """Write a wind speed in metres a second and miles an hour.

    Parameters
    ----------
    value
        speed [m/s]

    Returns
    -------
    str
        for instance ``18.0 m/s (40 mph)`` [-]
    """
    return f"{value:.1f} m/s ({value / MILE_PER_HOUR:.0f} mph)"

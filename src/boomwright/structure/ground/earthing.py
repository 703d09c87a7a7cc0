"""Resistance of driven earth rods. Local electrical and lightning codes govern."""

from __future__ import annotations

from math import log, pi

from boomwright.structure.faults import require_positive


def rod_resistance(*, resistivity: float, length: float, radius: float) -> float:
    """One driven rod, rho / (2 pi L) (ln(4 L / a) - 1) {dwight-rods}.

    Args:
        resistivity: resistivity of the soil [ohm m]
        length: driven length [m]
        radius: radius of the rod [m]

    Returns:
        resistance to remote earth [ohm]
    """
    for place, value, unit in (
        ("soil resistivity", resistivity, "ohm m"),
        ("rod length", length, "m"),
        ("rod radius", radius, "m"),
    ):
        require_positive(place=place, value=value, unit=unit)
    return resistivity / (2.0 * pi * length) * (log(4.0 * length / radius) - 1.0)

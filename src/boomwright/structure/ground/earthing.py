"""Resistance of driven earth rods. Local electrical and lightning codes govern."""

from __future__ import annotations

from math import log, pi

from boomwright.structure.faults import require_positive

#: least copper for the protective and the operating earthing conductor [AWG] {nec-810-58}
LEAST_PROTECTIVE_AWG = 10
LEAST_OPERATING_AWG = 14


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


def rod_pair_resistance(
    *, resistivity: float, length: float, radius: float, spacing: float
) -> float:
    """Two driven rods further apart than their length {dwight-rods}.

    Args:
        resistivity: resistivity of the soil [ohm m]
        length: driven length of each [m]
        radius: [m]
        spacing: distance between them [m]

    Returns:
        resistance of both together [ohm]
    """
    require_positive(place="rod spacing", value=spacing, unit="m")
    single = rod_resistance(resistivity=resistivity, length=length, radius=radius)
    ratio = length / spacing
    mutual = resistivity / (4.0 * pi * spacing)
    return single / 2.0 + mutual * (1.0 - ratio**2 / 3.0 + 2.0 * ratio**4 / 5.0)

"""Weights, forces and lengths inside the sentences of this room, metric and US side by side."""

from __future__ import annotations

from boomwright.base import both_quantities


def mass(value: float) -> str:
    """Write a mass, e.g. ``25 kg (54 lb)``.

    Parameters
    ----------
    value
        mass [kg]
    """
    return both_quantities(value, unit="kg")


def force(value: float) -> str:
    """Write a force, e.g. ``71 N (16 lbf)``.

    Parameters
    ----------
    value
        force [N]
    """
    return both_quantities(value, unit="N")


def moment(value: float) -> str:
    """Write a moment, e.g. ``1.60 kN m (1180 lbf ft)``.

    Parameters
    ----------
    value
        moment [N m]
    """
    return both_quantities(value / 1e3, unit="kN m", form=".2f", us_form=".0f")


def span(value: float) -> str:
    """Write a height or a distance, e.g. ``12.0 m (39.4 ft)``.

    Parameters
    ----------
    value
        length [m]
    """
    return both_quantities(value, unit="m", form=".1f")


def speed(value: float) -> str:
    """Write a wind speed, e.g. ``9.0 m/s (20.1 mph)``.

    Parameters
    ----------
    value
        speed [m/s]
    """
    return both_quantities(value, unit="m/s", form=".1f")

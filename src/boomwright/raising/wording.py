"""Weights, forces and lengths inside the sentences of this room, as quantities."""

from __future__ import annotations

from boomwright.base.quantity import Quantity


def mass(value: float) -> Quantity:
    """Take a mass in kilograms into a sentence."""
    return Quantity(value, "mass")


def force(value: float) -> Quantity:
    """Take a force in newtons into a sentence."""
    return Quantity(value, "load")


def moment(value: float) -> Quantity:
    """Take a moment in newton metres into a sentence."""
    return Quantity(value, "large moment")


def span(value: float) -> Quantity:
    """Take a length in metres into a sentence."""
    return Quantity(value, "height")


def speed(value: float) -> Quantity:
    """Take a wind speed in metres a second into a sentence."""
    return Quantity(value, "speed")

"""What tuning refuses, and why."""

from __future__ import annotations

from boomwright.base import BoomwrightError


class MeasurementError(BoomwrightError):
    """A measurement that cannot be used; says where, what was found and what to do."""

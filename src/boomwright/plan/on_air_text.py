"""Readings on the air as people write them: levels, and moments of universal time."""

from __future__ import annotations

import re
from typing import Final

from boomwright.base.days import day_number
from boomwright.plan.format import decimal_text
from boomwright.plan.model_measured import LevelPlan, MomentPlan
from boomwright.plan.quantity import QuantityError

LEVEL_EXAMPLE: Final = "S9 +20 dB"
MOMENT_EXAMPLE: Final = "2026-05-02 14:30"

_S_METER = re.compile(r"S\s*([0-9](?:\.[0-9]+)?)(?:\s*\+\s*([0-9]{1,3}(?:\.[0-9]+)?)\s*(?:dB)?)?")
_DECIBELS = re.compile(r"([+-]?[0-9]{1,4}(?:\.[0-9]+)?)\s*dB[mu]?")
_MOMENT = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[T\s]+([0-9]{1,2}):([0-9]{2})\s*(?:UTC|Z)?")
_MINUSES = str.maketrans({"−": "-", "–": "-"})


def parse_level(text: str) -> LevelPlan:
    """Read a level.

    Args:
        text: ``S7``, ``S9 +20 dB``, or decibels on any scale such as ``-12 dB``

    Raises:
        QuantityError: no level, or decibels over less than S9
    """
    plain = text[:40].translate(_MINUSES).strip()
    meter = _S_METER.fullmatch(plain)
    if meter is not None:
        units, over = float(meter[1]), float(meter[2] or 0.0)
        if units > 9.0 or (over > 0.0 and units < 9.0):
            message = "an S-meter shows S0 to S9, and decibels only over S9"
            raise QuantityError(message, f'write "S7" or "{LEVEL_EXAMPLE}"')
        return LevelPlan(s_units=units, decibels=over)
    plainly = _DECIBELS.fullmatch(plain)
    if plainly is None:
        message = "this is no level of a receiver"
        raise QuantityError(message, f'write "S7", "{LEVEL_EXAMPLE}" or "-12 dB"')
    return LevelPlan(s_units=None, decibels=float(plainly[1]))


def level_text(level: LevelPlan) -> str:
    """Write a level as ``parse_level`` reads it."""
    decibels = decimal_text(level.decibels, digits=8)
    if level.s_units is None:
        return f"{decibels} dB"
    units = f"S{decimal_text(level.s_units, digits=8)}"
    return f"{units} +{decibels} dB" if level.decibels else units


def parse_moment(text: str) -> MomentPlan:
    """Read a moment in universal time.

    Args:
        text: day and time, ``2026-05-02 14:30``; ``UTC`` may follow

    Raises:
        QuantityError: no moment, or no day of the calendar
    """
    match = _MOMENT.fullmatch(text[:40].strip())
    if match is None or int(match[2]) > 23 or int(match[3]) > 59:
        message = "this is not a day and a time in universal time"
        raise QuantityError(message, f'write it as "{MOMENT_EXAMPLE}"')
    try:
        day_number(match[1])
    except ValueError as error:
        message = f"{match[1]} is not a day of the calendar"
        raise QuantityError(message, f'write it as "{MOMENT_EXAMPLE}"') from error
    return MomentPlan(day=match[1], utc_hours=int(match[2]) + int(match[3]) / 60.0)


def moment_text(moment: MomentPlan) -> str:
    """Write a moment as ``parse_moment`` reads it."""
    minutes = round(moment.utc_hours * 60.0)
    return f"{moment.day} {minutes // 60:02d}:{minutes % 60:02d}"

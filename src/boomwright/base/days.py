"""Days as text, ``2026-01-31``, and as whole numbers that can be subtracted {iso-8601}.

The rooms that hold rules and prices know no clock and import no calendar kit: the day of today
comes to them as an argument.
"""

from __future__ import annotations

_MONTH_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def day_number(text: str) -> int:
    """Days since the day before 0001-01-01, Gregorian calendar throughout [day].

    Args:
        text: day as year, month and day, ``2026-01-31``

    Raises:
        ValueError: when the text is not a day of the calendar
    """
    parts = text.split("-")
    digits = all(part.isascii() and part.isdigit() for part in parts)
    if [len(part) for part in parts] == [4, 2, 2] and digits:
        year, month, day = (int(part) for part in parts)
        if year >= 1 and 1 <= month <= 12:
            leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
            months = [length + (leap and index == 1) for index, length in enumerate(_MONTH_LENGTHS)]
            if 1 <= day <= months[month - 1]:
                past = year - 1
                days = past * 365 + past // 4 - past // 100 + past // 400
                return days + sum(months[: month - 1]) + day
    raise ValueError(f"{text!r} is not a day; write it as 2026-01-31")

"""Reminders after the lift as an iCalendar file {rfc-5545}: looks every year, more after ten."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import Final

from boomwright.report.work.upkeep import UpkeepReminder

_FOLD: Final = 75  # octets in a line {rfc-5545, section 3.1}


def _escaped(text: str) -> str:
    """Escape a value {rfc-5545, section 3.3.11}; control characters are dropped."""
    clean = "".join(c for c in text if c == "\n" or c.isprintable())
    for plain, written in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        clean = clean.replace(plain, written)
    return clean


def _folded(line: str) -> bytes:
    """Break a line into octets of at most 75, never inside a character."""
    parts: list[bytes] = []
    part = b""
    for character in line:
        raw = character.encode("utf-8")
        if len(part) + len(raw) > (_FOLD if not parts else _FOLD - 1):
            parts.append(part)
            part = b""
        part += raw
    return b"\r\n ".join([*parts, part]) + b"\r\n"


def upkeep_calendar(
    *, title: str, reminders: Sequence[UpkeepReminder], made: str, digest: str, stamp: str = ""
) -> bytes:
    """Write the reminders for any calendar program.

    Args:
        made: day the file is made, ``2026-01-31``
        digest: digest of the plan, so that a second import replaces the first
        stamp: what stands against building from the plan, said first; empty when nothing does

    Returns:
        an iCalendar file, all-day events with an alarm three days before; the same arguments
        give the same
            bytes
    """
    moment = made.replace("-", "") + "T000000Z"
    said = f"{stamp}. " if stamp else ""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//boomwright//upkeep//EN",
        "CALSCALE:GREGORIAN",
    ]
    for reminder in reminders:
        mark = hashlib.sha256(f"{digest} {title} {reminder.name}".encode()).hexdigest()[:24]
        lines += [
            "BEGIN:VEVENT",
            f"UID:{mark}@boomwright.invalid",
            f"DTSTAMP:{moment}",
            f"DTSTART;VALUE=DATE:{reminder.first.replace('-', '')}",
        ]
        if reminder.every_months:
            years, months = divmod(reminder.every_months, 12)
            rule = f"YEARLY;INTERVAL={years}" if months == 0 else (
                f"MONTHLY;INTERVAL={reminder.every_months}"
            )  # fmt: skip
            lines.append(f"RRULE:FREQ={rule}")
        lines += [
            f"SUMMARY:{_escaped(f'{reminder.name}: {title}')}",
            f"DESCRIPTION:{_escaped(said + reminder.text)}",
            "TRANSP:TRANSPARENT",
            "BEGIN:VALARM",
            "ACTION:DISPLAY",
            f"DESCRIPTION:{_escaped(reminder.name)}",
            "TRIGGER:-P3D",
            "END:VALARM",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return b"".join(_folded(line) for line in lines)

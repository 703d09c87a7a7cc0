"""After the lift: pointing it to true north, signing off, looking again year after year."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from boomwright.base.days import day_number
from boomwright.base.records import dataclass
from boomwright.charts.blocks import Blanks, Block, Facts, Grid, Heading, NewPage, Steps, Words
from boomwright.parts import Beam
from boomwright.report.wording import clean
from boomwright.study.declination import Declination

#: lines in the inspection log
_LOG_LINES: Final = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class UpkeepReminder:
    """Something to look at again and again."""

    name: str  #: what to do
    text: str  #: what to look for
    after: int  #: days from the lift to the first
    first: str  #: first day, ``2026-01-31``
    every_months: int  #: months between two of them; 0 for once


def _day_after(day: str, days: int) -> str:
    """Day so many days later, found by counting months and days forward."""
    number = day_number(day) + days
    year = int(day[:4])
    while day_number(f"{year + 1:04d}-01-01") <= number:
        year += 1
    month = 12
    while day_number(f"{year:04d}-{month:02d}-01") > number:
        month -= 1
    rest = number - day_number(f"{year:04d}-{month:02d}-01") + 1
    return f"{year:04d}-{month:02d}-{rest:02d}"


def upkeep_reminders(
    *, today: str, guyed: bool, climbed: bool, turned: bool = True, hung: bool = False
) -> tuple[UpkeepReminder, ...]:
    """List what is looked at again, and when {common-practice-upkeep}.

    Args:
        today: day the count begins, ``2026-01-31``
        hung: whether every antenna is wire that hangs on ropes
    """
    antenna = (
        "Wires, insulators, knots and crimps; ropes where they run over a pulley, chafe, sunlight;"
        if hung
        else "Elements straight and in one plane; clamps, U-bolts, plugs, weep holes;"
    )
    rotator = " rotator and cable loop;" if turned else ""
    found = [
        (
            "Bolts after the first week",
            "Every torque and paint mark once more; guys and turnbuckles; SWR against the "
            "first sweep. From the ground where it can be; climbing is for trained people.",
            7,
            0,
        ),
        (
            "Yearly look",
            f"{antenna} rust at welds and bolts; connectors and drip loops; choke box;{rotator} "
            "earth connections measured; SWR and front-to-back against the first figures.",
            365,
            12,
        ),
        (
            "Inspection by someone qualified",
            "Support, mast, footing and anchors by a qualified person, sooner by the sea and "
            "after severe wind or ice.",
            3 * 365 if guyed else 5 * 365,
            36 if guyed else 60,
        ),
    ]
    if guyed:
        text = (
            "Tension against the sheet, grips, thimbles, safety wires, anchors at the ground "
            "line; plumb of the support."
        )
        found.append(("Guys", text, 182, 6))
    if climbed:
        text = (
            "Looked over by a competent person; thrown away at the maker's age or after any fall."
        )
        found.append(("Harness and lanyards", text, 182, 6))
    return tuple(
        UpkeepReminder(
            name=name, text=text, after=after, first=_day_after(today, after), every_months=months
        )
        for name, text, after, months in sorted(found, key=lambda one: one[2])
    )


def _span(days: int) -> str:
    """Days from the lift in the words of a calendar."""
    if days >= 365:
        years = round(days / 365)
        return f"{years} year{'' if years == 1 else 's'}"
    return f"{round(days / 30.4)} months" if days >= 60 else f"{days} days"


def upkeep_blocks(
    *, beams: Sequence[Beam], bearing: Declination | None, reminders: Sequence[UpkeepReminder]
) -> tuple[Block, ...]:
    """Write the sheets for after the lift.

    Args:
        bearing: declination at the site; None when not known
    """
    pointed = [beam for beam in beams if not beam.all_round]
    alignment: tuple[Block, ...] = ()
    if pointed:
        alignment = (Heading(text="Alignment to true north"), *_alignment(pointed, bearing))
    return (
        *alignment,
        Heading(text="Sign-off"),
        *_sign_off(beams),
        NewPage(),
        Heading(text="Inspections"),
        Words(
            text="Write the dates in on the day of the lift: they count from it. The calendar "
            "file that is made with the drawings reminds of the same, counted from the day of "
            "issue."
        ),
        Grid(
            columns=("What", "First, after the lift", "On", "Then", "Look for"),
            rows=tuple(
                (
                    reminder.name,
                    _span(reminder.after),
                    "",
                    f"every {reminder.every_months} months" if reminder.every_months else "once",
                    reminder.text,
                )
                for reminder in reminders
            ),
            align="lllll",
            shares=(1.7, 1.1, 1.1, 1.3, 4.4),
        ),
        Heading(text="Inspection log"),
        Grid(
            columns=("Date", "Who", "Weather before", "Found", "Done", "SWR at design"),
            rows=tuple(("\u00a0", "", "", "", "", "") for _ in range(_LOG_LINES)),
            align="llllll",
            shares=(1.0, 1.0, 1.2, 2.6, 2.0, 1.1),
            large=True,
        ),
    )


def _degrees(angle: float) -> str:
    return f"{math.degrees(angle):.1f}°"


def _methods(*, turned: bool) -> tuple[str, ...]:
    """Ways to find true north: of a boom that is turned, or of the line between fixed ends."""
    if not turned:
        return (
            "What hangs on ropes or stands in the ground does not turn: its ends or feet are set "
            "out before it goes up. Ends of a wire lie 90 degrees left and right of the true "
            "heading, feet of a row along it.",
            "By a landmark: from below the middle, take the true bearing to each end off a good "
            "map.",
            "By the sun: at the moment that an almanac gives for its true bearing, the shadow of "
            "an upright pole points the other way. Never look at the sun.",
            "By a compass: read both ends from below the middle, away from iron and cars; they "
            "lie 180 degrees apart.",
        )
    return (
        "The clamp is tight and nobody is up: the rotator turns the beam, the observer stands "
        "outside its circle.",
        "By a landmark: take two points from a good map, one at the mast and one far away; turn "
        "the boom until it points there.",
        "By the sun: at the moment that an almanac gives for its true bearing, the shadow of the "
        "mast points the other way. Never look at the sun.",
        "By a compass: stand a dozen paces or more from mast, cars and fences, in line with the "
        "boom; read it twice, from front and from behind, and take the mean.",
    )


def _alignment(beams: Sequence[Beam], bearing: Declination | None) -> tuple[Block, ...]:
    turned = any(not (beam.hung or beam.upright) for beam in beams)
    methods = _methods(turned=turned)
    finish = (
        "Set the control to the true heading. Where it cannot be set, write the difference on it.",
        "Turn through the full range; the bearing comes back to within 2 degrees.",
    )
    if bearing is None:
        return (
            Words(
                text="The magnetic declination is not known here: the plan gives no position. "
                "Align by a landmark or by the sun."
            ),
            Steps(title="Alignment", items=methods[:-1]),
        )
    east = "east" if bearing.angle >= 0.0 else "west"
    rows = [
        (
            clean(beam.name),
            _degrees(beam.heading % (2.0 * math.pi)),
            _degrees((beam.heading - bearing.angle) % (2.0 * math.pi)),
        )
        for beam in beams
    ]
    return (
        Facts(
            rows=(
                (
                    "Declination",
                    f"{_degrees(abs(bearing.angle))} {east} "
                    f"± {_degrees(bearing.error)}, {bearing.model}, for {bearing.day}",
                ),
                (
                    "Rule",
                    "compass bearing = true heading less the declination, east counted "
                    "positive; iron nearby turns a compass by many degrees",
                ),
            )
        ),
        Grid(
            columns=("Beam", "True heading", "Compass bearing"),
            rows=tuple(rows),
            align="lrr",
            shares=(2.0, 1.2, 1.4),
            large=True,
        ),
        Steps(title="Alignment", items=(*methods, *(finish if turned else ()))),
        Blanks(labels=("Bearing set to", "Read back", "By")),
    )


def _sign_off(beams: Sequence[Beam]) -> tuple[Block, ...]:
    pointed = not all(beam.all_round for beam in beams)
    turned = any(not (beam.hung or beam.upright) for beam in beams)
    fronted = any(len(beam.elements) > 1 for beam in beams)
    lines = (
        "Built to the sheets; every deviation is written on them",
        "Torque list done, paint marks set",
        "Lifted by the plan; nobody hurt, nothing dropped",
        *(("Aligned to its true heading",) if pointed else ()),
        *(("Turns through the full range, cable loop free",) if turned else ()),
        "SWR over the band measured at the station end and filed",
        *(("Front-to-back looked at on a steady signal",) if fronted else ()),
        "Earth system bonded and measured; arresters in place",
        "Exposure of people assessed for the power in use",
        "Permits and notices are in the file; insurer told",
        "Photographs taken; this book and the calendar handed over",
    )
    return (
        Steps(title="Everything done", items=lines),
        Blanks(
            labels=("Owner, signature and date", "Builder, signature and date",
                    "Lift director, signature and date", "Engineer or inspector, where asked for")
        ),
    )  # fmt: skip

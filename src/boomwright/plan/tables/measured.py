"""``[measured]``: a sweep of the built beam, the trials since, and readings on the air."""

from __future__ import annotations

import re
from typing import Final

from boomwright.base.days import day_number
from boomwright.base.quantity import PerReader, phrase
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import (
    above_zero,
    choice,
    count,
    either_sign,
    entry,
    number,
    tables,
    within,
    words,
)
from boomwright.plan.format import decimal_text
from boomwright.plan.kinds import Day, Parsed
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model_measured import (
    AdjustPlan,
    AimPlan,
    FrontBackPlan,
    HeadingRunPlan,
    LevelPlan,
    MeasuredPlan,
    MeterLinePlan,
    MomentPlan,
    MovePlan,
    ProbePlan,
    TrialPlan,
)
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.quantity import QuantityError
from boomwright.plan.spec import Field, TableSpec, Values
from boomwright.plan.tables.heading import HEADING
from boomwright.plan.tables.line import LINE_TYPE

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


_SWEEP = words(
    "sweep", "File with the sweep, Touchstone or a table.", required=True, example="antenna.s1p"
)
_DAY = entry("day", "Day of the measurement.", Day(), example='day = "2026-05-01"')


def _check_line(values: Values, at: Place) -> None:
    missing = [key for key in ("open", "short") if key not in values]
    if "load" in values and missing:
        message = f"a sweep with a load tells nothing without {' and '.join(missing)}"
        at.child("load").fault(message, remedy=f"add {missing[0]}, or leave load out")


METER_LINE = TableSpec(
    noun="meter line",
    model=MeterLinePlan,
    check=_check_line,
    fields=(
        LINE_TYPE,
        above_zero("length", "length", "Its length.", required=True, example="30 m"),
        words("open", "File with a sweep of it, its far end open.", attribute="open_sweep",
              example="open.s1p"),
        words("short", "File with a sweep of it, its far end shorted.", attribute="short_sweep",
              example="short.s1p"),
        words("load", "File with a sweep of it, a load of the meter's resistance at its far end.",
              attribute="load_sweep", example="load.s1p"),
    ),
)  # fmt: skip


def _check_move(values: Values, at: Place) -> None:
    if ("element" in values) == ("stage" in values):
        message = "a move is of one element's tips or of one piece of the match"
        remedy = PerReader(
            file='write { element = 0, tips = "10 mm" }, or { stage = 0, longer = "5 mm" }',
            forms="give an element with its tips, or a piece of the match with what it is longer",
        )
        at.fault(message, remedy=remedy)
        return
    wanted = ("tips",) if "element" in values else ("longer", "more")
    given = [key for key in ("tips", "longer", "more") if key in values]
    if len(given) != 1 or given[0] not in wanted:
        message = f"this move says {' and '.join(given) or 'nothing'} about how far"
        at.fault(message, remedy=f"write {' or '.join(wanted)}, one of them")


MOVE = TableSpec(
    noun="move",
    model=MovePlan,
    check=_check_move,
    fields=(
        count("element", "Index of the element whose tips were moved, from 0.",
              most=99).names("element"),
        either_sign("tips", "length", "How far each tip went outwards.", size=10.0),
        count("stage", "Index of the piece of the match, from the antenna, from 0.", most=20),
        either_sign("longer", "length", "How much longer its line or stub was made.", size=50.0),
        within("more", "ratio", "By what share its capacitor or coil was made larger.", -1.0, 10.0),
    ),
)  # fmt: skip

TRIAL = TableSpec(
    noun="trial",
    model=TrialPlan,
    fields=(
        _SWEEP,
        tables("moved", "What was moved since the sweep before.", MOVE, "measured.trial"),
        either_sign("rise", "length", "How much higher the beam hung while sweeping.", size=50.0),
        _DAY,
        words("note", "Owner's remark.", longest=200, example="dry day, no wind"),
    ),
)  # fmt: skip


def _share(key: str, text: str) -> Field:
    return Field(
        key=key,
        kind=Quantity(dimension="ratio", low=0.0, high=1.0, above_low=True),
        help=text,
        example=f'{key} = "5 %"',
    )


TOLERANCE = TableSpec(
    noun="tolerance",
    model="tuning.tolerance:Tolerance",
    fields=(
        above_zero("cutting", "length", "Place of one tip, cutting and assembly.", high=1.0,
                   example="4 mm"),
        above_zero("strap", "length", "Place of a strap or short on its rods.", high=1.0,
                   example="5 mm"),
        _share("component", "Value of a capacitor or coil."),
        above_zero("height", "length", "Height above ground.", high=20.0, example="0.3 m"),
        number("ground_factor", "Permittivity and conductivity of the ground, as a factor.",
               low=1.01, high=10.0, example="2"),
        _share("line_length", "Electrical length of the line."),
        _share("line_loss", "Loss of the line."),
    ),
)  # fmt: skip

MOVING = TableSpec(
    noun="care of moving",
    model="tuning.tolerance:MovingCare",
    fields=(
        above_zero("length", "length", "Place of a tip or a strap.", high=0.1, example="1 mm"),
        _share("share", "Setting of a capacitor or coil."),
    ),
)


def _indices(key: str, text: str, most: int) -> Field:
    kind = ListOf(item=Number(low=0, high=most, whole=True), least=0, most=most, example="[0, 1]")
    return Field(key=key, kind=kind, help=text)


ADJUST = TableSpec(
    noun="list of what may be moved",
    model=AdjustPlan,
    fields=(
        _indices("elements", "Indices of elements whose tips may be moved, from 0.", 99),
        _indices("stages", "Indices of pieces of the match that may be set, from 0.", 20),
    ),
)


def _check_source(values: Values, at: Place) -> None:
    if ("bearing" in values) == ("sun" in values):
        both = "both a bearing and the sun" if "sun" in values else "neither a bearing nor the sun"
        remedy = phrase("write {bearing}, or {sun} in universal time",
                        bearing=written("bearing", '"315 deg"'),
                        sun=written("sun", f'"{MOMENT_EXAMPLE}"'))  # fmt: skip
        at.fault(f"this names {both}", remedy=remedy)


def _check_run(values: Values, at: Place) -> None:
    _check_source(values, at)
    levels = [pair[1] for pair in values.get("readings") or [] if pair and pair[1] is not None]
    if len({level.s_units is None for level in levels}) > 1:
        message = "S-meter readings and decibels stand in one run"
        remedy = "write all readings of a run alike; decibels count from any level"
        at.child("readings").fault(message, remedy=remedy)


_BEARING = entry("bearing", "True bearing of the signal or the mark.", HEADING)
_SUN = entry(
    "sun",
    "Moment in universal time when the sun is taken instead of a bearing.",
    Parsed(
        parse=parse_moment,
        example=MOMENT_EXAMPLE,
        pattern=r"^\s*[0-9]{4}-[0-9]{2}-[0-9]{2}[T ]+[0-9]{1,2}:[0-9]{2}\s*(UTC|Z)?\s*$",
        write=moment_text,
    ),
)
_READING = Row(
    items=(HEADING, Parsed(parse=parse_level, example=LEVEL_EXAMPLE, write=level_text)),
    least=2,
    example=f'["30 deg", "{LEVEL_EXAMPLE}"]',
    names=("azimuth", "level"),
)

HEADING_RUN = TableSpec(
    noun="heading run",
    model=HeadingRunPlan,
    check=_check_run,
    fields=(
        _BEARING,
        _SUN,
        entry("readings", "Azimuths that the rotator shows, each with the level read there.",
              ListOf(item=_READING, least=6, most=400,
                     example='[["0 deg", "S9"], ["30 deg", "S7"], ...], six or more'),
              required=True, example='readings = [["0 deg", "S9"], ["30 deg", "S7"], ...]'),
        either_sign("elevation", "angle", "Elevation that the signal comes from.", size=1.5708,
                    example="10 deg"),
        above_zero("frequency", "frequency", "Frequency of the signal."),
        _DAY,
        words("note", "Owner's remark.", longest=200, example="dry day, no wind"),
    ),
)  # fmt: skip

AIM = TableSpec(
    noun="aim",
    model=AimPlan,
    check=_check_source,
    fields=(
        _BEARING,
        _SUN,
        entry("shows", "Azimuth that the rotator shows then.", HEADING, required=True,
              example='shows = "228 deg"'),
        above_zero("within", "angle", "How exactly it was aimed.", high=0.8, example="3 deg"),
        words("note", "Owner's remark.", longest=200, example="dry day, no wind"),
    ),
)  # fmt: skip

PROBE = TableSpec(
    noun="probe reading",
    model=ProbePlan,
    fields=(
        entry("element", "Index of the element, from 0.", Number(low=0, high=99, whole=True),
              required=True, example="element = 2").names("element"),
        number("ratio", "Current in its middle over that of the driven element.", low=1e-3,
               high=10.0, required=True, example="0.85"),
        _share("within", "How exactly it was read."),
        above_zero("frequency", "frequency", "Frequency it was read at."),
    ),
)  # fmt: skip

FRONT_BACK = TableSpec(
    noun="front-to-back reading",
    model=FrontBackPlan,
    fields=(
        number("ratio", "Decibels from ahead over those with the back to the signal.", low=-10.0,
               high=60.0, required=True, example="18"),
        number("within", "How exactly it was read, in decibels.", low=0.1, high=20.0, example="1"),
        above_zero("frequency", "frequency", "Frequency of the signal."),
    ),
)  # fmt: skip

MEASURED = TableSpec(
    noun="measured",
    model=MeasuredPlan,
    fields=(
        _SWEEP,
        words("beam", "Name of the beam it is of; not needed when there is one.",
              longest=64, example="20m").names("beam"),
        _DAY,
        above_zero("reference", "resistance", "Resistance the meter reads against.", high=1000.0),
        choice("meter", ("hand-held", "careful kit", "plain"), "class of meter",
               "Class of the meter: how good its calibration is."),
        within("noise", "ratio", "Scatter of the meter, as a share of full reflection.", 1e-4, 0.3,
               example="0.5 %"),
        entry("line", "Line between meter and feed point.", METER_LINE),
        entry("tolerance", "How far off things usually are.", TOLERANCE),
        entry("moving", "How exactly moves are made.", MOVING),
        entry("adjust", "What may be moved; everything when left out.", ADJUST),
        tables("trial", "Trials since, in their order.", TRIAL, "measured"),
        tables("probe", "Currents read with a probe.", PROBE, "measured"),
        tables("front_to_back", "Front to back read with a distant signal.", FRONT_BACK,
               "measured"),
        tables("heading", "Levels of a steady signal, or of the sun, while the beam turns.",
               HEADING_RUN, "measured"),
        tables("aim", "Aims at known bearings, to align the rotator.", AIM, "measured"),
    ),
)  # fmt: skip

"""``[permits]``: country, boundary, power lines, runways, local limits, places with people."""

from __future__ import annotations

import re

from boomwright.base.quantity import PerReader
from boomwright.plan.directions import POSITION_EXAMPLE, parse_position, position_text
from boomwright.plan.faults import Place
from boomwright.plan.fields import (
    above_zero,
    choice,
    entry,
    flag,
    from_zero,
    question,
    tables,
    words,
)
from boomwright.plan.kinds import Day, Parsed
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model_permits import ExposurePlan, PermitsPlan, RunwayPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.quantity import QuantityError
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.heading import HEADING

_COUNTRY = re.compile(r"[A-Z]{2}")
_ENDS_EXAMPLE = '[["52.1 N, 0.1 E", "14 m"], ["52.2 N, 0.1 E", "15 m"]]'
#: heights above sea level of any site or runway [m]
ELEVATION = Quantity(dimension="length", low=-500.0, high=9000.0)
#: latitude and longitude, written as people write them
POSITION = Parsed(
    parse=parse_position,
    example=POSITION_EXAMPLE,
    pattern=r"^\s*[0-9].*[NSns][\s,;]+[0-9].*[EWew]\s*$",
    write=position_text,
)


def _country(text: str) -> str:
    code = text.strip().upper()
    if _COUNTRY.fullmatch(code) is None:
        message = "this is not a two-letter country code"
        raise QuantityError(message, 'write the two letters of ISO 3166, such as "GB"')
    return code


POWER_LINE = TableSpec(
    noun="power line",
    model="permits.power_lines:PowerLine",
    fields=(
        words("name", "Owner's name for it.", longest=64, required=True,
              example="line along the road"),
        above_zero("distance", "length",
                   "Horizontal distance from the support's foot to its nearest conductor.",
                   required=True, example="35 m"),
        above_zero("height", "length", "Height of that conductor above the support's foot.",
                   required=True, example="8 m"),
        above_zero("voltage", "voltage", "Line voltage; leave out when unknown.", high=1e6),
    ),
)  # fmt: skip

ROOF = TableSpec(
    noun="roof",
    model="permits.overhead:Roof",
    fields=(
        words("name", "Owner's name for it.", longest=64, required=True,
              example="garage"),
        from_zero("distance", "length", "Horizontal distance from the support's foot to its "
                  "nearest edge; 0 for a roof that the support stands on.", required=True,
                  example="4 m"),
        from_zero("height", "length", "Its highest point above the support's foot.",
                  required=True, example="7 m"),
    ),
)  # fmt: skip

LOCAL_LIMIT = TableSpec(
    noun="local limit",
    model="permits.local_limits:LocalLimits",
    fields=(
        words("basis", "Ordinance, covenant or letter, with its paragraph.", required=True,
              example="zoning ordinance, section 12.4"),
        entry("dated", "Day of that text or of the enquiry.", Day(), required=True,
              example='dated = "2026-01-31"'),
        words("ask", "Office that gave it.",
              example="planning office of the town").fills("whom_to_ask"),
        above_zero("height", "length", "Highest part allowed above ground.").fills(
            "maximum_height"
        ),
        above_zero("setback", "length", "Least distance from support to boundary."),
        from_zero("setback_ratio", "ratio", "Least distance to the boundary over height.",
                  high=20.0),
    ),
)  # fmt: skip

RUNWAY = TableSpec(
    noun="runway",
    model=RunwayPlan,
    fields=(
        words("airport", "Code of its airfield, as the findings write it.", longest=8,
              required=True, example="EGSC"),
        entry("ends", "Both ends: position, and elevation above sea level.",
              ListOf(item=Row(items=(POSITION, ELEVATION), least=2,
                              example='["52.1 N, 0.1 E", "14 m"]', names=("position", "elevation")),
                     least=2, most=2, example=_ENDS_EXAMPLE), required=True),
    ),
)  # fmt: skip

EXPOSURE = TableSpec(
    noun="exposure place",
    model=ExposurePlan,
    fields=(
        words("place", "Owner's name for a place where people are.", longest=64, required=True,
              example="terrace"),
        from_zero("distance", "length", "Horizontal distance from the support.", required=True,
                  example="6 m"),
        from_zero("height", "length", "Height of a head above ground at the support.",
                  required=True, example="1.8 m"),
        entry("bearing", "Direction from the support; left out, the beam is turned to the place.",
              HEADING),
        choice("group", ("general", "occupational"), "group of people",
               "The public, or people trained for it at work."),
    ),
)  # fmt: skip


def _check(values: Values, at: Place) -> None:
    lines, said = values.get("power_line"), values.get("power_lines_surveyed")
    if lines and (said.get("answer") if isinstance(said, dict) else said) is False:
        message = "power lines are listed but nobody is said to have looked for them"
        remedy = PerReader(
            file="write power_lines_surveyed = true once the place has been walked",
            forms="answer yes once the place has been walked",
        )
        at.child("power_lines_surveyed").fault(message, remedy=remedy)


PERMITS = TableSpec(
    noun="permits",
    model=PermitsPlan,
    check=_check,
    fields=(
        entry("country", "Two-letter code of the country whose rules apply.",
              Parsed(parse=_country, example="GB", pattern=r"^\s*[A-Za-z]{2}\s*$")),
        from_zero("boundary", "length", "Foot of the support to the nearest boundary."),
        from_zero("walkway", "length", "Foot of the support to the nearest public way."),
        from_zero("lightning_rod", "length",
                  "Tip of the lightning rod above ground, 0 when there is none."),
        from_zero("crane", "length",
                  "Highest position of a crane or lift truck above ground, 0 when none comes."),
        flag("on_another_structure", "Whether it stands on an existing antenna structure."),
        question("power_lines_surveyed",
                 "Whether somebody has looked for power lines; none listed then means none there."),
        tables("power_line", "Power lines near.", POWER_LINE, "permits"),
        tables("roof", "Roofs near, that a beam may pass over as it turns.", ROOF, "permits"),
        tables("local_limit", "Limits of local rules that the owner looked up.", LOCAL_LIMIT,
               "permits"),
        tables("runway", "Runways near, by their ends; they take the place of the table's.", RUNWAY,
               "permits"),
        tables("exposure", "Places where people are.", EXPOSURE, "permits"),
    ),
)  # fmt: skip

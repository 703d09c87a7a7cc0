"""What is kept of a station while advice is worked out, so that a broken-off run goes on."""

from __future__ import annotations

from typing import Any

from boomwright.base import BoomwrightError
from boomwright.base.quantity import write
from boomwright.plan import read_plan, write_plan
from boomwright.solver import Preparer, prepare_run
from boomwright.study.advice.antennas import Duty
from boomwright.study.advice.judged import Asked, Candidate, Unmade, judge_plan_of
from boomwright.study.advice.served import BandServed, Served
from boomwright.study.advice.stations import Station

#: plain data of a station
Record = dict[str, Any]


def station_key(station: Station) -> str:
    """Name a station among those of its place."""
    bands = "; ".join(" ".join(each.bands) for each in station.hung)
    return f"{station.name} | {bands} | {station.height:.4f}"


def record_of(found: Candidate | Unmade) -> Record:
    """Write what was computed of a station as plain data; the rooms are asked anew."""
    if isinstance(found, Unmade):
        return {"unmade": write(found.reason, system="metric")}
    served = found.served
    return {
        "plan": write_plan(found.plan),
        "duties": [[_row(duty, _DUTY) for duty in each] for each in found.duties],
        "headings": list(served.headings),
        "in_full": served.in_full,
        "bands": [_row(each, _BAND) for each in served.bands],
    }


#: what is written of a duty and of a band served, in this order
_DUTY = ("band", "beam", "edges")
_BAND = ("band", "beam", "gains_dbi", "dipole_dbi", "swr", "line_loss_db")


def _row(one: Duty | BandServed, names: tuple[str, ...]) -> list[Any]:
    return [getattr(one, name) for name in names]


def _fields(row: list[Any], names: tuple[str, ...]) -> dict[str, Any]:
    values = (tuple(value) if isinstance(value, list) else value for value in row)
    return dict(zip(names, values, strict=True))


def restored(
    record: Record, station: Station, *, asked: Asked, prepare: Preparer = prepare_run
) -> Candidate | Unmade:
    """Take up a station again from its record.

    Raises:
        BoomwrightError: when it is no record of a station
    """
    if "unmade" in record:
        return Unmade(station=station, reason=str(record["unmade"]))
    try:
        duties = tuple(
            tuple(Duty(**_fields(row, _DUTY)) for row in each) for each in record["duties"]
        )
        served = Served(
            headings=tuple(record["headings"]),
            bands=tuple(BandServed(**_fields(row, _BAND)) for row in record["bands"]),
            in_full=bool(record["in_full"]),
        )
        plan = read_plan(record["plan"])
    except (KeyError, TypeError, ValueError):
        raise BoomwrightError(
            f"{station.name}: this is no record of a station", remedy="leave out --resume"
        ) from None
    return judge_plan_of(
        station, plan=plan, duties=duties, served=served, asked=asked, prepare=prepare
    )

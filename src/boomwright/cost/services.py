"""What an owner hires and pays for besides parts."""

from __future__ import annotations

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Services:
    """Freight, hired machines, people, papers and the owner's own hours; None is not said."""

    deliveries: int | None = None  #: deliveries to pay freight for
    lift_truck_days: float | None = None  #: days of a lift truck [day]
    crane_days: float | None = None  #: days of a crane [day]
    climber_days: float | None = None  #: days of a trained climbing crew [day]
    permits: int | None = None  #: permits and notices
    engineer_stamps: int | None = None  #: engineer's stamps
    insurance_years: float | None = None  #: years of insurance rider counted in [year]
    own_time: float = 0.0  #: owner's own time [s]

"""What one browser window looks at: which beam, at which frequency, in which units."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One window's view of the plan."""

    beam: int = 0  #: number of the beam, from 0
    system: UnitSystem = "metric"  #: units shown
    frequency: float | None = None  #: frequency looked at, or None for the design frequency [Hz]
    narrow: bool = False  #: whether the window is narrow
    other: str = ""  #: file name of a plan this one is compared with, or empty

"""What is in the ground, as the plan gives it. ``None`` means that the plan does not say."""

from __future__ import annotations

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class BasePlan:
    """The footing of the support."""

    kind: str  #: ``pad`` or ``pier``
    width: float  #: side of the square, or diameter of a round pier [m]
    thickness: float | None = None  #: thickness of the pad; None for a pier [m]
    cover: float = 0.0  #: soil lying on the pad [m]
    stands_out: float = 0.0  #: part of the pad above ground [m]
    depth: float | None = None  #: depth of the pier in the ground; None for a pad [m]
    is_round: bool = False  #: True for a round pier
    #: True when half an inch of movement of the pier at the ground does no harm
    may_move: bool = False
    water_table: bool = False  #: True when ground water may reach the pad

"""The boom of a beam as the plan gives it. ``None`` means that the plan does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass
from boomwright.parts import BoomFitting, Hardware

if TYPE_CHECKING:
    from boomwright.structure import BoomTie


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomPlan:
    """The boom of one beam."""

    beam: str  #: name of the beam it belongs to
    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    length: float  #: length [m]
    rear_end: float  #: rear end, on the beam's x axis [m]
    material: str  #: name of its metal
    #: mast clamp on the beam's x axis; None puts it at the balance point [m]
    clamp: float | None = None
    #: boom axis to the left of the mast axis; None lets its plate decide [m]
    offset: float | None = None
    #: where its tubes meet, on the beam's x axis; None parts it into equal ones that fit the stock
    #: [m] (n_joints,)
    joints: tuple[float, ...] | None = None
    drag_area: float = 0.0  #: drag area of boxes, brackets and coils [m^2]
    tie: BoomTie | None = None  #: tie from above, or None
    fitting: tuple[BoomFitting, ...] = ()  #: what sits on it (n_fittings,)
    hardware: Hardware | None = None  #: its plates and clamps; None takes those of the trade

"""What carries the beams, as the plan gives it: mast, rotator, tower or tube, guys, footing.

``None`` means that the plan does not say; nothing is assumed in its place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass
from boomwright.parts import SupportHardware

if TYPE_CHECKING:
    from boomwright.raising import Said
    from boomwright.structure import (
        AnchorBlock,
        BaseReactions,
        Cage,
        GuyLevel,
        HouseBrackets,
        RingMount,
        Rotator,
        Soil,
        Tower,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePlan:
    """One tube from the ground up, alone, guyed or on brackets of a building."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    height: float  #: height above ground [m]
    material: str  #: steel grade or alloy; ``steel`` when its grade is not known
    #: minimum yield from a certificate, in place of the grade's [Pa]
    yield_strength: float | None = None
    hinged: bool = False  #: True when its foot can tilt; a foot set in its footing cannot
    brackets: HouseBrackets | None = None  #: brackets of a building that hold it
    cage: Cage | None = None  #: cage with bearing and rotator, the upper end of that height
    whole: Said | None = None  #: whether it is one piece, or its joints carry its full bending


@dataclass(frozen=True, slots=True, kw_only=True)
class MastPlan:
    """The mast that turns and carries the beams."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    bearing: float  #: top bearing above ground [m]
    top: float  #: upper end above ground [m]
    material: str  #: steel grade or alloy; ``steel`` when its grade is not known
    #: from the top bearing down to the rotator; None without a bearing or unknown [m]
    rotator_below: float | None = None
    bearing_mass: float | None = None  #: mass of the top bearing [kg]
    #: minimum yield from a certificate, in place of the grade's [Pa]
    yield_strength: float | None = None


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


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportPlan:
    """Everything between the ground and the booms."""

    method: str = "allowable"  #: ``allowable`` or ``strength``
    damping: float | None = None  #: damping ratio of the first sway [-]
    sway: float | None = None  #: first frequency of the support with its beams [Hz]
    frost_depth: float | None = None  #: local frost depth, 0 where there is none [m]
    soil: Soil | None = None  #: name of a soil class, or figures; None when nobody looked
    tower: Tower | None = None  #: lattice tower
    tube: TubePlan | None = None  #: tube in place of a tower
    mast: MastPlan | None = None  #: rotating mast
    rotator: Rotator | None = None
    ring: tuple[RingMount, ...] = ()  #: rings around the support, each with one beam (n_rings,)
    guy: tuple[GuyLevel, ...] = ()  #: guy rings (n_levels,)
    anchor: AnchorBlock | None = None  #: block at each guy anchor
    base: BasePlan | None = None  #: footing
    base_loads: BaseReactions | None = None  #: footing loads from the maker
    hardware: SupportHardware | None = None  #: what its hardware weighs; None takes the trade's

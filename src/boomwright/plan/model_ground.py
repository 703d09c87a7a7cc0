"""What is in the ground, as the plan gives it. ``None`` means that the plan does not say."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorPlan:
    """A buried block of concrete that holds one anchor.

    Parameters
    ----------
    length
        length square to the guy [m]
    width
        width along the guy [m]
    thickness
        thickness [m]
    cover
        soil on top of it [m]
    water_table
        True when ground water may reach it
    """

    length: float
    width: float
    thickness: float
    cover: float
    water_table: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BasePlan:
    """The footing of the support.

    Parameters
    ----------
    kind
        ``pad`` or ``pier``
    width
        side of the square, or diameter of a round pier [m]
    thickness
        thickness of the pad; None for a pier [m]
    cover
        soil lying on the pad [m]
    stands_out
        part of the pad above ground [m]
    depth
        depth of the pier in the ground; None for a pad [m]
    is_round
        True for a round pier
    may_move
        True when half an inch of movement of the pier at the ground does no harm
    water_table
        True when ground water may reach the pad
    """

    kind: str
    width: float
    thickness: float | None = None
    cover: float = 0.0
    stands_out: float = 0.0
    depth: float | None = None
    is_round: bool = False
    may_move: bool = False
    water_table: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilPlan:
    """Soil as the building office or a test gives it.

    Parameters
    ----------
    bearing
        allowable pressure under a footing [Pa]
    lateral
        allowable sideways pressure for each metre of depth [Pa/m]
    friction
        coefficient of sliding under concrete [-]
    cohesion
        sliding resistance of clay [Pa]
    weight
        weight of one cubic metre; None when not tested [N/m^3]
    """

    name: str
    bearing: float | None = None
    lateral: float | None = None
    friction: float | None = None
    cohesion: float | None = None
    weight: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseLoadsPlan:
    """Loads on the footing as the maker of the tower states them.

    Parameters
    ----------
    moment
        moment at ground level [N m]
    shear
        horizontal force [N]
    axial
        weight of the structure [N]
    kind
        ``ultimate`` or ``nominal`` wind behind them
    """

    moment: float
    shear: float
    axial: float
    kind: str

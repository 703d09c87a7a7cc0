"""The boom of a beam as the plan gives it. ``None`` means that the plan does not say."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomTiePlan:
    """A tie from the mast down to the boom on both sides.

    Parameters
    ----------
    share
        place of the tie along each boom arm [-]
    rise
        height of its upper end above the boom [m]
    area
        cross section of the tie [m^2]
    elastic_modulus
        Young's modulus of the tie [Pa]
    """

    share: float
    rise: float
    area: float
    elastic_modulus: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingPlan:
    """Something that sits on the boom: clamp, balun, coax, ballast.

    Parameters
    ----------
    at
        place along the boom [m]
    mass
        its mass [kg]
    span
        length across the boom over which it is spread [m]
    """

    name: str
    at: float
    mass: float
    span: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomPlan:
    """The boom of one beam.

    Parameters
    ----------
    beam
        name of the beam it belongs to
    diameter
        outer diameter [m]
    wall
        wall thickness [m]
    length
        length [m]
    rear_end
        rear end, on the beam's x axis [m]
    material
        name of its metal
    clamp
        mast clamp on the beam's x axis; None puts it at the balance point [m]
    offset
        boom axis beside the mast axis [m]
    drag_area
        drag area of boxes, brackets and coils [m^2]
    tie
        tie from above, or None
    fitting
        what sits on it (n_fittings,)
    """

    beam: str
    diameter: float
    wall: float
    length: float
    rear_end: float
    material: str
    clamp: float | None = None
    offset: float = 0.0
    drag_area: float = 0.0
    tie: BoomTiePlan | None = None
    fitting: tuple[FittingPlan, ...] = ()

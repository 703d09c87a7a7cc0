"""Moment and sag from place to place along a boom, for pictures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.structure.beam.boom import (
    BoomTie,
    PointMass,
    _arm_loads,
    _deflection,
    _moment,
    tie_forces,
    weight_places,
)
from boomwright.structure.beam.tubing import TubeShape
from boomwright.structure.inputs import Boom

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoomCourse:
    """One boom from its rear to its front end."""

    place: Floats  #: place on the beam's x axis [m] (n_places,)
    #: bending moment of the weights, the tie's lift counted; above zero bends the arm down [N m]
    #: (n_places,)
    moment: Floats
    wind_moment: Floats  #: bending moment of the wind across the boom [N m] (n_places,)
    sag: Floats  #: sag below the clamp [m] (n_places,)

    def __post_init__(self) -> None:
        for name in ("place", "moment", "wind_moment", "sag"):
            object.__setattr__(self, name, read_only(getattr(self, name)))


def boom_course(
    *,
    boom: Boom,
    masses: Sequence[PointMass],
    clamp: float,
    line_weight: float,
    line_wind: float,
    winds: Sequence[tuple[float, float]] = (),
) -> BoomCourse:
    """Follow moment and sag along a boom clamped at the mast.

    Args:
        masses: everything on it except the boom itself (n_masses,)
        clamp: mast clamp on the beam's x axis [m]
        line_weight: weight of a metre of boom [N/m]
        line_wind: wind across a metre of boom [N/m]
        winds: place on the beam's x axis and wind on each thing on it [m, N] (n_winds, 2)
    """
    arms = [
        arm_course(
            shape=boom.shape,
            elastic_modulus=boom.material.elastic_modulus,
            length=length,
            masses=masses,
            clamp=clamp,
            side=side,
            line_weight=line_weight,
            line_wind=line_wind,
            winds=winds,
            tie=boom.tie,
        )
        for side, length in (
            (-1, clamp - boom.rear_end),
            (1, boom.rear_end + boom.length - clamp),
        )
    ]
    rear, front = arms
    columns = [
        np.concatenate((back[::-1], ahead)) for back, ahead in zip(rear[1:], front[1:], strict=True)
    ]
    place = np.concatenate((clamp - rear[0][::-1], clamp + front[0]))
    return BoomCourse(place=place, moment=columns[0], wind_moment=columns[1], sag=columns[2])


def arm_course(
    *,
    shape: TubeShape,
    elastic_modulus: float,
    length: float,
    masses: Sequence[PointMass],
    clamp: float,
    side: int,
    line_weight: float,
    line_wind: float,
    winds: Sequence[tuple[float, float]] = (),
    tie: BoomTie | None = None,
    steps: int = 60,
) -> tuple[Floats, Floats, Floats, Floats]:
    """Follow one arm from the clamp to its end.

    Args:
        elastic_modulus: Young's modulus of the boom [Pa]
        length: length of the arm [m]
        masses: everything on the boom except the boom itself (n_masses,)
        clamp: mast clamp on the beam's x axis [m]
        side: -1 for the rear arm, 1 for the front one
        line_weight: weight of a metre of boom [N/m]
        line_wind: wind on a metre of boom [N/m]
        winds: place on the beam's x axis and wind on each thing on it [m, N] (n_winds, 2)
        tie: tie from above, or None

    Returns:
        distance from the clamp [m], moment of the weights [N m], moment of the wind [N m], sag
        [m] (4,
            n_places)
    """
    loads = _arm_loads(weight_places(masses), clamp, side)
    gusts = _arm_loads(winds, clamp, side)
    ei = elastic_modulus * shape.second_moment
    at = 0.0 if tie is None else tie.share * length
    # Loads and the tie make corners, so they get places of their own.
    corners = [a for a, _ in (*loads, *gusts) if 0.0 < a < length]
    x = np.unique(np.concatenate((np.linspace(0.0, length, steps + 1), corners, [at])))
    moment = np.array([_moment(loads, line_weight, length, float(a)) for a in x])
    sag = np.array([_deflection(loads, line_weight, length, float(a), ei) for a in x])
    if tie is not None and length > 0.0:
        lift = tie_forces(
            free_deflection=_deflection(loads, line_weight, length, at, ei),
            at=at,
            stiffness=ei,
            tie=tie,
        ).lift
        near, far = np.minimum(x, at), np.maximum(x, at)
        moment = moment - lift * np.maximum(0.0, at - x)
        sag = sag - lift * near**2 * (3.0 * far - near) / (6.0 * ei)
    sideways = np.array([_moment(gusts, line_wind, length, float(a)) for a in x])
    return x, moment, sideways, sag

"""Moment and sag from place to place along a boom, for pictures."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.structure.beam.boom import (
    BoomPress,
    BoomTie,
    PointMass,
    _arm_loads,
    _deflection,
    _moment,
    arm_moment,
    outer_presses,
    tie_forces,
    wind_moments,
)
from boomwright.structure.beam.tubing import TubeShape
from boomwright.structure.inputs import Boom


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoomCourse(ReadOnlyArrays):
    """One boom from its rear to its front end."""

    place: Floats  #: place on the beam's x axis [m] (n_places,)
    #: bending moment of the weights, the tie's lift counted; above zero bends the arm down [N m]
    #: (n_places,)
    moment: Floats
    wind_moment: Floats  #: bending moment of the wind across the boom [N m] (n_places,)
    #: moment that strains the boom as much as all that acts on it, wind from either side [N m]
    #: (n_places,)
    whole_moment: Floats
    sag: Floats  #: sag below the clamp [m] (n_places,)


def boom_course(
    *,
    boom: Boom,
    masses: Sequence[PointMass],
    clamp: float,
    line_weight: float,
    line_wind: float,
    presses: Sequence[BoomPress] = (),
) -> BoomCourse:
    """Follow moment and sag along a boom clamped at the mast.

    Args:
        masses: everything on it except the boom itself (n_masses,)
        clamp: mast clamp on the beam's x axis [m]
        line_weight: weight of a metre of boom [N/m]
        line_wind: wind across a metre of boom [N/m]
        presses: wind on what stands off the boom (n_presses,)
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
            tie=boom.tie,
            presses=presses,
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
    moment, wind, whole, sag = columns
    return BoomCourse(place=place, moment=moment, wind_moment=wind, whole_moment=whole, sag=sag)


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
    tie: BoomTie | None = None,
    presses: Sequence[BoomPress] = (),
) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Follow one arm from the clamp to its end.

    Args:
        length: length of the arm [m]
        masses: everything on the boom except the boom itself (n_masses,)
        clamp: mast clamp on the beam's x axis [m]
        side: -1 for the rear arm, 1 for the front one
        line_weight: weight of a metre of boom [N/m]
        line_wind: wind on a metre of boom [N/m]

        presses: wind on what stands off the boom (n_presses,)

    Returns:
        distance from the clamp [m], moments of the weights, of the wind across and of all
        [N m], sag [m] (5, n_places)
    """
    loads, outer = _arm_loads(masses, clamp, side), outer_presses(presses, clamp, side)
    ei = elastic_modulus * shape.second_moment
    at = 0.0 if tie is None else tie.share * length
    # Loads and the tie make corners, so they get places of their own.
    corners = [a for a, _ in loads if 0.0 < a < length]
    corners += [each.place for each in outer if each.place < length]
    x = np.unique(np.concatenate((np.linspace(0.0, length, 60 + 1), corners, [at])))
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
    winds = [wind_moments(outer, line_wind, length, float(a)) for a in x]
    whole = [
        arm_moment(down=float(down), across=across, couple=couple, twist=twist)
        for down, (across, couple, twist) in zip(moment, winds, strict=True)
    ]
    return x, moment, np.array([across for across, _, _ in winds]), np.array(whole), sag

"""The boom: where it balances, how it bends and sags, what a tie from above takes off."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan, cos, hypot, isfinite, sin, sqrt, tan

import numpy as np

from boomwright.base import STANDARD_GRAVITY, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Material
from boomwright.structure.beam.joints import TubeJoint
from boomwright.structure.beam.tubing import TubeShape
from boomwright.structure.faults import (
    StructureInputError,
    require_not_negative,
    require_positive,
    require_tube,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PointMass:
    """Something that sits at one place along the boom."""

    name: str
    position: float  #: place along the boom, on the beam's x axis [m]
    mass: float  #: mass [kg]
    span: float = 0.0  #: length across the boom over which it is spread, tip to tip [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomTie:
    """A tie from the mast down to the boom on both sides."""

    share: float  #: place of the tie along each boom arm, 0.6 to 0.7 is usual (common practice) [-]
    rise: float  #: height of its upper end above the boom [m]
    area: float  #: cross section of the tie [m^2]
    elastic_modulus: float  #: Young's modulus of the tie [Pa]

    def __post_init__(self) -> None:
        whole = (self.rise, self.area, self.elastic_modulus)
        if not (0.0 < self.share <= 1.0 and all(np.isfinite(v) and v > 0.0 for v in whole)):
            msg = f"boom tie {self}: share must be in 0..1, other figures above zero"
            raise StructureInputError(msg)


@dataclass(frozen=True, slots=True, kw_only=True)
class Boom:
    """The boom of one beam and how it hangs on the mast."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    length: float  #: length [m]
    rear_end: float  #: rear end on the beam's x axis [m]
    material: Material  #: its metal
    #: mast clamp on the beam's x axis; None puts it at the balance point [m]
    clamp: float | None = None
    offset: float = 0.0  #: boom axis beside the mast axis, sign by side [m]
    tie: BoomTie | None = None  #: tie from above, or None
    #: drag area of all hardware as its owner gives it; the larger of this and that of the exposed
    #: solids counts [m^2]
    extra_drag_area: float = 0.0
    joints: tuple[TubeJoint, ...] = ()  #: where its tubes meet (n_joints,)
    held: float = 0.0  #: half the length of the plate that holds it [m]

    def __post_init__(self) -> None:
        require_tube(place="boom", diameter=self.diameter, wall=self.wall)
        require_positive(place="boom length", value=self.length, unit="m")
        require_not_negative(place="drag area of fittings", value=self.extra_drag_area, unit="m^2")
        if not (isfinite(self.rear_end) and isfinite(self.offset)):
            msg = f"boom rear end {self.rear_end} m and offset {self.offset} m must be numbers"
            raise StructureInputError(msg)
        if self.clamp is not None and not (
            self.rear_end <= self.clamp <= self.rear_end + self.length
        ):
            raise StructureInputError(f"mast clamp at {self.clamp} m is not on the boom: move it")

    @property
    def shape(self) -> TubeShape:
        """Cross section."""
        return TubeShape(diameter=self.diameter, wall=self.wall)

    @property
    def mass(self) -> float:
        """Mass of the bare boom [kg]."""
        return self.shape.area * self.length * self.material.density

    def arms(self, clamp: float) -> tuple[float, float]:
        """Length of the rear and of the front arm from a clamp [m] (2,).

        Args:
            clamp: on the beam's x axis [m]
        """
        return clamp - self.rear_end, self.rear_end + self.length - clamp

    @property
    def middle(self) -> float:
        """Middle of the boom on the beam's x axis [m]."""
        return self.rear_end + self.length / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomPress:
    """Wind on what stands off the boom at one place, handed to it there; or that of one pascal."""

    place: float  #: on the boom's x axis, or from the clamp outwards [m]
    across: float  #: force across the boom [N]
    couple: float = 0.0  #: of wind along the boom, in the upright plane through it [N m]
    twist: float = 0.0  #: of wind across it, about its axis [N m]

    def times(self, pressure: float) -> BoomPress:
        """Wind of another pressure, of that of one pascal."""
        return BoomPress(
            place=self.place,
            across=pressure * self.across,
            couple=pressure * self.couple,
            twist=pressure * self.twist,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class BoomLoading:
    """What bends a boom."""

    masses: tuple[PointMass, ...]  #: everything on it except the boom itself (n_masses,)
    line_weight: float  #: weight of a metre of boom [N/m]
    line_wind: float  #: wind across a metre of boom [N/m]
    presses: tuple[BoomPress, ...]  #: wind on what stands off the boom (n_presses,)


@dataclass(frozen=True, slots=True, kw_only=True)
class TieForces:
    """What the tie carries on one side."""

    lift: float  #: upward force on the boom [N]
    pull: float  #: tension of the tie [N]
    push: float  #: compression of the boom between tie and mast [N]
    angle: float  #: tie against the boom [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmBending:
    """One arm of the boom, from the clamp to its end."""

    length: float  #: length of the arm [m]
    dead_moment: float  #: moment of all weights at the clamp, no tie [N m]
    moment: float  #: largest vertical moment with the tie, if there is one [N m]
    #: moment of the wind across the boom and all that stands off it, at the clamp [N m]
    wind_moment: float
    sag: float  #: sag of the end, with the tie if there is one [m]
    stress: float  #: weights and wind together [Pa]
    tie: TieForces | None  #: forces of the tie, or None


def mass_of(masses: Sequence[PointMass]) -> float:
    """Mass of all of them [kg]."""
    return sum(point.mass for point in masses)


def balance_point(*, masses: Sequence[PointMass]) -> float:
    """Centre of gravity on the beam's x axis, sum(m x) / sum(m) [m].

    Args:
        masses: everything that hangs on the mast clamp, the boom at its middle (n_masses,)

    Raises:
        StructureInputError: when there is no mass
    """
    total = mass_of(masses)
    if not total > 0.0:
        raise StructureInputError("the beam has no mass: give wall thicknesses or masses")
    return sum(point.mass * point.position for point in masses) / total


def moment_of_inertia(*, masses: Sequence[PointMass], axis: float) -> float:
    """Inertia about the mast, sum of m (r^2 + L^2 / 12), the boom's own length left out [kg m^2].

    Args:
        masses: everything that turns; elements with their span (n_masses,)
        axis: mast on the beam's x axis [m]
    """
    return sum(p.mass * ((p.position - axis) ** 2 + p.span**2 / 12.0) for p in masses)


def boom_inertia(*, mass: float, length: float, middle: float, axis: float) -> float:
    """Moment of inertia of the boom itself about the mast, m (L^2 / 12 + off^2) [kg m^2].

    Args:
        mass: mass of the boom [kg]
        length: length of the boom [m]
        middle: its middle on the beam's x axis [m]
        axis: mast on the beam's x axis [m]
    """
    return mass * (length**2 / 12.0 + (middle - axis) ** 2)


def _arm_loads(masses: Sequence[PointMass], clamp: float, side: int) -> list[tuple[float, float]]:
    loads = []
    for point in masses:
        arm = side * (point.position - clamp)
        if arm > 0.0:
            loads.append((arm, point.mass * STANDARD_GRAVITY))
    return loads


def _deflection(
    loads: Sequence[tuple[float, float]], line: float, length: float, x: float, ei: float
) -> float:
    total = line * x**2 * (6.0 * length**2 - 4.0 * length * x + x**2) / 24.0
    for a, force in loads:
        near, far = min(a, x), max(a, x)
        total += force * near**2 * (3.0 * far - near) / 6.0
    return total / ei


def _moment(loads: Sequence[tuple[float, float]], line: float, length: float, x: float) -> float:
    return line * (length - x) ** 2 / 2.0 + sum(w * (a - x) for a, w in loads if a > x)


def outer_presses(presses: Sequence[BoomPress], clamp: float, side: int) -> tuple[BoomPress, ...]:
    """What presses on one arm, each at its distance from the clamp (n,).

    Args:
        presses: all of the boom (n_presses,)
        clamp: mast clamp on the beam's x axis [m]
        side: -1 for the rear arm, 1 for the front one
    """
    found = (replace(each, place=side * (each.place - clamp)) for each in presses)
    return tuple(each for each in found if each.place > 0.0)


def wind_moments(
    presses: Sequence[BoomPress], line: float, length: float, x: float
) -> tuple[float, float, float]:
    """Moment of the wind across an arm, of wind along it, and its twist at a place [N m] (3,).

    Args:
        presses: on this arm, from the clamp outwards (n_presses,)
        line: wind on a metre of boom [N/m]
        length: length of the arm [m]
        x: distance from the clamp [m]
    """
    beyond = [each for each in presses if each.place > x]
    across = line * (length - x) ** 2 / 2.0 + sum(p.across * (p.place - x) for p in beyond)
    return across, abs(sum(p.couple for p in beyond)), abs(sum(p.twist for p in beyond))


def arm_moment(*, down: float, across: float, couple: float, twist: float) -> float:
    """Bending moment that strains a round boom as much as all of these together [N m].

    The wind comes across the boom or along it, whichever strains it more.

    Twist counts with half of the square root of three, as in the stress of a tube {beam-theory}.

    Args:
        down: moment of the weights [N m]
        across, couple, twist: as ``wind_moments`` gives them [N m]
    """
    return max(hypot(down, across, sqrt(0.75) * twist), abs(down) + couple)


def tie_forces(*, free_deflection: float, at: float, stiffness: float, tie: BoomTie) -> TieForces:
    """Force of a tie from compatibility, R = y0 / (a^3 / 3EI + Lt / (At Et sin^2 b)) [N].

    Args:
        free_deflection: sag of the boom at the tie, without it [m]
        at: distance of the tie from the mast [m]
        stiffness: bending stiffness EI of the boom [N m^2]
    """
    angle = atan(tie.rise / at)
    length = at / cos(angle)
    give = at**3 / (3.0 * stiffness)
    stretch = length / (tie.area * tie.elastic_modulus * sin(angle) ** 2)
    lift = free_deflection / (give + stretch)
    return TieForces(lift=lift, pull=lift / sin(angle), push=lift / tan(angle), angle=angle)


def arm_bending(
    *,
    shape: TubeShape,
    elastic_modulus: float,
    length: float,
    loads: Sequence[tuple[float, float]],
    line_weight: float,
    line_wind: float,
    tie: BoomTie | None = None,
    presses: Sequence[BoomPress] = (),
) -> ArmBending:
    """Bend one arm by its weights downwards and by the wind sideways.

    Args:
        length: length of the arm [m]
        loads: distance from the clamp and weight of each thing on it [m, N] (n_loads, 2)
        line_weight: weight of a metre of boom [N/m]
        line_wind: wind on a metre of boom [N/m]
        presses: wind on what stands off this arm, from the clamp outwards (n_presses,)
    """

    def strained(down: float, x: float) -> float:
        across, couple, twist = wind_moments(presses, line_wind, length, x)
        return arm_moment(down=down, across=across, couple=couple, twist=twist) / shape.modulus

    ei = elastic_modulus * shape.second_moment
    dead = _moment(loads, line_weight, length, 0.0)
    wind, _, _ = wind_moments(presses, line_wind, length, 0.0)
    sag = _deflection(loads, line_weight, length, length, ei)
    forces, moment, stress = None, dead, 0.0
    if tie is None or length <= 0.0:
        stress = strained(dead, 0.0)
    else:
        at, moment = tie.share * length, 0.0
        free = _deflection(loads, line_weight, length, at, ei)
        forces = tie_forces(free_deflection=free, at=at, stiffness=ei, tie=tie)
        # Between loads the moment is smooth, so a fine even grid with the tie point suffices.
        for x in (*np.linspace(0.0, length, 101), at):
            here = _moment(loads, line_weight, length, float(x)) - forces.lift * max(0.0, at - x)
            push = forces.push / shape.area if x <= at else 0.0
            moment = max(moment, abs(here))
            stress = max(stress, strained(here, float(x)) + push)
        sag -= forces.lift * at**2 * (3.0 * length - at) / (6.0 * ei)
    return ArmBending(
        length=length,
        dead_moment=dead,
        moment=moment,
        wind_moment=wind,
        sag=sag,
        stress=stress,
        tie=forces,
    )


def boom_arms(
    *,
    shape: TubeShape,
    elastic_modulus: float,
    rear_end: float,
    length: float,
    clamp: float,
    masses: Sequence[PointMass],
    line_weight: float,
    line_wind: float,
    tie: BoomTie | None = None,
    presses: Sequence[BoomPress] = (),
) -> tuple[ArmBending, ArmBending]:
    """Bend both arms of a boom clamped at the mast.

    Args:
        rear_end: rear end of the boom on the beam's x axis [m]
        length: length of the boom [m]
        clamp: mast clamp on the beam's x axis [m]
        masses: everything on the boom except the boom itself (n_masses,)
        line_weight: weight of a metre of boom [N/m]
        line_wind: wind across a metre of boom [N/m]
        presses: wind on what stands off the boom (n_presses,)

    Raises:
        StructureInputError: when the clamp is not on the boom
    """
    if not rear_end <= clamp <= rear_end + length:
        msg = f"mast clamp at {clamp} m is not on the boom {rear_end}..{rear_end + length} m"
        raise StructureInputError(msg)
    rear, front = (
        arm_bending(
            shape=shape,
            elastic_modulus=elastic_modulus,
            length=arm,
            loads=_arm_loads(masses, clamp, side),
            line_weight=line_weight,
            line_wind=line_wind,
            tie=tie,
            presses=outer_presses(presses, clamp, side),
        )
        for side, arm in ((-1, clamp - rear_end), (1, rear_end + length - clamp))
    )
    return rear, front


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

    def strain(self, place: float) -> float:
        """What ``whole_moment`` is at a place [N m].

        Args:
            place: on the beam's x axis [m]
        """
        return float(np.interp(place, self.place, self.whole_moment))


def boom_course(*, boom: Boom, clamp: float, loading: BoomLoading) -> BoomCourse:
    """Follow moment and sag along a boom clamped at the mast.

    Args:
        clamp: mast clamp on the beam's x axis [m]
    """
    rear, front = (_arm_course(boom, clamp, side, loading) for side in (-1, 1))
    place = np.concatenate((clamp - rear[0][::-1], clamp + front[0]))
    moment, wind, whole, sag = (
        np.concatenate((back[::-1], ahead)) for back, ahead in zip(rear[1:], front[1:], strict=True)
    )
    return BoomCourse(place=place, moment=moment, wind_moment=wind, whole_moment=whole, sag=sag)


def _arm_course(boom: Boom, clamp: float, side: int, loading: BoomLoading) -> tuple[Floats, ...]:
    """Follow one arm from the clamp to its end, the rear one by side -1 and the front one by 1.

    Returns:
        distance from the clamp [m], moments of the weights, of the wind across and of all
        [N m], sag [m] (5, n_places)
    """
    tie, length, line = boom.tie, boom.arms(clamp)[side > 0], loading.line_weight
    loads = _arm_loads(loading.masses, clamp, side)
    outer = outer_presses(loading.presses, clamp, side)
    ei = boom.material.elastic_modulus * boom.shape.second_moment
    at = 0.0 if tie is None else tie.share * length
    # Loads and the tie make corners, so they get places of their own.
    corners = [a for a, _ in loads if 0.0 < a < length]
    corners += [each.place for each in outer if each.place < length]
    x = np.unique(np.concatenate((np.linspace(0.0, length, 60 + 1), corners, [at])))
    moment = np.array([_moment(loads, line, length, float(a)) for a in x])
    sag = np.array([_deflection(loads, line, length, float(a), ei) for a in x])
    if tie is not None and length > 0.0:
        free = _deflection(loads, line, length, at, ei)
        lift = tie_forces(free_deflection=free, at=at, stiffness=ei, tie=tie).lift
        near, far = np.minimum(x, at), np.maximum(x, at)
        moment = moment - lift * np.maximum(0.0, at - x)
        sag = sag - lift * near**2 * (3.0 * far - near) / (6.0 * ei)
    winds = [wind_moments(outer, loading.line_wind, length, float(a)) for a in x]
    whole = [
        arm_moment(down=float(down), across=across, couple=couple, twist=twist)
        for down, (across, couple, twist) in zip(moment, winds, strict=True)
    ]
    return x, moment, np.array([across for across, _, _ in winds]), np.array(whole), sag

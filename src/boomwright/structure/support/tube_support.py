"""A pipe or tube, in the ground, guyed or on brackets of a building, with the beam on top."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise
from math import inf

import numpy as np

from boomwright.base.records import dataclass, replace
from boomwright.structure.beam.tubing import MetalTube
from boomwright.structure.faults import (
    BucklesError,
    StructureInputError,
    require_each,
    require_tube,
)
from boomwright.structure.support.columns import AMPLIFIED_AT, FREE_TOP, STIFFNESS_SHARE
from boomwright.structure.support.guy_solver import GuyedMast, GuyedState, highest_pulls, scanned
from boomwright.structure.support.guys import GuyLevel, GuyLoad
from boomwright.structure.support.held_beam import (
    SideLoad,
    SupportCourse,
    along,
    held_course,
    upright_beam,
)
from boomwright.structure.support.house_brackets import (
    HouseBrackets,
    bracketed_course,
    free_top_factor,
)
from boomwright.structure.support.rotator import Cage


@dataclass(frozen=True, slots=True, kw_only=True)
class TubularSupport(MetalTube):
    """One tube from the ground up, or from where brackets hold its lower end."""

    height: float  #: height above ground [m]
    fixed: bool = True  #: True when set in its footing so that it cannot tilt
    brackets: HouseBrackets | None = None  #: brackets of a building that hold it
    cage: Cage | None = None  #: cage that is its upper end, taken to be as stiff as the tube

    def __post_init__(self) -> None:
        require_tube(place="support tube", diameter=self.diameter, wall=self.wall)
        require_each(
            "support tube",
            ("height", self.height, "m"),
            ("modulus", self.elastic_modulus, "Pa"),
            ("density", self.density, "kg/m^3"),
            ("yield", self.yield_strength, "Pa"),
        )
        if self.brackets is not None and self.brackets.top > self.height:
            msg = f"the uppermost bracket at {self.brackets.top:g} m is above the tube's top"
            raise StructureInputError(msg)

    @property
    def length(self) -> float:
        """Its length [m]."""
        return self.height - (0.0 if self.brackets is None else self.brackets.foot)

    @property
    def weight(self) -> float:
        """Weight of the tube, without what its cage weighs [N]."""
        caged = 0.0 if self.cage is None else self.cage.height
        return self.weight_per_length * (self.length - caged)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldLength:
    """A length of the tube from one point that holds it to the next, or to its free top."""

    low: float  #: its ends above the ground [m]
    high: float  #: its ends above the ground [m]
    column_length: float  #: length times length factor [m]
    axial: float  #: largest force down it [N]
    #: largest bending moment in it, grown by the weight; infinite when the tube buckles [N m]
    moment: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeBending:
    """A tubular support under wind and weight."""

    moment: float  #: largest moment of the wind [N m]
    #: growth of that moment by the weight on the bent tube; infinite when it buckles [-]
    amplification: float
    axial: float  #: largest force down the tube [N]
    stress: float  #: bending, grown, and axial stress together [Pa]
    base_moment: float  #: moment on the footing [N m]
    base_shear: float  #: horizontal force on the footing [N]
    #: the tube from one holding point to the next, upwards (n_lengths,)
    lengths: tuple[HeldLength, ...]
    course: SupportCourse | None  #: moment, shear and compression along it; None when it buckles
    #: largest force down it just below each ring, as the rings were given [N] (n_levels,)
    below: tuple[float, ...] = ()
    ice_weight: float = 0.0  #: weight of the ice on the tube itself [N]
    states: tuple[GuyedState, ...] = ()  #: equilibria of the guys, empty without guys
    #: largest force sideways on each bracket, as they were given [N] (n_brackets,)
    bracket_forces: tuple[float, ...] = ()


def _pressing(tube: TubularSupport, on_top: float, ice: float) -> Callable[[float], float]:
    """Weight that a tube from the ground up bears at a height in m [N]."""
    own = tube.weight + ice
    return lambda height: on_top + own * (1.0 - height / tube.height)


def free_tube(
    *,
    tube: TubularSupport,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    weight_on_top: float,
    ice_weight: float = 0.0,
) -> TubeBending:
    """Bend a free-standing tube fixed in its footing.

    Args:
        line_load: wind on a metre of tube as a function of height in m [N/m]
        weight_on_top: weight of what it carries [N]
        ice_weight: weight of the ice on the tube itself [N]
    """
    bearing = _pressing(tube, weight_on_top, ice_weight)
    course = partial(
        held_course,
        height=tube.height,
        held=(),
        stiffness=STIFFNESS_SHARE * tube.stiffness,
        loads=loads,
        line_load=line_load,
        bearing=bearing,
        pinned=False,
    )
    try:
        grown = course(grown=True)
    except BucklesError:
        grown = None
    return _bending(tube, (), course(grown=False), grown, bearing, ice_weight)


def guyed_tube(
    *,
    tube: TubularSupport,
    levels: tuple[GuyLevel, ...],
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    weight_on_top: float,
    ice_weight: float = 0.0,
    guy_loads: tuple[GuyLoad, ...] = (),
) -> TubeBending:
    """Bend a guyed tube, every wind direction scanned.

    A tube that buckles keeps the pulls its guys have while it still stands straight.

    Args:
        line_load: wind on a metre of tube as a function of height in m [N/m]
        weight_on_top: weight of what it carries [N]
        ice_weight: weight of the ice on the tube itself [N]
        guy_loads: weight and wind on the guys of each ring (n_levels,)
    """
    straight = GuyedMast(
        height=tube.height,
        levels=levels,
        bending_stiffness=tube.stiffness,
        pinned=not tube.fixed,
        guy_loads=guy_loads,
    )
    mast = replace(straight, weight_above=_pressing(tube, weight_on_top, ice_weight))
    first, plain = scanned(mast=straight, loads=loads, line_load=line_load)
    grown: SupportCourse | None
    try:
        states, grown = scanned(mast=mast, loads=loads, line_load=line_load)
    except BucklesError:
        states, grown = first, None
    bearing = mast.bearing(highest_pulls(states))
    return _bending(tube, levels, plain, grown, bearing, ice_weight, states)


def bracketed_tube(
    *,
    tube: TubularSupport,
    brackets: HouseBrackets,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    weight_on_top: float,
    ice_weight: float = 0.0,
) -> TubeBending:
    """Bend a tube held by brackets of a building, whose foot may hold sideways or slip.

    Args:
        loads: wind forces on what it carries, by height above ground (n_loads,)
        line_load: wind on a metre of tube as a function of height in m [N/m]
        weight_on_top: weight of what it carries [N]
        ice_weight: weight of the ice on the tube itself [N]
    """
    if any(load.height < brackets.foot for load in loads):
        msg = "something it carries hangs below its lower end: correct the heights"
        raise StructureInputError(msg)
    own = (tube.weight + ice_weight) / tube.length

    def bearing(height: float) -> float:
        # Clear of the ground the brackets bear it, and what is below the lowest one hangs.
        hangs = height < brackets.heights[0] and not brackets.stands
        return 0.0 if hangs else weight_on_top + own * (tube.height - height)

    beam = upright_beam(
        height=tube.length,
        marks=[height - brackets.foot for height in brackets.heights],
        stiffness=STIFFNESS_SHARE * tube.stiffness,
        loads=[replace(load, height=load.height - brackets.foot) for load in loads],
        line_load=lambda z: line_load(brackets.foot + z),
    )
    nodes, middles = (
        along(brackets.foot + places, bearing) for places in (beam.heights, beam.middles)
    )

    def largest(*, soft: bool) -> tuple[SupportCourse, np.ndarray]:
        courses, forces = [], []
        for loose in brackets.ways:
            # A foot that slips is not pressed sideways by what it bears.
            slips = loose & (beam.middles + brackets.foot < brackets.heights[0])
            shaped = beam.softened(AMPLIFIED_AT * np.where(slips, 0.0, middles)) if soft else beam
            course, force = bracketed_course(
                beam=shaped, brackets=brackets, loose=loose, compression=nodes
            )
            courses.append(course)
            forces.append(force)
        moment = np.max([each.moment for each in courses], axis=0)
        shear = np.max([each.shear for each in courses], axis=0)
        return replace(courses[0], moment=moment, shear=shear), np.max(forces, axis=0)

    plain, forces = largest(soft=False)
    grown: SupportCourse | None
    try:
        grown, forces = largest(soft=True)
    except BucklesError:
        grown = None
    bent = _bending(tube, (), plain, grown, bearing, ice_weight)
    axial = bearing(brackets.foot if brackets.stands else brackets.heights[0])
    below = 0.0 if brackets.stands else own * (brackets.heights[0] - brackets.foot)
    return replace(
        bent,
        axial=axial + below,
        stress=bent.moment * bent.amplification / tube.shape.modulus + axial / tube.shape.area,
        base_moment=0.0,
        base_shear=float(forces[0]) if brackets.stands else 0.0,
        lengths=_bracketed_lengths(tube, brackets, grown, bearing),
        bracket_forces=tuple(float(force) for force in forces[1:]),
    )


def _bracketed_lengths(
    tube: TubularSupport,
    brackets: HouseBrackets,
    course: SupportCourse | None,
    bearing: Callable[[float], float],
) -> tuple[HeldLength, ...]:
    ends = [*((0.0,) if brackets.stands else ()), *brackets.heights]
    factors = [1.0] * (len(ends) - 1)
    free = tube.height - brackets.top
    if free > 1e-6 * tube.height:
        ends.append(tube.height)
        factors.append(free_top_factor(free=free, spacing=brackets.spacing))
    return _held_lengths(ends, factors, course, bearing)


def _held_lengths(
    ends: Sequence[float],
    factors: Sequence[float],
    course: SupportCourse | None,
    bearing: Callable[[float], float],
) -> tuple[HeldLength, ...]:
    return tuple(
        HeldLength(
            low=low,
            high=high,
            column_length=factor * (high - low),
            axial=bearing(low),
            moment=inf if course is None else course.most_moment(low, high),
        )
        for (low, high), factor in zip(pairwise(ends), factors, strict=True)
    )


def _bending(
    tube: TubularSupport,
    levels: Sequence[GuyLevel],
    plain: SupportCourse,
    grown: SupportCourse | None,
    bearing: Callable[[float], float],
    ice_weight: float,
    states: tuple[GuyedState, ...] = (),
) -> TubeBending:
    course = plain if grown is None else grown
    moment = float(np.max(plain.moment))
    most = inf if grown is None else max(moment, float(np.max(grown.moment)))
    axial = bearing(0.0)
    foot, shear = float(course.moment[0]), float(course.shear[0])
    if states:
        foot = max(state.base_moment for state in states)
        shear = max(state.base_shear for state in states)
    return TubeBending(
        moment=moment,
        amplification=most / moment if moment > 0.0 else 1.0,
        axial=axial,
        stress=most / tube.shape.modulus + axial / tube.shape.area,
        base_moment=inf if grown is None and tube.fixed else foot,
        base_shear=shear,
        lengths=_lengths(tube, levels, grown, bearing),
        course=grown,
        below=tuple(bearing(level.height) for level in levels),
        ice_weight=ice_weight,
        states=states,
    )


def _lengths(
    tube: TubularSupport,
    levels: Sequence[GuyLevel],
    course: SupportCourse | None,
    bearing: Callable[[float], float],
) -> tuple[HeldLength, ...]:
    # A guy that holds the very top leaves nothing free above it.
    little = 1e-6 * tube.height
    held = sorted({0.0, *(level.height for level in levels if level.height > little)})
    ends, factors = held, [1.0] * (len(held) - 1)
    if tube.height - held[-1] > little:
        ends, factors = [*held, tube.height], [*factors, FREE_TOP]
    # A ring presses what is below it only.
    return _held_lengths(ends, factors, course, lambda low: bearing(low + little))

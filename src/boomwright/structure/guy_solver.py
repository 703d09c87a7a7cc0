"""A guyed mast from every wind direction: a beam on guys, solved for its one equilibrium.

The mast is a beam in both planes. Without ``guy_loads`` every guy is a straight bar that pulls
with T = T0 + EA/L x growth of its length, and not at all when that would be negative. With
them it hangs as a cable under its weight, ice and wind, and brings half of that to the mast. Both
laws make the energy convex, so Newton steps with a line search end at the one equilibrium; the
end is checked.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from boomwright.base import BoomwrightError
from boomwright.structure.faults import StructureInputError
from boomwright.structure.guy_laws import GuyLaw
from boomwright.structure.guy_rings import (
    Guy,
    guy_share,
    guys_of,
    law_of,
    pull_rows,
    slack_count,
    upper_ends,
)
from boomwright.structure.guys import GuyLevel, GuyLoad
from boomwright.structure.vibration import stiffness_matrix

Floats = NDArray[np.float64]


class GuySolverError(BoomwrightError):
    """The guy solver found no equilibrium it can vouch for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLoad:
    """A horizontal force on the guyed mast."""

    height: float  #: height above the base [m]
    force: float  #: force along the wind [N]
    #: moment that tips it further along the wind, as of a mast above the top [N m]
    moment: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyedState:
    """Equilibrium for one wind direction."""

    wind_deg: float  #: direction the wind blows to [deg]
    #: tension of every guy at its upper end, level by level [N] (n_levels, n_guys)
    tensions: tuple[tuple[float, ...], ...]
    compression: float  #: downward pull of all guys on the mast [N]
    base_shear: float  #: horizontal force on the base [N]
    base_moment: float  #: moment on the base, 0 when pinned [N m]
    moment: float  #: largest bending moment of the mast [N m]
    drift: float  #: largest sideways movement [m]
    slack: int  #: number of guys without pull, or hanging through by more than a twentieth


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyedMast:
    """A guyed mast as the solver sees it."""

    height: float  #: top of the mast above its base [m]
    levels: tuple[GuyLevel, ...]  #: guy rings, at least one (n_levels,)
    #: EI; None is allowed only for one ring on a pinned base, where statics decides [N m^2]
    bending_stiffness: float | None = None
    pinned: bool = True  #: True for a base that can tilt, False for one set in concrete
    #: weight and wind on the guys of each ring, which then hang as cables; empty takes straight
    #: weightless guys (n_levels,)
    guy_loads: tuple[GuyLoad, ...] = ()

    def __post_init__(self) -> None:
        if not self.levels:
            msg = "a guyed mast needs at least one guy level"
            raise StructureInputError(msg)
        if any(level.height > self.height * (1 + 1e-9) for level in self.levels):
            msg = f"a guy level lies above the top at {self.height} m: lower it"
            raise StructureInputError(msg)
        if self.bending_stiffness is None and (len(self.levels) > 1 or not self.pinned):
            msg = (
                "several guy levels or a fixed base share the wind by the bending stiffness of "
                "the mast: ask its maker for EI"
            )
            raise StructureInputError(msg)
        if self.guy_loads and len(self.guy_loads) != len(self.levels):
            msg = f"{len(self.guy_loads)} guy loads for {len(self.levels)} levels: one a level"
            raise StructureInputError(msg)
        for level in self.levels if self.guy_loads else ():
            least = level.strand.weight_per_length * level.anchor_radius
            if (level.initial_tension or 0.0) < least:
                msg = (
                    f"{level.name} hang through by an eighth of their length or more at the "
                    f"initial tension given: give at least {least:.0f} N"
                )
                raise StructureInputError(msg)


def _nodes(mast: GuyedMast, loads: Sequence[SideLoad]) -> Floats:
    marks = {0.0, mast.height, *(level.height for level in mast.levels)}
    marks |= {min(load.height, mast.height) for load in loads}
    places: list[float] = []
    for mark in sorted(marks):
        if not places or mark - places[-1] > 1e-6 * mast.height:
            places.append(mark)
    fine = [np.linspace(a, b, 5)[:-1] for a, b in pairwise(places)]
    return np.append(np.concatenate(fine), places[-1])


def _plane_stiffness(heights: Floats, ei: float) -> Floats:
    size = 2 * len(heights)
    stiff = np.zeros((size, size))
    for i, length in enumerate(np.diff(heights)):
        stiff[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += stiffness_matrix(
            stiffness=ei, length=float(length)
        )
    return stiff


def _plane_load(
    heights: Floats, loads: Sequence[SideLoad], line: Callable[[float], float]
) -> tuple[Floats, Floats]:
    # Consistent nodal loads and, kept apart, their fixed-end share for the moments.
    total = np.zeros(2 * len(heights))
    fixed = np.zeros((len(heights) - 1, 4))
    for i, length in enumerate(np.diff(heights)):
        w = line(float(heights[i] + length / 2.0))
        share = w * length / 2.0 * np.array([1.0, length / 6.0, 1.0, -length / 6.0])
        fixed[i] = share
        total[2 * i : 2 * i + 4] += share
    for load in loads:
        node = int(np.argmin(np.abs(heights - load.height)))
        total[2 * node] += load.force
        total[2 * node + 1] += load.moment + load.force * max(0.0, load.height - heights[-1])
    return total, fixed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Reduced:
    """The mast as its guys see it: everything between them folded away once, in each plane."""

    heights: Floats
    plane: Floats
    along: Floats
    fixed: Floats
    guys: tuple[Guy, ...]
    rows: Floats  # movement towards each anchor from that of the guyed nodes
    stiffness: Floats  # of the guyed nodes, both planes
    load: Floats  # on the guyed nodes in one plane, with what hangs between them
    folded: Floats  # movement of the other unknowns from that of the guyed nodes
    sagged: Floats  # and that of the loads between them
    masters: Floats
    slaves: Floats


def _reduced(
    mast: GuyedMast, loads: Sequence[SideLoad], line: Callable[[float], float]
) -> _Reduced:
    heights = _nodes(mast, loads)
    plane = _plane_stiffness(heights, _stiffness_for(mast))
    along, fixed = _plane_load(heights, loads, line)
    guys = tuple(guys_of(levels=mast.levels, loads=mast.guy_loads, heights=heights))
    nodes = sorted({guy.node for guy in guys})
    masters = np.array([2 * node for node in nodes])
    held = {0} if mast.pinned else {0, 1}
    slaves = np.array([i for i in range(len(along)) if i not in held and i not in set(masters)])
    inner, coupling = plane[np.ix_(slaves, slaves)], plane[np.ix_(slaves, masters)]
    solved = np.linalg.solve(inner, np.column_stack([coupling, along[slaves]]))
    folded, sagged = -solved[:, :-1], solved[:, -1]
    return _Reduced(
        heights=heights,
        plane=plane,
        along=along,
        fixed=fixed,
        guys=guys,
        rows=pull_rows(guys=guys, nodes=nodes),
        stiffness=np.kron(np.eye(2), plane[np.ix_(masters, masters)] + coupling.T @ folded),
        load=along[masters] + folded.T @ along[slaves],
        folded=folded,
        sagged=sagged,
        masters=masters,
        slaves=slaves,
    )


def _equilibrium(beam: Floats, force: Floats, rows: Floats, law: GuyLaw) -> tuple[Floats, Floats]:
    """Movements of the guyed nodes and tensions of the guys."""
    u = np.zeros(len(force))
    pull = law.pull(np.zeros(len(rows)))
    scale = float(np.max(np.abs(force))) + float(np.max(pull.tension)) + 1e-30
    now = pull.energy
    for _ in range(100):
        gradient = beam @ u - force - rows.T @ pull.tension
        if float(np.max(np.abs(gradient))) <= 1e-6 * scale:
            return u, pull.tension
        step = np.linalg.solve(beam + (rows.T * pull.slope) @ rows, -gradient)
        reach = 1.0
        while True:
            there = u + reach * step
            pull = law.pull(-(rows @ there))
            energy = float(0.5 * there @ beam @ there - force @ there) + pull.energy
            # Close to the end the energy no longer falls by more than its last digits.
            if energy <= now + 1e-12 * abs(now) or reach <= 1e-8:
                break
            reach /= 2.0
        u, now = there, energy
    msg = "the guys found no balance: check heights, anchors and initial tensions"
    raise GuySolverError(msg)


def _stiffness_for(mast: GuyedMast) -> float:
    if mast.bending_stiffness is not None:
        return mast.bending_stiffness
    # One ring on a pin is statically determinate: any stiffness of the guys' order will do.
    level = mast.levels[0]
    return level.strand.axial_stiffness / level.length * mast.height**3 / 3.0


def solve_guyed_mast(
    *,
    mast: GuyedMast,
    loads: Sequence[SideLoad],
    wind_deg: float,
    line_load: Callable[[float], float] = lambda _height: 0.0,
) -> GuyedState:
    """Find tensions, moments and drift for one wind direction.

    Parameters
    ----------
    loads
        horizontal forces along the wind (n_loads,)
    wind_deg
        direction the wind blows to [deg]
    line_load
        wind on a metre of mast as a function of height in m [N/m]

    Raises
    ------
    GuySolverError
        when no equilibrium is found
    """
    return _solved(mast, _reduced(mast, loads, line_load), wind_deg)


def _solved(mast: GuyedMast, system: _Reduced, wind_deg: float) -> GuyedState:
    guys, rows = system.guys, system.rows
    wind = np.array([cos(radians(wind_deg)), sin(radians(wind_deg)), 0.0])
    share = guy_share(guys=guys, rows=rows, wind=wind)
    force = np.concatenate([system.load * wind[0], system.load * wind[1]]) + share
    moving, taut = _equilibrium(system.stiffness, force, rows, law_of(guys=guys, wind=wind))
    on_nodes = rows.T @ taut + share
    planes = [
        _one_plane(mast, system, part, pulled, float(wind[k]))
        for k, (part, pulled) in enumerate(
            zip(np.split(moving, 2), np.split(on_nodes, 2), strict=True)
        )
    ]
    upper, down = upper_ends(guys=guys, tension=taut, wind=wind)
    tensions = tuple(
        tuple(float(t) for t, guy in zip(upper, guys, strict=True) if guy.level == number)
        for number in range(len(mast.levels))
    )
    (ux, rx, mx), (uy, ry, my) = planes
    return GuyedState(
        wind_deg=wind_deg,
        tensions=tensions,
        compression=down,
        base_shear=float(np.hypot(rx[0], ry[0])),
        base_moment=0.0 if mast.pinned else float(np.hypot(rx[1], ry[1])),
        moment=float(np.max(np.hypot(mx, my))),
        drift=float(np.max(np.hypot(ux[::2], uy[::2]))),
        slack=slack_count(guys=guys, tension=taut, wind=wind),
    )


def _one_plane(
    mast: GuyedMast, system: _Reduced, moved: Floats, pulled: Floats, share: float
) -> tuple[Floats, Floats, Floats]:
    """Movements, reactions at the base and end moments of every piece in one plane."""
    u = np.zeros(len(system.along))
    u[system.masters] = moved
    u[system.slaves] = system.folded @ moved + system.sagged * share
    acting = system.along * share
    acting[system.masters] += pulled
    reaction = system.plane @ u - acting
    moments = _moments(system.heights, u, system.fixed * share, mast)
    return u, reaction[:2], moments


def _moments(heights: Floats, u: Floats, fixed: Floats, mast: GuyedMast) -> Floats:
    ei = _stiffness_for(mast)
    ends = []
    for i, length in enumerate(np.diff(heights)):
        local = stiffness_matrix(stiffness=ei, length=float(length)) @ u[2 * i : 2 * i + 4]
        ends.extend([-(local[1] - fixed[i, 1]), local[3] - fixed[i, 3]])
    return np.array(ends)


def scan_wind(
    *,
    mast: GuyedMast,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float] = lambda _height: 0.0,
    step_deg: float = 10.0,
) -> tuple[GuyedState, ...]:
    """Solve the guyed mast for every wind direction.

    Parameters
    ----------
    loads
        horizontal forces along the wind (n_loads,)
    line_load
        wind on a metre of mast as a function of height in m [N/m]
    step_deg
        step of the wind direction; 10 meets the worst case of three and of four guys [deg]
    """
    first = np.degrees(mast.levels[0].first_azimuth)
    system = _reduced(mast, loads, line_load)
    return tuple(_solved(mast, system, float(first + a)) for a in np.arange(0.0, 360.0, step_deg))

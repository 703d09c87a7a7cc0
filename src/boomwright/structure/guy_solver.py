"""A guyed mast from every wind direction: beam on tension-only guys, solved by an active set.

The mast is a beam in both planes. Every guy pulls with T = T0 + EA/L x shortening of its
anchor distance, and not at all when that would be negative. The energy is convex, so a Newton
step on the taut guys with a line search ends at the one equilibrium; the end is checked.
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
from boomwright.structure.guys import GuyLevel, guy_compression, sagging_share
from boomwright.structure.vibration import stiffness_matrix

Floats = NDArray[np.float64]


class GuySolverError(BoomwrightError):
    """The guy solver found no equilibrium it can vouch for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLoad:
    """A horizontal force on the guyed mast.

    Parameters
    ----------
    height
        height above the base [m]
    force
        force along the wind [N]
    moment
        moment that tips it further along the wind, as of a mast above the top [N m]
    """

    height: float
    force: float
    moment: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyedState:
    """Equilibrium for one wind direction.

    Parameters
    ----------
    wind_deg
        direction the wind blows to [deg]
    tensions
        tension of every guy, level by level [N] (n_levels, n_guys)
    compression
        downward pull of all guys on the mast [N]
    base_shear
        horizontal force on the base [N]
    base_moment
        moment on the base, 0 when pinned [N m]
    moment
        largest bending moment of the mast [N m]
    drift
        largest sideways movement [m]
    slack
        number of slack guys [-]
    """

    wind_deg: float
    tensions: tuple[tuple[float, ...], ...]
    compression: float
    base_shear: float
    base_moment: float
    moment: float
    drift: float
    slack: int


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyedMast:
    """A guyed mast as the solver sees it.

    Parameters
    ----------
    height
        top of the mast above its base [m]
    levels
        guy rings, at least one [-] (n_levels,)
    bending_stiffness
        EI; None is allowed only for one ring on a pinned base, where statics decides [N m^2]
    pinned
        True for a base that can tilt, False for one set in concrete [-]
    soften_by_sag
        whether a sagging guy is taken as softer [-]
    """

    height: float
    levels: tuple[GuyLevel, ...]
    bending_stiffness: float | None = None
    pinned: bool = True
    soften_by_sag: bool = False

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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Guy:
    level: int
    node: int
    away: Floats
    stiffness: float
    slope: float
    initial: float


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


def _guys(mast: GuyedMast, heights: Floats) -> list[_Guy]:
    guys: list[_Guy] = []
    for number, level in enumerate(mast.levels):
        initial = level.initial_tension or 0.0
        share = 1.0
        if mast.soften_by_sag and initial > 0.0:
            share = sagging_share(strand=level.strand, span=level.anchor_radius, tension=initial)
        for azimuth in level.azimuths:
            guy = _Guy(
                level=number,
                node=int(np.argmin(np.abs(heights - level.height))),
                away=np.array([cos(azimuth), sin(azimuth)]),
                stiffness=share * level.strand.axial_stiffness / level.length,
                slope=cos(level.angle),
                initial=initial,
            )
            guys += [guy]
    return guys


def _pull_rows(guys: Sequence[_Guy], size: int) -> Floats:
    # Row g times displacements gives how far the mast moves towards anchor g, along the guy.
    rows = np.zeros((len(guys), 2 * size))
    for g, guy in enumerate(guys):
        rows[g, 2 * guy.node] = guy.away[0] * guy.slope
        rows[g, size + 2 * guy.node] = guy.away[1] * guy.slope
    return rows


def _equilibrium(
    beam: Floats, force: Floats, rows: Floats, stiff: Floats, initial: Floats
) -> tuple[Floats, Floats]:
    def tensions(u: Floats) -> Floats:
        return initial - stiff * (rows @ u)

    def energy(u: Floats) -> float:
        taut = np.maximum(tensions(u), 0.0)
        return float(0.5 * u @ beam @ u - force @ u + np.sum(taut**2 / (2.0 * stiff)))

    u = np.zeros(len(force))
    scale = float(np.max(np.abs(force))) + float(np.max(initial, initial=0.0)) + 1e-30
    for _ in range(100):
        pull = tensions(u)
        on = pull >= -1e-9 * scale
        gradient = beam @ u - force - rows.T @ np.maximum(pull, 0.0)
        # Slack guys keep a thousandth of their stiffness in the step only, so that a mast
        # held by one guy still has a way to go; the residual below knows nothing of it.
        hessian = beam + (rows.T * np.where(on, stiff, 1e-3 * stiff)) @ rows
        step = np.linalg.solve(hessian, -gradient)
        reach, now = 1.0, energy(u)
        while energy(u + reach * step) > now and reach > 1e-8:
            reach /= 2.0
        u = u + reach * step
        residual = beam @ u - force - rows.T @ np.maximum(tensions(u), 0.0)
        if float(np.max(np.abs(residual))) <= 1e-6 * scale:
            return u, np.maximum(tensions(u), 0.0)
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
    mast
        the guyed mast [-]
    loads
        horizontal forces along the wind [-] (n_loads,)
    wind_deg
        direction the wind blows to [deg]
    line_load
        wind on a metre of mast as a function of height in m [N/m]

    Returns
    -------
    GuyedState
        the equilibrium [-]

    Raises
    ------
    GuySolverError
        when no equilibrium is found
    """
    heights = _nodes(mast, loads)
    size = 2 * len(heights)
    plane = _plane_stiffness(heights, _stiffness_for(mast))
    along, fixed = _plane_load(heights, loads, line_load)
    wind = np.array([cos(radians(wind_deg)), sin(radians(wind_deg))])
    beam = np.kron(np.eye(2), plane)
    force = np.concatenate([along * wind[0], along * wind[1]])
    guys = _guys(mast, heights)
    rows = _pull_rows(guys, size)
    held = {0, size} if mast.pinned else {0, 1, size, size + 1}
    free = np.array([i for i in range(2 * size) if i not in held])
    moving, taut = _equilibrium(
        beam[np.ix_(free, free)],
        force[free],
        rows[:, free],
        np.array([guy.stiffness for guy in guys]),
        np.array([guy.initial for guy in guys]),
    )
    u = np.zeros(2 * size)
    u[free] = moving
    reaction = beam @ u - force - rows.T @ taut
    moments = [
        _moments(heights, plane, u[k * size : (k + 1) * size], fixed * wind[k], mast)
        for k in (0, 1)
    ]
    drift = np.hypot(u[0:size:2], u[size : 2 * size : 2])
    tensions = tuple(
        tuple(float(t) for t, guy in zip(taut, guys, strict=True) if guy.level == number)
        for number in range(len(mast.levels))
    )
    return GuyedState(
        wind_deg=wind_deg,
        tensions=tensions,
        compression=sum(
            guy_compression(tensions=row, angle=level.angle)
            for row, level in zip(tensions, mast.levels, strict=True)
        ),
        base_shear=float(np.hypot(reaction[0], reaction[size])),
        base_moment=0.0 if mast.pinned else float(np.hypot(reaction[1], reaction[size + 1])),
        moment=float(np.max(np.hypot(moments[0], moments[1]))),
        drift=float(np.max(drift)),
        slack=int(np.sum(taut <= 0.0)),
    )


def _moments(heights: Floats, plane: Floats, u: Floats, fixed: Floats, mast: GuyedMast) -> Floats:
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
    mast
        the guyed mast [-]
    loads
        horizontal forces along the wind [-] (n_loads,)
    line_load
        wind on a metre of mast as a function of height in m [N/m]
    step_deg
        step of the wind direction; 10 meets the worst case of three and of four guys [deg]

    Returns
    -------
    tuple of GuyedState
        one equilibrium for each direction [-] (n_directions,)
    """
    first = np.degrees(mast.levels[0].first_azimuth)
    return tuple(
        solve_guyed_mast(mast=mast, loads=loads, wind_deg=float(first + a), line_load=line_load)
        for a in np.arange(0.0, 360.0, step_deg)
    )

"""A guyed mast from every wind direction: a beam on guys, solved for its one equilibrium.

The mast is a beam in both planes. Without ``guy_loads`` every guy is a straight bar that pulls
with T = T0 + EA/L x growth of its length, and not at all when that would be negative. With
them it hangs as a cable under its weight, ice and wind, and brings half of that to the mast. Both
laws make the energy convex, so Newton steps with a line search end at the one equilibrium; the
end is checked. With ``weight_above`` the weight on the bent mast and the pull of the guys down it
count too, and a mast that cannot bear them is told.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from boomwright.base import BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.quantity import phrase
from boomwright.base.records import dataclass, replace
from boomwright.structure.faults import BucklesError, StructureInputError
from boomwright.structure.support.columns import AMPLIFIED_AT, STIFFNESS_SHARE
from boomwright.structure.support.guy_laws import GuyLaw
from boomwright.structure.support.guy_rings import GuySet, guy_set
from boomwright.structure.support.guys import GuyLevel, GuyLoad
from boomwright.structure.support.held_beam import (
    SideLoad,
    SupportCourse,
    UprightBeam,
    along,
    at_nodes,
    bend_held,
    require_stable,
    upright_beam,
)
from boomwright.structure.wording import force

#: passes in which the pull of the guys settles with the bend it makes
_PASSES = 20


class GuySolverError(BoomwrightError):
    """The guy solver found no equilibrium it can vouch for."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GuyedState(ReadOnlyArrays):
    """Equilibrium for one wind direction."""

    wind_deg: float  #: direction the wind blows to [deg]
    #: tension of every guy at its upper end, level by level [N] (n_levels, n_guys)
    tensions: tuple[tuple[float, ...], ...]
    pulls: tuple[float, ...]  #: downward pull of each ring on the mast [N] (n_levels,)
    base_shear: float  #: horizontal force on the base [N]
    base_moment: float  #: moment on the base, 0 when pinned [N m]
    moments: Floats  #: bending moment of the mast at every node, foot first [N m] (n_nodes,)
    shears: Floats  #: horizontal shear there, the larger of both sides [N] (n_nodes,)
    drift: float  #: largest sideways movement [m]
    slack: int  #: number of guys without pull, or hanging through by more than a twentieth

    @property
    def compression(self) -> float:
        """Downward pull of all guys on the mast [N]."""
        return sum(self.pulls)

    @property
    def moment(self) -> float:
        """Largest bending moment of the mast [N m]."""
        return float(np.max(self.moments))


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
    #: weight the mast bears above a height in m, its own with it, without the guys [N]; None leaves
    #: out what weight and guys do to the bent mast
    weight_above: Callable[[float], float] | None = None

    def __post_init__(self) -> None:
        if not self.levels:
            raise StructureInputError("a guyed mast needs at least one guy level")
        if any(level.height > self.height * (1 + 1e-9) for level in self.levels):
            msg = f"a guy level lies above the top at {self.height} m: lower it"
            raise StructureInputError(msg)
        if self.bending_stiffness is None and (len(self.levels) > 1 or not self.pinned):
            raise StructureInputError(
                "several guy levels or a fixed base share the wind by the bending stiffness of "
                "the mast: ask its maker for EI"
            )
        if self.bending_stiffness is None and self.weight_above is not None:
            msg = "what weight does to the bent mast needs its bending stiffness: ask its maker"
            raise StructureInputError(msg)
        if self.guy_loads and len(self.guy_loads) != len(self.levels):
            msg = f"{len(self.guy_loads)} guy loads for {len(self.levels)} levels: one a level"
            raise StructureInputError(msg)
        for level in self.levels if self.guy_loads else ():
            least = level.strand.weight_per_length * level.anchor_radius
            if (level.initial_tension or 0.0) < least:
                raise StructureInputError(
                    phrase(
                        "{ring} hang through by an eighth of their length or more at the initial "
                        "tension given: give at least {least}",
                        ring=level.name,
                        least=force(least),
                    )
                )

    def bearing(self, pulls: Sequence[float]) -> Callable[[float], float]:
        """Compression of the mast against height, of weight and guys.

        Args:
            pulls: downward pull of each ring [N] (n_levels,)
        """

        def compression(height: float) -> float:
            rings = zip(self.levels, pulls, strict=True)
            own = 0.0 if self.weight_above is None else self.weight_above(height)
            return own + sum(pull for level, pull in rings if level.height >= height)

        return compression

    def beam(
        self, *, loads: Sequence[SideLoad], line_load: Callable[[float], float]
    ) -> UprightBeam:
        """Cut the mast into pieces, not yet softened by what it bears.

        With ``weight_above`` 0.8 of the stiffness counts {aisc-360-22, C2.3}.

        Args:
                line_load: wind on a metre of mast as a function of height in m [N/m]
        """
        share = 1.0 if self.weight_above is None else STIFFNESS_SHARE
        return upright_beam(
            height=self.height,
            marks=[level.height for level in self.levels],
            stiffness=share * _stiffness_for(self),
            loads=loads,
            line_load=line_load,
        )

    def softened(self, beam: UprightBeam, *, pulls: Sequence[float]) -> UprightBeam:
        """Soften the beam by 1.6 times what it bears {aisc-360-22, C2.1}.

        Args:
            pulls: downward pull of each ring [N] (n_levels,)
        """
        bearing = self.bearing(pulls)
        return beam.softened(AMPLIFIED_AT * along(beam.middles, bearing))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Setting:
    """The mast, its guys and its wind: the same from every side."""

    mast: GuyedMast
    beam: UprightBeam
    guys: GuySet

    @property
    def masters(self) -> NDArray[np.int_]:
        """Unknowns the guys hold, in one plane."""
        return np.array([2 * node for node in self.guys.nodes])

    @property
    def slaves(self) -> NDArray[np.int_]:
        """All others that can move."""
        still = {0, *self.masters.tolist()} | (set() if self.mast.pinned else {1})
        return np.array([i for i in range(len(self.beam.load)) if i not in still])


def _setting(
    mast: GuyedMast, loads: Sequence[SideLoad], line: Callable[[float], float]
) -> _Setting:
    beam = mast.beam(loads=loads, line_load=line)
    guys = guy_set(levels=mast.levels, loads=mast.guy_loads, heights=beam.heights)
    return _Setting(mast=mast, beam=beam, guys=guys)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Reduced:
    """The mast as its guys see it: everything between them folded away, in each plane."""

    beam: UprightBeam
    plane: Floats
    stiffness: Floats  # of the guyed nodes, both planes
    load: Floats  # on the guyed nodes in one plane, with what hangs between them
    folded: Floats  # movement of the other unknowns from that of the guyed nodes
    sagged: Floats  # and that of the loads between them
    masters: NDArray[np.int_]
    slaves: NDArray[np.int_]


def _reduced(setting: _Setting, beam: UprightBeam) -> _Reduced:
    plane, load = beam.stiffness, beam.load
    masters, slaves = setting.masters, setting.slaves
    inner, coupling = plane[np.ix_(slaves, slaves)], plane[np.ix_(slaves, masters)]
    if beam.bears:
        require_stable(inner)
    solved = np.linalg.solve(inner, np.column_stack([coupling, load[slaves]]))
    folded, sagged = np.asarray(-solved[:, :-1], float), np.asarray(solved[:, -1], float)
    own = plane[np.ix_(masters, masters)] + coupling.T @ folded
    return _Reduced(
        beam=beam,
        plane=plane,
        stiffness=np.kron(np.eye(2), own),
        load=load[masters] + folded.T @ load[slaves],
        folded=folded,
        sagged=sagged,
        masters=masters,
        slaves=slaves,
    )


def _equilibrium(
    beam: Floats, force: Floats, rows: Floats, law: GuyLaw, *, bears: bool
) -> tuple[Floats, Floats]:
    """Movements of the guyed nodes and tensions of the guys."""
    u = np.zeros(len(force))
    pull = law.pull(np.zeros(len(rows)))
    scale = float(np.max(np.abs(force))) + float(np.max(pull.tension)) + 1e-30
    now = pull.energy
    for _ in range(100):
        gradient = beam @ u - force - rows.T @ pull.tension
        stiffness = beam + (rows.T * pull.slope) @ rows
        if bears:
            require_stable(stiffness)
        if float(np.max(np.abs(gradient))) <= 1e-6 * scale:
            return u, pull.tension
        step = np.linalg.solve(stiffness, -gradient)
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
    raise GuySolverError("the guys found no balance: check heights, anchors and initial tensions")


def _stiffness_for(mast: GuyedMast) -> float:
    if mast.bending_stiffness is not None:
        return mast.bending_stiffness
    # One ring on a pin is statically determinate: any stiffness of the guys' order will do.
    level = mast.levels[0]
    return level.strand.axial_stiffness / level.length * mast.height**3 / 3.0


def _settled(setting: _Setting, directions: Sequence[float]) -> tuple[GuyedState, ...]:
    if setting.mast.weight_above is None:
        system = _reduced(setting, setting.beam)
        free = np.zeros_like(system.stiffness)
        return tuple(_solved(setting, system, wind, free)[0] for wind in directions)
    return tuple(_bearing_state(setting, wind) for wind in directions)


def _bearing_state(setting: _Setting, wind_deg: float) -> GuyedState:
    """Solve one direction with the tensions that the guys have in the end."""
    mast = setting.mast
    tension = np.array([guy.ring.initial_tension or 0.0 for guy in setting.guys.guys])
    pulls = [
        level.count * (level.initial_tension or 0.0) * sin(level.angle) for level in mast.levels
    ]
    for _ in range(_PASSES):
        system = _reduced(setting, mast.softened(setting.beam, pulls=pulls))
        across = AMPLIFIED_AT * setting.guys.across(tension)
        state, taut = _solved(setting, system, wind_deg, across)
        settled = np.allclose(taut, tension, rtol=1e-3, atol=1e-3 * float(np.max(taut)))
        tension, pulls = taut, list(state.pulls)
        if settled:
            return state
    raise BucklesError("its guys pull harder the more it bends")


def highest_pulls(states: Sequence[GuyedState]) -> list[float]:
    """Take the largest downward pull of each ring over all wind directions [N] (n_levels,)."""
    return [max(ring) for ring in zip(*(state.pulls for state in states), strict=True)]


def _solved(
    setting: _Setting, system: _Reduced, wind_deg: float, across: Floats
) -> tuple[GuyedState, Floats]:
    """Equilibrium in one wind, and the tensions along the guys."""
    mast, guys = setting.mast, setting.guys
    wind = np.array([cos(radians(wind_deg)), sin(radians(wind_deg)), 0.0])
    share = guys.share(wind)
    force = np.concatenate([system.load * wind[0], system.load * wind[1]]) + share
    stiffness, bears = system.stiffness + across, system.beam.bears
    moving, taut = _equilibrium(stiffness, force, guys.rows, guys.law(wind), bears=bears)
    on_nodes = guys.rows.T @ taut + share - across @ moving
    planes = [
        _one_plane(system, part, pulled, float(blowing))
        for part, pulled, blowing in zip(
            np.split(moving, 2), np.split(on_nodes, 2), wind[:2], strict=True
        )
    ]
    upper, down = guys.upper_ends(taut, wind)
    rings = [
        [i for i, guy in enumerate(guys.guys) if guy.level == number]
        for number in range(len(mast.levels))
    ]
    (ux, rx, mx, vx), (uy, ry, my, vy) = planes
    state = GuyedState(
        wind_deg=wind_deg,
        tensions=tuple(tuple(upper[i] for i in ring) for ring in rings),
        pulls=tuple(sum(down[i] for i in ring) for ring in rings),
        base_shear=float(np.hypot(rx[0], ry[0])),
        base_moment=0.0 if mast.pinned else float(np.hypot(rx[1], ry[1])),
        moments=at_nodes(np.hypot(mx, my)),
        shears=at_nodes(np.hypot(vx, vy)),
        drift=float(np.max(np.hypot(ux[::2], uy[::2]))),
        slack=guys.slack(taut, wind),
    )
    return state, taut


def _one_plane(
    system: _Reduced, moved: Floats, pulled: Floats, share: float
) -> tuple[Floats, Floats, Floats, Floats]:
    """Movements, reactions at the base, and moments and shears of every piece in one plane."""
    u = np.zeros(len(system.beam.load))
    u[system.masters] = moved
    u[system.slaves] = system.folded @ moved + system.sagged * share
    acting = system.beam.load * share
    acting[system.masters] += pulled
    reaction = system.plane @ u - acting
    return u, reaction[:2], *system.beam.end_forces(u, share=share)


def scan_wind(
    *,
    mast: GuyedMast,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float] = lambda _height: 0.0,
    step_deg: float = 10.0,
) -> tuple[GuyedState, ...]:
    """Solve the guyed mast for every wind direction.

    Args:
        line_load: wind on a metre of mast as a function of height in m [N/m]
        step_deg: step of the wind direction; 10 meets the worst case of three and of four guys
            [deg]
    """
    first = float(np.degrees(mast.levels[0].first_azimuth))
    # Rings with anchors in the same directions look alike after each turn from guy to guy.
    rings = {(level.count, level.first_azimuth) for level in mast.levels}
    turns = mast.levels[0].count
    if len(rings) > 1 or (360.0 / turns) % step_deg:
        turns = 1
    part = 360.0 / turns
    solved = _settled(
        _setting(mast, loads, line_load),
        [first + float(angle) for angle in np.arange(0.0, part, step_deg)],
    )
    return tuple(
        replace(
            state,
            wind_deg=state.wind_deg + turn * part,
            tensions=tuple((*ring[-turn:], *ring[:-turn]) for ring in state.tensions),
        )
        for turn in range(turns)
        for state in solved
    )


def guyed_course(
    *,
    mast: GuyedMast,
    states: Sequence[GuyedState],
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float] = lambda _height: 0.0,
) -> SupportCourse:
    """Take the worst of all wind directions along the mast, on its guys and on points that hold.

    Guys that give share the wind otherwise than points that do not move; the worse of the two
    counts at each height.

    Args:
        states: what ``scan_wind`` found with the same mast and wind (n_directions,)
        line_load: wind on a metre of mast as a function of height in m [N/m]
    """
    pulls = highest_pulls(states)
    beam = mast.beam(loads=loads, line_load=line_load)
    if mast.weight_above is not None:
        beam = mast.softened(beam, pulls=pulls)
    held = [level.height for level in mast.levels]
    moments, shears = bend_held(beam=beam, held=held, pinned=mast.pinned)
    return SupportCourse(
        heights=beam.heights,
        moment=np.max([at_nodes(moments), *(state.moments for state in states)], axis=0),
        shear=np.max([at_nodes(shears), *(state.shears for state in states)], axis=0),
        compression=along(beam.heights, mast.bearing(pulls)),
    )


def scanned(
    *, mast: GuyedMast, loads: Sequence[SideLoad], line_load: Callable[[float], float]
) -> tuple[tuple[GuyedState, ...], SupportCourse]:
    """Solve the guyed mast for every wind direction and take the worst of them along it.

    Args:
        line_load: wind on a metre of mast as a function of height in m [N/m]
    """
    states = scan_wind(mast=mast, loads=loads, line_load=line_load)
    return states, guyed_course(mast=mast, states=states, loads=loads, line_load=line_load)

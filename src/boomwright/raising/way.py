"""Where the load goes up beside the foot, and how far it stays from the guys on its way.

A machine lifts the beam with its boom in line with the arm, rear end towards the support and
elements across, straight up between two guys, then inwards above the highest ring. Elements and
box behind the clamp must pass the mast: the beam comes in over its top and down onto the clamp.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from boomwright.base.quantity import phrase
from boomwright.base.records import dataclass
from boomwright.raising.wording import span

if TYPE_CHECKING:
    from boomwright.raising.job import Raising
    from boomwright.raising.weighing import Way, Weighing

#: least distance of the hanging beam from a guy [m] {common-practice-raising}
GUY_GAP: Final = 0.5
#: boom above the top of the mast while parts behind the clamp pass over it, the box that hangs
#: below the boom included [m] {common-practice-raising}
OVER_TOP: Final = 0.5
#: what rounding takes from a length [m]
_ROUNDED: Final = 1e-9
#: sectors between guys count as equally wide within this [rad]
_ALIKE: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadWay:
    """The way of the load: up at one place beside the foot, then in to the clamp."""

    out: float = 0.0  #: middle of the load from the foot while it goes up [m]
    #: its bearing from the foot, clockwise from true north; None on any side [rad]
    bearing: float | None = None
    machine: bool = False  #: whether a machine carries it
    gap: float | None = None  #: nearest that it comes to a guy; None without guys [m]
    needed: float = 0.0  #: least ``out`` that keeps it ``GUY_GAP`` from every guy [m]
    over: float | None = None  #: clamp above the highest ring of guys; None without guys [m]
    high: float = 0.0  #: boom or hub above ground on its way in; 0 without a machine [m]

    @property
    def middle(self) -> str:
        """What distances on the ground are taken from."""
        return "the foot" if self.bearing is None else "foot and load"

    @property
    def place(self) -> tuple[float, float]:
        """Where it goes up, east and north of the foot; the foot itself on any side [m] (2,)."""
        if self.bearing is None:
            return 0.0, 0.0
        return self.out * math.sin(self.bearing), self.out * math.cos(self.bearing)


def load_way(way: Way, job: Raising) -> LoadWay:
    """Find where the load of a way up goes up."""
    if way == "truck" and job.lift_truck is not None:
        truck = job.lift_truck
        return _by_machine(job, truck.bearing, truck.needed_outreach)
    if way == "crane" and job.crane is not None:
        return _by_machine(job, job.crane.bearing, job.crane.radius, anywhere=True)
    if way in {"tilt", "by hand"} or job.load.hung:
        return LoadWay()
    return LoadWay(out=job.swing_radius)


def way_in(job: Raising) -> float:
    """Height of boom or hub on its way in: over the mast where parts behind the clamp pass it.

    Returns:
        height above ground; that of the clamp where nothing has to pass the mast [m]
    """
    load = job.load
    if not (load.boom_length or load.at_hub) or load.upright:
        return job.lift_height
    # What hangs below a hub is taken to be no longer than what stands above it.
    below = load.rise if load.at_hub else 0.0
    return max(job.tower_height, job.mast_top, job.lift_height) + OVER_TOP + below


def highest(job: Raising, way: LoadWay) -> float:
    """Highest part above the foot during the lift [m]."""
    return max(job.top, way.high)


def dropped_tool_radius(job: Raising, way: LoadWay) -> float:
    """Radius nobody enters while people work above or the load is up, hard hat or not.

    Returns:
        half the height of the work, at least what turns, around the foot and the way of the load
            {common-practice-raising} [m]
    """
    if not way.machine:
        return max(0.5 * highest(job, way), way.out + (job.swing_radius if way.out else 0.0))
    return max(0.5 * highest(job, way), job.swing_radius) + (
        way.out if way.bearing is None else 0.0
    )


def exclusion_radius(job: Raising, way: LoadWay) -> float:
    """Radius around foot and way of the load that stays empty of anybody without a task.

    Returns:
        height of the tower or the lift, whichever is more, with the beam's reach beyond it [m]
            {common-practice-raising}
    """
    beside = way.out if way.machine and way.bearing is None else 0.0
    return highest(job, way) + job.swing_radius + beside


def weigh_guys(weighing: Weighing, job: Raising, way: LoadWay) -> None:
    """Leave open what the way past the guys does not show to be clear."""
    if way.gap is None or way.over is None:
        return
    weighing.known(
        way.over >= GUY_GAP,
        phrase(
            "guys hold at {ring}, the clamp is at {clamp}: the beam does not pass above them, so "
            "draw its way in",
            ring=span(job.lift_height - way.over), clamp=span(job.lift_height),
        ),
    )  # fmt: skip
    if math.isinf(way.needed):
        weighing.unanswered.append("the arm comes in along a guy: bring it in between two")
        return
    weighing.known(
        way.gap > GUY_GAP - _ROUNDED,
        phrase(
            "going up {out} from the foot the beam comes within {gap} of a guy: it needs {needed} "
            "there, elements across the arm",
            out=span(way.out), gap=span(max(0.0, way.gap)), needed=span(way.needed),
        ),
    )  # fmt: skip


def _by_machine(
    job: Raising, entered: float | None, out: float, *, anywhere: bool = False
) -> LoadWay:
    """Stand the machine where the plan says, else midway between two guys.

    Args:
        entered: bearing of the plan [rad]
        out: the machine from the foot [m]
        anywhere: whether its hook lifts anywhere up to there
    """
    guys = sorted(guy % math.tau for ring in job.guys for guy in ring.azimuths)
    bearing = entered
    if bearing is None and guys:
        bearing = midway(guys, job.load.heading)
    if bearing is None or not guys:
        return LoadWay(out=out, bearing=bearing, machine=True, high=way_in(job))
    load = job.load
    # What the plan does not place along its boom may reach inwards as far as it turns.
    whole = load.at_hub or load.balance_place is None
    near = load.reach if whole else load.balance_place or 0.0
    half = load.reach if load.at_hub else 0.5 * load.element_span
    beside = [abs(math.remainder(guy - bearing, math.tau)) for guy in guys]
    # A guy at a right angle or beyond is no nearer than the foot.
    angle = min(min(beside), 0.5 * math.pi)
    inwards = math.inf
    if math.sin(angle) > _ALIKE:
        inwards = max(GUY_GAP, (GUY_GAP + half * math.cos(angle)) / math.sin(angle))
    if anywhere:
        out = min(out, inwards + near)
    inner = out - near
    gap = min(inner, inner * math.sin(angle) - half * math.cos(angle))
    return LoadWay(
        out=out, bearing=bearing, machine=True, gap=gap, needed=inwards + near,
        over=job.lift_height - max(ring.height for ring in job.guys), high=way_in(job),
    )  # fmt: skip


def midway(guys: list[float], heading: float) -> float:
    """Middle of a widest sector between guys, the one nearest to the heading.

    Args:
        guys: bearings of the guys, rising [rad] (n_guys,)
        heading: where the beam points [rad]

    Returns:
        bearing [rad]
    """
    sectors = [
        (guys[place], (guys[(place + 1) % len(guys)] - guys[place]) % math.tau)
        for place in range(len(guys))
    ]
    widest = max(wide for _, wide in sectors)
    middles = [first + 0.5 * wide for first, wide in sectors if wide > widest - _ALIKE]
    return min(middles, key=lambda at: abs(math.remainder(at - heading, math.tau))) % math.tau

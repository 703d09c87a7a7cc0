"""Every single guy of a mast as the solver sees it: where it pulls, what it carries, its law."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.structure.support.guy_laws import BarLaw, CableLaw, GuyLaw, unstretched_length
from boomwright.structure.support.guys import GuyLevel, GuyLoad

#: sag over length past which a hanging guy is called slack; the flat parabola ends here too
SLACK_SAG = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Guy:
    """One guy."""

    level: int  #: number of its ring, from 0
    node: int  #: node of the mast it holds
    along: Floats  #: unit vector from the mast to the anchor: x, y, z (3,)
    ring: GuyLevel
    load: GuyLoad | None  #: weight and wind on it; None for a straight weightless guy

    def force_per_length(self, wind: Floats) -> Floats:
        """Weight and wind on a metre; only wind square to it counts {hoerner-crossflow} [N/m] (3,).

        Args:
            wind: direction the wind blows to: x, y, z (3,)
        """
        if self.load is None:
            return np.zeros(3)
        square = wind - (wind @ self.along) * self.along
        force = self.load.wind_per_length * float(np.linalg.norm(square)) * square
        force[2] -= self.load.weight_per_length
        return np.asarray(force, dtype=float)

    def square_load(self, wind: Floats) -> float:
        """Load on a metre, square to the guy [N/m].

        Args:
            wind: direction the wind blows to: x, y, z (3,)
        """
        force = self.force_per_length(wind)
        return float(np.linalg.norm(force - (force @ self.along) * self.along))


def guys_of(*, levels: Sequence[GuyLevel], loads: Sequence[GuyLoad], heights: Floats) -> list[Guy]:
    """List the guys of all rings.

    Args:
        loads: weight and wind on the guys of each ring; empty for straight weightless ones
            (n_levels,)
        heights: nodes of the mast [m] (n_nodes,)
    """
    carried = loads or (None,) * len(levels)
    guys: list[Guy] = []
    for number, (level, load) in enumerate(zip(levels, carried, strict=True)):
        out, down = cos(level.angle), -sin(level.angle)
        node = int(np.argmin(np.abs(heights - level.height)))
        for azimuth in level.azimuths:
            along = np.array([out * cos(azimuth), out * sin(azimuth), down])
            guys.append(Guy(level=number, node=node, along=along, ring=level, load=load))
    return guys


def law_of(*, guys: Sequence[Guy], wind: Floats) -> GuyLaw:
    """Guys as straight bars, or hanging with their loads, tensioned in still air without ice.

    Args:
        wind: direction the wind blows to: x, y, z (3,)
    """
    chord = np.array([guy.ring.length for guy in guys])
    axial = np.array([guy.ring.strand.axial_stiffness for guy in guys])
    initial = np.array([guy.ring.initial_tension or 0.0 for guy in guys])
    if any(guy.load is None for guy in guys):
        return BarLaw(initial=initial, stiffness=axial / chord)
    bare = [guy.ring.strand.weight_per_length * cos(guy.ring.angle) for guy in guys]
    return CableLaw(
        chord=chord,
        axial_stiffness=axial,
        unstretched=unstretched_length(
            chord=chord, axial_stiffness=axial, load=np.array(bare), tension=initial
        ),
        load=np.array([guy.square_load(wind) for guy in guys]),
    )


def pull_rows(*, guys: Sequence[Guy], nodes: Sequence[int]) -> Floats:
    """Say how far guyed nodes move towards each anchor, along the guy.

    Args:
        nodes: nodes of the mast that guys hold (n_nodes,)
    """
    rows = np.zeros((len(guys), 2 * len(nodes)))
    for g, guy in enumerate(guys):
        at = nodes.index(guy.node)
        rows[g, at], rows[g, len(nodes) + at] = guy.along[0], guy.along[1]
    return rows


def across_stiffness(*, guys: Sequence[Guy], nodes: Sequence[int], tension: Floats) -> Floats:
    """Hold that a pulling guy gives against movement across it, T / L: it turns to its anchor.

    It is what keeps the pull of a guy from pushing over the mast that the same pull presses down.

    Args:
        nodes: nodes of the mast that guys hold (n_nodes,)
        tension: tension along each chord [N] (n_guys,)

    Returns:
        stiffness of the guyed nodes, plane by plane [N/m] (2 n_nodes, 2 n_nodes)
    """
    count = len(nodes)
    whole = np.zeros((2 * count, 2 * count))
    for guy, pull in zip(guys, tension, strict=True):
        at = nodes.index(guy.node)
        both = np.ix_([at, count + at], [at, count + at])
        level = guy.along[:2]
        whole[both] += pull / guy.ring.length * (np.eye(2) - np.outer(level, level))
    return whole


def guy_share(*, guys: Sequence[Guy], rows: Floats, wind: Floats) -> Floats:
    """Bring half of the sideways load on every guy to its node, plane by plane [N] (2 n_nodes,).

    Args:
        rows: what ``pull_rows`` gave; its entries say which node each guy holds (n_guys, 2 n_nodes)
        wind: direction the wind blows to: x, y, z (3,)
    """
    count = rows.shape[1] // 2
    held = (rows[:, :count] != 0.0) | (rows[:, count:] != 0.0)
    halves = np.array([guy.force_per_length(wind) * guy.ring.length / 2.0 for guy in guys])
    return np.concatenate([held.T @ halves[:, 0], held.T @ halves[:, 1]])


def upper_ends(
    *, guys: Sequence[Guy], tension: Floats, wind: Floats
) -> tuple[list[float], list[float]]:
    """Tension of every guy where it holds the mast, and its pull down there [N], each (n_guys,).

    Args:
        tension: tension along each chord [N] (n_guys,)
        wind: direction the wind blows to: x, y, z (3,)
    """
    ends, down = [], []
    for guy, pull in zip(guys, tension, strict=True):
        half = guy.force_per_length(wind) * guy.ring.length / 2.0
        on_mast = pull * guy.along + half
        ends.append(float(np.linalg.norm(on_mast)))
        down.append(-float(on_mast[2]))
    return ends, down


def slack_count(*, guys: Sequence[Guy], tension: Floats, wind: Floats) -> int:
    """Count guys with no pull left, or that hang through by more than a twentieth.

    Args:
        tension: tension along each chord [N] (n_guys,)
        wind: direction the wind blows to: x, y, z (3,)
    """
    count = 0
    for guy, pull in zip(guys, tension, strict=True):
        sag = guy.square_load(wind) * guy.ring.length**2 / 8.0
        count += int(pull <= 0.0 or sag > SLACK_SAG * guy.ring.length * pull)
    return count

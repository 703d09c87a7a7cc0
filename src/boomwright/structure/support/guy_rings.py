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

    def half_load(self, wind: Floats) -> Floats:
        """Half of weight and wind on all of it, which the mast takes: x, y, z [N] (3,)."""
        return self.force_per_length(wind) * self.ring.length / 2.0

    def square_load(self, wind: Floats) -> float:
        """Load on a metre, square to the guy [N/m]."""
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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GuySet:
    """All guys of a mast; wind is the direction it blows to, a tension that along each chord."""

    guys: tuple[Guy, ...]  #: one after the other (n_guys,)
    nodes: tuple[int, ...]  #: nodes of the mast that they hold (n_nodes,)
    #: how far guyed nodes move towards each anchor, along the guy (n_guys, 2 n_nodes)
    rows: Floats

    def law(self, wind: Floats) -> GuyLaw:
        """Guys as straight bars, or hanging with their loads, tensioned in still air bare."""
        guys = self.guys
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

    def across(self, tension: Floats) -> Floats:
        """Hold that a pulling guy gives against movement across it, T / L: it turns to its anchor.

        It is what keeps the pull of a guy from pushing over the mast that the same pull presses
        down. Of the guyed nodes, plane by plane [N/m] (2 n_nodes, 2 n_nodes).
        """
        count = len(self.nodes)
        whole = np.zeros((2 * count, 2 * count))
        for guy, pull in zip(self.guys, tension, strict=True):
            at = self.nodes.index(guy.node)
            both = np.ix_([at, count + at], [at, count + at])
            level = guy.along[:2]
            whole[both] += pull / guy.ring.length * (np.eye(2) - np.outer(level, level))
        return whole

    def share(self, wind: Floats) -> Floats:
        """Half of the sideways load on every guy, on its node, plane by plane [N] (2 n_nodes,)."""
        count = len(self.nodes)
        held = (self.rows[:, :count] != 0.0) | (self.rows[:, count:] != 0.0)
        halves = np.array([guy.half_load(wind) for guy in self.guys])
        return np.concatenate([held.T @ halves[:, 0], held.T @ halves[:, 1]])

    def upper_ends(self, tension: Floats, wind: Floats) -> tuple[list[float], list[float]]:
        """Tension of every guy where it holds the mast, and its pull down there [N] (n_guys,)."""
        on_mast = [
            pull * guy.along + guy.half_load(wind)
            for guy, pull in zip(self.guys, tension, strict=True)
        ]
        return [float(np.linalg.norm(each)) for each in on_mast], [
            -float(each[2]) for each in on_mast
        ]

    def slack(self, tension: Floats, wind: Floats) -> int:
        """Count guys with no pull left, or that hang through by more than a twentieth."""
        count = 0
        for guy, pull in zip(self.guys, tension, strict=True):
            sag = guy.square_load(wind) * guy.ring.length**2 / 8.0
            count += int(pull <= 0.0 or sag > SLACK_SAG * guy.ring.length * pull)
        return count


def guy_set(*, levels: Sequence[GuyLevel], loads: Sequence[GuyLoad], heights: Floats) -> GuySet:
    """Gather the guys of all rings; see ``guys_of``."""
    guys = tuple(guys_of(levels=levels, loads=loads, heights=heights))
    nodes = tuple(sorted({guy.node for guy in guys}))
    rows = np.zeros((len(guys), 2 * len(nodes)))
    for g, guy in enumerate(guys):
        at = nodes.index(guy.node)
        rows[g, at], rows[g, len(nodes) + at] = guy.along[0], guy.along[1]
    return GuySet(guys=guys, nodes=nodes, rows=rows)

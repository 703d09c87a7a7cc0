"""What stands beside each beam of a plan: the other beams, and what else conducts near it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import Beam, Conductor
from boomwright.plan.model_support import MastPlan, SupportPlan

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel

#: diameter of a guy whose strand gives none [m] {common-practice-guy-strand}
_USUAL_STRAND = 6e-3
#: insulators between pieces of guy [m] {common-practice-guy-strand}
_INSULATOR = 0.1
#: wires are modelled from this height above real ground on [wavelengths]
_LOWEST_WL = 0.03
#: headings alike to this angle share a plane of symmetry [rad]
_SAME_HEADING = 1e-9


def surround(beams: Sequence[Beam], *, support: SupportPlan | None) -> tuple[Beam, ...]:
    """Give every beam the others, and the mast and guys as far as the plan tells.

    The mast stands in the plane of symmetry of a beam, where no current is driven along it. It
    counts as a conductor only for beams that something at another heading has taken that
    symmetry from. Guys count once the plan says how they are broken up.

    Args:
        support: what carries the beams; None when the plan does not say
    """
    found = []
    for beam in beams:
        if beam.stands_on_ground:
            # The plan does not say where in the garden it stands: it is computed by itself.
            found.append(beam.alone)
            continue
        # On the same terminals where both share a feed point.
        others = tuple(
            replace(other.alone, idle_feed="common") if beam.shares_feed(other) else other.alone
            for other in beams
            if other is not beam and not other.stands_on_ground
        )
        wires = [] if support is None else _guys(beam, support.guy)
        mast = None if support is None else support.mast
        if mast is not None and (wires or not all(_aligned(beam, other) for other in others)):
            wires += _mast(beam, mast)
        found.append(replace(beam, neighbours=others, conductors=tuple(wires)))
    return tuple(found)


def unsaid_guys(support: SupportPlan | None) -> bool:
    """Whether there are guys that the plan does not say how they are broken up."""
    return support is not None and any(ring.longest_piece is None for ring in support.guy)


def _aligned(beam: Beam, other: Beam) -> bool:
    turn = math.remainder(other.heading - beam.heading, math.tau)
    return abs(turn) < _SAME_HEADING and not other.wires


def _mast(beam: Beam, mast: MastPlan) -> list[Conductor]:
    wavelength = SPEED_OF_LIGHT / beam.band[0]
    low = max(mast.bearing - (mast.rotator_below or 0.0), _LOWEST_WL * wavelength)
    if mast.top <= low:
        return []
    start, end = ((0.0, 0.0, z) for z in (low, mast.top))
    return [Conductor(name="mast", diameter=mast.diameter, start=start, end=end)]


def _guys(beam: Beam, rings: Sequence[GuyLevel]) -> list[Conductor]:
    """Pieces of all guys between their insulators, but for those next to the ground."""
    wires = []
    lowest = _LOWEST_WL * SPEED_OF_LIGHT / beam.band[0]
    for number, ring in enumerate(rings):
        if not ring.longest_piece:
            continue
        diameter = _USUAL_STRAND if ring.strand.known else ring.strand.diameter
        for guy in range(ring.count):
            # Directions run clockwise from north, angles in these axes counter-clockwise.
            turn = -(ring.first_azimuth + math.tau * guy / ring.count)
            top = np.array([0.0, 0.0, ring.height])
            out = ring.anchor_radius * np.array([math.cos(turn), math.sin(turn), 0.0])
            foot = top + out + np.array([0.0, 0.0, ring.anchor_height - ring.height])
            length = float(np.linalg.norm(foot - top))
            pieces = max(1, math.ceil(length / ring.longest_piece))
            gap = min(_INSULATOR, 0.1 * length / pieces) / length
            for piece in range(pieces):
                start = top + (foot - top) * (piece / pieces + gap)
                end = top + (foot - top) * ((piece + 1) / pieces - gap)
                if min(start[2], end[2]) > lowest:
                    wires.append(
                        Conductor(
                            name=f"guy {number + 1}.{guy + 1}, piece {piece + 1}",
                            diameter=diameter or _USUAL_STRAND,
                            start=(float(start[0]), float(start[1]), float(start[2])),
                            end=(float(end[0]), float(end[1]), float(end[2])),
                        )
                    )
    return wires

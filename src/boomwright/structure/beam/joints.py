"""Joints of tubes: what the inner tube carries, what the outer, and what their holes leave.

Inside a joint the tubes touch at its mouth and at the end of what lies in it {beam-theory}. The
inner tube carries the whole moment at the mouth and none at its end, in a straight line between
them; the outer tube carries the rest. Holes are taken to lie where bending pulls most.
"""

from __future__ import annotations

from collections.abc import Callable

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.structure.beam.tubing import TubeShape

#: a joint of a boom nearer than this to an element's middle lies under its plate [m]
#: {common-practice-tubing}
JOINT_ROOM = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeJoint:
    """A tube that sits in another, or a sleeve in two that meet."""

    name: Value  #: what sits in what
    #: mouth of the outer tube: on the beam's x axis for a boom, out from the boom for an element
    #: [m]
    place: float
    outer: TubeShape
    inner: TubeShape
    reach: float  #: how deep the inner tube sits, of a sleeve to either side [m]
    sleeve: bool = False  #: whether it reaches to either side of the mouth
    hole: float = 0.0  #: diameter of its holes, 0 for none [m]
    holes: tuple[float, ...] = ()  #: their distances from the mouth [m] (n_holes,)
    bored: bool = False  #: whether it is no joint but one tube that an element passes through
    #: elements whose plate a boom's joint lies under, each with the distance of its middle [m]
    #: (n_under,)
    under: tuple[tuple[str, float], ...] = ()


def joint_stress(joint: TubeJoint, *, moment: Callable[[float], float]) -> tuple[float, bool]:
    """Highest bending stress at the mouth and every hole [Pa], and whether it is the outer tube's.

    Args:
        moment: bending moment at a place, counted as the joint's [m] -> [N m]
    """
    at_mouth = abs(moment(joint.place))
    if joint.bored:
        return _over(at_mouth, joint.outer.net_modulus(hole=joint.hole)), True
    within, around = at_mouth / joint.inner.modulus, 0.0
    inner = joint.inner.net_modulus(hole=joint.hole)
    outer = joint.outer.net_modulus(hole=joint.hole)
    for side in (-1.0, 1.0) if joint.sleeve else (-1.0,):
        for away in joint.holes:
            carried = at_mouth * max(0.0, 1.0 - away / joint.reach)
            rest = max(0.0, abs(moment(joint.place + side * away)) - carried)
            within, around = max(within, _over(carried, inner)), max(around, _over(rest, outer))
    return max(within, around), around > within


def _over(moment: float, modulus: float) -> float:
    if moment <= 0.0:
        return 0.0
    return moment / modulus if modulus > 0.0 else float("inf")

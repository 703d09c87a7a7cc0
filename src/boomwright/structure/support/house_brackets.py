"""Brackets that hold a tube to a wall, a gable or a roof, and what the tube asks of them."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.base.roots import find_root
from boomwright.structure.faults import StructureInputError, require_not_negative, require_positive
from boomwright.structure.support.columns import FREE_TOP
from boomwright.structure.support.held_beam import SupportCourse, UprightBeam, at_nodes, bend_held

#: brackets closer than this cannot be told apart by the statics [m]
_APART = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseBrackets:
    """Brackets on a building that hold a tube, and where the tube ends below."""

    heights: tuple[float, ...]  #: above ground, upwards [m] (n_brackets,)
    foot: float = 0.0  #: lower end of the tube above ground, 0 where it stands on it [m]
    #: force sideways that the fixings of one bracket are rated for, nominal; None when unknown [N]
    side_force: float | None = None
    #: load straight down that all brackets are rated for; None when unknown [N]
    vertical_load: float | None = None
    said_by: str = ""  #: who looked at the wall, and when; empty when nobody did

    def __post_init__(self) -> None:
        require_not_negative(place="lower end of the tube", value=self.foot, unit="m")
        places = (self.foot, *self.heights) if self.stands else self.heights
        if len(places) < 2:
            msg = "one bracket alone does not hold a tube that ends above the ground: add a second"
            raise StructureInputError(msg)
        if self.heights[0] < self.foot or not all(
            high - low >= _APART for low, high in pairwise(places)
        ):
            raise StructureInputError(
                f"brackets must lie above the tube's lower end, upwards and {_APART} m apart at "
                f"least; they lie at {', '.join(f'{height:g}' for height in self.heights)} m"
            )
        for place in ("side_force", "vertical_load"):
            value = getattr(self, place)
            if value is not None:
                name = f"{place.replace('_', ' ')} of the brackets"
                require_positive(place=name, value=value, unit="N")

    @property
    def stands(self) -> bool:
        """Whether the tube stands on the ground."""
        return self.foot == 0.0

    @property
    def top(self) -> float:
        """Uppermost bracket above ground [m]."""
        return self.heights[-1]

    @property
    def spacing(self) -> float:
        """From the uppermost bracket to what holds the tube next below it [m]."""
        below = self.heights[-2] if len(self.heights) > 1 else self.foot
        return self.top - below

    @property
    def sways_from(self) -> float:
        """Height of the lowest hold that surely does not slip [m]."""
        return self.heights[0] if len(self.heights) > 1 else self.foot

    @property
    def ways(self) -> tuple[bool, ...]:
        """Whether the lower end is loose, each way to be solved: a foot may hold or slip."""
        return (*((False,) if self.stands else ()), *((True,) if len(self.heights) > 1 else ()))


def free_top_factor(*, free: float, spacing: float) -> float:
    """Length factor of a tube free above its uppermost bracket {aisc-360-22, app. 7 commentary}.

    It stands on a span that turns with it, 3 EI / s: x tan x = 3 a / s and K = pi / x, as the
    alignment chart has it for a free top and a girder hinged at its far end; taken up by the same
    twentieth as 2.1 is over the 2 of a clamped foot.

    Args:
        free: length above the uppermost bracket [m]
        spacing: from there to what holds the tube next below [m]

    Returns:
        factor; 2.1 where the span below is short and stiff [-]
    """
    share = 3.0 * free / spacing
    root = find_root(lambda x: x * sin(x) - share * cos(x), 0.0, pi / 2.0, within=1e-12)
    return FREE_TOP / 2.0 * pi / root


def bracketed_course(
    *, beam: UprightBeam, brackets: HouseBrackets, loose: bool, compression: Floats
) -> tuple[SupportCourse, Floats]:
    """Bend a tube whose brackets do not move, its lower end pinned or loose.

    Args:
        beam: the tube from its lower end upwards
        compression: force down it at every node [N] (n_nodes,)

    Returns:
        moment, shear and compression by height above ground; and force sideways on the foot and
        on each bracket, upwards [N] (1 + n_brackets,)
    """
    places = [height - brackets.foot for height in brackets.heights]
    moments, shears = bend_held(beam=beam, held=places, pinned=True, loose=loose)
    course = SupportCourse(
        heights=beam.heights + brackets.foot,
        moment=at_nodes(moments),
        shear=at_nodes(shears),
        compression=compression,
    )
    # What the wind brings to a node besides that on the pieces beside it.
    own = beam.load[::2].copy()
    own[:-1] -= beam.fixed[:, 0]
    own[1:] -= beam.fixed[:, 2]
    above = np.append(shears[:, 0], 0.0)
    below = np.append(np.zeros(1), shears[:, 1])
    forces = np.abs(above - below - own)
    nodes = [0, *(int(np.argmin(np.abs(beam.heights - place))) for place in places)]
    return course, forces[nodes]

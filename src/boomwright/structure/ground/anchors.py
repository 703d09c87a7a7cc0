"""What pulls at each guy anchor, and what a buried block holds."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin
from typing import TYPE_CHECKING

from boomwright.base.records import dataclass
from boomwright.structure.faults import require_each, require_not_negative
from boomwright.structure.ground.piers import DEEPEST_LATERAL
from boomwright.structure.ground.soils import CONCRETE_WEIGHT, WATER_WEIGHT, Soil

if TYPE_CHECKING:
    from boomwright.structure.support.guy_solver import GuyedState
    from boomwright.structure.support.guys import GuyLevel

#: factor wanted on uplift and slide of an anchor, 1.5 to 2 (common practice)
ANCHOR_FACTOR = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorBlock:
    """A buried block of concrete that holds one anchor."""

    length: float  #: length square to the guy [m]
    width: float  #: width along the guy [m]
    thickness: float  #: thickness [m]
    cover: float  #: soil on top of it [m]
    water_table: bool = False  #: True when ground water may reach it

    def __post_init__(self) -> None:
        require_each(
            "anchor block",
            ("length", self.length, "m"),
            ("width", self.width, "m"),
            ("thickness", self.thickness, "m"),
        )
        require_not_negative(place="anchor block cover", value=self.cover, unit="m")


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorPull:
    """Largest pull of the guys on one anchor over all wind directions."""

    radius: float  #: anchor out from the tower [m]
    uplift: float  #: sum of T sin a [N]
    slide: float  #: sum of T cos a [N]


def anchor_pulls(
    *, levels: Sequence[GuyLevel], states: Sequence[GuyedState]
) -> tuple[AnchorPull, ...]:
    """Add up the guys that share an anchor and take the worst wind direction.

    Guys share an anchor when radius, height and direction of their rings agree.
    """
    groups: dict[tuple[float, float, float, int], list[int]] = {}
    for number, level in enumerate(levels):
        radius, height = round(level.anchor_radius, 3), round(level.anchor_height, 3)
        key = radius, height, round(level.first_azimuth, 4), level.count
        groups.setdefault(key, []).append(number)
    pulls = []
    for (radius, _, _, count), members in groups.items():
        up = slide = 0.0
        for state in states:
            for g in range(count):
                here = [(state.tensions[m][g], levels[m].angle) for m in members]
                up = max(up, sum(t * sin(a) for t, a in here))
                slide = max(slide, sum(t * cos(a) for t, a in here))
        pulls.append(AnchorPull(radius=radius, uplift=up, slide=slide))
    return tuple(pulls)


def block_uplift(*, block: AnchorBlock, soil: Soil) -> float:
    """Uplift that a buried block and the soil straight above resist; no wedge, no factor [N]."""
    base = block.length * block.width
    heavy = CONCRETE_WEIGHT * block.thickness + soil.weight_per_volume * block.cover
    if block.water_table:
        heavy -= WATER_WEIGHT * (block.thickness + block.cover)
    return max(0.0, base * heavy)


def block_slide(*, block: AnchorBlock, soil: Soil) -> float | None:
    """Allowable lateral bearing on a buried block, its factor inside, or None {ibc-1806} [N]."""
    if soil.lateral is None:
        return None
    middle = min(block.cover + block.thickness / 2.0, DEEPEST_LATERAL)
    return soil.lateral * middle * block.length * block.thickness

"""The field solver: wires in, currents out, and what is read off them."""

from boomwright.solver.ground import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    Ground,
    GroundKind,
)
from boomwright.solver.readings import ElementCurrent, PatternCut, SweepPoint

__all__ = [
    "FREE_SPACE",
    "GROUND_CLASSES",
    "PERFECT_GROUND",
    "ElementCurrent",
    "Ground",
    "GroundKind",
    "PatternCut",
    "SweepPoint",
]

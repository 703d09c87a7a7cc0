"""Parts: materials, tubes, elements, wires and whole beams as plain geometry.

Nothing here computes a field or a force; the rooms above read these values.
"""

from boomwright.parts.beams import (
    Beam,
    Conductor,
    Element,
    Feed,
    IdleFeed,
    Role,
    Trap,
    TubeSection,
    Wire,
)
from boomwright.parts.materials import MATERIALS, Material
from boomwright.parts.mounts import Insulation, Mount, MountKind

__all__ = [
    "MATERIALS",
    "Beam",
    "Conductor",
    "Element",
    "Feed",
    "IdleFeed",
    "Insulation",
    "Material",
    "Mount",
    "MountKind",
    "Role",
    "Trap",
    "TubeSection",
    "Wire",
]

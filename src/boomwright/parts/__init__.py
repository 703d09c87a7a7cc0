"""Parts: materials, tubes, elements, wires, whole beams, and every part of the station once.

``beams`` and ``mounts`` hold what a beam is for the field solver. The :class:`Assembly` holds
what is built: each :class:`Part` with its place, mass, drag, electrical role, stock, fasteners and
price key, in the frame of the :class:`Carrier` it stands on. ``element_parts``, ``boom_parts``,
``support_parts`` and ``line_parts`` list them; what the trade takes where a plan is silent stands
in ``hardware``. :func:`find_clashes` turns everything that turns and names what runs into what.

Nothing here computes a field or a force; the rooms above read these values.
"""

from boomwright.parts.assembly import Assembly, Carrier, centre_of
from boomwright.parts.beams import (
    Beam,
    Conductor,
    Element,
    Feed,
    Frame,
    FramePoint,
    IdleFeed,
    Radials,
    Role,
    Spreader,
    Trap,
    TubeSection,
    Wire,
)
from boomwright.parts.boom_parts import (
    STOOD_FOR,
    BoomFitting,
    BoomTie,
    BoomTube,
    StandsFor,
    boom_parts,
    boom_unsaid,
    clear_joints,
    feed_parts,
    mast_plate_parts,
    mast_plate_unplaced,
    share_totals,
    wire_parts,
)
from boomwright.parts.clashes import Clash, find_clashes
from boomwright.parts.element_parts import BeamFrame, element_group, element_parts, is_cut
from boomwright.parts.frame_parts import KNOT, corner_marks, frame_parts
from boomwright.parts.hardware import RIGGING_MASS, Hardware
from boomwright.parts.line_parts import LineRun, line_parts
from boomwright.parts.materials import MATERIALS, Material
from boomwright.parts.mounts import Insulation, Mount, MountKind
from boomwright.parts.part import Cut, Fastener, Hole, Part
from boomwright.parts.plates import PLATE_PLAY, ClampPlate, clamp_plate
from boomwright.parts.solids import Bar, Block, Point, Solid, top_of
from boomwright.parts.support_parts import (
    GROUND,
    MAST,
    ConcreteBlock,
    GuyRing,
    LatticeTower,
    MastTube,
    Pole,
    ground_parts,
    guy_parts,
    mast_parts,
    pole_parts,
    ring_parts,
    tower_parts,
    turning_parts,
)
from boomwright.parts.tubes import Joints, TubeKind, part_count, part_letter

__all__ = [
    "GROUND",
    "KNOT",
    "MAST",
    "MATERIALS",
    "PLATE_PLAY",
    "RIGGING_MASS",
    "STOOD_FOR",
    "Assembly",
    "Bar",
    "Beam",
    "BeamFrame",
    "Block",
    "BoomFitting",
    "BoomTie",
    "BoomTube",
    "Carrier",
    "ClampPlate",
    "Clash",
    "ConcreteBlock",
    "Conductor",
    "Cut",
    "Element",
    "Fastener",
    "Feed",
    "Frame",
    "FramePoint",
    "GuyRing",
    "Hardware",
    "Hole",
    "IdleFeed",
    "Insulation",
    "Joints",
    "LatticeTower",
    "LineRun",
    "MastTube",
    "Material",
    "Mount",
    "MountKind",
    "Part",
    "Point",
    "Pole",
    "Radials",
    "Role",
    "Solid",
    "Spreader",
    "StandsFor",
    "Trap",
    "TubeKind",
    "TubeSection",
    "Wire",
    "boom_parts",
    "boom_unsaid",
    "centre_of",
    "clamp_plate",
    "clear_joints",
    "corner_marks",
    "element_group",
    "element_parts",
    "feed_parts",
    "find_clashes",
    "frame_parts",
    "ground_parts",
    "guy_parts",
    "is_cut",
    "line_parts",
    "mast_parts",
    "mast_plate_parts",
    "mast_plate_unplaced",
    "part_count",
    "part_letter",
    "pole_parts",
    "ring_parts",
    "share_totals",
    "top_of",
    "tower_parts",
    "turning_parts",
    "wire_parts",
]

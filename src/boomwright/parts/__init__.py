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
    PhasingLine,
    PostLine,
    Radials,
    Role,
    Spreader,
    Trap,
    TubeSection,
    Wire,
)
from boomwright.parts.bends import on_line
from boomwright.parts.boom_parts import (
    STOOD_FOR,
    BoomFitting,
    BoomTie,
    BoomTube,
    boom_parts,
    boom_unsaid,
    clear_joints,
    feed_parts,
    foot_box,
    mast_plate_parts,
    mast_plate_unplaced,
    share_totals,
    wire_parts,
)
from boomwright.parts.clashes import SCREW, TOUCH, Clash, find_clashes
from boomwright.parts.element_parts import (
    JOINT,
    TIP_JOINT,
    BeamFrame,
    element_group,
    element_parts,
    hole_through,
    left_tubes,
    mount_group,
    passes_through,
)
from boomwright.parts.frame_parts import KNOT, buried_radials, cord_way, corner_marks, frame_parts
from boomwright.parts.hardware import (
    RIGGING_MASS,
    SLEEVE_REACH,
    Hardware,
    LineHardware,
    SupportHardware,
)
from boomwright.parts.line_parts import LineRun, line_parts
from boomwright.parts.materials import MATERIALS, Material
from boomwright.parts.mounts import Insulation, Mount
from boomwright.parts.part import Cut, Fastener, Hole, Part
from boomwright.parts.plates import EDGE_LEAST, clamp_plate, short_sides
from boomwright.parts.solids import Bar, Block, Point, Solid, edges_of, from_above, top_of
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
from boomwright.parts.tubes import Joints, TubeKind

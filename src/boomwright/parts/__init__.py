"""Parts: materials, tubes, elements, wires, whole beams, and every part of the station once.

``beams`` and ``mounts`` hold what a beam is for the field solver. The :class:`Assembly` holds
what is built: each :class:`Part` with its place, mass, drag, electrical role, stock, fasteners and
price key, in the frame of the :class:`Carrier` it stands on. ``element_parts``, ``boom_parts``,
``support_parts`` and ``line_parts`` list them; what the trade takes where a plan is silent stands
in ``hardware``. :func:`find_clashes` turns everything that turns and names what runs into what.

Nothing here computes a field or a force; the rooms above read these values.
"""

from boomwright.parts.assembly import Assembly as Assembly
from boomwright.parts.assembly import Carrier as Carrier
from boomwright.parts.assembly import centre_of as centre_of
from boomwright.parts.beams import Beam as Beam
from boomwright.parts.beams import Conductor as Conductor
from boomwright.parts.beams import Element as Element
from boomwright.parts.beams import Feed as Feed
from boomwright.parts.beams import Frame as Frame
from boomwright.parts.beams import FramePoint as FramePoint
from boomwright.parts.beams import IdleFeed as IdleFeed
from boomwright.parts.beams import PhasingLine as PhasingLine
from boomwright.parts.beams import PostLine as PostLine
from boomwright.parts.beams import Radials as Radials
from boomwright.parts.beams import Role as Role
from boomwright.parts.beams import Spreader as Spreader
from boomwright.parts.beams import Trap as Trap
from boomwright.parts.beams import TubeSection as TubeSection
from boomwright.parts.beams import Wire as Wire
from boomwright.parts.bends import on_line as on_line
from boomwright.parts.boom_parts import STOOD_FOR as STOOD_FOR
from boomwright.parts.boom_parts import BoomFitting as BoomFitting
from boomwright.parts.boom_parts import BoomTie as BoomTie
from boomwright.parts.boom_parts import BoomTube as BoomTube
from boomwright.parts.boom_parts import StandsFor as StandsFor
from boomwright.parts.boom_parts import boom_parts as boom_parts
from boomwright.parts.boom_parts import boom_unsaid as boom_unsaid
from boomwright.parts.boom_parts import clear_joints as clear_joints
from boomwright.parts.boom_parts import feed_parts as feed_parts
from boomwright.parts.boom_parts import foot_box as foot_box
from boomwright.parts.boom_parts import mast_plate_parts as mast_plate_parts
from boomwright.parts.boom_parts import mast_plate_unplaced as mast_plate_unplaced
from boomwright.parts.boom_parts import share_totals as share_totals
from boomwright.parts.boom_parts import wire_parts as wire_parts
from boomwright.parts.clashes import SCREW as SCREW
from boomwright.parts.clashes import TOUCH as TOUCH
from boomwright.parts.clashes import Clash as Clash
from boomwright.parts.clashes import find_clashes as find_clashes
from boomwright.parts.element_parts import BeamFrame as BeamFrame
from boomwright.parts.element_parts import element_group as element_group
from boomwright.parts.element_parts import element_parts as element_parts
from boomwright.parts.element_parts import is_cut as is_cut
from boomwright.parts.element_parts import left_tubes as left_tubes
from boomwright.parts.element_parts import mount_group as mount_group
from boomwright.parts.frame_parts import KNOT as KNOT
from boomwright.parts.frame_parts import buried_radials as buried_radials
from boomwright.parts.frame_parts import cord_way as cord_way
from boomwright.parts.frame_parts import corner_marks as corner_marks
from boomwright.parts.frame_parts import frame_parts as frame_parts
from boomwright.parts.hardware import RIGGING_MASS as RIGGING_MASS
from boomwright.parts.hardware import SLEEVE_REACH as SLEEVE_REACH
from boomwright.parts.hardware import Hardware as Hardware
from boomwright.parts.hardware import LineHardware as LineHardware
from boomwright.parts.hardware import SupportHardware as SupportHardware
from boomwright.parts.line_parts import LineRun as LineRun
from boomwright.parts.line_parts import line_parts as line_parts
from boomwright.parts.materials import MATERIALS as MATERIALS
from boomwright.parts.materials import Material as Material
from boomwright.parts.mounts import Insulation as Insulation
from boomwright.parts.mounts import Mount as Mount
from boomwright.parts.part import Cut as Cut
from boomwright.parts.part import Hole as Hole
from boomwright.parts.part import Part as Part
from boomwright.parts.plates import EDGE_LEAST as EDGE_LEAST
from boomwright.parts.plates import clamp_plate as clamp_plate
from boomwright.parts.plates import short_sides as short_sides
from boomwright.parts.solids import Bar as Bar
from boomwright.parts.solids import Block as Block
from boomwright.parts.solids import Point as Point
from boomwright.parts.solids import Solid as Solid
from boomwright.parts.solids import edges_of as edges_of
from boomwright.parts.solids import from_above as from_above
from boomwright.parts.solids import top_of as top_of
from boomwright.parts.support_parts import GROUND as GROUND
from boomwright.parts.support_parts import MAST as MAST
from boomwright.parts.support_parts import ConcreteBlock as ConcreteBlock
from boomwright.parts.support_parts import GuyRing as GuyRing
from boomwright.parts.support_parts import LatticeTower as LatticeTower
from boomwright.parts.support_parts import MastTube as MastTube
from boomwright.parts.support_parts import Pole as Pole
from boomwright.parts.support_parts import ground_parts as ground_parts
from boomwright.parts.support_parts import guy_parts as guy_parts
from boomwright.parts.support_parts import mast_parts as mast_parts
from boomwright.parts.support_parts import pole_parts as pole_parts
from boomwright.parts.support_parts import ring_parts as ring_parts
from boomwright.parts.support_parts import tower_parts as tower_parts
from boomwright.parts.support_parts import turning_parts as turning_parts
from boomwright.parts.tubes import Joints as Joints
from boomwright.parts.tubes import TubeKind as TubeKind

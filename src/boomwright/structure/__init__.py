"""The structural room: boom, elements, mast, rotator, tower, guys and base.

``check_structure(inputs=StructureInputs(...))`` takes whatever the owner knows and answers with
a ``StructureReport``: every figure, and a ledger of margins, worst first. A check that lacks an
input says ``not checked, because ...`` and never passes. Every line names the kind of wind
speed, exposure, edition and factor behind it.

Where to look: ``weather`` turns the owner's wind and ice into pressures, areas and weights and
keeps ultimate and nominal wind apart; ``beam`` is about elements, boom and what turns the mast;
``support`` about mast, rotator, tower, tube, brackets and guys; ``ground`` about what holds them
in the soil; ``checks`` writes the ledger, a file for each part. ``reminders`` are what is easily
forgotten, ``memory`` marks figures known from memory only. A planning aid: no lattice is computed;
maker, local building official and licensed engineer overrule it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.structure.beam.boom import ArmBending, Boom, BoomCourse, BoomTie, PointMass
    from boomwright.structure.beam.elements import SectionStrength
    from boomwright.structure.beam.joints import JOINT_ROOM, TubeJoint
    from boomwright.structure.beam.stepped import Alongside, half_segments, weight_loads
    from boomwright.structure.beam.torque import braking_torque_by_time
    from boomwright.structure.beam.tubing import TubeShape, allowable_stress
    from boomwright.structure.check import check_structure
    from boomwright.structure.checks.elements import element_label
    from boomwright.structure.checks.fixes import element_fixes, element_weigher, highest_stress
    from boomwright.structure.checks.margins import Margin
    from boomwright.structure.checks.remedies import thicker_walls
    from boomwright.structure.checks.sections import leg_course
    from boomwright.structure.ground.anchors import AnchorBlock
    from boomwright.structure.ground.pads import PadBase
    from boomwright.structure.ground.piers import PierBase
    from boomwright.structure.ground.soils import Soil
    from boomwright.structure.inputs import (
        BaseReactions,
        ExposedSolid,
        MountedBeam,
        StructureInputs,
        SweptSolid,
    )
    from boomwright.structure.memory import recalled
    from boomwright.structure.reminders import Reminder, ReminderList
    from boomwright.structure.report import (
        BaseReport,
        BeamReport,
        ElementReport,
        GuyReport,
        StructureReport,
        SupportReport,
    )
    from boomwright.structure.support.guys import GuyLevel, Strand
    from boomwright.structure.support.held_beam import SupportCourse
    from boomwright.structure.support.house_brackets import HouseBrackets
    from boomwright.structure.support.lattice import Lattice
    from boomwright.structure.support.mast import MAST_STEELS, Mast
    from boomwright.structure.support.rotator import RingMount, Rotator, RotatorDemand
    from boomwright.structure.support.tower import Tower, TowerDrawing
    from boomwright.structure.support.tower_rating import TowerRating
    from boomwright.structure.support.tube_support import TubeBending, TubularSupport
    from boomwright.structure.weather.basis import EDITIONS, NominalSpeed, UltimateSpeed, WindBasis
    from boomwright.structure.weather.drag import AreaConventions
    from boomwright.structure.weather.en_wind import EnWind
    from boomwright.structure.weather.ice import IceBasis
    from boomwright.structure.weather.partial_factors import partial_factors
    from boomwright.structure.weather.stated_wind import StatedWind
    from boomwright.structure.weather.wind import SiteWind

__getattr__ = on_demand(__name__)

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
    from boomwright.structure.beam.boom import ArmBending as ArmBending
    from boomwright.structure.beam.boom import BoomTie as BoomTie
    from boomwright.structure.beam.boom import PointMass as PointMass
    from boomwright.structure.beam.boom_course import BoomCourse as BoomCourse
    from boomwright.structure.beam.elements import SectionStrength as SectionStrength
    from boomwright.structure.beam.joints import JOINT_ROOM as JOINT_ROOM
    from boomwright.structure.beam.joints import TubeJoint as TubeJoint
    from boomwright.structure.beam.stepped import Alongside as Alongside
    from boomwright.structure.beam.stepped import half_segments as half_segments
    from boomwright.structure.beam.stepped import weight_loads as weight_loads
    from boomwright.structure.beam.torque import braking_torque_by_time as braking_torque_by_time
    from boomwright.structure.beam.tubing import TubeShape as TubeShape
    from boomwright.structure.beam.tubing import allowable_stress as allowable_stress
    from boomwright.structure.check import check_structure as check_structure
    from boomwright.structure.checks.fixes import element_fixes as element_fixes
    from boomwright.structure.checks.fixes import highest_stress as highest_stress
    from boomwright.structure.checks.margins import Margin as Margin
    from boomwright.structure.checks.sections import leg_course as leg_course
    from boomwright.structure.ground.anchors import AnchorBlock as AnchorBlock
    from boomwright.structure.ground.pads import PadBase as PadBase
    from boomwright.structure.ground.piers import PierBase as PierBase
    from boomwright.structure.ground.soils import Soil as Soil
    from boomwright.structure.inputs import BaseReactions as BaseReactions
    from boomwright.structure.inputs import Boom as Boom
    from boomwright.structure.inputs import MountedBeam as MountedBeam
    from boomwright.structure.inputs import StructureInputs as StructureInputs
    from boomwright.structure.inputs import SweptSolid as SweptSolid
    from boomwright.structure.memory import recalled as recalled
    from boomwright.structure.reminders import Reminder as Reminder
    from boomwright.structure.reminders import ReminderList as ReminderList
    from boomwright.structure.report import BaseReport as BaseReport
    from boomwright.structure.report import BeamReport as BeamReport
    from boomwright.structure.report import ElementReport as ElementReport
    from boomwright.structure.report import GuyReport as GuyReport
    from boomwright.structure.report import IcedReport as IcedReport
    from boomwright.structure.report import StructureReport as StructureReport
    from boomwright.structure.support.guys import GuyLevel as GuyLevel
    from boomwright.structure.support.guys import Strand as Strand
    from boomwright.structure.support.held_beam import SupportCourse as SupportCourse
    from boomwright.structure.support.house_brackets import HouseBrackets as HouseBrackets
    from boomwright.structure.support.lattice import Lattice as Lattice
    from boomwright.structure.support.mast import Mast as Mast
    from boomwright.structure.support.mast_stock import MAST_STEELS as MAST_STEELS
    from boomwright.structure.support.rotator import RingMount as RingMount
    from boomwright.structure.support.rotator import Rotator as Rotator
    from boomwright.structure.support.rotator import RotatorDemand as RotatorDemand
    from boomwright.structure.support.tower import Tower as Tower
    from boomwright.structure.support.tower import TowerDrawing as TowerDrawing
    from boomwright.structure.support.tower_rating import TowerRating as TowerRating
    from boomwright.structure.support.tube_support import TubeBending as TubeBending
    from boomwright.structure.support.tube_support import TubularSupport as TubularSupport
    from boomwright.structure.weather.basis import EDITIONS as EDITIONS
    from boomwright.structure.weather.basis import NominalSpeed as NominalSpeed
    from boomwright.structure.weather.basis import UltimateSpeed as UltimateSpeed
    from boomwright.structure.weather.basis import WindBasis as WindBasis
    from boomwright.structure.weather.drag import ROUND_DRAG as ROUND_DRAG
    from boomwright.structure.weather.drag import AreaConventions as AreaConventions
    from boomwright.structure.weather.en_wind import EnWind as EnWind
    from boomwright.structure.weather.exposed import ExposedSolid as ExposedSolid
    from boomwright.structure.weather.ice import IceBasis as IceBasis
    from boomwright.structure.weather.partial_factors import partial_factors as partial_factors
    from boomwright.structure.weather.stated_wind import StatedWind as StatedWind
    from boomwright.structure.weather.wind import SiteWind as SiteWind

__getattr__ = on_demand(
    __name__,
    {
        "beam.boom": "ArmBending BoomTie PointMass",
        "beam.boom_course": "BoomCourse",
        "beam.elements": "SectionStrength",
        "beam.joints": "JOINT_ROOM TubeJoint",
        "beam.stepped": "Alongside half_segments weight_loads",
        "beam.torque": "braking_torque_by_time",
        "beam.tubing": "TubeShape allowable_stress",
        "check": "check_structure",
        "checks.fixes": "element_fixes highest_stress",
        "checks.margins": "Margin",
        "checks.sections": "leg_course",
        "ground.anchors": "AnchorBlock",
        "ground.pads": "PadBase",
        "ground.piers": "PierBase",
        "ground.soils": "Soil",
        "inputs": "BaseReactions Boom MountedBeam StructureInputs SweptSolid",
        "memory": "recalled",
        "reminders": "Reminder ReminderList",
        "report": "BaseReport BeamReport ElementReport GuyReport IcedReport StructureReport",
        "support.guys": "GuyLevel Strand",
        "support.held_beam": "SupportCourse",
        "support.house_brackets": "HouseBrackets",
        "support.lattice": "Lattice",
        "support.mast": "Mast",
        "support.mast_stock": "MAST_STEELS",
        "support.rotator": "RingMount Rotator RotatorDemand",
        "support.tower": "Tower TowerDrawing",
        "support.tower_rating": "TowerRating",
        "support.tube_support": "TubeBending TubularSupport",
        "weather.basis": "EDITIONS NominalSpeed UltimateSpeed WindBasis",
        "weather.drag": "ROUND_DRAG AreaConventions",
        "weather.en_wind": "EnWind",
        "weather.exposed": "ExposedSolid",
        "weather.ice": "IceBasis",
        "weather.partial_factors": "partial_factors",
        "weather.stated_wind": "StatedWind",
        "weather.wind": "SiteWind",
    },
)

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
    from boomwright.structure.beam.boom import arm_bending as arm_bending
    from boomwright.structure.beam.boom import balance_point as balance_point
    from boomwright.structure.beam.boom import boom_arms as boom_arms
    from boomwright.structure.beam.boom import boom_inertia as boom_inertia
    from boomwright.structure.beam.boom import moment_of_inertia as moment_of_inertia
    from boomwright.structure.beam.boom_course import BoomCourse as BoomCourse
    from boomwright.structure.beam.elastica import elastica as elastica
    from boomwright.structure.beam.elements import SectionStrength as SectionStrength
    from boomwright.structure.beam.elements import element_strength as element_strength
    from boomwright.structure.beam.elements import speed_at_stress as speed_at_stress
    from boomwright.structure.beam.joints import JOINT_ROOM as JOINT_ROOM
    from boomwright.structure.beam.joints import TubeJoint as TubeJoint
    from boomwright.structure.beam.joints import joint_stress as joint_stress
    from boomwright.structure.beam.stepped import Segment as Segment
    from boomwright.structure.beam.stepped import cantilever as cantilever
    from boomwright.structure.beam.stepped import half_segments as half_segments
    from boomwright.structure.beam.stepped import weight_loads as weight_loads
    from boomwright.structure.beam.stepped import wind_loads as wind_loads
    from boomwright.structure.beam.torque import ballast_for_middle as ballast_for_middle
    from boomwright.structure.beam.torque import boom_torque as boom_torque
    from boomwright.structure.beam.torque import braking_torque_by_angle as braking_torque_by_angle
    from boomwright.structure.beam.torque import braking_torque_by_time as braking_torque_by_time
    from boomwright.structure.beam.torque import offset_torque as offset_torque
    from boomwright.structure.beam.torque import vane_drag_area as vane_drag_area
    from boomwright.structure.beam.tubing import TubeShape as TubeShape
    from boomwright.structure.beam.tubing import allowable_stress as allowable_stress
    from boomwright.structure.beam.tubing import factored_strength as factored_strength
    from boomwright.structure.beam.vibration import critical_wind as critical_wind
    from boomwright.structure.beam.vibration import natural_frequencies as natural_frequencies
    from boomwright.structure.check import check_structure as check_structure
    from boomwright.structure.checks.fixes import element_fixes as element_fixes
    from boomwright.structure.checks.fixes import highest_stress as highest_stress
    from boomwright.structure.checks.margins import Margin as Margin
    from boomwright.structure.checks.margins import margin as margin
    from boomwright.structure.checks.remedies import double_wall as double_wall
    from boomwright.structure.checks.remedies import extend_outer_tube as extend_outer_tube
    from boomwright.structure.checks.remedies import lengthen_overlap as lengthen_overlap
    from boomwright.structure.checks.remedies import remedy_effect as remedy_effect
    from boomwright.structure.checks.sections import leg_course as leg_course
    from boomwright.structure.faults import BasisMixError as BasisMixError
    from boomwright.structure.faults import BucklesError as BucklesError
    from boomwright.structure.faults import StructureInputError as StructureInputError
    from boomwright.structure.ground.anchors import AnchorBlock as AnchorBlock
    from boomwright.structure.ground.anchors import anchor_pulls as anchor_pulls
    from boomwright.structure.ground.anchors import block_slide as block_slide
    from boomwright.structure.ground.anchors import block_uplift as block_uplift
    from boomwright.structure.ground.earthing import LEAST_OPERATING_AWG as LEAST_OPERATING_AWG
    from boomwright.structure.ground.earthing import LEAST_PROTECTIVE_AWG as LEAST_PROTECTIVE_AWG
    from boomwright.structure.ground.earthing import rod_pair_resistance as rod_pair_resistance
    from boomwright.structure.ground.earthing import rod_resistance as rod_resistance
    from boomwright.structure.ground.pads import PadBase as PadBase
    from boomwright.structure.ground.pads import check_pad as check_pad
    from boomwright.structure.ground.pads import diagonal_pressure as diagonal_pressure
    from boomwright.structure.ground.pads import square_pressure as square_pressure
    from boomwright.structure.ground.piers import PierBase as PierBase
    from boomwright.structure.ground.piers import check_pier as check_pier
    from boomwright.structure.ground.piers import embedment_depth as embedment_depth
    from boomwright.structure.ground.piers import embedment_term as embedment_term
    from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS as PRESUMPTIVE_SOILS
    from boomwright.structure.ground.soils import Soil as Soil
    from boomwright.structure.ground.soils import concrete as concrete
    from boomwright.structure.inputs import BaseReactions as BaseReactions
    from boomwright.structure.inputs import Boom as Boom
    from boomwright.structure.inputs import MountedBeam as MountedBeam
    from boomwright.structure.inputs import StructureInputs as StructureInputs
    from boomwright.structure.memory import recalled as recalled
    from boomwright.structure.reminders import REMINDERS as REMINDERS
    from boomwright.structure.reminders import Reminder as Reminder
    from boomwright.structure.reminders import ReminderList as ReminderList
    from boomwright.structure.report import BaseReport as BaseReport
    from boomwright.structure.report import BeamReport as BeamReport
    from boomwright.structure.report import ElementReport as ElementReport
    from boomwright.structure.report import GuyReport as GuyReport
    from boomwright.structure.report import IcedReport as IcedReport
    from boomwright.structure.report import StructureReport as StructureReport
    from boomwright.structure.support.columns import AluminiumColumn as AluminiumColumn
    from boomwright.structure.support.columns import amplification as amplification
    from boomwright.structure.support.columns import brace_force as brace_force
    from boomwright.structure.support.columns import brace_stiffness as brace_stiffness
    from boomwright.structure.support.columns import elastic_stress as elastic_stress
    from boomwright.structure.support.columns import european_column_share as european_column_share
    from boomwright.structure.support.columns import steel_column_stress as steel_column_stress
    from boomwright.structure.support.columns import steel_moment as steel_moment
    from boomwright.structure.support.columns import tube_strength as tube_strength
    from boomwright.structure.support.columns import working_area_share as working_area_share
    from boomwright.structure.support.guy_solver import GuyedMast as GuyedMast
    from boomwright.structure.support.guy_solver import guyed_course as guyed_course
    from boomwright.structure.support.guy_solver import scan_wind as scan_wind
    from boomwright.structure.support.guy_solver import solve_guyed_mast as solve_guyed_mast
    from boomwright.structure.support.guys import STRANDS as STRANDS
    from boomwright.structure.support.guys import GuyLevel as GuyLevel
    from boomwright.structure.support.guys import GuyLoad as GuyLoad
    from boomwright.structure.support.guys import Strand as Strand
    from boomwright.structure.support.guys import guy_compression as guy_compression
    from boomwright.structure.support.guys import least_pretension as least_pretension
    from boomwright.structure.support.guys import pretensioned_change as pretensioned_change
    from boomwright.structure.support.guys import ring_stiffness as ring_stiffness
    from boomwright.structure.support.guys import sagging_share as sagging_share
    from boomwright.structure.support.guys import sagging_tensions as sagging_tensions
    from boomwright.structure.support.guys import tension_from_pulse as tension_from_pulse
    from boomwright.structure.support.guys import tension_straight as tension_straight
    from boomwright.structure.support.guys import tension_worst as tension_worst
    from boomwright.structure.support.held_beam import SideLoad as SideLoad
    from boomwright.structure.support.held_beam import SupportCourse as SupportCourse
    from boomwright.structure.support.house_brackets import HouseBrackets as HouseBrackets
    from boomwright.structure.support.house_brackets import free_top_factor as free_top_factor
    from boomwright.structure.support.lattice import Lattice as Lattice
    from boomwright.structure.support.lattice import trussed_tower_drag as trussed_tower_drag
    from boomwright.structure.support.mast import Mast as Mast
    from boomwright.structure.support.mast import MastLoad as MastLoad
    from boomwright.structure.support.mast import mast_bending as mast_bending
    from boomwright.structure.support.mast import mast_moment as mast_moment
    from boomwright.structure.support.mast import side_force_at_rotator as side_force_at_rotator
    from boomwright.structure.support.mast_stock import MAST_STEELS as MAST_STEELS
    from boomwright.structure.support.mast_stock import MAST_TUBES as MAST_TUBES
    from boomwright.structure.support.mast_stock import nesting_clearance as nesting_clearance
    from boomwright.structure.support.rotator import RingMount as RingMount
    from boomwright.structure.support.rotator import Rotator as Rotator
    from boomwright.structure.support.rotator import RotatorDemand as RotatorDemand
    from boomwright.structure.support.sway import SwayHold as SwayHold
    from boomwright.structure.support.sway import SwayMass as SwayMass
    from boomwright.structure.support.sway import SwayPart as SwayPart
    from boomwright.structure.support.sway import first_sway as first_sway
    from boomwright.structure.support.sway import ring_hold as ring_hold
    from boomwright.structure.support.tower import Tower as Tower
    from boomwright.structure.support.tower import TowerDrawing as TowerDrawing
    from boomwright.structure.support.tower_rating import EN_EDITION as EN_EDITION
    from boomwright.structure.support.tower_rating import AreaAtHeight as AreaAtHeight
    from boomwright.structure.support.tower_rating import TowerRating as TowerRating
    from boomwright.structure.support.tower_rating import rated_area as rated_area
    from boomwright.structure.support.tower_rating import rated_pressure as rated_pressure
    from boomwright.structure.support.tube_support import TubeBending as TubeBending
    from boomwright.structure.support.tube_support import TubularSupport as TubularSupport
    from boomwright.structure.support.tube_support import bracketed_tube as bracketed_tube
    from boomwright.structure.support.tube_support import free_tube as free_tube
    from boomwright.structure.support.tube_support import guyed_tube as guyed_tube
    from boomwright.structure.weather.basis import EDITIONS as EDITIONS
    from boomwright.structure.weather.basis import NominalSpeed as NominalSpeed
    from boomwright.structure.weather.basis import SpeedKind as SpeedKind
    from boomwright.structure.weather.basis import UltimateSpeed as UltimateSpeed
    from boomwright.structure.weather.basis import WindBasis as WindBasis
    from boomwright.structure.weather.basis import fastest_mile_from_gust as fastest_mile_from_gust
    from boomwright.structure.weather.basis import gust_from_fastest_mile as gust_from_fastest_mile
    from boomwright.structure.weather.basis import nominal_from_ultimate as nominal_from_ultimate
    from boomwright.structure.weather.basis import require_same_kind as require_same_kind
    from boomwright.structure.weather.basis import ultimate_from_nominal as ultimate_from_nominal
    from boomwright.structure.weather.beam_wind import beam_wind as beam_wind
    from boomwright.structure.weather.beam_wind import least_area as least_area
    from boomwright.structure.weather.beam_wind import (
        normal_component_area as normal_component_area,
    )
    from boomwright.structure.weather.beam_wind import older_worst_area as older_worst_area
    from boomwright.structure.weather.drag import ROUND_DRAG as ROUND_DRAG
    from boomwright.structure.weather.drag import AreaConventions as AreaConventions
    from boomwright.structure.weather.drag import en_cylinder_drag as en_cylinder_drag
    from boomwright.structure.weather.drag import lattice_round_drag_asce as lattice_round_drag_asce
    from boomwright.structure.weather.drag import round_drag_asce as round_drag_asce
    from boomwright.structure.weather.drag import tia_regime_number as tia_regime_number
    from boomwright.structure.weather.drag import wind_force as wind_force
    from boomwright.structure.weather.en_wind import TERRAIN_LAWS as TERRAIN_LAWS
    from boomwright.structure.weather.en_wind import EnWind as EnWind
    from boomwright.structure.weather.en_wind import aerodynamic_decrement as aerodynamic_decrement
    from boomwright.structure.weather.en_wind import en_peak_pressure as en_peak_pressure
    from boomwright.structure.weather.en_wind import structural_factor as structural_factor
    from boomwright.structure.weather.en_wind import turbulence_length as turbulence_length
    from boomwright.structure.weather.exposed import ExposedSolid as ExposedSolid
    from boomwright.structure.weather.gust import BARE_POLE_DAMPING as BARE_POLE_DAMPING
    from boomwright.structure.weather.gust import LATTICE_DAMPING as LATTICE_DAMPING
    from boomwright.structure.weather.gust import ON_STRUCTURE_GUST as ON_STRUCTURE_GUST
    from boomwright.structure.weather.gust import POLE_GUST as POLE_GUST
    from boomwright.structure.weather.gust import STEEL_DAMPING as STEEL_DAMPING
    from boomwright.structure.weather.gust import TIA_G_WIND_FACTOR as TIA_G_WIND_FACTOR
    from boomwright.structure.weather.gust import flexible_gust_factor as flexible_gust_factor
    from boomwright.structure.weather.gust import rigid_gust_factor as rigid_gust_factor
    from boomwright.structure.weather.gust import (
        tia_f_height_coefficient as tia_f_height_coefficient,
    )
    from boomwright.structure.weather.gust import tia_f_ice_speed as tia_f_ice_speed
    from boomwright.structure.weather.gust import tia_f_lattice_gust as tia_f_lattice_gust
    from boomwright.structure.weather.gust import tia_g_lattice_gust as tia_g_lattice_gust
    from boomwright.structure.weather.ice import IceBasis as IceBasis
    from boomwright.structure.weather.ice import IceCoat as IceCoat
    from boomwright.structure.weather.ice import design_ice_thickness as design_ice_thickness
    from boomwright.structure.weather.partial_factors import PartialFactors as PartialFactors
    from boomwright.structure.weather.partial_factors import partial_factors as partial_factors
    from boomwright.structure.weather.stated_wind import StatedWind as StatedWind
    from boomwright.structure.weather.wind import SiteWind as SiteWind
    from boomwright.structure.weather.wind import exposure_coefficient as exposure_coefficient
    from boomwright.structure.weather.wind import nominal_basis as nominal_basis
    from boomwright.structure.weather.wind import pressure_from_speed as pressure_from_speed
    from boomwright.structure.weather.wind import pressure_psf_from_mph as pressure_psf_from_mph
    from boomwright.structure.weather.wind import service_wind as service_wind
    from boomwright.structure.weather.wind import topographic_factor as topographic_factor
    from boomwright.structure.weather.wind import velocity_pressure as velocity_pressure

__getattr__ = on_demand(
    __name__,
    {
        "beam.boom": "ArmBending BoomTie PointMass arm_bending balance_point "
        "boom_arms boom_inertia moment_of_inertia",
        "beam.boom_course": "BoomCourse",
        "beam.elastica": "elastica",
        "beam.elements": "SectionStrength element_strength speed_at_stress",
        "beam.joints": "JOINT_ROOM TubeJoint joint_stress",
        "beam.stepped": "Segment cantilever half_segments weight_loads wind_loads",
        "beam.torque": "ballast_for_middle boom_torque braking_torque_by_angle "
        "braking_torque_by_time offset_torque vane_drag_area",
        "beam.tubing": "TubeShape allowable_stress factored_strength",
        "beam.vibration": "critical_wind natural_frequencies",
        "check": "check_structure",
        "checks.fixes": "element_fixes highest_stress",
        "checks.margins": "Margin margin",
        "checks.remedies": "double_wall extend_outer_tube lengthen_overlap remedy_effect",
        "checks.sections": "leg_course",
        "faults": "BasisMixError BucklesError StructureInputError",
        "ground.anchors": "AnchorBlock anchor_pulls block_slide block_uplift",
        "ground.earthing": "LEAST_OPERATING_AWG LEAST_PROTECTIVE_AWG rod_pair_resistance "
        "rod_resistance",
        "ground.pads": "PadBase check_pad diagonal_pressure square_pressure",
        "ground.piers": "PierBase check_pier embedment_depth embedment_term",
        "ground.soils": "PRESUMPTIVE_SOILS Soil concrete",
        "inputs": "BaseReactions Boom MountedBeam StructureInputs",
        "memory": "recalled",
        "reminders": "REMINDERS Reminder ReminderList",
        "report": "BaseReport BeamReport ElementReport GuyReport IcedReport StructureReport",
        "support.columns": "AluminiumColumn amplification brace_force brace_stiffness "
        "elastic_stress european_column_share steel_column_stress "
        "steel_moment tube_strength working_area_share",
        "support.guy_solver": "GuyedMast guyed_course scan_wind solve_guyed_mast",
        "support.guys": "STRANDS GuyLevel GuyLoad Strand guy_compression "
        "least_pretension pretensioned_change ring_stiffness "
        "sagging_share sagging_tensions tension_from_pulse "
        "tension_straight tension_worst",
        "support.held_beam": "SideLoad SupportCourse",
        "support.house_brackets": "HouseBrackets free_top_factor",
        "support.lattice": "Lattice trussed_tower_drag",
        "support.mast": "Mast MastLoad mast_bending mast_moment side_force_at_rotator",
        "support.mast_stock": "MAST_STEELS MAST_TUBES nesting_clearance",
        "support.rotator": "RingMount Rotator RotatorDemand",
        "support.sway": "SwayHold SwayMass SwayPart first_sway ring_hold",
        "support.tower": "Tower TowerDrawing",
        "support.tower_rating": "EN_EDITION AreaAtHeight TowerRating rated_area rated_pressure",
        "support.tube_support": "TubeBending TubularSupport bracketed_tube free_tube guyed_tube",
        "weather.basis": "EDITIONS NominalSpeed SpeedKind UltimateSpeed WindBasis "
        "fastest_mile_from_gust gust_from_fastest_mile "
        "nominal_from_ultimate require_same_kind "
        "ultimate_from_nominal",
        "weather.beam_wind": "beam_wind least_area normal_component_area older_worst_area",
        "weather.drag": "ROUND_DRAG "
        "AreaConventions en_cylinder_drag lattice_round_drag_asce "
        "round_drag_asce tia_regime_number wind_force",
        "weather.exposed": "ExposedSolid",
        "weather.en_wind": "TERRAIN_LAWS EnWind aerodynamic_decrement en_peak_pressure "
        "structural_factor turbulence_length",
        "weather.gust": "BARE_POLE_DAMPING LATTICE_DAMPING ON_STRUCTURE_GUST "
        "POLE_GUST STEEL_DAMPING TIA_G_WIND_FACTOR "
        "flexible_gust_factor rigid_gust_factor "
        "tia_f_height_coefficient tia_f_ice_speed tia_f_lattice_gust "
        "tia_g_lattice_gust",
        "weather.ice": "IceBasis IceCoat design_ice_thickness",
        "weather.partial_factors": "PartialFactors partial_factors",
        "weather.stated_wind": "StatedWind",
        "weather.wind": "SiteWind exposure_coefficient nominal_basis "
        "pressure_from_speed pressure_psf_from_mph service_wind "
        "topographic_factor velocity_pressure",
    },
)

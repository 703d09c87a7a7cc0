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

from boomwright.structure.beam.boom import (
    ArmBending,
    BoomTie,
    PointMass,
    arm_bending,
    balance_point,
    boom_arms,
    boom_inertia,
    moment_of_inertia,
)
from boomwright.structure.beam.boom_course import BoomCourse
from boomwright.structure.beam.elastica import elastica
from boomwright.structure.beam.elements import SectionStrength, element_strength, speed_at_stress
from boomwright.structure.beam.stepped import (
    Segment,
    cantilever,
    half_segments,
    weight_loads,
    wind_loads,
)
from boomwright.structure.beam.torque import (
    ballast_for_middle,
    boom_torque,
    braking_torque_by_angle,
    braking_torque_by_time,
    offset_torque,
    vane_drag_area,
)
from boomwright.structure.beam.tubing import TubeShape, allowable_stress, factored_strength
from boomwright.structure.beam.vibration import critical_wind, natural_frequencies
from boomwright.structure.check import check_structure
from boomwright.structure.checks.fixes import element_fixes, highest_stress
from boomwright.structure.checks.margins import Margin, margin
from boomwright.structure.checks.remedies import (
    double_wall,
    extend_outer_tube,
    lengthen_overlap,
    remedy_effect,
)
from boomwright.structure.checks.sections import leg_course
from boomwright.structure.faults import BasisMixError, BucklesError, StructureInputError
from boomwright.structure.ground.anchors import AnchorBlock, anchor_pulls, block_slide, block_uplift
from boomwright.structure.ground.earthing import (
    LEAST_OPERATING_AWG,
    LEAST_PROTECTIVE_AWG,
    rod_pair_resistance,
    rod_resistance,
)
from boomwright.structure.ground.pads import PadBase, check_pad, diagonal_pressure, square_pressure
from boomwright.structure.ground.piers import PierBase, check_pier, embedment_depth, embedment_term
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS, Soil, concrete
from boomwright.structure.inputs import BaseReactions, Boom, MountedBeam, StructureInputs
from boomwright.structure.memory import recalled
from boomwright.structure.reminders import REMINDERS, Reminder, ReminderList
from boomwright.structure.report import (
    BaseReport,
    BeamReport,
    ElementReport,
    GuyReport,
    IcedReport,
    StructureReport,
)
from boomwright.structure.support.columns import (
    AluminiumColumn,
    amplification,
    brace_force,
    brace_stiffness,
    elastic_stress,
    european_column_share,
    steel_column_stress,
    steel_moment,
    tube_strength,
    working_area_share,
)
from boomwright.structure.support.guy_solver import (
    GuyedMast,
    guyed_course,
    scan_wind,
    solve_guyed_mast,
)
from boomwright.structure.support.guys import (
    STRANDS,
    GuyLevel,
    GuyLoad,
    Strand,
    guy_compression,
    least_pretension,
    pretensioned_change,
    ring_stiffness,
    sagging_share,
    sagging_tensions,
    tension_from_pulse,
    tension_straight,
    tension_worst,
)
from boomwright.structure.support.held_beam import SideLoad, SupportCourse
from boomwright.structure.support.house_brackets import HouseBrackets, free_top_factor
from boomwright.structure.support.lattice import Lattice, trussed_tower_drag
from boomwright.structure.support.mast import (
    Mast,
    MastLoad,
    mast_bending,
    mast_moment,
    side_force_at_rotator,
)
from boomwright.structure.support.mast_stock import MAST_STEELS, MAST_TUBES, nesting_clearance
from boomwright.structure.support.rotator import RingMount, Rotator, RotatorDemand
from boomwright.structure.support.sway import SwayHold, SwayMass, SwayPart, first_sway, ring_hold
from boomwright.structure.support.tower import Tower, TowerDrawing
from boomwright.structure.support.tower_rating import (
    EN_EDITION,
    AreaAtHeight,
    TowerRating,
    rated_area,
    rated_pressure,
)
from boomwright.structure.support.tube_support import (
    TubeBending,
    TubularSupport,
    bracketed_tube,
    free_tube,
    guyed_tube,
)
from boomwright.structure.weather.basis import (
    EDITIONS,
    NominalSpeed,
    SpeedKind,
    UltimateSpeed,
    WindBasis,
    fastest_mile_from_gust,
    gust_from_fastest_mile,
    nominal_from_ultimate,
    require_same_kind,
    ultimate_from_nominal,
)
from boomwright.structure.weather.beam_wind import (
    beam_wind,
    least_area,
    normal_component_area,
    older_worst_area,
)
from boomwright.structure.weather.drag import (
    AreaConventions,
    en_cylinder_drag,
    lattice_round_drag_asce,
    round_drag_asce,
    tia_regime_number,
    wind_force,
)
from boomwright.structure.weather.en_wind import (
    TERRAIN_LAWS,
    EnWind,
    aerodynamic_decrement,
    en_peak_pressure,
    structural_factor,
    turbulence_length,
)
from boomwright.structure.weather.gust import (
    BARE_POLE_DAMPING,
    LATTICE_DAMPING,
    ON_STRUCTURE_GUST,
    POLE_GUST,
    STEEL_DAMPING,
    TIA_G_WIND_FACTOR,
    flexible_gust_factor,
    rigid_gust_factor,
    tia_f_height_coefficient,
    tia_f_ice_speed,
    tia_f_lattice_gust,
    tia_g_lattice_gust,
)
from boomwright.structure.weather.ice import IceBasis, IceCoat, design_ice_thickness
from boomwright.structure.weather.partial_factors import PartialFactors, partial_factors
from boomwright.structure.weather.stated_wind import StatedWind
from boomwright.structure.weather.wind import (
    SiteWind,
    exposure_coefficient,
    nominal_basis,
    pressure_from_speed,
    pressure_psf_from_mph,
    service_wind,
    topographic_factor,
    velocity_pressure,
)

__all__ = [
    "BARE_POLE_DAMPING",
    "EDITIONS",
    "EN_EDITION",
    "LATTICE_DAMPING",
    "LEAST_OPERATING_AWG",
    "LEAST_PROTECTIVE_AWG",
    "MAST_STEELS",
    "MAST_TUBES",
    "ON_STRUCTURE_GUST",
    "POLE_GUST",
    "PRESUMPTIVE_SOILS",
    "REMINDERS",
    "STEEL_DAMPING",
    "STRANDS",
    "TERRAIN_LAWS",
    "TIA_G_WIND_FACTOR",
    "AluminiumColumn",
    "AnchorBlock",
    "AreaAtHeight",
    "AreaConventions",
    "ArmBending",
    "BaseReactions",
    "BaseReport",
    "BasisMixError",
    "BeamReport",
    "Boom",
    "BoomCourse",
    "BoomTie",
    "BucklesError",
    "ElementReport",
    "EnWind",
    "GuyLevel",
    "GuyLoad",
    "GuyReport",
    "GuyedMast",
    "HouseBrackets",
    "IceBasis",
    "IceCoat",
    "IcedReport",
    "Lattice",
    "Margin",
    "Mast",
    "MastLoad",
    "MountedBeam",
    "NominalSpeed",
    "PadBase",
    "PartialFactors",
    "PierBase",
    "PointMass",
    "Reminder",
    "ReminderList",
    "RingMount",
    "Rotator",
    "RotatorDemand",
    "SectionStrength",
    "Segment",
    "SideLoad",
    "SiteWind",
    "Soil",
    "SpeedKind",
    "StatedWind",
    "Strand",
    "StructureInputError",
    "StructureInputs",
    "StructureReport",
    "SupportCourse",
    "SwayHold",
    "SwayMass",
    "SwayPart",
    "Tower",
    "TowerDrawing",
    "TowerRating",
    "TubeBending",
    "TubeShape",
    "TubularSupport",
    "UltimateSpeed",
    "WindBasis",
    "aerodynamic_decrement",
    "allowable_stress",
    "amplification",
    "anchor_pulls",
    "arm_bending",
    "balance_point",
    "ballast_for_middle",
    "beam_wind",
    "block_slide",
    "block_uplift",
    "boom_arms",
    "boom_inertia",
    "boom_torque",
    "brace_force",
    "brace_stiffness",
    "bracketed_tube",
    "braking_torque_by_angle",
    "braking_torque_by_time",
    "cantilever",
    "check_pad",
    "check_pier",
    "check_structure",
    "concrete",
    "critical_wind",
    "design_ice_thickness",
    "diagonal_pressure",
    "double_wall",
    "elastic_stress",
    "elastica",
    "element_fixes",
    "element_strength",
    "embedment_depth",
    "embedment_term",
    "en_cylinder_drag",
    "en_peak_pressure",
    "european_column_share",
    "exposure_coefficient",
    "extend_outer_tube",
    "factored_strength",
    "fastest_mile_from_gust",
    "first_sway",
    "flexible_gust_factor",
    "free_top_factor",
    "free_tube",
    "gust_from_fastest_mile",
    "guy_compression",
    "guyed_course",
    "guyed_tube",
    "half_segments",
    "highest_stress",
    "lattice_round_drag_asce",
    "least_area",
    "least_pretension",
    "leg_course",
    "lengthen_overlap",
    "margin",
    "mast_bending",
    "mast_moment",
    "moment_of_inertia",
    "natural_frequencies",
    "nesting_clearance",
    "nominal_basis",
    "nominal_from_ultimate",
    "normal_component_area",
    "offset_torque",
    "older_worst_area",
    "partial_factors",
    "pressure_from_speed",
    "pressure_psf_from_mph",
    "pretensioned_change",
    "rated_area",
    "rated_pressure",
    "recalled",
    "remedy_effect",
    "require_same_kind",
    "rigid_gust_factor",
    "ring_hold",
    "ring_stiffness",
    "rod_pair_resistance",
    "rod_resistance",
    "round_drag_asce",
    "sagging_share",
    "sagging_tensions",
    "scan_wind",
    "service_wind",
    "side_force_at_rotator",
    "solve_guyed_mast",
    "speed_at_stress",
    "square_pressure",
    "steel_column_stress",
    "steel_moment",
    "structural_factor",
    "tension_from_pulse",
    "tension_straight",
    "tension_worst",
    "tia_f_height_coefficient",
    "tia_f_ice_speed",
    "tia_f_lattice_gust",
    "tia_g_lattice_gust",
    "tia_regime_number",
    "topographic_factor",
    "trussed_tower_drag",
    "tube_strength",
    "turbulence_length",
    "ultimate_from_nominal",
    "vane_drag_area",
    "velocity_pressure",
    "weight_loads",
    "wind_force",
    "wind_loads",
    "working_area_share",
]

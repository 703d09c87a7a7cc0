"""Reach: what the height gives, where it goes, and who stands near it.

``read_beam`` computes everything the page, the book and the command line show of one beam;
``quick_look`` what a hand on the page wants to see at once. Bearings and distances, locators
and the map are geometry on the ellipsoid; hops, signal reports and turning read them against
the pattern; terrain bends the waves over a profile.

``scan_heights`` turns height into lobes; ``plain_antennas`` are what a beam is held against;
``solve_stack`` and ``feed_stack`` put several beams on one tower with their coupling solved,
``phasing`` seeks their best spacing and phase, ``sweep_ring`` turns one of them on a ring;
``trace_footprint`` spreads the pattern over the map; ``make_radiator`` and ``fields_at`` give E
and H where people are, for one watt.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.reach.ahead import front_to_rear as front_to_rear
    from boomwright.reach.ahead import take_off as take_off
    from boomwright.reach.at_height import free_space_elevation as free_space_elevation
    from boomwright.reach.at_height import layered_gain_dbi as layered_gain_dbi
    from boomwright.reach.at_height import solve_at_height as solve_at_height
    from boomwright.reach.beam_computation import idle_feeds as idle_feeds
    from boomwright.reach.beam_computation import quick_look as quick_look
    from boomwright.reach.beam_computation import read_beam as read_beam
    from boomwright.reach.beside import beside_notices as beside_notices
    from boomwright.reach.body import body_average as body_average
    from boomwright.reach.body import body_points as body_points
    from boomwright.reach.comparison import COMPARED_RADIALS as COMPARED_RADIALS
    from boomwright.reach.comparison import LOW_DIPOLE_HEIGHT as LOW_DIPOLE_HEIGHT
    from boomwright.reach.comparison import Advantage as Advantage
    from boomwright.reach.comparison import PlainAntenna as PlainAntenna
    from boomwright.reach.comparison import advantages as advantages
    from boomwright.reach.comparison import plain_antennas as plain_antennas
    from boomwright.reach.exposure_grid import NEAREST as NEAREST
    from boomwright.reach.exposure_grid import FieldGrid as FieldGrid
    from boomwright.reach.exposure_grid import Radiator as Radiator
    from boomwright.reach.exposure_grid import fields_at as fields_at
    from boomwright.reach.exposure_grid import level_grid as level_grid
    from boomwright.reach.exposure_grid import make_radiator as make_radiator
    from boomwright.reach.exposure_grid import near_field_ends as near_field_ends
    from boomwright.reach.exposure_grid import upright_grid as upright_grid
    from boomwright.reach.footprint import Footprint as Footprint
    from boomwright.reach.footprint import trace_footprint as trace_footprint
    from boomwright.reach.geodesy import EARTH_RADIUS as EARTH_RADIUS
    from boomwright.reach.geodesy import GreatCircle as GreatCircle
    from boomwright.reach.geodesy import Place as Place
    from boomwright.reach.geodesy import great_circle as great_circle
    from boomwright.reach.geodesy import path_points as path_points
    from boomwright.reach.ground_zones import ZonedGround as ZonedGround
    from boomwright.reach.height_scan import HeightScan as HeightScan
    from boomwright.reach.height_scan import scan_heights as scan_heights
    from boomwright.reach.hops import HopReading as HopReading
    from boomwright.reach.hops import fewest_hops as fewest_hops
    from boomwright.reach.hops import hops_for_path as hops_for_path
    from boomwright.reach.lobes import forward_lobes as forward_lobes
    from boomwright.reach.notices import fires_behind as fires_behind
    from boomwright.reach.pattern_grid import PatternGrid as PatternGrid
    from boomwright.reach.phasing import PhaseScan as PhaseScan
    from boomwright.reach.phasing import SpacingScan as SpacingScan
    from boomwright.reach.phasing import StackingGain as StackingGain
    from boomwright.reach.phasing import scan_phase as scan_phase
    from boomwright.reach.phasing import scan_spacing as scan_spacing
    from boomwright.reach.phasing import stacking_gain as stacking_gain
    from boomwright.reach.readings import BeamReadings as BeamReadings
    from boomwright.reach.readings import Beside as Beside
    from boomwright.reach.readings import BesideFigures as BesideFigures
    from boomwright.reach.readings import Drive as Drive
    from boomwright.reach.readings import Known as Known
    from boomwright.reach.readings import OverGround as OverGround
    from boomwright.reach.readings import QuickLook as QuickLook
    from boomwright.reach.ring import RingReading as RingReading
    from boomwright.reach.ring import RingSweep as RingSweep
    from boomwright.reach.ring import sweep_ring as sweep_ring
    from boomwright.reach.stack import StackReading as StackReading
    from boomwright.reach.stack import feed_stack as feed_stack
    from boomwright.reach.stack import isolation_db as isolation_db
    from boomwright.reach.stack import solve_stack as solve_stack
    from boomwright.reach.stack import stack_gain_dbi as stack_gain_dbi
    from boomwright.reach.stack import usual_feedings as usual_feedings
    from boomwright.reach.terrain import TerrainPattern as TerrainPattern
    from boomwright.reach.terrain import gain_over_terrain as gain_over_terrain
    from boomwright.reach.terrain_profile import TerrainProfile as TerrainProfile
    from boomwright.reach.turning import PointingLoss as PointingLoss
    from boomwright.reach.turning import pointing_losses as pointing_losses
    from boomwright.reach.turning import turn_time as turn_time
    from boomwright.reach.wave_pictures import WavePicture as WavePicture
    from boomwright.reach.wave_pictures import wave_picture as wave_picture
    from boomwright.reach.wave_planes import WavePlane as WavePlane
    from boomwright.reach.wave_senders import Share as Share
    from boomwright.reach.world_map import project as project
    from boomwright.reach.world_map import project_polylines as project_polylines

__getattr__ = on_demand(
    __name__,
    {
        "ahead": "front_to_rear take_off",
        "at_height": "free_space_elevation layered_gain_dbi solve_at_height",
        "beside": "beside_notices",
        "body": "body_average body_points",
        "comparison": "COMPARED_RADIALS LOW_DIPOLE_HEIGHT Advantage PlainAntenna advantages "
        "plain_antennas",
        "exposure_grid": "NEAREST FieldGrid Radiator fields_at level_grid make_radiator "
        "near_field_ends upright_grid",
        "footprint": "Footprint trace_footprint",
        "geodesy": "EARTH_RADIUS GreatCircle Place great_circle path_points",
        "ground_zones": "ZonedGround",
        "height_scan": "HeightScan scan_heights",
        "hops": "HopReading fewest_hops hops_for_path",
        "lobes": "forward_lobes",
        "notices": "fires_behind",
        "pattern_grid": "PatternGrid",
        "phasing": "PhaseScan SpacingScan StackingGain scan_phase scan_spacing stacking_gain",
        "beam_computation": "idle_feeds quick_look read_beam",
        "readings": "BeamReadings Beside BesideFigures Drive Known OverGround QuickLook",
        "ring": "RingReading RingSweep sweep_ring",
        "stack": "StackReading feed_stack isolation_db solve_stack stack_gain_dbi usual_feedings",
        "terrain": "TerrainPattern gain_over_terrain",
        "terrain_profile": "TerrainProfile",
        "turning": "PointingLoss pointing_losses turn_time",
        "wave_pictures": "WavePicture wave_picture",
        "wave_planes": "WavePlane",
        "wave_senders": "Share",
        "world_map": "project project_polylines",
    },
)

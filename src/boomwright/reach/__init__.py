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
    from boomwright.reach.ahead import front_to_rear, take_off
    from boomwright.reach.at_height import free_space_elevation, layered_gain_dbi, solve_at_height
    from boomwright.reach.beam_computation import idle_feeds, quick_look, read_beam
    from boomwright.reach.beside import beside_notices
    from boomwright.reach.body import body_average, body_points
    from boomwright.reach.comparison import (
        COMPARED_RADIALS,
        LOW_DIPOLE_HEIGHT,
        Advantage,
        PlainAntenna,
        advantages,
        plain_antennas,
    )
    from boomwright.reach.exposure_grid import (
        NEAREST,
        FieldGrid,
        Radiator,
        fields_at,
        level_grid,
        make_radiator,
        near_field_ends,
        upright_grid,
    )
    from boomwright.reach.footprint import Footprint, trace_footprint
    from boomwright.reach.geodesy import EARTH_RADIUS, GreatCircle, Place, great_circle, path_points
    from boomwright.reach.ground_zones import ZonedGround
    from boomwright.reach.height_scan import HeightScan, scan_heights
    from boomwright.reach.hops import HopReading, fewest_hops, hops_for_path
    from boomwright.reach.lobes import forward_lobes
    from boomwright.reach.notices import fires_behind
    from boomwright.reach.pattern_grid import PatternGrid
    from boomwright.reach.phasing import (
        PhaseScan,
        SpacingScan,
        StackingGain,
        scan_phase,
        scan_spacing,
        stacking_gain,
    )
    from boomwright.reach.readings import (
        BeamReadings,
        Beside,
        BesideFigures,
        Known,
        OverGround,
        QuickLook,
    )
    from boomwright.reach.ring import RingReading, RingSweep, sweep_ring
    from boomwright.reach.stack import (
        StackReading,
        feed_stack,
        isolation_db,
        solve_stack,
        stack_gain_dbi,
        usual_feedings,
    )
    from boomwright.reach.terrain import TerrainPattern, gain_over_terrain
    from boomwright.reach.terrain_profile import TerrainProfile
    from boomwright.reach.turning import PointingLoss, pointing_losses, turn_time
    from boomwright.reach.wave_pictures import WavePicture, wave_picture
    from boomwright.reach.wave_planes import WavePlane
    from boomwright.reach.wave_senders import Share
    from boomwright.reach.world_map import project, project_polylines

__getattr__ = on_demand(__name__)

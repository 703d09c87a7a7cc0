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

from boomwright.reach.ahead import front_to_rear, take_off
from boomwright.reach.at_height import (
    free_space_elevation,
    layered_gain_dbi,
    solve_at_height,
)
from boomwright.reach.beside import beside_notices
from boomwright.reach.body import body_average, body_points
from boomwright.reach.comparison import (
    LOW_DIPOLE_HEIGHT,
    Advantage,
    PlainAntenna,
    advantages,
    plain_antennas,
)
from boomwright.reach.exposure_grid import (
    FieldGrid,
    Radiator,
    fields_at,
    level_grid,
    make_radiator,
    near_field_ends,
    upright_grid,
)
from boomwright.reach.footprint import (
    Footprint,
    trace_footprint,
)
from boomwright.reach.geodesy import (
    EARTH_RADIUS,
    GreatCircle,
    Place,
    great_circle,
    path_points,
)
from boomwright.reach.ground_zones import (
    ZonedGround,
)
from boomwright.reach.height_scan import (
    HeightScan,
    scan_heights,
)
from boomwright.reach.hops import (
    HopReading,
    fewest_hops,
    hops_for_path,
)
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
from boomwright.reach.read_beam import idle_feeds, quick_look, read_beam
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
    feed_stack,
    isolation_db,
    solve_stack,
    stack_gain_dbi,
    usual_feedings,
)
from boomwright.reach.terrain import TerrainPattern, gain_over_terrain
from boomwright.reach.terrain_profile import TerrainProfile
from boomwright.reach.turning import PointingLoss, pointing_losses, turn_time
from boomwright.reach.wave_picture import WavePicture, wave_picture
from boomwright.reach.wave_planes import WavePlane
from boomwright.reach.wave_senders import Share
from boomwright.reach.world_map import project, project_polylines

__all__ = [
    "EARTH_RADIUS",
    "LOW_DIPOLE_HEIGHT",
    "Advantage",
    "BeamReadings",
    "Beside",
    "BesideFigures",
    "FieldGrid",
    "Footprint",
    "GreatCircle",
    "HeightScan",
    "HopReading",
    "Known",
    "OverGround",
    "PatternGrid",
    "PhaseScan",
    "Place",
    "PlainAntenna",
    "PointingLoss",
    "QuickLook",
    "Radiator",
    "RingReading",
    "RingSweep",
    "Share",
    "SpacingScan",
    "StackingGain",
    "TerrainPattern",
    "TerrainProfile",
    "WavePicture",
    "WavePlane",
    "ZonedGround",
    "advantages",
    "beside_notices",
    "body_average",
    "body_points",
    "feed_stack",
    "fewest_hops",
    "fields_at",
    "fires_behind",
    "forward_lobes",
    "free_space_elevation",
    "front_to_rear",
    "gain_over_terrain",
    "great_circle",
    "hops_for_path",
    "idle_feeds",
    "isolation_db",
    "layered_gain_dbi",
    "level_grid",
    "make_radiator",
    "near_field_ends",
    "path_points",
    "plain_antennas",
    "pointing_losses",
    "project",
    "project_polylines",
    "quick_look",
    "read_beam",
    "scan_heights",
    "scan_phase",
    "scan_spacing",
    "solve_at_height",
    "solve_stack",
    "stack_gain_dbi",
    "stacking_gain",
    "sweep_ring",
    "take_off",
    "trace_footprint",
    "turn_time",
    "upright_grid",
    "usual_feedings",
    "wave_picture",
]

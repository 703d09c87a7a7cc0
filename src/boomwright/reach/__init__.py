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
    image_lobe_deg,
    layered_gain_dbi,
    solve_at_height,
)
from boomwright.reach.beside import beside_notices, notices_of, read_beside
from boomwright.reach.body import body_average, body_points
from boomwright.reach.comparison import (
    COMPARED_RADIALS,
    LOW_DIPOLE_HEIGHT,
    Advantage,
    PlainAntenna,
    advantages,
    half_wave_dipole,
    plain_antennas,
)
from boomwright.reach.exposure_grid import (
    FieldGrid,
    FieldPoints,
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
    destination,
    great_circle,
    path_points,
    sphere_bearing,
    sphere_distance,
)
from boomwright.reach.ground_reflection import (
    first_fresnel_zone,
    ground_coefficients,
    reflection_distance,
)
from boomwright.reach.ground_zones import (
    GroundZone,
    ZonedGround,
    ground_factor,
    zone_weights,
    zoned_far_field,
)
from boomwright.reach.height_scan import (
    HeightScan,
    Split,
    scan_cut,
    scan_heights,
    usual_heights,
)
from boomwright.reach.hops import (
    E_LAYER,
    F2_LAYER,
    HopReading,
    Layer,
    fewest_hops,
    gain_at_elevation,
    hop_elevation,
    hops_for_path,
    incidence_angle,
    longest_hop,
)
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.locator import (
    LocatorCell,
    cell_from_locator,
    locator_from_place,
    place_from_locator,
)
from boomwright.reach.notices import fires_behind
from boomwright.reach.pattern_grid import PatternGrid, pattern_grid
from boomwright.reach.phasing import (
    PhaseScan,
    SpacingScan,
    StackingGain,
    in_phase,
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
    Lobe,
    MainLobe,
    OverGround,
    QuickLook,
)
from boomwright.reach.ring import RingReading, RingSweep, sweep_ring
from boomwright.reach.signal_reports import (
    microvolts,
    power_of_s_units,
    s9_dbm,
    s_units,
    signal_report,
)
from boomwright.reach.stack import (
    Feeding,
    Stack,
    StackReading,
    feed_stack,
    isolation_db,
    solve_stack,
    stack_gain_dbi,
    usual_feedings,
)
from boomwright.reach.stack_wires import stack_system
from boomwright.reach.terrain import TerrainPattern, gain_over_terrain
from boomwright.reach.terrain_profile import TerrainProfile
from boomwright.reach.turning import PointingLoss, pointing_losses, turn_angle, turn_time
from boomwright.reach.wave_picture import WavePicture, wave_picture
from boomwright.reach.wave_planes import WavePlane
from boomwright.reach.wave_senders import Share
from boomwright.reach.world_map import project, project_polylines, unproject

__all__ = [
    "COMPARED_RADIALS",
    "EARTH_RADIUS",
    "E_LAYER",
    "F2_LAYER",
    "LOW_DIPOLE_HEIGHT",
    "Advantage",
    "BeamReadings",
    "Beside",
    "BesideFigures",
    "Feeding",
    "FieldGrid",
    "FieldPoints",
    "Footprint",
    "GreatCircle",
    "GroundZone",
    "HeightScan",
    "HopReading",
    "Known",
    "Layer",
    "Lobe",
    "LocatorCell",
    "MainLobe",
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
    "Split",
    "Stack",
    "StackReading",
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
    "cell_from_locator",
    "destination",
    "feed_stack",
    "fewest_hops",
    "fields_at",
    "fires_behind",
    "first_fresnel_zone",
    "forward_lobes",
    "free_space_elevation",
    "front_to_rear",
    "gain_at_elevation",
    "gain_over_terrain",
    "great_circle",
    "ground_coefficients",
    "ground_factor",
    "half_wave_dipole",
    "hop_elevation",
    "hops_for_path",
    "idle_feeds",
    "image_lobe_deg",
    "in_phase",
    "incidence_angle",
    "isolation_db",
    "layered_gain_dbi",
    "level_grid",
    "locator_from_place",
    "longest_hop",
    "make_radiator",
    "microvolts",
    "near_field_ends",
    "notices_of",
    "path_points",
    "pattern_grid",
    "place_from_locator",
    "plain_antennas",
    "pointing_losses",
    "power_of_s_units",
    "project",
    "project_polylines",
    "quick_look",
    "read_beam",
    "read_beside",
    "reflection_distance",
    "s9_dbm",
    "s_units",
    "scan_cut",
    "scan_heights",
    "scan_phase",
    "scan_spacing",
    "signal_report",
    "solve_at_height",
    "solve_stack",
    "sphere_bearing",
    "sphere_distance",
    "stack_gain_dbi",
    "stack_system",
    "stacking_gain",
    "sweep_ring",
    "take_off",
    "trace_footprint",
    "turn_angle",
    "turn_time",
    "unproject",
    "upright_grid",
    "usual_feedings",
    "usual_heights",
    "wave_picture",
    "zone_weights",
    "zoned_far_field",
]

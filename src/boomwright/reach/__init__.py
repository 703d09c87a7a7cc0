"""Reach: what the height gives, where it goes, and who stands near it.

``read_beam`` computes everything the page, the book and the command line show of one beam;
``quick_look`` what a hand on the page wants to see at once. Bearings and distances, locators
and the map are geometry on the ellipsoid; hops, signal reports and turning read them against
the pattern; terrain bends the waves over a profile.
"""

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
    ReflectionByElevation,
    TwoZoneGround,
    first_fresnel_zone,
    ground_coefficients,
    ground_factor,
    reflection_by_elevation,
    reflection_distance,
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
from boomwright.reach.read_beam import QuickLook, quick_look, read_beam
from boomwright.reach.readings import BeamReadings, Lobe, OverGround
from boomwright.reach.signal_reports import (
    microvolts,
    power_of_s_units,
    s9_dbm,
    s_units,
    signal_report,
)
from boomwright.reach.terrain import TerrainPattern, gain_over_terrain
from boomwright.reach.terrain_profile import TerrainProfile
from boomwright.reach.turning import PointingLoss, pointing_losses, turn_angle, turn_time
from boomwright.reach.world_map import project, project_polylines, unproject

__all__ = [
    "EARTH_RADIUS",
    "E_LAYER",
    "F2_LAYER",
    "BeamReadings",
    "GreatCircle",
    "HopReading",
    "Layer",
    "Lobe",
    "LocatorCell",
    "OverGround",
    "Place",
    "PointingLoss",
    "QuickLook",
    "ReflectionByElevation",
    "TerrainPattern",
    "TerrainProfile",
    "TwoZoneGround",
    "cell_from_locator",
    "destination",
    "fewest_hops",
    "first_fresnel_zone",
    "forward_lobes",
    "gain_at_elevation",
    "gain_over_terrain",
    "great_circle",
    "ground_coefficients",
    "ground_factor",
    "hop_elevation",
    "hops_for_path",
    "incidence_angle",
    "locator_from_place",
    "longest_hop",
    "microvolts",
    "path_points",
    "place_from_locator",
    "pointing_losses",
    "power_of_s_units",
    "project",
    "project_polylines",
    "quick_look",
    "read_beam",
    "reflection_by_elevation",
    "reflection_distance",
    "s9_dbm",
    "s_units",
    "signal_report",
    "sphere_bearing",
    "sphere_distance",
    "turn_angle",
    "turn_time",
    "unproject",
]

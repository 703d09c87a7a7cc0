"""Permits: what the rules say about one installation, and what nobody has checked yet.

Start at :class:`PermitFinding`: every answer is one, with verdict, basis, date and whom to ask.
It is general information, not legal advice, and ``within`` speaks of one figure of one rule only.

``heights`` adds up what counts as height; ``airports`` measures to the nearest runway point, which
``landing_table`` looks up; ``countries`` tells in which country a position lies;
``united_states`` holds the American airspace rules; ``jurisdictions`` reads places from TOML text
(files in ``data``, described in ``data/README.md``) and ``jurisdiction_findings`` applies them;
``local_limits`` holds what the owner looked up, with fall and swing circles; ``power_lines`` the
distances to lines; ``exposure_limits`` and ``exposure`` the limits for fields and how a computed
field compares. :func:`permit_sheet` puts one installation before all of them.

No disk: tables, shapes and file texts come in as arguments.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.permits.airports import Airport as Airport
    from boomwright.permits.airports import NearestPoint as NearestPoint
    from boomwright.permits.airports import Runway as Runway
    from boomwright.permits.airports import RunwayEnd as RunwayEnd
    from boomwright.permits.airports import geodesic_distance as geodesic_distance
    from boomwright.permits.airports import nearest_points as nearest_points
    from boomwright.permits.airports import with_entered_runways as with_entered_runways
    from boomwright.permits.countries import CountryShapes as CountryShapes
    from boomwright.permits.countries import countries_at as countries_at
    from boomwright.permits.countries import state_of as state_of
    from boomwright.permits.exposure import EMISSION_DUTY as EMISSION_DUTY
    from boomwright.permits.exposure import ExposureRatio as ExposureRatio
    from boomwright.permits.exposure import average_power as average_power
    from boomwright.permits.exposure import distance_to_limit as distance_to_limit
    from boomwright.permits.exposure import exposure_finding as exposure_finding
    from boomwright.permits.exposure import exposure_ratio as exposure_ratio
    from boomwright.permits.exposure import far_field_power_density as far_field_power_density
    from boomwright.permits.exposure import plane_wave_fields as plane_wave_fields
    from boomwright.permits.exposure import transmit_share as transmit_share
    from boomwright.permits.exposure_limits import ExposureLimit as ExposureLimit
    from boomwright.permits.exposure_limits import fcc_limit as fcc_limit
    from boomwright.permits.exposure_limits import icnirp_limit as icnirp_limit
    from boomwright.permits.exposure_places import LimitCheck as LimitCheck
    from boomwright.permits.exposure_places import PlaceField as PlaceField
    from boomwright.permits.exposure_places import check_place as check_place
    from boomwright.permits.exposure_places import every_limit as every_limit
    from boomwright.permits.exposure_places import strictest_share as strictest_share
    from boomwright.permits.findings import GENERAL_INFORMATION as GENERAL_INFORMATION
    from boomwright.permits.findings import PermitFinding as PermitFinding
    from boomwright.permits.findings import Verdict as Verdict
    from boomwright.permits.findings import finding_notice as finding_notice
    from boomwright.permits.heights import StructureHeights as StructureHeights
    from boomwright.permits.jurisdiction_findings import PermitSite as PermitSite
    from boomwright.permits.jurisdiction_findings import airport_distances as airport_distances
    from boomwright.permits.jurisdictions import Jurisdiction as Jurisdiction
    from boomwright.permits.jurisdictions import Rule as Rule
    from boomwright.permits.jurisdictions import read_jurisdiction as read_jurisdiction
    from boomwright.permits.landing_table import LandingTable as LandingTable
    from boomwright.permits.local_limits import LocalLimits as LocalLimits
    from boomwright.permits.local_limits import Neighbourhood as Neighbourhood
    from boomwright.permits.local_limits import circle_findings as circle_findings
    from boomwright.permits.local_limits import local_findings as local_findings
    from boomwright.permits.overhead import OUT_OF_REACH as OUT_OF_REACH
    from boomwright.permits.overhead import Overhead as Overhead
    from boomwright.permits.overhead import Roof as Roof
    from boomwright.permits.overhead import overhead_findings as overhead_findings
    from boomwright.permits.power_lines import LineClearance as LineClearance
    from boomwright.permits.power_lines import PowerLine as PowerLine
    from boomwright.permits.power_lines import fall_gap as fall_gap
    from boomwright.permits.power_lines import least_clearance as least_clearance
    from boomwright.permits.power_lines import power_line_findings as power_line_findings
    from boomwright.permits.power_lines import standing_gap as standing_gap
    from boomwright.permits.power_lines import table_a_distance as table_a_distance
    from boomwright.permits.sheet import Installation as Installation
    from boomwright.permits.sheet import PermitSheet as PermitSheet
    from boomwright.permits.sheet import permit_sheet as permit_sheet
    from boomwright.permits.united_states import NoticeSurface as NoticeSurface
    from boomwright.permits.united_states import SurfaceCheck as SurfaceCheck
    from boomwright.permits.united_states import lowest_first as lowest_first
    from boomwright.permits.united_states import surface_for as surface_for
    from boomwright.permits.united_states import surface_over_site as surface_over_site
    from boomwright.permits.united_states import surface_verdict as surface_verdict
    from boomwright.permits.united_states import united_states_airspace as united_states_airspace

__getattr__ = on_demand(
    __name__,
    {
        "jurisdiction_findings": "PermitSite airport_distances",
        "airports": "Airport NearestPoint Runway RunwayEnd geodesic_distance "
        "nearest_points with_entered_runways",
        "countries": "CountryShapes countries_at state_of",
        "exposure": "EMISSION_DUTY ExposureRatio average_power "
        "distance_to_limit exposure_finding "
        "exposure_ratio far_field_power_density plane_wave_fields "
        "transmit_share",
        "exposure_limits": "ExposureLimit fcc_limit icnirp_limit",
        "exposure_places": "LimitCheck PlaceField check_place every_limit strictest_share",
        "findings": "GENERAL_INFORMATION PermitFinding Verdict finding_notice",
        "heights": "StructureHeights",
        "jurisdictions": "Jurisdiction Rule read_jurisdiction",
        "landing_table": "LandingTable",
        "local_limits": "LocalLimits Neighbourhood circle_findings local_findings",
        "overhead": "OUT_OF_REACH Overhead Roof overhead_findings",
        "power_lines": "LineClearance PowerLine fall_gap least_clearance "
        "power_line_findings standing_gap table_a_distance",
        "sheet": "Installation PermitSheet permit_sheet",
        "united_states": "NoticeSurface SurfaceCheck lowest_first surface_for "
        "surface_over_site surface_verdict united_states_airspace",
    },
)

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

from boomwright.permits.airports import (
    Airport,
    NearestPoint,
    Runway,
    RunwayEnd,
    geodesic_distance,
    nearest_points,
    with_entered_runways,
)
from boomwright.permits.countries import CountryShapes, countries_at, state_of
from boomwright.permits.exposure import (
    EMISSION_DUTY,
    ExposureRatio,
    average_power,
    combined_ratio,
    distance_to_limit,
    exempt_radiated_power,
    exposure_finding,
    exposure_ratio,
    far_field_power_density,
    plane_wave_fields,
    transmit_share,
)
from boomwright.permits.exposure_limits import ExposureLimit, fcc_limit, icnirp_limit
from boomwright.permits.exposure_places import (
    LimitCheck,
    PlaceField,
    check_place,
    every_limit,
    strictest_share,
)
from boomwright.permits.findings import (
    GENERAL_INFORMATION,
    PermitFinding,
    Verdict,
    finding_notice,
)
from boomwright.permits.heights import StructureHeights
from boomwright.permits.jurisdiction_findings import (
    PermitSite,
    airport_distances,
    jurisdiction_findings,
)
from boomwright.permits.jurisdictions import Jurisdiction, Rule, read_jurisdiction
from boomwright.permits.landing_table import LandingTable
from boomwright.permits.local_limits import (
    LocalLimits,
    Neighbourhood,
    circle_findings,
    local_findings,
)
from boomwright.permits.power_lines import (
    LineClearance,
    PowerLine,
    fall_gap,
    least_clearance,
    power_line_findings,
    standing_gap,
    table_a_distance,
    untrained_distance,
)
from boomwright.permits.sheet import Installation, PermitSheet, permit_sheet
from boomwright.permits.united_states import (
    NoticeSurface,
    SurfaceCheck,
    lowest_first,
    surface_for,
    surface_over_site,
    surface_verdict,
    united_states_airspace,
)

__all__ = [
    "EMISSION_DUTY",
    "GENERAL_INFORMATION",
    "Airport",
    "CountryShapes",
    "ExposureLimit",
    "ExposureRatio",
    "Installation",
    "Jurisdiction",
    "LandingTable",
    "LimitCheck",
    "LineClearance",
    "LocalLimits",
    "NearestPoint",
    "Neighbourhood",
    "NoticeSurface",
    "PermitFinding",
    "PermitSheet",
    "PermitSite",
    "PlaceField",
    "PowerLine",
    "Rule",
    "Runway",
    "RunwayEnd",
    "StructureHeights",
    "SurfaceCheck",
    "Verdict",
    "airport_distances",
    "average_power",
    "check_place",
    "circle_findings",
    "combined_ratio",
    "countries_at",
    "distance_to_limit",
    "every_limit",
    "exempt_radiated_power",
    "exposure_finding",
    "exposure_ratio",
    "fall_gap",
    "far_field_power_density",
    "fcc_limit",
    "finding_notice",
    "geodesic_distance",
    "icnirp_limit",
    "jurisdiction_findings",
    "least_clearance",
    "local_findings",
    "lowest_first",
    "nearest_points",
    "permit_sheet",
    "plane_wave_fields",
    "power_line_findings",
    "read_jurisdiction",
    "standing_gap",
    "state_of",
    "strictest_share",
    "surface_for",
    "surface_over_site",
    "surface_verdict",
    "table_a_distance",
    "transmit_share",
    "united_states_airspace",
    "untrained_distance",
    "with_entered_runways",
]

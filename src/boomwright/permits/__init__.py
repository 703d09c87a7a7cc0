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
    from boomwright.permits.airports import Runway as Runway
    from boomwright.permits.airports import RunwayEnd as RunwayEnd
    from boomwright.permits.airports import with_entered_runways as with_entered_runways
    from boomwright.permits.countries import CountryShapes as CountryShapes
    from boomwright.permits.countries import countries_at as countries_at
    from boomwright.permits.exposure import EMISSION_DUTY as EMISSION_DUTY
    from boomwright.permits.exposure import average_power as average_power
    from boomwright.permits.exposure import distance_to_limit as distance_to_limit
    from boomwright.permits.exposure import exposure_finding as exposure_finding
    from boomwright.permits.exposure import transmit_share as transmit_share
    from boomwright.permits.exposure_limits import ExposureLimit as ExposureLimit
    from boomwright.permits.exposure_places import LimitCheck as LimitCheck
    from boomwright.permits.exposure_places import PlaceField as PlaceField
    from boomwright.permits.exposure_places import check_place as check_place
    from boomwright.permits.exposure_places import every_limit as every_limit
    from boomwright.permits.exposure_places import strictest_share as strictest_share
    from boomwright.permits.findings import PermitFinding as PermitFinding
    from boomwright.permits.findings import Verdict as Verdict
    from boomwright.permits.findings import finding_notice as finding_notice
    from boomwright.permits.heights import StructureHeights as StructureHeights
    from boomwright.permits.jurisdictions import Jurisdiction as Jurisdiction
    from boomwright.permits.jurisdictions import read_jurisdiction as read_jurisdiction
    from boomwright.permits.landing_table import LandingTable as LandingTable
    from boomwright.permits.local_limits import LocalLimits as LocalLimits
    from boomwright.permits.local_limits import Neighbourhood as Neighbourhood
    from boomwright.permits.overhead import Overhead as Overhead
    from boomwright.permits.overhead import Roof as Roof
    from boomwright.permits.power_lines import PowerLine as PowerLine
    from boomwright.permits.power_lines import fall_gap as fall_gap
    from boomwright.permits.power_lines import least_clearance as least_clearance
    from boomwright.permits.power_lines import standing_gap as standing_gap
    from boomwright.permits.sheet import Installation as Installation
    from boomwright.permits.sheet import PermitSheet as PermitSheet
    from boomwright.permits.sheet import permit_sheet as permit_sheet
    from boomwright.permits.united_states import SurfaceCheck as SurfaceCheck
    from boomwright.permits.united_states import lowest_first as lowest_first
    from boomwright.permits.united_states import surface_over_site as surface_over_site
    from boomwright.permits.united_states import surface_verdict as surface_verdict

__getattr__ = on_demand(
    __name__,
    {
        "airports": "Airport Runway RunwayEnd with_entered_runways",
        "countries": "CountryShapes countries_at",
        "exposure": "EMISSION_DUTY average_power distance_to_limit exposure_finding transmit_share",
        "exposure_limits": "ExposureLimit",
        "exposure_places": "LimitCheck PlaceField check_place every_limit strictest_share",
        "findings": "PermitFinding Verdict finding_notice",
        "heights": "StructureHeights",
        "jurisdictions": "Jurisdiction read_jurisdiction",
        "landing_table": "LandingTable",
        "local_limits": "LocalLimits Neighbourhood",
        "overhead": "Overhead Roof",
        "power_lines": "PowerLine fall_gap least_clearance standing_gap",
        "sheet": "Installation PermitSheet permit_sheet",
        "united_states": "SurfaceCheck lowest_first surface_over_site surface_verdict",
    },
)

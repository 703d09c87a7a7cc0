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
    from boomwright.permits.airports import (
        Airport,
        Runway,
        RunwayEnd,
        nearest_points,
        with_entered_runways,
    )
    from boomwright.permits.countries import CountryShapes, countries_at
    from boomwright.permits.exposure import (
        EMISSION_DUTY,
        average_power,
        distance_to_limit,
        exposure_finding,
        transmit_share,
    )
    from boomwright.permits.exposure_limits import ExposureLimit
    from boomwright.permits.exposure_places import (
        LimitCheck,
        PlaceField,
        check_place,
        every_limit,
        strictest_share,
    )
    from boomwright.permits.findings import PermitFinding, Verdict, finding_notice
    from boomwright.permits.heights import StructureHeights
    from boomwright.permits.jurisdictions import Jurisdiction, read_jurisdiction
    from boomwright.permits.landing_table import LandingTable
    from boomwright.permits.local_limits import LocalLimits, Neighbourhood
    from boomwright.permits.overhead import Overhead, Roof
    from boomwright.permits.power_lines import PowerLine, fall_gap, least_clearance, standing_gap
    from boomwright.permits.sheet import Installation, PermitSheet, permit_sheet
    from boomwright.permits.united_states import (
        SurfaceCheck,
        lowest_first,
        surface_over_site,
        surface_verdict,
    )

__getattr__ = on_demand(__name__)

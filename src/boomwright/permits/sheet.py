"""One installation against everything this room knows: the permits sheet."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.base import Notice
from boomwright.permits.airports import Airport
from boomwright.permits.findings import (
    GENERAL_INFORMATION,
    PermitFinding,
    finding_notice,
)
from boomwright.permits.heights import StructureHeights
from boomwright.permits.jurisdiction_findings import (
    PermitSite,
    airport_distances,
    jurisdiction_findings,
)
from boomwright.permits.jurisdictions import Jurisdiction
from boomwright.permits.local_limits import (
    LocalLimits,
    Neighbourhood,
    circle_findings,
    local_findings,
)
from boomwright.permits.power_lines import PowerLine, power_line_findings
from boomwright.permits.united_states import united_states_airspace


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """One installation and what is around it.

    Parameters
    ----------
    heights
        tops of everything, crane included
    around
        swing radius, boundary and public way
    country
        two-letter country code, or empty when not said
    latitude
        site, north positive; None when the plan gives no position [rad]
    longitude
        site, east positive; None when the plan gives no position [rad]
    site_elevation
        ground above mean sea level; None when not said [m]
    airports
        airports around; None when nobody looked them up (n_airports,)
    lines_surveyed
        True when somebody has looked for power lines; no lines then means none
    power_lines
        power lines near (n_lines,)
    local_limits
        lists of limits the owner looked up (n_lists,)
    jurisdictions
        places whose rules may apply; those for other countries are left out
    """

    heights: StructureHeights
    around: Neighbourhood
    country: str = ""
    latitude: float | None = None
    longitude: float | None = None
    site_elevation: float | None = None
    airports: tuple[Airport, ...] | None = None
    lines_surveyed: bool = False
    power_lines: tuple[PowerLine, ...] = ()
    local_limits: tuple[LocalLimits, ...] = ()
    jurisdictions: tuple[Jurisdiction, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitSheet:
    """All findings of one installation.

    Parameters
    ----------
    general_information
        sentence shown above the findings
    findings
        findings: airspace, places, local limits, circles, power lines, exposure
    notices
        the findings that are not ``within``, as notices
    """

    general_information: str
    findings: tuple[PermitFinding, ...]
    notices: tuple[Notice, ...]

    def counted(self) -> dict[str, int]:
        """Count the findings by verdict."""
        counts: dict[str, int] = {}
        for finding in self.findings:
            counts[finding.verdict] = counts.get(finding.verdict, 0) + 1
        return counts


def _airspace(installation: Installation) -> tuple[PermitFinding, ...]:
    if installation.country != "US":
        return ()
    latitude, longitude = installation.latitude, installation.longitude
    if latitude is None or longitude is None or installation.airports is None:
        return (
            PermitFinding(
                subject="Surfaces around airports (FAA)",
                verdict="not checked",
                value="",
                limit="",
                basis="14 CFR 77.9",
                whom_to_ask="Federal Aviation Administration",
                dated="14 CFR part 77 as of 2024-01-01",
                text="Give the site's position so that airports around it can be looked up.",
                source="cfr-14-77",
            ),
        )
    return united_states_airspace(
        heights=installation.heights,
        latitude=latitude,
        longitude=longitude,
        site_elevation=installation.site_elevation,
        airports=installation.airports,
    )


def _places(installation: Installation) -> list[PermitFinding]:
    latitude, longitude = installation.latitude, installation.longitude
    distances = None
    if latitude is not None and longitude is not None and installation.airports is not None:
        distances = airport_distances(installation.airports, latitude=latitude, longitude=longitude)
    site = PermitSite(
        heights=installation.heights,
        boundary_distance=installation.around.boundary_distance,
        airports=distances,
    )
    return [
        finding
        for place in installation.jurisdictions
        if not place.countries or installation.country in place.countries
        for finding in jurisdiction_findings(place, site=site)
    ]


def _power_lines(installation: Installation) -> list[PermitFinding]:
    findings = [
        finding
        for line in installation.power_lines
        for finding in power_line_findings(
            line,
            height=installation.heights.highest,
            swing_radius=installation.around.swing_radius,
        )
    ]
    if not installation.lines_surveyed:
        findings.insert(
            0,
            PermitFinding(
                subject="Power lines",
                verdict="not checked",
                value="",
                limit="",
                basis="29 CFR 1926.1408; common practice",
                whom_to_ask="the owner of the power line",
                dated="29 CFR part 1926, text as known in 2024",
                text="Walk the place, enter every line with distance, height and voltage, and say "
                "that you looked, even when there is none.",
                source="cfr-29-1926-1408",
            ),
        )
    return findings


def permit_sheet(
    installation: Installation, *, exposure: tuple[PermitFinding, ...] = ()
) -> PermitSheet:
    """Hold one installation against everything this room knows.

    Parameters
    ----------
    exposure
        findings on fields, made from computed fields with ``exposure_finding``
    """
    findings: list[PermitFinding] = [*_airspace(installation), *_places(installation)]
    for limits in installation.local_limits:
        findings += local_findings(
            limits=limits, heights=installation.heights, around=installation.around
        )
    findings += circle_findings(heights=installation.heights, around=installation.around)
    findings += _power_lines(installation)
    findings += exposure
    return PermitSheet(
        general_information=GENERAL_INFORMATION,
        findings=tuple(findings),
        notices=tuple(
            finding_notice(finding) for finding in findings if finding.verdict != "within"
        ),
    )

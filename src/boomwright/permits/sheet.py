"""One installation against everything this room knows: the permits sheet."""

from __future__ import annotations

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.permits.airports import Airport
from boomwright.permits.countries import NEAR_BORDER, state_of
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
from boomwright.permits.jurisdictions import Jurisdiction, RuleKind
from boomwright.permits.local_limits import (
    LocalLimits,
    Neighbourhood,
    circle_findings,
    local_findings,
)
from boomwright.permits.overhead import overhead_findings
from boomwright.permits.power_lines import PowerLine, power_line_findings
from boomwright.permits.united_states import united_states_airspace


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """One installation and what is around it."""

    heights: StructureHeights  #: tops of everything, crane included
    around: Neighbourhood  #: swing radius, boundary and public way
    country: str = ""  #: two-letter country code, or empty when not said
    #: site, north positive; None when the plan gives no position [rad]
    latitude: float | None = None
    #: site, east positive; None when the plan gives no position [rad]
    longitude: float | None = None
    site_elevation: float | None = None  #: ground above mean sea level; None when not said [m]
    #: countries whose rules the position asks for, the one it lies in first, then those whose
    #: border is near; None when nobody looked (n_countries,)
    lies_in: tuple[str, ...] | None = None
    #: airfields and heliports around; None when nobody looked them up (n_airports,)
    airports: tuple[Airport, ...] | None = None
    tables: str = ""  #: how old the tables are in which they were looked up
    #: True when somebody has looked for power lines; no lines then means none
    lines_surveyed: bool = False
    power_lines: tuple[PowerLine, ...] = ()  #: power lines near (n_lines,)
    local_limits: tuple[LocalLimits, ...] = ()  #: lists of limits the owner looked up (n_lists,)
    #: places whose rules may apply; those for other countries are left out
    jurisdictions: tuple[Jurisdiction, ...] = ()

    @property
    def countries(self) -> tuple[str, ...]:
        """Countries whose rules are looked at: the one entered, and those of the position."""
        entered = (self.country,) if self.country else ()
        return tuple(dict.fromkeys((*entered, *(self.lies_in or ()))))

    @property
    def american(self) -> bool:
        """Whether the airspace rules of the United States are looked at."""
        return any(state_of(country) == "US" for country in self.countries)


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitSheet:
    """All findings of one installation."""

    general_information: str  #: sentence shown above the findings
    #: findings: airspace, places, local limits, circles, power lines, exposure
    findings: tuple[PermitFinding, ...]
    notices: tuple[Notice, ...]  #: the findings that are not ``within``, as notices

    def counted(self) -> dict[str, int]:
        """Count the findings by verdict."""
        counts: dict[str, int] = {}
        for finding in self.findings:
            counts[finding.verdict] = counts.get(finding.verdict, 0) + 1
        return counts


def _country_verdict(installation: Installation) -> tuple[Verdict, str]:
    """Whether the country is known, and what that rests on."""
    entered, lies_in = installation.country, installation.lies_in
    here = lies_in[0] if lies_in else ""
    if not entered and not here:
        return "not checked", (
            "The plan does not tell the country, so the rules of no country were looked at. Enter "
            "country and position."
        )
    if not entered:
        return "ask", (
            f"The position lies in {here}, and its rules were looked at. Enter the country, so "
            "that each checks the other."
        )
    if lies_in is None:
        return "ask", "The plan gives no position that could confirm the country: enter it."
    if not here:
        return "ask", (
            f"The position lies in no country's shape, perhaps at sea. The rules of {entered} "
            "were looked at: check the position."
        )
    if state_of(entered) not in {state_of(country) for country in lies_in}:
        return "ask", (
            f"The plan says {entered}, but its position lies in {here}. One of them is wrong. The "
            "rules of both were looked at."
        )
    return "within", "The position lies in the country entered, or at its border."


def _country(installation: Installation) -> PermitFinding:
    verdict, said = _country_verdict(installation)
    text: Value = said
    near = [country for country in installation.countries if country != installation.country]
    if verdict == "within" and near:
        text = phrase(
            "{said} {near} lies within {border}: its rules were looked at too.",
            said=said,
            near=", ".join(near),
            border=Quantity(NEAR_BORDER, "distance"),
        )
    return PermitFinding(
        subject="Country",
        verdict=verdict,
        value=installation.country or "not entered",
        limit="position in " + ", ".join(installation.lies_in) if installation.lies_in else "",
        basis="Simplified shapes of countries; disputed borders as their maker drew them",
        whom_to_ask="the owner of the plan",
        dated="2018",
        text=text,
        source="country-shapes",
    )


def _in_no_table(installation: Installation) -> PermitFinding:
    return PermitFinding(
        subject="Heliports and airfields in no table",
        verdict="ask",
        value="",
        limit="",
        basis="14 CFR 77.9(b) and (d)" if installation.american else "ICAO Annex 14",
        whom_to_ask="the national aviation authority",
        dated=installation.tables or "no table was looked at",
        text="No table of heliports is complete. Look for hospital and other pads near you, and "
        "for airfields opened and runways lengthened since.",
        source="landing-places",
        standing=True,
    )


def _airspace(installation: Installation) -> tuple[PermitFinding, ...]:
    if not installation.american:
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
        tables=installation.tables,
    )


def _places(installation: Installation) -> list[PermitFinding]:
    latitude, longitude = installation.latitude, installation.longitude
    airports = heliports = None
    if latitude is not None and longitude is not None and installation.airports is not None:
        pads = tuple(each for each in installation.airports if each.kind == "heliport")
        fields = tuple(each for each in installation.airports if each.kind != "heliport")
        at = {"latitude": latitude, "longitude": longitude}
        airports, heliports = airport_distances(fields, **at), airport_distances(pads, **at)
    site = PermitSite(
        heights=installation.heights,
        boundary_distance=installation.around.boundary_distance,
        airports=airports,
        heliports=heliports,
    )
    own = {code for each in installation.countries for code in (each, state_of(each))}
    # Where only American rules apply, 14 CFR 77.9 is the rule about airfields near.
    abroad = {state_of(each) for each in installation.countries} != {"US"}
    near: frozenset[RuleKind] = frozenset({"airport_within", "heliport_within"})
    return [
        finding
        for place in installation.jurisdictions
        if not place.countries or own & set(place.countries)
        for finding in jurisdiction_findings(
            place, site=site, leave_out=frozenset() if abroad else near
        )
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


def _as_guide(finding: PermitFinding) -> PermitFinding:
    """Say of a rule of the United States what it is elsewhere."""
    if " CFR " not in finding.basis:
        return finding
    said = "a rule of the United States, taken as a guide: the rule of this country is not at hand"
    return replace(finding, basis=f"{finding.basis}; {said}")


def permit_sheet(
    installation: Installation, *, exposure: tuple[PermitFinding, ...] = ()
) -> PermitSheet:
    """Hold one installation against everything this room knows.

    Args:
        exposure: findings on fields, made from computed fields with ``exposure_finding``
    """
    findings: list[PermitFinding] = [
        _country(installation),
        *_airspace(installation),
        _in_no_table(installation),
        *_places(installation),
    ]
    for limits in installation.local_limits:
        findings += local_findings(
            limits=limits, heights=installation.heights, around=installation.around
        )
    findings += circle_findings(heights=installation.heights, around=installation.around)
    findings += overhead_findings(installation.around.overhead)
    findings += _power_lines(installation)
    findings += exposure
    if not installation.american:
        findings = [_as_guide(finding) for finding in findings]
    return PermitSheet(
        general_information=GENERAL_INFORMATION,
        findings=tuple(findings),
        notices=tuple(
            finding_notice(finding) for finding in findings if finding.verdict != "within"
        ),
    )

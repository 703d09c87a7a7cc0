"""Airspace notice in the United States: 14 CFR 77.9, 47 CFR 17.7 and 97.15.

The surfaces of {cfr-14-77, 77.9(b)} start at the nearest point of the nearest runway. A table of
airports usually holds only a reference point, so for such an airport the longest runway is
taken as over 3200 ft and an allowance is taken off distance and elevation. That can ask for a
notice which exact runway ends would not; enter the runways to sharpen it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from boomwright.permits.airports import Airport, NearestPoint, nearest_points
from boomwright.permits.findings import METRES_PER_FOOT, PermitFinding, Verdict, metres_and_feet
from boomwright.permits.heights import StructureHeights

#: height above ground that needs notice anywhere [m] {cfr-14-77, 77.9(a)}
NOTICE_HEIGHT: Final = 200.0 * METRES_PER_FOOT
#: an antenna structure no higher than this needs no notice [m] {cfr-14-77, 77.9(e)}
SMALL_STRUCTURE: Final = 20.0 * METRES_PER_FOOT
#: runway longer than this has the flat surface [m] {cfr-14-77, 77.9(b)(1)}
LONG_RUNWAY: Final = 3200.0 * METRES_PER_FOOT

_DATED: Final = "14 CFR part 77 as of 2024-01-01"
_FAA: Final = "Federal Aviation Administration (notice criteria tool, Form 7460-1)"


def _far(distance: float) -> str:
    return f"{distance:.0f} m ({distance / METRES_PER_FOOT:.0f} ft)"


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeSurface:
    """A slope that rises from the nearest runway point.

    Parameters
    ----------
    ratio
        horizontal distance for each unit of height [-]
    reach
        horizontal distance at which the surface ends [m]
    paragraph
        paragraph of the rule
    """

    ratio: float
    reach: float
    paragraph: str


#: {cfr-14-77, 77.9(b)}
LONG_RUNWAY_SURFACE: Final = NoticeSurface(
    ratio=100.0, reach=20_000.0 * METRES_PER_FOOT, paragraph="77.9(b)(1)"
)
SHORT_RUNWAY_SURFACE: Final = NoticeSurface(
    ratio=50.0, reach=10_000.0 * METRES_PER_FOOT, paragraph="77.9(b)(2)"
)
HELIPORT_SURFACE: Final = NoticeSurface(
    ratio=25.0, reach=5_000.0 * METRES_PER_FOOT, paragraph="77.9(b)(3)"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """What is taken off when only an airport's reference point is known.

    The defaults are this project's own choice, not part of the rule: few runways end more
    than 2 km from the reference point, and the listed elevation is that of the highest point
    of the landing area while the nearest runway point may lie lower.

    Parameters
    ----------
    runway_end
        taken off the distance to an airport [m]
    heliport_edge
        taken off the distance to a heliport [m]
    elevation
        taken off the listed elevation [m]
    """

    runway_end: float = 2000.0
    heliport_edge: float = 100.0
    elevation: float = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceCheck:
    """One airport's surface over the site.

    Parameters
    ----------
    surface
        surface applied
    point
        nearest landing-area point, before allowances
    distance
        distance used, after allowances [m]
    allowed_amsl
        height of the surface above mean sea level over the site [m]
    """

    airport: Airport
    surface: NoticeSurface
    point: NearestPoint
    distance: float
    allowed_amsl: float


def surface_for(airport: Airport) -> NoticeSurface:
    """Choose the surface of an airport; unknown runways count as long ones.

    Returns
    -------
    NoticeSurface
        100:1, 50:1 or 25:1 with its reach [-] {cfr-14-77, 77.9(b)}
    """
    if airport.kind == "heliport":
        return HELIPORT_SURFACE
    if airport.runways and max(runway.length for runway in airport.runways) <= LONG_RUNWAY:
        return SHORT_RUNWAY_SURFACE
    return LONG_RUNWAY_SURFACE


def surface_over_site(
    airport: Airport,
    *,
    latitude: float,
    longitude: float,
    allowances: Allowances | None = None,
) -> SurfaceCheck | None:
    """Height of an airport's notice surface over the site, if it reaches that far.

    Parameters
    ----------
    latitude
        site, north positive [rad]
    longitude
        site, east positive [rad]
    allowances
        taken off when runway ends are unknown; None for the defaults

    Returns
    -------
    SurfaceCheck | None
        the lowest surface over the site; None when the site lies outside
    """
    margins = allowances or Allowances()
    surface = surface_for(airport)
    checks: list[SurfaceCheck] = []
    for point in nearest_points(airport, latitude=latitude, longitude=longitude):
        edge = margins.heliport_edge if airport.kind == "heliport" else margins.runway_end
        distance = point.distance if point.exact else max(0.0, point.distance - edge)
        start = point.elevation - (0.0 if point.exact else margins.elevation)
        if distance <= surface.reach:
            checks.append(
                SurfaceCheck(
                    airport=airport,
                    surface=surface,
                    point=point,
                    distance=distance,
                    allowed_amsl=start + distance / surface.ratio,
                )
            )
    # The rule starts at the nearest runway; a lower runway a little further off may be
    # stricter, so the lowest of all of them is kept.
    return min(checks, key=lambda check: check.allowed_amsl) if checks else None


def _height_finding(heights: StructureHeights) -> PermitFinding:
    over = heights.highest > NOTICE_HEIGHT
    return PermitFinding(
        subject="Height above ground (FAA)",
        verdict="notice needed" if over else "within",
        value=metres_and_feet(heights.highest),
        limit=metres_and_feet(NOTICE_HEIGHT),
        basis="14 CFR 77.9(a); 47 CFR 17.7(a); 47 CFR 97.15(a)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text=(
            "Counts structure, antenna, lightning rod and crane. Notice goes in at least 45 days "
            "before the start or the building application, whichever is earlier (14 CFR 77.7)."
        ),
        source="cfr-14-77",
    )


def _slope_finding(
    check: SurfaceCheck, *, top: float, what: str, site_elevation: float | None
) -> PermitFinding:
    airport, surface = check.airport, check.surface
    how = (
        "from the entered runway ends"
        if check.point.exact
        else "runways unknown: longest taken as over 3200 ft, and allowances taken off distance "
        "and elevation; enter the runway ends to sharpen this, and ask whether a private field "
        "counts under 77.9(d)"
    )
    text = (
        f"Surface {surface.ratio:.0f}:1 to {_far(surface.reach)}; distance used "
        f"{_far(check.distance)} of {_far(check.point.distance)} ({how})."
    )
    verdict: Verdict = "ask"
    limit, value = "", metres_and_feet(top) + " above ground"
    if site_elevation is None:
        text += " The site's elevation above sea level is missing: enter it."
    else:
        allowed = check.allowed_amsl - site_elevation
        verdict = "notice needed" if top > allowed else "within"
        limit = metres_and_feet(allowed) + " above ground at the site"
    return PermitFinding(
        subject=f"{what} under the surface of {airport.code} {airport.name}",
        verdict=verdict,
        value=value,
        limit=limit,
        basis=f"14 CFR {surface.paragraph}; 47 CFR 17.7(b)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text=text,
        source="cfr-14-77",
    )


def _small_structure_finding(heights: StructureHeights) -> PermitFinding:
    return PermitFinding(
        subject="Small antenna structure (FAA)",
        verdict="within",
        value=metres_and_feet(heights.highest),
        limit=metres_and_feet(SMALL_STRUCTURE),
        basis="14 CFR 77.9(e); 47 CFR 17.7(e)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text=(
            "An antenna structure of 20 ft or less that does not raise another antenna structure "
            "is listed as needing no notice; the wording of the present text is from memory."
        ),
        seen="from memory",
        source="cfr-14-77",
    )


def _slope_findings(
    checks: list[SurfaceCheck], heights: StructureHeights, site_elevation: float | None
) -> list[PermitFinding]:
    parts = [("Structure and antenna", heights.permanent_top)]
    if heights.crane_top > 0.0:
        parts.append(("Crane (temporary, but it counts)", heights.crane_top))
    return [
        _slope_finding(check, top=top, what=what, site_elevation=site_elevation)
        for check in checks
        for what, top in parts
    ]


def _no_airport_finding() -> PermitFinding:
    return PermitFinding(
        subject="Surfaces around airports (FAA)",
        verdict="within",
        value="no listed airport whose surface reaches the site",
        limit=metres_and_feet(LONG_RUNWAY_SURFACE.reach) + " from the nearest runway",
        basis="14 CFR 77.9(b)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text="Depends on the airport table being complete: the FAA's own tool decides.",
        source="cfr-14-77",
    )


def _heliport_finding() -> PermitFinding:
    return PermitFinding(
        subject="Heliports",
        verdict="not checked",
        value="",
        limit=f"25:1 within {metres_and_feet(HELIPORT_SURFACE.reach)}",
        basis="14 CFR 77.9(b)(3)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text="Airport tables list few heliports. Look for hospital and other pads near you.",
        source="cfr-14-77",
    )


def _registration_finding(*, needed: bool, unsure: bool) -> PermitFinding:
    verdict: Verdict = "notice needed" if needed else "ask" if unsure else "within"
    return PermitFinding(
        subject="Antenna structure registration (FCC)",
        verdict=verdict,
        value="FAA notice needed" if needed else "open" if unsure else "no FAA notice found needed",
        limit="registration before building when FAA notice is needed",
        basis="47 CFR 17.4 and 17.7; 47 CFR 97.15(a)",
        whom_to_ask="Federal Communications Commission, antenna structure registration",
        dated="47 CFR parts 17 and 97, text as known in 2024",
        text="A structure that needs FAA notice is registered before it is built.",
        source="cfr-47-17",
    )


def united_states_airspace(
    *,
    heights: StructureHeights,
    latitude: float,
    longitude: float,
    site_elevation: float | None,
    airports: tuple[Airport, ...],
    allowances: Allowances | None = None,
) -> tuple[PermitFinding, ...]:
    """Whether notice of construction is needed, and from which rule.

    Parameters
    ----------
    latitude
        site, north positive [rad]
    longitude
        site, east positive [rad]
    site_elevation
        ground at the site above mean sea level; None when unknown [m]
    airports
        airports around the site (n_airports,)
    allowances
        taken off where runway ends are unknown; None for the defaults

    Notes
    -----
    Shielding by taller permanent structures in a built-up area {cfr-14-77, 77.9(e)(1)} is
    never assumed: whoever wants to rely on it asks.
    """
    findings = [_height_finding(heights)]
    if heights.highest <= SMALL_STRUCTURE and not heights.raises_another_structure:
        findings.append(_small_structure_finding(heights))
    else:
        found = [
            surface_over_site(
                airport, latitude=latitude, longitude=longitude, allowances=allowances
            )
            for airport in airports
        ]
        checks = sorted(
            (check for check in found if check is not None), key=lambda check: check.allowed_amsl
        )
        findings += _slope_findings(checks, heights, site_elevation) or [_no_airport_finding()]
        if not any(airport.kind == "heliport" for airport in airports):
            findings.append(_heliport_finding())
    verdicts = {finding.verdict for finding in findings}
    findings.append(
        _registration_finding(needed="notice needed" in verdicts, unsure="ask" in verdicts)
    )
    return tuple(findings)

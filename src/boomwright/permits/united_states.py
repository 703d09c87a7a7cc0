"""Airspace notice in the United States: 14 CFR 77.9, 47 CFR 17.7 and 97.15.

The surfaces of {cfr-14-77, 77.9(b)} start at the nearest point of the nearest runway. Each is taken
twice: as the figures have it, above which notice is needed, and as low as their doubt allows, up to
which the answer is ``within``. Between the two somebody has to ask. So a field whose runway ends
nobody knows gives ``ask`` as far as its runways can reach.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from typing import Final

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.permits.airports import Airport, NearestPoint, nearest_points
from boomwright.permits.findings import METRES_PER_FOOT, PermitFinding, Verdict, clearance
from boomwright.permits.heights import StructureHeights

#: height above ground that needs notice anywhere [m] {cfr-14-77, 77.9(a)}
NOTICE_HEIGHT: Final = 200.0 * METRES_PER_FOOT
#: an antenna structure no higher than this needs no notice [m] {cfr-14-77, 77.9(e)(4)}
SMALL_STRUCTURE: Final = 20.0 * METRES_PER_FOOT
#: runway longer than this has the flat surface [m] {cfr-14-77, 77.9(b)(1)}
LONG_RUNWAY: Final = 3200.0 * METRES_PER_FOOT

#: letters K or P and three more, or three signs: a field with a code of the public kind
_PUBLIC_CODE: Final = re.compile(r"[KP][A-Z]{3}|[A-Z0-9]{3}")
_DATED: Final = "14 CFR part 77 as of 2024-01-01"
_FAA: Final = "Federal Aviation Administration (notice criteria tool, Form 7460-1)"


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeSurface:
    """A slope that rises from the nearest runway point."""

    ratio: float  #: horizontal distance for each unit of height [-]
    reach: float  #: horizontal distance at which the surface ends [m]
    paragraph: str  #: paragraph of the rule


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
class SurfaceCheck:
    """One airfield's surface over the site."""

    airport: Airport
    surface: NoticeSurface  #: surface applied; the flat one where no length of a runway is known
    point: NearestPoint  #: landing-area point whose surface is lowest over the site
    #: height of the surface above mean sea level over the site, as low as the doubt in distance and
    #: elevation allows; None without an elevation of the landing area [m]
    allowed_amsl: float | None
    #: the same as the figures have it; None where they leave open whether it reaches the site or
    #: whether the field counts under 77.9(d) [m]
    certain_amsl: float | None

    @property
    def distance(self) -> float:
        """Distance used: as near as the runway may come [m]."""
        return self.point.least


def surface_for(airport: Airport) -> NoticeSurface:
    """Choose the surface of an airfield; one with a runway of unknown length counts as long.

    Returns:
        100:1, 50:1 or 25:1 with its reach {cfr-14-77, 77.9(b)}
    """
    if airport.kind == "heliport":
        return HELIPORT_SURFACE
    if 0.0 in airport.open_lengths or airport.longest > LONG_RUNWAY:
        return LONG_RUNWAY_SURFACE
    return SHORT_RUNWAY_SURFACE


def _certain_surface(airport: Airport) -> NoticeSurface:
    if airport.kind == "heliport":
        return HELIPORT_SURFACE
    return LONG_RUNWAY_SURFACE if airport.longest > LONG_RUNWAY else SHORT_RUNWAY_SURFACE


def _allowed(point: NearestPoint, surface: NoticeSurface) -> float | None:
    if point.elevation is None:
        return None
    return point.elevation - point.elevation_doubt + point.least / surface.ratio


def _surely_counts(airport: Airport) -> bool:
    """Whether a field surely counts under 77.9(d): entered, or with a code of a public field.

    Private fields and pads have codes of two letters and two digits {faa-location-identifiers}.
    """
    if not airport.dated:
        return True
    return airport.kind == "airport" and _PUBLIC_CODE.fullmatch(airport.code) is not None


def _certain(point: NearestPoint, airport: Airport) -> float:
    surface = _certain_surface(airport)
    if point.elevation is None or point.distance > surface.reach or not _surely_counts(airport):
        return math.inf
    return point.elevation + point.distance / surface.ratio


def surface_over_site(
    airport: Airport, *, latitude: float, longitude: float
) -> SurfaceCheck | None:
    """Height of an airfield's notice surface over the site, if it may reach that far.

    Returns:
        the lowest surface over the site; None when the site lies outside
    """
    surface = surface_for(airport)
    points = nearest_points(airport, latitude=latitude, longitude=longitude)
    reaching = [point for point in points if point.least <= surface.reach]
    if not reaching:
        return None
    # The rule starts at the nearest runway; a lower runway a little further off may be
    # stricter, so the lowest of all of them is kept.
    allowed = [_allowed(point, surface) for point in reaching]
    ranks = [-math.inf if each is None else each for each in allowed]
    lowest = ranks.index(min(ranks))
    certain = min(_certain(point, airport) for point in reaching)
    return SurfaceCheck(
        airport=airport,
        surface=surface,
        point=reaching[lowest],
        allowed_amsl=allowed[lowest],
        certain_amsl=certain if math.isfinite(certain) else None,
    )


def lowest_first(checks: Iterable[SurfaceCheck]) -> list[SurfaceCheck]:
    """Sort surfaces by their height over the site; those without an elevation come first."""
    return sorted(
        checks,
        key=lambda check: -math.inf if check.allowed_amsl is None else check.allowed_amsl,
    )


def _height_finding(heights: StructureHeights) -> PermitFinding:
    over = heights.highest > NOTICE_HEIGHT
    return PermitFinding(
        subject="Height above ground (FAA)",
        verdict="notice needed" if over else "within",
        value=clearance(heights.highest),
        limit=clearance(NOTICE_HEIGHT),
        basis="14 CFR 77.9(a); 47 CFR 17.7(a); 47 CFR 97.15(a)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text=clearance(
            NOTICE_HEIGHT,
            "Counts structure, antenna, lightning rod and crane. Notice goes in at least 45 days "
            "before the start or the building application, whichever is earlier (14 CFR 77.7). "
            "Above {length} a second notice follows within 5 days of the greatest height (77.11).",
        ),
        source="cfr-14-77",
    )


def _how(airport: Airport, point: NearestPoint) -> str:
    if point.known == "entered ends":
        return "from the runway ends you entered"
    if point.known == "ends of the table":
        return f"from the runway ends of the table of {airport.dated}, less their doubt"
    if airport.kind == "heliport":
        return "from the point in the table, less the reach of a pad"
    if airport.kind == "seaplane base":
        return "no table holds its water lanes: taken from as near as they may come"
    return "its runway ends are in no table: taken from as near as a runway may come"


def _doubt_text(check: SurfaceCheck, site_elevation: float | None) -> str:
    """What is missing, and how to settle it."""
    airport, point = check.airport, check.point
    said = []
    if site_elevation is None:
        said.append("The site's elevation above sea level is missing: enter it.")
    if point.elevation is None:
        said.append("The elevation of its landing area is in no table: ask for it.")
    if site_elevation is not None and point.known != "entered ends" and airport.kind == "airport":
        said.append("Enter its runways by their published ends to settle it.")
    if not _surely_counts(airport):
        what = "field" if airport.kind == "airport" else airport.kind
        said.append(
            f"Ask whether this {what} counts: a private one without an instrument approach does "
            "not (77.9(d))."
        )
    return " ".join(said)


def surface_verdict(check: SurfaceCheck, *, top: float, ground: float | None) -> Verdict:
    """Hold one height against one surface: ``notice needed``, ``ask`` or ``within``.

    Args:
        top: highest part above ground at the site [m]
        ground: ground at the site above mean sea level; None when unknown [m]
    """
    if ground is None:
        return "ask"
    if check.certain_amsl is not None and top > check.certain_amsl - ground:
        return "notice needed"
    if check.allowed_amsl is None or top > check.allowed_amsl - ground:
        return "ask"
    return "within"


def _allowed_height(height: float, *, sure: bool) -> Value:
    """How high something may stand without notice; never a height below the ground."""
    if height > 0.0:
        return clearance(height, "{length} above ground at the site")
    lies = "lies" if sure else "may lie"
    return f"nothing, the ground at the site {lies} above the surface"


def _slope_finding(
    check: SurfaceCheck, *, top: float, what: str, ground: float | None
) -> PermitFinding:
    airport, surface, point = check.airport, check.surface, check.point
    verdict = surface_verdict(check, top=top, ground=ground)
    sure = verdict == "notice needed"
    asked = check.certain_amsl if sure else check.allowed_amsl
    limit: Value = ""
    if ground is not None and asked is not None:
        limit = _allowed_height(asked - ground, sure=sure)
    return PermitFinding(
        subject=f"{what} under the surface of {airport.code} {airport.name}",
        verdict=verdict,
        value=clearance(top, "{length} above ground"),
        limit=limit,
        basis=f"14 CFR {surface.paragraph}; 47 CFR 17.7(b)",
        whom_to_ask=_FAA,
        dated=f"{_DATED}; airfields of {airport.dated}" if airport.dated else _DATED,
        text=phrase(
            "Surface {ratio}:1 to {reach}; distance used {used} of {distance} ({how}).{doubt}",
            ratio=Quantity(surface.ratio, "number"),
            reach=Quantity(surface.reach, "whole length"),
            used=Quantity(point.least, "whole length"),
            distance=Quantity(point.distance, "whole length"),
            how=_how(airport, point),
            doubt="" if verdict == "within" else f" {_doubt_text(check, ground)}",
        ),
        source="cfr-14-77",
    )


def _small_structure_finding(heights: StructureHeights) -> PermitFinding:
    return PermitFinding(
        subject="Small antenna structure (FAA)",
        verdict="within",
        value=clearance(heights.highest),
        limit=clearance(SMALL_STRUCTURE),
        basis="14 CFR 77.9(e)(4); 47 CFR 17.7(e)",
        whom_to_ask=_FAA,
        dated=_DATED,
        text=clearance(
            SMALL_STRUCTURE,
            "An antenna structure of {length} or less needs no notice, unless it raises another "
            "antenna structure.",
        ),
        source="cfr-14-77",
    )


def _slope_findings(
    checks: list[SurfaceCheck], heights: StructureHeights, ground: float | None
) -> list[PermitFinding]:
    parts = [("Structure and antenna", heights.permanent_top)]
    if heights.crane_top > 0.0:
        parts.append(("Crane (temporary, but it counts)", heights.crane_top))
    return [
        _slope_finding(check, top=top, what=what, ground=ground)
        for check in checks
        for what, top in parts
    ]


def _no_airport_finding(tables: str) -> PermitFinding:
    return PermitFinding(
        subject="Surfaces around airports (FAA)",
        verdict="within",
        value="no airfield or heliport whose surface may reach the site",
        limit=clearance(LONG_RUNWAY_SURFACE.reach, "{length} from the nearest runway"),
        basis="14 CFR 77.9(b)",
        whom_to_ask=_FAA,
        dated=f"{_DATED}; {tables}" if tables else _DATED,
        text="Depends on the tables being complete: the FAA's own tool decides.",
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
    tables: str = "",
) -> tuple[PermitFinding, ...]:
    """Whether notice of construction is needed, and from which rule.

    Args:
        site_elevation: ground at the site above mean sea level; None when unknown [m]

    Notes:
        Shielding by taller permanent structures in a built-up area {cfr-14-77, 77.9(e)(1)} is
        never assumed: whoever wants to rely on it asks.
    """
    findings = [_height_finding(heights)]
    if heights.highest <= SMALL_STRUCTURE and not heights.raises_another_structure:
        findings.append(_small_structure_finding(heights))
    else:
        found = [
            surface_over_site(airport, latitude=latitude, longitude=longitude)
            for airport in airports
        ]
        checks = lowest_first(check for check in found if check is not None)
        findings += _slope_findings(checks, heights, site_elevation) or [
            _no_airport_finding(tables)
        ]
    verdicts = {finding.verdict for finding in findings}
    findings.append(
        _registration_finding(needed="notice needed" in verdicts, unsure="ask" in verdicts)
    )
    return tuple(findings)

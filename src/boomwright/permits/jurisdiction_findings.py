"""Holding a site against the rules of a jurisdiction."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.permits.airports import Airport, nearest_points
from boomwright.permits.findings import PermitFinding, Verdict, metres_and_feet
from boomwright.permits.heights import StructureHeights
from boomwright.permits.jurisdictions import Jurisdiction, Rule


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitSite:
    """What the rules of a place look at.

    Parameters
    ----------
    heights
        tops of everything, crane included
    boundary_distance
        tower to nearest boundary; None when not measured [m]
    airports
        name and distance of airports around, nearest first; None when not looked up [-, m]
        (n_airports,)
    """

    heights: StructureHeights
    boundary_distance: float | None = None
    airports: tuple[tuple[str, float], ...] | None = None


def airport_distances(
    airports: tuple[Airport, ...], *, latitude: float, longitude: float
) -> tuple[tuple[str, float], ...]:
    """Names and distances of airports, nearest first.

    Parameters
    ----------
    airports
        airports around the site (n_airports,)
    latitude
        site, north positive [rad]
    longitude
        site, east positive [rad]

    Returns
    -------
    tuple[tuple[str, float], ...]
        name with code, and distance to the nearest known point [-, m]
    """
    pairs = [
        (
            f"{airport.code} {airport.name}",
            nearest_points(airport, latitude=latitude, longitude=longitude)[0].distance,
        )
        for airport in airports
    ]
    return tuple(sorted(pairs, key=lambda pair: pair[1]))


def _height_over(rule: Rule, site: PermitSite) -> tuple[Verdict, str, str]:
    top = site.heights.highest
    verdict: Verdict = rule.outcome if top > rule.limit else "within"
    return verdict, metres_and_feet(top), "at most " + metres_and_feet(rule.limit)


def _height_near_boundary(rule: Rule, site: PermitSite) -> tuple[Verdict, str, str]:
    limit = f"at most {metres_and_feet(rule.limit)} within {metres_and_feet(rule.distance)}"
    limit += " of the boundary"
    if site.boundary_distance is None:
        return "not checked", "", limit
    top = site.heights.highest
    near = site.boundary_distance <= rule.distance
    verdict: Verdict = rule.outcome if near and top > rule.limit else "within"
    value = f"{metres_and_feet(top)}, boundary at {metres_and_feet(site.boundary_distance)}"
    return verdict, value, limit


def _boundary_ratio(rule: Rule, site: PermitSite) -> tuple[Verdict, str, str]:
    least = rule.ratio * site.heights.permanent_top
    limit = f"boundary at least {metres_and_feet(least)} away ({rule.ratio:g} times the height)"
    if site.boundary_distance is None:
        return "not checked", "", limit
    verdict: Verdict = rule.outcome if site.boundary_distance < least else "within"
    return verdict, metres_and_feet(site.boundary_distance), limit


def _airport_within(rule: Rule, site: PermitSite) -> tuple[Verdict, str, str]:
    limit = f"over {metres_and_feet(rule.limit)} high within {rule.distance / 1000:g} km"
    if site.airports is None:
        return "not checked", "", limit
    near = [(name, away) for name, away in site.airports if away <= rule.distance]
    applies = bool(near) and site.heights.highest > rule.limit
    value = metres_and_feet(site.heights.highest) + " high; "
    value += ", ".join(f"{name} at {away / 1000:.1f} km" for name, away in near[:3]) or (
        "no listed aerodrome that near"
    )
    return rule.outcome if applies else "within", value, limit


def _question(_rule: Rule, site: PermitSite) -> tuple[Verdict, str, str]:
    return "ask", metres_and_feet(site.heights.highest) + " high", "found out by asking"


_COMPARE = {
    "height_over": _height_over,
    "height_near_boundary": _height_near_boundary,
    "boundary_ratio": _boundary_ratio,
    "airport_within": _airport_within,
    "question": _question,
}


def jurisdiction_findings(
    jurisdiction: Jurisdiction, *, site: PermitSite
) -> tuple[PermitFinding, ...]:
    """Hold a site against every rule of a place."""
    findings: list[PermitFinding] = []
    for rule in jurisdiction.rules:
        verdict, value, limit = _COMPARE[rule.kind](rule, site)
        where = f" {rule.url}" if rule.url else ""
        findings.append(
            PermitFinding(
                subject=f"{jurisdiction.name}: {rule.subject}",
                verdict=verdict,
                value=value,
                limit=limit,
                basis=rule.basis + where,
                whom_to_ask=rule.whom_to_ask,
                dated=f"{rule.dated}; file edited {jurisdiction.edited_on}",
                text=rule.text,
                seen=rule.seen,
                source="permits-data",
                standing=not jurisdiction.countries and rule.kind == "question",
            )
        )
    return tuple(findings)

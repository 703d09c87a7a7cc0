"""Holding a site against the rules of a jurisdiction."""

from __future__ import annotations

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.base.records import dataclass
from boomwright.permits.airports import Airport, nearest_points
from boomwright.permits.findings import PermitFinding, Verdict, clearance
from boomwright.permits.heights import StructureHeights
from boomwright.permits.jurisdictions import Jurisdiction, Rule, RuleKind
from boomwright.permits.local_limits import limit_use


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitSite:
    """What the rules of a place look at."""

    heights: StructureHeights  #: tops of everything, crane included
    boundary_distance: float | None = None  #: tower to nearest boundary; None when not measured [m]
    #: name with distance, and least distance of airfields around, nearest first; None when not
    #: looked up [-, m] (n_airports,)
    airports: tuple[tuple[Value, float], ...] | None = None
    #: the same for heliports [-, m] (n_heliports,)
    heliports: tuple[tuple[Value, float], ...] | None = None


#: a landing area that may come so near is said to reach the site [m]
_AT_THE_SITE = 50.0


def airport_distances(
    airports: tuple[Airport, ...], *, latitude: float, longitude: float
) -> tuple[tuple[Value, float], ...]:
    """Names with distances, and least distances of landing places, nearest first.

    Returns:
        code, name and distance in words, and how near its landing area may come [-, m]
    """
    pairs = []
    for airport in airports:
        point = nearest_points(airport, latitude=latitude, longitude=longitude)[0]
        doubt: Value = ""
        least = point.distance
        if point.known == "reference point" and airport.kind != "heliport":
            some = "some of its" if airport.runways else "its"
            least = point.least
            near = phrase("come within {least} of the foot", least=Quantity(least, "distance"))
            doubt = phrase(
                " ({some} runway ends are not known and may {near})",
                some=some,
                near=near if least > _AT_THE_SITE else "reach the site",
            )
        label = phrase(
            "{name} at {distance}{doubt}",
            name=f"{airport.code} {airport.name}",
            distance=Quantity(point.distance, "distance"),
            doubt=doubt,
        )
        pairs.append((label, least))
    return tuple(sorted(pairs, key=lambda pair: pair[1]))


#: verdict, what the installation has, what it is held against, and share of that taken up
_Held = tuple[Verdict, Value, Value, float | None]


def _height_over(rule: Rule, site: PermitSite) -> _Held:
    top = site.heights.highest
    verdict: Verdict = rule.outcome if top > rule.limit else "within"
    limit = clearance(rule.limit, "at most {length}")
    return verdict, clearance(top), limit, limit_use(top, rule.limit, at_most=True)


def _height_near_boundary(rule: Rule, site: PermitSite) -> _Held:
    limit = phrase(
        "at most {high} within {near} of the boundary",
        high=Quantity(rule.limit, "clearance"),
        near=Quantity(rule.distance, "clearance"),
    )
    if site.boundary_distance is None:
        return "not checked", "", limit, None
    top = site.heights.highest
    near = site.boundary_distance <= rule.distance
    verdict: Verdict = rule.outcome if near and top > rule.limit else "within"
    value = phrase(
        "{high}, boundary at {away}",
        high=Quantity(top, "clearance"),
        away=Quantity(site.boundary_distance, "clearance"),
    )
    return verdict, value, limit, limit_use(top, rule.limit, at_most=True) if near else None


def _boundary_ratio(rule: Rule, site: PermitSite) -> _Held:
    least = rule.ratio * site.heights.permanent_top
    limit = phrase(
        "boundary at least {least} away ({times} times the height)",
        least=Quantity(least, "clearance"),
        times=Quantity(rule.ratio, "number"),
    )
    if site.boundary_distance is None:
        return "not checked", "", limit, None
    verdict: Verdict = rule.outcome if site.boundary_distance < least else "within"
    use = limit_use(site.boundary_distance, least, at_most=False)
    return verdict, clearance(site.boundary_distance), limit, use


def _place_within(
    rule: Rule, site: PermitSite, places: tuple[tuple[Value, float], ...] | None
) -> _Held:
    limit = phrase(
        "{high} within {near}",
        high=clearance(rule.limit, "over {length} high") if rule.limit else "any height",
        near=Quantity(rule.distance, "distance"),
    )
    if places is None:
        return "not checked", "", limit, None
    near = [name for name, away in places if away <= rule.distance]
    top = site.heights.highest
    applies = bool(near) and top > rule.limit
    value = phrase(
        "{high} high; {near}",
        high=Quantity(top, "clearance"),
        near=listed(near[:3], between="; ") if near else "none listed that near",
    )
    over = limit_use(top, rule.limit, at_most=True) if applies else None
    return rule.outcome if applies else "within", value, limit, over


def _airport_within(rule: Rule, site: PermitSite) -> _Held:
    return _place_within(rule, site, site.airports)


def _heliport_within(rule: Rule, site: PermitSite) -> _Held:
    return _place_within(rule, site, site.heliports)


def _question(_rule: Rule, _site: PermitSite) -> _Held:
    return "ask", "", "", None


_COMPARE = {
    "height_over": _height_over,
    "height_near_boundary": _height_near_boundary,
    "boundary_ratio": _boundary_ratio,
    "airport_within": _airport_within,
    "heliport_within": _heliport_within,
    "question": _question,
}


def jurisdiction_findings(
    jurisdiction: Jurisdiction, *, site: PermitSite, leave_out: frozenset[RuleKind] = frozenset()
) -> tuple[PermitFinding, ...]:
    """Hold a site against every rule of a place, but for the kinds left out.

    A question is standing: it is asked of everybody whom the rules of the place concern, and
    nothing in a plan answers it.
    """
    findings: list[PermitFinding] = []
    for rule in jurisdiction.rules:
        if rule.kind in leave_out:
            continue
        verdict, value, limit, use = _COMPARE[rule.kind](rule, site)
        where = f" {rule.url}" if rule.url else ""
        findings.append(
            PermitFinding(
                subject=f"{jurisdiction.name}: {rule.subject}",
                verdict=verdict,
                value=value,
                limit=limit,
                basis=rule.basis + where,
                whom_to_ask=rule.whom_to_ask,
                dated=f"{rule.dated}; noted {jurisdiction.edited_on}",
                text=rule.told,
                seen=rule.seen,
                source="permits-data",
                standing=rule.kind == "question",
                use=use,
            )
        )
    return tuple(findings)

"""Ledger lines that hold a tower against its maker's rating. The lattice is never computed."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import Notice
from boomwright.structure.check_support import carried_weight, side_loads
from boomwright.structure.drag import area_conventions
from boomwright.structure.findings import Findings, SiteLoads
from boomwright.structure.margins import margin
from boomwright.structure.report import BeamReport, GuyReport
from boomwright.structure.tower import (
    AreaAtHeight,
    RatedArea,
    Tower,
    bracket_force,
    rated_area,
    tower_wind,
)

_ASK = "ask the maker or an engineer"


def check_tower(
    *, tower: Tower, beams: Sequence[BeamReport], site: SiteLoads, findings: Findings
) -> RatedArea | None:
    """Hold areas, mast extension and ice against the maker's rating.

    Parameters
    ----------
    tower
        the tower [-]
    beams
        beams [-] (n_beams,)
    site
        wind and ice [-]
    findings
        where lines and notices go [-]

    Returns
    -------
    RatedArea or None
        areas brought to the rating; None when not checked [-]
    """
    _extension(tower, site, findings)
    _ice(tower, site, findings)
    if tower.kind == "crank-up" and site.inputs.guying:
        findings.notices.append(
            Notice(
                code="structure.guyed-crank-up",
                text="Never guy a crank-up tower unless its maker says so: the guys pull on the "
                "hoist cable.",
                severity="caution",
            )
        )
    name, rating = "tower: antenna area against the maker's rating", tower.rating
    if rating.missing:
        findings.skip(name, f"{_ask_for(rating.missing)}: {_ASK}", change=_ASK)
        return None
    wind, rule = site.inputs.wind, rating.area_rule
    if wind is None or rule is None:
        findings.skip(name, "no wind speed with its kind, edition and exposure is given")
        return None
    if not beams:
        findings.skip(name, "no beam with a wind area is given")
        return None
    areas = [AreaAtHeight(area=b.wind.worst.by_rule(rule), height=b.height) for b in beams]
    mast = site.inputs.mast
    if mast is not None:
        proud = area_conventions(projected=mast.diameter * mast.proud).by_rule(rule)
        middle = (mast.bearing_height + mast.top_height) / 2.0
        areas.append(AreaAtHeight(area=proud, height=middle))
    found = rated_area(basis=wind, rating=rating, areas=areas)
    older = sum(beam.wind.older_worst.by_rule(rule) for beam in beams)
    findings.add(
        margin(
            name=name,
            demand=found.demand,
            capacity=found.capacity,
            unit="m2",
            basis=f"{found.text}; {wind.text}; the older sum rule gives {older:.2f} m2 for the "
            "beams before scaling; a first screen",
            change=f"hang less or lower, or {_ASK}",
        )
    )
    return found


def _ask_for(missing: Sequence[str]) -> str:
    return f"the rating lacks {', '.join(missing)}"


def _extension(tower: Tower, site: SiteLoads, findings: Findings) -> None:
    mast = site.inputs.mast
    if mast is None:
        return
    findings.add(
        margin(
            name="tower: mast extension",
            demand=mast.proud,
            capacity=tower.rating.mast_extension,
            unit="m",
            basis="maker's longest mast above the top bearing",
            change="shorten the mast above the bearing",
            missing=f"the maker's longest mast extension is not given: {_ASK}",
        )
    )


def _ice(tower: Tower, site: SiteLoads, findings: Findings) -> None:
    ice = site.inputs.ice
    if ice is None or ice.thickness == 0.0:
        return
    name = "tower: ice in the maker's rating"
    if tower.rating.ice is None:
        findings.skip(name, f"whether the rating includes ice is not given: {_ASK}")
        return
    coat = site.coat(height=tower.height)
    thickness = ice.thickness if coat is None else coat.thickness
    if tower.rating.ice == 0.0:
        findings.skip(name, f"the rating is without ice and the site has it: {_ASK}")
        return
    findings.add(
        margin(
            name=name,
            demand=thickness * 1000.0,
            capacity=tower.rating.ice * 1000.0,
            unit="mm",
            basis="radial thickness at the top; the gust with it must agree too",
            change=_ASK,
        )
    )


def standing_moment(
    *, tower: Tower, beams: Sequence[BeamReport], site: SiteLoads
) -> tuple[float, float] | None:
    """Moment and shear at the foot of a tower without guys, nominal wind.

    Parameters
    ----------
    tower
        the tower [-]
    beams
        beams [-] (n_beams,)
    site
        wind and ice [-]

    Returns
    -------
    tuple of float or None
        moment [N m] and shear [N]; None when something is missing (2,)
    """
    if site.nominal is None or tower.drag_area_per_length is None:
        return None
    force, moment = tower_wind(
        basis=site.nominal,
        drag_area_per_length=tower.drag_area_per_length,
        height=tower.height,
    )
    for load in side_loads(beams=beams, site=site):
        force += load.force
        moment += load.force * load.height
    carried = carried_weight(beams=beams, site=site)
    if tower.top_drift is not None:
        if carried is None or tower.weight is None:
            return None
        moment += (carried + tower.weight / 2.0) * tower.top_drift
    return moment, force


def check_tower_base(
    *,
    tower: Tower,
    beams: Sequence[BeamReport],
    guys: GuyReport | None,
    site: SiteLoads,
    findings: Findings,
) -> None:
    """Hold the reactions at the foot against the maker's, for the way the tower stands.

    Parameters
    ----------
    tower
        the tower [-]
    beams
        beams [-] (n_beams,)
    guys
        guys; None without or when not checked [-]
    site
        wind and ice [-]
    findings
        where lines and notices go [-]
    """
    if site.inputs.guying:
        name = "tower: load straight down"
        carried = carried_weight(beams=beams, site=site)
        if guys is None or tower.weight is None or carried is None:
            findings.skip(name, "guy tensions, tower weight or beam weights are not known")
            return
        weight = tower.weight + carried
        findings.add(
            margin(
                name=name,
                demand=guys.compression + weight,
                capacity=tower.rating.axial,
                unit="N",
                basis="" if site.nominal is None else site.nominal.text,
                change="lower the initial tension within its range, or set anchors further out",
                missing=f"the maker's axial rating is not given: {_ASK}",
            )
        )
        return
    if tower.kind == "guyed":
        findings.skip("guys: tension", "no guy levels are given for a guyed tower")
        return
    found = standing_moment(tower=tower, beams=beams, site=site)
    if found is None:
        reason = f"wind, weights or the tower's drag area per metre are not given: {_ASK}"
        findings.skip("tower: base moment", reason)
        return
    _standing_lines(tower, found, site, findings)


def _standing_lines(
    tower: Tower, found: tuple[float, float], site: SiteLoads, findings: Findings
) -> None:
    moment, shear = found
    basis = "" if site.nominal is None else site.nominal.text
    lean = (
        "weight on the drifted top counted"
        if tower.top_drift is not None
        else "weight on the drifted top not counted: no drift given"
    )
    if tower.kind == "bracketed":
        pull = "unknown"
        if tower.bracket_height is not None:
            force = bracket_force(base_moment=moment, bracket_height=tower.bracket_height)
            pull = f"{force:.0f} N"
        findings.skip(
            "tower: house bracket",
            f"the wall behind it is for an engineer (pull of the bracket: {pull})",
        )
        return
    for what, value, rated, unit in (
        ("base moment", moment, tower.rating.base_moment, "N m"),
        ("base shear", shear, tower.rating.base_shear, "N"),
    ):
        findings.add(
            margin(
                name=f"tower: {what}",
                demand=value,
                capacity=rated,
                unit=unit,
                basis=f"{basis}; {lean}",
                change=f"hang less or lower, or {_ASK}",
                missing=f"the maker's rated {what} is not given: {_ASK}",
            )
        )

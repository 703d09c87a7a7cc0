"""Ledger lines that hold a tower against its maker's rating. The lattice is never computed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from boomwright.base.quantity import Quantity, Value, cited, phrase, settled
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.elements import ice_missing
from boomwright.structure.checks.findings import NO_GUST, Findings, SiteLoads
from boomwright.structure.faults import BasisMixError, StructureInputError
from boomwright.structure.report import BeamReport, GuyReport
from boomwright.structure.support.tower import Tower, bracket_force, tower_wind
from boomwright.structure.support.tower_rating import AreaAtHeight, RatedArea, rated_area
from boomwright.structure.weather.drag import ROUND_DRAG, AreaRule, area_conventions
from boomwright.structure.weather.ice import seen_diameter
from boomwright.structure.wording import force

_ASK = "ask the maker or an engineer"


def check_tower(
    *, tower: Tower, beams: Sequence[BeamReport], case: LoadCase, findings: Findings
) -> RatedArea | None:
    """Hold areas, mast extension and ice against the maker's rating; None when not checked."""
    name, site = f"tower: antenna area against the maker's rating{case.suffix}", case.site
    if case.iced:
        reason = _ice(tower, case, findings)
        if reason:
            findings.skip(name, reason, change=_ASK)
            return None
    else:
        _bare_lines(tower, site, findings)
    rating = tower.rating
    if rating.missing:
        lacks = f"the rating lacks {', '.join(rating.missing)}"
        findings.skip(name, f"{lacks}: {_ASK}", change=_ASK)
        return None
    wind, rule = site.inputs.wind, rating.area_rule
    # Both ratings and site have their gusts in the pressure: no factor of the sway is needed.
    lack: Value = case.windless if beams else "no beam with a wind area is given"
    if wind is None or rule is None or lack:
        findings.skip(name, lack)
        return None
    try:
        found = rated_area(
            basis=wind,
            rating=rating,
            areas=_areas(beams, rule, case),
            gust=site.ice_gust if case.iced else None,
            structure_height=tower.height,
        )
    except (BasisMixError, StructureInputError) as error:
        findings.skip(name, error.said, change=_ASK)
        return None
    older = sum(beam.areas(iced=case.iced).older_worst.by_rule(rule) for beam in beams)
    ice = case.coat(height=tower.height)
    findings.hold(
        name=name,
        demand=found.demand,
        capacity=found.capacity,
        unit="m2",
        basis=phrase(
            "{found}; {wind}{more}; the older sum rule gives {older} "
            "for the beams before scaling; a first screen", found=found.text, wind=wind.text,
            more="" if ice is None else phrase("; {ice}", ice=ice.text),
            older=Quantity(older, "wind area"),
        ),
        change=f"hang less or lower, or {_ASK}",
    )  # fmt: skip
    return found


def _areas(beams: Sequence[BeamReport], rule: AreaRule, case: LoadCase) -> list[AreaAtHeight]:
    areas = [
        AreaAtHeight(area=beam.areas(iced=case.iced).worst.by_rule(rule), height=beam.centre)
        for beam in beams
    ]
    mast = case.site.inputs.mast
    if mast is not None:
        seen = seen_diameter(mast.diameter, case.coat(height=mast.middle))
        proud = area_conventions(projected=seen * mast.proud).by_rule(rule)
        areas.append(AreaAtHeight(area=proud, height=mast.middle))
    for ring in case.site.inputs.rings:
        own = area_conventions(projected=(ring.drag_area or 0.0) / ROUND_DRAG).by_rule(rule)
        areas.append(AreaAtHeight(area=own, height=ring.height))
    return areas


def _bare_lines(tower: Tower, site: SiteLoads, findings: Findings) -> None:
    """Hold the mast against the longest its maker allows, and warn of guys on a crank-up."""
    mast = site.inputs.mast
    if mast is not None:
        findings.hold(
            name="tower: mast extension",
            demand=mast.proud,
            capacity=tower.rating.mast_extension,
            unit="m",
            basis="maker's longest mast above the top bearing",
            change="shorten the mast above the bearing",
            missing=f"the maker's longest mast extension is not given: {_ASK}",
        )
    if tower.kind == "crank-up" and site.inputs.guying:
        findings.note(
            "guyed-crank-up",
            "Never guy a crank-up tower unless its maker says so: the guys pull on the "
            "hoist cable.",
            severity="caution",
        )


def _ice(tower: Tower, case: LoadCase, findings: Findings) -> str:
    """Hold ice and its gust against those of the rating; say why the rating does not cover them."""
    site, rating = case.site, tower.rating
    name = "tower: ice in the maker's rating"
    coat, reason = site.coat(height=tower.height), ""
    if rating.ice is None:
        reason = f"whether the rating includes ice is not given: {_ASK}"
    elif rating.ice == 0.0:
        reason = f"the rating is without ice and the site has it: {_ASK}"
    elif coat is None:
        reason = ice_missing(site=site)
    if rating.ice is None or coat is None or reason:
        findings.skip(name, reason)
        return reason
    findings.hold(
        name=name,
        demand=coat.thickness * 1000.0,
        capacity=rating.ice * 1000.0,
        unit="mm",
        basis=phrase("radial thickness at the top; {coat}", coat=coat.text),
        change=_ASK,
    )
    _ice_gust(tower, case, findings)
    if coat.thickness > rating.ice:
        return f"the site has more ice than the rating includes: {_ASK}"
    return ""


def _ice_gust(tower: Tower, case: LoadCase, findings: Findings) -> None:
    name, gust = "tower: gust with ice in the maker's rating", case.site.ice_gust
    if case.windless or gust is None:
        findings.skip(name, case.windless or NO_GUST)
        return
    rated, words = tower.rating.gust_with_ice
    findings.hold(
        name=name,
        demand=gust,
        capacity=rated,
        unit="m/s",
        basis=phrase(
            "3 s gust that comes with the ice, as entered and as rated{words}; {more}",
            words=words,
            more=case.site.inputs.wind.text if case.site.inputs.wind else "",
        ),
        change=_ASK,
        missing=f"the gust rated with its ice is not given: {_ASK}",
    )


def tower_weight(*, tower: Tower, beams: Sequence[BeamReport], case: LoadCase) -> float | None:
    """Weight of tower, mast and beams, with ice when iced; None when one is not known [N]."""
    carried = case.carried_weight(beams=beams)
    if carried is None or tower.weight is None:
        return None
    coat = case.coat(height=tower.height)
    ice = 0.0 if coat is None else tower.ice_weight(ice=coat)
    return None if ice is None else carried + tower.weight + ice


def tower_line_load(tower: Tower, case: LoadCase) -> Callable[[float], float]:
    """Wind on a metre of the tower itself, as a function of height in m [N/m]."""

    def line_load(height: float) -> float:
        width = tower.wind_width(ice=case.coat(height=height)) or 0.0
        return case.pressure(height=height, shape="lattice").for_force * width

    return line_load


def standing_moment(
    *, tower: Tower, beams: Sequence[BeamReport], case: LoadCase
) -> tuple[float, float] | None:
    """Moment [N m] and shear [N] at the foot of an unguyed tower, no factor on wind; or None."""
    if case.missing or tower.wind_trouble(iced=case.iced):
        return None
    force, moment = tower_wind(line_load=tower_line_load(tower, case), height=tower.height)
    for load in case.side_loads(beams=beams):
        force += load.force
        moment += load.force * load.height
    if tower.top_drift is not None:
        whole = tower_weight(tower=tower, beams=beams, case=case)
        carried = case.carried_weight(beams=beams)
        if whole is None or carried is None:
            return None
        moment += (carried + (whole - carried) / 2.0) * tower.top_drift
    return moment, force


def check_tower_base(
    *,
    tower: Tower,
    beams: Sequence[BeamReport],
    guys: GuyReport | None,
    case: LoadCase,
    findings: Findings,
) -> None:
    """Hold the reactions at the foot against the maker's, for the way the tower stands."""
    weight = tower_weight(tower=tower, beams=beams, case=case)
    if case.site.inputs.guying:
        _straight_down(tower, weight, guys, case, findings)
        return
    if tower.kind == "guyed":
        findings.skip(f"guys: tension{case.suffix}", "no guy levels are given for a guyed tower")
        return
    found = standing_moment(tower=tower, beams=beams, case=case)
    if found is None:
        reason = case.missing or tower.wind_trouble(iced=case.iced)
        findings.skip(
            f"tower: base moment{case.suffix}",
            reason or f"weights of tower or beams are not given: {_ASK}",
        )
        return
    if tower.kind == "bracketed":
        _straight_down(tower, weight, guys, case, findings)
        _bracket_line(tower, found[0], case, findings)
        return
    _standing_lines(tower, found, case, findings)
    if tower.top_drift is None and not case.iced:
        findings.skip(
            "tower: weight on the drifted top",
            "how far its top drifts in full wind is not given, so the moment of its weight there "
            f"is in no figure: {_ASK}",
            change=settled("enter the drift", "support.tower", "top_drift"),
        )
    if tower.rating.leg_load is not None:
        _leg_line(tower, found[0], weight, case, findings)


def _leg_line(
    tower: Tower, moment: float, weight: float | None, case: LoadCase, findings: Findings
) -> None:
    name = f"tower: leg load at the foot{case.suffix}"
    if weight is None or tower.lattice is None:
        findings.skip(name, f"weights, or legs and face width of the tower, are not given: {_ASK}")
        return
    findings.hold(
        name=name,
        demand=tower.lattice.leg_loads(axial=weight, moment=moment)[0],
        capacity=tower.rating.leg_load,
        unit="N",
        basis=phrase(
            "{basis}; wind from the worst side of legs as far apart as entered",
            basis=case.basis(height=tower.height, shape="lattice"),
        ),
        change=f"hang less or lower, or {_ASK}",
        load_kind=case.site.service_kind,
        limit_kind=tower.rating.load_kind,
    )


def _straight_down(
    tower: Tower, weight: float | None, guys: GuyReport | None, case: LoadCase, findings: Findings
) -> None:
    name, guyed = f"tower: load straight down{case.suffix}", bool(case.site.inputs.guying)
    if weight is None or (guyed and guys is None):
        reason = case.missing or tower.wind_trouble(iced=case.iced)
        findings.skip(name, reason or "guy tensions, tower weight or beam weights are not known")
        return
    closer = "lower the initial tension within its range, or set anchors further out"
    findings.hold(
        name=name,
        demand=weight + (0.0 if guys is None else guys.compression),
        capacity=tower.rating.axial,
        unit="N",
        basis=case.basis(height=tower.height, shape="lattice"),
        change=closer if guyed else f"hang less, or {_ASK}",
        load_kind=case.site.service_kind,
        limit_kind=tower.rating.load_kind,
        missing=f"the maker's axial rating is not given: {_ASK}",
    )


def _bracket_line(tower: Tower, moment: float, case: LoadCase, findings: Findings) -> None:
    pull: Value = "unknown"
    if tower.bracket_height is not None:
        pull = force(bracket_force(base_moment=moment, bracket_height=tower.bracket_height))
    why = phrase("the wall behind it is for an engineer (pull of the bracket: {pull})", pull=pull)
    findings.skip(f"tower: house bracket{case.suffix}", why)


def _standing_lines(
    tower: Tower, found: tuple[float, float], case: LoadCase, findings: Findings
) -> None:
    moment, shear = found
    lean = "weight on the drifted top counted"
    if tower.top_drift is None:
        lean = "weight on the drifted top not counted: no drift given"
    basis = case.basis(height=tower.height, shape="lattice")
    known: Value = ""
    if tower.lattice is not None:
        known = cited("; wind on legs and braces by ASCE 7", "asce-7-trussed-tower")
    rating = tower.rating
    rows = [
        ("base moment", moment, rating.base_moment, "N m"),
        ("base shear", shear, rating.base_shear, "N"),
    ]
    # What its maker states of the sections counts at the foot, where it is used most.
    if rating.section_moment is not None:
        rows.append(("bending moment of the lowest section", moment, rating.section_moment, "N m"))
    if rating.section_shear is not None:
        rows.append(("shear of the lowest section", shear, rating.section_shear, "N"))
    for what, value, rated, unit in rows:
        findings.hold(
            name=f"tower: {what}{case.suffix}",
            demand=value,
            capacity=rated,
            unit=unit,
            basis=phrase("{basis}; {lean}{known}", basis=basis, lean=lean, known=known),
            change=f"hang less or lower, or {_ASK}",
            load_kind=case.site.service_kind,
            limit_kind=rating.load_kind,
            missing=f"the maker's rated {what} is not given: {_ASK}",
        )

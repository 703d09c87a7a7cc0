"""Ledger lines for the tower or support tube and its guys, all with nominal wind."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from boomwright.structure.anchors import (
    ANCHOR_FACTOR,
    AnchorPull,
    anchor_pulls,
    block_slide,
    block_uplift,
)
from boomwright.structure.basis import WindBasis
from boomwright.structure.drag import ROUND_DRAG
from boomwright.structure.faults import StructureInputError
from boomwright.structure.findings import Findings, SiteLoads
from boomwright.structure.guy_solver import (
    GuyedMast,
    GuyedState,
    GuySolverError,
    SideLoad,
    scan_wind,
)
from boomwright.structure.guys import GUY_FACTOR, INITIAL_SHARE, GuyLevel
from boomwright.structure.margins import margin
from boomwright.structure.report import BeamReport, GuyReport
from boomwright.structure.tower import Tower
from boomwright.structure.tube_support import (
    TubeBending,
    TubularSupport,
    free_tube,
    guyed_tube,
)
from boomwright.structure.tubing import allowable_stress
from boomwright.structure.wind import Shape, velocity_pressure

#: gust factor of a tubular pole {tia-222-g} (from memory); lattice towers take 1 here, which
#: lies above the 0.85 the standard allows them
POLE_GUST = 1.10


def side_loads(*, beams: Sequence[BeamReport], site: SiteLoads) -> tuple[SideLoad, ...]:
    """Wind on beams and mast as horizontal forces, nominal.

    Parameters
    ----------
    beams
        beams [-] (n_beams,)
    site
        wind and ice [-]

    Returns
    -------
    tuple of SideLoad
        forces at their heights [-]
    """
    loads = [
        SideLoad(height=beam.height, force=beam.force) for beam in beams if beam.force is not None
    ]
    mast = site.inputs.mast
    if mast is not None and site.nominal is not None:
        middle = (mast.bearing_height + mast.top_height) / 2.0
        pressure = velocity_pressure(basis=site.nominal, height=middle).for_force
        force = pressure * ROUND_DRAG * mast.diameter * mast.proud
        loads.append(SideLoad(height=middle, force=force))
    return tuple(loads)


def carried_weight(*, beams: Sequence[BeamReport], site: SiteLoads) -> float | None:
    """Weight of beams and mast.

    Parameters
    ----------
    beams
        beams [-] (n_beams,)
    site
        wind and ice [-]

    Returns
    -------
    float or None
        weight; None when that of a beam is not known [N]
    """
    mast = site.inputs.mast
    total = 0.0 if mast is None else mast.weight
    for beam in beams:
        if beam.weight is None:
            return None
        total += beam.weight
    return total


def line_load(*, basis: WindBasis, drag_area: float, shape: Shape) -> Callable[[float], float]:
    """Wind on a metre of support as a function of height.

    Parameters
    ----------
    basis
        nominal wind [-]
    drag_area
        drag area of a metre [m]
    shape
        ``round`` or ``lattice`` [-]

    Returns
    -------
    callable
        height in m to wind in N/m [N/m]
    """

    def at(height: float) -> float:
        return velocity_pressure(basis=basis, height=height, shape=shape).for_force * drag_area

    return at


def check_guyed_tower(
    *, tower: Tower, beams: Sequence[BeamReport], site: SiteLoads, findings: Findings
) -> tuple[GuyedState, ...]:
    """Scan a guyed lattice tower, or say what is missing for it.

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
    tuple of GuyedState
        equilibria, empty when not checked [-]
    """
    name = "guys: tension"
    if site.nominal is None:
        findings.skip(name, "no wind speed with its kind, edition and exposure is given")
        return ()
    if tower.drag_area_per_length is None:
        findings.skip(
            name, "the tower's own drag area per metre is not given: ask the maker or an engineer"
        )
        return ()
    reason = _untensioned(site.inputs.guying)
    if reason:
        findings.skip(name, reason)
        return ()
    try:
        mast = GuyedMast(
            height=tower.height,
            levels=site.inputs.guying,
            bending_stiffness=tower.bending_stiffness,
            soften_by_sag=True,
        )
        return scan_wind(
            mast=mast,
            loads=side_loads(beams=beams, site=site),
            line_load=line_load(
                basis=site.nominal, drag_area=tower.drag_area_per_length, shape="lattice"
            ),
        )
    except (StructureInputError, GuySolverError) as error:
        findings.skip(name, str(error))
        return ()


def _untensioned(levels: Sequence[GuyLevel]) -> str:
    for level in levels:
        if level.initial_tension is None:
            usual = level.strand.breaking_strength * INITIAL_SHARE[1]
            return (
                f"the initial tension at {level.height:.1f} m is not given (a tenth of breaking, "
                f"{usual:.0f} N, is usual; common practice)"
            )
    return ""


def check_tube(
    *, tube: TubularSupport, beams: Sequence[BeamReport], site: SiteLoads, findings: Findings
) -> TubeBending | None:
    """Bend a tubular support, alone or guyed, and write its ledger line.

    Parameters
    ----------
    tube
        the tube [-]
    beams
        beams [-] (n_beams,)
    site
        wind and ice [-]
    findings
        where lines and notices go [-]

    Returns
    -------
    TubeBending or None
        what was found; None when not checked [-]
    """
    name = "support tube: bending"
    if site.nominal is None:
        findings.skip(name, "no wind speed with its kind, edition and exposure is given")
        return None
    levels = site.inputs.guying
    if not levels and not tube.fixed:
        findings.skip(name, "a tube that can tilt at its foot stands only with guys")
        return None
    reason = _untensioned(levels)
    if reason:
        findings.skip(name, reason)
        return None
    gust = POLE_GUST if site.nominal.edition.startswith("TIA") else 1.0
    wind = line_load(basis=site.nominal, drag_area=gust * ROUND_DRAG * tube.diameter, shape="round")
    loads = tuple(
        SideLoad(height=load.height, force=gust * load.force)
        for load in side_loads(beams=beams, site=site)
    )
    weight = carried_weight(beams=beams, site=site)
    if weight is None:
        findings.skip(name, "the weight of a beam on it is not known")
        return None
    try:
        bent = (
            guyed_tube(tube=tube, levels=levels, loads=loads, line_load=wind, weight_on_top=weight)
            if levels
            else free_tube(tube=tube, loads=loads, line_load=wind, weight_on_top=weight)
        )
    except (StructureInputError, GuySolverError) as error:
        findings.skip(name, str(error))
        return None
    if tube.yield_strength is None:
        findings.skip(name, "its yield strength is not given (unmarked water pipe: 207 MPa)")
        return bent
    limit = allowable_stress(yield_strength=tube.yield_strength, steel=tube.steel)
    findings.add(
        margin(
            name=name,
            demand=bent.stress / 1e6,
            capacity=limit.value / 1e6,
            unit="MPa",
            basis=f"{site.nominal.text}; {limit.rule}; gust factor {gust:g}"
            f"{'' if gust == 1.0 else ' (from memory)'}; "
            f"moment grown x {bent.amplification:.2f} "
            "by the weight on it",
            change="guy it, shorten it, or take a larger or thicker tube",
            load_kind="nominal",
            limit_kind=limit.kind,
        )
    )
    return bent


def check_guys(
    *, states: tuple[GuyedState, ...], site: SiteLoads, findings: Findings
) -> GuyReport | None:
    """Hold guy tensions and anchor pulls against their strengths.

    Parameters
    ----------
    states
        equilibria for every wind direction [-] (n_directions,)
    site
        wind and ice [-]
    findings
        where lines and notices go [-]

    Returns
    -------
    GuyReport or None
        worst figures; None without equilibria [-]
    """
    levels = site.inputs.guying
    if not states or site.nominal is None:
        return None
    basis = f"{site.nominal.text}; every wind direction by 10 deg; guys carry tension only"
    highest = tuple(
        max(max(state.tensions[number]) for state in states) for number in range(len(levels))
    )
    for level, tension in zip(levels, highest, strict=True):
        findings.add(
            margin(
                name=f"guys at {level.height:.1f} m: tension",
                demand=tension,
                capacity=level.strand.breaking_strength / GUY_FACTOR,
                unit="N",
                basis=f"{basis}; {level.strand.name}, breaking / {GUY_FACTOR:g} (from memory)",
                change="take heavier strand or set the anchors further out",
            )
        )
        _guy_doubts(level, findings)
    if any(state.slack for state in states):
        findings.doubt(
            "slack-guy",
            "A lee guy goes slack in some wind directions; the figures allow for it. More initial "
            "tension within the tower's rating keeps it taut.",
            value=f"{max(state.slack for state in states)} slack at once",
        )
    pulls = anchor_pulls(levels=levels, states=states)
    for pull in pulls:
        _anchor_lines(pull, basis, site, findings)
    return GuyReport(
        states=states,
        highest_tensions=highest,
        compression=max(state.compression for state in states),
        anchors=pulls,
    )


def _guy_doubts(level: GuyLevel, findings: Findings) -> None:
    share = (level.initial_tension or 0.0) / level.strand.breaking_strength
    low, _, high = INITIAL_SHARE
    if not low <= share <= high:
        findings.doubt(
            "initial-tension",
            f"The guys at {level.height:.1f} m are set outside the usual range at 15 C.",
            value=f"{share * 100:.0f} % of breaking",
            limit=f"{low * 100:.0f} to {high * 100:.0f} % (common practice)",
        )
    if level.anchor_radius < 0.6 * level.height:
        findings.doubt(
            "steep-guy",
            f"The anchors for {level.height:.1f} m stand close in: 0.6 to 0.8 of the height is "
            "usual, never under half.",
            value=f"{level.anchor_radius / level.height:.2f} of the height",
            limit="0.6 (common practice)",
        )


def _anchor_lines(pull: AnchorPull, basis: str, site: SiteLoads, findings: Findings) -> None:
    block, soil = site.inputs.anchor, site.inputs.soil
    names = (f"anchor at {pull.radius:.1f} m: uplift", f"anchor at {pull.radius:.1f} m: slide")
    if block is None or soil is None:
        for name, force in zip(names, (pull.uplift, pull.slide), strict=True):
            findings.skip(
                name,
                f"anchor block or soil is not given (it is pulled with {force:.0f} N); screw "
                "anchors count only with a torque record",
            )
        return
    change = "make the block larger or bury it deeper"
    findings.add(
        margin(
            name=names[0],
            demand=ANCHOR_FACTOR * pull.uplift,
            capacity=block_uplift(block=block, soil=soil),
            unit="N",
            basis=f"{basis}; factor {ANCHOR_FACTOR:g}; block and soil straight above, no wedge",
            change=change,
        )
    )
    findings.add(
        margin(
            name=names[1],
            demand=pull.slide,
            capacity=block_slide(block=block, soil=soil),
            unit="N",
            basis=f"{basis}; allowable lateral bearing of {soil.name}",
            change=change,
            missing=f"{soil.name} has no lateral value",
        )
    )

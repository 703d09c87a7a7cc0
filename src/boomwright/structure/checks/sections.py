"""Ledger lines for what a guyed or bracketed tower carries along its height.

The lattice itself is its maker's: moment, shear and leg load stand against what the maker states
for it, or its guys stand where the maker drew them. Where neither is known nothing passes.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise
from math import inf

import numpy as np

from boomwright.base.quantity import InPlan, Quantity, Value, listed, phrase, settled
from boomwright.base.records import dataclass, replace
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.findings import Findings
from boomwright.structure.checks.tower import tower_line_load, tower_weight
from boomwright.structure.faults import BucklesError, StructureInputError
from boomwright.structure.report import BeamReport
from boomwright.structure.support.columns import STIFFNESS_SHARE
from boomwright.structure.support.guy_solver import (
    GuyedMast,
    GuyedState,
    GuySolverError,
    highest_pulls,
    scanned,
)
from boomwright.structure.support.guys import GuyLevel, untensioned
from boomwright.structure.support.held_beam import SideLoad, SupportCourse, along, held_course
from boomwright.structure.support.tower import Tower
from boomwright.structure.wording import span

#: a ring this far from where it was drawn still stands as drawn, a foot (common practice) [m]
_AS_DRAWN = 0.3
#: free length over face width past which a lattice is a column first, by its faces (common
#: practice)
_SLENDER_SPAN = {3: 40.0, 4: 50.0}
_SECTIONS = "tower: moment, shear and leg load along its height"
_ASK = settled("ask the maker for them and enter them", "support.tower.rating")
_ASK_FOR_BOTH = phrase(
    "{ask}, or the maker's drawing of the guys{drawing}", ask=_ASK,
    drawing=InPlan("support.tower.drawing"),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldSupport:
    """A support on its guys, or a tower on its house bracket."""

    #: what a tower carries along its height; None when not found, and for a tube
    course: SupportCourse | None = None
    #: equilibria of the guys for every wind direction, empty without guys
    states: tuple[GuyedState, ...] = ()
    #: largest force down the support just below each ring [N] (n_levels,)
    below: tuple[float, ...] = ()
    buckles: bool = False  #: whether the weight on the bent tower is more than it bears
    #: what is missing so that the weight on the bent tower is not counted, or empty
    lacks: Value = ""


def check_held_tower(
    *, tower: Tower, beams: Sequence[BeamReport], case: LoadCase, findings: Findings
) -> HeldSupport:
    """Hold a guyed or bracketed tower in wind to its maker's figures; empty for one that stands."""
    levels = case.site.inputs.guying
    if not levels and tower.kind != "bracketed":
        return HeldSupport()
    reason = case.missing or tower.wind_trouble(iced=case.iced) or untensioned(levels)
    if not levels:
        reason = reason or _bracket_trouble(tower)
    held = HeldSupport()
    if not reason:
        try:
            held = _held(tower, beams, case)
        except (StructureInputError, GuySolverError) as error:
            reason = str(error)
    if reason:
        if levels:
            findings.skip(f"guys: tension{case.suffix}", reason)
        findings.skip(f"{_SECTIONS}{case.suffix}", reason)
        return held
    if levels and tower.drawing is not None and not case.iced:
        findings.hold(
            name="tower: guys against the maker's drawing",
            demand=_off_drawing(tower, levels),
            capacity=_AS_DRAWN,
            unit="m",
            basis="largest distance of a ring or the top from the drawing, or of anchors too "
            f"close in; {tower.drawing.said_by}",
            change="set the guys where the maker drew them, or ask the maker or an engineer",
        )
    _sections(tower, held, case, findings)
    if not case.iced:
        _slender(tower, [level.height for level in levels], findings)
    return held


def _bracket_trouble(tower: Tower) -> str:
    if tower.bracket_height is None:
        return "the height of the house bracket is not given"
    return "the house bracket is above the top" if tower.bracket_height > tower.height else ""


def _held(tower: Tower, beams: Sequence[BeamReport], case: LoadCase) -> HeldSupport:
    weight = tower_weight(tower=tower, beams=beams, case=case)
    on_top = case.carried_weight(beams=beams)
    if weight is None or on_top is None:
        raise StructureInputError("the weight of the tower or of a beam is not given")
    own = weight - on_top
    lacks = "" if tower.bending_stiffness is not None else "its bending stiffness is not given"

    def weight_above(height: float) -> float:
        return on_top + own * (1.0 - height / tower.height)

    line_load, loads = tower_line_load(tower, case), case.side_loads(beams=beams)
    levels = case.site.inputs.guying
    if not levels:
        return _on_bracket(tower, loads, line_load, weight_above, lacks)
    straight = GuyedMast(
        height=tower.height,
        levels=levels,
        bending_stiffness=tower.bending_stiffness,
        guy_loads=tuple(case.guy_load(level=level) for level in levels),
    )
    mast = straight if lacks else replace(straight, weight_above=weight_above)
    buckles = False
    try:
        states, course = scanned(mast=mast, loads=loads, line_load=line_load)
    except BucklesError:
        mast, buckles = straight, True
        states, course = scanned(mast=mast, loads=loads, line_load=line_load)
    if mast.weight_above is None:
        own_weight = along(course.heights, weight_above)
        course = replace(course, compression=course.compression + own_weight)
    bearing = straight.bearing(highest_pulls(states))
    return HeldSupport(
        course=course,
        states=states,
        below=tuple(bearing(level.height) + weight_above(level.height) for level in levels),
        buckles=buckles,
        lacks=lacks,
    )


def _on_bracket(
    tower: Tower,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    weight_above: Callable[[float], float],
    lacks: Value,
) -> HeldSupport:
    course = partial(
        held_course,
        height=tower.height,
        held=[tower.bracket_height or tower.height],
        # With one support on a foot that tilts, statics decides and any stiffness will do.
        stiffness=STIFFNESS_SHARE * (tower.bending_stiffness or 1.0),
        loads=loads,
        line_load=line_load,
        bearing=weight_above,
        # A foot that tilts gives the bracket the larger share of the moment.
        pinned=True,
    )
    try:
        return HeldSupport(course=course(grown=not lacks), lacks=lacks)
    except BucklesError:
        return HeldSupport(course=course(grown=False), buckles=True)


def _off_drawing(tower: Tower, levels: Sequence[GuyLevel]) -> float:
    """Distance of the guys from the maker's drawing; infinite without one [m]."""
    if tower.drawing is None or not levels:
        return inf
    return tower.drawing.off(
        height=tower.height,
        guy_levels=[level.height for level in levels],
        anchor_radius=max(levels, key=lambda level: level.height).anchor_radius,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Figure:
    """A figure of the tower's sections."""

    name: str
    demand: float | None  # None when it cannot be found
    height: float
    unit: str
    rated: float | None

    @property
    def text(self) -> Value:
        if self.demand is None:
            return f"{self.name} not known without its legs and face width"
        told = Quantity(self.demand, "moment" if self.unit == "N m" else "force")
        return phrase(
            "{self} {told} at {height}", self=self.name, told=told, height=span(self.height)
        )


def _figures(tower: Tower, course: SupportCourse) -> list[_Figure]:
    rating, found = tower.rating, []
    for name, values, unit, rated in (
        ("bending moment", course.moment, "N m", rating.section_moment),
        ("shear", course.shear, "N", rating.section_shear),
        ("leg load", leg_course(tower=tower, course=course), "N", rating.leg_load),
    ):
        at = 0 if values is None else int(np.argmax(values))
        found.append(
            _Figure(
                name=name,
                demand=None if values is None else float(values[at]),
                height=float(course.heights[at]),
                unit=unit,
                rated=rated,
            )
        )
    return found


def leg_course(*, tower: Tower, course: SupportCourse) -> np.ndarray | None:
    """Load in the most pressed leg along the height; None without a lattice [N] (n_nodes,)."""
    lattice = tower.lattice
    if lattice is None:
        return None
    return np.array(
        [
            lattice.leg_loads(axial=float(axial), moment=float(moment))[0]
            for axial, moment in zip(course.compression, course.moment, strict=True)
        ]
    )


def _sections(tower: Tower, held: HeldSupport, case: LoadCase, findings: Findings) -> None:
    if held.course is None:  # pragma: no cover - said before
        return
    if held.buckles:
        findings.hold(
            name=f"tower: weight and guys on the bent tower{case.suffix}",
            demand=inf,
            capacity=1.0,
            unit="",
            basis=phrase(
                "{basis}; it buckles under 1.6 times what presses it down, on 0.8 of its "
                "stiffness (AISC 360-22)",
                basis=case.basis(height=tower.height, shape="lattice"),
            ),
            change="set the anchors further out, take heavier strand, guy it at more heights, or "
            "ask the maker or an engineer",
        )
        return
    figures = _figures(tower, held.course)
    for figure in figures:
        if figure.rated is not None:
            _section_line(figure, figure.rated, tower, held, case, findings)
    missing = [figure for figure in figures if figure.rated is None]
    if missing and _off_drawing(tower, case.site.inputs.guying) > _AS_DRAWN:
        *first, last = [figure.name for figure in missing]
        what, are = (f"{', '.join(first)} and {last}", "are") if first else (last, "is")
        drawn = ", nor do its guys stand as in a maker's drawing" if held.states else ""
        findings.skip(
            f"{_SECTIONS}{case.suffix}",
            phrase(
                "the maker's allowable {what} {are} not given{drawn}; it carries {figures}",
                what=what, are=are, drawn=drawn,
                figures=listed([figure.text for figure in missing], between="; "),
            ),
            change=_ASK_FOR_BOTH if held.states else _ASK,
        )  # fmt: skip


def _section_line(
    figure: _Figure,
    rated: float,
    tower: Tower,
    held: HeldSupport,
    case: LoadCase,
    findings: Findings,
) -> None:
    name = f"tower: {figure.name} along its height{case.suffix}"
    if figure.demand is None:
        lacks = settled("the legs and face width are not given", "support.tower.lattice")
        findings.skip(name, lacks)
        return
    if held.lacks and figure.demand <= rated:
        words = "{lacks}; without the weight on the bent tower: {figure}"
        findings.skip(name, phrase(words, lacks=held.lacks, figure=figure.text))
        return
    way = "foot taken to tilt, house bracket to hold"
    if held.states:
        way = "on its guys and on points that hold, every wind direction"
    grown = "" if held.lacks else "; moments grown by 1.6 times the weight on 0.8 of the stiffness"
    findings.hold(
        name=name,
        demand=figure.demand,
        capacity=rated,
        unit=figure.unit,
        basis=phrase(
            "{basis}; at {height}; {way}{grown}",
            basis=case.basis(height=tower.height, shape="lattice"), height=span(figure.height),
            way=way, grown=grown,
        ),
        change="guy it at more heights as its maker draws them, hang less or lower, or ask "
        "the maker or an engineer",
        load_kind=case.site.service_kind,
        limit_kind=tower.rating.load_kind,
    )  # fmt: skip


def _slender(tower: Tower, levels: Sequence[float], findings: Findings) -> None:
    if tower.lattice is None:
        return
    held = [0.0, *(levels or [tower.bracket_height or 0.0])]
    longest = max(b - a for a, b in pairwise(sorted(held)))
    share, most = longest / tower.lattice.face_width, _SLENDER_SPAN[tower.lattice.faces]
    if share > most:
        findings.doubt(
            "slender-span",
            phrase(
                "{longest} of tower stand between two held points: at this width it may "
                "fail as a column before it bends. Ask the maker.",
                longest=span(longest),
            ),
            value=f"{share:.0f} face widths",
            limit=f"{most:.0f} (common practice)",
        )

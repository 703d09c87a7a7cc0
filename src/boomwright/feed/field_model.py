"""Elements, rods and straps as wires for the field solver, and one solution of them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass, field, replace
from boomwright.feed.matches import FeedLoad
from boomwright.parts import Beam, Element, TubeSection
from boomwright.solver import (
    FREE_SPACE,
    BeamSolution,
    Detail,
    GapPlace,
    Ground,
    GroundMethod,
    Mirror,
    Preparer,
    WirePath,
    WireSystem,
    assemble,
    both_sides,
    effort,
    foot_resistance,
    further_paths,
    ground_seen,
    mirrored_network,
    reference_detail,
    refuse_large,
    refuse_long,
    remembering,
    solution_of,
    solve_currents,
    surrounded_beam,
    wire_network,
    working_detail,
)

#: shortest tip section a trimmed element may be left with: this, and on the shortest waves this
#: share of its half [m] and [-]
_SHORTEST_TIP, _SHORTEST_SHARE = 0.05, 0.2
#: axes of element and rod must be this many radii of the thicker one apart for the model of
#: thin wires
CLOSEST_RADII = 4.0
#: distance of a rod from the element that builders keep, in diameters of the thicker one
#: {common-practice-rod-spacing}
USUAL_DIAMETERS = 3.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FieldSetting:
    """What surrounds the beam while its feed is solved, and what is kept between solutions."""

    ground: Ground = FREE_SPACE  #: ground at the beam's height below the boom
    method: GroundMethod = "exact"  #: how real ground acts on the currents
    #: prepares one run; the default keeps what it made, so that only wires that move are integrated
    #: again
    prepare: Preparer = field(default_factory=remembering)
    #: places in the band at which a finished match is solved, beside the design frequency; two
    #: where nobody reads what lies between
    band_points: int = 15
    #: loads of split elements that were solved, by beam
    split_loads: dict[Beam, FeedLoad] = field(default_factory=dict, init=False, repr=False)


def whole_system(
    *, beam: Beam, paths: tuple[WirePath, ...], gaps: tuple[GapPlace, ...], setting: FieldSetting
) -> WireSystem:
    """Put whole wires and the beam's further ones over their ground, the boom at height zero."""
    kind = setting.ground.kind
    system = wire_network(
        paths=(*paths, *further_paths(beam=beam)),
        gaps=gaps,
        perfect_ground=kind == "perfect",
        ground_level=-beam.height,
    )
    return replace(system, ground_height=beam.height if kind == "real" else math.inf)


def mirrored_system(
    *, beam: Beam, paths: tuple[WirePath, ...], gaps: tuple[GapPlace, ...], setting: FieldSetting
) -> WireSystem:
    """Put halves of wires over their ground, mirrored in the plane through the boom.

    Beside further wires, which keep to no plane, both halves are laid out.

    Args:
        paths: wires at y >= 0; one that starts or ends at y = 0 goes on in its image
        gaps: the ports; one at the very start of a path is cut in half by the plane
    """
    if beam.wires:
        paths, gaps = both_sides(paths=paths, gaps=gaps)
        return whole_system(beam=beam, paths=paths, gaps=gaps, setting=setting)
    kind = setting.ground.kind
    system = mirrored_network(paths=paths, gaps=gaps)
    if kind == "perfect":
        ground = Mirror(axis=2, offset=-beam.height, material=True)
        system = replace(system, mirrors=(*system.mirrors, ground))
    return replace(system, ground_height=beam.height if kind == "real" else math.inf)


def solve_wires(
    *,
    beam: Beam,
    system: WireSystem,
    frequencies: Floats,
    setting: FieldSetting,
    finer: bool = False,
) -> BeamSolution:
    """Solve for one ampere at the first port, the others short-circuited.

    Args:
        frequencies: [Hz] (f,)
    """
    detail, highest = _detail(beam, frequencies, finer=finer)
    system = surrounded_beam(system=system, beam=beam)
    refuse_long_wires(beam=beam, system=system, frequencies=frequencies, finer=finer)
    assembly = assemble(
        system=system,
        detail=detail,
        highest_frequency=highest,
        prepare=setting.prepare,
    )
    below = None
    if setting.ground.kind == "real" and not beam.stands_on_ground:
        below = ground_seen(
            assembly=assembly,
            frequencies=frequencies,
            ground=setting.ground,
            method=setting.method,
        )
    currents = solve_currents(
        assembly=assembly,
        frequencies=frequencies,
        below=below,
        series=foot_resistance(beam=beam, ground=setting.ground, frequencies=frequencies),
    )
    return solution_of(beam=beam, currents=currents)


def refuse_long_wires(
    *, beam: Beam, system: WireSystem, frequencies: Sequence[float] | Floats, finer: bool
) -> None:
    """Refuse wires that would take longer than anyone waits, or more memory than there is.

    Args:
        system: the wires with all that surrounds them
        frequencies: [Hz] (f,)

    Raises:
        SolverError: naming the time or the memory, and the remedy
    """
    detail, highest = _detail(beam, frequencies, finer=finer)
    needed = effort(system=system, detail=detail, wavelength=SPEED_OF_LIGHT / highest)
    refuse_large(needed)
    refuse_long(
        seconds=[needed.seconds(solutions=len(frequencies))],
        what=f"elements and wires solved together, {len(frequencies)} times",
        remedy="shorten the wires, or lower the beam",
    )


def _detail(
    beam: Beam, frequencies: Sequence[float] | Floats, *, finer: bool
) -> tuple[Detail, float]:
    """How finely wires are cut, and the highest frequency that asks for it [Hz]."""
    highest = float(max(*beam.band, beam.design_frequency, *frequencies))
    return (reference_detail if finer else working_detail)(frequency=highest), highest


def shortest_tip(element: Element) -> float:
    """Shortest tip section that trimming leaves to an element [m]."""
    return min(_SHORTEST_TIP, _SHORTEST_SHARE * element.half_length)


def with_driven_tips(*, beam: Beam, change: float) -> Beam:
    """Telescope both tips of the driven element in or out.

    Args:
        change: added to each half of the driven element [m]

    Raises:
        BoomwrightError: when the tip section would vanish
    """
    if change == 0.0:
        return beam
    number = beam.driven_index
    element = beam.elements[number]
    last: TubeSection = element.half[-1]
    if change < 0.0 and last.length + change < shortest_tip(element):
        raise BoomwrightError(
            phrase(
                "driven element: its tips would have to be {change} shorter each, and the tip "
                "section is only {length} long; shorten a section further in",
                change=Quantity(-change, "sawn length"),
                length=Quantity(last.length, "sawn length"),
            )
        )
    tip = replace(last, length=last.length + change)
    driven = replace(element, half=(*element.half[:-1], tip))
    elements = (*beam.elements[:number], driven, *beam.elements[number + 1 :])
    return replace(beam, elements=elements)


def mean_diameter(*, element: Element, length: float) -> float:
    """Diameter of the uniform tube that stands for an element beside a rod.

    Args:
        length: length of the rod from the element's middle [m]

    Returns:
        geometric mean over that length, as potentials go by the logarithm [m]
    """
    left, total = min(length, element.half_length), 0.0
    for section in element.half:
        part = min(section.length, left)
        total += part * math.log(section.diameter)
        left -= part
    return math.exp(total / min(length, element.half_length))


def check_spacing(*, kind: str, spacing: float, diameters: tuple[float, ...]) -> None:
    """Refuse a rod too near to its neighbour for the model of thin wires.

    Args:
        spacing: distance of the axes [m]
        diameters: of both conductors [m]

    Raises:
        BoomwrightError: naming the least distance, or a diameter that is not above 0
    """
    if not min(diameters) > 0.0:
        thinnest = Quantity(min(diameters), "small length")
        msg = phrase("{kind}: diameter {d}; give diameters above 0", kind=kind, d=thinnest)
        raise BoomwrightError(msg)
    least = CLOSEST_RADII * max(diameters) / 2.0
    if not spacing >= least:
        raise BoomwrightError(
            phrase(
                "{kind}: {spacing} between axes; conductors of {diameter} are modelled from "
                "{least} on, and builders keep {usual}",
                kind=kind,
                spacing=Quantity(spacing, "small length"),
                diameter=Quantity(max(diameters), "small length"),
                least=Quantity(least, "small length"),
                usual=Quantity(USUAL_DIAMETERS * max(diameters), "whole millimetres"),
            )
        )

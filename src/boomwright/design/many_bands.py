"""Several bands on one boom: elements of all bands in one array, each band with its own feed.

Every element takes part in every band, those of other bands as they are: feed gaps out of use
closed, traps as loads. The worst of all bands counts, each with its handicap. What is found is
checked by the full solver, traps included.
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import Executor

import numpy as np

from boomwright.base import Notice
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.array_slopes import band_tables
from boomwright.design.figures_of import SAID_DB, BandFigures, band_figures, missed_notices
from boomwright.design.idle_arrays import idle_array
from boomwright.design.match_in_place import MatchInPlace
from boomwright.design.minimax import KEPT
from boomwright.design.search import Ground, OnProgress, search
from boomwright.design.search_state import SearchState
from boomwright.design.setting_up import (
    Setting,
    gap_width,
    search_frequencies,
)
from boomwright.design.shop_grid import (
    Cut,
    Solved,
    cut_to_grid,
    missed_by_rounding,
    shop_grid,
)
from boomwright.design.space import Freedom, WishError, design_space
from boomwright.design.targets import Problem, Targets, margins
from boomwright.parts import Beam
from boomwright.solver import element_half, trap_places, working_detail
from boomwright.solver.element_response import ElementFamily, element_family

#: how far half lengths may move from the design given, over the half length
_MOVE = 0.06
#: search and full solver may differ in gain by this before it is said [dB]
_TRUSTED = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class BandUse:
    """How one band uses the array."""

    band: tuple[float, float]  #: lowest and highest frequency [Hz] (2,)
    design_frequency: float  #: frequency it is matched at [Hz]
    driven: int  #: number of the element fed in this band, counted from 0 along the boom
    #: gain counts as that much more here: what this band may fall short of the others [dB]
    handicap_db: float = 0.0
    #: the match around the element fed here; None where the targets say what match is meant
    fed: MatchInPlace | None = None

    def targets(self, common: Targets) -> Targets:
        """What all bands are to reach, with what is particular to this one."""
        own = replace(common, handicap_db=self.handicap_db)
        return own if self.fed is None else replace(own, match="direct", fed=self.fed)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ManyBands:
    """The best array found for several bands."""

    beams: tuple[Beam, ...]  #: the same array as each band uses it, in the order given
    before: tuple[BandFigures, ...]  #: figures in each band, by the full solver, traps included
    after: tuple[BandFigures, ...]
    #: gain by the full solver less that of the search, worst in each band, in the order given; how
    #: far the search can be trusted [dB]
    differences_db: tuple[float, ...]
    state: SearchState
    notices: tuple[Notice, ...]  #: what is doubtful


def search_bands(
    *,
    beam: Beam,
    uses: tuple[BandUse, ...],
    targets: Targets,
    boom_limit: float,
    closest: float,
    places: float | None = None,
    seed: int = 0,
    starts: int = 8,
    state: SearchState | None = None,
    executor: Executor | None = None,
    on_progress: OnProgress | None = None,
) -> ManyBands:
    """Search an array for several bands at once, around a first design.

    Args:
        beam: first design: elements of all bands in place
        boom_limit: longest boom [m]
        closest: smallest distance of neighbours [m]
        places: dimensions are whole multiples of this; None for the shop's usual grid at the
            shortest wave [m]

    Raises:
        WishError: when the bands or the beam cannot be searched
    """
    ordered = replace(beam, elements=tuple(sorted(beam.elements, key=lambda e: e.position)))
    _refuse(ordered, uses)
    beams = tuple(_used(ordered, use) for use in uses)
    freedom = _freedom(ordered, boom_limit, closest)
    space = design_space(freedom=freedom, driven=uses[0].driven, wavelength=beams[0].wavelength)
    problems = [
        _problem(one, use, freedom, targets, closest) for one, use in zip(beams, uses, strict=True)
    ]
    problems = [replace(problem, space=space) for problem in problems]
    whole = replace(problems[0], further=tuple(problems[1:]))
    stand = np.array([element.position for element in ordered.elements])
    halves = np.array([element.half_length for element in ordered.elements])
    given = space.nearest(positions=stand - stand[0], half_lengths=halves)
    ground = Ground(
        resonances=halves,
        boom=boom_limit,
        wavelength=beams[0].wavelength,
        given=(given,),
        only_given=True,
    )
    found = search(
        problem=whole,
        ground=ground,
        seed=seed,
        starts=starts,
        state=state,
        executor=executor,
        on_progress=on_progress,
    )
    best = found.best_found
    setting = Setting(beam=ordered, problem=whole, ground=ground, families=())
    shortest = min(one.wavelength for one in beams)
    step = places or shop_grid(wavelength=shortest)

    def solved(one: Beam) -> Solved:
        used = ((_used(one, use), use.targets(targets)) for use in uses)
        return tuple((each, band_figures(beam=each, targets=own)) for each, own in used)

    cut = cut_to_grid(setting=setting, free=np.array(best.free), places=step, solve=solved)
    figures = tuple(each for _, each in cut.solved)
    differences = _differences(whole, np.array(best.free), figures)
    return ManyBands(
        beams=tuple(one for one, _ in cut.solved),
        before=tuple(
            band_figures(beam=one, targets=use.targets(targets))
            for one, use in zip(beams, uses, strict=True)
        ),
        after=figures,
        differences_db=differences,
        state=found,
        notices=(
            *_notices(differences),
            *_missed(best.breach, cut, step, [use.targets(targets) for use in uses]),
        ),
    )


def _missed(
    searched: float, cut: Cut, step: float, targets: Sequence[Targets]
) -> tuple[Notice, ...]:
    """Say which limits are missed, and whether search or grid is to blame."""
    if searched > KEPT:
        notice = Notice(
            code="design.limits-not-met",
            text="No array found keeps all limits in every band; this one breaks them least. "
            "Allow a longer boom or narrower bands, or relax a limit.",
            severity="limit",
            value=f"{searched:.2f} dB short",
        )
        return (notice,)
    if cut.breach > SAID_DB:
        return (missed_by_rounding(places=step, breach=cut.breach),)
    return tuple(
        notice
        for (beam, figures), own in zip(cut.solved, targets, strict=True)
        for notice in missed_notices(beam=beam, figures=figures, targets=own)
    )


def _differences(
    whole: Problem, free: Floats, figures: tuple[BandFigures, ...]
) -> tuple[float, ...]:
    """Worst gain by the full solver less that of the search, band by band."""
    found = []
    for problem, checked in zip((whole, *whole.further), figures, strict=True):
        alone = replace(problem, further=())
        searched = margins(problem=alone, towards=alone.targets.directions(), free=free)
        gain = float(searched.gain.min()) - alone.targets.handicap_db
        found.append(checked.worst[0] - gain)
    return tuple(found)


def _notices(differences: tuple[float, ...]) -> tuple[Notice, ...]:
    worst = max(differences, key=abs)
    if abs(worst) <= _TRUSTED:
        return ()
    return (
        Notice(
            code="design.check-differs",
            text="The full solver finds another gain than the search, traps and all: trust the "
            "figures of the full solver.",
            severity="doubt",
            value=f"{worst:+.2f} dB",
            limit=f"{_TRUSTED:g} dB",
        ),
    )


def _refuse(beam: Beam, uses: tuple[BandUse, ...]) -> None:
    count = len(beam.elements)
    numbers = [use.driven for use in uses]
    if not uses or not all(0 <= number < count for number in numbers):
        raise WishError(
            f"bands name elements {numbers}, but elements are 0 to {count - 1}",
            remedy="correct the numbers",
        )
    if beam.bent:
        raise WishError(
            f"beam {beam.name} is bent wire", remedy="search each of its bands by itself"
        )
    if beam.wires:
        raise WishError(
            f"beam {beam.name} has further wires, which no search moves", remedy="take them out"
        )
    for number, element in enumerate(beam.elements):
        fixed = sum(section.length for section in element.half[:-1])
        reach = (1.0 - _MOVE) * element.half_length if fixed == 0.0 else fixed
        for trap in element.traps:
            if trap.place + trap.width / 2.0 > reach:
                raise WishError(
                    f"the trap at {trap.place:.3f} m lies on the part of element {number} that "
                    "is to be changed",
                    remedy=f"place it within {reach:.3f} m",
                )


def _used(beam: Beam, use: BandUse) -> Beam:
    """Give the beam as one band uses it: its own driven element, all others parasitic."""
    elements = tuple(
        replace(
            element,
            role="driven"
            if number == use.driven
            else "reflector"
            if number < use.driven
            else "director",
        )
        for number, element in enumerate(beam.elements)
    )
    return replace(beam, band=use.band, design_frequency=use.design_frequency, elements=elements)


def _freedom(beam: Beam, boom_limit: float, closest: float) -> Freedom:
    shortest, longest = [], []
    for element in beam.elements:
        fixed = sum(section.length for section in element.half[:-1])
        low = (1.0 - _MOVE) * element.half_length
        shortest.append(max(low, fixed + 0.02 * element.half_length) if fixed else low)
        longest.append((1.0 + _MOVE) * element.half_length)
    return Freedom(
        shortest=tuple(shortest), longest=tuple(longest), boom_limit=boom_limit, closest=closest
    )


def _problem(
    beam: Beam,
    use: BandUse,
    freedom: Freedom,
    targets: Targets,
    closest: float,
) -> Problem:
    """Set up one band; the space is put in later, as all bands share it."""
    frequencies, design = search_frequencies(beam=beam)
    families = tuple(
        _family(beam, number, freedom, frequencies) for number in range(len(beam.elements))
    )
    # Points are chosen for half lengths of a quarter wavelength; longer ones need closer points.
    relative = closest / (4.0 * max(freedom.longest))
    spacing = min(closest / beam.wavelength, relative)
    tables = band_tables(families=families, driven=use.driven, closest_wl=spacing)
    start = min(element.position for element in beam.elements)
    return Problem(
        tables=tables,
        space=design_space(freedom=freedom, driven=use.driven, wavelength=beam.wavelength),
        idle=idle_array(
            beam=beam,
            tables=tables,
            frequencies=frequencies,
            base=start,
            detail=working_detail(frequency=float(frequencies.max())),
        ),
        targets=use.targets(targets),
        design_number=design,
        shifts=np.zeros((1, 2 * len(beam.elements))),
    )


def _family(beam: Beam, number: int, freedom: Freedom, frequencies: Floats) -> ElementFamily:
    element = beam.elements[number]
    half = element_half(element=element)
    return element_family(
        inner=half.sections[:-1],
        tip_radius=half.sections[-1][1],
        half_lengths=(0.998 * freedom.shortest[number], 1.002 * freedom.longest[number]),
        gap=gap_width(beam),
        frequencies=frequencies,
        detail=working_detail(frequency=float(frequencies.max())),
        conductivity=half.metal(beam.material.conductivity),
        inductance=half.inductance,
        loads=trap_places(beam=beam, number=number),
    )

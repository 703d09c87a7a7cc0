"""One boom for several bands: the array that serves the worst of them best, written back."""

from __future__ import annotations

from concurrent.futures import Executor
from dataclasses import dataclass, replace
from functools import partial

from boomwright.base import Notice
from boomwright.design import BandUse, ManyBands, search_bands
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan
from boomwright.plan.resolve import band_uses, boom_order, design_targets, wished_beam
from boomwright.study.as_measured import measure_beam
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.found_beam import put_found_beam
from boomwright.study.improve import OnSearch
from boomwright.study.requests import RequestError
from boomwright.study.search_match import missed_notices
from boomwright.study.search_wishes import usual_notices, written_grid

#: neighbours are kept this far apart unless the plan says otherwise [wavelengths]
_USUAL_CLOSEST_WL = 0.03
#: starts in each round when nothing else is asked
USUAL_BAND_STARTS = 8
#: what the search over several bands does not hold to, as keys of [wish]
_NOT_HELD = {
    "elements": "elements",
    "element_length": "element",
    "even_spacing": "even_spacing",
    "equal_directors": "equal_directors",
    "wind_area": "wind_area",
    "mass": "mass",
    "cost": "cost",
    "stock": "stock",
    "cutting_error": "cutting_error",
    "frozen": "frozen",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BandsResult:
    """The best array found for the bands of a plan's wish."""

    plan: Plan  #: the plan the search began with
    before: Beam
    uses: tuple[BandUse, ...]  #: the bands, the beam's own first (n_bands,)
    found: ManyBands  #: what the search found
    text: str  #: the plan's text with that array in it
    after: Beam
    #: what the owner will measure of both in the beam's own band, whose feed the plan describes
    measured_before: AsMeasured | NotMeasured
    measured_after: AsMeasured | NotMeasured
    seed: int  #: seed of the chance, and starts in each round
    starts: int
    notices: tuple[Notice, ...]  #: what is doubtful
    seconds: float = 0.0  #: time it took, by the clock of whoever asked [s]


def improve_bands(
    plan: Plan,
    *,
    text: str,
    seed: int = 0,
    starts: int = USUAL_BAND_STARTS,
    executor: Executor | None = None,
    on_progress: OnSearch | None = None,
) -> BandsResult:
    """Search the array that serves the worst of all bands of ``[wish]`` best.

    Args:
        plan: the plan, with ``bands`` in its wish
        executor: takes the climbs; None to climb in this process
        on_progress: told how far it is; False stops it and keeps the best so far

    Raises:
        RequestError: when the wish asks for what this search does not hold to
        WishError: when the wishes contradict themselves, or it was stopped before its first design
        PlanError: when a band is fed at an element that the beam does not have
    """
    before, wish = wished_beam(plan), plan.wish
    if wish is None or not wish.bands:
        message = "the plan wishes for one band only -> write bands = [...] into [wish]"
        raise RequestError(message)
    asked = [key for name, key in _NOT_HELD.items() if getattr(wish, name)]
    if asked:
        message = (
            f"a search over several bands does not hold to {', '.join(asked)} of [wish] -> take "
            "it out, or take bands out and improve each band by itself"
        )
        raise RequestError(message)
    uses, targets = band_uses(plan), design_targets(plan)
    listen = None if on_progress is None else partial(on_progress, f"{len(uses)} bands")
    found = search_bands(
        beam=before,
        uses=uses,
        targets=targets,
        boom_limit=wish.boom_length or before.boom_length,
        closest=wish.closest or _USUAL_CLOSEST_WL * before.wavelength,
        places=written_grid(text, plan, before),
        seed=seed,
        starts=starts,
        executor=executor,
        on_progress=listen,
    )
    new_beam = _as_planned(before, found.beams[0])
    new_text = put_found_beam(text, plan, before=before, after=new_beam)
    improved = read_plan(new_text)
    after = improved.beams[plan.beams.index(before)]
    measured = measure_beam(improved, after)
    missed: tuple[Notice, ...] = ()
    if targets.match != "matched" and isinstance(measured, AsMeasured):
        missed = missed_notices(targets, found.after[0], measured)
    return BandsResult(
        plan=plan,
        before=before,
        uses=uses,
        found=found,
        text=new_text,
        after=after,
        measured_before=measure_beam(plan, before),
        measured_after=measured,
        seed=seed,
        starts=starts,
        notices=(*usual_notices(plan), *found.notices, *missed),
    )


def _as_planned(before: Beam, along: Beam) -> Beam:
    """Bring an array counted along the boom back to the plan's order, roles and start."""
    start = min(element.position for element in before.elements)
    first = along.elements[0].position
    elements = list(before.elements)
    for number, new in zip(boom_order(before), along.elements, strict=True):
        elements[number] = replace(
            elements[number], position=start + new.position - first, half=new.half
        )
    return replace(before, elements=tuple(elements))

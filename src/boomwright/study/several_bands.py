"""One boom for several bands: the array that serves the worst of them best, written back."""

from __future__ import annotations

from concurrent.futures import Executor
from functools import partial

from boomwright.base import Notice
from boomwright.base.records import dataclass, replace
from boomwright.design import BandFigures, BandUse, ManyBands, search_bands
from boomwright.design.shop_grid import shop_grid
from boomwright.design.targets import Targets
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan, rewrite
from boomwright.plan.resolve import band_uses, boom_order, design_targets, served_beams, wished_beam
from boomwright.study.adopting import dimensions, kept_keys, with_driven, written_match
from boomwright.study.as_measured import field_setting, measure_beam, proposed_match
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.found_beam import put_found_beam
from boomwright.study.improve import OnSearch
from boomwright.study.requests import RequestError
from boomwright.study.search_match import (
    SUPERSEDED,
    at_the_match,
    match_in_place,
    missed_notices,
    on_places,
    unmatched_notice,
)
from boomwright.study.search_wishes import usual_notices, written_grid

#: neighbours are kept this far apart unless the plan says otherwise [wavelengths]
_USUAL_CLOSEST_WL = 0.03
#: starts in each round when nothing else is asked
USUAL_BAND_STARTS = 8
#: matches of all bands are solved so often, as the tips of one band move the others
_ROUNDS = 2
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
    #: figures in each band before and after in free space, the standing wave ratio as measured at
    #: the match where there is one (n_bands, 2)
    figures: tuple[tuple[BandFigures, BandFigures], ...]
    text: str  #: the plan's text with that array in it
    after: Beam
    #: what the owner will measure in each band before and after, fed there as the plan says
    #: (n_bands, 2)
    measured: tuple[tuple[AsMeasured | NotMeasured, AsMeasured | NotMeasured], ...]
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
        executor: takes the climbs; None to climb in this process

    Raises:
        RequestError: when the wish asks for what this search does not hold to
        WishError: when the wishes contradict themselves, or it was stopped before its first design
        PlanError: when a band is fed at an element that the beam does not have
    """
    before, wish = wished_beam(plan), plan.wish
    if wish is None or not wish.bands:
        raise RequestError(
            "the plan wishes for one band only", remedy="write bands = [...] into [wish]"
        )
    asked = [key for name, key in _NOT_HELD.items() if getattr(wish, name)]
    if asked:
        raise RequestError(
            f"a search over several bands does not hold to {', '.join(asked)} of [wish]",
            remedy="take it out, or take bands out and improve each band by itself",
        )
    served, targets = served_beams(plan), design_targets(plan)
    uses = tuple(
        replace(use, fed=match_in_place(plan, beam))
        for use, beam in zip(band_uses(plan), served, strict=True)
    )
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
    new = _as_planned(before, found.beams[0])
    along = replace(new, elements=tuple(new.elements[number] for number in boom_order(new)))
    new_text = put_found_beam(text, plan, before=before, after=along)
    new_text = _with_matches(new_text, plan.beams.index(before), uses)
    improved = read_plan(new_text)
    measured = tuple(
        (measure_beam(plan, old), measure_beam(improved, new))
        for old, new in zip(served, served_beams(improved), strict=True)
    )
    rows = [*zip(uses, found.before, found.after, measured, strict=True)]
    figures = tuple(
        (was, now) if use.fed is None else (at_the_match(was, seen[0]), at_the_match(now, seen[1]))
        for use, was, now, seen in rows
    )
    return BandsResult(
        plan=plan,
        before=before,
        uses=uses,
        found=found,
        figures=figures,
        text=new_text,
        after=improved.beams[plan.beams.index(before)],
        measured=measured,
        seed=seed,
        starts=starts,
        notices=(*usual_notices(plan), *_notices(found, uses, figures, measured, targets)),
    )


def _notices(
    found: ManyBands,
    uses: tuple[BandUse, ...],
    figures: tuple[tuple[BandFigures, BandFigures], ...],
    measured: tuple[tuple[AsMeasured | NotMeasured, AsMeasured | NotMeasured], ...],
    targets: Targets,
) -> tuple[Notice, ...]:
    """What the search says, and of bands with a match in place what will be measured."""
    matched = [
        (now, seen)
        for use, (_, now), (_, seen) in zip(uses, figures, measured, strict=True)
        if use.fed is not None
    ]
    told = [each for each in found.notices if not matched or each.code not in SUPERSEDED]
    for now, seen in matched:
        if isinstance(seen, NotMeasured):
            told.append(unmatched_notice(seen))
        else:
            told += missed_notices(targets, now, seen, several=True)
    return tuple(told)


def _with_matches(text: str, number: int, uses: tuple[BandUse, ...]) -> str:
    """Solve the match of every band in the field and write it, one band after the other.

    Tips that one band's match moves are parasitic in the others, so all are solved again.
    """
    for _ in range(_ROUNDS):
        for band, use in enumerate(uses):
            plan = read_plan(text)
            beam = served_beams(plan)[band]
            if use.fed is None or beam.feed.kind == "split":
                continue
            match, _why = proposed_match(plan, beam, field_setting(plan))
            if match is None:
                continue
            shortest = min(each.wavelength for each in served_beams(plan))
            grid = written_grid(text, plan, plan.beams[number])
            places = grid or shop_grid(wavelength=shortest)
            match = on_places(match, places=places)
            if band == 0:
                text = written_match(text, plan, number=number, match=match)
                continue
            place = f"wish.bands[{band - 1}].feed"
            kept, found = kept_keys(beam.feed), dimensions(match)
            text = rewrite(text, {place: kept})
            text = rewrite(text, {f"{place}.{key}": value for key, value in found.items()})
            text = with_driven(text, number, beam, match)
    return text


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

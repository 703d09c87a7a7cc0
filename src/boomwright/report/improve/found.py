"""What is known of a beam from searches, whether just made or kept from an earlier run."""

from __future__ import annotations

import math

from boomwright.base import quantity_text
from boomwright.base.records import dataclass
from boomwright.charts.beam.spacing_comparison import SpacingCurves
from boomwright.design import BandFigures, ComparedSpacing, Tolerance, Wish
from boomwright.parts import Beam
from boomwright.study.improve import ImproveResult

#: keys of the figures that are worst in the band, in their order
WORST = ("gain_dbi", "front_to_back_db", "front_to_rear_db", "swr")
#: least gain, front-to-back and front-to-rear ratio, largest SWR in the band [dBi, dB, dB, -] (4,)
Worst = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundElement:
    """An element of a beam that was searched."""

    role: str
    at: float  #: place along the boom [m]
    length: float  #: from tip to tip [m]
    tip: float | None  #: length of its outermost tube; None when it has one only [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundBeam:
    """A beam before or after a search."""

    elements: tuple[FoundElement, ...]  #: in the order of the plan (n_elements,)
    boom: float  #: from first to last element [m]
    worst: Worst


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundCount:
    """The best beam with a number of elements."""

    elements: int
    boom: float  #: from first to last element [m]
    worst: Worst
    kept: bool  #: whether all limits are kept
    starts: int  #: starts climbed, and how many ended within 0.02 dB of the best
    agreeing: int


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSearch:
    """What a search found."""

    seed: int
    finished: bool
    wish: tuple[str, ...]  #: what was wanted, in phrases
    before: FoundBeam
    after: FoundBeam
    counts: tuple[FoundCount, ...]  #: each number of elements searched (n_counts,)
    chosen: int  #: which of them is the beam after the search


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """All that is known of a beam."""

    search: FoundSearch | None = None
    compared: tuple[SpacingCurves, ...] = ()  #: even and free spacing; empty when not compared
    tolerance: Tolerance | None = None  #: how far it may be off


def found_by(result: ImproveResult) -> Found:
    """Gather what a search found just now."""
    search = FoundSearch(
        seed=result.seed,
        finished=result.finished,
        wish=wish_words(result.wish),
        before=_beam(result.before, result.figures_before),
        after=_beam(result.after, result.figures_after),
        counts=tuple(
            FoundCount(
                elements=len(one.beam.elements),
                boom=one.beam.boom_length,
                worst=one.after.worst,
                kept=one.kept,
                starts=one.starts,
                agreeing=one.agreeing,
            )
            for one in result.found
        ),
        chosen=result.chosen,
    )
    curves = tuple(spacing_curves(one) for one in result.compared)
    return Found(search=search, compared=curves, tolerance=result.tolerance)


def _beam(beam: Beam, figures: BandFigures) -> FoundBeam:
    elements = tuple(
        FoundElement(
            role=each.role,
            at=each.position,
            length=each.length,
            tip=each.half[-1].length if len(each.half) > 1 else None,
        )
        for each in beam.elements
    )
    return FoundBeam(elements=elements, boom=beam.boom_length, worst=figures.worst)


def spacing_curves(one: ComparedSpacing) -> SpacingCurves:
    """Take what the pictures show of one way to space the elements."""
    return SpacingCurves(
        spacing=one.spacing,
        places=tuple(each.position for each in one.improvement.beam.elements),
        worst=one.sweep.worst,
        kept=one.improvement.kept,
        frequencies=one.sweep.frequencies,
        gain_dbi=one.sweep.gain_dbi,
        swr=one.sweep.swr,
        azimuth=one.azimuth,
    )


def wish_words(wish: Wish) -> tuple[str, ...]:
    """Say in phrases what a search was to reach and to keep."""
    targets = wish.targets
    weights = (
        ("gain", targets.gain_weight),
        ("front-to-rear ratio", targets.rear_weight),
        ("match", targets.match_weight),
    )
    told = [f"a decibel {', '.join(f'of {n} counts {w:g}' for n, w in weights if w > 0.0)}"]
    after = " after a match" if targets.match == "matched" else ""
    if targets.fed is not None and targets.fed.kind != "split":
        after = f" behind the match ({targets.fed.kind})"
    low, high = targets.resistance
    mass, area = wish.most_mass or 0.0, wish.most_wind_area or 0.0
    cost, error = wish.most_cost or 0.0, wish.length_error

    def both(value: float, unit: str) -> str:
        metric, us = (
            quantity_text(value, unit=unit, form=".3g", system=system)
            for system in ("metric", "us")
        )
        return f"{metric} ({us})"

    limits = (
        (targets.least_gain_dbi > -math.inf, f"gain {targets.least_gain_dbi:g} dBi or more"),
        (
            targets.least_front_to_rear_db > -math.inf,
            f"front to rear {targets.least_front_to_rear_db:g} dB or more",
        ),
        (targets.most_swr < math.inf, f"SWR {targets.most_swr:g} or less{after}"),
        (low > 0.0, f"{low:g} ohm or more at the feed"),
        (high < math.inf, f"{high:g} ohm or less at the feed"),
        (wish.most_mass is not None, f"elements of {both(mass, 'kg')} or less"),
        (wish.most_wind_area is not None, f"{both(area, 'm2')} or less broadside"),
        (wish.most_cost is not None, f"tubes for {cost:.2f} or less"),
        (bool(wish.stock), "cut from the tubes on hand"),
        (wish.length_error > 0.0, f"halves off by {both(1e3 * error, 'mm')}"),
    )
    return (*told, *(words for holds, words in limits if holds))

"""Why uneven spacing wins: the same boom with even and with free spacing, side by side."""

from __future__ import annotations

from concurrent.futures import Executor
from typing import Literal

import numpy as np

from boomwright.base.records import dataclass, replace
from boomwright.design.figures_of import BandFigures, band_figures
from boomwright.design.improve import Improvement, improve_beam
from boomwright.design.search import OnProgress
from boomwright.design.wish import Wish
from boomwright.parts import Beam
from boomwright.solver import (
    PatternCut,
    Preparer,
    gain_dbi,
    remembering,
    solve_beam,
    working_detail,
)

Spacing = Literal["even, close", "even, wide", "even, best", "free"]

#: what the trade calls close spacing, in wavelengths {common-practice-first-guess}
_CLOSE_WL = 0.1
#: frequencies of the sweep over the band
_POINTS = 21


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ComparedSpacing:
    """One way to space the elements, at its best."""

    spacing: Spacing  #: how they are spaced
    improvement: Improvement  #: the best beam so spaced
    sweep: BandFigures  #: its figures over the band
    azimuth: PatternCut  #: its free-space cuts at the design frequency, for overlaid figures
    elevation: PatternCut


def compare_spacings(
    *,
    beam: Beam,
    wish: Wish,
    seed: int = 0,
    starts: int = 12,
    executor: Executor | None = None,
    on_progress: OnProgress | None = None,
) -> tuple[ComparedSpacing, ...]:
    """Compare even with free spacing for one wish on one boom.

    Close spacing is a tenth of a wavelength, or what the boom leaves; wide spacing fills the
    boom; the best even spacing may use less than the whole boom.

    Args:
        wish: what is wanted; its own wishes for the spacing are set aside
        on_progress: told how far the present search is; False stops the comparison where it is
    """
    count = len(beam.elements) if wish.elements is None else wish.elements[1]
    boom = beam.boom_length if wish.boom_limit is None else wish.boom_limit
    wide = boom / (count - 1)
    close = min(wide, max(_CLOSE_WL * beam.wavelength, wish.closest_in(wavelength=beam.wavelength)))
    plain = replace(wish, even=False, spacing=None, keep_positions=(), elements=(count, count))
    wishes: tuple[tuple[Spacing, Wish], ...] = (
        ("even, close", replace(plain, spacing=close)),
        ("even, wide", replace(plain, spacing=wide)),
        ("even, best", replace(plain, even=True)),
        ("free", plain),
    )
    keep = remembering()
    found = []
    for spacing, one in wishes:
        improvement = improve_beam(
            beam=beam,
            wish=one,
            seed=seed,
            starts=starts,
            executor=executor,
            on_progress=on_progress,
            prepare=keep,
        )
        found.append(_compared(spacing, improvement, one, keep))
        if not improvement.state.finished:
            break
    return tuple(found)


def _compared(
    spacing: Spacing, improvement: Improvement, wish: Wish, prepare: Preparer
) -> ComparedSpacing:
    beam = improvement.beam
    frequencies = np.linspace(*beam.band, _POINTS if beam.band[0] < beam.band[1] else 1)
    cuts = _cuts(beam, prepare)
    return ComparedSpacing(
        spacing=spacing,
        improvement=improvement,
        sweep=band_figures(
            beam=beam, targets=wish.targets, frequencies=frequencies, prepare=prepare
        ),
        azimuth=cuts[0],
        elevation=cuts[1],
    )


def _cuts(beam: Beam, prepare: Preparer) -> tuple[PatternCut, PatternCut]:
    frequency = np.array([beam.design_frequency])
    solution = solve_beam(
        beam=beam,
        frequencies=frequency,
        detail=working_detail(frequency=float(max(beam.band))),
        prepare=prepare,
    )
    degrees = np.arange(0.0, 361.0)
    angle, level = np.radians(degrees), np.zeros(len(degrees))
    flat = gain_dbi(solution=solution, azimuth=angle, elevation=level)[0]
    steep = gain_dbi(solution=solution, azimuth=level, elevation=angle)[0]
    return (
        PatternCut(plane="azimuth", at_deg=0.0, angle_deg=degrees, gain_dbi=flat),
        PatternCut(plane="elevation", at_deg=0.0, angle_deg=degrees, gain_dbi=steep),
    )

"""Design: the best beam that can be built, and why it is the best.

``improve_beam`` takes a beam and a :class:`Wish` and gives back the best beam found, checked by the
full solver. ``compare_spacings`` shows even against free spacing side by side. ``frontier_at``
reads at once what so many elements on such a boom can reach, from a table computed beforehand.
``tolerance_of`` says how far the finished beam may be off and how finely to cut. ``search_bands``
works on several bands at once.

Underneath, ``array_slopes`` solves batches of parallel arrays over a band with exact slopes,
``minimax`` climbs from one start, ``search`` from many on any executor, with progress, cancel and
resume. How it works and what it was held against stands in ``docs/design_search.md``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.design.compare import ComparedSpacing as ComparedSpacing
    from boomwright.design.compare import compare_spacings as compare_spacings
    from boomwright.design.figures_of import BandFigures as BandFigures
    from boomwright.design.figures_of import band_figures as band_figures
    from boomwright.design.frontier import FrontierPoint as FrontierPoint
    from boomwright.design.frontier import FrontierTable as FrontierTable
    from boomwright.design.frontier import frontier_at as frontier_at
    from boomwright.design.frontier import frontier_table as frontier_table
    from boomwright.design.improve import Improvement as Improvement
    from boomwright.design.improve import improve_beam as improve_beam
    from boomwright.design.limits import TubePrice as TubePrice
    from boomwright.design.many_bands import BandUse as BandUse
    from boomwright.design.many_bands import ManyBands as ManyBands
    from boomwright.design.many_bands import search_bands as search_bands
    from boomwright.design.search import Progress as Progress
    from boomwright.design.search_state import SearchState as SearchState
    from boomwright.design.search_state import state_from as state_from
    from boomwright.design.space import WishError as WishError
    from boomwright.design.stock import TubeStock as TubeStock
    from boomwright.design.targets import Targets as Targets
    from boomwright.design.tolerance import Allowance as Allowance
    from boomwright.design.tolerance import BuildErrors as BuildErrors
    from boomwright.design.tolerance import Spread as Spread
    from boomwright.design.tolerance import Tolerance as Tolerance
    from boomwright.design.tolerance import tolerance_of as tolerance_of
    from boomwright.design.wish import Tips as Tips
    from boomwright.design.wish import Wish as Wish

__getattr__ = on_demand(
    __name__,
    {
        "compare": "ComparedSpacing compare_spacings",
        "figures_of": "BandFigures band_figures",
        "frontier": "FrontierPoint FrontierTable frontier_at frontier_table",
        "improve": "Improvement improve_beam",
        "limits": "TubePrice",
        "many_bands": "BandUse ManyBands search_bands",
        "search": "Progress",
        "search_state": "SearchState state_from",
        "space": "WishError",
        "stock": "TubeStock",
        "targets": "Targets",
        "tolerance": "Allowance BuildErrors Spread Tolerance tolerance_of",
        "wish": "Tips Wish",
    },
)

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
    from boomwright.design.compare import ComparedSpacing, compare_spacings
    from boomwright.design.figures_of import BandFigures, band_figures
    from boomwright.design.frontier import FrontierPoint, FrontierTable, frontier_at, frontier_table
    from boomwright.design.improve import Improvement, improve_beam
    from boomwright.design.limits import TubePrice
    from boomwright.design.many_bands import BandUse, ManyBands, search_bands
    from boomwright.design.search import Progress
    from boomwright.design.search_state import SearchState, state_from
    from boomwright.design.space import WishError
    from boomwright.design.stock import TubeStock
    from boomwright.design.targets import Targets
    from boomwright.design.tolerance import Allowance, BuildErrors, Spread, Tolerance, tolerance_of
    from boomwright.design.wish import Tips, Wish

__getattr__ = on_demand(__name__)

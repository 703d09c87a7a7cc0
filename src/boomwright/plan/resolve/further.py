"""The further bands of a plan's wish, where one antenna serves several."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.plan.resolve.places import beam_named

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.plan.model import Plan


def in_further_bands(plan: Plan, beam: Beam) -> tuple[Beam, ...]:
    """A beam as the further bands of the wish use and feed it, if it serves any (n_bands,)."""
    if plan.wish is None or not plan.wish.bands:
        return ()
    if beam_named(plan, plan.wish.beam) is not beam:
        return ()
    # Only further bands ask what the search knows of them.
    from boomwright.plan.resolve.design import served_beams

    return served_beams(plan)[1:]

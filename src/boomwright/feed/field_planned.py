"""A feed as the plan draws it: its own dimensions as wires, nothing turned."""

from __future__ import annotations

import math
from functools import partial

from boomwright.base import BoomwrightError
from boomwright.feed.field_folded import folded_proximity
from boomwright.feed.field_hairpin import round_rods
from boomwright.feed.field_match import FieldMatch, Finish, finish_match
from boomwright.feed.field_model import FieldSetting
from boomwright.feed.field_rod_start import RodJob, rod_proximity
from boomwright.feed.field_rods import CAPACITOR_RANGE
from boomwright.feed.field_shapes import (
    FeedShape,
    FoldedShape,
    GammaShape,
    HairpinShape,
    SplitShape,
    TeeShape,
)
from boomwright.feed.rod_matches import HALF_WAVE_BALUN_RATIO
from boomwright.feed.stages import SeriesCapacitor, Stage, Transformer
from boomwright.parts import Beam

#: names of the feeds that stand in the wires themselves, in words
_KINDS = {
    SplitShape: "split element",
    GammaShape: "gamma",
    TeeShape: "tee with half-wave balun",
    FoldedShape: "folded element",
    HairpinShape: "hairpin",
}


def solve_planned(
    *,
    beam: Beam,
    shape: FeedShape,
    behind: tuple[Stage, ...] = (),
    kind: str = "",
    reference: float = 50.0,
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Solve a feed with given dimensions, over the band.

    Args:
        behind: lumped pieces between the wires and the line, the rods' own capacitors and the
            half-wave
            balun of a tee left out, from the antenna outwards
        kind: its name in words; empty takes the shape's

    Returns:
        the feed as it is; no circuit values stand beside it
    """
    setting = setting or FieldSetting()
    _refuse_long_rod(beam, shape)
    stages = (*own_stages(shape), *behind)
    wires = shape.wires(beam=beam, setting=setting)
    return finish_match(
        found=Finish(
            kind=kind or _KINDS[type(shape)],
            beam=beam,
            shape=shape,
            wires=wires,
            stages=lambda _: stages,
            comparisons=(),
            swr_of_start=math.nan,
            proximity=partial(_proximity, beam, shape, reference, setting),
            evaluations=2,
            notices=(),
        ),
        reference=reference,
        setting=setting,
    )


def _refuse_long_rod(beam: Beam, shape: FeedShape) -> None:
    half = beam.elements[beam.driven_index].half_length
    if isinstance(shape, GammaShape | TeeShape) and not shape.rod_length < 0.99 * half:
        raise BoomwrightError(
            f"rod: {shape.rod_length:.3f} m from the element's middle to the strap, but the "
            f"element ends at {half:.3f} m; shorten the rod"
        )


def own_stages(shape: FeedShape) -> tuple[Stage, ...]:
    """Pieces that belong to the rods themselves and are no wires."""
    if isinstance(shape, GammaShape):
        return (SeriesCapacitor(capacitance=shape.capacitance),)
    if isinstance(shape, TeeShape):
        return (
            SeriesCapacitor(capacitance=shape.capacitance / 2.0),
            Transformer(ratio=1.0 / HALF_WAVE_BALUN_RATIO, label="half-wave balun"),
        )
    return ()


def _proximity(beam: Beam, shape: FeedShape, reference: float, setting: FieldSetting) -> complex:
    """What round conductors change over thin wires, by the circuit equations."""
    if isinstance(shape, GammaShape | TeeShape):
        job = RodJob(
            beam=beam,
            shape=shape,
            reference=reference,
            capacitors=CAPACITOR_RANGE,
            setting=setting,
        )
        return rod_proximity(job=job, beam=beam, rod_length=shape.rod_length)
    if isinstance(shape, HairpinShape):
        return round_rods(beam=beam, shape=shape, setting=setting)
    if isinstance(shape, FoldedShape):
        return folded_proximity(beam=beam, shape=shape, setting=setting)
    return 0j

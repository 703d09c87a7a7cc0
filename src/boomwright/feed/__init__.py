"""Feed: from the antenna's feed point to the radio.

A :class:`FeedLoad` holds the feed-point impedance over the band. The ``design_...`` functions
turn it into a :class:`Match`: pieces in a row from the antenna outwards, each a component or a
length of line with its value; :meth:`Match.transform` says what the line sees. :func:`read_line`
solves a coaxial line with its loss, :func:`rate_match` and :func:`rate_line` say what the owner's
power does to the parts, and :data:`FEED_CAUTIONS` what it can do to people.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.feed.braid import Braid, BraidReading, BraidSolution
    from boomwright.feed.braid_solution import smallest_choke, solve_braid
    from boomwright.feed.cautions import FEED_CAUTIONS
    from boomwright.feed.choke import ChokeRequirement, choke_requirement
    from boomwright.feed.coax import CoaxType, LineReading, fit_attenuation, read_line
    from boomwright.feed.coax_types import COAX_TYPES
    from boomwright.feed.field_adjustment import (
        GammaAdjustment,
        adjust_by_impedance,
        adjust_by_swr,
        gamma_adjustment,
    )
    from boomwright.feed.field_folded import solve_folded
    from boomwright.feed.field_hairpin import solve_hairpin
    from boomwright.feed.field_match import (
        HAIRPIN_LENGTH,
        HALF_LENGTH,
        Comparison,
        FieldMatch,
    )
    from boomwright.feed.field_model import FieldSetting
    from boomwright.feed.field_planned import own_stages, solve_planned
    from boomwright.feed.field_rods import solve_gamma, solve_tee
    from boomwright.feed.field_shapes import (
        FeedShape,
        FoldedShape,
        GammaShape,
        HairpinShape,
        SplitShape,
        TeeShape,
    )
    from boomwright.feed.field_split import solve_behind_split, split_load
    from boomwright.feed.hairpin_circuit import HAIRPIN_SHARE, hairpin_stages
    from boomwright.feed.line_matches import (
        design_quarter_wave,
        design_single_stub,
        phasing_line_length,
    )
    from boomwright.feed.lumped_matches import (
        design_hairpin,
        design_l_sections,
        design_split_with_balun,
        parallel_line_impedance,
    )
    from boomwright.feed.matched import MatchedSweep, matched_sweep
    from boomwright.feed.matches import Bandwidth, FeedLoad, Match, swr_over_band, through_stages
    from boomwright.feed.ratings import DUTY_FACTORS, LineRating, StageRating, rate_line, rate_match
    from boomwright.feed.reflection import reflection_coefficient, standing_wave_ratio
    from boomwright.feed.rod_matches import (
        RodGeometry,
        RodMatch,
        design_folded_element,
        design_gamma,
        design_tee,
    )
    from boomwright.feed.stack_lines import StackLines, design_stack_lines
    from boomwright.feed.stages import (
        ElementTrim,
        LineSection,
        SeriesCapacitor,
        SeriesInductor,
        ShuntCapacitor,
        ShuntInductor,
        ShuntStub,
        Stage,
        Transformer,
    )
    from boomwright.feed.touchstone import OnePort
    from boomwright.feed.travel import Leg, impedance_travel

__getattr__ = on_demand(__name__)

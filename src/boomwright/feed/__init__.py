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
    from boomwright.feed.braid import Braid as Braid
    from boomwright.feed.braid import BraidReading as BraidReading
    from boomwright.feed.braid import BraidSolution as BraidSolution
    from boomwright.feed.braid_solution import smallest_choke as smallest_choke
    from boomwright.feed.braid_solution import solve_braid as solve_braid
    from boomwright.feed.cautions import FEED_CAUTIONS as FEED_CAUTIONS
    from boomwright.feed.choke import ChokeRequirement as ChokeRequirement
    from boomwright.feed.choke import choke_requirement as choke_requirement
    from boomwright.feed.coax import CoaxType as CoaxType
    from boomwright.feed.coax import LineReading as LineReading
    from boomwright.feed.coax import fit_attenuation as fit_attenuation
    from boomwright.feed.coax import read_line as read_line
    from boomwright.feed.coax_types import COAX_TYPES as COAX_TYPES
    from boomwright.feed.field_adjustment import GammaAdjustment as GammaAdjustment
    from boomwright.feed.field_adjustment import adjust_by_impedance as adjust_by_impedance
    from boomwright.feed.field_adjustment import adjust_by_swr as adjust_by_swr
    from boomwright.feed.field_adjustment import gamma_adjustment as gamma_adjustment
    from boomwright.feed.field_folded import solve_folded as solve_folded
    from boomwright.feed.field_hairpin import solve_hairpin as solve_hairpin
    from boomwright.feed.field_match import Comparison as Comparison
    from boomwright.feed.field_match import FieldMatch as FieldMatch
    from boomwright.feed.field_model import FieldSetting as FieldSetting
    from boomwright.feed.field_planned import own_stages as own_stages
    from boomwright.feed.field_planned import solve_planned as solve_planned
    from boomwright.feed.field_rods import solve_gamma as solve_gamma
    from boomwright.feed.field_rods import solve_tee as solve_tee
    from boomwright.feed.field_shapes import FeedShape as FeedShape
    from boomwright.feed.field_shapes import FoldedShape as FoldedShape
    from boomwright.feed.field_shapes import GammaShape as GammaShape
    from boomwright.feed.field_shapes import HairpinShape as HairpinShape
    from boomwright.feed.field_shapes import SplitShape as SplitShape
    from boomwright.feed.field_shapes import TeeShape as TeeShape
    from boomwright.feed.field_split import solve_behind_split as solve_behind_split
    from boomwright.feed.field_split import split_load as split_load
    from boomwright.feed.hairpin_circuit import HAIRPIN_SHARE as HAIRPIN_SHARE
    from boomwright.feed.hairpin_circuit import hairpin_stages as hairpin_stages
    from boomwright.feed.line_matches import design_quarter_wave as design_quarter_wave
    from boomwright.feed.line_matches import design_single_stub as design_single_stub
    from boomwright.feed.line_matches import phasing_line_length as phasing_line_length
    from boomwright.feed.lumped_matches import design_hairpin as design_hairpin
    from boomwright.feed.lumped_matches import design_l_sections as design_l_sections
    from boomwright.feed.lumped_matches import design_split_with_balun as design_split_with_balun
    from boomwright.feed.lumped_matches import parallel_line_impedance as parallel_line_impedance
    from boomwright.feed.matched import MatchedSweep as MatchedSweep
    from boomwright.feed.matched import matched_sweep as matched_sweep
    from boomwright.feed.matches import Bandwidth as Bandwidth
    from boomwright.feed.matches import FeedLoad as FeedLoad
    from boomwright.feed.matches import Match as Match
    from boomwright.feed.matches import swr_over_band as swr_over_band
    from boomwright.feed.matches import through_stages as through_stages
    from boomwright.feed.ratings import DUTY_FACTORS as DUTY_FACTORS
    from boomwright.feed.ratings import LineRating as LineRating
    from boomwright.feed.ratings import StageRating as StageRating
    from boomwright.feed.ratings import rate_line as rate_line
    from boomwright.feed.ratings import rate_match as rate_match
    from boomwright.feed.reflection import reflection_coefficient as reflection_coefficient
    from boomwright.feed.reflection import standing_wave_ratio as standing_wave_ratio
    from boomwright.feed.rod_matches import RodGeometry as RodGeometry
    from boomwright.feed.rod_matches import RodMatch as RodMatch
    from boomwright.feed.rod_matches import design_folded_element as design_folded_element
    from boomwright.feed.rod_matches import design_gamma as design_gamma
    from boomwright.feed.rod_matches import design_tee as design_tee
    from boomwright.feed.stack_lines import StackLines as StackLines
    from boomwright.feed.stack_lines import design_stack_lines as design_stack_lines
    from boomwright.feed.stages import ElementTrim as ElementTrim
    from boomwright.feed.stages import LineSection as LineSection
    from boomwright.feed.stages import SeriesCapacitor as SeriesCapacitor
    from boomwright.feed.stages import SeriesInductor as SeriesInductor
    from boomwright.feed.stages import ShuntCapacitor as ShuntCapacitor
    from boomwright.feed.stages import ShuntInductor as ShuntInductor
    from boomwright.feed.stages import ShuntStub as ShuntStub
    from boomwright.feed.stages import Stage as Stage
    from boomwright.feed.stages import Transformer as Transformer
    from boomwright.feed.touchstone import OnePort as OnePort
    from boomwright.feed.travel import Leg as Leg
    from boomwright.feed.travel import impedance_travel as impedance_travel

__getattr__ = on_demand(
    __name__,
    {
        "braid": "Braid BraidReading BraidSolution",
        "braid_solution": "smallest_choke solve_braid",
        "cautions": "FEED_CAUTIONS",
        "choke": "ChokeRequirement choke_requirement",
        "coax": "CoaxType LineReading fit_attenuation read_line",
        "coax_types": "COAX_TYPES",
        "field_adjustment": "GammaAdjustment adjust_by_impedance adjust_by_swr gamma_adjustment",
        "field_folded": "solve_folded",
        "field_hairpin": "solve_hairpin",
        "field_match": "Comparison FieldMatch",
        "field_model": "FieldSetting",
        "field_planned": "own_stages solve_planned",
        "field_rods": "solve_gamma solve_tee",
        "field_shapes": "FeedShape FoldedShape GammaShape HairpinShape SplitShape TeeShape",
        "field_split": "solve_behind_split split_load",
        "hairpin_circuit": "HAIRPIN_SHARE hairpin_stages",
        "line_matches": "design_quarter_wave design_single_stub phasing_line_length",
        "lumped_matches": "design_hairpin design_l_sections design_split_with_balun "
        "parallel_line_impedance",
        "matched": "MatchedSweep matched_sweep",
        "matches": "Bandwidth FeedLoad Match swr_over_band through_stages",
        "ratings": "DUTY_FACTORS LineRating StageRating rate_line rate_match",
        "reflection": "reflection_coefficient standing_wave_ratio",
        "rod_matches": "RodGeometry RodMatch design_folded_element design_gamma design_tee",
        "stack_lines": "StackLines design_stack_lines",
        "stages": "ElementTrim LineSection SeriesCapacitor SeriesInductor ShuntCapacitor "
        "ShuntInductor ShuntStub Stage Transformer",
        "touchstone": "OnePort",
        "travel": "Leg impedance_travel",
    },
)

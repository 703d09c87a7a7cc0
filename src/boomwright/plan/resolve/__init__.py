"""From a plan to what each room needs: pure functions, no default where the plan is silent.

``structure_inputs``, ``installation``, ``raising_job``, ``plan_bill``, ``feed_stages``,
``design_targets``, ``tuning_installation`` and their like take a ``Plan`` and give the room's
own inputs. What the plan does not say stays None (the room then says ``not checked, because
...``) or comes back as ``...gaps``, words for what is missing. A plan that a room refuses raises
``PlanError`` with the place. Each function loads only the room it feeds, when first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.plan.resolve.assembly import beam_frame as beam_frame
    from boomwright.plan.resolve.assembly import station_assembly as station_assembly
    from boomwright.plan.resolve.assembly import turning_axis as turning_axis
    from boomwright.plan.resolve.carried import carried_by as carried_by
    from boomwright.plan.resolve.cost import beam_cutting as beam_cutting
    from boomwright.plan.resolve.cost import plan_bill as plan_bill
    from boomwright.plan.resolve.cost import plan_estimate as plan_estimate
    from boomwright.plan.resolve.design import band_uses as band_uses
    from boomwright.plan.resolve.design import boom_order as boom_order
    from boomwright.plan.resolve.design import design_targets as design_targets
    from boomwright.plan.resolve.design import design_wish as design_wish
    from boomwright.plan.resolve.design import served_beams as served_beams
    from boomwright.plan.resolve.design import usual_wishes as usual_wishes
    from boomwright.plan.resolve.design import wished_beam as wished_beam
    from boomwright.plan.resolve.feed import coax_type as coax_type
    from boomwright.plan.resolve.feed import duty_factor as duty_factor
    from boomwright.plan.resolve.feed import feed_line as feed_line
    from boomwright.plan.resolve.feed import feed_stages as feed_stages
    from boomwright.plan.resolve.feed import match_label as match_label
    from boomwright.plan.resolve.feed import matched_points as matched_points
    from boomwright.plan.resolve.permits import (
        average_transmitter_power as average_transmitter_power,
    )
    from boomwright.plan.resolve.permits import installation as installation
    from boomwright.plan.resolve.places import beam_named as beam_named
    from boomwright.plan.resolve.places import mast_place as mast_place
    from boomwright.plan.resolve.places import support_height as support_height
    from boomwright.plan.resolve.raising import raising_gaps as raising_gaps
    from boomwright.plan.resolve.raising import raising_job as raising_job
    from boomwright.plan.resolve.reach import ground_zones as ground_zones
    from boomwright.plan.resolve.reach import layers as layers
    from boomwright.plan.resolve.reach import ring_beams as ring_beams
    from boomwright.plan.resolve.reach import stacked_beams as stacked_beams
    from boomwright.plan.resolve.reach import station_place as station_place
    from boomwright.plan.resolve.reach import target_places as target_places
    from boomwright.plan.resolve.structure import structure_inputs as structure_inputs
    from boomwright.plan.resolve.structure import structure_notices as structure_notices
    from boomwright.plan.resolve.variants import longer_plan as longer_plan
    from boomwright.plan.resolve.variants import taller_plan as taller_plan

__getattr__ = on_demand(
    __name__,
    {
        "assembly": "beam_frame station_assembly turning_axis",
        "carried": "carried_by",
        "cost": "beam_cutting plan_bill plan_estimate",
        "design": "band_uses boom_order design_targets design_wish served_beams usual_wishes "
        "wished_beam",
        "feed": "coax_type duty_factor feed_line feed_stages match_label matched_points",
        "permits": "average_transmitter_power installation",
        "places": "beam_named mast_place support_height",
        "raising": "raising_gaps raising_job",
        "reach": "ground_zones layers ring_beams stacked_beams station_place target_places",
        "structure": "structure_inputs structure_notices",
        "variants": "longer_plan taller_plan",
    },
)

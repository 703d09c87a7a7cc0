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
    from boomwright.plan.resolve.assembly import beam_frame, station_assembly, turning_axis
    from boomwright.plan.resolve.carried import carried_by
    from boomwright.plan.resolve.cost import beam_cutting, plan_bill, plan_estimate
    from boomwright.plan.resolve.design import (
        band_uses,
        boom_order,
        design_targets,
        design_wish,
        served_beams,
        usual_wishes,
        wished_beam,
    )
    from boomwright.plan.resolve.feed import (
        coax_type,
        duty_factor,
        feed_line,
        feed_stages,
        match_label,
        matched_points,
    )
    from boomwright.plan.resolve.permits import (
        average_power_told,
        average_transmitter_power,
        installation,
    )
    from boomwright.plan.resolve.places import beam_named, mast_place, support_height
    from boomwright.plan.resolve.raising import raising_gaps, raising_job
    from boomwright.plan.resolve.reach import (
        ground_zones,
        layers,
        ring_beams,
        stacked_beams,
        station_place,
        target_places,
    )
    from boomwright.plan.resolve.structure import joints_of, structure_inputs, structure_notices
    from boomwright.plan.resolve.variants import longer_plan, taller_plan

__getattr__ = on_demand(__name__)

"""From a plan to what each room needs: pure functions, no default where the plan is silent.

``structure_inputs``, ``installation``, ``raising_job``, ``plan_bill``, ``feed_stages``,
``design_targets``, ``tuning_installation`` and their like take a ``Plan`` and give the room's
own inputs. What the plan does not say stays None (the room then says ``not checked, because
...``) or comes back as ``...gaps``, words for what is missing. A plan that a room refuses raises
``PlanError`` with the place. Each function loads only the room it feeds, when first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from boomwright.plan.resolve.assembly import (
        beam_frame,
        station_assembly,
        swing_radius,
        turning_axis,
    )
    from boomwright.plan.resolve.cost import beam_cutting, plan_bill, plan_estimate
    from boomwright.plan.resolve.design import (
        band_uses,
        boom_order,
        design_targets,
        design_wish,
        frozen_places,
        usual_wishes,
        wished_beam,
    )
    from boomwright.plan.resolve.feed import (
        coax_type,
        duty_factor,
        feed_line,
        feed_stages,
        match_label,
        match_words,
        matched_points,
        rod_geometry,
    )
    from boomwright.plan.resolve.permits import (
        average_transmitter_power,
        installation,
        with_planned_runways,
    )
    from boomwright.plan.resolve.places import (
        beam_named,
        mast_place,
        structure_top,
        support_height,
    )
    from boomwright.plan.resolve.raising import raising_gaps, raising_job
    from boomwright.plan.resolve.reach import (
        ground_zones,
        layers,
        ring_beams,
        stacked_beams,
        station_place,
        target_places,
    )
    from boomwright.plan.resolve.structure import structure_inputs, structure_notices
    from boomwright.plan.resolve.tuning import measured_beam, trial_moves, tuning_installation
    from boomwright.plan.resolve.variants import longer_plan, taller_plan

# Loaded when first used: a caller waits only for the rooms it asks for.
_HOMES = {
    "boomwright.plan.resolve.assembly": (
        "beam_frame",
        "station_assembly",
        "swing_radius",
        "turning_axis",
    ),
    "boomwright.plan.resolve.cost": (
        "beam_cutting",
        "plan_bill",
        "plan_estimate",
    ),
    "boomwright.plan.resolve.design": (
        "band_uses",
        "boom_order",
        "design_targets",
        "design_wish",
        "frozen_places",
        "usual_wishes",
        "wished_beam",
    ),
    "boomwright.plan.resolve.feed": (
        "coax_type",
        "duty_factor",
        "feed_line",
        "feed_stages",
        "match_label",
        "match_words",
        "matched_points",
        "rod_geometry",
    ),
    "boomwright.plan.resolve.permits": (
        "average_transmitter_power",
        "installation",
        "with_planned_runways",
    ),
    "boomwright.plan.resolve.places": (
        "beam_named",
        "mast_place",
        "structure_top",
        "support_height",
    ),
    "boomwright.plan.resolve.raising": (
        "raising_gaps",
        "raising_job",
    ),
    "boomwright.plan.resolve.reach": (
        "ground_zones",
        "layers",
        "ring_beams",
        "stacked_beams",
        "station_place",
        "target_places",
    ),
    "boomwright.plan.resolve.structure": (
        "structure_inputs",
        "structure_notices",
    ),
    "boomwright.plan.resolve.tuning": (
        "measured_beam",
        "trial_moves",
        "tuning_installation",
    ),
    "boomwright.plan.resolve.variants": (
        "longer_plan",
        "taller_plan",
    ),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}

__all__ = [
    "average_transmitter_power",
    "band_uses",
    "beam_cutting",
    "beam_frame",
    "beam_named",
    "boom_order",
    "coax_type",
    "design_targets",
    "design_wish",
    "duty_factor",
    "feed_line",
    "feed_stages",
    "frozen_places",
    "ground_zones",
    "installation",
    "layers",
    "longer_plan",
    "mast_place",
    "match_label",
    "match_words",
    "matched_points",
    "measured_beam",
    "plan_bill",
    "plan_estimate",
    "raising_gaps",
    "raising_job",
    "ring_beams",
    "rod_geometry",
    "stacked_beams",
    "station_assembly",
    "station_place",
    "structure_inputs",
    "structure_notices",
    "structure_top",
    "support_height",
    "swing_radius",
    "taller_plan",
    "target_places",
    "trial_moves",
    "tuning_installation",
    "turning_axis",
    "usual_wishes",
    "wished_beam",
    "with_planned_runways",
]


def __getattr__(name: str) -> Any:
    if name in _HOME_OF:
        return getattr(import_module(_HOME_OF[name]), name)
    message = f"module 'boomwright.plan.resolve' has no attribute {name!r}"
    raise AttributeError(message)


def __dir__() -> list[str]:
    return sorted(__all__)

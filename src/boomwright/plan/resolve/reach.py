"""What the reach room needs of a plan."""

from __future__ import annotations

from boomwright.base import made_at
from boomwright.base.quantity import phrase
from boomwright.parts import Beam
from boomwright.plan.directions import locator_centre
from boomwright.plan.doubts import stack_without_band
from boomwright.plan.faults import table_named
from boomwright.plan.model import Plan
from boomwright.plan.resolve.places import beam_named
from boomwright.reach.geodesy import Place
from boomwright.reach.ground_zones import GroundZone, ZonedGround
from boomwright.reach.hops import E_LAYER, F2_LAYER, Layer


def station_place(plan: Plan) -> Place | None:
    """Where the station stands; None when the plan gives no position."""
    latitude, longitude = plan.site.latitude, plan.site.longitude
    if latitude is None or longitude is None:
        return None
    return Place(latitude=latitude, longitude=longitude)


def target_places(plan: Plan) -> tuple[tuple[str, Place], ...]:
    """Places to be reached."""
    found = []
    for target in plan.reach.target if plan.reach else ():
        at = target.position or locator_centre(target.locator)
        found.append((target.name, Place(latitude=at[0], longitude=at[1])))
    return tuple(found)


def layers(plan: Plan) -> tuple[Layer, ...]:
    """Layers to count with."""
    return (plan.reach.layer if plan.reach else ()) or (E_LAYER, F2_LAYER)


def ground_zones(plan: Plan) -> ZonedGround | None:
    """Ground that changes with the distance; None when it is alike everywhere."""
    zones = plan.reach.far_ground if plan.reach else ()
    if not zones:
        return None
    return made_at(
        "reach.far_ground",
        lambda: ZonedGround(
            near=plan.site.ground,
            beyond=tuple(
                GroundZone(ground=zone.ground, begins=zone.distance, drop=zone.drop)
                for zone in zones
            ),
        ),
        remedy=phrase("give {site} a ground, or remove the far ground", site=table_named("site")),
    )


def ring_beams(plan: Plan) -> tuple[Beam, Beam] | None:
    """The beam on a ring that turns, and the highest that stays; None without either (2,)."""
    if plan.reach is None or not plan.rings:
        return None
    turning = beam_named(plan, plan.reach.ring or plan.rings[0].beam)
    others = [beam for beam in plan.beams if beam is not turning]
    return (turning, max(others, key=lambda beam: beam.height)) if others else None


def stacked_beams(plan: Plan) -> tuple[Beam, ...]:
    """Beams that are fed together; none without a stack or a common band (n_beams,)."""
    names = plan.reach.stack if plan.reach else ()
    return () if stack_without_band(plan) else tuple(beam_named(plan, name) for name in names)

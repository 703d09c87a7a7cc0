"""What the Reach sheet asks for: values to type, and lists of places to add to."""

from __future__ import annotations

import math

from boomwright.base.quantity import Quantity, write
from boomwright.plan import Plan
from boomwright.plan.model_station import TargetPlan
from boomwright.web.sheets.named_lists import NamedList, named_list
from boomwright.web.sheets.shown_context import AskedField, asked_fields
from boomwright.web.view import View


def asked_of_reach(plan: Plan, view: View) -> tuple[AskedField, ...]:
    """List the values reach needs, as the plan has them."""
    site, reach, sender = plan.site, plan.reach, plan.transmitter
    position = ""
    if site.latitude is not None and site.longitude is not None:
        position = _position(site.latitude, site.longitude)
    wanted = ", ".join(f"{math.degrees(a):g}°" for a in reach.wanted) if reach else ""
    beams = ", ".join(beam.name for beam in plan.beams)
    own = (
        ("Station", "site.position", position, "such as 52.20 N, 0.10 E"),
        ("Wanted angles", "reach.wanted", wanted, "such as 10, 20; empty: those of the paths"),
        ("Terrain", "reach.terrain", reach.terrain if reach else "",
         "file beside the plan: distance, height a line"),
        ("On a ring", "reach.ring", reach.ring if reach else "",
         f"a beam that turns while the others stay: {beams}"),
        ("Fed together", "reach.stack", ", ".join(reach.stack) if reach else "",
         f"beams of a stack: {beams}"),
        ("Power", "transmitter.power", f"{sender.power:g} W" if sender else "", "such as 400 W"),
    )  # fmt: skip
    rows = [*own]
    if sender is not None:
        rows += [
            ("Emission", "transmitter.emission", sender.emission, "such as morse"),
            ("Transmits for", "transmitter.transmit", _time(sender.transmit), "such as 3 min"),
            ("then listens for", "transmitter.listen", _time(sender.listen), "such as 3 min"),
        ]
    several = {"reach.ring", "reach.stack"} if len(plan.beams) == 1 else set()
    return asked_fields([row for row in rows if row[1] not in several], view)


def named_lists(plan: Plan, view: View) -> tuple[NamedList, ...]:
    """List what the plan names: places to be reached, grounds further out, places with people."""

    def length(value: float) -> str:
        return write(Quantity(value, "height"), system=view.system)

    targets = plan.reach.target if plan.reach else ()
    zones = plan.reach.far_ground if plan.reach else ()
    people = plan.permits.exposure if plan.permits else ()
    return (
        named_list(
            "reach.target",
            "Places to be reached",
            (f"{target.name}: {_where(target)}" for target in targets),
            button="Add a place to be reached",
        ),
        named_list(
            "reach.far_ground",
            "Ground further out",
            (
                f"from {length(zone.distance)}: " + (zone.ground.name or "by its constants")
                for zone in zones
            ),
            button="Add ground further out",
        ),
        named_list(
            "permits.exposure",
            "Places with people",
            (
                f"{each.place}: {length(each.distance)} away, head at {length(each.height)}"
                for each in people
            ),
            button="Add a place with people",
        ),
    )


def _time(seconds: float | None) -> str:
    if seconds is None:
        return ""
    return f"{seconds / 60.0:g} min" if seconds >= 60.0 else f"{seconds:g} s"


def _where(target: TargetPlan) -> str:
    return target.locator or (_position(*target.position) if target.position else "")


def _position(latitude: float, longitude: float) -> str:
    north, east = math.degrees(latitude), math.degrees(longitude)
    return (
        f"{abs(north):.4g} {'N' if north >= 0 else 'S'}, "
        f"{abs(east):.5g} {'E' if east >= 0 else 'W'}"
    )

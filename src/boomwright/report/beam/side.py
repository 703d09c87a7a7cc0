"""The station from the side: everything that stands, at its height and to scale."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.report.model import Picture, Table, cells, drawing


def side_extent(plans: Sequence[Plan], limit: float | None = None) -> tuple[float, float]:
    """Height and half width that hold every station, and somebody beside it [m].

    Args:
        limit: highest part allowed; None for no limit [m]
    """
    beams = [beam for plan in plans for beam in plan.beams]
    frames = [beam.frame for beam in beams if beam.frame is not None]
    supports = [plan.support for plan in plans if plan.support is not None]
    up = max(limit or 0.0, *(beam.height + _rise(beam) for beam in beams))
    out = max(
        charts.PERSON,
        *(element.reach for beam in beams for element in beam.elements),
        *(ring.anchor_radius for support in supports for ring in support.guy),
        *(point.place[1] for frame in frames for point in frame.points),
    )
    return 1.08 * up, 1.1 * out


def _rise(beam: Beam) -> float:
    return max(z for element in beam.elements for _, _, z in element.outline)


def side_picture(plan: Plan) -> Picture:
    """Draw the station of a plan from the side, all its antennas and what carries them."""
    up, out = side_extent((plan,))
    said = listed([phrase("{} at {}", *each) for each in _heights(plan)])
    return Picture(
        name="side",
        title="Station from the side, to scale",
        draw=drawing(
            charts.station_profile,
            plan=plan,
            up=up,
            out=out,
            named="support not given",
            description=phrase("Seen from the side, to scale: {}.", said),
        ),
        behind=side_heights(plan),
    )


def side_heights(plan: Plan) -> Table[tuple[Value, Quantity]]:
    """List how high everything stands, highest first."""
    return Table(
        name="side",
        caption="Heights above ground",
        columns=cells("part", "height"),
        items=_heights(plan),
    )


def _heights(plan: Plan) -> list[tuple[Value, Quantity]]:
    """Height of everything that stands, highest first."""
    found = [(f"boom of {each.name}" if not each.bent else each.name, each.height)
             for each in plan.beams]  # fmt: skip
    support = plan.support
    if support is not None:
        found += [("top of the mast", support.mast.top)] if support.mast is not None else []
        found += [("top of the tower", support.tower.height)] if support.tower is not None else []
        found += [("top of the tube", support.tube.height)] if support.tube is not None else []
        found += [("guys", ring.height) for ring in support.guy]
    found.sort(key=lambda each: -each[1])
    return [(name, Quantity(height, "height")) for name, height in found]

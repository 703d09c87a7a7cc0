"""The station from the side: everything that stands, at its height and to scale."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.report.model import Canvas, Picture, Table, column


def side_extent(plans: Sequence[Plan], limit: float | None = None) -> tuple[float, float]:
    """Height and half width that hold every station, and somebody beside it [m].

    Args:
        limit: highest part allowed; None for no limit [m]
    """
    up = max([beam.height + _rise(beam) for plan in plans for beam in plan.beams] + [limit or 0.0])
    out = max(
        [element.reach for plan in plans for beam in plan.beams for element in beam.elements]
        + [
            ring.anchor_radius
            for plan in plans
            if plan.support is not None
            for ring in plan.support.guy
        ]
        + [
            point.place[1]
            for plan in plans
            for beam in plan.beams
            if beam.frame is not None
            for point in beam.frame.points
        ]
        + [charts.PERSON]
    )
    return 1.08 * up, 1.1 * out


def _rise(beam: Beam) -> float:
    return max(z for element in beam.elements for _, _, z in element.outline)


def side_picture(plan: Plan) -> Picture:
    """Draw the station of a plan from the side, all its antennas and what carries them."""
    up, out = side_extent((plan,))
    heights = _heights(plan)

    def draw(canvas: Canvas) -> str:
        said = [phrase("{name} at {height}", name=name, height=height) for name, height in heights]
        return charts.station_profile(
            plan=plan,
            up=up,
            out=out,
            named="support not given",
            description=f"Seen from the side, to scale: {canvas.write(listed(said))}.",
            palette=canvas.palette,
            system=canvas.system,
            width=canvas.width,
        )

    return Picture(
        name="side", title="Station from the side, to scale", draw=draw, behind=side_heights(plan)
    )


def side_heights(plan: Plan) -> Table[tuple[Value, Quantity]]:
    """List how high everything stands, highest first."""
    return Table(
        name="side",
        caption="Heights above ground",
        columns=(column("part", lambda item: item[0]), column("height", lambda item: item[1])),
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

"""The beam from above as one workshop drawing: every tube, plate, rod, wire and spreader."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from boomwright.base import UnitSystem
from boomwright.charts.drawing import Drawing, DrawnTube, Measure, Note, Reading, Shape, Stroke
from boomwright.charts.labels import spread
from boomwright.parts import Beam, Block, Part, from_above
from boomwright.plan import Plan
from boomwright.plan.resolve import station_assembly
from boomwright.report.build.shop import NOTHING, ShopElement, shop_elements
from boomwright.report.build.shop_boom import ShopBoom, shop_boom
from boomwright.report.build.shop_drawings import drawn, shop_length

#: what is drawn from its solids; tubes of elements and boom are drawn as they are measured
_DRAWN: Final = frozenset((
    "element plate", "mast plate", "box", "capacitor", "match", "tip", "spreader", "hub", "wire",
    "wire insulator", "cord", "rope", "radial", "trap",
))  # fmt: skip


def plan_view(plan: Plan, beam: Beam, *, system: UnitSystem = "metric") -> Drawing:
    """Draw a beam from above: x along the boom from its rear end, y along the elements."""
    station, boom = station_assembly(plan), plan.boom_of(beam.name)
    parts = station.built(beam.name)
    elements = shop_elements(parts, beam=beam, boom=boom)
    shop = shop_boom(station, beam=beam, boom=boom)
    tip = max((drawn(each.cut.half_length, system=system) for each in elements), default=0.0)
    tip = max(tip, *(1e3 * abs(y) for _, y in _corners(parts)), 1.0)
    high = _letters(tip, shop, system)
    shapes = [*_boom(shop, high, system), *_solids(parts)]
    for element in elements:
        x = next(
            drawn(each.tape, system=system)
            for each in shop.stations
            if each.kind == "element" and each.name.startswith(f"{element.cut.number} ")
        )
        shapes += _element(element, x, high, system)
    shapes += _stations(shop, low=-tip - 4.0 * high, high=high, system=system)
    shapes += _words(beam, low=-tip - 40.0 * high, high=high)
    return Drawing(
        name="plan-view",
        title=f"{beam.name} from above",
        description=f"{len(elements)} elements on {shop_length(shop.length, system=system)}.",
        shapes=tuple(shapes),
        text_height=high,
    )


def _corners(parts: Iterable[Part]) -> list[tuple[float, float]]:
    """Corners of everything that is drawn from its solids, along x and y [m]."""
    return [point for part in parts if part.role in _DRAWN for solid in part.solids
            for point in from_above(solid)]  # fmt: skip


def _letters(tip: float, shop: ShopBoom, system: UnitSystem) -> float:
    """Letters so low that the marks of one half fit between two neighbours [mm]."""
    places = [drawn(each.tape, system=system) for each in shop.stations if each.kind == "element"]
    closest = min((b - a for a, b in pairwise(sorted(places))), default=2.0 * tip)
    return max(min(tip / 45.0, closest / 12.0), tip / 200.0)


def _boom(shop: ShopBoom, high: float, system: UnitSystem) -> Iterator[Shape]:
    long = drawn(shop.length, system=system)
    margin = 4.0 * high
    yield Stroke(layer="CENTRE", points=((-margin, 0.0), (long + margin, 0.0)))
    start = NOTHING
    for part in shop.parts:
        yield DrawnTube(start=(drawn(start, system=system), 0.0),
                        end=drawn(start + part, system=system),
                        diameter=1e3 * (shop.boom.diameter if shop.boom else 0.0))  # fmt: skip
        start += part


def _element(element: ShopElement, x: float, high: float, system: UnitSystem) -> Iterator[Shape]:
    tip = drawn(element.cut.half_length, system=system)
    yield Stroke(layer="CENTRE", points=((x, -1.01 * tip), (x, 1.01 * tip)))
    for number, tube in enumerate(element.tubes):
        radius, end = 500.0 * tube.kind.diameter, drawn(tube.reaches, system=system)
        begin = drawn(tube.starts + tube.overlap, system=system)
        sides = [(-end, end)] if not tube.right else [(begin, end), (-end, -begin)]
        yield from [
            Stroke(layer="TUBES", closed=True,
                   points=((x - radius, a), (x + radius, a), (x + radius, b), (x - radius, b)))
            for a, b in sides
        ]  # fmt: skip
        yield Measure(start=(x, 0.0), end=(x, end), place=x + (2.0 + 2.0 * number) * high,
                      text=shop_length(tube.reaches, system=system), upright=True)  # fmt: skip
    half = element.half_gap
    if half.millimetres:
        gap = drawn(half, system=system)
        yield Measure(start=(x, -gap), end=(x, gap), place=x - 2.0 * high, upright=True,
                      text=f"gap {shop_length(half + half, system=system)}")  # fmt: skip
    full = shop_length(element.cut.full_length, system=system)
    yield Note(at=(x, tip + 1.5 * high), upright=True,
               text=f"{element.cut.number} {element.cut.label}, tip to tip {full}")  # fmt: skip


def _stations(shop: ShopBoom, *, low: float, high: float, system: UnitSystem) -> list[Shape]:
    """Readings of one tape along the boom, below everything."""
    places = [drawn(each.tape, system=system) for each in shop.stations]
    wished = spread(places, room=3.4 * high)
    shift = 0.5 * (wished[0] + wished[-1]) - 0.5 * (places[0] + places[-1])
    return [
        Reading(at=(place, 0.0), place=low, name=each.told, shown=at - shift,
                text=shop_length(each.tape, system=system))
        for each, place, at in zip(shop.stations, places, wished, strict=True)
    ]  # fmt: skip


def _words(beam: Beam, *, low: float, high: float) -> list[Shape]:
    lines = (
        f"design frequency {beam.design_frequency / 1e6:.3f} MHz, {beam.material.name}",
        "the front is to the right",
        "along each half: distances from the boom centre line",
        "along the boom: one tape from its rear end",
    )
    return [
        Note(at=(0.0, low - 2.0 * high * number), text=line) for number, line in enumerate(lines)
    ]


def _solids(parts: Sequence[Part]) -> list[Shape]:
    return [
        Stroke(
            layer="OUTLINE" if isinstance(solid, Block) else "SOLIDS",
            points=tuple((1e3 * x, 1e3 * y) for x, y in from_above(solid)),
            closed=True,
        )
        for part in parts
        if part.role in _DRAWN
        for solid in part.solids
    ]

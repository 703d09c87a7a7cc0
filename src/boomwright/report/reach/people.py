"""Who stands near the antenna: fields, limits, distances."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from boomwright import charts
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.permits import ExposureLimit, LimitCheck
from boomwright.reach import FieldGrid
from boomwright.report.model import Column, Picture, Table, column, drawing, measured
from boomwright.study.reach_parts.results import (
    BeamReach,
    ExposureReading,
    LimitDistance,
    ReachResult,
)

#: a place so far beside the heading is not in the picture through the heading [m]
_BESIDE = 2.0
SHORT_STANDARDS = {"cfr-47-1-1310": "47 CFR 1.1310", "icnirp-2020": "ICNIRP 2020"}


def _standard(limit: ExposureLimit) -> str:
    return SHORT_STANDARDS.get(limit.source, limit.standard)


def people_pictures(result: ReachResult, each: BeamReach) -> tuple[Picture, ...]:
    """The fields at head height and through the heading."""
    exposure = each.exposure
    if exposure is None:
        return ()
    words = " At head height, {:height} above ground, the most is {:most of limit} of the limit."
    head = phrase(words, exposure.level.at, float(np.nanmax(exposure.level_share)))
    places = list(_places(result, each))
    beside = [(name, x, y) for name, x, y, _ in places]
    ahead = [(name, x, up) for name, x, y, up in places if abs(y) < _BESIDE]
    # What is below the least shade everywhere would be an empty picture.
    shown = float(np.nanmax(exposure.level_share)) >= charts.LEAST_SHADE
    told = "" if shown else head
    upright = _fields(each, exposure, exposure.upright, exposure.upright_share, ahead, told)
    if not shown:
        return (upright,)
    return _fields(each, exposure, exposure.level, exposure.level_share, beside, head), upright


def _fields(
    each: BeamReach,
    exposure: ExposureReading,
    grid: FieldGrid,
    share: Floats,
    places: list[tuple[str, float, float]],
    more: Value,
) -> Picture:
    public = (limit for limit in exposure.limits if limit.group == "general")
    power = max(exposure.power[limit.averaging_time] for limit in public)
    limit = phrase("strictest limit for the public, {:average power} average power", power)
    titles = {"level": "Fields at head height, from above", "upright": "Fields through the heading"}
    title, root = titles[grid.plane], math.sqrt(power)
    words = "Part of the limit that the computed near field uses, E and H both counted: {limit}."
    return Picture(
        name=f"people-{grid.plane}",
        title=title,
        group="people",
        draw=drawing(
            charts.people_map,
            plane=grid.plane,
            across=grid.across,
            up=grid.up,
            share=share,
            electric=grid.electric * root,
            magnetic=grid.magnetic * root,
            limit_name=limit,
            places=places,
            boom_height=each.beam.height,
            title=title,
        ),
        caption=listed([phrase(words, limit=limit), more], between=""),
        behind=_shares(grid, share),
    )


def _places(result: ReachResult, each: BeamReach) -> Iterator[tuple[str, float, float, float]]:
    """Name of each place with people, how far ahead and to the left it is, and how high [m]."""
    for place in result.plan.permits.exposure if result.plan.permits else ():
        bearing = each.beam.heading if place.bearing is None else place.bearing
        angle = each.beam.heading - bearing
        x, y = place.distance * math.cos(angle), place.distance * math.sin(angle)
        yield (place.place, x, y, place.height)


def _shares(grid: FieldGrid, share: Floats) -> Table[int]:
    def across(place: int) -> Column[int]:
        head = Quantity(float(grid.across[place]), "whole length")
        return column(head, lambda row: float(share[row, place]), kind="bare part of limit")

    head = "to the left" if grid.plane == "level" else "above ground"
    return Table(
        name=f"people-{grid.plane}",
        caption="Part of the limit used, percent, along the heading",
        columns=(
            column(head, lambda row: float(grid.up[row]), kind="height"),
            *(across(place) for place in range(0, len(grid.across), 4)),
        ),
        items=range(len(grid.up) - 1, -1, -2),
    )


def people_tables(each: BeamReach) -> tuple[Table[Any], ...]:
    """Each place against each limit, and how far each limit reaches."""
    exposure = each.exposure
    if exposure is None:
        return ()
    checks = [check_table(exposure)] if exposure.checks else []
    return (*checks, _distances(exposure))


def check_table(exposure: ExposureReading) -> Table[LimitCheck]:
    """Every place with people against every limit."""

    def part(head: str, ratio: str) -> Column[LimitCheck]:
        # Each cell has its unit: the part of a limit is read alone.
        return column(
            head, measured("part of limit", lambda check: getattr(check, ratio).governing)
        )

    def field(head: str, name: str) -> Column[LimitCheck]:
        kind = f"{name} field"

        def told(check: LimitCheck) -> Value:
            limit = getattr(check.limit, f"{name}_field")
            seen = getattr(check.place, name) * math.sqrt(check.power)
            pair = (seen, math.nan if limit is None else limit)
            return listed([Quantity(each, kind) for each in pair], between=" of ")

        return column(head, told, kind=kind)

    def power(check: LimitCheck) -> Value:
        time = Quantity(check.limit.averaging_time, "minutes")
        return listed([Quantity(check.power, "average power"), time], between=" over ")

    return Table(
        name="places",
        group="people",
        sentences=True,
        caption="Fields where people are, and their limits",
        columns=(
            column("place", lambda check: check.place.place),
            column("limit", lambda check: _standard(check.limit)),
            column(
                "group",
                lambda check: check.limit.group + ("" if check.applies else ", for comparison"),
            ),
            part("near field, greatest", "near"),
            part("over the body", "averaged"),
            part("formula", "far"),
            column(
                "margin by the stricter",
                lambda check: listed([Quantity(check.margin_db, "ratio"), check.method]),
            ),
            column("average power", power),
            field("E", "electric"),
            field("H", "magnetic"),
        ),
        items=exposure.checks,
        note=phrase(
            "Near field: computed, the larger of E and H squared over the limit squared, greatest "
            "on the body; over the body: averaged from head to feet, as whole-body limits allow. "
            "The margin holds the greatest, the stricter of the two. Formula: far field of OET 65 "
            "with {gain:gain over ground} on the place and a 1.6-fold ground reflection; within "
            "{near:height} of the antenna only the near field is a true picture. Line loss is not "
            "taken off. 47 CFR is a rule of the United States, elsewhere a guide. Average power: "
            "{power}.",
            power=exposure.power_told,
            gain=exposure.peak_gain_dbi,
            near=exposure.near_distance,
        ),
    )


def _distances(exposure: ExposureReading) -> Table[LimitDistance]:
    def out(head: Value, get: Callable[[LimitDistance], float]) -> Column[LimitDistance]:
        return column(head, lambda item: get(item) or "nowhere", kind="height")

    def off(place: int, angle: float) -> Column[LimitDistance]:
        head = phrase("{angle:whole angle} off", angle=angle)
        return out(head, lambda item: item.around[place][1])

    around = enumerate(angle for angle, _ in exposure.distances[0].around)
    return Table(
        name="distances",
        group="people",
        caption="How far from the mast each limit is exceeded at head height",
        columns=(
            column("limit", lambda item: _standard(item.limit)),
            column("group", lambda item: item.limit.group),
            out("ahead", lambda item: item.near),
            *(off(place, angle) for place, angle in around),
            column("formula, from the antenna", lambda item: item.far, kind="height"),
        ),
        items=exposure.distances,
        note="Computed near field, greatest of E and H; the formula aims the lobe at the place.",
    )

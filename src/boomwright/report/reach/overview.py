"""Where a beam reaches and who stands near it: lobe, pointing, paths, limits for people."""

from __future__ import annotations

from typing import Any

from boomwright.base.quantity import Quantity, Value
from boomwright.report.beam.computed import azimuth_picture, elevation_picture
from boomwright.report.model import Fact, Report, Table, column
from boomwright.report.reach.people_tables import SHORT_STANDARDS
from boomwright.study.reach_results import BeamReach, ExposureReading, PathReading, ReachResult


def reach_report(result: ReachResult, *, number: int) -> Report:
    """Say where a beam reaches and who stands near it.

    Parameters
    ----------
    number
        number of the beam, from 0
    """
    each = result.beams[number]
    tables: list[Table[Any]] = [_pointing(each)]
    if each.paths:
        tables.append(_paths(each.paths))
    if each.exposure is not None:
        tables += [_places(each.exposure), _distances(each.exposure)]
    return Report(
        subject="reach",
        title=f"Reach of {each.beam.name}",
        answer=_answer(each),
        pictures=(elevation_picture(each.cut), azimuth_picture(each.azimuth)),
        tables=tuple(tables),
        notices=result.notices,
    )


def _answer(each: BeamReach) -> tuple[Fact, ...]:
    people: Value = "not checked: the plan gives no transmitter"
    if each.exposure is not None:
        own = [check for check in each.exposure.checks if check.applies]
        people = "no place with people in the plan"
        if own:
            people = Quantity(max(check.governing for check in own), "use")
    return (
        Fact(label="Height of the boom", value=Quantity(each.beam.height, "span")),
        Fact(label="Take-off angle", value=Quantity(each.take_off_deg, "angle")),
        Fact(label="Most used limit where people are", value=people),
    )


def _pointing(each: BeamReach) -> Table[Any]:
    return Table(
        name="pointing",
        caption="Off the heading, at the take-off angle",
        columns=(
            column("loss", lambda one: one.loss_db, kind="ratio"),
            column("left", lambda one: one.left_deg, kind="whole angle"),
            column("right", lambda one: one.right_deg, kind="whole angle"),
        ),
        items=each.pointing,
    )


def _paths(paths: tuple[PathReading, ...]) -> Table[PathReading]:
    return Table(
        name="paths",
        caption="Paths, the short and the long way",
        columns=(
            column("to", lambda one: one.target),
            column("way", lambda one: one.path.way),
            column("bearing", lambda one: one.path.bearing_deg, kind="angle"),
            column("distance", lambda one: one.path.distance, kind="distance"),
            column("costs off the heading", lambda one: one.off_heading_db, kind="ratio"),
        ),
        items=paths,
        note="Geodesics of WGS84; the place of a locator is the middle of its square.",
    )


def _places(exposure: ExposureReading) -> Table[Any]:
    return Table(
        name="places",
        caption="Places with people held against the limits",
        columns=(
            column("place", lambda check: check.place.place),
            column(
                "limit",
                lambda check: SHORT_STANDARDS.get(check.limit.source, check.limit.standard),
            ),
            column("for", lambda check: check.limit.group),
            column("use", lambda check: Quantity(check.governing, "use")),
            column("by", lambda check: check.method),
        ),
        items=exposure.checks,
        note="The greater of the computed near field and the far-field formula.",
    )


def _distances(exposure: ExposureReading) -> Table[Any]:
    return Table(
        name="distances",
        caption="How far from the mast each limit is kept, at head height",
        columns=(
            column("limit", lambda one: SHORT_STANDARDS.get(one.limit.source, one.limit.standard)),
            column("for", lambda one: one.limit.group),
            column("near field", lambda one: Quantity(one.near, "span")),
            column("far-field formula", lambda one: Quantity(one.far, "span")),
        ),
        items=exposure.distances,
    )

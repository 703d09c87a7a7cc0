"""Where it goes: map, paths, hops, and the ground on the way."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, listed, phrase, write
from boomwright.charts import HopBar
from boomwright.reach import Place, TerrainPattern
from boomwright.report.model import Canvas, Column, Picture, Table, column, drawing
from boomwright.report.reach.curves import curves, front_gain
from boomwright.report.reach.heights import advantage, antennas, plain_name
from boomwright.study.reach import read_coastlines
from boomwright.study.reach_parts.results import BeamReach, HopGain, PathReading

#: bars of hops drawn at most [-]
_MOST_BARS = 14


def path_pictures(station: Place | None, each: BeamReach) -> tuple[Picture, ...]:
    """Map, hops and terrain, as far as the plan gives them.

    Args:
        station: where the station stands; None draws no map
    """
    made = [] if station is None else [_map(station, each)]
    if any(path.hops for path in each.paths):
        made.append(_hop_angles(each))
    if each.terrain is not None:
        made += [_profile(each, each.terrain), _terrain(each, each.terrain)]
    return tuple(made)


def path_tables(each: BeamReach) -> tuple[Table[Any], ...]:
    """The paths to the targets and the ways to cover them by hops."""
    return (_paths(each), hop_table(each)) if each.paths else ()


def _map(station: Place, each: BeamReach) -> Picture:
    targets = [
        (path.target, path.place, path.path) for path in each.paths if path.path.way == "short"
    ]
    return Picture(
        name="map",
        title="Where it goes",
        group="paths",
        draw=drawing(
            charts.station_map,
            station=station,
            coastlines=read_coastlines(),
            footprint=each.footprint,
            heading=each.beam.heading,
            targets=targets,
        ),
        caption="Azimuthal map centred on the station. Shaded: gain towards each place, by the "
        "fewest hops off the highest layer at its middle height, below the strongest.",
        behind=_paths(each),
    )


def _hop_angles(each: BeamReach) -> Picture:
    bars = [
        HopBar(
            label=f"{path.target}, {h.hop.layer.name}, {h.hop.hops} "
            + ("hop" if h.hop.hops == 1 else "hops"),
            low_deg=h.hop.lowest_elevation_deg,
            high_deg=h.hop.highest_elevation_deg,
        )
        for path in each.paths
        if path.path.way == "short"
        for h in path.hops
    ]

    def draw(canvas: Canvas) -> str:
        return charts.hop_angles(
            elevation_deg=each.scan.elevation_deg,
            curves=[(write(name, system=canvas.system), y) for name, y in antennas(each)],
            bars=bars[:_MOST_BARS],
            palette=canvas.palette,
            width=canvas.width,
        )

    return Picture(
        name="hop-angles",
        title="Elevations that reach the wanted places",
        group="paths",
        draw=draw,
        caption="Below the gains, a bar for every number of hops the short way, over the heights "
        "of its layer: mirror geometry, the beam turned there.",
        behind=hop_table(each),
    )


def _paths(each: BeamReach) -> Table[PathReading]:
    def off(path: PathReading) -> Value:
        angle = Quantity(abs(path.off_heading_deg), "whole angle")
        return listed([angle, "right" if path.off_heading_deg < 0 else "left"], between=" ")

    return Table(
        name="paths",
        group="paths",
        caption="Paths, the short and the long way",
        columns=(
            column("to", lambda path: path.target),
            column("way", lambda path: path.path.way, full=True),
            column("bearing", lambda path: path.path.bearing_deg, kind="angle"),
            column("distance", lambda path: path.path.distance, kind="path"),
            column("off the heading", off),
            column("costs", lambda path: path.off_heading_db, kind="ratio"),
            column("time to turn", lambda path: path.turn_time, kind="time to turn"),
        ),
        items=each.paths,
        note="Geodesics of WGS84; the place of a locator is the middle of its square.",
    )


def path_brief(each: BeamReach) -> Table[PathReading]:
    """List the short ways, all that a quick look shows of the paths."""
    table = _paths(each)
    short = tuple(path for path in each.paths if path.path.way == "short")
    return replace(table, caption="Paths, the short way", items=short)


def hop_table(each: BeamReach) -> Table[tuple[PathReading, HopGain]]:
    """Ways to cover each path by hops, with the gain the antenna has there."""

    def between(head: str, kind: str, key: str, ends: Any) -> Column[tuple[PathReading, HopGain]]:
        def told(item: tuple[PathReading, HopGain]) -> Value:
            return listed([Quantity(end, kind) for end in ends(item[1].hop)], between=" to ")

        return column(head, told, kind=kind, key=key)

    def over(number: int) -> Column[tuple[PathReading, HopGain]]:
        return column(
            phrase("over {name}", name=plain_name(each.plain[number].name)),
            lambda item: advantage(item[1].advantages[number]),
            kind="advantage",
            # A terminal has room for the dipole that many stations have.
            full=number != 1,
        )

    return Table(
        name="hops",
        group="paths",
        caption="Elevations for equal hops, the beam turned there, and what it is worth",
        columns=(
            column("to", lambda item: item[0].target),
            column("way", lambda item: item[0].path.way),
            column("layer", lambda item: item[1].hop.layer.name, key="layer"),
            between(
                "up at", "path", "layer_height_m", lambda hop: (hop.layer.lowest, hop.layer.highest)
            ),
            column("hops", lambda item: item[1].hop.hops, key="hops"),
            between(
                "elevation",
                "angle",
                "elevation_deg",
                lambda hop: (hop.lowest_elevation_deg, hop.highest_elevation_deg),
            ),
            between(
                "gain",
                "gain over ground",
                "gain_dbi",
                lambda hop: (hop.lowest_gain_dbi, hop.highest_gain_dbi),
            ),
            *(over(number) for number in range(len(each.plain))),
        ),
        items=[(path, hop) for path in each.paths for hop in path.hops],
        note="In brackets S-units of 6 dB. Mirror geometry; whether a layer reflects at that hour "
        "is another question.",
    )


def _profile(each: BeamReach, terrain: TerrainPattern) -> Picture:
    profile = terrain.profile
    foot = profile.height_at_mast
    ahead = profile.distance >= 0.0
    out, up = profile.distance[ahead], profile.height[ahead]
    if out[0] > 0.0:
        out, up = np.append(0.0, out), np.append(foot, up)
    return curves(
        "terrain-profile",
        "The ground along the heading",
        group="height",
        x=out,
        x_head="distance from the mast",
        x_kind="whole length",
        x_names=("distance", "distance_feet"),
        lines=[("ground", up)],
        y_head="height",
        y_kind="height",
        mark=(
            0.0,
            phrase("boom {:whole length}, ground {:whole length}", foot + each.beam.height, foot),
        ),
        caption="The significant corners of the profile, on which the wave is reflected and bent. "
        "Heights are drawn larger than distances.",
    )


def _terrain(each: BeamReach, terrain: TerrainPattern) -> Picture:
    flat = np.interp(terrain.elevation_deg, each.scan.elevation_deg, front_gain(each))
    return curves(
        "terrain",
        "Over the owner's terrain",
        group="height",
        x=terrain.elevation_deg,
        lines=[("over the terrain", terrain.gain_dbi), ("over flat ground", flat)],
        deepest=35.0,
        caption="Reflection and diffraction in two dimensions along the heading, against flat "
        "ground.",
    )

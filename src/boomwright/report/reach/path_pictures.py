"""The pictures of where it goes: map, hops, terrain; as page and book both show them."""

from __future__ import annotations

import numpy as np

from boomwright import charts
from boomwright.charts import HopBar, ReadingTable, ShownPicture
from boomwright.reach import Place, TerrainPattern
from boomwright.report.reach.drawing import Drawing, front_gain, length_unit
from boomwright.report.reach.height_pictures import short_name
from boomwright.report.reach.shown_tables import hop_table, path_table
from boomwright.study.reach import read_coastlines
from boomwright.study.reach_results import BeamReach

#: bars of hops drawn at most [-]
_MOST_BARS = 14


def path_pictures(station: Place | None, each: BeamReach, draw: Drawing) -> list[ShownPicture]:
    """Draw map, hops and terrain, as far as the plan gives them.

    Parameters
    ----------
    station
        where the station stands; None draws no map
    """
    made = [] if station is None else [_map(station, each, draw)]
    if any(path.hops for path in each.paths):
        made.append(_hops(each, draw))
    if each.terrain is not None:
        made += [_profile(each, each.terrain, draw), _terrain(each, each.terrain, draw)]
    return made


def _map(station: Place, each: BeamReach, draw: Drawing) -> ShownPicture:
    targets = [
        (path.target, path.place, path.path) for path in each.paths if path.path.way == "short"
    ]
    svg = charts.station_map(
        station=station,
        coastlines=read_coastlines(),
        footprint=each.footprint,
        heading=each.beam.heading,
        targets=targets,
        palette=draw.palette,
        system=draw.system,
        width=draw.width,
    )
    return draw.shown(
        "map",
        "Where it goes",
        svg,
        caption=(
            "Azimuthal map centred on the station. Shaded: gain towards each place, by the "
            "fewest hops off the highest layer at its middle height, below the strongest."
        ),
        table=path_table(each, system=draw.system).table,
        about="Paths, the short and the long way",
    )


def _hops(each: BeamReach, draw: Drawing) -> ShownPicture:
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
    angle = each.scan.elevation_deg
    curves = [("beam", front_gain(each.cut, angle))]
    curves += [(short_name(plain.name), plain.cut.gain_dbi) for plain in each.plain]
    svg = charts.hop_angles(
        elevation_deg=angle,
        curves=curves,
        bars=bars[:_MOST_BARS],
        palette=draw.palette,
        width=draw.width,
    )
    return draw.shown(
        "hop-angles",
        "Elevations that reach the wanted places",
        svg,
        caption=(
            "Below the gains, a bar for every number of hops the short way, over the heights of "
            "its layer: mirror geometry, the beam turned there."
        ),
        table=hop_table(each, system=draw.system).table,
        about="Ways to cover each path by hops",
    )


def _profile(each: BeamReach, terrain: TerrainPattern, draw: Drawing) -> ShownPicture:
    unit, name = length_unit(draw.system)
    profile = terrain.profile
    foot = profile.height_at_mast
    boom = (foot + each.beam.height) / unit
    mark = f"boom {boom:.0f} {name}, ground {foot / unit:.0f} {name}"
    ahead = profile.distance >= 0.0
    return draw.curves(
        "terrain-profile",
        "The ground along the heading",
        x=np.concatenate(([0.0], profile.distance[ahead])) / unit
        if profile.distance[ahead][0] > 0.0
        else profile.distance[ahead] / unit,
        curves=[
            (
                "ground",
                np.concatenate(([foot], profile.height[ahead])) / unit
                if profile.distance[ahead][0] > 0.0
                else profile.height[ahead] / unit,
            )
        ],
        x_label=f"distance from the mast, {name}",
        y_label=f"height, {name}",
        y_unit=name,
        x_name="distance" if draw.system == "metric" else "distance_feet",
        mark=(0.0, mark),
        caption=(
            "The significant corners of the profile, on which the wave is reflected and bent. "
            "Heights are drawn larger than distances."
        ),
    )


def _terrain(each: BeamReach, terrain: TerrainPattern, draw: Drawing) -> ShownPicture:
    angle = terrain.elevation_deg
    flat = front_gain(each.cut, angle)
    svg = charts.line_chart(
        kind="terrain-pattern",
        title="Over the owner's terrain",
        description=(
            f"Strongest over the terrain {terrain.gain_dbi.max():.1f} dBi at "
            f"{angle[int(terrain.gain_dbi.argmax())]:.1f} degrees."
        ),
        x=angle,
        curves=[("over the terrain", terrain.gain_dbi), ("over flat ground", flat)],
        x_label="elevation above the horizon, degrees",
        y_label="gain, dBi",
        x_name="elevation",
        deepest=35.0,
        palette=draw.palette,
        width=draw.width,
    )
    rows = tuple(
        (f"{a:g}", f"{g:.1f}", f"{f:.1f}")
        for a, g, f in zip(angle[::2], terrain.gain_dbi[::2], flat[::2], strict=True)
    )
    return draw.shown(
        "terrain",
        "Over the owner's terrain",
        svg,
        caption=(
            "Reflection and diffraction in two dimensions along the heading, against flat ground."
        ),
        table=ReadingTable(header=("elevation, degrees", "terrain, dBi", "flat, dBi"), rows=rows),
        about="Gain against elevation",
    )

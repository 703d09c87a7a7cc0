"""What reach says as one plain document: what ``reach --json`` prints."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from boomwright.permits import LimitCheck
from boomwright.reach import Advantage, RingSweep
from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain, plain_rows
from boomwright.report.reach.heights import cost_table, pointing_table
from boomwright.report.reach.paths import hop_table
from boomwright.report.reach.together import best_table, feeding_table, isolation_table
from boomwright.study.reach_parts.results import (
    BeamReach,
    ExposureReading,
    PathReading,
    ReachResult,
    StackResult,
)


def reach_document(result: ReachResult) -> dict[str, Any]:
    """Write the result as numbers, texts, lists and dictionaries only.

    Returns:
        the document; the unit of each figure is in its name, metres and hertz where none is
    """
    station = result.station
    return {
        "station": None if station is None else fields(station, "latitude_deg", "longitude_deg"),
        "beams": [_beam(each) for each in result.beams],
        "stack": None if result.stack is None else _stack(result.stack),
        "ring": None if result.ring is None else _ring(result.ring),
        "isolation": plain_rows(isolation_table(result)),
        "notices": notice_rows(result.notices),
    }


def _beam(each: BeamReach) -> dict[str, Any]:
    scan = each.scan
    return {
        "name": each.beam.name,
        "frequency_hz": each.beam.design_frequency,
        "height_m": each.beam.height,
        "take_off_deg": each.take_off_deg,
        "heights": [
            {
                "height_m": float(height),
                "impedance_ohm": [float(z.real), float(z.imag)],
                "lobes": [fields(lobe, "elevation_deg", "gain_dbi") for lobe in lobes],
                "nulls_deg": list(nulls),
            }
            for height, z, lobes, nulls in zip(
                scan.heights, scan.impedance, scan.lobes, scan.nulls_deg, strict=True
            )
        ],
        "splits": [fields(split, "height_m", "lobes", "null_deg") for split in scan.splits],
        "gain_against_height": [
            {
                "elevation_deg": angle,
                "gain_dbi": [float(g) for g in scan.gain_at(elevation_deg=angle)],
            }
            for angle in each.wanted_deg
        ],
        "height_costs": {
            "not_priced_because": plain(each.costs.reason),
            "currency": each.costs.currency,
            "unpriced": list(each.costs.unpriced),
            "estimates": plain_rows(cost_table(each)),
        },
        "advantages": _advantages(each.advantages, at=True),
        "pointing": plain_rows(pointing_table(each)),
        "paths": [_path(each, path) for path in each.paths],
        "terrain": None
        if each.terrain is None
        else fields(each.terrain, "elevation_deg", "gain_dbi"),
        "exposure": None if each.exposure is None else _exposure(each.exposure),
        **({"further_bands": [_further(more) for more in each.further]} if each.further else {}),
    }


def _further(each: BeamReach) -> dict[str, Any]:
    return {"band_hz": list(each.beam.band), **_beam(each)}


def _path(each: BeamReach, path: PathReading) -> dict[str, Any]:
    table = hop_table(each)
    own = [item for item in table.items if item[0] is path]
    hops = zip(plain_rows(replace(table, items=own)), path.hops, strict=True)
    return {
        **fields(path.path, "way", "bearing_deg", "distance_m"),
        **fields(path, "target", "off_heading_deg", "off_heading_db", "turn_time_s"),
        "hops": [{**row, "advantages": _advantages(hop.advantages)} for row, hop in hops],
    }


def _advantages(advantages: Iterable[Advantage], *, at: bool = False) -> list[dict[str, Any]]:
    return [
        {
            "over": each.over,
            **({"elevation_deg": each.elevation_deg} if at else {}),
            "gain_db": each.decibels,
            "s_units": each.s_units,
        }
        for each in advantages
    ]


def _exposure(exposure: ExposureReading) -> dict[str, Any]:
    return {
        "average_power_w": {f"{window / 60.0:g} min": w for window, w in exposure.power.items()},
        **fields(exposure, "peak_gain_dbi", "near_distance_m"),
        "checks": [_check(check) for check in exposure.checks],
        "distances": [
            {
                "standard": each.limit.standard,
                "group": each.limit.group,
                **fields(each, "near_field_m", "far_field_formula_m"),
                "near_field_around": [
                    {"off_heading_deg": angle, "distance_m": distance}
                    for angle, distance in each.around
                ],
            }
            for each in exposure.distances
        ],
    }


def _check(check: LimitCheck) -> dict[str, Any]:
    """Write one place held against one limit."""
    root = math.sqrt(check.power)
    return {
        "place": check.place.place,
        "people": check.place.group,
        "standard": check.limit.standard,
        "group": check.limit.group,
        "applies": check.applies,
        "average_power_w": check.power,
        "electric_v_per_m": check.place.electric * root,
        "magnetic_a_per_m": check.place.magnetic * root,
        "limit_electric_v_per_m": check.limit.electric_field,
        "limit_magnetic_a_per_m": check.limit.magnetic_field,
        "near_field_ratio": check.near.governing,
        "near_field_body_average_ratio": check.averaged.governing,
        "far_field_formula_ratio": check.far.governing,
        **fields(check, "governing_ratio", "method", "margin_db"),
    }


def _stack(stack: StackResult) -> dict[str, Any]:
    gain = stack.gain
    return {
        "beams": [beam.name for beam in stack.beams],
        "frequency_hz": stack.frequency,
        "in_phase_gain_over_best_db": gain.decibels,
        "in_phase_gain_over_best_bare_db": gain.over_bare_db,
        **fields(gain, "error_db", "peak_gain_dbi", "peak_elevation_deg", "power_balance"),
        "feedings": plain_rows(feeding_table(stack)),
        "best": plain_rows(best_table(stack)),
    }


def _ring(ring: RingSweep) -> dict[str, Any]:
    return {
        **fields(ring, "turn_deg"),
        "plan_turn_deg": ring.own_deg,
        "idle_feed": ring.idle,
        **{
            role: {
                **fields(
                    each,
                    "name",
                    "frequency_hz",
                    "elevation_deg",
                    "gain_dbi",
                    "front_to_back_db",
                    "impedance_ohm",
                ),
                "error": {
                    "gain_db": each.gain_error_db,
                    "front_to_back_db": each.front_to_back_error_db,
                    "impedance_ohm": each.impedance_error,
                },
            }
            for role, each in (("fixed", ring.fixed), ("turning", ring.turning))
        },
    }

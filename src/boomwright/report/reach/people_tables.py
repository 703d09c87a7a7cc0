"""The tables of places with people, as page and book both show them."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem
from boomwright.charts import ReadingTable, ShownTable
from boomwright.report.reach.drawing import length_unit, length_words
from boomwright.study.reach_results import ExposureReading

#: short names of the standards, by source
SHORT_STANDARDS = {"cfr-47-1-1310": "47 CFR 1.1310", "icnirp-2020": "ICNIRP 2020"}


def check_table(exposure: ExposureReading, *, system: UnitSystem = "metric") -> ShownTable:
    """List every place with people against every limit."""
    rows = []
    for check in exposure.checks:
        root, limit = math.sqrt(check.power), check.limit
        rows.append(
            (
                check.place.place,
                SHORT_STANDARDS.get(limit.source, limit.standard),
                limit.group + ("" if check.applies else ", for comparison"),
                f"{100.0 * (check.near.governing or 0.0):.1f} %",
                f"{100.0 * (check.averaged.governing or 0.0):.1f} %",
                f"{100.0 * (check.far.governing or 0.0):.1f} %",
                f"{check.margin_db:.1f} dB, {check.method}",
                f"{check.power:.0f} in {limit.averaging_time / 60.0:g} min",
                f"{check.place.electric * root:.1f} of {limit.electric_field or 0.0:.1f}",
                f"{check.place.magnetic * root:.3f} of {limit.magnetic_field or 0.0:.3f}",
            )
        )
    return ShownTable(
        name="places",
        caption="Places with people held against the limits",
        table=ReadingTable(
            header=(
                "place",
                "limit",
                "group",
                "near field, greatest",
                "over the body",
                "formula",
                "margin by the stricter",
                "average power, W",
                "E, V/m",
                "H, A/m",
            ),
            rows=tuple(rows),
        ),
        note=(
            "Near field: computed, the larger of E and H squared over the limit squared, greatest "
            "on the body; over the body: averaged from head to feet, as whole-body limits allow. "
            "The margin holds the greatest, the stricter of the two. Formula: "
            f"far field of OET 65 with {exposure.peak_gain_dbi:.1f} dBi on the place and a "
            "1.6-fold ground reflection; within "
            f"{length_words(exposure.near_distance, system)} of the antenna only the near field is "
            "a true picture. Line loss is not taken off."
        ),
    )


def distance_table(exposure: ExposureReading, *, system: UnitSystem = "metric") -> ShownTable:
    """List how far from the mast each limit is kept."""
    unit, name = length_unit(system)
    return ShownTable(
        name="distances",
        caption="How far from the mast each limit is exceeded at head height",
        table=ReadingTable(
            header=(
                "limit",
                "group",
                f"ahead, {name}",
                *(f"{angle:g}° off" for angle, _ in exposure.distances[0].around),
                f"formula, from the antenna, {name}",
            ),
            rows=tuple(
                (
                    SHORT_STANDARDS.get(each.limit.source, each.limit.standard),
                    each.limit.group,
                    *(
                        f"{distance / unit:.1f}" if distance else "nowhere"
                        for distance in (each.near, *(far for _, far in each.around))
                    ),
                    f"{each.far / unit:.1f}",
                )
                for each in exposure.distances
            ),
        ),
        note="Computed near field, greatest of E and H; the formula aims the lobe at the place.",
    )

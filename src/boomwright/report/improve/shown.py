"""What searches found of a beam, as page and book both show it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boomwright.base import UnitSystem, length_text
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownSubject, ShownTable
from boomwright.charts.build_tolerance import tolerance_sentence, tolerance_table
from boomwright.charts.spacing_comparison import (
    SpacingCurves,
    spacing_band_table,
    spacing_gain_chart,
    spacing_pattern,
    spacing_sentence,
    spacing_swr_chart,
    spacing_table,
)
from boomwright.report.improve.records import spacing_curves, tolerance_from

_WIDTH = 520.0
#: azimuths in the table behind the patterns, every so many degrees
_AZIMUTHS = 15


def show_found(
    found: Mapping[str, Any],
    *,
    name: str,
    palette: Palette,
    system: UnitSystem = "metric",
    width: float = _WIDTH,
) -> ShownSubject:
    """Draw what was found of a beam: search, comparison, tolerance, as far as there is.

    Parameters
    ----------
    width
        width of the pictures [user units]
    """
    facts: list[tuple[str, str]] = []
    pictures: list[ShownPicture] = []
    tables: list[ShownTable] = []
    if "search" in found:
        facts += _search_facts(found["search"])
        tables += _search_tables(found["search"], system)
    if found.get("compared"):
        compared = spacing_curves(found["compared"])
        pictures += spacing_pictures(compared, palette=palette, width=width)
        tables.append(_spacings(compared, system))
    if found.get("tolerance"):
        made = tolerance_from(found["tolerance"])
        tables.append(
            ShownTable(
                name="tolerance",
                caption="What building and weather do to the worst figures in the band",
                table=tolerance_table(made=made, system=system),
                note=tolerance_sentence(made=made, system=system),
            )
        )
    return ShownSubject(
        title=f"Size and spacing of {name}",
        facts=tuple(facts),
        pictures=tuple(pictures),
        tables=tuple(tables),
        notices=(),
    )


def spacing_pictures(
    compared: tuple[SpacingCurves, ...], *, palette: Palette, width: float
) -> list[ShownPicture]:
    """Draw even against free spacing: patterns, SWR and gain over each other.

    Parameters
    ----------
    compared
        the ways, each at its best (n,)
    width
        width of the pictures [user units]
    """
    drawn = (
        (
            "spacing-pattern",
            "Azimuth patterns, even against free spacing",
            spacing_pattern(compared=compared, palette=palette, width=width),
            _pattern_table(compared),
        ),
        (
            "spacing-swr",
            "SWR over the band, even against free spacing",
            spacing_swr_chart(compared=compared, palette=palette, width=width),
            spacing_band_table(compared=compared, figure="swr"),
        ),
        (
            "spacing-gain",
            "Gain over the band, even against free spacing",
            spacing_gain_chart(compared=compared, palette=palette, width=width),
            spacing_band_table(compared=compared, figure="gain"),
        ),
    )
    return [
        ShownPicture(
            name=name,
            words=words,
            svg=svg,
            caption=spacing_sentence(compared=compared) if number == 0 else "",
            behind=ShownTable(name=name, caption=words, table=table),
            units=width,
        )
        for number, (name, words, svg, table) in enumerate(drawn)
    ]


def _pattern_table(compared: tuple[SpacingCurves, ...]) -> ReadingTable:
    """Gain of each way towards whole steps of azimuth."""
    angles = compared[0].azimuth.angle_deg
    rows = [
        (f"{angles[i]:.0f}", *(f"{one.azimuth.gain_dbi[i]:.2f}" for one in compared))
        for i in range(len(angles))
        if angles[i] <= 180.0 and angles[i] % _AZIMUTHS == 0.0
    ]
    return ReadingTable(
        header=("azimuth, deg", *(f"{one.spacing}, dBi" for one in compared)), rows=tuple(rows)
    )


def _spacings(compared: tuple[SpacingCurves, ...], system: UnitSystem) -> ShownTable:
    free = compared[-1]
    wins = [
        f"{round(free.worst[0] - one.worst[0], 2) + 0.0:+.2f} dB against {one.spacing}"
        for one in compared[:-1]
    ]
    told = (
        f"Gain of free spacing: {', '.join(wins)}. Each is the best by the wishes, which may weigh "
        "more than gain."
    )
    return ShownTable(
        name="spacings",
        caption="Even against free spacing, each at its best: worst in the band",
        table=spacing_table(compared=compared, system=system),
        note=told if free.spacing == "free" else "",
    )


def _search_facts(search: Mapping[str, Any]) -> list[tuple[str, str]]:
    chosen = search["searches"][search["chosen"]]
    return [
        ("Wanted", "; ".join(search["wish"])),
        ("Search", f"{sum(one['starts'] for one in search['searches'])} starts, seed "
         f"{search['seed']}, {'finished' if search['finished'] else 'stopped early'}"),
        ("Agreement", f"{chosen['agreeing']} of {chosen['starts']} starts ended within 0.02 dB "
         "of the best"),
        ("Limits", "all kept" if search["kept"] else "not all kept; this beam breaks them least"),
    ]  # fmt: skip


def _search_tables(search: Mapping[str, Any], system: UnitSystem) -> list[ShownTable]:
    rows = []
    for name in ("before", "after"):
        worst = search[name]["worst"]
        boom = length_text(search[name]["boom_m"], system=system)
        rows.append(
            (name, f"{worst['gain_dbi']:.2f}", f"{worst['front_to_back_db']:.1f}",
             f"{worst['front_to_rear_db']:.1f}", f"{worst['swr']:.2f}", boom)
        )  # fmt: skip
    return [
        ShownTable(
            name="searched",
            caption="Worst in the band before and after the search, free space",
            table=ReadingTable(
                header=(
                    "beam",
                    "gain, dBi",
                    "front to back, dB",
                    "front to rear, dB",
                    "SWR",
                    "boom",
                ),
                rows=tuple(rows),
            ),
        ),
        ShownTable(
            name="moved",
            caption="Places and lengths before and after the search",
            table=_moved(search, system),
        ),
    ]


def _moved(search: Mapping[str, Any], system: UnitSystem) -> ReadingTable:
    before, after = (
        sorted(search[name]["elements"], key=lambda each: each["at_m"])
        for name in ("before", "after")
    )
    rows = []
    for number, new in enumerate(after):
        old = before[number] if number < len(before) else None
        was = [
            "new" if old is None else length_text(old[key], system=system)
            for key in ("at_m", "length_m")
        ]
        rows.append(
            (
                f"{number + 1} {new['role']}",
                length_text(new["at_m"], system=system),
                was[0],
                length_text(new["length_m"], system=system),
                was[1],
            )
        )
    return ReadingTable(header=("element", "at", "was", "length", "was"), rows=tuple(rows))

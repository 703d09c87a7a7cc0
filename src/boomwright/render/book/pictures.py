"""The figures of the book: SVG with a caption and words for readers who cannot see it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from boomwright.base import UnitSystem, length_text
from boomwright.charts import (
    azimuth_pattern,
    current_chart,
    current_phasors,
    element_detail,
    elevation_pattern,
    gain_chart,
    impedance_chart,
    lobe_chart,
    plan_view,
    sweep_chart,
)
from boomwright.charts.canvas import FONT_FAMILY as SCREEN_FONTS
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.parts import Assembly
from boomwright.reach import BeamReadings
from boomwright.render.book.fonts import FONT_FAMILY
from boomwright.render.rows import fact_rows
from boomwright.report.beam.facts import headline
from boomwright.report.beam.measured import seen_readings, seen_words
from boomwright.report.build.shop import ShopElement, rounded_beam
from boomwright.report.site import ground_text
from boomwright.report.wording import fixed, held_at, megahertz, surrounded
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

#: an SVG with its caption, its text alternative and its width on paper [pt]
Picture = dict[str, Any]

# Figures draw in units of which one is this wide on paper: 8.5 units of lettering become
# 6.8 points, and 600 units fill the text width of A4.
_POINTS_PER_UNIT = 0.8
_FULL, _PATTERN, _CHART = 600.0, 540.0, 520.0


def print_svg(svg: str) -> str:
    """Give a picture the one font of the book; figures name fonts of a browser."""
    return svg.replace(f'font-family="{SCREEN_FONTS}"', f'font-family="{FONT_FAMILY}"')


def _picture(svg: str, *, units: float, caption: str, alt: str = "") -> Picture:
    return {
        "svg": print_svg(svg),
        "caption": caption,
        "alt": alt or caption,
        "width": units * _POINTS_PER_UNIT,
    }


def plan_picture(
    readings: BeamReadings,
    *,
    elements: Sequence[ShopElement],
    station: Assembly,
    system: UnitSystem,
) -> Picture:
    """Draw the beam from above with its dimensions."""
    return _picture(
        plan_view(
            beam=rounded_beam(elements, beam=readings.beam, system=system),
            station=station,
            palette=PRINT_PALETTE,
            system=system,
            width=_FULL,
        ),
        units=_FULL,
        caption="Plan view from above, to scale. The heading is to the right; the crossed circle "
        "is what the beam turns about.",
    )


def detail_picture(readings: BeamReadings, *, element: ShopElement, system: UnitSystem) -> Picture:
    """Draw one half of an element, tube by tube."""
    label = element.cut.label
    name = "driven element" if label == "driven" else label
    return _picture(
        element_detail(
            beam=rounded_beam((element,), beam=readings.beam, system=system),
            index=element.cut.index,
            palette=PRINT_PALETTE,
            system=system,
            width=_FULL,
        ),
        units=_FULL,
        caption=f"{name[0].upper()}{name[1:]}: one half, boom at the left.",
    )


def pattern_pictures(readings: BeamReadings) -> list[Picture]:
    """Draw the patterns without the owner's ground."""
    at, around = megahertz(readings.free_space.frequency), surrounded(readings.beam)
    facts = fact_rows(headline(readings, None), system="metric")  # no lengths among them
    numbers = "; ".join(f"{label} {value}" for label, value in facts)
    return [
        _picture(
            azimuth_pattern(
                cuts=[readings.azimuth_pattern],
                labels=[around.removeprefix("in ")],
                palette=PRINT_PALETTE,
                width=_PATTERN,
            ),
            units=_PATTERN,
            caption=f"Azimuth pattern {around} at elevation 0°, {at}. Gain in dBi.",
            alt=f"Azimuth pattern {around} at {at}. {numbers}.",
        ),
        _picture(
            elevation_pattern(
                cuts=[readings.elevation_pattern],
                labels=[around.removeprefix("in ")],
                palette=PRINT_PALETTE,
                width=_PATTERN,
            ),
            units=_PATTERN,
            caption=f"Elevation pattern {around} through the heading, {at}. Gain in dBi.",
        ),
    ]


def ground_pictures(readings: BeamReadings, *, system: UnitSystem) -> list[Picture]:
    """Draw the patterns over the owner's ground; nothing when the plan says free space."""
    over = readings.over_ground
    if over is None:
        return []
    height = f"{fixed(over.height, 2)} m"
    height = height if system == "metric" else length_text(over.height, system=system)
    at = f"{held_at(readings.beam)} at ".lstrip()
    where = f"{at}{height} over {ground_text(over.ground)}"
    label = ["over ground"]
    return [
        _picture(
            lobe_chart(over_ground=over, palette=PRINT_PALETTE, system=system, width=_CHART),
            units=_CHART,
            caption=f"Lobes towards the heading; {where}.",
        ),
        _picture(
            elevation_pattern(
                cuts=[over.elevation_pattern], labels=label, palette=PRINT_PALETTE, width=_PATTERN
            ),
            units=_PATTERN,
            caption=f"Elevation pattern through the heading; {where}.",
        ),
        _picture(
            azimuth_pattern(
                cuts=[over.azimuth_pattern], labels=label, palette=PRINT_PALETTE, width=_PATTERN
            ),
            units=_PATTERN,
            caption=(
                f"Azimuth pattern at the take-off angle, {fixed(over.peak_elevation_deg, 1)}°; "
                f"{where}."
            ),
        ),
    ]


def band_pictures(
    readings: BeamReadings, measured: AsMeasured | NotMeasured | None
) -> list[Picture]:
    """Draw the figures over the band."""
    seen = seen_readings(readings, measured)
    against, around = f"{seen.reference_resistance:g} ohm", surrounded(readings.beam)
    return [
        _picture(
            sweep_chart(readings=seen, palette=PRINT_PALETTE, width=_CHART),
            units=_CHART,
            caption=f"Standing wave ratio over the band against {against}, "
            f"{seen_words(readings, measured)}. Shaded: its error band, where wider than the line.",
        ),
        _picture(
            impedance_chart(readings=readings, palette=PRINT_PALETTE, width=_CHART),
            units=_CHART,
            caption=f"Feed-point resistance and reactance over the band, {around}.",
        ),
        _picture(
            gain_chart(readings=readings, palette=PRINT_PALETTE, width=_CHART),
            units=_CHART,
            caption=f"Gain and front-to-back ratio over the band, {around}.",
        ),
    ]


def current_pictures(readings: BeamReadings, *, system: UnitSystem) -> list[Picture]:
    """Draw the element currents."""
    at = megahertz(readings.free_space.frequency)
    return [
        _picture(
            current_chart(
                currents=readings.currents, palette=PRINT_PALETTE, system=system, width=_FULL
            ),
            units=_FULL,
            caption=f"Current along each element at {at}, for 1 A at the feed.",
        ),
        _picture(
            current_phasors(currents=readings.currents, palette=PRINT_PALETTE, width=_PATTERN),
            units=_PATTERN,
            caption=f"Current at the centre of each element at {at}, size and phase.",
        ),
    ]

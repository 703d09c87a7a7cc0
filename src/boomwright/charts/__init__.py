"""Figures: the room that draws. Readings in, SVG text out; nothing is computed anew here.

Every picture is one function from frozen readings to a string. The same text stands on the
page, in the book and in the docs: presentation attributes only, no style sheet, no script, text
as text. In every picture the beam fires to the right. Each carries a title, a sentence with
its numbers, the mapping from values to places, and its data in ``data-`` attributes.

Two palettes, :data:`LIGHT` and :data:`DARK`; series differ by dash and marker as well as colour.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.charts.advice import StationPoint, advice_chart
    from boomwright.charts.beam.currents import current_chart, current_phasors
    from boomwright.charts.beam.element_detail import element_detail
    from boomwright.charts.beam.frontier import TradeOffCurve, trade_off_chart
    from boomwright.charts.beam.mast_view import mast_view
    from boomwright.charts.beam.pattern_summary import pattern_summary
    from boomwright.charts.beam.patterns import azimuth_pattern, elevation_pattern
    from boomwright.charts.beam.plan_frame import element_labels
    from boomwright.charts.beam.plan_view import plan_view
    from boomwright.charts.beam.sweeps import gain_chart, impedance_chart, sweep_chart
    from boomwright.charts.beam.wave_frame import full_colour, wave_frame
    from boomwright.charts.beam.wave_sentences import share_sentence, wave_sentence
    from boomwright.charts.feed.adjustment_map import adjustment_map, adjustment_table
    from boomwright.charts.feed.match_chain import stage_words
    from boomwright.charts.feed.match_schematic import match_schematic, schematic_table
    from boomwright.charts.feed.reflection_chart import reflection_chart
    from boomwright.charts.line_charts import line_chart
    from boomwright.charts.palette import LIGHT, Palette
    from boomwright.charts.reach.airport_slope import airport_slopes
    from boomwright.charts.reach.height_costs import height_cost_chart
    from boomwright.charts.reach.heights import height_chart, height_map
    from boomwright.charts.reach.hop_angles import HopBar, hop_angles
    from boomwright.charts.reach.lobe_steps import lobe_steps
    from boomwright.charts.reach.lobes import lobe_chart
    from boomwright.charts.reach.people import LEAST_SHADE, people_map
    from boomwright.charts.reach.place_map import place_map
    from boomwright.charts.reach.station_map import station_map
    from boomwright.charts.shown import (
        ReadingTable,
        ShownPicture,
        ShownStep,
        ShownSubject,
        ShownTable,
    )
    from boomwright.charts.structure.boom import boom_chart
    from boomwright.charts.structure.elements import droop_chart, element_stress_chart
    from boomwright.charts.structure.guys import guy_chart
    from boomwright.charts.structure.ledger import ledger_chart
    from boomwright.charts.structure.site_plan import site_plan
    from boomwright.charts.structure.station_elevation import (
        PERSON,
        station_elevation,
        station_profile,
    )
    from boomwright.charts.structure.wind_polar import wind_polar, wind_sentences

__getattr__ = on_demand(__name__)

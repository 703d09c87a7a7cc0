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
    from boomwright.charts.advice import StationPoint as StationPoint
    from boomwright.charts.advice import advice_chart as advice_chart
    from boomwright.charts.beam.currents import current_chart as current_chart
    from boomwright.charts.beam.currents import current_phasors as current_phasors
    from boomwright.charts.beam.element_detail import element_detail as element_detail
    from boomwright.charts.beam.element_names import element_labels as element_labels
    from boomwright.charts.beam.frontier import TradeOffCurve as TradeOffCurve
    from boomwright.charts.beam.frontier import trade_off_chart as trade_off_chart
    from boomwright.charts.beam.mast_view import mast_view as mast_view
    from boomwright.charts.beam.pattern_summary import pattern_summary as pattern_summary
    from boomwright.charts.beam.patterns import azimuth_pattern as azimuth_pattern
    from boomwright.charts.beam.patterns import elevation_pattern as elevation_pattern
    from boomwright.charts.beam.plan_view import plan_view as plan_view
    from boomwright.charts.beam.sweeps import gain_chart as gain_chart
    from boomwright.charts.beam.sweeps import impedance_chart as impedance_chart
    from boomwright.charts.beam.sweeps import sweep_chart as sweep_chart
    from boomwright.charts.beam.wave_frame import full_colour as full_colour
    from boomwright.charts.beam.wave_frame import wave_frame as wave_frame
    from boomwright.charts.beam.wave_sentences import share_sentence as share_sentence
    from boomwright.charts.beam.wave_sentences import wave_sentence as wave_sentence
    from boomwright.charts.feed.adjustment_map import adjustment_map as adjustment_map
    from boomwright.charts.feed.adjustment_map import adjustment_table as adjustment_table
    from boomwright.charts.feed.match_chain import stage_words as stage_words
    from boomwright.charts.feed.match_schematic import match_schematic as match_schematic
    from boomwright.charts.feed.match_schematic import schematic_table as schematic_table
    from boomwright.charts.feed.reflection_chart import reflection_chart as reflection_chart
    from boomwright.charts.line_charts import line_chart as line_chart
    from boomwright.charts.palette import LIGHT as LIGHT
    from boomwright.charts.palette import Palette as Palette
    from boomwright.charts.reach.airport_slope import airport_slopes as airport_slopes
    from boomwright.charts.reach.height_costs import height_cost_chart as height_cost_chart
    from boomwright.charts.reach.heights import height_chart as height_chart
    from boomwright.charts.reach.heights import height_map as height_map
    from boomwright.charts.reach.hop_angles import HopBar as HopBar
    from boomwright.charts.reach.hop_angles import hop_angles as hop_angles
    from boomwright.charts.reach.lobe_steps import lobe_steps as lobe_steps
    from boomwright.charts.reach.lobes import lobe_chart as lobe_chart
    from boomwright.charts.reach.people import LEAST_SHADE as LEAST_SHADE
    from boomwright.charts.reach.people import people_map as people_map
    from boomwright.charts.reach.place_map import place_map as place_map
    from boomwright.charts.reach.station_map import station_map as station_map
    from boomwright.charts.shown import ShownChange as ShownChange
    from boomwright.charts.shown import ShownOffer as ShownOffer
    from boomwright.charts.shown import ShownPicture as ShownPicture
    from boomwright.charts.shown import ShownSubject as ShownSubject
    from boomwright.charts.shown import ShownTable as ShownTable
    from boomwright.charts.structure.boom import boom_chart as boom_chart
    from boomwright.charts.structure.elements import droop_chart as droop_chart
    from boomwright.charts.structure.elements import element_stress_chart as element_stress_chart
    from boomwright.charts.structure.guys import guy_chart as guy_chart
    from boomwright.charts.structure.ledger import ledger_chart as ledger_chart
    from boomwright.charts.structure.site_plan import site_plan as site_plan
    from boomwright.charts.structure.station_elevation import PERSON as PERSON
    from boomwright.charts.structure.station_elevation import station_elevation as station_elevation
    from boomwright.charts.structure.station_elevation import station_profile as station_profile
    from boomwright.charts.structure.wind_polar import wind_polar as wind_polar
    from boomwright.charts.structure.wind_polar import wind_sentences as wind_sentences
    from boomwright.charts.tables import ReadingTable as ReadingTable
    from boomwright.charts.tables import ShownStep as ShownStep

__getattr__ = on_demand(
    __name__,
    {
        "advice": "StationPoint advice_chart",
        "beam.currents": "current_chart current_phasors",
        "beam.element_detail": "element_detail",
        "beam.element_names": "element_labels",
        "beam.frontier": "TradeOffCurve trade_off_chart",
        "beam.pattern_summary": "pattern_summary",
        "beam.patterns": "azimuth_pattern elevation_pattern",
        "beam.mast_view": "mast_view",
        "beam.plan_view": "plan_view",
        "beam.sweeps": "gain_chart impedance_chart sweep_chart",
        "beam.wave_frame": "full_colour wave_frame",
        "beam.wave_sentences": "share_sentence wave_sentence",
        "feed.adjustment_map": "adjustment_map adjustment_table",
        "feed.match_chain": "stage_words",
        "feed.match_schematic": "match_schematic schematic_table",
        "feed.reflection_chart": "reflection_chart",
        "line_charts": "line_chart",
        "palette": "LIGHT Palette",
        "reach.airport_slope": "airport_slopes",
        "reach.height_costs": "height_cost_chart",
        "reach.heights": "height_chart height_map",
        "reach.hop_angles": "HopBar hop_angles",
        "reach.lobe_steps": "lobe_steps",
        "reach.lobes": "lobe_chart",
        "reach.people": "LEAST_SHADE people_map",
        "reach.place_map": "place_map",
        "reach.station_map": "station_map",
        "shown": "ShownChange ShownOffer ShownPicture ShownSubject ShownTable",
        "structure.boom": "boom_chart",
        "structure.elements": "droop_chart element_stress_chart",
        "structure.guys": "guy_chart",
        "structure.ledger": "ledger_chart",
        "structure.site_plan": "site_plan",
        "structure.station_elevation": "PERSON station_elevation station_profile",
        "structure.wind_polar": "wind_polar wind_sentences",
        "tables": "ReadingTable ShownStep",
    },
)

"""Figures: the room that draws. Readings in, SVG text out; nothing is computed anew here.

Every picture is one function from frozen readings to a string. The same text stands on the
page, in the book and in the docs: presentation attributes only, no style sheet, no script, text
as text. In every picture the beam fires to the right. Each carries a title, a sentence with
its numbers, the mapping from values to places, and its data in ``data-`` attributes.

Two palettes, :data:`LIGHT` and :data:`DARK`; series differ by dash and marker as well as colour.
"""

from boomwright.charts.adjustment_map import adjustment_map, adjustment_table
from boomwright.charts.airport_slope import airport_slopes, airport_table
from boomwright.charts.currents import current_chart, current_phasors
from boomwright.charts.element_detail import element_detail
from boomwright.charts.element_names import element_labels
from boomwright.charts.frontier import (
    TradeOffCurve,
    trade_off_chart,
    trade_off_sentence,
    trade_off_table,
)
from boomwright.charts.height_costs import height_cost_chart
from boomwright.charts.heights import height_chart, height_map
from boomwright.charts.hop_angles import HopBar, hop_angles
from boomwright.charts.line_chart import line_chart
from boomwright.charts.lobe_steps import lobe_steps
from boomwright.charts.lobes import lobe_chart
from boomwright.charts.match_chain import stage_words
from boomwright.charts.match_schematic import match_schematic, schematic_table
from boomwright.charts.palette import DARK, LIGHT, Palette, contrast_ratio
from boomwright.charts.pattern_summary import PatternSummary, pattern_summary
from boomwright.charts.patterns import azimuth_pattern, elevation_pattern
from boomwright.charts.people import people_map
from boomwright.charts.plan_view import plan_view, turning_radius
from boomwright.charts.reflection_chart import reflection_chart
from boomwright.charts.sentences import summary_sentence
from boomwright.charts.shown import ShownChange, ShownPicture, ShownSubject, ShownTable
from boomwright.charts.spacing_comparison import (
    SpacingCurves,
    spacing_gain_chart,
    spacing_pattern,
    spacing_sentence,
    spacing_swr_chart,
)
from boomwright.charts.station_clearances import clearance_table
from boomwright.charts.station_elevation import station_elevation
from boomwright.charts.station_map import station_map
from boomwright.charts.structure_boom import boom_chart
from boomwright.charts.structure_elements import (
    droop_chart,
    element_stress_chart,
)
from boomwright.charts.structure_guys import guy_chart
from boomwright.charts.structure_ledger import ledger_chart
from boomwright.charts.sweeps import gain_chart, impedance_chart, sweep_chart
from boomwright.charts.tables import ReadingTable
from boomwright.charts.wave_frame import full_colour, wave_frame
from boomwright.charts.wave_sentences import share_sentence, wave_sentence
from boomwright.charts.wind_polar import wind_polar, wind_sentences

__all__ = [
    "DARK",
    "LIGHT",
    "HopBar",
    "Palette",
    "PatternSummary",
    "ReadingTable",
    "ShownChange",
    "ShownPicture",
    "ShownSubject",
    "ShownTable",
    "SpacingCurves",
    "TradeOffCurve",
    "adjustment_map",
    "adjustment_table",
    "airport_slopes",
    "airport_table",
    "azimuth_pattern",
    "boom_chart",
    "clearance_table",
    "contrast_ratio",
    "current_chart",
    "current_phasors",
    "droop_chart",
    "element_detail",
    "element_labels",
    "element_stress_chart",
    "elevation_pattern",
    "full_colour",
    "gain_chart",
    "guy_chart",
    "height_chart",
    "height_cost_chart",
    "height_map",
    "hop_angles",
    "impedance_chart",
    "ledger_chart",
    "line_chart",
    "lobe_chart",
    "lobe_steps",
    "match_schematic",
    "pattern_summary",
    "people_map",
    "plan_view",
    "reflection_chart",
    "schematic_table",
    "share_sentence",
    "spacing_gain_chart",
    "spacing_pattern",
    "spacing_sentence",
    "spacing_swr_chart",
    "stage_words",
    "station_elevation",
    "station_map",
    "summary_sentence",
    "sweep_chart",
    "trade_off_chart",
    "trade_off_sentence",
    "trade_off_table",
    "turning_radius",
    "wave_frame",
    "wave_sentence",
    "wind_polar",
    "wind_sentences",
]

"""Figures: the room that draws. Readings in, SVG text out; nothing is computed anew here.

Every picture is one function from frozen readings to a string. The same text stands on the
page, in the book and in the docs: presentation attributes only, no style sheet, no script, text
as text. In every picture the beam fires to the right. Each carries a title, a sentence with
its numbers, the mapping from values to places, and its data in ``data-`` attributes.

Two palettes, :data:`LIGHT` and :data:`DARK`; series differ by dash and marker as well as colour.
"""

from boomwright.figures.currents import current_chart, current_phasors
from boomwright.figures.element_detail import element_detail
from boomwright.figures.element_names import element_labels
from boomwright.figures.heights import height_chart, height_map, height_table
from boomwright.figures.line_chart import line_chart
from boomwright.figures.lobes import lobe_chart
from boomwright.figures.palette import DARK, LIGHT, Palette, contrast_ratio
from boomwright.figures.pattern_summary import PatternSummary, pattern_summary
from boomwright.figures.patterns import azimuth_pattern, elevation_pattern
from boomwright.figures.people import people_map
from boomwright.figures.plan_view import plan_view, turning_radius
from boomwright.figures.sentences import summary_sentence
from boomwright.figures.shown import ShownPicture, ShownSubject, ShownTable
from boomwright.figures.station_map import station_map
from boomwright.figures.sweeps import gain_chart, impedance_chart, sweep_chart
from boomwright.figures.tables import ReadingTable, reading_table

__all__ = [
    "DARK",
    "LIGHT",
    "Palette",
    "PatternSummary",
    "ReadingTable",
    "ShownPicture",
    "ShownSubject",
    "ShownTable",
    "azimuth_pattern",
    "contrast_ratio",
    "current_chart",
    "current_phasors",
    "element_detail",
    "element_labels",
    "elevation_pattern",
    "gain_chart",
    "height_chart",
    "height_map",
    "height_table",
    "impedance_chart",
    "line_chart",
    "lobe_chart",
    "pattern_summary",
    "people_map",
    "plan_view",
    "reading_table",
    "station_map",
    "summary_sentence",
    "sweep_chart",
    "turning_radius",
]

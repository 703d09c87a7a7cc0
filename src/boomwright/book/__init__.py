"""The book: results turned into documents, as bytes.

:func:`make_book` sets the PDF that goes to the workshop and to the file: title block, inputs,
summary, dimensions in both unit systems, figures, sweep, every notice, the method, the
sources and the usual cautions. :func:`cut_list_csv` gives the same dimensions to a
spreadsheet and :func:`plan_view_dxf` the plan view to a CAD program. All take values and
return bytes; writing them somewhere is the business of the app.

The work sheets (``work_cost``, ``work_build``, ``work_raising``, ``work_upkeep``) are blocks that
the page lays out too. ``shop`` has the figures of the workshop, ``shop_drawings`` its drawings,
each one description for SVG, PDF and :func:`drawing_dxf`; :func:`assembly_glb` is the beam in 3D
and :func:`upkeep_calendar` the dates after the lift.

Look in ``dimensions`` for how lengths are rounded, in ``contents`` for what is printed, in
``templates`` for how it looks. The owner's text reaches the template only as data.
"""

from boomwright.book.assembly_gltf import MastPiece, assembly_glb
from boomwright.book.chapters import Chapter
from boomwright.book.citations import cited_cells
from boomwright.book.cut_list_table import cut_list_csv
from boomwright.book.drawing_dxf import drawing_dxf
from boomwright.book.plan_drawing import plan_view_dxf
from boomwright.book.typesetting import Paper, make_book
from boomwright.book.upkeep_calendar import upkeep_calendar

__all__ = [
    "Chapter",
    "MastPiece",
    "Paper",
    "assembly_glb",
    "cited_cells",
    "cut_list_csv",
    "drawing_dxf",
    "make_book",
    "plan_view_dxf",
    "upkeep_calendar",
]

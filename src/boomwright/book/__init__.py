"""The book: results turned into documents, as bytes.

:func:`make_book` sets the PDF that goes to the workshop and to the file: title block, inputs,
summary, dimensions in both unit systems, figures, sweep, every notice, the method, the
sources and the usual cautions. :func:`cut_list_csv` gives the same dimensions to a
spreadsheet and :func:`plan_view_dxf` the plan view to a CAD program. All take values and
return bytes; writing them somewhere is the business of the app.

Look in ``dimensions`` for how lengths are rounded, in ``contents`` for what is printed, in
``templates`` for how it looks. The owner's text reaches the template only as data.
"""

from boomwright.book.cut_list_table import cut_list_csv
from boomwright.book.plan_drawing import plan_view_dxf
from boomwright.book.typesetting import Paper, make_book

__all__ = ["Paper", "cut_list_csv", "make_book", "plan_view_dxf"]

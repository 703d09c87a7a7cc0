"""A workshop drawing as a CAD file: true scale, the reader's unit, one layer a kind of line."""

from __future__ import annotations

import io
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from ezdxf import units
from ezdxf._options import options
from ezdxf.document import Drawing as CadDocument
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from boomwright.base import METRES_PER_INCH, UnitSystem
from boomwright.charts.drawing import (
    Bore,
    Drawing,
    DrawnTube,
    Face,
    Layer,
    Measure,
    Note,
    Reading,
    Ring,
    Shape,
    Stroke,
    headed,
    reading_notes,
    scaled,
)
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.report.build.plan_view import plan_view

_STYLE: Final = "BOOMWRIGHT"
# name: colour index (7 prints black), line type, line weight [mm/100]
_LAYERS: Final[dict[Layer, tuple[int, str, int]]] = {
    "SOLIDS": (7, "Continuous", 25),
    "TUBES": (7, "Continuous", 35),
    "HIDDEN": (8, "DASHED", 18),
    "CENTRE": (8, "CENTER", 13),
    "HOLES": (1, "Continuous", 35),
    "OUTLINE": (7, "Continuous", 50),
    "DIMENSIONS": (3, "Continuous", 18),
    "TEXT": (7, "Continuous", 18),
}
_ALIGN: Final = {
    "start": TextEntityAlignment.MIDDLE_LEFT,
    "middle": TextEntityAlignment.MIDDLE_CENTER,
    "end": TextEntityAlignment.MIDDLE_RIGHT,
}


# The library stamps each file with the clock and random ids unless this process-wide option
# is set; the lock keeps two threads from switching it off under each other.
_STAMP_LOCK = threading.Lock()


@contextmanager
def _fixed_stamps() -> Iterator[None]:
    """Write files without clock and random ids while this is open."""
    with _STAMP_LOCK:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before


def _dxf_bytes(doc: CadDocument) -> bytes:
    """Write a drawing as UTF-8; the same drawing gives the same bytes."""
    # The library goes through a set of these; each run of Python orders one differently.
    for name in sorted(doc.entitydb.dxf_types_in_use()):
        doc.classes.add_class(name)
    stream = io.StringIO(newline="")
    doc.write(stream)
    return stream.getvalue().encode("utf-8")


def _one_line(text: str) -> str:
    """Write owner's text so that no CAD reader takes part of it for a control code."""
    clean = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    return clean.replace("^", "^ ").replace("%%", "% %").replace("\\U+", "\\ U+")


def plan_view_dxf(
    plan: Plan, beam: Beam, *, system: UnitSystem = "metric", stamp: str = ""
) -> bytes:
    """Write a beam from above as DXF.

    Args:
        stamp: what stands against building from it, written above the title; empty when nothing
            does
    """
    drawing = headed(plan_view(plan, beam, system=system), title=True, stamps=(stamp,))
    return drawing_dxf(drawing, system=system)


def drawing_dxf(drawing: Drawing, *, system: UnitSystem = "metric") -> bytes:
    """Write a workshop drawing as DXF.

    Returns:
        a DXF file, release R2010, UTF-8, at true scale; tubes are outlines of their true diameter
        whatever a picture does; every length, reading and hole is a dimension entity that measures
        what is drawn; the same drawing gives the same bytes
    """
    drawn = drawing if system == "metric" else scaled(drawing, 1e-3 / METRES_PER_INCH)
    with _fixed_stamps():
        doc = _document(drawn, system)
        space = doc.modelspace()
        for shape in drawn.shapes:
            _add(space, shape, drawn)
        return _dxf_bytes(doc)


def _document(drawing: Drawing, system: UnitSystem) -> CadDocument:
    metric = system == "metric"
    doc = new("R2010", setup=["linetypes"], units=units.MM if metric else units.IN)
    doc.header["$MEASUREMENT"] = int(metric)
    doc.header["$LTSCALE"] = drawing.text_height / 2.0
    doc.header["$DIMSTYLE"] = _STYLE
    left, bottom, right, top = drawing.extents
    doc.header["$EXTMIN"] = (left, bottom, 0.0)
    doc.header["$EXTMAX"] = (right, top, 0.0)
    for name, (colour, linetype, weight) in _LAYERS.items():
        doc.layers.add(name, color=colour, linetype=linetype, lineweight=weight)
    style = doc.dimstyles.new(_STYLE)
    style.dxf.dimtxt = style.dxf.dimasz = drawing.text_height
    style.dxf.dimexe = style.dxf.dimexo = 0.5 * drawing.text_height
    style.dxf.dimgap = 0.4 * drawing.text_height
    style.dxf.dimtad = 1
    style.dxf.dimscale = 1.0
    style.dxf.dimtix = 1
    style.dxf.dimtxsty = "Standard"
    style.dxf.dimdec = 1 if metric else 3
    return doc


def _add(space: Modelspace, shape: Shape, drawing: Drawing) -> None:
    match shape:
        case DrawnTube():
            _add_tube(space, shape)
        case Stroke():
            _add_line(space, shape.points, shape.layer, closed=shape.closed)
        case Face():
            _add_line(space, shape.points, "SOLIDS", closed=True)
        case Ring():
            space.add_circle(shape.centre, 0.5 * shape.diameter, dxfattribs={"layer": shape.layer})
        case Bore():
            _add_bore(space, shape)
        case Reading():
            _add_reading(space, shape, drawing)
        case Note():
            _add_note(space, shape, drawing)
        case Measure():
            _add_measure(space, shape)


def _add_line(
    space: Modelspace, points: tuple[tuple[float, float], ...], layer: Layer, *, closed: bool
) -> None:
    space.add_lwpolyline(list(points), close=closed, dxfattribs={"layer": layer})


def _add_note(space: Modelspace, note: Note, drawing: Drawing) -> None:
    space.add_text(
        _one_line(note.text),
        height=note.size * drawing.text_height,
        rotation=90.0 if note.upright else 0.0,
        dxfattribs={"layer": note.layer},
    ).set_placement(note.at, align=_ALIGN[note.anchor])


def _add_bore(space: Modelspace, bore: Bore) -> None:
    space.add_circle(bore.centre, 0.5 * bore.diameter, dxfattribs={"layer": "HOLES"})
    if bore.text:
        space.add_diameter_dim(
            center=bore.centre,
            radius=0.5 * bore.diameter,
            location=bore.label,
            text=_one_line(bore.text),
            dimstyle=_STYLE,
            dxfattribs={"layer": "DIMENSIONS"},
        ).render()


def _add_reading(space: Modelspace, reading: Reading, drawing: Drawing) -> None:
    x = reading.at[0] if reading.shown is None else reading.shown
    space.add_ordinate_x_dim(
        feature_location=reading.at,
        offset=(x - reading.at[0], reading.place - reading.at[1]),
        origin=(0.0, 0.0),
        text=_one_line(reading.text),
        dimstyle=_STYLE,
        dxfattribs={"layer": "DIMENSIONS"},
    ).render()
    for note in reading_notes(reading, drawing.text_height)[1:]:
        _add_note(space, note, drawing)


def _add_tube(space: Modelspace, tube: DrawnTube) -> None:
    (x, y), half = tube.start, 0.5 * tube.diameter
    corners = [(x, y - half), (tube.end, y - half), (tube.end, y + half), (x, y + half)]
    layer = "HIDDEN" if tube.hidden else "TUBES"
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def _add_measure(space: Modelspace, measure: Measure) -> None:
    text = f"{measure.text} ({measure.below})" if measure.below else measure.text
    base = (
        (measure.place, measure.start[1]) if measure.upright else (measure.start[0], measure.place)
    )
    space.add_linear_dim(
        base=base,
        p1=measure.start,
        p2=measure.end,
        angle=90.0 if measure.upright else 0.0,
        text=_one_line(text),
        dimstyle=_STYLE,
        dxfattribs={"layer": "DIMENSIONS"},
    ).render()

"""A workshop drawing as a CAD file: true scale, millimetres, one layer a kind of line."""

from __future__ import annotations

from typing import Final

from ezdxf import units
from ezdxf.document import Drawing as CadDocument
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from boomwright.charts.drawing import (
    Drawing,
    DrawnTube,
    Layer,
    Measure,
    Note,
    Ring,
    Shape,
    Stroke,
)
from boomwright.export.plan_drawing import dxf_bytes, fixed_stamps, one_line

_STYLE: Final = "BOOMWRIGHT"
# name: colour index (7 prints black), line type, line weight [mm/100]
_LAYERS: Final[dict[Layer, tuple[int, str, int]]] = {
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


def drawing_dxf(drawing: Drawing) -> bytes:
    """Write a workshop drawing as DXF.

    Returns:
        a DXF file, release R2010, UTF-8, millimetres at true scale; tubes are outlines of their
        true
            diameter whatever a picture does; the same drawing gives the same bytes
    """
    with fixed_stamps():
        doc = _document(drawing)
        space = doc.modelspace()
        for shape in drawing.shapes:
            _add(space, shape, drawing)
        return dxf_bytes(doc)


def _document(drawing: Drawing) -> CadDocument:
    doc = new("R2010", setup=["linetypes"], units=units.MM)
    doc.header["$MEASUREMENT"] = 1
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
    return doc


def _add(space: Modelspace, shape: Shape, drawing: Drawing) -> None:
    if isinstance(shape, DrawnTube):
        _add_tube(space, shape)
    elif isinstance(shape, Stroke):
        space.add_lwpolyline(
            list(shape.points), close=shape.closed, dxfattribs={"layer": shape.layer}
        )
    elif isinstance(shape, Ring):
        space.add_circle(shape.centre, 0.5 * shape.diameter, dxfattribs={"layer": shape.layer})
    elif isinstance(shape, Note):
        space.add_text(
            one_line(shape.text),
            height=shape.size * drawing.text_height,
            rotation=90.0 if shape.upright else 0.0,
            dxfattribs={"layer": shape.layer},
        ).set_placement(shape.at, align=_ALIGN[shape.anchor])
    else:
        _add_measure(space, shape)


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
        text=one_line(text),
        dimstyle=_STYLE,
        dxfattribs={"layer": "DIMENSIONS"},
    ).render()

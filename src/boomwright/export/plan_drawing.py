"""The plan view as a CAD drawing: true scale, millimetres, real tube outlines."""

from __future__ import annotations

import io
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise

from ezdxf import units
from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from boomwright.base import BoomwrightError
from boomwright.parts import Beam, Element
from boomwright.plan.model_boom import BoomPlan
from boomwright.report.build.dimensions import ElementCut, cut_list

_MM = 1000.0

# name, colour index (7 prints black), line type, line weight [mm/100]
_LAYERS = (
    ("ELEMENTS", 7, "Continuous", 35),
    ("BOOM", 5, "Continuous", 50),
    ("CENTRE", 8, "CENTER", 13),
    ("DIMENSIONS", 3, "Continuous", 18),
    ("TEXT", 7, "Continuous", 18),
)
_STYLE = "BOOMWRIGHT"

# The library stamps each file with the clock and random ids unless this process-wide option
# is set; the lock keeps two threads from switching it off under each other.
_STAMP_LOCK = threading.Lock()


@contextmanager
def fixed_stamps() -> Iterator[None]:
    """Write files without clock and random ids while this is open."""
    with _STAMP_LOCK:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before


def dxf_bytes(doc: Drawing) -> bytes:
    """Write a drawing as UTF-8; the same drawing gives the same bytes."""
    # The library goes through a set of these; each run of Python orders one differently.
    for name in sorted(doc.entitydb.dxf_types_in_use()):
        doc.classes.add_class(name)
    stream = io.StringIO(newline="")
    doc.write(stream)
    return stream.getvalue().encode("utf-8")


def one_line(text: str) -> str:
    """Write owner's text so that no CAD reader takes part of it for a control code."""
    clean = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    return clean.replace("^", "^ ").replace("%%", "% %").replace("\\U+", "\\ U+")


def _text_height(beam: Beam) -> float:
    longest = max(element.length for element in beam.elements)
    gaps = sorted(element.position for element in beam.elements)
    closest = min((b - a for a, b in pairwise(gaps)), default=longest)
    # Five lines of cumulative dimensions must fit between two neighbours.
    return max(min(longest / 90.0, closest / 12.0), longest / 400.0) * _MM


def _new_document(*, text_height: float) -> Drawing:
    doc = new("R2010", setup=["linetypes"], units=units.MM)
    doc.header["$MEASUREMENT"] = 1
    doc.header["$LTSCALE"] = text_height / 2.0
    doc.header["$DIMSTYLE"] = _STYLE
    doc.header["$DIMDEC"] = 0
    for name, colour, linetype, weight in _LAYERS:
        doc.layers.add(name, color=colour, linetype=linetype, lineweight=weight)
    style = doc.dimstyles.new(_STYLE)
    style.dxf.dimtxt = text_height
    style.dxf.dimasz = text_height
    style.dxf.dimexe = 0.5 * text_height
    style.dxf.dimexo = 0.5 * text_height
    style.dxf.dimgap = 0.4 * text_height
    style.dxf.dimtad = 1
    style.dxf.dimdec = 0
    style.dxf.dimlunit = 2
    style.dxf.dimzin = 8
    style.dxf.dimdsep = ord(".")
    style.dxf.dimscale = 1.0
    style.dxf.dimtix = 1
    style.dxf.dimtxsty = "Standard"
    return doc


def _tube(space: Modelspace, *, x: float, start: float, end: float, diameter: float) -> None:
    half = 0.5 * diameter * _MM
    space.add_lwpolyline(
        [(x - half, start), (x + half, start), (x + half, end), (x - half, end)],
        close=True,
        dxfattribs={"layer": "ELEMENTS"},
    )


def _draw_element(space: Modelspace, *, element: Element, x: float, gap: float) -> None:
    reached = 0.0
    for number, section in enumerate(element.half):
        start = 0.5 * gap * _MM if number == 0 else reached
        end = reached + section.length * _MM
        if number == 0 and gap == 0.0:
            _tube(space, x=x, start=-end, end=end, diameter=section.diameter)
        else:
            for side in (1.0, -1.0):
                _tube(space, x=x, start=side * start, end=side * end, diameter=section.diameter)
        reached = end
    space.add_line((x, -1.01 * reached), (x, 1.01 * reached), dxfattribs={"layer": "CENTRE"})


def _dimension_element(
    space: Modelspace, *, cut: ElementCut, element: Element, x: float, text_height: float
) -> None:
    """Cumulative distances from the boom to the end of each tube, on the upper half."""
    reached = 0.0
    for number, (section, shown) in enumerate(zip(element.half, cut.sections, strict=True)):
        reached += section.length * _MM
        space.add_linear_dim(
            base=(x + (2.0 + 2.0 * number) * text_height, 0.0),
            p1=(x, 0.0),
            p2=(x + 0.5 * section.diameter * _MM, reached),
            angle=90.0,
            text=str(shown.reaches.millimetres),
            dimstyle=_STYLE,
            dxfattribs={"layer": "DIMENSIONS"},
        ).render()


def _dimension_boom(
    space: Modelspace, *, cuts: tuple[ElementCut, ...], beam: Beam, low: float, text_height: float
) -> None:
    rear = min(element.position for element in beam.elements)
    for cut in cuts:
        x = beam.elements[cut.index].position * _MM
        tip = -beam.elements[cut.index].half_length * _MM
        space.add_ordinate_x_dim(
            feature_location=(x, tip),
            offset=(0.0, low - tip),
            origin=(rear * _MM, 0.0),
            text=str(cut.from_rear.millimetres),
            dimstyle=_STYLE,
            dxfattribs={"layer": "DIMENSIONS"},
        ).render()


def _dimension_gap(space: Modelspace, *, beam: Beam, text_height: float) -> None:
    driven = beam.elements[beam.driven_index]
    x = driven.position * _MM
    half = 0.5 * beam.feed.gap * _MM
    radius = 0.5 * driven.half[0].diameter * _MM
    space.add_linear_dim(
        base=(x - 2.0 * text_height, 0.0),
        p1=(x - radius, -half),
        p2=(x - radius, half),
        angle=90.0,
        text=f"gap {round(2.0 * half)}",
        dimstyle=_STYLE,
        dxfattribs={"layer": "DIMENSIONS"},
    ).render()


def _write_texts(
    space: Modelspace,
    *,
    cuts: tuple[ElementCut, ...],
    beam: Beam,
    top: float,
    text_height: float,
    stamp: str,
) -> None:
    for cut in cuts:
        x = beam.elements[cut.index].position * _MM
        tip = beam.elements[cut.index].half_length * _MM
        space.add_text(
            f"{cut.number} {cut.label}, tip to tip {cut.full_length.millimetres}",
            height=text_height,
            rotation=90.0,
            dxfattribs={"layer": "TEXT"},
        ).set_placement((x + 0.5 * text_height, tip + 2.0 * text_height))
    rear = min(element.position for element in beam.elements) * _MM
    lines = (
        *((one_line(stamp),) if stamp else ()),
        one_line(beam.name),
        f"design frequency {beam.design_frequency / 1e6:.3f} MHz, material {beam.material.name}",
        "millimetres, scale 1:1; front is to the right (+x)",
        "marks along each half are distances from the boom axis; boom marks from the rear element",
        "the BOOM line is the boom axis, not a tube",
    )
    for number, line in enumerate(reversed(lines)):
        space.add_text(line, height=text_height, dxfattribs={"layer": "TEXT"}).set_placement(
            (rear, top + 1.8 * number * text_height)
        )


def _draw_wires(space: Modelspace, *, beam: Beam) -> None:
    for wire in beam.wires:
        space.add_lwpolyline(
            [(float(x) * _MM, float(y) * _MM) for x, y, _ in wire.points],
            dxfattribs={"layer": "ELEMENTS"},
        )


def plan_view_dxf(*, beam: Beam, boom: BoomPlan | None = None, stamp: str = "") -> bytes:
    """Draw the beam from above, in millimetres at true scale.

    x runs along the boom towards the front, y along the elements. Tubes are closed outlines
    by section, the driven element is cut by its feed gap. Layers: ``ELEMENTS``, ``BOOM``
    (its axis), ``CENTRE``, ``DIMENSIONS``, ``TEXT``. The same beam gives the same bytes.

    Args:
        beam: the beam, with at least one element
        boom: its boom, where the tape is hooked; None counts from the rear element
        stamp: what stands against building from it, written above the title; empty when nothing
            does

    Raises:
        BoomwrightError: if the beam has no elements
    """
    if not beam.elements:
        msg = f"beam {beam.name!r} has no elements to draw; add at least one [[beam.element]]"
        raise BoomwrightError(msg)
    text_height = _text_height(beam)
    cuts = cut_list(beam=beam, boom=boom)
    longest = max(element.half_length for element in beam.elements) * _MM
    places = [element.position * _MM for element in beam.elements]
    with fixed_stamps():
        doc = _new_document(text_height=text_height)
        space = doc.modelspace()
        margin = 4.0 * text_height
        space.add_line((min(places), 0.0), (max(places), 0.0), dxfattribs={"layer": "BOOM"})
        space.add_line(
            (min(places) - margin, 0.0), (max(places) + margin, 0.0), dxfattribs={"layer": "CENTRE"}
        )
        driven = beam.driven_index if any(e.role == "driven" for e in beam.elements) else -1
        for cut in cuts:
            element = beam.elements[cut.index]
            x = element.position * _MM
            gap = beam.feed.gap if cut.index == driven and beam.feed.cuts_element else 0.0
            _draw_element(space, element=element, x=x, gap=gap)
            _dimension_element(space, cut=cut, element=element, x=x, text_height=text_height)
            if gap:
                _dimension_gap(space, beam=beam, text_height=text_height)
        _draw_wires(space, beam=beam)
        _dimension_boom(
            space, cuts=cuts, beam=beam, low=-longest - 8.0 * text_height, text_height=text_height
        )
        _write_texts(
            space,
            cuts=cuts,
            beam=beam,
            top=longest + 28.0 * text_height,
            text_height=text_height,
            stamp=stamp,
        )
        return dxf_bytes(doc)

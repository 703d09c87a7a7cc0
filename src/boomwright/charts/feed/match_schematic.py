"""The match to scale: element, rods, strap and spacing with the dimensions to cut."""

from __future__ import annotations

from functools import partial

from boomwright.base import UnitSystem, inches_sixteenths, length_text
from boomwright.base.records import dataclass
from boomwright.charts.canvas import arrow_head, document, line, number, pen, tag, text
from boomwright.charts.feed.match_chain import CHAIN_HEIGHT, capacitor_symbol, chain_drawing
from boomwright.charts.labels import text_width
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.shown import ReadingTable
from boomwright.feed import FieldMatch, FoldedShape, GammaShape, HairpinShape, SplitShape, TeeShape

_SIDE, _TOP = 30.0, 46.0
#: a spacing is drawn at least so wide; a larger scale across is then said [user units]
_LEAST_SPACING = 38.0
_SIZE = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """Where things are drawn, and in what."""

    along: float
    across: float
    x: float
    y: float
    palette: Palette
    system: UnitSystem

    def place(self, along: float, across: float) -> tuple[float, float]:
        return self.x + self.along * along, self.y + self.across * across

    def tube(self, start: float, end: float, *, across: float, diameter: float) -> str:
        x1, y = self.place(start, across)
        x2, _ = self.place(end, across)
        high = max(self.across * diameter, 2.0)
        return tag("rect", x=min(x1, x2), y=y - high / 2.0, width=abs(x2 - x1), height=high,
                   fill=self.palette.metal, **pen(self.palette.ink, "0.8"))  # fmt: skip

    def strap(self, along: float, *, start: float, end: float, diameter: float) -> str:
        x, y1 = self.place(along, start)
        _, y2 = self.place(along, end)
        wide = max(self.along * diameter, 2.5)
        return tag("rect", x=x - wide / 2.0, y=min(y1, y2), width=wide, height=abs(y2 - y1),
                   fill=self.palette.metal, **pen(self.palette.ink, "0.8"))  # fmt: skip

    def measure(self, start: float, end: float, *, y: float, words: str) -> list[str]:
        """A dimension along the element, its text above the line."""
        x1, x2 = self.place(start, 0.0)[0], self.place(end, 0.0)[0]
        ink = pen(self.palette.ink, "0.7")
        content = self._written(abs(end - start))
        label = f"{words} {content}" if words else content
        # A short one is written beside its line, not over its ends.
        room = abs(x2 - x1) > text_width(label, size=_SIZE) + 8.0
        middle = 0.5 * (x1 + x2)
        where = (middle, "middle") if room else (max(x1, x2) + 8.0, "start")
        height = y - 8.0 if room else y
        return [
            line(x1, y, x2, y, **ink),
            *(line(x - 2.5, y + 2.5, x + 2.5, y - 2.5, **ink) for x in (x1, x2)),
            halo_text(where[0], height, label, fill=self.palette.ink, palette=self.palette,
                      size=_SIZE, anchor=where[1]),
        ]  # fmt: skip

    def spacing(self, along: float, *, start: float, end: float, right: bool) -> list[str]:
        """The distance of two axes, beside them."""
        x, y1 = self.place(along, start)
        _, y2 = self.place(along, end)
        x += 12.0 if right else -12.0
        ink = pen(self.palette.ink, "0.7")
        return [
            line(x, y1, x, y2, **ink),
            *(line(x - 2.5, y + 2.5, x + 2.5, y - 2.5, **ink) for y in (y1, y2)),
            halo_text(x + (6.0 if right else -6.0), 0.5 * (y1 + y2),
                      self._written(abs(end - start)), fill=self.palette.ink,
                      palette=self.palette, size=_SIZE, anchor="start" if right else "end"),
        ]  # fmt: skip

    def _written(self, length: float) -> str:
        if self.system == "us" and length < 2.0:
            return inches_sixteenths(length)
        return length_text(length, system=self.system)

    def diameter(self, value: float) -> str:
        if self.system == "us":
            return f"Ø {value / 0.0254:.3f} in"
        return f"Ø {number(value * 1e3, decimals=1)} mm"

    def words(
        self, along: float, across: float, content: str, *, dy: float, anchor: str = "middle"
    ) -> str:
        x, y = self.place(along, across)
        return halo_text(x, y + dy, content, fill=self.palette.quiet, palette=self.palette,
                         size=_SIZE, anchor=anchor)  # fmt: skip


def match_schematic(
    *,
    match: FieldMatch,
    title: str = "",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 520.0,
) -> str:
    """Draw the match with what its builder measures, and the pieces behind it.

    Args:
        title: title of the picture, made from its kind when empty

    Returns:
        SVG text; lengths to scale, the scale in its data attributes
    """
    shape = match.shape
    made: tuple[list[str], float, _Sheet, str]
    if isinstance(shape, HairpinShape):
        made = _hairpin(match, shape, palette=palette, system=system, width=width)
    elif isinstance(shape, SplitShape):
        made = _split(match, shape, palette=palette, system=system, width=width)
    else:
        made = _rods(match, shape, palette=palette, system=system, width=width)
    body, foot, sheet, said = made
    # A gamma's only piece is drawn in its rod.
    if match.match.stages and not isinstance(shape, GammaShape):
        body += chain_drawing(
            stages=match.match.stages, reference=match.reference, top=foot + 6.0, width=width,
            palette=palette, system=system, tee=isinstance(shape, TeeShape),
        )  # fmt: skip
        foot += CHAIN_HEIGHT + 6.0
    times = sheet.across / sheet.along
    scale = "to scale"
    if times >= 1.05:
        scale += f", across {times:.1f} times larger"
    body.append(text(14.0, foot + 10.0, scale, fill=palette.quiet))
    return document(
        kind="match-schematic", title=title or f"Match to cut: {match.kind}",
        description=said, width=width, height=foot + 24.0, palette=palette, body=body,
        data={
            "scale": number(sheet.along, decimals=4),
            "scale-across": number(sheet.across, decimals=4),
            "origin-x": number(sheet.x),
            "origin-y": number(sheet.y),
        },
    )  # fmt: skip


def _rods(
    match: FieldMatch, shape: GammaShape | TeeShape | FoldedShape, *, palette: Palette,
    system: UnitSystem, width: float,
) -> tuple[list[str], float, _Sheet, str]:  # fmt: skip
    """Element above, rods below, seen along the boom."""
    element = match.beam.elements[match.beam.driven_index]
    tube = element.half[0].diameter
    if isinstance(shape, FoldedShape):
        reach, rod = element.half_length, shape.conductor_diameter
    else:
        reach, rod = shape.rod_length, shape.rod_diameter
    both = isinstance(shape, TeeShape)
    sides = (-1.0, 1.0) if both else (1.0,)
    beyond = 0.0 if isinstance(shape, FoldedShape) else 0.18 * reach
    left = reach + beyond if both else 0.22 * reach
    along = (width - 2.0 * _SIDE - 62.0) / (left + reach + beyond)
    across = max(along, _LEAST_SPACING / shape.spacing)
    sheet = _Sheet(along=along, across=across, x=_SIDE + along * left, y=_TOP + 34.0,
                   palette=palette, system=system)  # fmt: skip
    gap = 0.0 if isinstance(shape, GammaShape) else shape.gap / 2.0
    body = [sheet.tube(-left, reach + beyond, across=0.0, diameter=tube)]
    for side in sides:
        body.append(sheet.tube(side * gap, side * reach, across=shape.spacing, diameter=rod))
        body.append(sheet.strap(side * reach, start=0.0, end=shape.spacing, diameter=rod))
    if isinstance(shape, FoldedShape):
        body.append(sheet.tube(-gap, -left, across=shape.spacing, diameter=rod))
    x, y = sheet.place(0.0, 0.0)
    body.append(line(x, y - 22.0, x, y + across * shape.spacing + 14.0,
                     **pen(palette.accent, "0.8", "8 2 2 2")))  # fmt: skip
    low = sheet.place(0.0, shape.spacing)[1]
    body += sheet.spacing(reach, start=0.0, end=shape.spacing, right=True)
    name = "to the tip" if isinstance(shape, FoldedShape) else "middle to strap"
    body += sheet.measure(0.0, reach, y=low + 30.0, words=name)
    body.append(sheet.words(0.55 * reach, 0.0, f"element {sheet.diameter(tube)}",
                            dy=-(across * tube / 2.0 + 9.0)))  # fmt: skip
    label = "fed conductor" if isinstance(shape, FoldedShape) else "rod"
    body.append(sheet.words(0.5 * reach, shape.spacing, f"{label} {sheet.diameter(rod)}",
                            dy=-(across * rod / 2.0 + 8.0)))  # fmt: skip
    body.append(sheet.words(0.0, 0.0, "middle, at the boom", dy=-28.0))
    foot = low + 42.0
    if isinstance(shape, GammaShape | TeeShape):
        for side in sides:
            body += capacitor_symbol(
                x + side * (along * gap + 12.0), low, level=True, palette=palette, colour="accent"
            )
        count = "in each rod" if both else "in the rod's fed end"
        body.append(
            text(14.0, foot + 4.0, f"capacitor {shape.capacitance * 1e12:.0f} pF {count}",
                 fill=palette.accent, size=_SIZE)
        )  # fmt: skip
        foot += 16.0
    body.append(_half_words(match, sheet, foot + 4.0))
    return body, foot + 14.0, sheet, _said(match, sheet)


def _hairpin(
    match: FieldMatch, shape: HairpinShape, *, palette: Palette, system: UnitSystem, width: float
) -> tuple[list[str], float, _Sheet, str]:
    """Seen from above: element upright, hairpin along the boom, to the right as it is built."""
    element = match.beam.elements[match.beam.driven_index]
    tube, half = element.half[0].diameter, shape.spacing / 2.0
    along = (width - 2.0 * _SIDE - 110.0) / (1.12 * shape.length)
    across = max(along, _LEAST_SPACING / shape.spacing)
    middle = _TOP + 26.0 + across * (half + 0.05)
    sheet = _Sheet(along=along, across=across, x=_SIDE + 74.0, y=middle, palette=palette,
                   system=system)  # fmt: skip
    wide = max(along * tube, 3.0)
    body = []
    reach = half + 26.0 / across
    split = max(shape.gap, 0.0) / 2.0
    for side in (-1.0, 1.0):
        x, y1 = sheet.place(0.0, side * split)
        _, y2 = sheet.place(0.0, side * reach)
        body.append(tag("rect", x=x - wide / 2.0, y=min(y1, y2), width=wide, height=abs(y2 - y1),
                        fill=palette.metal, **pen(palette.ink, "0.8")))  # fmt: skip
        body.append(sheet.tube(0.0, 1.08 * shape.length, across=side * half,
                               diameter=shape.rod_diameter))  # fmt: skip
    body.append(sheet.strap(shape.length, start=-half, end=half, diameter=shape.rod_diameter))
    body += sheet.spacing(1.08 * shape.length, start=-half, end=half, right=True)
    low = sheet.place(0.0, reach)[1]
    body += sheet.measure(0.0, shape.length, y=low + 22.0, words="element to short")
    rods = f"rods {sheet.diameter(shape.rod_diameter)}, past the short: saw by the cut list"
    body.append(sheet.words(0.55 * shape.length, -half, rods,
                            dy=-(across * shape.rod_diameter / 2.0 + 9.0)))  # fmt: skip
    x, y = sheet.place(0.0, -reach)
    body.append(halo_text(x - wide, y + 4.0, f"element {sheet.diameter(tube)}", fill=palette.quiet,
                          palette=palette, size=_SIZE, anchor="end")
                if x > 110.0 else sheet.words(0.0, -reach, f"element {sheet.diameter(tube)}",
                                              dy=-9.0))  # fmt: skip
    body.append(halo_text(x - wide - 4.0, middle, "split", fill=palette.quiet, palette=palette,
                          size=_SIZE, anchor="end"))  # fmt: skip
    body += [
        line(width - 78.0, low + 46.0, width - 34.0, low + 46.0, **pen(palette.accent, "1.2")),
        arrow_head(width - 30.0, low + 46.0, angle=0.0, fill=palette.accent),
        text(width - 84.0, low + 46.0, "heading" if shape.forward else "to the rear of the boom",
             fill=palette.accent, size=_SIZE, anchor="end"),
    ]  # fmt: skip
    foot = low + 46.0
    body.append(_half_words(match, sheet, foot))
    return body, foot + 12.0, sheet, _said(match, sheet)


def _split(
    match: FieldMatch, shape: SplitShape, *, palette: Palette, system: UnitSystem, width: float
) -> tuple[list[str], float, _Sheet, str]:
    """The middle of the element with its split."""
    element = match.beam.elements[match.beam.driven_index]
    tube = element.half[0].diameter
    reach = 6.0 * max(shape.gap, tube)
    along = (width - 2.0 * _SIDE) / (2.0 * reach)
    sheet = _Sheet(along=along, across=along, x=width / 2.0, y=_TOP + 20.0 + along * tube / 2.0,
                   palette=palette, system=system)  # fmt: skip
    half = shape.gap / 2.0
    low = sheet.place(0.0, tube / 2.0)[1]
    body = [
        sheet.tube(-reach, -half, across=0.0, diameter=tube),
        sheet.tube(half, reach, across=0.0, diameter=tube),
        sheet.words(-0.6 * reach, -tube / 2.0, f"element {sheet.diameter(tube)}", dy=-9.0),
        *sheet.measure(-half, half, y=low + 18.0, words="split"),
    ]
    foot = low + 34.0
    body.append(_half_words(match, sheet, foot))
    return body, foot + 12.0, sheet, _said(match, sheet)


def _half_words(match: FieldMatch, sheet: _Sheet, y: float) -> str:
    half = match.beam.elements[match.beam.driven_index].half_length
    return text(14.0, y, f"driven, middle to tip: {length_text(half, system=sheet.system)}",
                fill=sheet.palette.ink, size=_SIZE)  # fmt: skip


def _said(match: FieldMatch, sheet: _Sheet) -> str:
    shape, long = match.shape, partial(length_text, system=sheet.system)
    half = match.beam.elements[match.beam.driven_index].half_length
    said = [f"{match.kind}"]
    if isinstance(shape, GammaShape | TeeShape):
        said.append(
            f"rod {long(shape.rod_length)}, {long(shape.spacing)} from the element, "
            f"capacitor {shape.capacitance * 1e12:.0f} pF"
        )
    elif isinstance(shape, HairpinShape):
        said.append(f"hairpin {long(shape.length)} long, rods {long(shape.spacing)} apart")
    elif isinstance(shape, FoldedShape):
        said.append(f"conductors {long(shape.spacing)} apart")
    else:
        said.append(f"split {long(shape.gap)}")
    return (
        f"{', '.join(said)}; driven element {long(half)} from its middle to each tip; "
        f"standing wave ratio {match.swr:.2f} at {match.frequency / 1e6:.3f} MHz."
    )


def schematic_table(match: FieldMatch, *, system: UnitSystem) -> ReadingTable:
    """Write the dimensions of a match as a table, in both unit systems."""
    shape = match.shape
    half = match.beam.elements[match.beam.driven_index].half_length
    rows: list[tuple[str, float]] = [("driven element, middle to tip", half)]
    if isinstance(shape, GammaShape | TeeShape):
        rows += [
            ("rod, element's middle to strap", shape.rod_length),
            ("rod from element, between axes", shape.spacing),
            ("rod diameter", shape.rod_diameter),
        ]
    elif isinstance(shape, HairpinShape):
        rows += [
            ("hairpin, element to short", shape.length),
            ("hairpin rods, between axes", shape.spacing),
            ("rod diameter", shape.rod_diameter),
            ("split", shape.gap),
        ]
    elif isinstance(shape, FoldedShape):
        rows += [
            ("conductors, between axes", shape.spacing),
            ("diameter of the fed conductor", shape.conductor_diameter),
            ("split", shape.gap),
        ]
    else:
        rows.append(("split", shape.gap))
    written = [(name, f"{length * 1e3:.1f} mm", _us(length)) for name, length in rows]
    if isinstance(shape, GammaShape | TeeShape):
        count = "capacitor in each rod" if isinstance(shape, TeeShape) else "capacitor in the rod"
        value = f"{shape.capacitance * 1e12:.0f} pF"
        written.append((count, value, value))
    order = (1, 2) if system == "metric" else (2, 1)
    heads = ("", "metric", "US")
    return ReadingTable(
        header=("dimension", *(heads[i] for i in order)),
        rows=tuple((row[0], *(row[i] for i in order)) for row in written),
    )


def _us(length: float) -> str:
    return inches_sixteenths(length) if length < 2.0 else length_text(length, system="us")

"""Wire with corners on the build sheets: lengths to cut, marks, what is folded in which order."""

from __future__ import annotations

import math
from collections.abc import Sequence

from boomwright.base import UnitSystem
from boomwright.charts.blocks import TICK, Blanks, Block, Facts, Grid, Heading, SheetPicture, Words
from boomwright.charts.structure.frame_view import frame_view
from boomwright.parts import KNOT, Beam, Frame, FramePoint, Part, corner_marks
from boomwright.plan.model_station import LinePlan
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop_drawings import bare_length, shop_length
from boomwright.report.model import Canvas
from boomwright.report.wording import clean
from boomwright.report.work.feed import line_rows, match_rows, trim_words
from boomwright.report.work.wire_steps import wire_feed_steps

#: colour of the tape at the corners of each element, from the rear
_COLOURS = ("red", "white", "blue", "yellow", "green", "black")


def wire_blocks(
    beam: Beam, parts: Sequence[Part], *, system: UnitSystem, of_beam: str
) -> list[Block]:
    """Write the wire list of a beam."""
    return [
        Heading(text=f"Wire{of_beam}"),
        wire_grid(beam, parts, system=system),
        Words(text=_lay_out(beam)),
    ]


def wire_grid(beam: Beam, parts: Sequence[Part], *, system: UnitSystem) -> Grid:
    """List every wire with corners: how long it is cut, and where it is marked."""
    unit, knot = "mm" if system == "metric" else "in", shop_length(cut_length(KNOT), system=system)
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    rows = []
    for part in parts:
        if part.role == "radial":
            rows.append(_radial_row(beam, part, system))
            continue
        if part.role != "wire" or not part.mark[0].isdigit():
            continue
        number = int(part.mark.split(".")[0])
        places = [
            f"{clean(name)} {bare_length(cut_length(place), system=system)}"
            for name, place in corner_marks(beam.elements[order[number - 1]])
        ]
        colour = _COLOURS[(number - 1) % len(_COLOURS)]
        rows.append(
            (
                part.mark,
                clean(part.name),
                bare_length(cut_length(part.quantity), system=system),
                bare_length(cut_length(part.quantity - 2.0 * KNOT), system=system),
                f"{colour}: {'; '.join(places)}" if places else "none",
                TICK,
            )
        )
    return Grid(
        columns=("Mark", "Wire", f"Cut to, {unit}", f"Shows, {unit}", f"Tape at, {unit}", "OK"),
        rows=tuple(rows),
        align="llrrll",
        shares=(0.8, 1.8, 1.1, 1.1, 3.4, 0.5),
        note=f"Cut to: with {knot} at each end for knot or crimp, whose own length is not "
        "modelled. Tape at: from the middle of the element along the wire, on both halves.",
    )


def _lay_out(beam: Beam) -> str:
    """Say in which order wire is laid out, tied and folded."""
    if beam.upright:
        text = (
            "Lay the wire out straight under a light pull and measure from its foot. Tie the "
            "insulator to its upper end, and the foot to the feed block."
        )
        if beam.radials is None:
            return text
        return (
            f"{text} Bare the inner end of every radial and join all of them to one ring or plate "
            "under the feed, by solder or a clamp of the same metal. Space them evenly. Roll each "
            "radial up from its outer end."
        )
    text = (
        "Lay each wire out straight under a light pull, measure from its middle, and put one turn "
        "of coloured tape where it runs over a point of the frame."
    )
    if any(element.closed for element in beam.elements):
        return (
            f"{text} Join both ends of a loop to one another with a crimp and solder, sealed: no "
            "insulator in them. Each corner hangs in an insulator that the wire runs through. "
            "Roll each loop up towards its feed."
        )
    if beam.frame is None or beam.frame.held:
        return (
            f"{text} Tie an insulator to each end, and the rope to the insulator. Roll each half "
            "up from its end towards the feed."
        )
    several = len(beam.elements) > 1
    order = ": reflector first, driven element last, so that the feed stays free" * several
    return (
        f"{text} Then tie the ends{order}. Roll each wire up from its ends towards its middle, and "
        "hang them in the reverse order. Unhooked from the wires, the spreaders fold up together."
    )


def _radial_row(beam: Beam, part: Part, system: UnitSystem) -> tuple[str, ...]:
    """Row of the radials at one foot, all alike."""
    radials = beam.radials
    count, shows = (1, 0.0) if radials is None else (radials.count, radials.length)
    return (
        part.mark,
        f"{clean(part.name)}: {count} pieces",
        bare_length(cut_length(part.quantity / count), system=system),
        bare_length(cut_length(shows), system=system),
        "none",
        TICK,
    )


def frame_blocks(beam: Beam, canvas: Canvas, *, of_beam: str) -> list[Block]:
    """Say where the points of a frame are, seen from the middle that holds them, and draw it."""
    frame, system = beam.frame, canvas.system
    if frame is None or beam.upright:
        return []
    drawn = {p.name: p for e in beam.elements for p in e.path if p.name}
    unit = "mm" if system == "metric" else "in"
    numbers = _spreader_numbers(frame)
    middle = "middle" if frame.held else "boom" if frame.hub is None else "hub"

    def row(point: FramePoint) -> tuple[str, ...]:
        x, y, z = point.place
        root = (0.0, 0.0, 0.0) if frame.held else frame.root(point)
        hung = z - drawn[point.name].place[2] if point.name in drawn else 0.0
        droop = bare_length(cut_length(hung), system=system) if hung > 1e-4 else "\u2013"
        return (
            clean(point.name),
            numbers.get(point.name, "rope" if frame.held else "\u2013"),
            bare_length(cut_length(math.dist(root, point.place)), system=system),
            f"{math.degrees(math.atan2(y, x - root[0])):.0f}\u00b0",
            _signed(z, system),
            droop,
        )

    return [
        Heading(text=f"Points of the frame{of_beam}"),
        Grid(
            columns=("Point", "Held by", f"From the {middle}, {unit}", "Off the heading",
                     f"Above it, {unit}", f"Hangs down, {unit}"),
            rows=tuple(row(point) for point in frame.points),
            align="llrrrr",
            shares=(1.6, 1.2, 1.5, 1.5, 1.4, 1.5),
            note=f"Each point stands on the left, and as far on the right. From the {middle}: "
            "along the spreader, or straight where ropes hold the point. Hangs down: by weight in "
            "still air; currents are computed so.",
        ),
        _picture(beam, canvas),
    ]  # fmt: skip


#: width of the picture of a frame [user units]
_PICTURE = 560.0


def _picture(beam: Beam, canvas: Canvas) -> SheetPicture:
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    colours = {number: _COLOURS[place % len(_COLOURS)] for place, number in enumerate(order)}
    labels = beam.element_labels
    holder = beam.carrier or beam
    svg = frame_view(
        beam,
        tapes=tuple(
            f"{labels[n]}: {colours[n]} tape at its dots" for n in range(len(beam.elements))
        ),
        spreaders={} if holder.frame is None else _spreader_numbers(holder.frame),
        palette=canvas.palette,
        system=canvas.system,
        width=_PICTURE,
    )
    held = "Grey: spreaders. " if holder.frame is not None and holder.frame.spreader else ""
    return SheetPicture(
        name=f"frame-{beam.name}",
        svg=svg,
        caption=f"{held}To scale, as the wires hang in still air.",
        units=_PICTURE,
    )


def _signed(z: float, system: UnitSystem) -> str:
    text = bare_length(cut_length(abs(z)), system=system)
    return f"\u2212{text}" if z < -1e-4 else text


def _spreader_numbers(frame: Frame) -> dict[str, str]:
    """Mark of the spreader to each point, as its parts have it."""
    held = () if frame.spreader is None else frame.spreader.to
    names = [point.name for point in frame.points if point.name in held]
    return {name: f"S{number}" for number, name in enumerate(names, start=1)}


def wire_feed_blocks(
    beam: Beam, *, line: LinePlan | None, system: UnitSystem, of_beam: str
) -> list[Block]:
    """Write the sheet of a driven wire and its feed.

    Args:
        line: its feed line; None when the plan does not say
    """
    gap = shop_length(cut_length(beam.feed.gap), system=system)
    driven = beam.elements[beam.driven_index]
    return [
        Heading(text=f"Driven element and feed{of_beam}"),
        Facts(rows=(*match_rows(beam, gap, system), *line_rows(line, system))),
        wire_feed_steps(beam, gap=gap),
        Words(text=trim_words(beam, driven, system=system)),
        Blanks(labels=("Ohmmeter: halves", "SWR, first sweep", "Initials")),
    ]

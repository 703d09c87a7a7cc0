"""Wire with corners on the build sheets: lengths to cut, marks, what is folded in which order."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import UnitSystem
from boomwright.charts.blocks import TICK, Block, Grid, Heading, Words
from boomwright.parts import KNOT, Beam, Part, corner_marks
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop_drawings import bare_length, shop_length
from boomwright.report.wording import clean

#: colour of the tape at the corners of each element, from the rear
_COLOURS = ("red", "white", "blue", "yellow", "green", "black")


def wire_blocks(
    beam: Beam, parts: Sequence[Part], *, system: UnitSystem, of_beam: str
) -> list[Block]:
    """Write the wire list of a beam; nothing for a beam of tubes alone.

    Args:
        parts: parts of the beam, from its assembly
    """
    wires = [part for part in parts if part.role == "wire" and part.mark[0].isdigit()]
    if not wires:
        return []
    unit = "mm" if system == "metric" else "in"
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    rows = []
    for part in wires:
        number = int(part.mark.split(".")[0])
        if part.mark.endswith(".R"):
            rows.append(_radial_row(beam, part, system))
            continue
        marks = corner_marks(beam.elements[order[number - 1]])
        places = [
            f"{clean(name)} {bare_length(cut_length(place), system=system)}"
            for name, place in marks
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
    knot = shop_length(cut_length(KNOT), system=system)
    return [
        Heading(text=f"Wire{of_beam}"),
        Grid(
            columns=("Mark", "Wire", f"Cut to, {unit}", f"Shows, {unit}", f"Tape at, {unit}", "OK"),
            rows=tuple(rows),
            align="llrrll",
            shares=(0.8, 1.8, 1.1, 1.1, 3.4, 0.5),
            note=f"Cut to: with {knot} at each end for knot or crimp, whose own length is not "
            "modelled. Tape at: from the middle of the element along the wire, on both halves.",
        ),
        Words(text=_lay_out(beam)),
    ]


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

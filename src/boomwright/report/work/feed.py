"""The sheet of the driven element: gap, match, polarity, choke, line, and how it is trimmed."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts.blocks import Blanks, Block, Facts, Grid, Heading, Words
from boomwright.charts.drawing import Drawing
from boomwright.parts import Beam, Element, Part, element_group, mount_group
from boomwright.plan.model_station import LinePlan
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop import ShopElement
from boomwright.report.build.shop_drawings import shop_length
from boomwright.report.model import Canvas
from boomwright.report.wording import clean
from boomwright.report.work.plates import sheet_picture
from boomwright.report.work.steps import feed_steps

#: taken off both tips in the rule for trimming [m]
_TRIM = 0.010


def feed_blocks(
    beam: Beam,
    parts: Sequence[Part],
    canvas: Canvas,
    *,
    element: ShopElement,
    line: LinePlan | None,
    drawings: Sequence[Drawing],
    of_beam: str = "",
) -> tuple[Block, ...]:
    """Write the sheet of the driven element and its feed.

    Args:
        line: its feed line; None when the plan does not say
        of_beam: what the heading adds where there are several beams
    """
    feed, system = beam.feed, canvas.system
    wide = shop_length(element.half_gap + element.half_gap, system=system)
    pictures = [
        sheet_picture(
            drawing,
            canvas,
            caption="Left is left seen from behind. To scale; tubes, rods and boom are cut short."
            if drawing.name == "exploded"
            else f"{drawing.description} To scale.",
        )
        for drawing in drawings
    ]
    return (
        Heading(text=f"Driven element and feed{of_beam}"),
        *pictures,
        Facts(rows=(*match_rows(beam, wide, system), *line_rows(line, system))),
        insulation_grid(parts, number=element.cut.number),
        feed_steps(cut=feed.cuts_element, kind=feed.kind, gap=wide),
        Words(text=trim_words(beam, beam.elements[element.cut.index], system=system)),
        Blanks(labels=("Ohmmeter: halves", "Ohmmeter: to boom", "Initials")),
    )


def insulation_grid(parts: Sequence[Part], *, number: int) -> Grid:
    """Say what of the driven element touches what, and by which parts it is kept apart."""

    def marks(*roles: str, group: str) -> str:
        mine = [part.mark for part in parts if part.role in roles and part.group == group]
        return ", ".join(mine) or "none"

    element, mount = element_group(number), mount_group(number)
    halves = [part for part in parts if part.group == element and part.role == "element tube"
              and part.cut is not None and part.cut.overlap == 0.0]  # fmt: skip
    plate = next((part for part in parts if part.group == mount and part.role == "element plate"),
                 None)  # fmt: skip
    rows: list[tuple[str, ...]] = []
    cut = marks("insulator", group=element)
    if cut != "none":
        left = [part.mark for part in halves if part.solids[0].middle[1] > 0.0]
        right = [part.mark for part in halves if part.solids[0].middle[1] < 0.0]
        rows.append((f"{', '.join(left)} (left) and {', '.join(right)} (right)",
                     "apart until the match is on", f"insulating rod {cut}"))  # fmt: skip
    shells = marks("shell", group=mount)
    tubes = ", ".join(part.mark for part in halves)
    if plate is None and shells != "none":
        rows.append((f"{tubes} and the boom", "apart", f"bushing {shells}"))
    elif shells != "none":
        rows.append(
            (f"{tubes} and {_ending(parts, mount, '.U')}, {plate.mark if plate else 'plate'}",
             "apart", f"shells {shells}; saddles {marks('saddle', group=mount)}")
        )  # fmt: skip
    elif plate is not None:
        rows.append((f"{tubes} and plate {plate.mark}", "touch, bright metal on bright metal",
                     f"U-bolts {_ending(parts, mount, '.U')}"))  # fmt: skip
    if plate is not None:
        rows.append((f"plate {plate.mark} and the boom", "touch",
                     f"U-bolts {_ending(parts, mount, '.V')}"))  # fmt: skip
    on_shells = {part.group for part in parts if part.role == "shell"} - {mount}
    others = [part.mark for part in parts
              if part.role == "element plate" and part.group in on_shells]  # fmt: skip
    if others:
        rows.append(
            (f"tubes over {', '.join(others)}, and the boom", "apart", "shells and saddles there")
        )
    box = [part.mark for part in parts if part.role == "box"]
    if box:
        rows.append((f"box {', '.join(box)} and the boom", "apart: its case is an insulator",
                     "two ties"))  # fmt: skip
    return Grid(
        columns=("Parts", "Touch or apart", "By"),
        rows=tuple(rows),
        align="lll",
        shares=(3.4, 2.2, 3.6),
        caption="What is insulated from what",
    )


def _ending(parts: Sequence[Part], group: str, kind: str) -> str:
    return ", ".join(part.mark for part in parts if part.group == group and kind in part.mark)


def _length(length: float, system: UnitSystem) -> str:
    return shop_length(cut_length(length), system=system)


def match_rows(beam: Beam, gap: str, system: UnitSystem) -> list[tuple[str, str]]:
    """Give the dimensions of the match as the plan has them."""
    feed = beam.feed
    rows = [("Kind of feed", clean(feed.kind))]
    if feed.cuts_element:
        rows.append(("Gap in the middle", gap))
    rows += [
        (name, _length(length, system))
        for name, length in (
            ("Matching line, length", feed.section_length),
            ("Stub, length", feed.stub_length),
        )
        if length is not None
    ]
    if feed.section_impedance is not None:
        rows.append(("Matching line", f"{feed.section_impedance:.0f} ohm"))
    if feed.stub_end:
        rows.append(("Far end of the stub", clean(feed.stub_end)))
    if feed.capacitance is not None:
        rows.append(("Capacitor", f"{feed.capacitance * 1e12:.0f} pF"))
    if feed.inductance is not None:
        rows.append(("Coil", f"{feed.inductance * 1e6:.2f} µH"))
    if feed.balun is not None:
        rows.append(("Balun, antenna to line", f"{feed.balun:g} to 1"))
    return rows


def line_rows(line: LinePlan | None, system: UnitSystem) -> list[tuple[str, str]]:
    """Give the feed line with its choke; no rows without one."""
    if line is None:
        return []
    name = line.line_type if isinstance(line.line_type, str) else line.line_type.name
    long, loop = (
        write(Quantity(length, "span"), system=system) for length in (line.length, line.loop)
    )
    turning = f", of it {loop} as turning loop at the mast" if line.loop else ""
    rows = [("Feed line", f"{clean(name)}, {long}{turning}")]
    if line.choke is not None:
        resistance, reactance = line.choke
        cores = (
            f"wound on {line.choke_cores} cores by the core maker's sheet, in the box"
            if line.choke_cores
            else "bought as a box"
        )
        rows.append(
            ("Choke", f"at least {resistance:.0f} ohm resistance and {abs(reactance):.0f} ohm "
             f"reactance on the band: {cores}; measured before the lift")
        )  # fmt: skip
    return rows


def trim_words(beam: Beam, driven: Element, *, system: UnitSystem) -> str:
    """Say what a cut at both tips does, at the one of an upright wire, in both halves of a loop."""
    kilohertz = beam.design_frequency * _TRIM / driven.half_length / 1e3
    where = "off both tips of the driven element"
    if driven.upright:
        where = "off the upper end of the driven element"
    elif driven.closed:
        where = "out of each half of the driven loop"
    when = "where it stands" if driven.upright else "at full height only"
    return (
        "These sheets follow the plan; a match that the annex proposes counts only once it is "
        f"written into the plan. Trimming, {when}: {_length(_TRIM, system)} {where} moves the dip "
        f"of the SWR up by about {kilohertz:.0f} kHz (length and frequency in proportion, common "
        "practice); the match sets how deep it is. Change one thing at a time, write it down."
    )

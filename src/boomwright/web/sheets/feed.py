"""The Feed sheet: what to cut, what it must stand, and what the radio sees."""

from __future__ import annotations

from boomwright.base.quantity import PerSystem, Value
from boomwright.feed.cautions import FEED_CAUTIONS
from boomwright.plan import Plan
from boomwright.web.readout import long_length, tube_size
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.feed_context import FeedContext
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    asked_fields,
    beam_subject,
    subject_parts,
)
from boomwright.web.view import View

#: parts of the sheet
_GROUPS = (
    ("match", "What to cut", "Drawing and dimensions of the match, SWR before and after"),
    ("turning", "At the antenna", "Which way to turn, slide or trim when the SWR is off"),
    ("power", "What the power does", "Voltage, current and heat at each part"),
    ("line", "The line to the radio", "SWR, loss and impedance at the radio over the band"),
    ("braid", "Outside of the line", "What the choke must do, and what it costs without one"),
    ("kinds", "Other feeds and lengths", "The other matches compared; line cut for a delay"),
)


def _lacks(plan: Plan, view: View) -> tuple[Lack, ...]:
    beam = plan.beams[min(view.beam, len(plan.beams) - 1)]
    number = min(view.beam, len(plan.beams) - 1)
    found = []
    if beam.feed.kind == "split" and beam.feed.balun is None:
        text = (
            f"{beam.name} is fed straight at its split. Where that does not match, choose a match "
            "in place of its feed; without rod length and capacitor they are proposed here."
        )
        found.append(Lack(text=text, forms=((f"beam[{number}].feed", "Choose a match"),)))
    if plan.line is None:
        text = "The plan has no line, so nothing is said of the radio's end."
        found.append(Lack(text=text, forms=(("line", "Add the line"),)))
    if plan.transmitter is None:
        text = "The plan has no power, so no voltage, current or heat is computed."
        found.append(Lack(text=text, forms=(("transmitter", "Add the transmitter"),)))
    return tuple(found)


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    number = min(view.beam, len(plan.beams) - 1)
    feed, place = plan.beams[number].feed, f"beam[{number}].feed"
    rows: list[tuple[str, str, str, Value]] = []
    rod = PerSystem(metric="such as 12.7 mm", us="such as 1/2 in")
    lengths = {
        "rod_diameter": ("Diameter of the rods", feed.rod_diameter),
        "rod_spacing": ("Between axes", feed.rod_spacing),
        "rod_length": ("Length of the rods", feed.rod_length),
    }
    # Only what the plan has already: a new key belongs to the owner's own line of the file.
    for key, (words, value) in lengths.items():
        if value is not None:
            text = tube_size(value, system=view.system)
            rows.append((words, f"{place}.{key}", text, rod))
    if feed.capacitance is not None:
        text = f"{feed.capacitance * 1e12:.0f} pF"
        rows.append(("Capacitor", f"{place}.capacitance", text, "such as 60 pF"))
    if plan.line is not None:
        length = long_length(plan.line.length, system=view.system)
        rows.append(("Line", "line.length", length, "from radio to antenna"))
    if plan.transmitter is not None:
        power = f"{plan.transmitter.power:g} W"
        rows.append(("Power", "transmitter.power", power, "peak envelope power"))
    return asked_fields(rows, view)


def context(desk: PlanDesk, view: View, *, whole: bool) -> FeedContext:
    """Build the context of the Feed sheet."""
    plan = desk.plan
    found = beam_subject(desk, view, name="feed", compute=desk.session.feed, whole=whole)
    parts = subject_parts(found, system=view.system, groups=_GROUPS)
    cautions = {notice.code for notice in FEED_CAUTIONS}
    parts["notices"] = tuple(each for each in parts["notices"] if each.code not in cautions)
    number = min(view.beam, len(plan.beams) - 1)
    offered = desk.session.match_offered(plan, number=number)
    return FeedContext(
        lacks=_lacks(plan, view),
        asked=_asked(plan, view),
        adopt=number if offered else None,
        cautions=FEED_CAUTIONS,
        **parts,
    )


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    plan = desk.plan
    beam = plan.beams[min(view.beam, len(plan.beams) - 1)]
    if plan.line is None:
        return Mark(state="missing", text="the plan has no line")
    lacking = []
    if plan.transmitter is None:
        lacking.append("no power")
    if plan.line.choke is None:
        lacking.append("no choke")
    feed = beam.feed
    rods = feed.kind in {"hairpin", "gamma", "tee"} and feed.inductance is None
    if rods and feed.rod_length is None:
        lacking.append("match without its length")
    if lacking:
        return Mark(state="doubtful", text="; ".join(lacking))
    return Mark(state="done", text="match, line, choke and power are named")


FEED = Sheet(
    noun="Feed",
    slug="feed",
    template="feed.html",
    doing="Solving match, line and braid in the field",
    context=context,
    mark=mark,
)

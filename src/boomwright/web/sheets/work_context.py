"""What the sheets of cost, build and raising show: the page and its JSON are made of this."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from boomwright.base import BoomwrightError, Notice, UnitSystem
from boomwright.base.records import dataclass, field
from boomwright.charts.blocks import Words, WorkSheet, block_data
from boomwright.plan import Plan
from boomwright.report.model import Canvas
from boomwright.web.colours import page_palette
from boomwright.web.refusing import refusal
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.context_parts import helped
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    Opening,
    opening,
)
from boomwright.web.view import View

_PALETTE = page_palette()


#: pictures that a sheet opens with, best first
_MAIN = ("lift-side", "assembly")
#: a table of its own part has more rows than this
_MOST_ROWS = 12
#: names of rows that tell what a table lists, at most
_MOST_NAMES = 6


def tick_name(subject: str, heading: str, words: str) -> str:
    """Name a piece of work that can be ticked off, as the file beside the plan has it."""
    # Hard spaces are for the eye only.
    return " ".join(f"{subject}: {heading}: {words}".split())[:200].strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkPart:
    """A part of a work sheet, unfolded by whoever wants it."""

    heading: str  #: its heading; empty for what the sheet opens with
    inside: str  #: what is inside, in a line
    blocks: tuple[dict[str, Any], ...]  #: its blocks (n_blocks,)


def _heading(block: dict[str, Any]) -> str:
    """Heading of the part that begins with a block, or empty."""
    if block["kind"] == "heading" and block["level"] == 2:
        return str(block["text"])
    long = block["kind"] == "grid" and len(block["rows"]) > _MOST_ROWS
    return str(block["caption"]) if long else ""


def _says(block: dict[str, Any], heading: str) -> str:
    """What a block holds, in a few words that its part's heading does not say already."""
    kind = block["kind"]
    if kind == "grid":
        said = str(block["caption"])
        return said if said not in {"", heading} else _names(block["rows"])
    if kind == "steps":
        return "" if block["title"] == heading else str(block["title"])
    if kind == "facts":
        return _names(block["rows"])
    return str(block["text"]) if kind == "heading" else "drawing" if kind == "picture" else ""


def _names(rows: Sequence[Sequence[str]]) -> str:
    """Name what a table lists: its groups, or the first of its rows."""
    grouped = [row[0] for row in rows if len(row) == 1]
    names = list(dict.fromkeys(grouped or [row[0].partition("\n")[0] for row in rows if row[0]]))
    more = f" and {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else ""
    return "; ".join(names[:_MOST_NAMES]) + more if names else "to be filled in"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkContext:
    """Everything a work sheet shows."""

    title: str = field(metadata=helped("Its title."))
    ready: bool = field(metadata=helped("Whether the sheet is there."))
    trouble: str = field(metadata=helped("Why it cannot be made, or empty."))
    lacks: tuple[Lack, ...] = field(metadata=helped("What the plan does not say yet."))
    asked: tuple[AskedField, ...] = field(metadata=helped("Values of the plan, to type."))
    opening: Opening = field(metadata=helped("Its verdict, and what to do next."))
    blocks: tuple[dict[str, Any], ...] = field(
        metadata=helped("Headings, words, facts, grids, pictures, steps and lines to fill in.")
    )
    notices: tuple[Notice, ...] = field(metadata=helped("Doubts, cautions, exceeded limits."))
    ticks: tuple[str, ...] = field(metadata=helped("What is ticked off, as the sheet says it."))

    @property
    def main(self) -> dict[str, Any] | None:
        """The picture it opens with, which leaves its part."""
        pictures = {block["name"]: block for block in self.blocks if block["kind"] == "picture"}
        return next((pictures[name] for name in _MAIN if name in pictures), None)

    @property
    def parts(self) -> tuple[WorkPart, ...]:
        """Its blocks heading by heading; what stands above the first heading has none."""
        parts: list[tuple[str, list[dict[str, Any]]]] = [("", [])]
        main = self.main
        for block in self.blocks:
            heading = _heading(block)
            if heading:
                parts.append((heading, [block] if block["kind"] == "grid" else []))
            elif block["kind"] != "page" and block is not main:
                parts[-1][1].append(block)
        return tuple(
            WorkPart(
                heading=heading,
                inside=" · ".join(
                    dict.fromkeys(filter(None, (_says(block, heading) for block in blocks)))
                ),
                blocks=tuple(blocks),
            )
            for heading, blocks in parts
            if blocks
        )


def work_context(
    desk: PlanDesk,
    view: View,
    *,
    subject: str,
    whole: bool,
    lacks: Callable[[Plan], tuple[Lack, ...]],
    asked: Callable[[Plan, View], tuple[AskedField, ...]],
) -> WorkContext:
    """Build the context of a work sheet.

    Args:
        subject: ``cost``, ``build`` or ``raising``
    """
    revision, plan = desk.snapshot()
    key = (f"work-{subject}", view.beam, view.system, view.narrow, revision)
    found = desk.kept.get(key)
    if not isinstance(found, (WorkSheet, str)) and whole:
        try:
            canvas = Canvas(palette=_PALETTE, system=view.system, forms=True)
            found = desk.session.work(plan, subject=subject, number=view.beam, canvas=canvas)
        except BoomwrightError as error:
            found = refusal(error, desk.text, system=view.system)
        desk.kept.put(key, found)
    made = found if isinstance(found, WorkSheet) else None
    return WorkContext(
        title=made.title if made else "",
        ready=isinstance(found, (WorkSheet, str)),
        trouble=found if isinstance(found, str) else "",
        lacks=lacks(plan),
        asked=asked(plan, view),
        blocks=tuple(block_data(block) for block in made.blocks) if made else (),
        opening=(
            opening(made.findings, steps=made.steps, system=view.system) if made else opening()
        ),
        notices=_untold(made, system=view.system) if made else (),
        ticks=tuple(desk.session.ticks()) if made else (),
    )


def _untold(made: WorkSheet, *, system: UnitSystem) -> tuple[Notice, ...]:
    """Take the notices that its words do not say already."""
    told = {block.text for block in made.blocks if isinstance(block, Words)}
    return tuple(
        each.written(system, forms=True)
        for each in made.notices
        if each.written(system, forms=True).text not in told
    )

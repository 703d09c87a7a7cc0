"""Pieces of a sheet that lays out a shown subject: facts, pictures, lists, fields, changes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, Literal

from boomwright.base import (
    BoomwrightError,
    Finding,
    Notice,
    UnitSystem,
    VerdictWord,
    counts_text,
    finding_text,
    plan_verdict,
)
from boomwright.base.quantity import InPlan, Value, places_in, write
from boomwright.base.records import asdict, dataclass, field
from boomwright.charts import ShownStep, ShownSubject, ShownTable
from boomwright.render.rows import text_table
from boomwright.report.model import Canvas
from boomwright.report.model import Table as ReportTable
from boomwright.web.colours import page_palette
from boomwright.web.refusing import refusal
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.context_parts import Field, Table, helped
from boomwright.web.view import View
from boomwright.web.works import StoppedError

_PALETTE = page_palette()
#: widths of pictures on a wide and on a narrow window [user units]
WIDTH, NARROW_WIDTH = 420.0, 350.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectFact:
    """A figure that counts most."""

    label: str = field(metadata=helped("What it is."))
    value: str = field(metadata=helped("Its value with unit."))


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDo:
    """Something that is done next."""

    text: str = field(metadata=helped("What is done."))
    places: tuple[InPlan, ...] = field(
        default=(),
        metadata=helped("Where in the plan it is done; each has the button of its form."),
    )
    sheet: str = field(default="", metadata=helped("Address of the sheet on which it is done."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What a sheet says first: its verdict, and what to do next."""

    word: VerdictWord | Literal[""] = field(
        metadata=helped("Worst word of its checks; empty for a subject without checks.")
    )
    text: str = field(metadata=helped("Its checks that are not within, counted."))
    exceeded: tuple[ToDo, ...] = field(
        metadata=helped("Every exceeded check, and what changes it.")
    )
    steps: tuple[ToDo, ...] = field(metadata=helped("What to do next, most pressing first."))


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectPicture:
    """A picture of the sheet."""

    name: str = field(metadata=helped("Short name, the same as among the figures."))
    words: str = field(metadata=helped("Its title."))
    caption: str = field(metadata=helped("A sentence below it."))
    group: str = field(metadata=helped("Part of the sheet it belongs to."))


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectList:
    """A table of the sheet."""

    name: str = field(metadata=helped("Short name."))
    group: str = field(metadata=helped("Part of the sheet it belongs to."))
    table: Table = field(metadata=helped("Heads and rows."))
    note: str = field(metadata=helped("A sentence below it, or empty."))
    folded: bool = field(metadata=helped("Whether it is folded away at first."))
    places: tuple[InPlan, ...] = field(
        default=(), metadata=helped("Where in the plan its cells are settled.")
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectChange:
    """A change offered, taken with one key."""

    beam: int = field(metadata=helped("Number of the beam, from 0."))
    element: int = field(metadata=helped("Number of the element, from 0."))
    number: int = field(metadata=helped("Number of the change among those of the element."))
    label: str = field(metadata=helped("Name of the element."))
    text: str = field(metadata=helped("What is done."))
    gain: str = field(metadata=helped("What it gains and costs."))


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectOffer:
    """A value of the plan that is proposed, taken with one key."""

    text: str = field(metadata=helped("What is done, and why."))
    place: str = field(metadata=helped("Dotted place in the plan."))
    value: str = field(metadata=helped("What is written there."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """Something the plan does not say yet."""

    text: str = field(metadata=helped("What is missing and what it is for."))
    forms: tuple[tuple[str, str], ...] = field(
        default=(), metadata=helped("Table or key whose form settles it, and words of its button.")
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedField:
    """A value of the plan that this sheet asks for."""

    words: str = field(metadata=helped("Its name beside the field."))
    value: Field = field(metadata=helped("The field."))
    hint: str = field(metadata=helped("How to write it."))


def asked_fields(rows: Iterable[tuple[str, str, str, Value]], view: View) -> tuple[AskedField, ...]:
    """Make fields of rows: label, place in the plan, what it says now, and how to write it."""
    return tuple(
        AskedField(
            words=words,
            value=Field(place=place, label=words, text=text),
            hint=write(hint, system=view.system),
        )
        for words, place, text, hint in rows
    )


#: short name of a part of a sheet, its heading, and a line that says what is inside
Group = tuple[str, str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class SubjectContext:
    """What every sheet shows that lays out a subject."""

    asked: tuple[AskedField, ...] = field(metadata=helped("Values of the plan, to type."))
    ready: bool = field(metadata=helped("Whether the figures are computed."))
    trouble: str = field(metadata=helped("Why nothing can be computed, or empty."))
    opening: Opening = field(metadata=helped("Its verdict, and what to do next."))
    facts: tuple[SubjectFact, ...] = field(metadata=helped("Figures that count most."))
    offers: tuple[SubjectOffer, ...] = field(
        metadata=helped("Values of the plan that are proposed, most useful first.")
    )
    groups: tuple[Group, ...] = field(
        metadata=helped("Parts of the sheet in order: short name, heading, what is inside.")
    )
    pictures: tuple[SubjectPicture, ...] = field(metadata=helped("Pictures in order."))
    figures: dict[str, str] = field(metadata=helped("SVG by name."))
    tables: dict[str, Table] = field(metadata=helped("Numbers behind the pictures, by name."))
    lists: tuple[SubjectList, ...] = field(metadata=helped("Further tables in order."))
    notices: tuple[Notice, ...] = field(metadata=helped("Doubts, cautions, exceeded limits."))


def report_table(table: ReportTable[Any], *, system: UnitSystem) -> Table:
    """Write a table of a report for a sheet."""
    written = text_table(table, system=system, forms=True)
    caption = write(table.caption, system=system, forms=True)
    return Table(caption=caption, columns=written.header, rows=written.rows)


def subject_table(shown: ShownTable) -> Table:
    """Turn a shown table into the table of a sheet."""
    return Table(caption=shown.caption, columns=shown.table.header, rows=shown.table.rows)


def known_subject(
    desk: PlanDesk,
    view: View,
    *,
    name: str,
    make: Callable[[float], ShownSubject],
    whole: bool,
    revision: int | None = None,
) -> ShownSubject | str | None:
    """Take a subject as it was computed for this state of the plan, or compute it.

    Args:
        make: computes and draws it at a width in user units
        revision: that of the plan which ``make`` computes; None for the plan as it stands

    Returns:
        the subject, words why it cannot be, or None when not computed yet
    """
    revision = desk.revision if revision is None else revision
    key = (name, view.beam, view.system, view.narrow, revision)
    kept = desk.kept.get(key)
    if isinstance(kept, (ShownSubject, str)) or not whole:
        return kept if isinstance(kept, (ShownSubject, str)) else None
    try:
        found: ShownSubject | str = make(NARROW_WIDTH if view.narrow else WIDTH)
    except StoppedError as error:
        # Not kept: asked again, it is computed.
        return str(error)
    except BoomwrightError as error:
        found = refusal(error, desk.text, system=view.system)
    desk.kept.put(key, found)
    return found


def beam_subject(
    desk: PlanDesk,
    view: View,
    *,
    name: str,
    compute: Callable[..., ShownSubject],
    whole: bool,
) -> ShownSubject | str | None:
    """Take a subject of the beam in view as :func:`known_subject` does."""
    revision, plan = desk.snapshot()

    def make(width: float) -> ShownSubject:
        canvas = Canvas(palette=_PALETTE, system=view.system, width=width, forms=True)
        return compute(plan, number=min(view.beam, len(plan.beams) - 1), canvas=canvas)

    return known_subject(desk, view, name=name, make=make, whole=whole, revision=revision)


def opening(
    findings: Sequence[Finding] = (),
    *,
    steps: Sequence[ShownStep] = (),
    system: UnitSystem = "metric",
) -> Opening:
    """Say the verdict of a sheet's checks first."""
    verdict = plan_verdict(findings)
    counts = counts_text(verdict)
    exceeded = tuple(
        ToDo(
            text=finding_text(each, system=system, forms=True),
            places=places_in(each.reason, each.change),
        )
        for each in verdict.worst
        if each.verdict == "exceeded"
    )
    return Opening(
        word=verdict.word if findings else "",
        text=f"{counts[0].upper()}{counts[1:]}." if findings else "",
        exceeded=exceeded,
        # Each exceeded check says already what changes it.
        steps=tuple(ToDo(text=each.text, places=each.places, sheet=each.sheet) for each in steps)
        if not exceeded
        else (),
    )


def subject_parts(
    found: ShownSubject | str | None,
    *,
    system: UnitSystem,
    groups: Sequence[Group],
) -> dict[str, Any]:
    """Lay a subject out in the fields every such sheet has.

    Args:
        found: the subject, words why it cannot be, or None when not computed yet
    """
    if not isinstance(found, ShownSubject):
        return {
            "ready": isinstance(found, str),
            "trouble": found if isinstance(found, str) else "",
            "opening": opening(),
            "facts": (),
            "offers": (),
            "groups": (),
            "pictures": (),
            "figures": {},
            "tables": {},
            "lists": (),
            "notices": (),
        }
    used = {each.group for each in found.pictures} | {each.group for each in found.tables}
    return {
        "ready": True,
        "trouble": "",
        "opening": opening(found.findings, steps=found.steps, system=system),
        "facts": tuple(SubjectFact(label=label, value=value) for label, value in found.facts),
        "offers": tuple(SubjectOffer(**asdict(each)) for each in found.offers),
        "groups": tuple(part for part in groups if part[0] in used),
        "pictures": tuple(
            SubjectPicture(name=each.name, words=each.words, caption=each.caption, group=each.group)
            for each in found.pictures
        ),
        "figures": {each.name: each.svg for each in found.pictures},
        "tables": {each.name: subject_table(each.behind) for each in found.pictures},
        "lists": tuple(
            SubjectList(
                name=each.name,
                group=each.group,
                table=subject_table(each),
                note=each.note,
                folded=each.folded,
                places=each.table.places,
            )
            for each in found.tables
        ),
        "notices": found.notices,
    }

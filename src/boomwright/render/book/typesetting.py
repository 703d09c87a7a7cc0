"""From contents to PDF: the template gets the contents as data, never as markup."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any, Literal

import typst

from boomwright.base import BoomwrightError, PlanVerdict, UnitSystem
from boomwright.base.quantity import on_paper
from boomwright.charts import ShownSubject
from boomwright.plan import Plan
from boomwright.reach import BeamReadings
from boomwright.render.book.citations import Citations
from boomwright.render.book.contents import book_contents
from boomwright.render.book.fonts import book_fonts
from boomwright.report.chapter import PARTS, Chapter, Part
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

Paper = Literal["a4", "us-letter"]

_TEMPLATES = ("look", "tables", "arrange", "shown", "work", "beam", "method", "safety", "front")


def _template(names: Sequence[str]) -> bytes:
    """Join the template files; they are fixed text of this package, nothing of the plan's."""
    folder = files("boomwright.render.book").joinpath("templates")
    return b"\n".join(folder.joinpath(f"{name}.typ").read_bytes() for name in names)


def _check(*, plan: Plan, readings: Sequence[BeamReadings]) -> None:
    if not readings:
        msg = "a book needs the readings of at least one beam; compute the plan first"
        raise BoomwrightError(msg)
    known = {beam.name for beam in plan.beams}
    for one in readings:
        if one.beam.name not in known:
            raise BoomwrightError(
                f"the readings of beam {one.beam.name!r} do not belong to this plan, "
                f"which has {', '.join(sorted(map(repr, known)))}; compute this plan again"
            )
        if not one.sweep:
            msg = f"beam {one.beam.name!r} has no sweep; compute it at one frequency or more"
            raise BoomwrightError(msg)


def typeset(templates: Sequence[str], contents: Mapping[str, Any]) -> bytes:
    """Set contents with templates, the last of which is the document itself.

    Raises:
        BoomwrightError: when the type engine refuses it
    """
    machine_fonts = bool(contents["machine_fonts"])
    compiler = typst.Compiler(
        _template(templates),
        font_paths=book_fonts(machine_fonts=machine_fonts),
        sys_inputs={"part": templates[-1], "contents": json.dumps(contents, ensure_ascii=True)},
    )
    try:
        # The accessibility standard refuses a character without a glyph, which the fonts of
        # an unknown machine may leave; such a book is tagged all the same, but makes no claim.
        made = compiler.compile(
            format="pdf", timestamp=0, pdf_standards=[] if machine_fonts else ["ua-1"]
        )
    except typst.TypstError as error:
        msg = f"the book could not be set: {error}; report this with the plan"
        raise BoomwrightError(msg) from error
    if not isinstance(made, bytes):
        msg = "the type engine gave no single PDF; check the installed version of typst"
        raise BoomwrightError(msg)
    return made


@on_paper()
def make_book(
    *,
    plan: Plan,
    readings: Sequence[BeamReadings],
    verdict: PlanVerdict,
    version: str,
    digest: str,
    sources: Mapping[str, str],
    citations: Citations | None = None,
    system: UnitSystem = "metric",
    paper: Paper = "a4",
    issued: str = "",
    measured: Sequence[AsMeasured | NotMeasured] = (),
    reach: Sequence[ShownSubject] = (),
    feed: Sequence[ShownSubject] = (),
    structure: Sequence[ShownSubject] = (),
    permits: Sequence[ShownSubject] = (),
    tuning: Sequence[ShownSubject] = (),
    searched: Sequence[ShownSubject] = (),
    work: Sequence[Chapter] = (),
    summary: Sequence[tuple[str, str]] = (),
    parts: Sequence[Part] = PARTS,
) -> dict[Part, bytes]:
    """Set the book of a plan, its annex and its pocket sheets, each a PDF.

    The same arguments give the same bytes: no clock, no random id, no font of the machine
    unless the plan's own text needs characters that the book's fonts do not hold. A subject
    that is empty has no chapters.

    Args:
        readings: readings of the beams the book is about, in the order wanted (n_beams,)
        sources: the references the figures rest on, full text by key; all are listed
        citations: what subjects and chapters cite of them
        paper: ``a4`` or ``us-letter``
        issued: date or issue mark for the title page, or empty
        measured: what the owner will measure of them, as far as it is known (n_measured,)
        summary: label and text of the figures of the whole station on the first page (n_facts, 2)

    Returns:
        tagged PDFs, to PDF/UA-1 {iso-14289-1} when the book's own fonts hold every character
    """
    _check(plan=plan, readings=readings)
    contents = book_contents(
        plan=plan,
        readings=readings,
        verdict=verdict,
        system=system,
        paper=paper,
        issued=issued,
        version=version,
        digest=digest,
        sources=sources,
        citations=citations,
        measured=measured,
        subjects=(*searched, *feed, *structure, *permits, *reach),
        tuned=tuning,
        work=work,
        summary=summary,
    )
    return {part: typeset((*_TEMPLATES, part), contents) for part in parts}

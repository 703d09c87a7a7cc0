"""The proposal as a PDF of two pages."""

from __future__ import annotations

from functools import partial
from typing import Any

from boomwright.base import UnitSystem, written_notices
from boomwright.base.quantity import Quantity, Value, write
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.render.book.citations import Citations
from boomwright.render.book.contents import LOOK, notice_entry
from boomwright.render.book.fonts import strings_in, uncovered
from boomwright.render.book.shown import picture_data, table_data
from boomwright.render.book.typesetting import Paper, typeset
from boomwright.render.laid import lay_out
from boomwright.render.rows import fact_rows, text_table
from boomwright.report.advice.proposal import Forward, Proposal
from boomwright.report.advice.words import DIPOLE
from boomwright.report.model import Canvas, Picture, Report
from boomwright.report.wording import clean, first_upper, shortened

_TEMPLATES = ("look", "tables", "arrange", "front", "proposal")
#: widths that the pictures are drawn in [user units]
_FULL, _THIRD = 600.0, 236.0


def make_proposal(
    proposal: Proposal,
    *,
    system: UnitSystem,
    paper: Paper,
    version: str,
    digest: str,
    issued: str = "",
) -> bytes:
    """Set the proposal; the same arguments give the same bytes.

    Args:
        issued: day of issue, or empty for hand entry

    Returns:
        a tagged PDF
    """
    contents = _contents(proposal, system=system)
    contents |= {
        "paper": paper,
        "version": clean(version),
        "digest": clean(digest),
        "issued": clean(issued),
    }
    contents["machine_fonts"] = bool(uncovered("".join(strings_in(contents))))
    return typeset(_TEMPLATES, contents)


def _contents(proposal: Proposal, *, system: UnitSystem) -> dict[str, Any]:
    canvas = Canvas(palette=PRINT_PALETTE, system=system, width=_FULL)
    said = partial(_said, system=system)
    notices = written_notices(proposal.notices, system=system)
    picture = proposal.picture
    return {
        "title": clean(proposal.title),
        "running": shortened(clean(proposal.title), limit=70),
        "look": LOOK,
        # Each station carries its own verdict; the proposal as a whole is nothing to build from.
        "verdict": {"stamp": ""},
        "answer": clean(proposal.answer),
        "heading": clean(proposal.heading),
        "place": fact_rows(proposal.place, system=system),
        "wishes": fact_rows(proposal.wishes, system=system),
        "stations": [_station(each, system=system) for each in proposal.stations],
        "picture": None if picture is None else _picture(picture, canvas),
        "table": {
            "caption": said(proposal.table.caption),
            "note": said(proposal.table.around),
            "table": table_data(text_table(proposal.table, system=system)),
        },
        "questions": [
            [said(cell) for cell in row]
            for row in text_table(proposal.questions, system=system).rows
        ],
        "assumed": [said(line) for line in proposal.assumed],
        "sure": [said(line) for line in proposal.sure],
        "cautions": [
            notice_entry(each, about="this proposal", citations=Citations())
            for each in notices
            if each.severity in {"caution", "limit"}
        ],
        "doubts": [clean(str(each.text)) for each in notices if each.severity == "doubt"],
    }


def _said(value: Value, *, system: UnitSystem) -> str:
    return first_upper(clean(write(value, system=system)))


def _station(one: Forward, *, system: UnitSystem) -> dict[str, Any]:
    said = partial(_said, system=system)
    canvas = Canvas(palette=PRINT_PALETTE, system=system, width=_THIRD)
    return {
        "kind": said(one.kind),
        "name": said(one.name),
        "figure": write(Quantity(one.gain_db, "advantage"), system=system),
        "against": f"against {write(DIPOLE, system=system)}",
        "word": one.word,
        "verdict": first_upper(clean(one.verdict)),
        "facts": fact_rows(one.facts, system=system),
        "reasons": [said(line) for line in one.reasons],
        "picture": _picture(one.picture, canvas),
    }


def _picture(picture: Picture, canvas: Canvas) -> dict[str, Any]:
    report = Report(subject="advise", title=picture.title, pictures=(picture,))
    (shown,) = lay_out(report, canvas=canvas).pictures
    return picture_data(shown)

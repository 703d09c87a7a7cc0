"""A change shown before it is made: what will be measured before and after, and what is re-cut."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from boomwright.base import BoomwrightError
from boomwright.report.model import Canvas
from boomwright.web.colours import page_palette
from boomwright.web.judging import find_verdict
from boomwright.web.refusing import refusal
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.shown_context import subject_table
from boomwright.web.start_edits import Propose
from boomwright.web.view import View
from boomwright.web.windows import Say
from boomwright.web.workers import Crew


async def propose(proposal: Propose, *, desk: PlanDesk, crew: Crew, view: View, say: Say) -> None:
    """Work out what a change brings, and tell the window that asked."""
    canvas = Canvas(palette=page_palette(), system=view.system)

    def weigh() -> dict[str, Any]:
        # Judging loads all rooms below, which the first sheet must not wait for.
        from boomwright.study.weighing import WeighedPlan

        revision, before = desk.revision, desk.text
        after, label = desk.preview(proposal.edit)
        number = getattr(proposal.edit, "beam", view.beam)
        # The page has measured and judged the plan as it is, or is about to.
        known = WeighedPlan(measured=desk.measured(number), verdict=find_verdict(desk)[1])
        shown = desk.session.weigh(before, after, known=known, number=number, canvas=canvas)
        if desk.revision != revision:
            raise BoomwrightError("the plan was changed meanwhile", remedy="ask again")
        tables = [asdict(subject_table(each)) | {"note": each.note} for each in shown.tables]
        return {"label": label, "tables": tables}

    try:
        told = await crew.long(weigh)
    except BoomwrightError as error:
        told = {"refused": refusal(error, desk.text)}
    await say({"kind": "proposal", **told})

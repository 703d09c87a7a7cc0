"""The Tuning sheet: measured against computed, what to move, what cannot be told, trials."""

from __future__ import annotations

from boomwright.figures import ShownSubject
from boomwright.plan import Plan
from boomwright.tuning.cautions import TUNING_CAUTIONS
from boomwright.web.colours import page_palette
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.context_parts import Field
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import AskedField, Lack, known_subject, subject_parts
from boomwright.web.sheets.tuning_context import TuningContext
from boomwright.web.view import View

_PALETTE = page_palette()
_GROUPS = (
    ("advice", "What to move"),
    ("compared", "Measured against computed"),
    ("told", "What the sweep tells, and what it does not"),
    ("trials", "Trials"),
)
_GROUP = {"advice": "advice", "swr": "compared", "r": "compared", "x": "compared",
          "trials": "trials"}  # fmt: skip
_EXAMPLE = """[measured]
sweep = "antenna.s1p"
day = 2026-05-02
line = { type = "RG-213", length = "18 m" }"""
_TRIAL = """[[measured.trial]]
sweep = "antenna-2.s1p"
day = 2026-05-03
moved = [{ element = 1, tips = "-17 mm" }, { stage = 0, longer = "8 mm" }]"""


def _lacks(plan: Plan) -> tuple[Lack, ...]:
    if plan.measured is None:
        text = (
            "There is no measured sweep yet. Sweep the antenna from somewhat below to somewhat "
            "above its band, R and X or reflection with phase rather than SWR alone. Save the "
            "sweep beside the plan as Touchstone (.s1p) or as a table: frequency, R, X, and name "
            "it. Leave line out when the meter was at the feed point."
        )
        return (Lack(text=text, example=_EXAMPLE),)
    if not plan.measured.trial:
        text = (
            "After moving something, measure again and add the new sweep with what was moved; "
            "element and stage count from 0, tips go outwards with plus. The next advice then "
            "builds on both sweeps."
        )
        return (Lack(text=text, example=_TRIAL),)
    return ()


def _asked(plan: Plan) -> tuple[AskedField, ...]:
    measured = plan.measured
    if measured is None:
        return ()
    rows = [("Sweep", "measured.sweep", measured.sweep, "a file beside the plan")]
    if measured.line is not None:
        length = f"{measured.line.length:g} m"
        rows.append(("Line", "measured.line.length", length, "from the meter to the feed point"))
    return tuple(
        AskedField(words=words, value=Field(place=place, label=words, text=text), hint=hint)
        for words, place, text, hint in rows
    )


def context(desk: PlanDesk, view: View, *, whole: bool) -> TuningContext:
    """Build the context of the Tuning sheet.

    Parameters
    ----------
    desk
        the plan [-]
    view
        what the window looks at [-]
    whole
        whether to compute; otherwise only what is known already is shown [-]

    Returns
    -------
    TuningContext
        everything the sheet shows [-]
    """
    _, plan = desk.snapshot()

    def make(width: float) -> ShownSubject:
        return desk.tools.tuning(plan, system=view.system, palette=_PALETTE, width=width)

    found: ShownSubject | str | None = ""
    if plan.measured is not None:
        found = known_subject(desk, view, name="tuning", make=make, whole=whole)
    parts = subject_parts(
        found,
        groups=_GROUPS,
        group_of=lambda name: _GROUP.get(name, "told"),
        folded=lambda name: name == "alike",
    )
    cautions = {notice.code for notice in TUNING_CAUTIONS}
    parts["notices"] = tuple(each for each in parts["notices"] if each.code not in cautions)
    return TuningContext(lacks=_lacks(plan), asked=_asked(plan), cautions=TUNING_CAUTIONS, **parts)


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come.

    Parameters
    ----------
    desk
        the plan [-]
    view
        what the window looks at [-]

    Returns
    -------
    Mark
        missing without a sweep, doubtful without its line or a trial [-]
    """
    measured = desk.plan.measured
    if measured is None:
        return Mark(state="missing", text="no sweep was measured yet")
    if not measured.trial:
        return Mark(state="doubtful", text="one sweep, no trial after it")
    return Mark(state="done", text="sweep and trials are recorded")


TUNING = Sheet(noun="Tuning", slug="tuning", template="tuning.html", context=context, mark=mark)

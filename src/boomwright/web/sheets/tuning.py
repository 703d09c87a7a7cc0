"""The Tuning sheet: measured against computed, what to move, what cannot be told, trials."""

from __future__ import annotations

from functools import partial

from boomwright.base import PlanError
from boomwright.base.quantity import PerSystem, Value, phrase
from boomwright.charts import ShownSubject
from boomwright.feed import COAX_TYPES
from boomwright.plan import Plan
from boomwright.plan.resolve.tuning import measured_beam
from boomwright.report.model import Canvas
from boomwright.study.taking_moves import moves_refused
from boomwright.tuning.cautions import TUNING_CAUTIONS
from boomwright.web.colours import page_palette
from boomwright.web.readout import long_length, tube_size
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.named_lists import NamedList, named_list
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    asked_fields,
    known_subject,
    subject_parts,
)
from boomwright.web.sheets.tuning_context import TuningContext
from boomwright.web.view import View

_PALETTE = page_palette()
_GROUPS = (
    ("advice", "What to move", "Which tip or rod, by how much, and what it will bring"),
    ("compared", "Measured against computed", "Your sweep beside the model, before and after"),
    ("told", "What the sweep tells, and what it does not", "Lengths and errors it can settle"),
    ("air", "On the air", "Your signal reports against the computed pattern"),
    ("trials", "Trials", "What was moved, and what each move did"),
)


def _lacks(plan: Plan, *, takes: bool = False) -> tuple[Lack, ...]:
    if plan.measured is None:
        text = "There is no measured sweep yet. Sweep the antenna from somewhat below to somewhat "
        text += "above its band, R and X or reflection with phase rather than SWR alone. "
        text += "Give it under Your sweep, or save it" if takes else "Save it"
        text += (
            " beside the plan as Touchstone (.s1p) or as a table: frequency, R, X, and name it. "
            "Name no line when the meter was at the feed point."
        )
        return (Lack(text=text, forms=(("measured", "Name the sweep"),)),)
    found = []
    if not plan.measured.trial:
        text = "After moving something, measure again and add the new sweep with what was moved"
        text += ", under Another sweep or as a trial. " if takes else ". "
        text += "The next advice then builds on both sweeps."
        found.append(Lack(text=text, forms=(("measured.trial[0]", "Add a trial"),)))
    if not plan.measured.heading and not plan.measured.aim:
        text = (
            "There are no readings on the air yet. Turn the beam past a steady distant signal and "
            "write level against what the rotator shows, every 30 degrees or closer: S-units or "
            "decibels. Aim at the sun, its time in universal time, or at something whose bearing "
            "is known."
        )
        forms = (("measured.heading[0]", "Add a turn"), ("measured.aim[0]", "Add an aim"))
        found.append(Lack(text=text, forms=forms))
    return tuple(found)


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    measured = plan.measured
    if measured is None:
        return ()
    rows: list[tuple[str, str, str, Value]] = [
        ("Sweep", "measured.sweep", measured.sweep, "a file beside the plan")
    ]
    if measured.line is not None:
        length = long_length(measured.line.length, system=view.system)
        rows.append(("Line", "measured.line.length", length, "from the meter to the feed point"))
    meter = measured.meter or "hand-held"
    rows.append(("Meter", "measured.meter", meter, "hand-held, careful kit or plain"))
    noise = "" if measured.noise is None else f"{100.0 * measured.noise:g} %"
    hint: Value = "of full reflection; left empty, found with everything else"
    rows.append(("Scatter of the meter", "measured.noise", noise, hint))
    cutting = measured.tolerance.cutting if measured.tolerance else None
    text = "" if cutting is None else tube_size(cutting, system=view.system)
    cut = PerSystem(metric="4 mm", us="5/32 in")
    hint = phrase("of one tip, as a standard deviation; left empty, {cut}", cut=cut)
    rows.append(("Cut and assembled within", "measured.tolerance.cutting", text, hint))
    return asked_fields(rows, view)


def _beside(plan: Plan) -> tuple[NamedList, ...]:
    """Readings beside the sweeps, by probe and by a distant signal."""
    measured = plan.measured
    if measured is None:
        return ()
    try:
        beam = measured_beam(plan)
    except PlanError:
        return ()
    labels = beam.element_labels
    found = [
        named_list(
            "measured.front_to_back",
            "Front to back with a distant signal",
            (f"{each.ratio:g} dB" for each in measured.front_to_back),
            button="Add a front-to-back reading",
        )
    ]
    if len(labels) > 1:
        probe = named_list(
            "measured.probe",
            "Current by a probe",
            (
                f"{dict(enumerate(labels)).get(each.element, 'no element')}: {each.ratio:g} of "
                "the driven element"
                for each in measured.probe
            ),
            button="Add a probe reading",
        )
        found.insert(0, probe)
    return tuple(found)


def context(desk: PlanDesk, view: View, *, whole: bool) -> TuningContext:
    """Build the context of the Tuning sheet."""
    _, plan = desk.snapshot()

    found, searching, trouble = _found(desk, view, plan, whole=whole)
    parts = subject_parts(
        found,
        system=view.system,
        groups=_GROUPS,
    )
    if trouble:
        parts["trouble"] = f"No fault was looked for: {trouble}"
    cautions = {notice.code for notice in TUNING_CAUTIONS}
    parts["notices"] = tuple(each for each in parts["notices"] if each.code not in cautions)
    return TuningContext(
        lacks=_lacks(plan, takes=desk.library is not None),
        asked=_asked(plan, view),
        cautions=TUNING_CAUTIONS,
        beside=_beside(plan),
        takes=desk.library is not None,
        measured=plan.measured is not None,
        advised=bool(desk.session.advised_moves(plan)),
        moves=moves_refused(plan),
        lined=plan.measured is not None and plan.measured.line is not None,
        lines=tuple(COAX_TYPES),
        searching=searching,
        **parts,
    )


def _found(
    desk: PlanDesk, view: View, plan: Plan, *, whole: bool
) -> tuple[ShownSubject | str | None, bool, str]:
    """The advice first; asked again, the fault as well.

    With it, whether it is worth asking again, and why no fault could be looked for.
    """
    if plan.measured is None:
        return "", False, ""

    def make(width: float, *, faults: bool) -> ShownSubject:
        canvas = Canvas(palette=_PALETTE, system=view.system, width=width, forms=True)
        with desk.fitting as heard:
            return desk.session.tuning(plan, faults=faults, canvas=canvas, progress=heard)

    first, second = partial(make, faults=False), partial(make, faults=True)
    before = known_subject(desk, view, name="tuning", make=first, whole=False)
    ready = isinstance(before, ShownSubject)
    complete = known_subject(desk, view, name="tuning-fault", make=second, whole=whole and ready)
    if isinstance(complete, ShownSubject):
        return complete, False, ""
    found = known_subject(desk, view, name="tuning", make=first, whole=whole)
    return found, isinstance(found, ShownSubject) and complete is None, complete or ""


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    measured = desk.plan.measured
    if measured is None:
        return Mark(state="missing", text="no sweep was measured yet")
    if not measured.trial:
        return Mark(state="doubtful", text="one sweep, no trial after it")
    return Mark(state="done", text="sweep and trials are recorded")


def progress(desk: PlanDesk) -> float | None:
    """Say what share of the fit under way is done [-]."""
    return desk.fitting.share


TUNING = Sheet(
    noun="Tuning",
    slug="tuning",
    template="tuning.html",
    doing="Fitting the measured sweep",
    context=context,
    progress=progress,
    mark=mark,
)

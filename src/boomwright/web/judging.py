"""The verdict of the plan on the desk, as header and tabs show it."""

from __future__ import annotations

from boomwright.base import (
    PlanVerdict,
    UnitSystem,
    counts_text,
    finding_text,
    open_text,
    tally_text,
    verdict_text,
)
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark, VerdictContext, VerdictLine

#: sheets whose subjects the verdict counts, by their paths
_COUNTED = frozenset({"structure", "permits", "cost", "build", "raising"})


def known_verdict(desk: PlanDesk) -> tuple[int, PlanVerdict | None]:
    """Take the verdict of the plan as it stands, with its revision; None while not judged."""
    revision = desk.revision
    kept = desk.kept.get(("verdict", revision))
    return revision, kept if isinstance(kept, PlanVerdict) else None


def find_verdict(desk: PlanDesk) -> tuple[int, PlanVerdict]:
    """Judge the plan, once for each state of it."""
    revision, plan = desk.snapshot()
    kept = desk.kept.get(("verdict", revision))
    found = kept if isinstance(kept, PlanVerdict) else desk.session.judge(plan)
    desk.kept.put(("verdict", revision), found)
    return revision, found


def verdict_context(
    revision: int, verdict: PlanVerdict | None, *, system: UnitSystem
) -> VerdictContext:
    """Write the verdict for the header."""
    if verdict is None:
        return VerdictContext(
            revision=None, word="", text="Verdict: being checked …", exceeded=(), open=""
        )
    return VerdictContext(
        revision=revision,
        word=verdict.word,
        text=verdict_text(verdict),
        exceeded=tuple(
            VerdictLine(
                text=finding_text(finding, system=system, forms=True),
                noun=finding.subject.capitalize(),
                address=f"/{finding.subject}",
            )
            for finding in verdict.worst
            if finding.verdict == "exceeded"
        ),
        open=open_text(verdict),
    )


def judged_mark(mark: Mark | None, verdict: PlanVerdict | None, *, subject: str) -> Mark | None:
    """Put what is not within in the place of how far a subject has come."""
    falls = Mark(state="doubtful", text="what holds the beam up is exceeded or not checked")
    if subject == "build" and verdict is not None and verdict.beam_may_fall:
        return falls
    if subject not in _COUNTED:
        return mark
    if verdict is None:
        return Mark(state="doubtful", text="being checked")
    part = verdict.of(subject)
    if not part.findings or part.word == "within":
        # No way up is a go while what holds the beam up is not settled.
        lifted = subject == "raising" and mark is not None and mark.state == "done"
        return falls if lifted and verdict.beam_may_fall else mark
    return Mark(state=part.word, text=counts_text(part), tally=tally_text(part))

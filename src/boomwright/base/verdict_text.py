"""The verdict of a plan in words: terminal, page, book and files all take them from here."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import Quantity, write
from boomwright.base.unit_text import UnitSystem
from boomwright.base.verdicts import NOT_AN_APPROVAL, Finding, PlanVerdict, VerdictWord

_COUNTED: Final[dict[VerdictWord, str]] = {
    "exceeded": "exceeded",
    "not checked": "not checked",
    "ask": "to ask",
}


def use_text(use: float) -> str:
    """Write demand over limit in per cent; a limit that is passed never reads as 100 %.

    Args:
        use: demand over limit [-]
    """
    return write(Quantity(use, "use"), system="metric")


def tally_text(verdict: PlanVerdict) -> str:
    """Count what has the worst word: ``7 exceeded``; empty when everything is within."""
    word = verdict.word
    return f"{verdict.counts[word]} {_COUNTED[word]}" if word in _COUNTED else ""


def counts_text(verdict: PlanVerdict) -> str:
    """Count what is not within: ``3 checks exceeded, 2 not checked, 5 to ask``."""
    counts = verdict.counts
    told = [f"{counts[word]} {said}" for word, said in _COUNTED.items() if counts[word]]
    if not told:
        return NOT_AN_APPROVAL if verdict.findings else "nothing was checked"
    noun = "check" if counts["exceeded"] else "point"
    number, _, said = told[0].partition(" ")
    return ", ".join((f"{number} {noun}{'' if number == '1' else 's'} {said}", *told[1:]))


def verdict_text(verdict: PlanVerdict) -> str:
    """Say the verdict in one line; where money alone is short, that stands behind strength."""
    exceeded = [finding for finding in verdict.findings if finding.verdict == "exceeded"]
    dear = ""
    if exceeded and all(finding.subject == "cost" for finding in exceeded):
        dear = ", over budget"
        verdict = PlanVerdict(
            findings=tuple(one for one in verdict.findings if one.verdict != "exceeded")
        )
        if not verdict.findings:
            return "Verdict: over budget. Nothing else was checked."
    counts = counts_text(verdict)
    some = verdict.word == "not checked" and verdict.findings
    word: str = "not fully checked" if some else verdict.word
    if dear and word == "within":
        word, dear = "over budget", ", otherwise within"
    return f"Verdict: {word}{dear}. {counts[0].upper()}{counts[1:]}."


def finding_text(finding: Finding, *, system: UnitSystem, forms: bool = False) -> str:
    """Say what one check found, why, and what would change it."""
    name, reason, change = (
        write(each, system=system, forms=forms)
        for each in (finding.name, finding.reason, finding.change)
    )
    said = f"To ask: {name}" if finding.verdict == "ask" else f"{name}, {_found(finding)}"
    if reason:
        said += f", because {reason}" if finding.verdict != "ask" else f". {reason}"
    next_ = f" Next: {change}." if change else ""
    return f"{said.rstrip('.')}.{next_}"


def exceeded_texts(
    verdict: PlanVerdict, *, system: UnitSystem, forms: bool = False
) -> tuple[str, ...]:
    """Say every exceeded check with its share of the limit and what would change it."""
    return tuple(
        finding_text(finding, system=system, forms=forms)
        for finding in verdict.worst
        if finding.verdict == "exceeded"
    )


def open_texts(verdict: PlanVerdict, *, system: UnitSystem) -> tuple[str, ...]:
    """Say every check that was not made and every point to ask, why, and what settles it."""
    return tuple(
        finding_text(finding, system=system)
        for finding in verdict.worst
        if finding.verdict in {"not checked", "ask"}
    )


def open_text(verdict: PlanVerdict) -> str:
    """Count by subject what is not checked and what is to be asked; empty when nothing is."""
    told = []
    for word, said in (("not checked", "Not checked"), ("ask", "To ask")):
        found = [finding.subject for finding in verdict.worst if finding.verdict == word]
        if found:
            counts = (f"{subject} {found.count(subject)}" for subject in dict.fromkeys(found))
            told.append(f"{said}: {', '.join(counts)}.")
    return " ".join(told)


def stamp_text(verdict: PlanVerdict, *, system: UnitSystem) -> str:
    """Say what stands against building; empty when nothing that holds the beam up is open."""
    may_fall = verdict.beam_may_fall
    if not may_fall:
        return ""
    first, *others = may_fall
    words = [finding.verdict for finding in may_fall]
    counted = ", ".join(
        f"{words.count(word)} {word}" for word in ("exceeded", "not checked") if word in words
    )
    named = f"{write(first.name, system=system)}, {_found(first)}"
    return f"Not to be built from: {named}{f' ({counted} in all)' if others else ''}"


def _found(finding: Finding) -> str:
    if finding.verdict == "exceeded" and finding.use is not None:
        return f"{use_text(finding.use)} of its limit"
    return finding.verdict

"""The verdict of a plan in words: terminal, page, book and files all take them from here."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity_text import readers_order
from boomwright.base.unit_text import UnitSystem
from boomwright.base.verdicts import NOT_AN_APPROVAL, Finding, PlanVerdict, VerdictWord

_COUNTED: Final[dict[VerdictWord, str]] = {
    "exceeded": "exceeded",
    "not checked": "not checked",
    "ask": "to ask",
}


def use_text(use: float) -> str:
    """Write demand over limit in per cent; a limit that is passed never reads as 100 %.

    Parameters
    ----------
    use
        demand over limit [-]
    """
    for decimals in (0, 1, 2):
        text = f"{100.0 * use:.{decimals}f}"
        if use <= 1.0 or float(text) > 100.0:
            return f"{text} %"
    return "just over 100 %"


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
    """Say the verdict in one line."""
    counts = counts_text(verdict)
    return f"Verdict: {verdict.word}. {counts[0].upper()}{counts[1:]}."


def finding_text(finding: Finding, *, system: UnitSystem) -> str:
    """Say what one check found, why, and what would change it."""
    said = f"{_spoken(finding.name)}: {_found(finding)}"
    if finding.reason:
        said += f", because {finding.reason}" if finding.verdict != "ask" else f". {finding.reason}"
    next_ = f" Next: {finding.change}." if finding.change else ""
    return readers_order(f"{said.rstrip('.')}.{next_}", system=system)


def exceeded_texts(verdict: PlanVerdict, *, system: UnitSystem) -> tuple[str, ...]:
    """Say every exceeded check with its share of the limit and what would change it."""
    return tuple(
        finding_text(finding, system=system)
        for finding in verdict.worst
        if finding.verdict == "exceeded"
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
    words = [finding.verdict for finding in others]
    more = ", ".join(
        f"{words.count(word)} {word}" for word in ("exceeded", "not checked") if word in words
    )
    named = readers_order(f"{_spoken(first.name)}, {_found(first)}", system=system)
    return f"Not to be built from: {named}{f'; besides {more}' if more else ''}"


def _spoken(name: str) -> str:
    return name.replace(": ", ", ")


def _found(finding: Finding) -> str:
    if finding.verdict == "exceeded" and finding.use is not None:
        return f"{use_text(finding.use)} of its limit"
    return finding.verdict

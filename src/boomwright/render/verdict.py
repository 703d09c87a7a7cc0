"""The verdict in words, as it stands first wherever a plan is shown."""

from __future__ import annotations

from boomwright.base import PlanVerdict
from boomwright.base.verdicts import NOT_AN_APPROVAL


def verdict_words(verdict: PlanVerdict) -> str:
    """Say the worst word and how many checks have each."""
    counts = ", ".join(f"{count} {word}" for word, count in verdict.counts.items() if count)
    word = f"within: {NOT_AN_APPROVAL}" if verdict.word == "within" else verdict.word
    return f"Verdict: {word} ({counts or 'nothing was checked'})"

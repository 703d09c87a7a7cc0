"""What a check found, and the verdict of a whole plan: the same four words everywhere."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf
from typing import Final, Literal, get_args

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass

VerdictWord = Literal["exceeded", "not checked", "ask", "within"]

#: the words, worst first
VERDICT_WORDS: Final[tuple[VerdictWord, ...]] = get_args(VerdictWord)

#: what ``within`` means for a plan
NOT_AN_APPROVAL: Final = "no check exceeded; this is not an approval"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one check found."""

    #: room whose check it is, as its sheet is named: ``structure``, ``permits``, ``raising`` ...
    subject: str
    name: Value  #: what was held against what
    verdict: VerdictWord  #: its word; a notice that must be given is ``ask``
    use: float | None = None  #: demand over limit; None when there is no finite one [-]
    change: Value = ""  #: what would change the verdict
    #: why it was not checked, what has to be asked, or what stands against it where it has no share
    #: of a limit; empty otherwise
    reason: Value = ""
    whom: str = ""  #: who can settle it, or empty
    #: whether it is about what holds the beam up: boom, elements, mast, rotator, tower, guys,
    #: anchors, base
    holds_up: bool = False
    #: whether it is asked of everybody everywhere; listed, and counted in no verdict
    standing: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanVerdict:
    """The one verdict of a plan."""

    #: what counts, worst first and all of money last: standing questions are left out
    findings: tuple[Finding, ...]

    @property
    def word(self) -> VerdictWord:
        """The worst word of all; a plan in which nothing was checked is ``not checked``."""
        found = {finding.verdict for finding in self.findings}
        return next((word for word in VERDICT_WORDS if word in found), "not checked")

    @property
    def counts(self) -> dict[VerdictWord, int]:
        """How many checks have each word, worst word first."""
        found = [finding.verdict for finding in self.findings]
        return {word: found.count(word) for word in VERDICT_WORDS}

    @property
    def worst(self) -> tuple[Finding, ...]:
        """Every finding that is not within."""
        return tuple(finding for finding in self.findings if finding.verdict != "within")

    @property
    def beam_may_fall(self) -> tuple[Finding, ...]:
        """What holds the beam up and is exceeded or not checked: never a go while there is any."""
        return tuple(
            finding
            for finding in self.worst
            if finding.holds_up and finding.verdict in {"exceeded", "not checked"}
        )

    def of(self, subject: str) -> PlanVerdict:
        """The verdict of one subject alone."""
        return PlanVerdict(findings=tuple(one for one in self.findings if one.subject == subject))


def _rank(finding: Finding) -> tuple[bool, int, float]:
    use = inf if finding.use is None else finding.use
    return finding.subject == "cost", VERDICT_WORDS.index(finding.verdict), -use


def plan_verdict(findings: Iterable[Finding]) -> PlanVerdict:
    """Roll the findings of every room up into one verdict, worst first."""
    counted = (finding for finding in findings if not finding.standing)
    return PlanVerdict(findings=tuple(sorted(counted, key=_rank)))

"""What one rule says about one installation, in plain words."""

from __future__ import annotations

from typing import Final, Literal

from boomwright.base import Finding, Notice, Severity
from boomwright.base.quantity import Phrase, Quantity, Value, phrase
from boomwright.base.records import dataclass

Verdict = Literal["notice needed", "within", "exceeded", "ask", "not checked"]

#: every list of findings is shown with this sentence
GENERAL_INFORMATION: Final = (
    "General information, not legal advice. Rules differ by place and change; "
    "the authority named beside each line decides."
)

METRES_PER_FOOT: Final = 0.3048  # exact by definition {nist-sp-811}

_SEVERITY: Final[dict[Verdict, Severity]] = {
    "notice needed": "caution",
    "exceeded": "limit",
    "ask": "doubt",
    "not checked": "doubt",
    "within": "note",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitFinding:
    """One rule held against one installation.

    ``within`` means this one rule's figure is kept; it never means that a station needs no
    permission or that a place is without danger.
    """

    subject: str  #: what was looked at
    verdict: Verdict  #: ``notice needed``, ``within``, ``exceeded``, ``ask`` or ``not checked``
    value: Value  #: what the installation has, or empty
    limit: Value  #: what it was held against, or empty
    basis: str  #: the rule and paragraph, or who set the limit
    whom_to_ask: str  #: who decides
    dated: str  #: date or edition of the text used
    text: Value = ""  #: what it means and what to do, in plain words
    #: how the text is known: ``read``, ``from memory``, ``common practice`` or ``owner``
    seen: str = "read"
    source: str = ""  #: key in the register of sources, or empty
    standing: bool = False  #: whether it is asked of everybody everywhere
    use: float | None = None  #: share of the limit taken up; None where there is none [-]

    @property
    def finding(self) -> Finding:
        """What counts of it in the verdict of a plan: a notice that must be given is an ask."""
        return Finding(
            subject="permits",
            name=self.subject,
            verdict="ask" if self.verdict == "notice needed" else self.verdict,
            use=self.use,
            change=f"ask {self.whom_to_ask}",
            whom=self.whom_to_ask,
            reason="" if self.verdict in {"exceeded", "within"} else self.text,
            standing=self.standing,
        )


def finding_notice(finding: PermitFinding) -> Notice:
    """Turn a finding into a notice, so that page, book and command line show it alike.

    Returns:
        severity ``limit`` when notice is needed or a limit exceeded, ``doubt`` when somebody
        must be asked,
            otherwise ``note``
    """
    said = " {text}" if finding.text else ""
    text = phrase(
        f"{{subject}}: {{verdict}}.{said} Basis: {{basis}} ({{dated}}). Ask: {{whom}}.",
        subject=finding.subject,
        verdict=finding.verdict,
        text=finding.text,
        basis=finding.basis,
        dated=finding.dated,
        whom=finding.whom_to_ask,
    )
    return Notice(
        code="permits." + finding.verdict.replace(" ", "-"),
        text=text,
        severity=_SEVERITY[finding.verdict],
        value=finding.value,
        limit=finding.limit,
        source=finding.source,
    )


def clearance(length: float, words: str = "{length}") -> Phrase:
    """Put a height or distance into words."""
    return phrase(words, length=Quantity(length, "clearance"))

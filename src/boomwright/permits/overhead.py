"""Roofs and ways that a turning beam passes over, and how high above them it stays."""

from __future__ import annotations

from typing import Final, Literal

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.permits.findings import PermitFinding, Verdict, clearance

#: out of reach of somebody who stands there [m] {common-practice-reach}
OUT_OF_REACH: Final = 2.5

_NEIGHBOUR: Final = "the owner of the roof or way, and the building office"


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """A roof near the support."""

    name: str  #: owner's name for it
    distance: float  #: from the support's foot to its nearest edge, 0 for one that it stands on [m]
    height: float  #: its highest point above the support's foot [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Overhead:
    """What turns over a roof or way."""

    kind: Literal["roof", "public way"]
    name: str
    height: float  #: of the roof above the support's foot, 0 for a way [m]
    lowest: float | None  #: lowest part that passes over it; None where nothing does [m]
    part: str = ""  #: that part
    missing: str = ""  #: why the beam's parts have no place, or empty


def overhead_findings(passing: tuple[Overhead, ...]) -> tuple[PermitFinding, ...]:
    """Say how high every beam stays above roofs and ways."""
    return tuple(_finding(each) for each in passing)


def _finding(over: Overhead) -> PermitFinding:
    room = None if over.lowest is None else over.lowest - over.height
    if over.missing:
        return _made(over, "not checked", "", f"Its parts have no place: {over.missing}.")
    if over.lowest is None or room is None:
        return _made(over, "within", "no part passes over it", "")
    value = clearance(over.lowest, f"{over.part} at {{length}}")
    if room <= 0.0:
        text = "It is hit as the beam turns: hang the beam higher, or turn it further away."
        return _made(over, "exceeded", value, text)
    use = OUT_OF_REACH / room
    if room < OUT_OF_REACH:
        text = (
            "Somebody who stands there can touch it, and fields are strongest at the tips: keep "
            "people away, or hang the beam higher."
        )
        return _made(over, "ask", value, text, use=use)
    return _made(over, "within", value, "", use=use)


def _made(
    over: Overhead, verdict: Verdict, value: Value, text: str, *, use: float | None = None
) -> PermitFinding:
    return PermitFinding(
        subject=f"Lowest part over {over.name}",
        verdict=verdict,
        value=value,
        limit=clearance(over.height + OUT_OF_REACH, "at least {length}, out of reach"),
        basis="common practice",
        whom_to_ask=_NEIGHBOUR,
        dated="common practice, undated",
        text=text,
        seen="common practice",
        source="common-practice-reach",
        use=use,
    )

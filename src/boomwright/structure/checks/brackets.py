"""Ledger lines for the brackets that hold a support tube to a building."""

from __future__ import annotations

from typing import Final

from boomwright.base import Notice
from boomwright.base.quantity import InPlan, Value, phrase, settled
from boomwright.structure import wording
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.findings import Findings
from boomwright.structure.checks.margins import margin
from boomwright.structure.support.house_brackets import HouseBrackets
from boomwright.structure.support.tube_support import TubeBending

_HERE: Final = "support.tube.brackets"


def check_brackets(
    *, brackets: HouseBrackets, bent: TubeBending, case: LoadCase, findings: Findings
) -> None:
    """Hold the forces on every bracket against its fixings, and ask for the wall behind it."""
    buckles = bent.course is None
    worst = max(range(len(brackets.heights)), key=bent.bracket_forces.__getitem__)
    force = bent.bracket_forces[worst]
    told: Value = "the tube buckles first" if buckles else wording.force(force)
    name = f"support tube: force on a house bracket{case.suffix}"
    if buckles:
        findings.skip(name, told)
    else:
        findings.add(
            margin(
                name=name,
                demand=force,
                capacity=brackets.side_force,
                unit="N",
                basis=phrase(
                    "{basis}; bracket at {height}, couple of the brackets; wind from any side "
                    "pulls, pushes and shears; fixings as rated",
                    basis=case.basis(height=brackets.top),
                    height=wording.span(brackets.heights[worst]),
                ),
                change="set the brackets further apart, or take more and stronger fixings",
                load_kind=case.site.service_kind,
                limit_kind=case.site.service_kind,
                missing=phrase(
                    "what the wall fixings of one bracket are rated for is not given: it is asked "
                    "to hold {told}. Ask its maker, and enter it{place}",
                    told=told,
                    place=InPlan(_HERE, ("side_force",)),
                ),
            )
        )
    if not brackets.stands:
        findings.add(
            margin(
                name=f"support tube: load straight down on its brackets{case.suffix}",
                demand=bent.axial,
                capacity=brackets.vertical_load,
                unit="N",
                basis="weight of the tube and of all on it; nothing below the brackets bears it",
                change="take stronger brackets, or let the tube stand on the ground",
                missing=settled(
                    "what the brackets are rated to carry together is not given",
                    _HERE,
                    "vertical_load",
                ),
            )
        )
    if not case.iced:
        _wall(brackets, told, findings)


def _wall(brackets: HouseBrackets, told: Value, findings: Findings) -> None:
    """Take the wall from whoever looked at it; nobody's word leaves it open."""
    if brackets.said_by:
        findings.notices.append(
            Notice(
                code="structure.wall-agreed",
                text="That the wall or roof holds what its brackets pull is taken from: "
                f"{brackets.said_by}.",
            )
        )
        return
    findings.skip(
        "support tube: wall behind its brackets",
        phrase(
            "nobody says that the wall holds what its bracket pulls ({told}): ask a licensed "
            "structural engineer or builder",
            told=told,
        ),
        change=settled("enter who looked at it, and when", _HERE, "said_by"),
    )

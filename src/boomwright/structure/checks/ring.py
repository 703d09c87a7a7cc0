"""Ledger lines for beams that turn on a ring around the support."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import Notice
from boomwright.base.quantity import phrase
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.mast import offsets_of, total_torque
from boomwright.structure.checks.rotator import check_rotator
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.report import BeamReport
from boomwright.structure.support.rotator import RingMount
from boomwright.structure.wording import span


def off_rings(
    *, beams: Sequence[BeamReport | None], site: SiteLoads
) -> tuple[list[BeamReport | None], SiteLoads]:
    """Leave out the beams that turn on a ring: mast and rotator carry the others alone.

    Returns:
        what was found of the others, and the site with them alone (2,)
    """
    inputs = site.inputs
    riding = {ring.beam for ring in inputs.rings}
    kept = [
        (mounted, found)
        for mounted, found in zip(inputs.beams, beams, strict=True)
        if mounted.beam.name not in riding
    ]
    alone = replace(inputs, beams=tuple(mounted for mounted, _ in kept))
    return [found for _, found in kept], replace(site, inputs=alone)


def check_rings(*, beams: Sequence[BeamReport | None], site: SiteLoads, findings: Findings) -> None:
    """Hold every ring against its maker's ratings, and ask for the support around it.

    Args:
        beams: what was found of each beam of the inputs; None where its sizes make no beam
            (n_beams,)
    """
    inputs = site.inputs
    found = {each.beam.name: (each, one) for each, one in zip(inputs.beams, beams, strict=True)}
    for ring in inputs.rings:
        _support_line(ring, inputs, findings)
        mounted, report = found.get(ring.beam, (None, None))
        if mounted is None or report is None:
            reason = f"no beam called {ring.beam} is known well enough"
            findings.skip(f"{ring.name}: holding torque", reason)
            continue
        alone = replace(inputs, beams=(mounted,), mast=None, rotator=ring)
        there = replace(site, inputs=alone)
        torque = total_torque(beams=(report,), offsets=offsets_of(there))
        check_rotator(beams=(report,), torque=torque, site=there, findings=findings)
        if ring.mass is None or ring.drag_area is None:
            findings.doubt(
                "ring-own",
                f"The weight or the wind area of the {ring.name} itself is not given, so "
                "the support is checked without it. Ask its maker.",
            )


def _support_line(ring: RingMount, inputs: StructureInputs, findings: Findings) -> None:
    name = f"{ring.name}: on the support"
    support = inputs.tower or inputs.tube
    change = "ask the maker of the support, and the maker of the ring"
    if support is not None and ring.height > support.height:
        reason = phrase(
            "it sits at {height}, above the support's top at ", height=span(ring.height)
        )
        findings.skip(
            name,
            phrase("{reason}{height}", reason=reason, height=span(support.height)),
            change="correct the heights",
        )
    elif not ring.said_by:
        reason = phrase(
            "nobody says that the support may carry a ring at {height}", height=span(ring.height)
        )
        findings.skip(
            name,
            phrase("{reason}, with its side pull and its torque", reason=reason),
            change=change,
        )
    else:
        findings.notices.append(
            Notice(
                code="structure.ring-agreed",
                text=phrase(
                    "That the support may carry the {rotator} at {height} is taken from: "
                    "{said_by}.", rotator=ring.name, height=span(ring.height),
                    said_by=ring.said_by,
                ),
            )
        )  # fmt: skip

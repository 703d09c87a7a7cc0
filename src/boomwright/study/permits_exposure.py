"""Fields where people are, as findings of the permits: computed here, with margin and basis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import PlanError, SolverError
from boomwright.parts import Beam
from boomwright.permits import LimitCheck, PermitFinding, exposure_finding
from boomwright.plan import Plan
from boomwright.plan.resolve.further import in_further_bands
from boomwright.solver import Preparer

_WHOM = {
    "US": "the Federal Communications Commission",
    "GB": "the communications regulator and the health security agency",
}
_ELSEWHERE = "the national radio and health authorities"


def exposure_findings(plan: Plan, *, prepare: Preparer) -> tuple[PermitFinding, ...]:
    """Hold every place with people against the limits, each beam alone in each of its bands.

    Returns:
        for each place and standard the limit with the least margin; a place that could not be
        computed says
            why
    """
    listed = plan.permits.exposure if plan.permits is not None else ()
    if not listed:
        return ()
    places = ", ".join(each.place for each in listed)
    if plan.transmitter is None:
        return (_not_checked(plan, places, "Add [transmitter] with power and emission."),)
    found: dict[tuple[str, str], tuple[Beam, LimitCheck]] = {}
    refused = []
    for beam in plan.beams:
        try:
            checks = [
                (each, check)
                for each in (beam, *in_further_bands(plan, beam))
                for check in _checks(plan, each, prepare)
            ]
        except (SolverError, PlanError) as error:
            refused.append(_not_checked(plan, places, f"{beam.name}: {error}"))
            continue
        for each, check in checks:
            key = (check.place.place, check.limit.standard)
            if key not in found or check.governing > found[key][1].governing:
                found[key] = (each, check)
    return (*(_finding(plan, *each) for each in found.values()), *refused)


def _checks(plan: Plan, beam: Beam, prepare: Preparer) -> Sequence[LimitCheck]:
    from boomwright.study.reach_parts.exposure import read_places

    found = read_places(plan, beam, prepare=prepare)
    return () if found is None else [each for each in found.checks if each.applies]


def _whom(plan: Plan) -> str:
    country = "" if plan.permits is None else plan.permits.country
    return _WHOM.get(country, _ELSEWHERE)


def _not_checked(plan: Plan, places: str, why: str) -> PermitFinding:
    return PermitFinding(
        subject="Fields where people are",
        verdict="not checked",
        value=places,
        limit="exposure limits",
        basis="47 CFR 1.1310; ICNIRP 2020",
        whom_to_ask=_whom(plan),
        dated="text as known in 2024",
        text=why,
    )


def _finding(plan: Plan, beam: Beam, check: LimitCheck) -> PermitFinding:
    near_field = check.method == "near field"
    made = exposure_finding(
        check.near if near_field else check.far,
        place=check.place.place,
        near_field=True,
        whom_to_ask=_whom(plan),
    )
    shares = {"computed near field": check.near, "far-field formula": check.far,
              "near field averaged over the body": check.averaged}  # fmt: skip
    told = ", ".join(
        f"{name} {100.0 * ratio.governing:.3g} %"
        for name, ratio in shares.items()
        if ratio.governing is not None
    )
    return replace(
        made,
        value=f"{made.value}, margin {check.margin_db:+.1f} dB of power ({check.method})",
        text=f"{made.text} {beam.name} transmitting on "
        f"{beam.design_frequency / 1e6:.6g} MHz, {check.power:.0f} W averaged over "
        f"{check.limit.averaging_time / 60.0:g} min. Of the limit: {told}.",
    )

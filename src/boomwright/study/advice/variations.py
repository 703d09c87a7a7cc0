"""What a candidate gives, and whether it stands, where the place or the hand is a little off."""

from __future__ import annotations

from collections.abc import Mapping

from boomwright.base import BoomwrightError, plan_verdict
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Element
from boomwright.plan import Plan
from boomwright.plan.resolve import structure_inputs
from boomwright.plan.vocabulary import EXPOSURES, TERRAINS
from boomwright.solver import Ground, Preparer, prepare_run
from boomwright.structure import check_structure
from boomwright.study.advice.judged import Asked, Candidate, turns_of
from boomwright.study.advice.served import serve

#: a real site is within a factor of three of its class {itu-p527}; permittivity less so [-]
GROUND_FACTORS = ((1.0 / 3.0, 1.0 / 1.5), (3.0, 1.5))
#: elements come out too long or too short by this share {common-practice-stations} [-]
_CUT = 0.003

#: what a flat dipole at 10 m gives, by band [dBi] (n_targets,)
Dipole = Mapping[str, tuple[float, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Variations:
    """How far a candidate moves with what is not known exactly."""

    #: change of its mean over poorer and over better ground, the dipole's with it [dB] (2,)
    ground_db: tuple[float, float]
    built_db: float  #: most that it changes with elements cut too long or too short [dB]
    stands_open: bool  #: whether it still stands where the land is one class more open


def other_grounds(ground: Ground) -> tuple[Ground, Ground]:
    """Poorer and better ground than said: both within what its class leaves open (2,)."""
    poorer, better = (
        replace(
            ground,
            permittivity=max(1.0, ground.permittivity * much),
            conductivity=ground.conductivity * more,
            name="",
        )
        if ground.kind == "real"
        else ground
        for more, much in GROUND_FACTORS
    )
    return poorer, better


def vary(
    candidate: Candidate,
    *,
    asked: Asked,
    dipoles: tuple[Dipole, Dipole],
    prepare: Preparer = prepare_run,
) -> Variations:
    """Estimate a candidate over other grounds and with other cuts, and hold it against more wind.

    Args:
        dipoles: what the dipole gives over poorer and over better ground
    """

    def mean(plan: Plan, dipole: Dipole) -> float:
        served = serve(
            plan,
            asked.wanted,
            duties=candidate.duties,
            turns=turns_of(candidate.station),
            dipole=dipole,
            prepare=prepare,
        )
        return served.mean_db

    plan = candidate.plan
    here = mean(plan, asked.dipole)
    grounds = other_grounds(plan.site.ground)
    poorer, better = (
        mean(replace(plan, site=replace(plan.site, ground=ground)), dipole) - here
        for ground, dipole in zip(grounds, dipoles, strict=True)
    )
    cuts = [
        replace(plan, beams=tuple(_cut_beam(beam, share) for beam in plan.beams))
        for share in (-_CUT, _CUT)
    ]
    return Variations(
        ground_db=(poorer, better),
        built_db=max(abs(mean(each, asked.dipole) - here) for each in cuts),
        stands_open=_stands_open(plan),
    )


def _cut_beam(beam: Beam, share: float) -> Beam:
    """The beam with every element longer by a share, at its tips."""
    elements = tuple(_cut_element(each, share) for each in beam.elements)
    neighbours = tuple(_cut_beam(each, share) for each in beam.neighbours)
    return replace(beam, elements=elements, neighbours=neighbours)


def _cut_element(element: Element, share: float) -> Element:
    *inner, tip = element.half
    longer = tip.length + share * element.half_length
    return replace(element, half=(*inner, replace(tip, length=longer)))


def _stands_open(plan: Plan) -> bool:
    """Whether nothing that holds it up is exceeded where the land is one class more open."""
    basis = plan.site.wind_basis
    if basis.exposure in EXPOSURES[:-1]:
        basis = replace(basis, exposure=EXPOSURES[EXPOSURES.index(basis.exposure) + 1])
    elif basis.terrain in TERRAINS[1:]:
        basis = replace(basis, terrain=TERRAINS[TERRAINS.index(basis.terrain) - 1])
    else:
        return True
    open_plan = replace(plan, site=replace(plan.site, wind_basis=basis))
    try:
        report = check_structure(inputs=structure_inputs(open_plan))
    except BoomwrightError:
        return False
    return plan_verdict(line.finding for line in report.ledger).word != "exceeded"

"""Will it stand: the structure of a plan, checked, with fixes for what is too weak."""

from __future__ import annotations

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.plan import Plan
from boomwright.solver import Preparer, prepare_run
from boomwright.structure import StructureInputs, StructureReport, check_structure
from boomwright.study.element_fixes import FixOffer, fix_offers
from boomwright.study.part_fixes import PartFix, part_fixes


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureCheck:
    """A plan and everything found about its structure."""

    plan: Plan
    report: StructureReport  #: what the structure room found
    fixes: tuple[FixOffer, ...] = ()  #: fixes offered for elements past their limit
    part_fixes: tuple[PartFix, ...] = ()  #: fixes offered for boom, mast and guys past their limit
    notices: tuple[Notice, ...] = ()  #: what the plan says that cannot be used

    @property
    def all_notices(self) -> tuple[Notice, ...]:
        """Every notice: of the plan, of the checks, and the cautions that always stand."""
        return (*self.report.cautions, *self.notices, *self.report.notices)


def structure_plan(
    plan: Plan, *, fixes: bool = True, prepare: Preparer = prepare_run
) -> StructureCheck:
    """Check the structure of a plan.

    Args:
        fixes: whether to work out fixes for elements past their limit, which asks the field solver

    Raises:
        PlanError: when values of the plan contradict each other
        SolverError: when the field solver refuses a fixed element
    """
    from boomwright.plan.resolve import structure_inputs, structure_notices

    inputs = structure_inputs(plan)
    report = check_structure(inputs=inputs)
    return StructureCheck(
        plan=plan,
        report=report,
        fixes=_offers(plan, inputs, report, prepare) if fixes else (),
        part_fixes=part_fixes(plan, report) if fixes else (),
        notices=structure_notices(plan),
    )


def _offers(
    plan: Plan, inputs: StructureInputs, report: StructureReport, prepare: Preparer
) -> tuple[FixOffer, ...]:
    return tuple(
        offer
        for number, beam in enumerate(plan.beams if report.exceeded else ())
        for index in range(len(beam.elements))
        for offer in fix_offers(
            plan=plan, inputs=inputs, beam=number, element=index, prepare=prepare
        )
    )

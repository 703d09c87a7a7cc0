"""What the live page may do with the trade-off: read it, and take a point of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from boomwright.base import Fault, PlanError, UnitSystem
from boomwright.charts.frontier import (
    trade_off_chart,
    trade_off_sentence,
    trade_off_table,
)
from boomwright.charts.shown import ShownPicture, ShownTable
from boomwright.design import Targets, WishError, band_figures
from boomwright.design.frontier import REARS_DB
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan
from boomwright.plan.resolve import design_targets, wished_beam
from boomwright.report.improve import trade_off_curves
from boomwright.session.improve_text import improved_text
from boomwright.solver import Preparer
from boomwright.study.frontier import TradeOff, read_trade_off
from boomwright.study.frontier_fit import fit_point
from boomwright.study.starting import RequestError

if TYPE_CHECKING:
    from boomwright.charts import Palette


class TradeOffDesk:
    """The part of the live page's hands that reads the trade-off."""

    _prepare: Preparer

    def trade_off(
        self, plan: Plan, *, number: int, system: UnitSystem, palette: Palette, width: float
    ) -> ShownPicture:
        """Draw what as many elements as a beam has can reach on its band.

        Parameters
        ----------
        number
            number of the beam, from 0
        width
            width of the picture [user units]

        Returns
        -------
        ShownPicture
            the picture; its points are numbered as :meth:`take_trade_off` takes them

        Raises
        ------
        BoomwrightError
            when the shipped table does not reach there
        """
        beam = plan.beams[number]
        curves = trade_off_curves(_trade_off(beam))
        count = len(beam.elements)
        figures = band_figures(beam=beam, targets=targets_for(plan, beam), prepare=self._prepare)
        behind = ShownTable(
            name="trade-off",
            caption=f"Worst gain in the band of {count} elements, by boom and demand on the rear",
            table=trade_off_table(curves=curves, system=system),
        )
        return ShownPicture(
            name="trade-off",
            words=f"What {count} elements can reach",
            svg=trade_off_chart(
                curves=curves,
                elements=count,
                own=(beam.boom_length, figures.worst[0], "this beam"),
                palette=palette,
                system=system,
                width=width,
            ),
            caption=trade_off_sentence(curves=curves, elements=count, system=system),
            behind=behind,
            units=width,
        )

    def take_trade_off(self, text: str, *, beam: int, curve: int, number: int) -> str:
        """Put a design of the trade-off into the plan, for the owner's own tubing.

        How it is fitted to them says :func:`~boomwright.study.frontier_fit.fit_point`.

        Parameters
        ----------
        beam
            number of the beam, from 0
        curve, number
            curve of the picture and point along it, from 0

        Raises
        ------
        PlanError
            when there is no such point, or the tubes cannot be pulled that far
        """
        try:
            return _with_point(text, beam=beam, curve=curve, number=number)
        except (RequestError, WishError) as error:
            message, _, remedy = str(error).partition(" -> ")
            fault = Fault(path=f"beam[{beam}]", message=message, remedy=remedy)
            raise PlanError((fault,)) from None


def _with_point(text: str, *, beam: int, curve: int, number: int) -> str:
    plan = read_plan(text)
    before = plan.beams[beam]
    made = _trade_off(before)
    rows = [row for row in made.curve if row.rear_db == REARS_DB[min(curve, len(REARS_DB) - 1)]]
    if number >= len(rows):
        message = f"the trade-off has no point {number + 1} -> choose one of {len(rows)}"
        raise RequestError(message)
    row = rows[number]
    after = fit_point(
        before, point=row.point, rear_db=row.rear_db, boom=row.boom, diameter=made.diameter
    )
    return improved_text(text, plan, before=before, after=after)


def targets_for(plan: Plan, beam: Beam) -> Targets:
    """Take the plan's targets when they are about a beam, else the usual ones."""
    own = plan.wish is not None and wished_beam(plan) is beam
    return design_targets(plan if own else replace(plan, wish=None))


def _trade_off(beam: Beam) -> TradeOff:
    diameters = [section.diameter for element in beam.elements for section in element.half]
    # The curves span all booms; the one asked for must only be within them.
    return read_trade_off(
        elements=len(beam.elements),
        boom=max(beam.boom_length, 0.5 * beam.wavelength * len(beam.elements)),
        band=beam.band,
        diameter=sum(diameters) / len(diameters),
    )

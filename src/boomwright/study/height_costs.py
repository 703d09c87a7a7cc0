"""What every height costs, from the owner's own prices: to stand beside what it gains."""

from __future__ import annotations

import numpy as np

from boomwright.base import PlanError, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.files import FileRefusedError, ReadFile, no_files
from boomwright.base.quantity import Value, settled
from boomwright.base.records import dataclass
from boomwright.cost import Estimate, Price
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import plan_estimate, support_height, taller_plan
from boomwright.study.cost import day_without_clock, listed_prices

#: heights that are priced [-]
_COUNT = 13
#: a support lower than this is none [m]
_LEAST_SUPPORT = 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeightCosts(ReadOnlyArrays):
    """Estimate of the whole plan with everything put so high that the boom is there."""

    #: boom above ground, rising, the plan's own among them; none when not priced [m] (n,)
    heights: Floats
    low: Floats  #: the estimate at each height with its band, contingency included [currency] (n,)
    #: the estimate at each height with its band, contingency included [currency] (n,)
    likely: Floats
    high: Floats  #: the estimate at each height with its band, contingency included [currency] (n,)
    currency: str = ""  #: the owner's currency, or empty
    unpriced: tuple[str, ...] = ()  #: items without a price at some height: what the sums lack
    lacks: str = ""  #: what is not in the bill at all, as a sentence, or empty
    reason: Value = ""  #: why nothing is priced, or empty

    @property
    def priced(self) -> bool:
        """Whether there is anything to draw."""
        return len(self.heights) > 0

    def likely_at(self, height: float) -> float:
        """Likely estimate at a height, straight between those priced [currency].

        Args:
            height: boom above ground [m]
        """
        return float(np.interp(height, self.heights, self.likely))


def height_costs(
    plan: Plan, beam: Beam, *, heights: Floats, files: ReadFile = no_files
) -> HeightCosts:
    """Price the plan with its beams put higher and lower.

    Boom, tower or tube, mast, guys, feed line and control cable go along; whether the taller
    support still stands is the business of the structure room.

    Args:
        heights: heights whose range is looked at [m] (h,)
    """
    prices, reason = _prices(plan, files)
    if reason:
        return _not_priced(reason)
    found = []
    for height in _tried(plan, beam, heights):
        made = _estimate(plan, height - beam.height, prices)
        if made is not None:
            found.append((height, made))
    if len(found) < 2:
        return _not_priced("a higher or lower support contradicts another value of the plan")
    return HeightCosts(
        heights=np.array([height for height, _ in found]),
        low=np.array([each.total.low for _, each in found]),
        likely=np.array([each.total.likely for _, each in found]),
        high=np.array([each.total.high for _, each in found]),
        currency=found[0][1].currency,
        unpriced=tuple(dict.fromkeys(item for _, each in found for item in each.unpriced)),
        lacks=""
        if plan.support is not None
        else "The plan gives no support, so tower, guys and footing are not in these sums.",
    )


def _not_priced(reason: Value) -> HeightCosts:
    none = np.zeros(0)
    return HeightCosts(heights=none, low=none, likely=none, high=none, reason=reason)


def _prices(plan: Plan, files: ReadFile) -> tuple[tuple[Price, ...], Value]:
    """Prices of the plan's list, and why there are none."""
    if plan.prices is None:
        return (), settled("the plan has no currency and no price list", "prices")
    listed = plan.prices.price_list
    if not listed:
        return (), settled("no price list is named", "prices", "list")
    try:
        found = listed_prices(plan, files=files)
    except FileRefusedError as error:
        return (), str(error)
    except PlanError as error:
        return (), f"the price list {listed} has {len(error.faults)} faults; Cost tells them"
    except OSError as error:
        return (), f"the price list {listed} cannot be read: {error.strerror}"
    if found is None:
        return (), f"the price list {listed} is not beside the plan"
    return found.prices, ""


def _tried(plan: Plan, beam: Beam, heights: Floats) -> list[float]:
    """Heights over the range asked for that leave a support and the plan's own height."""
    standing = support_height(plan)
    others = [each.height for each in plan.beams]
    lowest = max(
        float(heights[0]),
        beam.height - 0.95 * min(others),
        beam.height - (standing - _LEAST_SUPPORT) if standing is not None else 0.0,
    )
    spread = np.linspace(min(lowest, beam.height), float(heights[-1]), _COUNT)
    nearest = int(np.argmin(np.abs(spread - beam.height)))
    spread[nearest] = beam.height
    return [float(height) for height in spread]


def _estimate(plan: Plan, step: float, prices: tuple[Price, ...]) -> Estimate | None:
    try:
        day = day_without_clock(plan, prices=prices)
        return plan_estimate(taller_plan(plan, step=step), prices=prices, today=day)
    except PlanError:
        # A taller mast may contradict another value of the plan; that height has no estimate.
        return None

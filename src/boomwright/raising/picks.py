"""Where the bridle takes hold of the beam, and what its two legs carry."""

from __future__ import annotations

from typing import Final

from boomwright.base.records import dataclass
from boomwright.raising.job import Load
from boomwright.raising.rigging import BridleForces, breaking_strength_needed, bridle_forces, weight

#: each pick from the balance point, over the boom length [-] {common-practice-raising}
PICK_SHARE: Final = 0.15
#: hook above the boom, over the distance between the picks [-] {common-practice-raising}
RISE_SHARE: Final = 0.75


@dataclass(frozen=True, slots=True, kw_only=True)
class PickPlan:
    """Two picks at equal distances from the balance point."""

    balance: float  #: balance point from the rear end of the boom [m]
    rear: float  #: rear pick from the rear end of the boom [m]
    front: float  #: front pick from the rear end of the boom [m]
    rise: float  #: hook above the boom [m]
    weight: float  #: weight on the hook [N]
    forces: BridleForces  #: tension of the legs and what they press along the boom
    least_strength: float  #: breaking strength that each leg needs [N]


def pick_plan(load: Load) -> PickPlan | None:
    """Lay out a bridle of two legs.

    Returns:
        None when the balance point is not known or lies off the boom
    """
    balance = load.balance_place
    if balance is None or not 0.0 < balance < load.boom_length:
        return None
    reach = min(PICK_SHARE * load.boom_length, balance, load.boom_length - balance)
    rise = 2.0 * reach * RISE_SHARE
    heavy = weight(mass=load.mass)
    forces = bridle_forces(load=heavy, left=reach, right=reach, rise=rise)
    return PickPlan(
        balance=balance,
        rear=balance - reach,
        front=balance + reach,
        rise=rise,
        weight=heavy,
        forces=forces,
        least_strength=breaking_strength_needed(static_load=max(forces.left, forces.right)),
    )

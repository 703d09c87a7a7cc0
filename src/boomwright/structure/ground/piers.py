"""A deep block or pier that holds by the soil at its sides, as a pole set in the ground."""

from __future__ import annotations

from math import inf, pi, sqrt

from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError, require_each
from boomwright.structure.ground.soils import Concrete, Soil, concrete

#: the sideways resistance grows no further below this depth, 12 ft {ibc-1807} [m]
DEEPEST_LATERAL = 12.0 * 0.3048


@dataclass(frozen=True, slots=True, kw_only=True)
class PierBase:
    """A round or square block in undisturbed soil."""

    width: float  #: diameter, or side of the square [m]
    depth: float  #: depth in the ground [m]
    square: bool = True  #: True for a square block
    #: True when half an inch of movement at the ground does no harm, which doubles the tabulated
    #: resistance for posts standing alone {ibc-1806}
    may_move: bool = False

    def __post_init__(self) -> None:
        require_each("pier", ("width", self.width, "m"), ("depth", self.depth, "m"))

    @property
    def bearing_width(self) -> float:
        """Width that presses on the soil, the diagonal of a square [m]."""
        return self.width * sqrt(2.0) if self.square else self.width

    @property
    def concrete(self) -> Concrete:
        """Concrete of the block."""
        area = self.width**2 if self.square else pi * self.width**2 / 4.0
        return concrete(volume=area * self.depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class PierCheck:
    """A pier under a side load."""

    needed_depth: float  #: depth the formula asks for at the resistance of the depth given [m]
    settled_depth: float  #: depth where depth and resistance agree; infinite when none does [m]
    resistance: float  #: lateral resistance used, at a third of the depth [Pa]


def embedment_term(*, load: float, resistance: float, width: float) -> float:
    """The term A = 2.34 P / (S1 b) {ibc-1807, eq. 18-1} [m].

    Args:
        load: horizontal load [N]
        resistance: lateral resistance at a third of the depth [Pa]
        width: width that presses on the soil [m]
    """
    return 2.34 * load / (resistance * width)


def embedment_depth(*, load: float, height: float, resistance: float, width: float) -> float:
    """Depth of an unrestrained pole, A/2 (1 + sqrt(1 + 4.36 h / A)) {ibc-1807, eq. 18-1} [m].

    Args:
        load: horizontal load [N]
        height: height of that load above ground [m]
        resistance: lateral resistance at a third of the depth [Pa]
        width: width that presses on the soil [m]
    """
    term = embedment_term(load=load, resistance=resistance, width=width)
    if term <= 0.0:
        return 0.0
    return term / 2.0 * (1.0 + sqrt(1.0 + 4.36 * height / term))


def lateral_resistance(*, soil: Soil, depth: float, may_move: bool) -> float:
    """Lateral resistance at a third of a depth [Pa].

    Args:
        depth: depth of the pier [m]
        may_move: whether the tabulated value is doubled

    Raises:
        StructureInputError: when the soil has no lateral value
    """
    if soil.lateral is None:
        msg = f"{soil.name} has no lateral value: have it tested or ask the building office"
        raise StructureInputError(msg)
    return soil.lateral * (2.0 if may_move else 1.0) * min(depth, DEEPEST_LATERAL) / 3.0


def check_pier(*, pier: PierBase, soil: Soil, moment: float, shear: float) -> PierCheck:
    """Check a pier with nominal loads at ground level.

    Args:
        moment: moment at ground level [N m]
        shear: horizontal force there [N]
    """
    resistance = lateral_resistance(soil=soil, depth=pier.depth, may_move=pier.may_move)
    if shear <= 0.0:
        deep = 0.0 if moment <= 0.0 else inf
        return PierCheck(needed_depth=deep, settled_depth=deep, resistance=resistance)
    height = moment / shear

    def needed(depth: float) -> float:
        return embedment_depth(
            load=shear,
            height=height,
            resistance=lateral_resistance(soil=soil, depth=depth, may_move=pier.may_move),
            width=pier.bearing_width,
        )

    # The need falls as the depth grows, so the two cross once.
    low, high = 0.05, 30.0
    settled = inf
    if needed(high) <= high:
        for _ in range(60):
            middle = (low + high) / 2.0
            low, high = (low, middle) if needed(middle) <= middle else (middle, high)
        settled = high
    return PierCheck(needed_depth=needed(pier.depth), settled_depth=settled, resistance=resistance)

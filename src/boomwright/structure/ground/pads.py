"""A square pad under a tower: pressure straight and diagonal, overturning, sliding."""

from __future__ import annotations

from math import inf, sqrt

from boomwright.base.records import dataclass
from boomwright.base.roots import find_root
from boomwright.structure.faults import require_each, require_not_negative
from boomwright.structure.ground.soils import (
    CONCRETE_WEIGHT,
    WATER_WEIGHT,
    Concrete,
    Soil,
    concrete,
)

#: factor wanted against overturning and sliding with nominal wind {ibc-1807}
FOOTING_FACTOR = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class PadBase:
    """A square concrete pad."""

    side: float  #: side of the square [m]
    thickness: float  #: thickness of the concrete [m]
    soil_cover: float = 0.0  #: soil lying on it [m]
    stands_out: float = 0.0  #: part of the thickness above ground [m]
    #: True when ground water may reach the pad, so that it floats in part
    water_table: bool = False

    def __post_init__(self) -> None:
        require_each("pad", ("side", self.side, "m"), ("thickness", self.thickness, "m"))
        require_not_negative(place="pad soil cover", value=self.soil_cover, unit="m")
        require_not_negative(place="pad above ground", value=self.stands_out, unit="m")

    @property
    def depth(self) -> float:
        """Underside below ground [m]."""
        return self.thickness + self.soil_cover - self.stands_out

    @property
    def concrete(self) -> Concrete:
        """Concrete of the pad."""
        return concrete(volume=self.side**2 * self.thickness)


@dataclass(frozen=True, slots=True, kw_only=True)
class PadCheck:
    """A pad under moment, shear and weight."""

    weight: float  #: concrete, soil on it and structure, less buoyancy [N]
    moment: float  #: moment about the underside [N m]
    eccentricity: float  #: moment over weight [m]
    pressure_square: float  #: peak soil pressure, wind square to a side; infinite when it tips [Pa]
    #: peak soil pressure, wind along the diagonal; infinite when it tips [Pa]
    pressure_diagonal: float
    overturning_factor: float  #: resisting over overturning moment about an edge [-]
    #: resisting over sliding force; None when the soil gives no friction [-]
    sliding_factor: float | None

    @property
    def pressure(self) -> float:
        """The larger of both pressures [Pa]."""
        return max(self.pressure_square, self.pressure_diagonal)


def square_pressure(*, weight: float, eccentricity: float, side: float, length: float) -> float:
    """Peak pressure with the moment square to a side, infinite when it tips {meyerhof-kern} [Pa].

    Inside the middle third W / (B L) (1 + 6 e / B), beyond it 2 W / (3 L (B / 2 - e)).

    Args:
        weight: vertical load [N]
        eccentricity: moment over weight [m]
        side: side along the eccentricity [m]
        length: the other side [m]
    """
    if eccentricity <= side / 6.0:
        return weight / (side * length) * (1.0 + 6.0 * eccentricity / side)
    left = side / 2.0 - eccentricity
    return inf if left <= 0.0 else 2.0 * weight / (3.0 * length * left)


def _wedge(depth: float, half: float) -> tuple[float, float]:
    # Volume and first moment from the corner of a pressure that falls evenly from 1 at the
    # corner to 0 at ``depth`` along the diagonal of a square with half diagonal ``half``.
    near, far = min(depth, half), depth
    volume = near**2 - 2.0 * near**3 / (3.0 * depth)
    first = 2.0 * near**3 / 3.0 - near**4 / (2.0 * depth)
    if depth > half:
        a, b = half, far
        volume += 4.0 * half * (b - a) - (b**2 - a**2)
        volume -= (2.0 * half * (b**2 - a**2) - 2.0 * (b**3 - a**3) / 3.0) / depth
        first += 2.0 * half * (b**2 - a**2) - 2.0 * (b**3 - a**3) / 3.0
        first -= (4.0 * half * (b**3 - a**3) / 3.0 - (b**4 - a**4) / 2.0) / depth
    return volume, first


def diagonal_pressure(*, weight: float, eccentricity: float, side: float) -> float:
    """Peak pressure at a corner with the moment along the diagonal, infinite when it tips [Pa].

    With a three-cornered contact this is 6 W / c^2, c = 2 sqrt(2) (B / sqrt(2) - e); with
    the whole pad in contact W / B^2 (1 + 6 sqrt(2) e / B); between them the contact depth is
    found from the same even fall of pressure.

    Args:
        weight: vertical load [N]
        eccentricity: moment over weight, along the diagonal [m]
        side: side of the square [m]
    """
    half = side / sqrt(2.0)
    if eccentricity <= side * sqrt(2.0) / 12.0:
        return weight / side**2 * (1.0 + 6.0 * sqrt(2.0) * eccentricity / side)
    left = half - eccentricity
    if left <= 0.0:
        return inf
    if 2.0 * left <= half:
        return 6.0 * weight / (2.0 * sqrt(2.0) * left) ** 2

    def misfit(depth: float) -> float:
        volume, first = _wedge(depth, half)
        return first / volume - left

    depth = find_root(misfit, 1.9 * left, 2.0 * half * (1.0 + 1e-9), within=1e-12)
    return weight / _wedge(depth, half)[0]


def check_pad(*, pad: PadBase, soil: Soil, moment: float, shear: float, axial: float) -> PadCheck:
    """Check a pad with nominal loads at ground level.

    Args:
        moment: moment at ground level [N m]
        shear: horizontal force there [N]
        axial: weight of the structure [N]
    """
    heavy = CONCRETE_WEIGHT * pad.thickness + soil.weight_per_volume * pad.soil_cover
    if pad.water_table:
        heavy -= WATER_WEIGHT * max(0.0, pad.depth)
    weight = max(pad.side**2 * heavy + axial, 1e-9)
    underside = moment + shear * max(0.0, pad.depth)
    lean = {"weight": weight, "eccentricity": underside / weight, "side": pad.side}
    sliding = None
    if soil.friction is not None:
        sliding = soil.friction * weight
    elif soil.cohesion is not None:
        # Cohesion counts up to half the weight {ibc-1806}.
        sliding = min(soil.cohesion * pad.side**2, weight / 2.0)
    if sliding is not None:
        sliding = inf if shear <= 0.0 else sliding / shear
    return PadCheck(
        weight=weight,
        moment=underside,
        eccentricity=lean["eccentricity"],
        pressure_square=square_pressure(**lean, length=pad.side),
        pressure_diagonal=diagonal_pressure(**lean),
        overturning_factor=inf if underside <= 0.0 else weight * pad.side / (2.0 * underside),
        sliding_factor=sliding,
    )

"""The mast above the top bearing: steel, bending, reactions at bearing and rotator, lean."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi, sqrt
from typing import Literal

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.structure.beam.tubing import KSI, MetalTube, combined_stress
from boomwright.structure.faults import (
    StructureInputError,
    require_each,
    require_not_negative,
    require_tube,
)
from boomwright.structure.memory import recalled
from boomwright.structure.support.columns import (
    AMPLIFIED_AT,
    FREE_TOP,
    STIFFNESS_SHARE,
    amplification,
)
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat, coat_mass, seen_diameter

Known = Literal["published", "from memory", "common practice"]

#: a bearing sits on the top of the support or in a cage on it, no higher [m]
#: {common-practice-plan-doubts}
BEARING_ABOVE = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelGrade:
    """A steel with its minimum yield."""

    name: str  #: standard and grade
    yield_strength: float  #: minimum yield [Pa]
    known: Known  #: how the figure is known
    wall_share: float = 1.0  #: share of the nominal wall that counts for strength [-]

    @property
    def words(self) -> Value:
        """How the figure is known, to stand beside a result; empty when published."""
        if self.known == "from memory":
            return recalled("astm-a53")
        return "" if self.known == "published" else self.known


#: minimum yields {astm-a500}; A53 from memory {astm-a53}; the others common practice. Of the wall
#: of electric-welded A500 tube 0.93 counts {aisc-360-22, B4.2}
_GRADES: tuple[tuple[str, float, Known, float], ...] = (
    ("A500 B round", 42.0, "published", 0.93),
    ("A500 C round", 46.0, "published", 0.93),
    ("A53 A", 30.0, "from memory", 1.0),
    ("A53 B", 35.0, "from memory", 1.0),
    ("4130 normalized", 75.0, "common practice", 1.0),
    ("unmarked pipe", 30.0, "common practice", 1.0),
)
MAST_STEELS: dict[str, SteelGrade] = {
    name: SteelGrade(name=name, yield_strength=ksi * KSI, known=known, wall_share=share)
    for name, ksi, known, share in _GRADES
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Mast(MetalTube):
    """The rotating mast that carries the beams."""

    bearing_height: float  #: top bearing above ground [m]
    top_height: float  #: upper end above ground [m]
    #: from the top bearing down to the rotator; None when there is no thrust bearing or it is not
    #: known [m]
    rotator_below: float | None = None
    #: of the tube as it is sawn; None weighs it from the rotator to its top [kg]
    mass: float | None = None
    name: str = "mast"  #: owner's words for the tube

    def __post_init__(self) -> None:
        require_tube(place=self.name, diameter=self.diameter, wall=self.wall)
        require_not_negative(place="bearing height", value=self.bearing_height, unit="m")
        require_each(
            "",
            ("mast elastic modulus", self.elastic_modulus, "Pa"),
            ("mast density", self.density, "kg/m^3"),
            ("rotator below bearing", self.rotator_below, "m"),
            ("mast yield strength", self.yield_strength, "Pa"),
        )
        if not self.top_height > self.bearing_height:
            msg = f"mast top {self.top_height} m must be above its bearing {self.bearing_height} m"
            raise StructureInputError(msg)

    @property
    def proud(self) -> float:
        """Length above the top bearing [m]."""
        return self.top_height - self.bearing_height

    @property
    def middle(self) -> float:
        """Middle of what stands above the top bearing, above ground [m]."""
        return (self.bearing_height + self.top_height) / 2.0

    @property
    def weight(self) -> float:
        """Weight of the mast from end to end [N]."""
        if self.mass is not None:
            return STANDARD_GRAVITY * self.mass
        return self.weight_per_length * (self.proud + (self.rotator_below or 0.0))

    @property
    def column_length(self) -> float:
        """Length of the column it makes: free at its top, turning at its bearing [m].

        Free top and back span each by its own, added as flexibilities {beam-theory}: the true
        column is a little shorter.
        """
        back = self.rotator_below or 0.0
        return sqrt((FREE_TOP * self.proud) ** 2 + pi**2 / 3.0 * self.proud * back)

    def ice_weight(self, *, ice: IceCoat | None) -> float:
        """Weight of the ice above the top bearing, 0 without ice [N]."""
        return coat_mass(self.diameter, ice) * self.proud * STANDARD_GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class MastLoad:
    """One thing on the mast."""

    name: str
    height: float  #: height above the top bearing [m]
    force: float  #: wind force [N]
    weight: float = 0.0  #: weight [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class MastBending:
    """What the loads do to the mast."""

    moment: float  #: bending moment of the wind at the top bearing [N m]
    #: growth of that moment by the weights on the leaning mast; infinite when it buckles [-]
    growth: float
    shear: float  #: wind force above the bearing [N]
    #: side force at the top bearing; None without a rotator distance [N]
    bearing_reaction: float | None
    #: side force at the rotator; None without a rotator distance [N]
    rotator_reaction: float | None
    bending_stress: float  #: stress at the bearing, with that growth [Pa]
    torsion_stress: float  #: shear stress of the torque [Pa]
    stress: float  #: both together, with the weight [Pa]
    top_deflection: float | None  #: lean of the mast's top; None without a rotator distance [m]
    weight: float  #: weight of the mast and all it carries [N]


def mast_moment(*, loads: Sequence[MastLoad], wind_per_length: float, proud: float) -> float:
    """Moment at the top bearing, sum(F h) + w h^2 / 2 [N m].

    Args:
        loads: things on the mast (n_loads,)
        wind_per_length: wind on a metre of mast [N/m]
        proud: length above the bearing [m]
    """
    return sum(load.force * load.height for load in loads) + wind_per_length * proud**2 / 2.0


def _lean(loads: Sequence[MastLoad], line: float, mast: Mast, moment: float, at: float) -> float:
    # Back span between two pins turns the mast at the bearing; above it is a cantilever.
    back = mast.rotator_below or 0.0
    bend = line * at**2 * (6.0 * mast.proud**2 - 4.0 * mast.proud * at + at**2) / 24.0
    for load in loads:
        near, far = min(load.height, at), max(load.height, at)
        bend += load.force * near**2 * (3.0 * far - near) / 6.0
    return (moment * back / 3.0 * at + bend) / mast.stiffness


def mast_bending(
    *,
    mast: Mast,
    loads: Sequence[MastLoad],
    pressure: float,
    torque: float = 0.0,
    ice: IceCoat | None = None,
    dead_factor: float = 1.0,
    amplified_at: float = AMPLIFIED_AT,
) -> MastBending:
    """Bend the mast above its top bearing; below, the moment falls evenly to the rotator.

    The weights on the mast that leans in the wind grow its moment {aisc-360-22, eq. A-8-6}: 1.6
    times the weight for allowable stresses, on 0.8 of the stiffness.

    Args:
        loads: things on it, each above the bearing (n_loads,)
        pressure: velocity pressure on the mast itself [Pa]
        torque: torque held by the rotator [N m]
        dead_factor: load factor on weight and ice, 1 for allowable stresses [-]
        amplified_at: times the weight that counts where the mast leans [-]
    """
    shape = mast.shape
    line = pressure * ROUND_DRAG * seen_diameter(mast.diameter, ice)
    moment = mast_moment(loads=loads, wind_per_length=line, proud=mast.proud)
    shear = sum(load.force for load in loads) + line * mast.proud
    back = mast.rotator_below
    own = mast.weight + mast.ice_weight(ice=ice)
    weight = own + sum(load.weight for load in loads)
    carried = [(load.weight, load.height) for load in loads]
    lean_moment = sum(
        each * _lean(loads, line, mast, moment, height)
        for each, height in (*carried, (own, mast.proud / 2.0))
    )
    growth = 1.0
    if moment > 0.0:
        growth = amplification(
            axial=lean_moment, critical=STIFFNESS_SHARE * moment, share=amplified_at
        )
    bending = moment * growth / shape.modulus
    torsion = torque / shape.torsion_modulus
    side = None if back is None else moment / back
    return MastBending(
        moment=moment,
        growth=growth,
        shear=shear,
        bearing_reaction=None if side is None else shear + side,
        rotator_reaction=side,
        bending_stress=bending,
        torsion_stress=torsion,
        stress=combined_stress(normal=bending + dead_factor * weight / shape.area, shear=torsion),
        top_deflection=None if back is None else _lean(loads, line, mast, moment, mast.proud),
        weight=weight,
    )

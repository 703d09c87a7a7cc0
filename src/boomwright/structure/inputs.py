"""Everything ``check_structure`` can use. What is left out is reported as not checked."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from typing import Literal

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.parts import Bar, Beam, Solid
from boomwright.structure.beam.boom import Boom, PointMass
from boomwright.structure.beam.joints import TubeJoint
from boomwright.structure.beam.stepped import Alongside
from boomwright.structure.faults import StructureInputError, require_each, require_not_negative
from boomwright.structure.ground.anchors import AnchorBlock
from boomwright.structure.ground.pads import PadBase
from boomwright.structure.ground.piers import PierBase
from boomwright.structure.ground.soils import Soil
from boomwright.structure.support.guys import GuyLevel
from boomwright.structure.support.mast import Mast
from boomwright.structure.support.rotator import RingMount, Rotator
from boomwright.structure.support.tower import Tower
from boomwright.structure.support.tube_support import TubularSupport
from boomwright.structure.weather.basis import SpeedKind, WindBasis
from boomwright.structure.weather.drag import PLATE_DRAG, ROUND_DRAG
from boomwright.structure.weather.ice import IceBasis, IceCoat
from boomwright.structure.weather.wind import SiteWind

Method = Literal["allowable", "strength"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SweptSolid:
    """A solid of a beam's parts, on the beam's axes."""

    name: str  #: the part and its beam; empty for tubes and wire of an element
    solid: Solid
    element: int | None = None  #: element it hangs on, in the order of the plan; None for the boom


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposedSolid:
    """One solid of the hardware on a boom; its broadest upright face meets the wind from any side.

    A flat part has the coefficient of plates and boxes {asce-7-10, fig. 29.5-1}, a round one that
    of round members. Ice of one thickness sits on every side.
    """

    position: float  #: its middle on the beam's x axis [m]
    solid: Solid
    hidden: float = 0.0  #: height of it that lies before what is counted already [m]

    def drag_area(self, *, ice: IceCoat | None = None) -> float:
        """Drag coefficient times the area that meets the wind [m^2]."""
        coat = 0.0 if ice is None else 2.0 * ice.thickness
        if isinstance(self.solid, Bar):
            return ROUND_DRAG * self.solid.length * (self.solid.diameter + coat)
        wide, deep, high = self.solid.size
        return PLATE_DRAG * (max(0.0, high - self.hidden) + coat) * (max(wide, deep) + coat)

    def ice_mass(self, ice: IceCoat | None) -> float:
        """Mass of the ice on it [kg]."""
        if ice is None:
            return 0.0
        if isinstance(self.solid, Bar):
            return ice.mass_per_length(diameter=self.solid.diameter) * self.solid.length
        coat, volume = 2.0 * ice.thickness, 1.0
        for side in self.solid.size:
            volume *= side + coat
        return ice.density * (volume - self.solid.volume)


@dataclass(frozen=True, slots=True, kw_only=True)
class MountedBeam:
    """A beam with its boom, weighed and measured by its parts.

    ``beam`` says what bends; masses, areas and reach are those of the parts.
    """

    beam: Beam  #: the beam; its height says where it hangs
    masses: tuple[PointMass, ...]  #: everything on it but the tubes of its boom (n_masses,)
    #: what shows of the tubes that lie along straight elements, on the beam's axes (n_tubes,)
    tubes: tuple[Bar, ...]
    swept: tuple[SweptSolid, ...]  #: everything that turns with it (n_solids,)
    #: where the vertical it turns about may stand: one place, or two while nobody knows
    #: [m] (n_axes, 2)
    axes: tuple[tuple[float, float], ...]
    strung: tuple[Bar, ...] = ()  #: wires, radials in the air and spreaders alike (n_strung,)
    boom: Boom | None = None  #: its boom; None when not known yet
    #: joints of each element's half, in the order of the plan; empty where nobody listed them
    #: (n_elements,)
    joints: tuple[tuple[TubeJoint, ...], ...] = ()
    #: what hangs along one half of each element, in the order of the plan; empty for nothing
    #: (n_elements,)
    alongside: tuple[Alongside | None, ...] = ()
    exposed: tuple[ExposedSolid, ...] = ()  #: plates, boxes, rods and ties on it (n_exposed,)

    def __post_init__(self) -> None:
        for each in self.masses:
            require_not_negative(place=f"mass of {each.name}", value=each.mass, unit="kg")

    def beside(self, element: int) -> Alongside | None:
        """What hangs along one half of an element; None for nothing.

        Args:
            element: number of the element in the order of the plan, from 0
        """
        return self.alongside[element] if self.alongside else None

    def drag_area(self, *, ice: IceCoat | None = None) -> float:
        """Drag area of everything on it that is no element, wire or boom [m^2]."""
        bare = sum(each.drag_area() for each in self.exposed)
        grown = sum(each.drag_area(ice=ice) for each in self.exposed) - bare
        return max(0.0 if self.boom is None else self.boom.extra_drag_area, bare) + grown

    def weighed(self, *, ice: IceCoat | None = None) -> tuple[PointMass, ...]:
        """Masses of everything on it but the boom, and of the ice there."""
        return self.masses if ice is None else (*self.masses, *self._coats(ice))

    def _coats(self, ice: IceCoat) -> Iterator[PointMass]:
        for bar in (*self.tubes, *self.strung):
            a, b = bar.start[1], bar.end[1]
            yield PointMass(
                name="ice",
                position=bar.middle[0],
                mass=ice.mass_per_length(diameter=bar.diameter) * bar.length,
                # A rod spread evenly over its span has a twelfth of the span squared.
                span=sqrt(4.0 * (a * a + a * b + b * b)),
            )
        for each in self.exposed:
            yield PointMass(name="ice", position=each.position, mass=each.ice_mass(ice))


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseReactions:
    """Loads on the footing as the tower maker states them."""

    moment: float  #: moment at ground level [N m]
    shear: float  #: horizontal force [N]
    axial: float  #: largest load straight down, with the pull of guys [N]
    kind: SpeedKind  #: kind of wind behind them; footings need nominal
    text: Value = "entered by the owner"  #: where they are from
    #: least load straight down, which holds the footing; None when it is the same [N]
    least_axial: float | None = None

    @property
    def least(self) -> float:
        """Least load straight down [N]."""
        return self.axial if self.least_axial is None else self.least_axial

    def __post_init__(self) -> None:
        if self.least_axial is not None:
            require_not_negative(place="least axial load", value=self.least_axial, unit="N")
        require_not_negative(place="base moment", value=self.moment, unit="N m")
        require_not_negative(place="base shear", value=self.shear, unit="N")
        require_not_negative(place="base axial load", value=self.axial, unit="N")


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureInputs:
    """One station's structure, as far as the owner knows it."""

    beams: tuple[MountedBeam, ...] = ()  #: beams on the mast (n_beams,)
    wind: SiteWind | None = None  #: the site's wind with its basis
    ice: IceBasis | None = None  #: the site's ice; thickness 0 says there is none
    #: ``allowable`` stresses with nominal wind, or ``strength`` with ultimate wind, for elements,
    #: booms and mast by an American edition; other codes use partial factors. Rotator, tower, guys
    #: and base always use wind without a factor on it
    method: Method = "allowable"
    mast: Mast | None = None  #: rotating mast
    rotator: Rotator | None = None  #: rotator with its ratings
    #: rings on the support, each with one beam that is not on the mast (n_rings,)
    rings: tuple[RingMount, ...] = ()
    #: weight of top bearing, rotator and its shelf, which sit on the support [N]
    gear_weight: float = 0.0
    tower: Tower | None = None  #: lattice tower with its maker's rating
    tube: TubularSupport | None = None  #: tubular support in place of a tower
    guying: tuple[GuyLevel, ...] = ()  #: guy rings, empty for none (n_levels,)
    anchor: AnchorBlock | None = None  #: block at each guy anchor
    base: PadBase | PierBase | None = None  #: pad or pier
    #: footing loads from the maker; the larger of these and the computed ones count
    base_reactions: BaseReactions | None = None
    soil: Soil | None = None  #: soil at the footing
    frost_depth: float | None = None  #: local frost depth, 0 where there is none [m]
    #: damping ratio of the support's first sway; None takes the usual one [-]
    damping: float | None = None
    #: first frequency of the support with its beams, bare; None computes it [Hz]
    sway_hz: float | None = None

    @property
    def concept(self) -> Method | Literal["partial factors"]:
        """Concept of safety: the method by an American edition, by others partial factors."""
        american = self.wind is None or isinstance(self.wind, WindBasis)
        return self.method if american else "partial factors"

    def __post_init__(self) -> None:
        if self.tower is not None and self.tube is not None:
            raise StructureInputError("give either a tower or a support tube, not both")
        if self.frost_depth is not None:
            require_not_negative(place="frost depth", value=self.frost_depth, unit="m")
        require_not_negative(place="weight of the turning gear", value=self.gear_weight, unit="N")
        require_each(
            "",
            ("damping ratio", self.damping, "-"),
            ("first frequency of the support", self.sway_hz, "Hz"),
        )

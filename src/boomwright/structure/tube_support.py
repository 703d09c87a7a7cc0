"""A pipe or tube that stands in the ground, alone or guyed, with the beam on top."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, pi

from boomwright.base import STANDARD_GRAVITY
from boomwright.structure.faults import require_positive, require_tube
from boomwright.structure.guy_solver import GuyedMast, GuyedState, SideLoad, scan_wind
from boomwright.structure.guys import GuyLevel, GuyLoad
from boomwright.structure.tubing import TubeShape


@dataclass(frozen=True, slots=True, kw_only=True)
class TubularSupport:
    """One tube from the ground up."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    height: float  #: height above ground [m]
    yield_strength: float | None = None  #: minimum yield; None when unknown [Pa]
    #: minimum rupture strength, used for aluminium; 0 when unknown [Pa]
    ultimate_strength: float = 0.0
    yield_known: str = ""  #: how that yield is known, in words; empty when published or entered
    steel: bool = True  #: True for steel, False for aluminium
    elastic_modulus: float = 200e9  #: Young's modulus [Pa]
    density: float = 7850.0  #: mass density [kg/m^3]
    fixed: bool = True  #: True when set in its footing so that it cannot tilt

    def __post_init__(self) -> None:
        require_tube(place="support tube", diameter=self.diameter, wall=self.wall)
        require_positive(place="support tube height", value=self.height, unit="m")
        require_positive(place="support tube modulus", value=self.elastic_modulus, unit="Pa")
        require_positive(place="support tube density", value=self.density, unit="kg/m^3")
        if self.yield_strength is not None:
            require_positive(place="support tube yield", value=self.yield_strength, unit="Pa")

    @property
    def shape(self) -> TubeShape:
        """Cross section."""
        return TubeShape(diameter=self.diameter, wall=self.wall)

    @property
    def stiffness(self) -> float:
        """Bending stiffness EI [N m^2]."""
        return self.elastic_modulus * self.shape.second_moment

    @property
    def weight(self) -> float:
        """Weight [N]."""
        return self.shape.area * self.density * self.height * STANDARD_GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeBending:
    """A tubular support under wind and weight."""

    moment: float  #: largest moment of the wind [N m]
    #: growth of that moment by the weight on the bent tube; infinite when it buckles [-]
    amplification: float
    axial: float  #: largest force down the tube [N]
    stress: float  #: bending, grown, and axial stress together [Pa]
    base_moment: float  #: moment on the footing [N m]
    base_shear: float  #: horizontal force on the footing [N]
    ice_weight: float = 0.0  #: weight of the ice on the tube itself [N]
    states: tuple[GuyedState, ...] = ()  #: equilibria of the guys, empty without guys


def amplification(*, axial: float, critical: float) -> float:
    """Growth of a moment by axial load, 1 / (1 - P / Pcr).

    Parameters
    ----------
    axial
        axial load [N]
    critical
        Euler load [N]

    Returns
    -------
    float
        factor, infinite at and past the Euler load [-]
    """
    return inf if axial >= critical else 1.0 / (1.0 - axial / critical)


def free_tube(
    *,
    tube: TubularSupport,
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    weight_on_top: float,
    ice_weight: float = 0.0,
    strips: int = 40,
) -> TubeBending:
    """Bend a free-standing tube fixed in its footing.

    Parameters
    ----------
    loads
        wind forces on what it carries (n_loads,)
    line_load
        wind on a metre of tube as a function of height in m [N/m]
    weight_on_top
        weight of what it carries [N]
    ice_weight
        weight of the ice on the tube itself [N]
    """
    piece = tube.height / strips
    middles = [(i + 0.5) * piece for i in range(strips)]
    own = [line_load(z) * piece for z in middles]
    shear = sum(own) + sum(load.force for load in loads)
    moment = sum(f * z for f, z in zip(own, middles, strict=True))
    moment += sum(load.force * load.height + load.moment for load in loads)
    # A third of its own weight acts as if on top in the first sway shape.
    itself = tube.weight + ice_weight
    acting = weight_on_top + itself / 3.0
    critical = pi**2 * tube.stiffness / (4.0 * tube.height**2)
    growth = amplification(axial=acting, critical=critical)
    axial = weight_on_top + itself
    return TubeBending(
        moment=moment,
        amplification=growth,
        axial=axial,
        stress=moment * growth / tube.shape.modulus + axial / tube.shape.area,
        base_moment=moment * growth,
        base_shear=shear,
        ice_weight=ice_weight,
    )


def guyed_tube(
    *,
    tube: TubularSupport,
    levels: tuple[GuyLevel, ...],
    loads: Sequence[SideLoad],
    line_load: Callable[[float], float],
    weight_on_top: float,
    ice_weight: float = 0.0,
    guy_loads: tuple[GuyLoad, ...] = (),
) -> TubeBending:
    """Bend a guyed tube, every wind direction scanned.

    Parameters
    ----------
    levels
        guy rings (n_levels,)
    loads
        wind forces on what it carries (n_loads,)
    line_load
        wind on a metre of tube as a function of height in m [N/m]
    weight_on_top
        weight of what it carries [N]
    ice_weight
        weight of the ice on the tube itself [N]
    guy_loads
        weight and wind on the guys of each ring (n_levels,)
    """
    mast = GuyedMast(
        height=tube.height,
        levels=levels,
        bending_stiffness=tube.stiffness,
        pinned=not tube.fixed,
        guy_loads=guy_loads,
    )
    states = scan_wind(mast=mast, loads=loads, line_load=line_load)
    moment = max(state.moment for state in states)
    own = tube.weight + ice_weight
    axial = weight_on_top + own + max(state.compression for state in states)
    held = sorted({0.0, *(level.height for level in levels)})
    spans = [b - a for a, b in pairwise(held)]
    # The part above the top guys sways as a cantilever, twice its length as a column.
    longest = max(max(spans), 2.0 * (tube.height - held[-1]))
    growth = amplification(axial=axial, critical=pi**2 * tube.stiffness / longest**2)
    base_moment = max(state.base_moment for state in states)
    return TubeBending(
        moment=moment,
        amplification=growth,
        axial=axial,
        stress=moment * growth / tube.shape.modulus + axial / tube.shape.area,
        base_moment=base_moment * growth if base_moment > 0.0 else 0.0,
        base_shear=max(state.base_shear for state in states),
        ice_weight=ice_weight,
        states=states,
    )

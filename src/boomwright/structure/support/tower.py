"""A lattice tower as its maker sold it, and the wind on it. No member is ever checked."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

import numpy as np

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import InPlan, Value, phrase
from boomwright.base.records import dataclass, field
from boomwright.structure.faults import StructureInputError, require_each
from boomwright.structure.support.lattice import Lattice
from boomwright.structure.support.tower_rating import TowerRating
from boomwright.structure.weather.gust import Joints
from boomwright.structure.weather.ice import IceCoat

TowerKind = Literal["self-supporting", "guyed", "crank-up", "bracketed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TowerDrawing:
    """How the maker drew the guys of a tower of this height."""

    height: float  #: tower as drawn [m]
    guy_levels: tuple[float, ...]  #: heights of its guy rings [m] (n_levels,)
    anchor_radius: float  #: anchors of the top guys out from the tower [m]
    said_by: str  #: which drawing it is, and who read it when

    def __post_init__(self) -> None:
        require_each(
            "drawn",
            ("tower height", self.height, "m"),
            ("anchor radius", self.anchor_radius, "m"),
            *(("guy level", level, "m") for level in self.guy_levels),
        )
        if not self.guy_levels or not self.said_by:
            raise StructureInputError("a maker's drawing needs its guy levels, and who says so")

    def off(self, *, height: float, guy_levels: Sequence[float], anchor_radius: float) -> float:
        """Largest distance of a ring or the top from the drawing, or of anchors too close in [m].

        Args:
            height: tower as it stands [m]
            guy_levels: its guy rings, at least one [m] (n_levels,)
            anchor_radius: its anchors of the top guys [m]
        """
        drawn, stands = self.guy_levels, guy_levels
        return max(
            abs(height - self.height),
            self.anchor_radius - anchor_radius,
            *(min(abs(one - other) for other in stands) for one in drawn),
            *(min(abs(one - other) for other in drawn) for one in stands),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tower:
    """A lattice tower as its maker sold it."""

    kind: TowerKind  #: how it stands
    height: float  #: height of the tower itself [m]
    rating: TowerRating = field(default_factory=TowerRating)  #: what its maker states
    #: drag area of a metre of tower, from the maker; None when unknown [m]
    drag_area_per_length: float | None = None
    #: sizes of its legs and braces, for the wind on it bare and iced; None when unknown
    lattice: Lattice | None = None
    mass: float | None = None  #: mass of the whole tower; None when unknown [kg]
    section: float | None = None  #: length of one section as bought; None when unknown [m]
    legs: int | None = None  #: legs that stand in the ground; None when unknown
    #: EI of the tower as a beam, from the maker; None when unknown [N m^2]
    bending_stiffness: float | None = None
    #: sideways movement of the top under full wind, from the maker; None when unknown [m]
    top_drift: float | None = None
    bracket_height: float | None = None  #: height of the house bracket; None without one [m]
    drawing: TowerDrawing | None = None  #: guys as its maker drew them; None when nobody looked
    #: how legs and braces are joined, for the damping; None when unknown
    joints: Joints | None = None

    def __post_init__(self) -> None:
        require_each(
            "tower",
            ("height", self.height, "m"),
            ("drag area per length", self.drag_area_per_length, "m"),
            ("mass", self.mass, "kg"),
            ("bending stiffness", self.bending_stiffness, "N m^2"),
            ("top drift", self.top_drift, "m"),
            ("bracket height", self.bracket_height, "m"),
        )

    @property
    def weight(self) -> float | None:
        """Weight of the whole tower; None when unknown [N]."""
        return None if self.mass is None else self.mass * STANDARD_GRAVITY

    def wind_trouble(self, *, iced: bool) -> Value:
        """Say why the wind on the tower itself cannot be found, or nothing.

        Args:
            iced: whether it carries ice
        """
        if self.lattice is not None:
            return ""
        if iced:
            return phrase(
                "the iced wind area of the lattice is not known: give its legs and braces{place}, "
                "or ask the maker or an engineer", place=InPlan("support.tower.lattice"),
            )  # fmt: skip
        if self.drag_area_per_length is None:
            return (
                "the tower's own drag area per metre is not given, nor its legs and braces: ask "
                "the maker or an engineer"
            )
        return ""

    def wind_width(self, *, ice: IceCoat | None = None) -> float | None:
        """Drag area of a metre of tower; None when not known [m].

        The maker's figure holds bare; with ice it grows as that of the legs and braces does,
        and the larger of both is taken.
        """
        if self.lattice is None:
            return None if ice is not None else self.drag_area_per_length
        if ice is None:
            return self.drag_area_per_length or self.lattice.drag_width()
        iced = self.lattice.drag_width(ice=ice)
        stated = self.drag_area_per_length or 0.0
        return max(iced, stated * iced / self.lattice.drag_width())

    def ice_weight(self, *, ice: IceCoat) -> float | None:
        """Weight of ice on the whole tower; None without the sizes of legs and braces [N]."""
        if self.lattice is None:
            return None
        return self.lattice.ice_mass(ice=ice) * self.height * STANDARD_GRAVITY


def tower_wind(*, line_load: Callable[[float], float], height: float) -> tuple[float, float]:
    """Wind on the tower itself: force [N] and moment about its base [N m] (2,).

    Args:
        line_load: wind on a metre of tower as a function of height in m [N/m]
        height: height of the tower [m]
    """
    edges = np.linspace(0.0, height, 41)
    middles = (edges[1:] + edges[:-1]) / 2.0
    piece = height / 40.0
    forces = [line_load(float(z)) * piece for z in middles]
    return float(sum(forces)), float(np.dot(forces, middles))


def bracket_force(*, base_moment: float, bracket_height: float) -> float:
    """Pull of a house bracket, M / h; whether the wall stands it is for an engineer [N].

    Args:
        base_moment: moment of all wind about the base [N m]
        bracket_height: [m]
    """
    return base_moment / bracket_height

"""How an element sits on its boom, and what lies around its metal."""

from __future__ import annotations

from typing import Literal

from boomwright.base.records import dataclass

MountKind = Literal[
    "insulated above", "insulated through", "bonded above", "bonded through", "non-conducting boom"
]

#: a square bar excludes as much of the field as a round one of this many sides in diameter:
#: twice the logarithmic capacity of a square, Gamma(1/4)^2 / (2 pi^1.5)
SQUARE_AS_ROUND = 1.18034


@dataclass(frozen=True, slots=True, kw_only=True)
class Mount:
    """How an element is held on a boom, with the metal near its middle."""

    #: over the boom or through it, touching its metal or not; ``non-conducting boom`` where there
    #: is no metal
    kind: MountKind
    #: diameter of the boom or side of a square one, and wall thickness where it is known; empty
    #: without metal [m]
    boom: tuple[float, ...] = ()
    square: bool = False  #: whether the boom is a square tube
    #: between the surfaces of boom and element, for one above; None when not given [m]
    clearance: float | None = None
    #: length along the element, width along the boom and, if given, thickness of a metal plate
    #: between them; empty without one [m]
    plate: tuple[float, ...] = ()
    #: length along the element and outer diameter of metal clamped around it; empty without one [m]
    clamp: tuple[float, ...] = ()
    #: diameter of the holes that an insulated element passes through; None when not given [m]
    hole: float | None = None
    added: float = 0.0  #: inductance added to what is computed, to see what an error of it does [H]

    @property
    def above(self) -> bool:
        """Whether the element passes over the boom, not through it."""
        return self.kind.endswith("above")

    @property
    def bonded(self) -> bool:
        """Whether the element touches the metal of its mount."""
        return self.kind.startswith("bonded")

    @property
    def boom_radius(self) -> float:
        """Radius of the round boom that acts alike; 0 without metal [m]."""
        if not self.boom:
            return 0.0
        return self.boom[0] * (SQUARE_AS_ROUND if self.square else 1.0) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Insulation:
    """A layer around a wire or tube."""

    thickness: float  #: thickness of the layer [m]
    permittivity: float  #: its relative permittivity [-]

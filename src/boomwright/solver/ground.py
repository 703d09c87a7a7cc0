"""What lies below the antenna: nothing, a perfect conductor, or real ground."""

from __future__ import annotations

import math
from typing import Literal

from boomwright.base import VACUUM_PERMITTIVITY
from boomwright.base.records import dataclass

GroundKind = Literal["free space", "perfect", "real"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A flat ground, alike everywhere."""

    kind: GroundKind  #: ``free space``, ``perfect`` or ``real``
    permittivity: float = 1.0  #: relative permittivity of real ground, else 1 [-]
    conductivity: float = 0.0  #: conductivity of real ground, else 0 [S/m]
    name: str = ""  #: class name such as ``medium dry``, or empty

    def complex_permittivity(self, *, frequency: float) -> complex:
        """Relative permittivity with the loss in it, for e^(+jwt) {itu-p527}.

        Returns:
            eps_r - j sigma / (2 pi f eps_0) [-]
        """
        loss = self.conductivity / (2.0 * math.pi * frequency * VACUUM_PERMITTIVITY)
        return complex(self.permittivity, -loss)


FREE_SPACE = Ground(kind="free space", name="free space")
PERFECT_GROUND = Ground(kind="perfect", name="perfect")

# Low-frequency limit of the curves, Rec. ITU-R P.527-3 Fig. 1 {itu-p527}: typical values,
# a real site is within a factor 3 either way.
_CLASSES = (
    ("sea water", 70.0, 5.0),
    ("fresh water", 80.0, 3e-3),
    ("wet", 30.0, 1e-2),
    ("medium dry", 15.0, 1e-3),
    ("very dry", 3.0, 1e-4),
)

#: ground by the name a plan uses
GROUND_CLASSES: dict[str, Ground] = {
    "free space": FREE_SPACE,
    "perfect": PERFECT_GROUND,
    **{
        name: Ground(kind="real", permittivity=eps, conductivity=sigma, name=name)
        for name, eps, sigma in _CLASSES
    },
}

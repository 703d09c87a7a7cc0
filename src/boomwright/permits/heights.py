"""How high the whole installation is: structure, antenna, lightning rod, and the crane."""

from __future__ import annotations

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureHeights:
    """Tops of everything that will stand, each above ground at the site.

    Aviation and most local rules count the highest part of all, a lightning rod or a tip
    included; a crane counts while it stands.
    """

    structure_top: float  #: top of tower, pole or mast [m]
    #: highest antenna part, bent-up tips included; 0 when lower than the mast [m]
    antenna_top: float = 0.0
    lightning_rod_top: float = 0.0  #: tip of the lightning rod; 0 when none [m]
    crane_top: float = 0.0  #: highest position of crane or lift truck arm; 0 when none [m]
    #: True when it stands on, and so makes taller, an existing antenna structure
    raises_another_structure: bool = False

    def __post_init__(self) -> None:
        for name in ("structure_top", "antenna_top", "lightning_rod_top", "crane_top"):
            value = getattr(self, name)
            if not value >= 0.0:
                raise ValueError(f"{name} is {value} m; enter a height above ground, 0 or more")

    @property
    def permanent_top(self) -> float:
        """Highest part that stays [m]."""
        return max(self.structure_top, self.antenna_top, self.lightning_rod_top)

    @property
    def highest(self) -> float:
        """Highest part at any time, crane included [m]."""
        return max(self.permanent_top, self.crane_top)

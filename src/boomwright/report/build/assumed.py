"""What of a station's parts nobody has given: taken from the trade or missing, in one list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from boomwright.parts import Part

_HARDWARE: Final = "[beam.boom.hardware]"
_SUPPORT: Final = "[support.hardware]"
_WEIGHED: Final = 'weigh them, and enter a fitting of the boom with stands_for = "{group}"'
_ON_ELEMENT: Final = _WEIGHED.format(group="element hardware")
_BOUGHT: Final = "measure and weigh what you buy"
_MAKER: Final = "see its maker's sheet"
_DRAWING: Final = "the maker of the tower or your engineer draws it"

#: what parts of one role are called, and how the owner settles their figures
_SETTLED: Final = {
    "element tube": ("element tubes", "give every tube its wall in the plan"),
    "boom": ("boom", "give the boom: [beam.boom]"),
    "element plate": ("element plates", f"element_plate in {_HARDWARE}"),
    "mast plate": ("mast plate", f"mast_plate in {_HARDWARE}"),
    "U-bolt": ("U-bolts with their nuts", f"boom_clamp and mast_clamp in {_HARDWARE}"),
    "saddle": ("saddles", _ON_ELEMENT),
    "shell": ("insulating shells", _ON_ELEMENT),
    "insulator": ("insulating rod of a cut element", _BOUGHT),
    "trap": ("traps", "mass and diameter in each trap of the plan"),
    "tip": ("tip plugs", _BOUGHT),
    "cap": ("boom caps", _BOUGHT),
    "sleeve": ("sleeves and couplings",
               f"sleeve in {_HARDWARE} for the boom, overlap in [prices] for elements"),
    "wire": ("wire of the second conductor",
             f"rods in {_HARDWARE} for its side of the element"),
    "match": ("rods and straps of the match", f"rods in {_HARDWARE} for their way; {_BOUGHT}"),
    "capacitor": ("capacitor of the match in its box", _BOUGHT),
    "spacer": ("spacers of the second conductor", _BOUGHT),
    "box": ("choke or balun box", f"box_mass in {_HARDWARE}"),
    "truss": ("boom truss", _BOUGHT),
    "fitting": ("fittings of the boom", "measure how far they reach"),
    "boom cable": ("feed line along the boom", _MAKER),
    "phasing line": ("phasing lines", _MAKER),
    "wire insulator": ("insulators of wires", _BOUGHT),
    "cord": ("cord between wire ends", _BOUGHT),
    "rope": ("ropes", "measure from the wire's end to what holds it"),
    "spreader": ("spreaders", "density in [beam.frame.spreader]"),
    "hub": ("hub of the spreaders", "hub_mass in [beam.frame]"),
    "radial": ("depth of the radials", "measure one when they lie; no other figure rests on it"),
    "mast": ("lower end of the mast", "rotator_below in [support.mast]"),
    "bearing": ("top bearing", "bearing_mass in [support.mast]"),
    "rotator": ("rotator", "mass in [support.rotator]"),
    "shelf": ("rotator shelf or cage", f"shelf_mass in {_SUPPORT}"),
    "ring mount": ("ring mount", "mass in [[support.ring]]"),
    "tower section": ("tower sections", "mass and section in [support.tower]"),
    "tower outline": ("tower sections", "mass, section and lattice in [support.tower]"),
    "house bracket": ("house brackets", _MAKER),
    "guy ring": ("guy rings on the pole", f"guy_ring_mass in {_SUPPORT}"),
    "guy grip": ("guy grips and thimbles", f"guy_grip_mass in {_SUPPORT}"),
    "turnbuckle": ("turnbuckles", f"turnbuckle_mass in {_SUPPORT}"),
    "anchor": ("rods of the guy anchors", _BOUGHT),
    "anchor bolts": ("anchor bolts and template", _DRAWING),
    "reinforcement": ("steel in concrete", _DRAWING),
    "line": ("feed line, its loops and its weight", _MAKER),
    "control cable": ("control cable", _MAKER),
    "earth rod": ("size and places of the earth rods", "your code for lightning earths decides"),
}  # fmt: skip
#: begin of what says that an owner's total is shared out: nothing is taken from the trade there
_SHARED: Final = "its mass is its share"
_SIZES: Final = "sizes by common practice, weight yours"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """Parts of one kind whose figures nobody gave."""

    name: str  #: what they are
    parts: tuple[Part, ...]  #: the parts (n_parts,)
    settle: str  #: how the owner settles it

    @property
    def missing(self) -> bool:
        """Whether nothing was taken in place of what lacks."""
        return any(part.known == "unknown" for part in self.parts)

    @property
    def mass(self) -> float | None:
        """Mass of all together; None where one is not known [kg]."""
        masses = [part.mass for part in self.parts]
        return None if None in masses else sum(mass for mass in masses if mass is not None)

    @property
    def why(self) -> tuple[str, ...]:
        """What is missing or was taken, in words, each once."""
        told = (part.basis for part in self.parts if not part.basis.startswith(_SHARED))
        return tuple(dict.fromkeys(filter(None, told))) or (_SIZES,)


def taken_parts(parts: Iterable[Part]) -> tuple[Taken, ...]:
    """List what nobody gave of a station's parts, those that are settled alike together.

    Args:
        parts: all parts of a station, from its assembly
    """
    found: dict[tuple[str, str, bool], list[Part]] = {}
    for part in parts:
        if part.known in {"assumed", "unknown"} or (
            part.basis and not part.basis.startswith(_SHARED)
        ):
            settled = _SETTLED.get(part.role, (part.name, _BOUGHT))
            key = (*settled, part.known == "unknown")
            found.setdefault(key, []).append(part)
    return tuple(
        Taken(name=name, parts=tuple(mine), settle=settle)
        for (name, settle, _), mine in found.items()
    )

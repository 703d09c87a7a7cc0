"""What of a station's parts nobody has given: taken from the trade or missing, in one list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from boomwright.base.quantity import InPlan, Value, phrase, settled
from boomwright.parts import Part

_HARDWARE: Final = "beam.boom.hardware"
_SUPPORT: Final = "support.hardware"
_ENTER: Final = "weigh yours and enter it"
_ON_ELEMENT: Final = settled(
    "weigh them, and enter a fitting of the boom that stands for element hardware",
    "beam.boom.fitting", "stands_for", many=True,
)  # fmt: skip
_BOUGHT: Final = "measure and weigh what you buy"
_MAKER: Final = "see its maker's sheet"
_DRAWING: Final = "the maker of the tower or your engineer draws it"

#: what parts of one role are called, and how the owner settles their figures
_SETTLED: Final[dict[str, tuple[str, Value]]] = {
    "element tube": ("element tubes", "give every tube its wall in the plan"),
    "boom": ("boom", settled("give the boom", "beam.boom")),
    "element plate": ("element plates", settled(_ENTER, _HARDWARE, "element_plate")),
    "mast plate": ("mast plate", settled(_ENTER, _HARDWARE, "mast_plate")),
    "U-bolt": ("U-bolts with their nuts", settled(_ENTER, _HARDWARE, "boom_clamp", "mast_clamp")),
    "saddle": ("saddles", _ON_ELEMENT),
    "shell": ("insulating shells", _ON_ELEMENT),
    "insulator": ("insulating rod of a cut element", _BOUGHT),
    "trap": ("traps", "mass and diameter in each trap of the plan"),
    "tip": ("tip plugs", _BOUGHT),
    "cap": ("boom caps", _BOUGHT),
    "sleeve": ("sleeves and couplings",
               phrase("enter the sleeve of the boom{sleeve} and the overlap of elements{overlap}",
                      sleeve=InPlan(_HARDWARE, ("sleeve",)),
                      overlap=InPlan("prices", ("overlap",)))),
    "wire": ("wire of the second conductor",
             settled("enter its side of the element", _HARDWARE, "rods")),
    "match": ("rods and straps of the match",
              settled(f"{_BOUGHT}, and enter which way they run", _HARDWARE, "rods")),
    "capacitor": ("capacitor of the match in its box", _BOUGHT),
    "spacer": ("spacers of the second conductor", _BOUGHT),
    "box": ("choke or balun box", settled(_ENTER, _HARDWARE, "box_mass")),
    "truss": ("boom truss", _BOUGHT),
    "fitting": ("fittings of the boom", "measure how far they reach"),
    "boom cable": ("feed line along the boom", _MAKER),
    "phasing line": ("phasing lines", _MAKER),
    "wire insulator": ("insulators of wires", _BOUGHT),
    "cord": ("cord between wire ends", _BOUGHT),
    "rope": ("ropes", "measure from the wire's end to what holds it"),
    "spreader": ("spreaders", settled(_ENTER, "beam.frame.spreader", "density")),
    "hub": ("hub of the spreaders", settled(_ENTER, "beam.frame", "hub_mass")),
    "radial": ("depth of the radials", "measure one when they lie; no other figure rests on it"),
    "mast": ("lower end of the mast", settled(_ENTER, "support.mast", "rotator_below")),
    "bearing": ("top bearing", settled(_ENTER, "support.mast", "bearing_mass")),
    "rotator": ("rotator", settled(_ENTER, "support.rotator", "mass")),
    "shelf": ("rotator shelf or cage", settled(_ENTER, _SUPPORT, "shelf_mass")),
    "ring mount": ("ring mount", settled(_ENTER, "support.ring", "mass", many=True)),
    "tower section": ("tower sections", settled(_ENTER, "support.tower", "mass", "section")),
    "tower outline": ("tower sections",
                      settled(_ENTER, "support.tower", "mass", "section", "lattice")),
    "house bracket": ("house brackets", _MAKER),
    "guy ring": ("guy rings on the pole", settled(_ENTER, _SUPPORT, "guy_ring_mass")),
    "guy grip": ("guy grips and thimbles", settled(_ENTER, _SUPPORT, "guy_grip_mass")),
    "turnbuckle": ("turnbuckles", settled(_ENTER, _SUPPORT, "turnbuckle_mass")),
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
    settle: Value  #: how the owner settles it

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
    found: dict[tuple[str, Value, bool], list[Part]] = {}
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

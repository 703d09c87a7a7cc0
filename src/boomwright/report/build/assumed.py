"""What of a station's parts nobody has given: taken from the trade or missing, in one list."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from boomwright.base.quantity import InPlan, Value, phrase, settled
from boomwright.base.records import dataclass
from boomwright.parts import Part

_HARDWARE: Final = "beam.boom.hardware"
#: where the hardware of a beam without a boom stands
_OF_WIRE: Final = "beam.frame.hardware"
_SUPPORT: Final = "support.hardware"
_LINE: Final = "line.hardware"
_ENTER: Final = "weigh yours and enter it"
_MEASURE: Final = "measure yours and enter it"
_BOUGHT: Final = "measure and weigh what you buy"
_DRAWING: Final = "the maker of the tower or your engineer draws it"

#: what parts of one role are called, and how the owner settles their figures
_SETTLED: Final[dict[str, tuple[str, Value]]] = {
    "element tube": ("element tubes", "give every tube its wall in the plan"),
    "boom": ("boom", settled("give the boom", "beam.boom")),
    "element plate": ("element plates", settled(_ENTER, _HARDWARE, "element_plate")),
    "mast plate": ("mast plate", settled(_ENTER, _HARDWARE, "mast_plate")),
    "U-bolt": ("U-bolts with their nuts",
               settled(_MEASURE, _HARDWARE, "u_bolt", "boom_clamp", "mast_clamp")),
    "saddle": ("saddles", settled(_MEASURE, _HARDWARE, "saddle")),
    "shell": ("insulating shells", settled(_MEASURE, _HARDWARE, "shell", "saddle")),
    "insulator": ("insulating rod of a cut element",
                  settled(_MEASURE, _HARDWARE, "insulating_rod")),
    "trap": ("traps", settled(_MEASURE, "beam.element.traps", "mass", "diameter")),
    "tip": ("tip plugs", settled(_MEASURE, _HARDWARE, "tip_plug")),
    "cap": ("boom caps", settled(_MEASURE, _HARDWARE, "boom_cap")),
    "sleeve": ("sleeves and couplings",
               phrase("enter the sleeves of boom and elements and the coupling of rods{sleeve}, "
                      "and the overlap of elements{overlap}",
                      sleeve=InPlan(_HARDWARE, ("sleeve", "element_sleeve", "coupling")),
                      overlap=InPlan("prices", ("overlap",)))),
    "wire": ("wire of the second conductor",
             settled("enter its side of the element", _HARDWARE, "rods")),
    "match": ("rods and straps of the match",
              settled(f"{_BOUGHT}, and enter which way the rods run", _HARDWARE, "rods", "strap")),
    "capacitor": ("capacitor of the match in its box",
                  settled(_ENTER, _HARDWARE, "capacitor_mass", "capacitor_box")),
    "block": ("block under the short", settled(_MEASURE, _HARDWARE, "strap")),
    "spacer": ("spacers of the second conductor", settled(_MEASURE, _HARDWARE, "spacer")),
    "box": ("choke or balun box",
            phrase("weigh yours and enter it{boom}, or of a beam without a boom{frame}",
                   boom=InPlan(_HARDWARE, ("box_mass", "box")),
                   frame=InPlan(_OF_WIRE, ("box_mass", "box")))),
    "truss": ("boom truss", settled("enter its metal", _HARDWARE, "truss_material")),
    "truss eye": ("eyes of the boom truss", settled(_MEASURE, _HARDWARE, "truss_eye")),
    "fitting": ("fittings of the boom",
                settled("measure them and enter their size", "beam.boom.fitting", "size",
                        many=True)),
    "boom cable": ("feed line along the boom",
                   settled("read its maker's sheet and enter it", _LINE, "mass", "diameter")),
    "phasing line": ("phasing lines", "its maker knows what it weighs; nothing here counts it"),
    "wire insulator": ("insulators of wires",
                       settled(_BOUGHT, _OF_WIRE, "end_insulator", "end_insulator_mass")),
    "cord": ("cord between wire ends", settled(_MEASURE, _OF_WIRE, "cord")),
    "rope": ("ropes", "measure from the wire's end to what holds it; nothing here counts it"),
    "spreader": ("spreaders", settled(_ENTER, "beam.frame.spreader", "density")),
    "hub": ("hub of the spreaders", settled(_ENTER, "beam.frame", "hub_mass")),
    "radial": ("depth of the radials",
               settled("measure one when they lie, and enter it", "beam.radials", "depth")),
    "mast": ("lower end of the mast", settled(_ENTER, "support.mast", "rotator_below")),
    "bearing": ("top bearing",
                phrase("weigh yours and enter it{mass}, and its size{size}",
                       mass=InPlan("support.mast", ("bearing_mass",)),
                       size=InPlan(_SUPPORT, ("bearing",)))),
    "rotator": ("rotator",
                phrase("weigh yours and enter it{mass}, and its size{size}",
                       mass=InPlan("support.rotator", ("mass",)),
                       size=InPlan(_SUPPORT, ("rotator",)))),
    "shelf": ("rotator shelf or cage", settled(_ENTER, _SUPPORT, "shelf_mass", "shelf")),
    "ring mount": ("ring mount",
                   phrase("weigh yours and enter it{mass}, and its size{size}",
                          mass=InPlan("support.ring", ("mass",), True),
                          size=InPlan(_SUPPORT, ("ring_mount",)))),
    "tower section": ("tower sections", settled(_ENTER, "support.tower", "mass", "section")),
    "tower outline": ("tower sections",
                      settled(_ENTER, "support.tower", "mass", "section", "lattice")),
    "house bracket": ("house brackets", settled(_ENTER, _SUPPORT, "house_bracket_mass")),
    "guy ring": ("guy rings on the pole",
                 settled(_ENTER, _SUPPORT, "guy_ring_mass", "guy_ring")),
    "guy grip": ("two guy grips with thimbles", settled(_ENTER, _SUPPORT, "guy_grip_mass")),
    "turnbuckle": ("turnbuckles", settled(_ENTER, _SUPPORT, "turnbuckle_mass")),
    "anchor": ("rods of the guy anchors", settled(_MEASURE, _SUPPORT, "anchor_rod")),
    "anchor bolts": ("anchor bolts and template",
                     settled(f"{_DRAWING}; enter their weight", _SUPPORT, "anchor_bolts_mass")),
    "reinforcement": ("steel in concrete",
                      settled(f"{_DRAWING}; enter how much", _SUPPORT, "steel")),
    "line": ("feed line, its loops and its weight",
             settled("read its maker's sheet and enter it", _LINE, "mass", "diameter",
                     "drip_loop")),
    "control cable": ("control cable",
                      settled("read its maker's sheet and enter it", _LINE, "control_mass",
                              "control_diameter")),
    "earth rod": ("size and places of the earth rods",
                  settled("your code for lightning earths decides; enter what it asks", _LINE,
                          "earth_rod", "earth_from")),
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
    """List what nobody gave of a station's parts, those that are settled alike together."""
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

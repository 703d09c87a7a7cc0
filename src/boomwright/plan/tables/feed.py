"""``feed = { ... }``: how the driven element is fed, with the match where it has one."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import Value, phrase
from boomwright.parts import Feed
from boomwright.plan.faults import Place, write_one, written
from boomwright.plan.fields import above_zero, choice, within
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.element import WIDEST

FEED_EXAMPLE: Final = '{ kind = "split", gap = "40 mm" }'

_RODS = ("rod_diameter", "rod_spacing", "rod_length")
_LINE = ("section_impedance", "section_length", "velocity_factor")

#: keys that each kind of feed may have beside its gap
KEYS_OF: Final[dict[str, tuple[str, ...]]] = {
    "split": ("balun",),
    "hairpin": (*_RODS, "inductance", "balun"),
    "gamma": (*_RODS, "capacitance"),
    "tee": (*_RODS, "capacitance"),
    "folded": ("rod_diameter", "rod_spacing", "balun"),
    "quarter-wave": _LINE,
    "stub": (*_LINE, "stub_length", "stub_end"),
    "L-section": ("capacitance", "inductance", "at_antenna"),
}
#: components of an L-section that may sit at the antenna
L_ENDS: Final = ("series coil", "series capacitor", "shunt coil", "shunt capacitor")
#: kinds whose element is not cut, so that no gap need be written
UNCUT: Final = ("gamma", "tee", "folded")


def ask_gap(at: Place) -> None:
    """Ask for the gap of a feed that has none."""
    remedy = phrase("add {gap}", gap=written("gap", '"40 mm"'))
    at.child("gap").fault("gap is missing in this feed", remedy=remedy, missing=True)


def _check(values: Values, at: Place) -> None:
    kind = values.get("kind")
    if kind is None:
        return
    if kind not in UNCUT and "gap" not in values:
        ask_gap(at)
    for key in values:
        if key in {"kind", "gap"} or key in KEYS_OF[kind]:
            continue
        owners = " or ".join(f'"{name}"' for name, keys in KEYS_OF.items() if key in keys)
        message: Value = phrase(f"a feed of kind {kind} has no {{key}}", key=written(key))
        remedy: Value = phrase("remove it, or {write}", write=write_one("kind", owners))
        at.child(key).fault(message, remedy=remedy)
    diameter, spacing = values.get("rod_diameter"), values.get("rod_spacing")
    if diameter is not None and spacing is not None and spacing <= diameter:
        message = "the rods are as close as they are thick"
        remedy = f"write the distance between axes, above {at.wide(diameter)}"
        at.child("rod_spacing").fault(message, remedy=remedy)
    gap = values.get("gap")
    if kind == "hairpin" and gap is not None and spacing is not None and spacing <= gap:
        message = "the rods begin inside the gap, where no tube holds their terminals"
        remedy = f"write a distance between axes well above the gap of {at.wide(gap)}"
        at.child("rod_spacing").fault(message, remedy=remedy)


FEED = TableSpec(
    noun="feed",
    model=Feed,
    check=_check,
    only=("kind", KEYS_OF),
    fields=(
        choice("kind", tuple(KEYS_OF), "kind of feed",
               "How the driven element is fed: cut in the middle, or by one of the matches.",
               required=True),
        above_zero("gap", "length",
                   "Width of the feed gap along the element; left out, an uncut element is "
                   "computed as if cut by its diameter.", high=100.0,
                   example="40 mm").usually("40 mm"),
        within("balun", "ratio",
               "Impedance of the balun on the antenna side over that on the line side.", 0.05, 20.0,
               example="1"),
        above_zero("rod_diameter", "length", "Diameter of the rods.", high=WIDEST,
                   example="10 mm").usually("10 mm"),
        above_zero("rod_spacing", "length", "Distance between axes of rods, or of rod and "
                   "element.", high=WIDEST, example="80 mm").usually("80 mm"),
        above_zero("rod_length", "length", "Length of each rod from the element's middle, or "
                   "of the hairpin from feed to short.", high=200.0),
        above_zero("capacitance", "capacitance",
                   "Capacitor of the match, in each rod of a tee.", high=1e-6),
        above_zero("inductance", "inductance", "Coil of the match.", high=1e-3),
        choice("at_antenna", L_ENDS, "component at the antenna",
               "Component of an L-section that sits at the antenna."),
        above_zero("section_impedance", "resistance",
                   "Characteristic impedance of the matching line and its stub.", high=2000.0),
        above_zero("section_length", "length",
                   "Physical length of the matching line from the antenna."),
        above_zero("stub_length", "length", "Physical length of the stub."),
        choice("stub_end", ("open", "short"), "end of a stub", "Far end of the stub."),
        within("velocity_factor", "ratio", "Speed on that line over that of light.", 0.2, 1.0,
               example="0.66").usually("0.66", "solid polyethylene line"),
    ),
)  # fmt: skip


def build_feed(values: Values, *, centre: float) -> Feed:
    """Make the feed out of fault-free values.

    Args:
        centre: diameter of the driven element at the boom [m]
    """
    # An uncut element has no gap; the field solver feeds it as if cut by its own diameter.
    return Feed(**{"gap": centre, **values})

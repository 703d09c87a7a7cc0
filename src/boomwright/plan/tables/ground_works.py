"""``[support.base]``, ``[support.soil]``, ``[support.anchor]``: what is in the ground."""

from __future__ import annotations

from boomwright.base.quantity import Value, phrase
from boomwright.plan.faults import Place, write_one, written
from boomwright.plan.fields import above_zero, choice, entry, flag, from_zero, number, words
from boomwright.plan.kinds import Flag
from boomwright.plan.model_support import BasePlan
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.vocabulary import SPEED_KINDS

_DEEPEST = 50.0

SOIL = TableSpec(
    noun="soil",
    model="structure.ground.soils:Soil",
    fields=(
        words("name", "What it is, and who tested it.", longest=64, required=True,
              example="firm clay, soil report of 2026-03-01"),
        above_zero("bearing", "pressure", "Allowable pressure under a footing.",
                   example="100 kPa"),
        above_zero("lateral", "pressure per depth",
                   "Allowable sideways pressure for each metre of depth."),
        number("friction", "Coefficient of sliding under concrete.", low=0.05, high=1.0,
               example="0.4"),
        above_zero("cohesion", "pressure", "Sliding resistance of clay.", example="6 kPa"),
        above_zero("weight", "weight per volume", "Weight of one cubic metre.").fills(
            "weight_per_volume"
        ),
    ),
)  # fmt: skip

ANCHOR = TableSpec(
    noun="guy anchor",
    model="structure.ground.anchors:AnchorBlock",
    fields=(
        above_zero("length", "length", "Length of the block square to the guy.", required=True,
                   high=_DEEPEST, example="0.9 m"),
        above_zero("width", "length", "Width along the guy.", required=True, high=_DEEPEST,
                   example="0.6 m"),
        above_zero("thickness", "length", "Thickness.", required=True, high=_DEEPEST,
                   example="0.5 m"),
        from_zero("cover", "length", "Soil on top of it.", required=True, high=_DEEPEST,
                  example="0.9 m"),
        flag("water_table", "Whether ground water may reach it."),
    ),
)  # fmt: skip

BASE_LOADS = TableSpec(
    noun="base loads",
    model="structure.inputs:BaseReactions",
    always=(("text", "stated by the tower's maker, entered by the owner"),),
    fields=(
        from_zero("moment", "torque", "Moment at ground level.", required=True),
        from_zero("shear", "force", "Horizontal force.", required=True),
        from_zero("axial", "force", "Weight of the structure.", required=True),
        choice("kind", SPEED_KINDS, "kind of wind speed",
               "Kind of wind behind them: ultimate or nominal by an American edition, "
               "characteristic or design by others.", required=True),
    ),
)  # fmt: skip

_KEYS_OF = {
    "pad": ("thickness", "cover", "stands_out", "water_table"),
    "pier": ("depth", "round", "may_move"),
}


def _check_base(values: Values, at: Place) -> None:
    kind = values.get("kind")
    if kind is None:
        return
    for key, owner in ((key, owner) for owner, keys in _KEYS_OF.items() for key in keys):
        if key in values and owner != kind:
            remedy = phrase("remove it, or {write}", write=write_one("kind", f'"{owner}"'))
            message: Value = phrase(
                f"{{key}} belongs to a {owner}, not to a {kind}", key=written(key)
            )
            at.child(key).fault(message, remedy=remedy)
    needed = "thickness" if kind == "pad" else "depth"
    if needed not in values:
        message = f"{needed} is missing in this {kind}"
        remedy = phrase("add {it}", it=written(needed, '"0.9 m"'))
        at.child(needed).fault(message, remedy=remedy, missing=True)
    thickness, cover = values.get("thickness"), values.get("cover", 0.0)
    out = values.get("stands_out", 0.0)
    if None not in (thickness, cover, out) and out > thickness + cover:
        message = "the pad stands out by more than its thickness"
        at.child("stands_out").fault(message, remedy="write the part of it above ground")


BASE = TableSpec(
    noun="base",
    model=BasePlan,
    check=_check_base,
    only=("kind", _KEYS_OF),
    fields=(
        choice("kind", ("pad", "pier"), "kind of base",
               "A square pad, or a pier in undisturbed soil.", required=True),
        above_zero("width", "length", "Side of the square, or diameter of a round pier.",
                   required=True, high=_DEEPEST, example="1.2 m"),
        above_zero("thickness", "length", "Thickness of the pad.", high=_DEEPEST),
        from_zero("cover", "length", "Soil lying on the pad.", high=_DEEPEST),
        from_zero("stands_out", "length", "Part of the pad above ground.", high=_DEEPEST),
        above_zero("depth", "length", "Depth of the pier in the ground.", high=_DEEPEST),
        entry("round", "Whether the pier is round.", Flag(), attribute="is_round"),
        flag("may_move", "Whether half an inch of movement at the ground does no harm."),
        flag("water_table", "Whether ground water may reach the pad."),
    ),
)  # fmt: skip

"""``mount = { ... }`` and ``insulation = { ... }``: how an element is held, and a wire's coat."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import PerReader, Value, phrase
from boomwright.parts import Insulation, Mount
from boomwright.plan.faults import Place, write_one, written
from boomwright.plan.fields import above_zero, choice, entry, flag, from_zero, within
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.boom import sides

MOUNT_EXAMPLE: Final = '{ kind = "insulated above", clearance = "8 mm" }'
MOUNT_EXAMPLE_US: Final = '{ kind = "insulated above", clearance = "5/16 in" }'

#: keys that each kind of mount may have beside its boom
KEYS_OF: Final[dict[str, tuple[str, ...]]] = {
    "insulated above": ("clearance", "plate"),
    "insulated through": ("hole",),
    "bonded above": ("clearance", "plate", "clamp"),
    "bonded through": (),
    "non-conducting boom": (),
}
_BOOM_KEYS: Final = ("boom", "square")
_NO_METAL: Final = "non-conducting boom"
#: widest boom, plate or clamp accepted [m]
_WIDEST: Final = 2.0
#: furthest element over its boom accepted [m]
_HIGHEST: Final = 0.3

_SIZE = Quantity(dimension="length", low=0.0, high=_WIDEST, above_low=True)


def _check_mount(values: Values, at: Place) -> None:
    kind = values.get("kind")
    if kind is None:
        return
    allowed = {"kind", *KEYS_OF[kind], *(() if kind == _NO_METAL else _BOOM_KEYS)}
    for key in values:
        if key not in allowed:
            owners = " or ".join(f'"{name}"' for name, keys in KEYS_OF.items() if key in keys)
            message: Value = phrase(f"a mount of kind {kind} has no {{key}}", key=written(key))
            remedy: Value = "remove it"
            if owners:
                remedy = phrase("remove it, or {write}", write=write_one("kind", owners))
            at.child(key).fault(message, remedy=remedy)
    clearance, plate = values.get("clearance"), values.get("plate")
    thickness = (plate[2] if plate and len(plate) > 2 else None) or 0.0
    if clearance is not None and thickness > clearance + 1e-9:
        message = "the plate is thicker than the clearance between boom and element"
        remedy = "clearance counts from the boom's surface to the element's, plate included"
        at.child("clearance").fault(message, remedy=remedy)
    boom = values.get("boom")
    if boom and None not in boom and len(boom) > 1 and boom[1] >= boom[0] / 2.0:
        message = "the wall is as thick as the radius of the boom, or thicker"
        at.child("boom", 1).fault(message, remedy="write diameter, then wall")


MOUNT = TableSpec(
    noun="mount",
    model=Mount,
    check=_check_mount,
    only=("kind", KEYS_OF),
    fields=(
        choice("kind", tuple(KEYS_OF), "kind of mount",
               "How the element is held: over the boom or through it, insulated from its metal or "
               "bonded to it, or on a boom without metal.", required=True),
        entry("boom", "Diameter of the boom here, or side of a square one, and if known its wall; "
              "left out, that of [beam.boom].",
              sides('["50 mm", "3 mm"]', "diameter or side", "wall", least=1)),
        flag("square", "Whether the boom is a square tube."),
        from_zero("clearance", "length", "Between the surfaces of boom and element, plate "
                  "included; left out, half the element's diameter above boom and plate.",
                  high=_HIGHEST, example="10 mm"),
        entry("plate", "Metal plate between boom and element: length along the element, width "
              "along the boom, and if known its thickness.",
              sides('["150 mm", "130 mm", "5 mm"]', "length", "width", "thickness", least=2)),
        entry("clamp", "Metal clamped around the element: length along it and outer diameter.",
              sides('["60 mm", "32 mm"]', "length", "outer diameter")),
        above_zero("hole", "length", "Diameter of the holes in the boom.", high=_WIDEST,
                   example="10 mm"),
    ),
)  # fmt: skip

INSULATION = TableSpec(
    noun="insulation",
    model=Insulation,
    fields=(
        above_zero("thickness", "length", "Thickness of the layer around the metal.", high=0.1,
                   required=True, example="0.8 mm"),
        within("permittivity", "ratio",
               "Relative permittivity of the layer: 2.3 polyethylene, 3 to 5 soft PVC.", 1.0, 100.0,
               required=True, example="2.3"),
    ),
)  # fmt: skip


def mount_of(values: Values, *, element: Values) -> Values | None:
    """Mount of an element or its beam, on the beam's boom; None when the plan does not say [SI]."""
    mount: Values | None = element.get("mount", values.get("mount"))
    if mount is None or mount.get("kind") in {None, _NO_METAL} or "boom" in mount:
        return mount
    boom = values.get("boom") or {}
    if boom.get("diameter") is None:
        return mount
    wall = boom.get("wall")
    return {**mount, "boom": [boom["diameter"], *([] if wall is None else [wall])]}


def check_mounts(values: Values, at: Place) -> None:
    """Report mounts that do not fit their beam."""
    for number, element in enumerate(values.get("element") or []):
        mount = mount_of(values, element=element)
        if mount is None or mount.get("kind") in {None, _NO_METAL}:
            continue
        own = ("element", number) if "mount" in element else ()
        _check_fit(mount, values, element, at.child(*own, "mount"))


def _check_fit(mount: Values, values: Values, element: Values, at: Place) -> None:
    kind, boom = mount["kind"], mount.get("boom")
    feed = (values.get("feed") or {}).get("kind")
    uncut = feed in {None, "gamma", "tee", "folded"}
    if element.get("role") == "driven" and kind.startswith("bonded") and not uncut:
        message = "a split driven element bonded to the boom is short-circuited"
        remedy: Value = phrase("hold it insulated: {kind}; or feed it uncut, by a gamma or tee",
                        kind=written("kind", '"insulated above"'))  # fmt: skip
        at.child("kind").fault(message, remedy=remedy)
    if boom is None:
        if "boom" not in mount:
            message = "the plan does not say how thick the boom is"
            remedy = PerReader(file='add boom = ["50 mm"], or [beam.boom]',
                               forms="add the boom's diameter here, or a boom")  # fmt: skip
            at.child("boom").fault(message, remedy=remedy)
        return
    half = element.get("half")
    thick = half[0][0] if half and half[0] else element.get("diameter")
    if boom[0] is None or thick is None:
        return
    if kind.endswith("through") and thick >= 0.95 * boom[0]:
        message = "the element is as thick as the boom it passes through"
        at.child("kind").fault(message, remedy="hold it above the boom, or correct the diameters")
    hole = mount.get("hole")
    if hole is not None and not thick < hole < boom[0]:
        message = f"the hole must be wider than the element ({at.wide(thick)}) and fit the boom"
        at.child("hole").fault(message, remedy=f'write one such as "{at.wide(1.2 * thick)}"')
    clamp = mount.get("clamp")
    if clamp and clamp[1] is not None and clamp[1] < thick:
        message = f"the clamp is thinner than the element ({at.wide(thick)})"
        at.child("clamp", 1).fault(message, remedy="write length, then outer diameter")

"""The optional tables at the root, in the order they are read and written."""

from __future__ import annotations

from typing import Any, Final

from boomwright.base.quantity import phrase
from boomwright.plan.building import build_value
from boomwright.plan.faults import Place, split_path, table_named, written
from boomwright.plan.kinds import Kind
from boomwright.plan.layout import Path
from boomwright.plan.spec import Field, TableSpec, Values
from boomwright.plan.tables.line import LINE, TRANSMITTER
from boomwright.plan.tables.measured import MEASURED
from boomwright.plan.tables.permits import PERMITS
from boomwright.plan.tables.place import PLACE
from boomwright.plan.tables.prices import PRICES
from boomwright.plan.tables.raising import RAISING
from boomwright.plan.tables.reach import REACH
from boomwright.plan.tables.support import SUPPORT
from boomwright.plan.tables.wish import WISH
from boomwright.plan.writing import table_lines

#: key of each optional table -> its declaration
SPECS: Final[dict[str, TableSpec]] = {
    "place": PLACE,
    "wish": WISH,
    "support": SUPPORT,
    "transmitter": TRANSMITTER,
    "line": LINE,
    "reach": REACH,
    "permits": PERMITS,
    "prices": PRICES,
    "raising": RAISING,
    "measured": MEASURED,
}
_HELP = {
    "place": "What the place allows and wants before there is a station.",
    "wish": "What an improved beam shall do, and what it must not exceed.",
    "support": "Tower or tube, mast, rotator, guys and footing.",
    "transmitter": "Power, emission and times of transmission.",
    "line": "Feed line, choke and earth.",
    "reach": "Places to be reached and the ground on the way.",
    "permits": "What rules ask about.",
    "prices": "Price list, budget and what can be bought.",
    "raising": "Who raises the beam, with what, and where.",
    "measured": "Measured sweeps of the built beam.",
}

#: the same as fields of the root
FIELDS: Final = tuple(Field(key=key, kind=spec, help=_HELP[key]) for key, spec in SPECS.items())


def build_further(values: Values) -> dict[str, Any]:
    """Make every optional table that is written."""
    return {
        key: build_value(spec, values[key], key) for key, spec in SPECS.items() if key in values
    }


def further_lines(plan: Any) -> list[str]:
    """Write every optional table a plan has, each after an empty line (n_lines,)."""
    lines: list[str] = []
    for key, spec in SPECS.items():
        table = getattr(plan, key)
        if table is not None:
            lines += ["", *table_lines(spec, table, key)]
    return lines


def check_further(values: Values, at: Place, root: TableSpec) -> None:
    """Report names and places in the optional tables that nothing answers to."""
    beams: list[Values] = values.get("beam") or []
    names = [beam.get("name") for beam in beams]
    if None in names:
        return
    for table in ("wish", "measured"):
        _check_beam(values.get(table), names, at.child(table), table)
    stack = (values.get("reach") or {}).get("stack") or []
    for index, name in enumerate(stack):
        if name is not None and name not in names:
            _unknown_beam(at.child("reach", "stack", index), names)
    ring = (values.get("reach") or {}).get("ring")
    if ring is not None and ring not in names:
        _unknown_beam(at.child("reach", "ring"), names)
    _check_rings(values, names, at.child("support", "ring"))
    frozen = (values.get("wish") or {}).get("frozen") or []
    for index, text in enumerate(frozen):
        if text is not None:
            _check_place(text, values, root, at.child("wish", "frozen", index))
    _check_moves(values, at)


def _check_rings(values: Values, names: list[Any], at: Place) -> None:
    rings: list[Values] = (values.get("support") or {}).get("ring") or []
    beams = [ring.get("beam") for ring in rings]
    for index, name in enumerate(beams):
        place = at.child(index, "beam")
        if name is not None and name not in names:
            _unknown_beam(place, names)
        elif name is not None and name in beams[:index]:
            place.fault("another ring carries this beam", remedy="keep one ring for each beam")


def _unknown_beam(at: Place, names: list[Any]) -> None:
    listed = ", ".join(str(name) for name in names[:10])
    at.fault("no beam has this name", remedy=f"beams of this plan: {listed}")


def _check_beam(table: Values | None, names: list[Any], at: Place, word: str) -> None:
    if table is None:
        return
    name = table.get("beam")
    if name is not None and name not in names:
        _unknown_beam(at.child("beam"), names)
    if "beam" not in table and len(names) > 1:
        message = phrase(f"the plan has {len(names)} beams; nothing says which one {{word}} is "
                         "about", word=table_named(word))  # fmt: skip
        remedy = phrase("add {beam} to {word}", word=table_named(word),
                        beam=written("beam", f'"{names[0]}"'))  # fmt: skip
        at.child("beam").fault(message, remedy=remedy)


def _check_place(text: str, values: Values, root: TableSpec, at: Place) -> None:
    path = split_path(text)
    if path is None:
        at.fault("this is not a place in a plan", remedy='write it as "beam[0].element[2].length"')
    elif not _stands(path, values, root):
        message = "this plan has no such place"
        at.fault(message, remedy="count beams and elements from 0, and spell keys as the plan does")


def _stands(path: Path, values: Values, root: TableSpec) -> bool:
    kind: Kind | None = root
    value: Any = values
    for step in path:
        kind = kind.below(step) if kind is not None else None
        if kind is None:
            return False
        if isinstance(step, int) and isinstance(value, list):
            if step >= len(value):
                return False
            value = value[step]
        elif isinstance(value, dict):
            # At fault itself: its own fault is listed, the places below are not blamed.
            value = value.get(step)
    return kind is not None


def _check_moves(values: Values, at: Place) -> None:
    measured: Values = values.get("measured") or {}
    beams: list[Values] = values.get("beam") or []
    name = measured.get("beam", beams[0].get("name") if beams else None)
    beam = next((beam for beam in beams if beam.get("name") == name), None)
    count = len((beam or {}).get("element") or [])
    for index, trial in enumerate(measured.get("trial") or []):
        for number, move in enumerate(trial.get("moved") or []):
            element = move.get("element")
            if count and element is not None and element >= count:
                message = f"the beam has {count} elements"
                remedy = f"count from 0: write 0 to {count - 1}"
                place = at.child("measured", "trial", index, "moved", number, "element")
                place.fault(message, remedy=remedy)

"""What was typed into a form, written into the owner's text; comments, order and units stay."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from boomwright.base import place_error
from boomwright.plan.faults import path_text
from boomwright.plan.forms.declared import listed_spec, plain_text, table_at
from boomwright.plan.kinds import Flag, Kind
from boomwright.plan.layout import Path
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Number
from boomwright.plan.places import kind_at
from boomwright.plan.plan_text import PlanText
from boomwright.plan.spec import NameOrTable, TableSpec

_YES_NO = {"yes": True, "no": False}
#: keys whose tables and values count elements by their number
_COUNTED = (("measured",), ("wish", "frozen"), ("wish", "bands"))


def fill(text: str, place: Path, values: Mapping[str, Any], *, assumed: Iterable[str] = ()) -> str:
    """Write a form into a plan; a table that is not there yet is added.

    Args:
        place: the table; the index after the last for one more of a list
        values: what was typed, by key: a text, texts, rows of texts, or the same of a table in
            it; empty takes a key out
        assumed: keys whose value is assumed until its owner confirms it
    """
    work = PlanText(text)
    kind = table_at(place)
    for key in values:
        kind_at((*place, key))
    _fill_table(work, kind, place, values)
    for key in assumed:
        work.mark((*place, key), assumed=True)
    return work.text


def _fill_table(work: PlanText, spec: TableSpec, place: Path, values: Mapping[str, Any]) -> None:
    fields = [each for each in spec.fields if each.key in values]
    own = [each for each in fields if listed_spec(each.kind) is None]
    if place and not isinstance(work.at(place), dict):
        typed = {each.key: _made(each.kind, values[each.key]) for each in own}
        work.add_table(place, {key: value for key, value in typed.items() if value is not None})
    else:
        for each in own:
            _put(work, each.kind, (*place, each.key), values[each.key])
    for each in fields:
        inner = listed_spec(each.kind)
        rows = values[each.key] if inner is not None else ()
        for number, row in enumerate(rows if isinstance(rows, list) else ()):
            if inner is not None and isinstance(row, Mapping):
                _fill_table(work, inner, (*place, each.key, number), row)


def _made(kind: Kind, typed: Any) -> Any:
    """Turn what was typed into what TOML holds; None when nothing was typed."""
    if isinstance(typed, Mapping):
        spec = kind.table if isinstance(kind, NameOrTable) else kind
        found = {
            each.key: _made(each.kind, typed[each.key])
            for each in getattr(spec, "fields", ())
            if each.key in typed
        }
        return {key: value for key, value in found.items() if value is not None} or None
    if isinstance(kind, ListOf):
        rows = typed.split(",") if isinstance(typed, str) else list(typed)
        made = [_made(kind.item, row) for row in rows]
        return [each for each in made if each is not None] or None
    if isinstance(kind, Row):
        texts = [str(each).strip() for each in typed]
        while texts and not texts[-1]:
            texts.pop()
        return [
            _leaf(item, each, None) for item, each in zip(kind.items, texts, strict=False)
        ] or None
    if isinstance(kind, NameOrTable):
        kind = kind.name
    return _leaf(kind, str(typed).strip(), None) if str(typed).strip() else None


def _leaf(kind: Kind, typed: str, before: Any) -> Any:
    """One value; what is no number or no answer stays as typed and is refused with its remedy."""
    if isinstance(kind, Flag):
        return _YES_NO.get(typed.lower(), typed)
    plain = isinstance(kind, Number) or (
        isinstance(before, int | float) and not isinstance(before, bool)
    )
    if plain:
        try:
            return int(typed)
        except ValueError:
            pass
        try:
            return float(typed.replace(",", ".").removesuffix("dB"))
        except ValueError:
            return typed
    return typed


def _put(work: PlanText, kind: Kind, path: Path, typed: Any) -> None:
    before = work.at(path)
    if isinstance(typed, Mapping):
        _put_table(work, kind, path, typed)
        return
    if isinstance(kind, NameOrTable):
        if isinstance(before, dict) and str(typed).strip():
            work.remove(path)
            before = None
        kind = kind.name
    made = _made(kind, typed)
    if made is None:
        if before is not None:
            work.remove(path)
    elif isinstance(made, list) and isinstance(before, list):
        _put_list(work, kind, path, made)
    else:
        _put_leaf(work, kind, path, made)


def _put_leaf(work: PlanText, kind: Kind, path: Path, made: Any) -> None:
    before = work.at(path)
    typed = plain_text(made, str(made))
    if before is not None and typed == plain_text(before, work.written(path)):
        return
    work.set(path, _leaf(kind, typed, before) if isinstance(made, str) else made)


def _put_list(work: PlanText, kind: Kind, path: Path, made: list[Any]) -> None:
    """Change only members that differ, so that remarks beside the others stay."""
    before = len(work.at(path))
    for number in range(before - 1, len(made) - 1, -1):
        work.remove((*path, number))
    for number, member in enumerate(made):
        item = kind.below(number) or kind
        now = work.at((*path, number))
        if isinstance(member, list) and isinstance(now, list):
            _put_list(work, item, (*path, number), member)
        elif now is None:
            work.set((*path, number), member)
        else:
            _put_leaf(work, item, (*path, number), member)


def _put_table(work: PlanText, kind: Kind, path: Path, typed: Mapping[str, Any]) -> None:
    spec: Any = kind.table if isinstance(kind, NameOrTable) else kind
    before, made = work.at(path), _made(spec, typed)
    if made is None:
        if before is not None:
            work.remove(path)
    elif isinstance(before, dict):
        _fill_table(work, spec, path, typed)
    elif list(made.values()) != [before]:
        # The same is a bare answer, still without who gave it.
        work.set(path, made)


def take_out(text: str, place: Path) -> str:
    """Take a table with all below it out of a plan."""
    work = PlanText(text)
    _refuse_counted(work, place, "taken out")
    work.remove(place)
    return work.text


def move(text: str, place: Path, by: int) -> str:
    """Let a table of a list change places with one of its neighbours.

    Args:
        by: how far down the list, 1 or -1

    Raises:
        PlanError: there is no such neighbour, or other tables count on its number
    """
    work = PlanText(text)
    _refuse_counted(work, place, "moved")
    number = place[-1]
    listed = work.at(place[:-1])
    if not (isinstance(number, int) and isinstance(listed, list)):
        raise place_error(path_text(place), "this is no part of a list", remedy="leave it there")
    if not 0 <= number + by < len(listed):
        raise place_error(path_text(place), "the list ends here", remedy="leave it there")
    work.swap(place, (*place[:-1], number + by))
    return work.text


def _refuse_counted(work: PlanText, place: Path, done: str) -> None:
    counts = [path for path in _COUNTED if work.at(path) is not None]
    listed = (isinstance(place[-1], int) and place[-2] in {"beam", "element"}) if place else False
    if counts and listed:
        names = " and ".join(" ".join(str(step) for step in path) for path in counts)
        message = f"{names} count elements by their number, so none can be {done}"
        remedy = f"take out {names} first, or change the number of elements in the file"
        raise place_error(path_text(place), message, remedy=remedy)


def confirm(text: str, place: Path) -> str:
    """Take the marks of assumed values away, of one value or of a whole table.

    Args:
        place: a key, or a table with everything in it
    """
    work = PlanText(text)
    for path in work.assumptions():
        if path[: len(place)] == place or place[: len(path)] == path:
            work.mark(path, assumed=False)
    return work.text

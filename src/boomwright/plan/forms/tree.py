"""What stands in a plan below a table, and what may be added there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from boomwright.base.records import dataclass
from boomwright.plan.faults import key_words, path_text
from boomwright.plan.forms.declared import help_at, listed_spec, plain_text
from boomwright.plan.kinds import Kind
from boomwright.plan.layout import Path
from boomwright.plan.lists import ListOf
from boomwright.plan.places import NAMES, kind_at, member_words, place_words
from boomwright.plan.plan_text import PlanText
from boomwright.plan.spec import Field, NameOrTable, Tables, TableSpec

#: values shown of a table
_SHOWN = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition:
    """A table that may be added."""

    place: str  #: where it would stand
    label: str  #: what it is
    help: str  #: what it is for


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """A table of the plan with what stands below it."""

    place: str  #: its place
    title: str  #: what it is, in words
    help: str  #: what it is for
    says: str  #: what the owner wrote in it, its first values
    assumed: int  #: how many of its values nobody has confirmed
    first: str  #: place of its first key to type; empty when it has none
    removable: bool  #: whether the plan can do without it
    earlier: bool  #: whether it can move up in its list
    later: bool  #: whether it can move down in its list
    below: tuple[Branch, ...]  #: tables in it
    additions: tuple[Addition, ...]  #: tables it may have besides


def branch_of(text: str, place: Path, *, wanted: Callable[[Path], bool]) -> Branch | Addition:
    """Lay out a table and everything below it, or what may be added when the plan has none.

    Args:
        wanted: tables and keys to lay out, by their place
    """
    work = PlanText(text)
    if not isinstance(work.at(place), dict):
        label = place_words(place, work.at(())) if place[1:] else str(place[-1])
        return Addition(place=path_text(place), label=key_words(label), help=help_at(place))
    return _branch(work, place, wanted)


def _branch(work: PlanText, place: Path, wanted: Callable[[Path], bool]) -> Branch:
    spec: Any = kind_at(place)
    below: list[Branch] = []
    additions: list[Addition] = []
    for field in spec.fields:
        path = (*place, field.key)
        if not wanted(path):
            continue
        inner = listed_spec(field.kind)
        if inner is not None:
            _listed(work, field, inner, path, wanted, (below, additions))
        elif isinstance(field.kind, TableSpec):
            if isinstance(work.at(path), dict):
                below.append(_branch(work, path, wanted))
            else:
                label = key_words(field.key)
                additions.append(Addition(place=path_text(path), label=label, help=field.help))
    marks = {mark[: len(place) + 1] for mark in work.assumptions()}
    own = [field for field in spec.fields if _own(field) and wanted((*place, field.key))]
    at, count = place[-1] if place else "", 0
    if isinstance(at, int):
        count = len(work.at(place[:-1]))
    return Branch(
        place=path_text(place) if place else "",
        title=_title(work, place),
        help=help_at(place),
        says=_says(work, own, place),
        assumed=sum((*place, each.key) in marks for each in own),
        first=path_text((*place, own[0].key)) if own else "",
        removable=bool(place) and not _required(place, count),
        earlier=isinstance(at, int) and at > 0,
        later=isinstance(at, int) and at < count - 1,
        below=tuple(below),
        additions=tuple(additions),
    )


def _listed(
    work: PlanText,
    field: Field,
    spec: TableSpec,
    path: Path,
    wanted: Callable[[Path], bool],
    found: tuple[list[Branch], list[Addition]],
) -> None:
    listed = work.at(path)
    count = len(listed) if isinstance(listed, list) else 0
    found[0].extend(_branch(work, (*path, n), wanted) for n in range(count))
    most = field.kind.most if isinstance(field.kind, Tables | ListOf) else count
    if count < most:
        new = path_text((*path, count))
        found[1].append(Addition(place=new, label=spec.noun, help=field.help))


def _own(field: Field) -> bool:
    """Whether a key is typed in the form of its own table."""
    return not isinstance(field.kind, TableSpec) and listed_spec(field.kind) is None


def _title(work: PlanText, place: Path) -> str:
    if not place:
        return "plan"
    spec = listed_spec(kind_at(place[:-1])) if place[1:] else None
    if isinstance(place[-1], int) and spec is not None:
        return member_words(spec, work.at(place[:-1]), place[-1])
    return key_words(str(place[-1]))


def _required(place: Path, count: int) -> bool:
    """Whether the table around cannot do without this one."""
    if isinstance(place[-1], int):
        kind: Kind = kind_at(place[:-1])
        return count <= (kind.least if isinstance(kind, Tables | ListOf) else 0)
    around: Any = kind_at(place[:-1])
    return any(each.key == place[-1] and each.required for each in around.fields)


def _says(work: PlanText, own: list[Field], place: Path) -> str:
    texts = []
    listed = bool(place) and isinstance(place[-1], int)
    for field in own:
        if listed and field.key in {"role", *NAMES}:
            continue  # its title says it
        path = (*place, field.key)
        value = work.at(path)
        if isinstance(value, list):
            texts.append(", ".join(_member(work, v, (*path, n)) for n, v in enumerate(value[:3])))
        elif isinstance(value, dict):
            texts.append(str(value.get("name", key_words(field.key))))
        elif value is not None and not isinstance(field.kind, NameOrTable):
            said = plain_text(value, work.written(path))
            texts.append(said if not isinstance(value, bool) else f"{key_words(field.key)}: {said}")
        elif value is not None:
            texts.append(plain_text(value, work.written(path)))
    more = len(texts) - _SHOWN
    return " · ".join(texts[:_SHOWN]) + (f" · {more} more" if more > 0 else "")


def _member(work: PlanText, value: Any, path: Path) -> str:
    if isinstance(value, list):
        return " × ".join(_member(work, v, (*path, n)) for n, v in enumerate(value))
    return plain_text(value, work.written(path))

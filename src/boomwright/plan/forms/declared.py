"""A form for one table of the plan, from its declaration and what the owner wrote."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from typing import Any, Literal, cast

from boomwright.base import UnitSystem, place_error
from boomwright.base.records import dataclass, replace
from boomwright.plan.faults import key_words, path_text
from boomwright.plan.forms.native import example_text, limits_text, native_text
from boomwright.plan.kinds import Choice, Flag, Kind
from boomwright.plan.layout import Path
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.places import element_words, kind_at, place_words
from boomwright.plan.plan_text import PlanText
from boomwright.plan.spec import Field, NameOrTable, Tables, TableSpec

#: how a key is typed: one line, a choice, yes or no, values with commas, one row of cells, rows of
#: them, a table in place, or a short form beside that table
Input = Literal["line", "choice", "yes-no", "list", "row", "rows", "table", "either"]
#: keys wanted in a form, by their place
Wanted = Callable[[Path], bool]
_SAID = re.compile(r'^[\w-]+\s*=\s*"?(.*?)"?$', re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One column of a row."""

    label: str  #: what it is
    example: str  #: how to write it, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class FormKey:
    """One key of a table, to be typed."""

    place: str  #: its place in the plan
    key: str  #: as written in the plan
    label: str  #: the same in words
    help: str  #: what it means
    input: Input  #: how it is typed
    options: tuple[str, ...] = ()  #: what may be chosen
    called: tuple[str, ...] = ()  #: what the options are called, where that is something else
    text: str = ""  #: what the owner wrote, or the choice made; empty when nothing
    rows: tuple[tuple[str, ...], ...] = ()  #: what the owner wrote in cells, row by row
    first: tuple[str, ...] = ()  #: first row to begin with where there is none yet
    cells: tuple[Cell, ...] = ()  #: columns of a row
    table: Form | None = None  #: the long form; None where there is none
    required: bool = False  #: whether the table is at fault without it
    example: str = ""  #: how to write it, or empty
    limits: str = ""  #: what may be written, or empty
    assumed: bool = False  #: whether its owner has not confirmed it
    usual: str = ""  #: what the trade takes, or empty
    basis: str = ""  #: where that is from
    goes_with: tuple[str, ...] = ()  #: choices of ``Form.choice`` it goes with; empty for all


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One table of the plan, to be typed."""

    place: str  #: its place in the plan
    title: str  #: what it is, in words
    help: str  #: what it is for
    written: bool  #: whether the plan has it already
    keys: tuple[FormKey, ...]  #: its keys in the order of the declaration
    tables: tuple[Form, ...] = ()  #: tables that a new one must have
    choice: str = ""  #: key that decides which others belong, or empty


def form_of(text: str, place: Path, *, system: UnitSystem, wanted: Wanted | None = None) -> Form:
    """Make the form of a table.

    Args:
        place: the table; the index after the last for one more of a list
        wanted: keys of a table that is written already; None for all
    """
    kind = table_at(place)
    work = PlanText(text)
    return _Builder(work, system).form(kind, place, help_at(place), wanted)


def table_at(place: Path) -> TableSpec:
    """Declaration of the table at a place.

    Raises:
        PlanError: no plan has such a table
    """
    kind = kind_at(place)
    if isinstance(kind, NameOrTable):
        kind = kind.table
    if not isinstance(kind, TableSpec):
        message = "no table of a plan stands here"
        raise place_error(path_text(place), message, remedy="choose one of the sheet's tables")
    return kind


def help_at(place: Path) -> str:
    """Help of the key under which a table stands."""
    steps = [n for n, step in enumerate(place) if isinstance(step, str)]
    if not steps:
        return ""
    key = steps[-1]
    spec = kind_at(place[:key])
    found: Any = spec.table if isinstance(spec, NameOrTable) else spec
    if isinstance(found, ListOf | Tables):
        found = found.item if isinstance(found, ListOf) else found.spec
    return next((each.help for each in found.fields if each.key == place[key]), "")


def listed_spec(kind: Kind) -> TableSpec | None:
    """Table of which a key holds a list; None for every other key."""
    if isinstance(kind, Tables):
        return kind.spec
    if isinstance(kind, ListOf) and isinstance(kind.item, TableSpec):
        return kind.item
    return None


def plain_text(value: Any, written: str) -> str:
    """Write what TOML gave as it would be typed into a form.

    Args:
        written: the same as written in the plan
    """
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else written or str(value)


def _list_example(kind: Kind, *, system: UnitSystem) -> str:
    """Example of a list of single values, as they are typed with commas between them."""
    if not isinstance(kind, ListOf) or isinstance(kind.item, Choice | Row | TableSpec):
        return ""
    item = kind.item
    written = kind.example if kind.example[0].isalpha() else f"said = {kind.example}"
    members = next(iter(tomllib.loads(written).values()))
    texts = (plain_text(each, str(each)) for each in members)
    return ", ".join(native_text(text, item, system=system) for text in texts)


class _Builder:
    def __init__(self, work: PlanText, system: UnitSystem) -> None:
        self.work = work
        self.system: UnitSystem = system

    def form(self, spec: TableSpec, place: Path, help_text: str, wanted: Wanted | None) -> Form:
        written = isinstance(self.work.at(place), dict)
        choice, only = spec.only or ("", {})
        keys: list[FormKey] = []
        tables: list[Form] = []
        for field in spec.fields:
            path = (*place, field.key)
            if wanted is not None and written and not wanted(path):
                continue
            inner = listed_spec(field.kind)
            if isinstance(field.kind, TableSpec) or inner is not None:
                if not written and field.required:
                    tables.append(self._needed(field, path))
                continue
            with_ = tuple(option for option, keys_of in only.items() if field.key in keys_of)
            keys.append(self.key(field, path, with_))
        return Form(
            place=path_text(place) if place else "",
            title=place_words(place, self.work.at(())),
            help=help_text,
            written=written,
            keys=tuple(keys),
            tables=tuple(tables),
            choice=choice,
        )

    def _needed(self, field: Field, path: Path) -> Form:
        if isinstance(field.kind, TableSpec):
            return self.form(field.kind, path, field.help, None)
        return self.form(cast(Tables, field.kind).spec, (*path, 0), field.help, None)

    def key(self, field: Field, path: Path, with_: tuple[str, ...]) -> FormKey:
        kind, usual = field.kind, field.usual
        parts = self._named(field, path) or self._parts(kind, path)
        said = _SAID.match(field.example)
        own = said[1] if said and parts["input"] in {"line", "yes-no"} else ""
        leaf = kind.name if isinstance(kind, NameOrTable) else kind
        return FormKey(
            place=path_text(path),
            key=field.key,
            label=key_words(field.key),
            help=field.help,
            required=field.required,
            example=native_text(own, leaf, system=self.system)
            or _list_example(kind, system=self.system)
            or (example_text(leaf, system=self.system) if parts["input"] == "line" else ""),
            limits=limits_text(leaf, system=self.system),
            assumed=self.work.assumed(path),
            usual=native_text(usual.text, leaf, system=self.system) if usual else "",
            basis=usual.basis if usual else "",
            goes_with=with_,
            **parts,
        )

    def _named(self, field: Field, path: Path) -> dict[str, Any]:
        """Choices of a key that names a part of the plan; none for every other key."""
        beams = self.work.at(("beam",))
        rows = [row for row in beams or [] if isinstance(row, dict)]
        if field.refers is None or not rows:
            return {}
        part, first = field.refers
        text = self._text(self.work.at(path), path)
        if part == "beam":
            here = path[1] if path[0] == "beam" else None
            names = [str(row.get("name", "")) for n, row in enumerate(rows) if n != here]
            return {"input": "choice", "options": tuple(filter(None, names)), "text": text}
        name = self.work.at((path[0], "beam"))
        elements = next((row for row in rows if row.get("name") == name), rows[0]).get("element")
        count = len(elements) if isinstance(elements, list) else 0
        return {
            "input": "choice",
            "options": tuple(str(number + first) for number in range(count)),
            "called": tuple(element_words(elements, number) for number in range(count)),
            "text": text,
        }

    def _parts(self, kind: Kind, path: Path) -> dict[str, Any]:
        value = self.work.at(path)
        if isinstance(kind, NameOrTable):
            return self._either(kind, value, path)
        if isinstance(kind, Row):
            row = tuple(self._cells(kind, value, path))
            return {"input": "row", "cells": self._heads(kind), "rows": (row,)}
        if isinstance(kind, ListOf) and isinstance(kind.item, Row):
            listed = value if isinstance(value, list) else []
            rows = [tuple(self._cells(kind.item, v, (*path, n))) for n, v in enumerate(listed)]
            return {"input": "rows", "cells": self._heads(kind.item), "rows": tuple(rows)}
        if isinstance(kind, ListOf):
            listed = value if isinstance(value, list) else []
            texts = [self._text(v, (*path, n)) for n, v in enumerate(listed)]
            options = kind.item.options if isinstance(kind.item, Choice) else ()
            return {"input": "list", "text": ", ".join(texts), "options": options}
        return self._leaf(kind, value, path)

    def _leaf(self, kind: Kind, value: Any, path: Path) -> dict[str, Any]:
        text = self._text(value, path)
        if isinstance(kind, Flag):
            return {"input": "yes-no", "options": ("yes", "no"), "text": text}
        if isinstance(kind, Choice):
            return {"input": "choice", "options": kind.options, "text": text}
        return {"input": "line", "text": text}

    def _either(self, kind: NameOrTable, value: Any, path: Path) -> dict[str, Any]:
        table = self.form(kind.table, path, "", None)
        if isinstance(kind.name, Flag):
            if isinstance(value, bool):
                # A bare yes is an answer that nobody has signed yet.
                first = replace(table.keys[0], text=self._text(value, path))
                table = replace(table, keys=(first, *table.keys[1:]))
            return {"input": "table", "table": table}
        options = kind.name.options if isinstance(kind.name, Choice) else ()
        return {
            "input": "either",
            "table": table,
            "options": options,
            "text": "" if isinstance(value, dict) else self._text(value, path),
        }

    def _text(self, value: Any, path: Path) -> str:
        return "" if isinstance(value, dict) else plain_text(value, self.work.written(path))

    def _cells(self, kind: Row, value: Any, path: Path) -> list[str]:
        members = value if isinstance(value, list) else []
        texts = [self._text(member, (*path, n)) for n, member in enumerate(members)]
        return texts + [""] * (len(kind.items) - len(texts))

    def _heads(self, kind: Row) -> tuple[Cell, ...]:
        said = tomllib.loads(f"said = {kind.example}")["said"]
        texts = [plain_text(each, str(each)) for each in said]
        texts += [""] * (len(kind.items) - len(texts))
        return tuple(
            Cell(
                label=label,
                example=native_text(text, item, system=self.system)
                or (example_text(item, system=self.system) if number < kind.least else ""),
            )
            for number, (label, item, text) in enumerate(
                zip(kind.names, kind.items, texts, strict=True)
            )
        )

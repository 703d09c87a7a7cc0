"""Jurisdictions as data: TOML text with sourced, dated rules, read and held against a site.

``data/README.md`` in this room describes the file, so that anybody can add a place. Reading is
a pure function of the text; the application opens the files.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from string import Formatter
from typing import Any, Final, Literal, get_args

from boomwright.base import Fault, PlanError
from boomwright.base.days import day_number
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, field

RuleKind = Literal[
    "height_over",
    "height_near_boundary",
    "boundary_ratio",
    "airport_within",
    "heliport_within",
    "question",
]
Outcome = Literal["notice needed", "exceeded", "ask"]
Seen = Literal["read", "from memory", "common practice"]

#: keys with a number that each kind of rule needs
RULE_NUMBERS: Final[dict[str, tuple[str, ...]]] = {
    "height_over": ("limit_m",),
    "height_near_boundary": ("limit_m", "distance_m"),
    "boundary_ratio": ("ratio",),
    "airport_within": ("limit_m", "distance_m"),
    "heliport_within": ("limit_m", "distance_m"),
    "question": (),
}
_TEXT_KEYS: Final = ("id", "kind", "subject", "text", "basis", "whom_to_ask", "dated", "seen")
_ALL_NUMBERS: Final = ("limit_m", "distance_m", "ratio")
_OPTIONAL: Final = ("outcome", "url", "lengths_m")
_HEAD_KEYS: Final = ("boomwright_jurisdiction", "id", "name", "countries", "edited_on", "rule")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule of a place."""

    identity: str  #: short stable name
    kind: RuleKind  #: what it compares, see ``data/README.md``
    subject: str  #: what it is about, as shown
    text: str  #: what it asks, in plain words, with lengths in braces by name
    basis: str  #: law or guidance with its paragraph
    whom_to_ask: str  #: who decides
    dated: str  #: date or edition of the text
    seen: Seen  #: ``read``, ``from memory`` or ``common practice``
    outcome: Outcome = "ask"  #: verdict when the figure is passed
    limit: float = 0.0  #: height, 0 when the kind has none [m]
    distance: float = 0.0  #: distance, 0 when the kind has none [m]
    ratio: float = 0.0  #: distance to boundary over height, 0 when the kind has none [-]
    url: str = ""  #: where the text is published, or empty
    #: lengths that its text names [m]
    lengths: Mapping[str, float] = field(default_factory=dict, hash=False)

    @property
    def told(self) -> Value:
        """Its text, lengths in the units of the reader."""
        if not self.lengths:
            return self.text
        kinds = {name: _far(length) for name, length in self.lengths.items()}
        return phrase(self.text, **kinds)


def _far(length: float) -> Quantity:
    return Quantity(length, "rule distance" if length >= 1e3 else "rule length")


@dataclass(frozen=True, slots=True, kw_only=True)
class Jurisdiction:
    """The rules of one place."""

    identity: str  #: short stable name, e.g. ``gb``
    name: str  #: its name in plain words
    #: two-letter country codes it is for; empty for everywhere (n_countries,)
    countries: tuple[str, ...]
    #: day the file was last edited, as year-month-day; how a rule is known stands in it
    edited_on: str
    rules: tuple[Rule, ...]  #: its rules (n_rules,)


def _is_day(text: str) -> bool:
    try:
        day_number(text)
    except ValueError:
        return False
    return True


def _text_faults(table: dict[str, Any], keys: tuple[str, ...], place: str) -> list[Fault]:
    return [
        Fault(
            path=f"{place}.{key}".lstrip("."),
            message="missing or not a text",
            value=repr(table.get(key, ""))[:60],
            remedy=f'write {key} = "..."',
        )
        for key in keys
        if not (isinstance(table.get(key), str) and table[key].strip())
    ]


def _choice_fault(table: dict[str, Any], key: str, choices: tuple[str, ...], place: str) -> Fault:
    return Fault(
        path=f"{place}.{key}",
        message="not one of the known words",
        value=repr(table.get(key))[:60],
        remedy="write one of: " + ", ".join(choices),
    )


def _unknown_faults(table: dict[str, Any], known: tuple[str, ...], place: str) -> list[Fault]:
    return [
        Fault(
            path=f"{place}.{key}".lstrip("."),
            message="unknown key",
            value=key,
            remedy="remove it, or write one of: " + ", ".join(known),
        )
        for key in table
        if key not in known
    ]


def _number_faults(table: dict[str, Any], place: str) -> list[Fault]:
    kind = table.get("kind")
    needed = RULE_NUMBERS.get(kind, ()) if isinstance(kind, str) else ()
    faults: list[Fault] = []
    for key in _ALL_NUMBERS:
        value = table.get(key)
        good = isinstance(value, int | float) and not isinstance(value, bool)
        if key in needed and not (good and 0.0 <= float(table[key]) < 1e6):
            faults.append(
                Fault(
                    path=f"{place}.{key}",
                    message="missing, or not a number of 0 or more",
                    value=repr(value)[:60],
                    remedy=f"write {key} = 3.0 (plain number, metres where the name ends in _m)",
                )
            )
        elif key in table and key not in needed:
            faults.append(
                Fault(
                    path=f"{place}.{key}",
                    message=f"a rule of kind {kind!r} does not use it",
                    value=repr(value)[:60],
                    remedy="remove it or change the kind",
                )
            )
    return faults


def _length_faults(table: dict[str, Any], place: str) -> list[Fault]:
    lengths, text = table.get("lengths_m", {}), table.get("text")
    named: set[str | None] = set()
    good = isinstance(lengths, dict) and all(
        isinstance(value, int | float) and not isinstance(value, bool) and 0.0 <= value < 1e6
        for value in lengths.values()
    )
    if isinstance(text, str):
        try:
            named = {name for _, name, _, _ in Formatter().parse(text)} - {None}
        except ValueError:
            good = False
    if good and named == set(lengths):
        return []
    return [
        Fault(
            path=f"{place}.lengths_m",
            message="not the lengths that the text names in braces",
            value=repr(lengths)[:60],
            remedy='write text = "Up to {high}." with lengths_m = { high = 3.0 }, in metres',
        )
    ]


def _rule_faults(table: dict[str, Any], place: str) -> list[Fault]:
    faults = _text_faults(table, _TEXT_KEYS, place)
    faults += _unknown_faults(table, _TEXT_KEYS + _ALL_NUMBERS + _OPTIONAL, place)
    named = {fault.path for fault in faults}
    choices = (("kind", get_args(RuleKind)), ("seen", get_args(Seen)))
    faults += [
        _choice_fault(table, key, words, place)
        for key, words in choices
        if f"{place}.{key}" not in named and table.get(key) not in words
    ]
    if table.get("outcome", "ask") not in get_args(Outcome):
        faults.append(_choice_fault(table, "outcome", get_args(Outcome), place))
    return faults + _number_faults(table, place) + _length_faults(table, place)


def _head_faults(table: dict[str, Any]) -> list[Fault]:
    faults = _text_faults(table, ("id", "name", "edited_on"), "")
    faults += _unknown_faults(table, _HEAD_KEYS, "")
    if table.get("boomwright_jurisdiction") != 1:
        faults.append(
            Fault(
                path="boomwright_jurisdiction",
                message="missing or of an unknown version",
                value=repr(table.get("boomwright_jurisdiction"))[:60],
                remedy="write boomwright_jurisdiction = 1",
            )
        )
    edited_on = table.get("edited_on")
    if isinstance(edited_on, str) and edited_on.strip() and not _is_day(edited_on):
        faults.append(
            Fault(
                path="edited_on",
                message="not a day",
                value=repr(edited_on)[:60],
                remedy='write it as "2026-01-31"',
            )
        )
    countries = table.get("countries", [])
    if not isinstance(countries, list) or not all(
        isinstance(code, str) and len(code) == 2 and code.isupper() for code in countries
    ):
        faults.append(
            Fault(
                path="countries",
                message="not a list of two-letter country codes",
                value=repr(countries)[:60],
                remedy='write countries = ["GB"], or [] for everywhere',
            )
        )
    return faults


def _rule(table: dict[str, Any]) -> Rule:
    return Rule(
        identity=table["id"],
        kind=table["kind"],
        subject=table["subject"],
        text=table["text"],
        basis=table["basis"],
        whom_to_ask=table["whom_to_ask"],
        dated=table["dated"],
        seen=table["seen"],
        outcome=table.get("outcome", "ask"),
        limit=float(table.get("limit_m", 0.0)),
        distance=float(table.get("distance_m", 0.0)),
        ratio=float(table.get("ratio", 0.0)),
        url=table.get("url", ""),
        lengths={name: float(length) for name, length in table.get("lengths_m", {}).items()},
    )


def read_jurisdiction(text: str, *, name: str) -> Jurisdiction:
    """Read a jurisdiction file.

    Raises:
        PlanError: with every fault found, each with its place and remedy
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        fault = Fault(path="", message=f"not TOML: {error}", remedy="mend the named line")
        raise PlanError((fault,), source=name) from error
    faults = _head_faults(table)
    rules = table.get("rule")
    if not isinstance(rules, list) or not rules or not all(isinstance(r, dict) for r in rules):
        faults.append(
            Fault(path="rule", message="no rules", remedy="write at least one [[rule]] table")
        )
        raise PlanError(tuple(faults), source=name)
    for index, rule in enumerate(rules):
        faults += _rule_faults(rule, f"rule[{index}]")
    names = [rule.get("id") for rule in rules]
    faults += [
        Fault(
            path=f"rule[{index}].id",
            message="the same id twice",
            value=repr(identity)[:60],
            remedy="give each rule its own id",
        )
        for index, identity in enumerate(names)
        if identity in names[:index]
    ]
    if faults:
        raise PlanError(tuple(faults), source=name)
    return Jurisdiction(
        identity=table["id"],
        name=table["name"],
        countries=tuple(table.get("countries", ())),
        edited_on=table["edited_on"],
        rules=tuple(_rule(rule) for rule in rules),
    )

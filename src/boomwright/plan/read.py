"""From TOML text to a frozen plan, with every fault found, not just the first."""

from __future__ import annotations

import dataclasses
import re
import tomllib
from collections.abc import Iterator
from typing import Any, Final

from boomwright.base import Fault, PlanError, UnitSystem
from boomwright.plan.building import UnfitError
from boomwright.plan.faults import FaultList, Place, path_text, shown, split_path
from boomwright.plan.layout import Path, lay_out
from boomwright.plan.memo import Memo
from boomwright.plan.model import Assumption, Plan
from boomwright.plan.places import place_words
from boomwright.plan.reading_habit import NAMES_BANDS, spoken_system
from boomwright.plan.tables.hardware_fit import check_hardware
from boomwright.plan.tables.root import ROOT, build_plan

#: largest plan accepted; a plan of ten beams takes about 10 kB
LARGEST_BYTES: Final = 1_000_000

_NO_ANTENNA = (
    "ask `boomwright advise` which station suits this place, write a first plan with `boomwright "
    "new`, or add [[beam]] with name, band, design, height, heading, material, feed"
)

# Deeper nesting than any table of a plan has; keeps every later walk off the stack limit.
_DEEPEST = 24
# Seen before parsing: the TOML reader takes time with the square of a dotted key's length.
# Nothing in it is tried twice, so that no line, however long, takes more than one look.
_KEY = r"(?:[A-Za-z0-9_-]++|\"[^\"\n]*+\"|'[^'\n]*+')"
_DEEP_KEY = re.compile(
    rf"^[ \t]*+\[{{0,2}}+[ \t]*+(?:{_KEY}[ \t]*+\.[ \t]*+){{{_DEEPEST}}}", re.MULTILINE
)

_WHERE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)$")
#: longest line looked at for a quantity without its quotes [characters]
_LONGEST_ROW = 200
_BARE_QUANTITY = re.compile(r"^\s*([\w.\"-]+)\s*=\s*([-+]?[0-9][^\"'\[\]{},#=]*?)\s*(?:#.*)?$")


def _whole_file(message: str, remedy: str, *, line: int = 0, value: str = "") -> Fault:
    return Fault(path="plan", message=message, remedy=remedy, line=line, value=value)


def _decoded(text: str | bytes, source: str) -> str:
    """Check size and encoding before anything is parsed."""
    if len(text) > LARGEST_BYTES:
        message = f"the plan is {len(text):,} bytes long, {LARGEST_BYTES:,} are allowed"
        remedy = "give a plan file; measured data and drawings belong in files of their own"
        raise PlanError((_whole_file(message, remedy),), source=source)
    if isinstance(text, bytes):
        raw = text
        try:
            text = raw.decode("utf-8")
        except UnicodeDecodeError as error:
            line = raw.count(b"\n", 0, error.start) + 1
            message = f"byte {error.start} is not UTF-8 text"
            remedy = "save the plan as plain UTF-8 text; this may be another kind of file"
            raise PlanError((_whole_file(message, remedy, line=line),), source=source) from None
    return text.removeprefix("\ufeff")


def _syntax_fault(text: str, error: ValueError) -> Fault:
    """Turn the TOML reader's complaint into a fault with line and remedy."""
    message = str(error)
    where = _WHERE.search(message)
    lines = text.split("\n")
    number = len(lines)
    if where is None:
        # Python refuses to convert whole numbers of thousands of digits; no place is given.
        number = next((i for i, row in enumerate(lines, 1) if re.search(r"\d{4300}", row)), 0)
        message = "a number has too many digits"
    elif where[1]:
        number = int(where[1])
    message = _WHERE.sub("", message)
    row = lines[number - 1] if number else ""
    remedy = "compare the line with the plan file's examples; texts and quantities stand in quotes"
    quantity = _BARE_QUANTITY.match(row) if len(row) <= _LONGEST_ROW else None
    if "overwrite" in message or "twice" in message:
        remedy = "the key or table stands twice: remove one"
    elif quantity:
        in_quotes = shown(f'{quantity[1]} = "{quantity[2]}"')
        remedy = f"put the quantity in quotes: {in_quotes}"
    return _whole_file(f"not TOML: {message}", remedy, line=number, value=shown(row))


#: an edit reads the same text thrice: to change it, to see that it holds, and as the new plan
_PARSED: Memo[str, dict[str, Any]] = Memo(size=4)


def with_value(text: str, data: dict[str, Any], path: Path, written: str) -> dict[str, Any]:
    """What ``parse_toml`` reads from a text that differs in one value, without parsing it all.

    Args:
        text: the whole text with the new value
        data: what was read before; it stays as it is
        written: the value as it now stands in the text
    """

    def replaced(node: Any, path: Path) -> Any:
        if not path:
            return parse_toml(f"value = {written}")["value"]
        changed = node.copy()
        changed[path[0]] = replaced(node[path[0]], path[1:])
        return changed

    changed: dict[str, Any] = replaced(data, path)
    _PARSED.put(text, changed)
    return changed


def written_system(text: str) -> UnitSystem:
    """Tell which units most lengths of a plan are written in; metric where they tie.

    Raises:
        PlanError: when the text is no TOML
    """
    return spoken_system(_strings(parse_toml(text)))


def _strings(value: object) -> Iterator[str]:
    """Every string of a parsed plan."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, each in value.items():
            if key not in NAMES_BANDS:
                yield from _strings(each)
    elif isinstance(value, list):
        for each in value:
            yield from _strings(each)


def parse_toml(text: str, *, source: str = "") -> dict[str, Any]:
    """Parse TOML of bounded depth into plain values.

    Args:
        text: TOML without byte order mark

    Returns:
        values as written; shared with others who parse the text, so that nobody changes it

    Raises:
        PlanError: no TOML, or nested too deep
    """
    too_deep = f"tables or lists are nested more than {_DEEPEST} deep"
    remedy = "no part of a plan needs that; compare with the plan file's examples"
    if _DEEP_KEY.search(text):
        raise PlanError((_whole_file(too_deep, remedy),), source=source)
    try:
        data = _PARSED.made(text, tomllib.loads)
    except RecursionError:
        raise PlanError((_whole_file(too_deep, remedy),), source=source) from None
    except ValueError as error:
        raise PlanError((_syntax_fault(text, error),), source=source) from None
    if _depth(data) > _DEEPEST:
        raise PlanError((_whole_file(too_deep, remedy),), source=source)
    return data


def _depth(data: Any) -> int:
    """Depth of nesting, found level by level so that no depth can exhaust the stack."""
    level: list[Any] = [data]
    depth = 0
    while level and depth <= _DEEPEST:
        depth += 1
        below: list[Any] = []
        for node in level:
            members = node.values() if isinstance(node, dict) else node
            below.extend(member for member in members if isinstance(member, dict | list))
        level = below
    return depth


def read_plan(text: str | bytes, *, source: str = "") -> Plan:
    """Read a plan.

    Args:
        text: TOML as text or as UTF-8 bytes
        source: file name for messages, or empty

    Raises:
        PlanError: with all faults at once, each with path, line, value as written and remedy;
            a place without an antenna is one
    """
    return _read(text, source=source, place=False)


def read_place(text: str | bytes, *, source: str = "") -> Plan:
    """Read a place: a plan that need not have an antenna yet, as ``read_plan`` reads one."""
    return _read(text, source=source, place=True)


def _read(text: str | bytes, *, source: str, place: bool) -> Plan:
    plain = _decoded(text, source)
    data = parse_toml(plain, source=source)
    # The TOML reader takes "\r\n" for "\n"; so do the places.
    layout = lay_out(plain.replace("\r\n", "\n"))
    faults = FaultList(layout)
    root = Place(faults=faults)
    values = ROOT.read(data, root)
    if not (place or data.get("beam")):
        root.child("beam").fault("there is no antenna yet", remedy=_NO_ANTENNA)
    if values is not None and not faults.sorted():
        try:
            assumed = tuple(
                Assumption(place=path_text(path), where=place_words(path, data))
                for path in layout.assumptions()
            )
            plan = dataclasses.replace(build_plan(values), assumed=assumed)
            check_hardware(plan, values, root)
            if not faults.sorted():
                return plan
        except UnfitError as unfit:
            remedy = "make these keys agree, or take out the one that does not belong"
            root.child(*unfit.path).fault(str(unfit), remedy=remedy)
    raise PlanError(
        tuple(
            dataclasses.replace(fault, where=place_words(split_path(fault.path) or (), data))
            for fault in faults.sorted()
        ),
        source=source,
    )

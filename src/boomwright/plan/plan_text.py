"""A plan text under change: values replaced, added and removed by their span of characters."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping
from typing import Any, NoReturn

from boomwright.base import SPEED_OF_LIGHT, place_error
from boomwright.plan.faults import path_text
from boomwright.plan.format import (
    decimal_text,
    default_unit,
    in_feet_or_inches,
    owners_text,
    stepped_text,
)
from boomwright.plan.kinds import Kind
from boomwright.plan.layout import ASSUMED, Layout, Path, lay_out
from boomwright.plan.numbers import Quantity
from boomwright.plan.places import kind_at
from boomwright.plan.quantity import UNIT_ASKED, QuantityError, parse_quantity
from boomwright.plan.read import parse_toml, with_value
from boomwright.plan.spec import Tables
from boomwright.plan.tables.heading import Heading
from boomwright.plan.tables.root import ROOT

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_REST_OF_LINE = re.compile(r"[^\r\n]*")
_COMMA = re.compile(r"\s*,\s*")
_REMARKS_ABOVE = re.compile(r"(?:^[ \t]*#[^\n]*\n)*\Z", re.MULTILINE)


class PlanText:
    """One text being changed; parsed anew after each edit but that of a plain value.

    Args:
        text: the owner's plan
        keep_units: write numbers in the unit the owner used there
    """

    def __init__(self, text: str, *, keep_units: bool = True) -> None:
        self._keep_units = keep_units
        self._newline = "\r\n" if "\r\n" in text else "\n"
        self.text = text
        self._take(text)

    def _take(self, text: str) -> None:
        self.text = text
        self._data: dict[str, Any] = parse_toml(text.removeprefix("\ufeff"))
        self._layout: Layout = lay_out(text)

    def _splice(self, start: int, end: int, new: str) -> None:
        self._take(self.text[:start] + new + self.text[end:])

    def _replace(self, path: Path, new: str) -> None:
        """Write a value in the place of another; a plain one leaves all else where it is."""
        old = self._layout.written(path)
        if any(value[0] in "[{" or "\n" in value for value in (old, new)):
            self._splice(*self._layout.spans[path], new)
            return
        layout = self._layout.with_value(path, new)
        self._data = with_value(layout.text.removeprefix("\ufeff"), self._data, path, new)
        self.text, self._layout = layout.text, layout

    def at(self, path: Path) -> Any:
        """Value at a place as TOML gave it; None when there is nothing."""
        node: Any = self._data
        for step in path:
            keyed = isinstance(node, dict) and step in node
            indexed = isinstance(node, list) and isinstance(step, int) and step < len(node)
            if not keyed and not indexed:
                return None
            node = node[step]
        return node

    def written(self, path: Path) -> str:
        """Value as written in the text, empty for a table or nothing."""
        return self._layout.written(path)

    def wavelength(self, path: Path) -> float | None:
        """Wavelength that wl means at a place; None when the plan does not tell [m]."""
        if path[:1] != ("beam",):
            return None
        try:
            design = parse_quantity(self.at((*path[:2], "design")) or 0, "frequency")
        except QuantityError:
            return None
        return SPEED_OF_LIGHT / design if design > 0 else None

    def _value_text(self, value: Any, path: Path) -> str:
        """Write a value as TOML, floats with the owner's unit or the usual one."""
        kind = kind_at(path)
        if isinstance(value, str):
            return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007F")
        if isinstance(value, bool):
            return "true" if value else "false"
        if isinstance(value, list | tuple):
            members = [self._value_text(item, (*path, i)) for i, item in enumerate(value)]
            return f"[{', '.join(members)}]"
        if isinstance(value, Mapping):
            pairs = [f"{_key(k)} = {self._value_text(v, (*path, k))}" for k, v in value.items()]
            return f"{{ {', '.join(pairs)} }}" if pairs else "{}"
        if not isinstance(value, int | float) or not math.isfinite(value):
            message = "this value cannot be written into a plan"
            remedy = "give a text, a finite number or a list"
            raise place_error(path_text(path), message, remedy=remedy)
        if isinstance(kind, Quantity | Heading):
            return self._quantity(float(value), path, kind)
        return decimal_text(value) if isinstance(value, float) else str(value)

    def _quantity(self, value: float, path: Path, kind: Kind) -> str:
        dimension = kind.dimension if isinstance(kind, Quantity) else "angle"
        before = self.at(path)
        if before is None and dimension == "length":
            before = self._length_beside(path)
        if isinstance(before, int | float) and self._keep_units and dimension not in UNIT_ASKED:
            return decimal_text(value, digits=9)
        if isinstance(before, str) and self._keep_units:
            text = owners_text(
                value,
                before,
                dimension,
                wavelength=self.wavelength(path),
                of_element=path[2:3] in {("element",), ("feed",)},
            )
        else:
            unit = default_unit(value, dimension)
            text = stepped_text(value, unit, dimension=dimension) if unit else decimal_text(value)
        return json.dumps(text)

    def _length_beside(self, path: Path) -> str | None:
        """A length in feet or inches that stands in the same table, for a new one to be like."""
        table = self.at(path[:-1])
        for key, value in table.items() if isinstance(table, Mapping) else ():
            kind = kind_at((*path[:-1], key))
            length = isinstance(kind, Quantity) and kind.dimension == "length"
            if length and isinstance(value, str) and in_feet_or_inches(value):
                return value
        return None

    def set(self, path: Path, value: Any) -> None:
        """Replace a value, or add it when its table is there.

        Args:
            value: text as it is, number in SI, list, or mapping for a new table [SI]

        Raises:
            PlanError: the table around it is missing, or the value cannot be written
        """
        span = self._layout.spans.get(path)
        if path in self._layout.bodies:
            message = "a table stands there"
            raise place_error(path_text(path), message, remedy="set its keys one by one")
        if span is not None:
            self._replace(path, self._value_text(value, path))
            self.mark(path, assumed=False)
        elif isinstance(kind_at(path[:-1]) if path[:-1] else ROOT, Tables):
            self._add_table(path, value)
        else:
            self._add_key(path, value)

    def _add_key(self, path: Path, value: Any) -> None:
        parent, key = path[:-1], path[-1]
        text = self._value_text(value, path)
        if isinstance(key, int):
            self._add_member(path, text)
        elif parent in self._layout.bodies:
            start, end = self._layout.bodies[parent]
            line_end = self._line_end(end)
            pair = f"{self._indent(start)}{_key(key)} = {text}"
            if parent == () and end == start:
                self._splice(end, end, pair + self._newline)
            else:
                self._splice(line_end, line_end, self._newline + pair)
        elif parent in self._layout.spans:
            start, end = self._layout.spans[parent]
            inner = self.text[start + 1 : end - 1].rstrip()
            comma = ", " if inner.strip() else " "
            self._splice(start, end, f"{{{inner}{comma}{_key(key)} = {text} }}")
        elif self._dotted(parent):
            self._add_dotted(path, text)
        elif isinstance(parent[-1], str) and isinstance(self.at(parent), dict | None):
            self._insert(parent, [f"[{_header(parent)}]", f"{_key(key)} = {text}"])
        else:
            self._no_place(path)

    def _dotted(self, table: Path) -> list[tuple[int, Path]]:
        """Ends of the values of a table that is written with dots, each with its place."""
        bodies = self._layout.bodies
        if not isinstance(self.at(table), dict) or table in bodies or table in self._layout.spans:
            return []
        below = {p for p in self._layout.spans if p[: len(table)] == table}
        headed = {p for p in below for b in bodies if len(b) > len(table) and p[: len(b)] == b}
        return [(self._layout.spans[p][1], p) for p in below - headed]

    def _add_dotted(self, path: Path, text: str) -> None:
        """Write a key under those of its table that are written with dots."""
        end, like = max(self._dotted(path[:-1]))
        start = self._layout.keys[like]
        owner = next(like[:n] for n in range(len(like), -1, -1) if like[:n] in self._layout.bodies)
        key = ".".join(_key(str(step)) for step in path[len(owner) :])
        line_end = self._line_end(end)
        self._splice(line_end, line_end, f"{self._newline}{self._indent(start)}{key} = {text}")

    def add_table(self, path: Path, value: Mapping[str, Any]) -> None:
        """Write a table under a header of its own, or inside the inline table around it."""
        if path[:-1] in self._layout.spans or isinstance(path[-1], int):
            self.set(path, value)
            return
        self._insert(path, [f"[{_header(path)}]", *self._pairs(path, value)])

    def _insert(self, path: Path, lines: list[str]) -> None:
        """Write lines under a header after all that stands in the nearest table around it."""
        bodies = self._layout.bodies
        listed = [n for n in range(1, len(path)) if isinstance(path[n - 1], int)]
        if any(path[:n] not in bodies for n in listed):
            self._no_place(path)
        around = next(
            (
                path[:n]
                for n in range(len(path) - 1, 0, -1)
                if any(body[:n] == path[:n] for body in bodies)
            ),
            (),
        )
        children = [start for start, _ in self._bodies(path)]
        if children:
            # A table that so far is only named by those below it opens above them.
            start = self._block(path)[0]
            indent = self._indent(min(children))
            block = "".join(f"{indent}{line}{self._newline}" for line in [*lines, ""])
            self._splice(start, start, block)
            return
        if not around:
            end = len(self.text.rstrip())
            block = self._newline.join(lines)
            self._splice(end, len(self.text), f"{self._newline * 2}{block}{self._newline}")
            return
        inside = [(span, p) for p, span in bodies.items() if p[: len(around)] == around]
        end = self._line_end(max(span[1] for span, _ in inside))
        like = min(inside, key=lambda each: (len(each[1]) <= len(around), each[0]))
        indent = self._indent(like[0][0])
        block = "".join(f"{self._newline}{indent}{line}" for line in lines)
        self._splice(end, end, self._newline + block)

    def assumed(self, path: Path) -> bool:
        """Say whether a value is marked as assumed, which its owner has not confirmed."""
        depth, inner = self._layout.anchor(path)
        keys = self._layout.marked(path[:depth]) if depth else None
        return keys is not None and (not keys or inner in keys)

    def mark(self, path: Path, *, assumed: bool) -> None:
        """Mark a value as assumed, or take the mark away, in the remark behind it."""
        depth, inner = self._layout.anchor(path)
        if not depth or self.assumed(path) == assumed:
            return
        keys = self._layout.marked(path[:depth]) or []
        whole = self.at(path[:depth])
        if inner and not assumed and not keys and isinstance(whole, Mapping):
            keys = list(whole)
        left = [key for key in keys if key != inner] + ([inner] if assumed and inner else [])
        start = self._layout.spans[path[:depth]][1]
        end = self._line_end(start)
        remark = ASSUMED.sub("", self.text[start:end]).rstrip()
        if left or assumed:
            said = f"assumed: {', '.join(left)}" if left else "assumed"
            remark = f"{remark}; {said}" if "#" in remark else f"{remark}  # {said}"
        self._splice(start, end, remark)

    def assumptions(self) -> tuple[Path, ...]:
        """List every value that is marked as assumed, from the top of the text down."""
        return self._layout.assumptions()

    def swap(self, first: Path, second: Path) -> None:
        """Let two tables or members of a list change places, with their remarks."""
        (low, low_end), (high, high_end) = sorted((self._block(first), self._block(second)))
        text = self.text
        between = text[low_end:high]
        self._splice(low, high_end, text[high:high_end] + between + text[low:low_end])

    def _bodies(self, path: Path) -> list[tuple[int, int]]:
        """Spans of a table and of all tables below it."""
        return [span for p, span in self._layout.bodies.items() if p[: len(path)] == path]

    def _block(self, path: Path) -> tuple[int, int]:
        """Start and end of a member of a list with all below it and the remarks above."""
        if path in self._layout.spans:
            return self._layout.spans[path]
        bodies = self._bodies(path)
        if not bodies:
            self._no_place(path)
        start = self.text.rfind("\n", 0, min(bodies)[0]) + 1
        above = _REMARKS_ABOVE.search(self.text, 0, start)
        first = above.start() if above else start
        return first, self._line_end(max(end for _, end in bodies))

    def _no_place(self, path: Path) -> NoReturn:
        message = "the plan has nothing there to add to"
        raise place_error(path_text(path), message, remedy="set the table or list around it first")

    def _add_member(self, path: Path, text: str) -> None:
        listed = self.at(path[:-1])
        span = self._layout.spans.get(path[:-1])
        if not isinstance(listed, list) or span is None or path[-1] != len(listed):
            self._no_place(path)
        last = self._layout.spans.get((*path[:-1], len(listed) - 1))
        if last is None:
            self._splice(*span, f"[{text}]")
        else:
            self._splice(last[1], last[1], f", {text}")

    def _add_table(self, path: Path, value: Any) -> None:
        """Append one ``[[table]]`` after the last of its sort, indented like it."""
        parent, index = path[:-1], path[-1]
        if not isinstance(value, Mapping):
            message = "a table is wanted here"
            raise place_error(path_text(path), message, remedy="give its keys and values")
        count = len(self.at(parent) or [])
        if index != count:
            self._no_place(path)
        if parent in self._layout.spans:
            self._add_member(path, self._value_text(value, path))
            return
        if not count:
            self._insert(path, self._lines(path, value))
            return
        before = (*parent, count - 1)
        if before not in self._layout.bodies:
            self._no_place(path)
        end = self._line_end(max(span[1] for span in self._bodies(before)))
        indent = self._indent(self._layout.bodies[before][0])
        block = "".join(f"{self._newline}{indent}{line}" for line in self._lines(path, value))
        self._splice(end, end, self._newline + block)

    def _lines(self, path: Path, value: Mapping[str, Any]) -> list[str]:
        return [f"[[{_header(path)}]]", *self._pairs(path, value)]

    def _pairs(self, path: Path, value: Mapping[str, Any]) -> list[str]:
        return [f"{_key(k)} = {self._value_text(v, (*path, k))}" for k, v in value.items()]

    def remove(self, path: Path) -> None:
        """Take out a key with its line, or a table with all below it.

        Raises:
            PlanError: there is nothing at the place
        """
        if path in self._layout.spans:
            self._remove_value(path)
            return
        bodies = self._bodies(path)
        if not bodies:
            message = "the plan has nothing there to remove"
            remedy = "name a key or table that stands in the plan"
            raise place_error(path_text(path), message, remedy=remedy)
        for start, end in sorted(bodies, reverse=True):
            first = self.text.rfind("\n", 0, start) + 1
            last = self._line_end(end)
            while self.text[last : last + 1] in {"\r", "\n"}:
                last += 1
            self.text = self.text[:first] + self.text[last:]
        self._take(self.text)

    def _remove_value(self, path: Path) -> None:
        start, end = self._layout.keys[path], self._layout.spans[path][1]
        if path[:-1] in self._layout.bodies:
            first = self.text.rfind("\n", 0, start) + 1
            line_end = self._line_end(end)
            self._splice(first, min(line_end + len(self._newline), len(self.text)), "")
            return
        after = _COMMA.match(self.text, end)
        if after:
            self._splice(start, after.end(), "")
            return
        before = self.text[:start].rstrip()
        first = len(before) - 1 if before.endswith(",") else start
        self._splice(first, end, "")

    def _line_end(self, position: int) -> int:
        match = _REST_OF_LINE.match(self.text, position)
        return match.end() if match else position

    def _indent(self, start: int) -> str:
        first = self.text.rfind("\n", 0, start) + 1
        return self.text[first:start] if self.text[first:start].isspace() else ""


def _header(path: Path) -> str:
    return ".".join(_key(step) for step in path if isinstance(step, str))


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else json.dumps(key)

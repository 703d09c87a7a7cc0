"""Where each key and value of a TOML text stands: its line and its span of characters.

Works on text that a TOML reader has already accepted, so it need not judge, only walk.
Faults take their line numbers from it; a rewrite replaces spans and leaves all else alone.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import Final

from boomwright.plan.memo import Memo

#: a place in the plan: keys and list indices from the root
Path = tuple[str | int, ...]

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_BLANK = re.compile(r"[ \t\r\n]*(?:#[^\n]*[ \t\r\n]*)*")
_SCALAR = re.compile(r"[^,\]}#\r\n]+")
_REST_OF_LINE = re.compile(r"[^\r\n]*")
#: ends the remark behind a value that nobody has confirmed; names the keys of an inline table
ASSUMED: Final = re.compile(r"\s*(?:^|[#;])\s*assumed(?:: (?P<keys>[\w., -]+))?\s*$")
_STRINGS = (
    re.compile(r'"""(?:[^\\]|\\.)*?"""+', re.DOTALL),
    re.compile(r"'''.*?'''+", re.DOTALL),
    re.compile(r'"(?:[^"\\]|\\.)*"'),
    re.compile(r"'[^']*'"),
)


@dataclass(slots=True)
class Layout:
    """Places of one TOML text."""

    text: str  #: the whole text
    #: start and end of each value, and of each header line of a table
    spans: dict[Path, tuple[int, int]] = field(default_factory=dict)
    #: start of each key, or of the header that opens a table
    keys: dict[Path, int] = field(default_factory=dict)
    #: start of the header and end of the last own key line of each table
    bodies: dict[Path, tuple[int, int]] = field(default_factory=dict)
    _breaks: list[int] = field(default_factory=list)

    def line(self, path: Path) -> int:
        """Line of a place, or of the nearest place around it that the text shows."""
        for length in range(len(path), 0, -1):
            start = self.keys.get(path[:length])
            if start is not None:
                return bisect_right(self._breaks, start) + 1
        return 0

    def written(self, path: Path) -> str:
        """Characters between key and end of a value; empty for a table or nothing."""
        if path not in self.spans:
            return ""
        start, end = self.spans[path]
        return self.text[start:end]

    def anchor(self, path: Path) -> tuple[int, str]:
        """Find the value whose line a value stands on.

        Returns:
            how many steps lead to it, none when nothing is written there; and the keys inside it
            where it is an inline table
        """
        depth = next((n for n in range(1, len(path) + 1) if path[:n] in self.spans), 0)
        inner = [str(step) for step in path[depth:]] if depth else []
        keyed = bool(inner) and isinstance(path[depth], str)
        return depth, ".".join(inner) if keyed else ""

    def marked(self, path: Path) -> list[str] | None:
        """Keys that the mark behind a value names; empty for all of it, None without a mark."""
        rest = _REST_OF_LINE.match(self.text, self.spans[path][1])
        mark = ASSUMED.search(rest[0]) if rest else None
        if mark is None:
            return None
        return [key.strip() for key in (mark["keys"] or "").split(",") if key.strip()]

    def with_value(self, path: Path, new: str) -> Layout:
        """Lay out the text anew where one value is written otherwise, without walking it.

        Args:
            new: the value as it is to be written, on one line and without values inside, like the
                one that stands there
        """
        start, end = self.spans[path]
        longer = len(new) - (end - start)

        def moved(place: int) -> int:
            return place + longer if place >= end else place

        layout = Layout(
            text=self.text[:start] + new + self.text[end:],
            spans={at: (moved(first), moved(last)) for at, (first, last) in self.spans.items()},
            keys={at: moved(place) for at, place in self.keys.items()},
            bodies={at: (moved(first), moved(last)) for at, (first, last) in self.bodies.items()},
            _breaks=[moved(place) for place in self._breaks],
        )
        _LAID_OUT.put(layout.text, layout)
        return layout

    def assumptions(self) -> tuple[Path, ...]:
        """List every value that is marked as assumed, from the top of the text down."""
        found: list[Path] = []
        for path in self.spans if "assumed" in self.text else ():
            if path and self.anchor(path)[0] == len(path):
                keys = self.marked(path)
                if keys is not None:
                    found += [(*path, *key.split(".")) for key in keys] or [path]
        return tuple(found)


_LAID_OUT: Memo[str, Layout] = Memo(size=4)


def lay_out(text: str) -> Layout:
    """Find the place of every key and value."""
    return _LAID_OUT.made(text, _walked)


def _walked(text: str) -> Layout:
    layout = Layout(text)
    layout._breaks.extend(match.start() for match in re.finditer("\n", text))
    _Walk(layout).document()
    return layout


class _Walk:
    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self.text = layout.text
        self.pos = 1 if layout.text.startswith("\ufeff") else 0
        self.counts: dict[Path, int] = {}

    def document(self) -> None:
        table: Path = ()
        self.layout.bodies[()] = (self.pos, self.pos)
        self.skip_blank()
        while self.pos < len(self.text):
            if self.text[self.pos] == "[":
                table = self.header()
            else:
                self.pair(table)
                self.layout.bodies[table] = (self.layout.bodies[table][0], self.pos)
            self.skip_blank()

    def skip_blank(self) -> None:
        match = _BLANK.match(self.text, self.pos)
        if match is not None:
            self.pos = match.end()

    def header(self) -> Path:
        start = self.pos
        many = self.text.startswith("[[", self.pos)
        self.pos += 2 if many else 1
        keys = self.dotted_key()
        self.pos = self.text.index("]", self.pos) + (2 if many else 1)
        path: Path = ()
        for depth, key in enumerate(keys):
            path = (*path, key)
            self.layout.keys.setdefault(path, start)
            if many and depth == len(keys) - 1:
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
                self.layout.keys.setdefault(path, start)
        self.layout.keys[path] = start
        self.layout.bodies[path] = (start, self.pos)
        return path

    def dotted_key(self) -> list[str]:
        keys: list[str] = []
        while True:
            self.skip_blank()
            match = _BARE_KEY.match(self.text, self.pos)
            if match is not None:
                keys.append(match[0])
                self.pos = match.end()
            else:
                start = self.pos
                self.string()
                quoted = self.text[start : self.pos]
                keys.append(tomllib.loads(f"k = {quoted}")["k"])
            self.skip_blank()
            if self.text[self.pos] != ".":
                return keys
            self.pos += 1

    def pair(self, table: Path) -> None:
        start = self.pos
        path = table
        for key in self.dotted_key():
            path = (*path, key)
            self.layout.keys.setdefault(path, start)
        self.pos += 1
        self.skip_blank()
        self.value(path)

    def string(self) -> None:
        for pattern in _STRINGS:
            match = pattern.match(self.text, self.pos)
            if match is not None:
                self.pos = match.end()
                return

    def value(self, path: Path) -> None:
        start = self.pos
        self.layout.keys.setdefault(path, start)
        opener = self.text[start]
        if opener in "\"'":
            self.string()
        elif opener == "[":
            self.array(path)
        elif opener == "{":
            self.inline_table(path)
        else:
            match = _SCALAR.match(self.text, start)
            self.pos = start + len(match[0].rstrip()) if match else start + 1
        self.layout.spans[path] = (start, self.pos)

    def array(self, path: Path) -> None:
        self.pos += 1
        index = 0
        while True:
            self.skip_blank()
            if self.text[self.pos] == "]":
                self.pos += 1
                return
            self.value((*path, index))
            index += 1
            self.skip_blank()
            if self.text[self.pos] == ",":
                self.pos += 1

    def inline_table(self, path: Path) -> None:
        self.pos += 1
        while True:
            self.skip_blank()
            if self.text[self.pos] == "}":
                self.pos += 1
                return
            self.pair(path)
            self.skip_blank()
            if self.text[self.pos] == ",":
                self.pos += 1

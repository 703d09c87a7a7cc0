"""Load cases: what several checks rest on alike, named once and told once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Final

from boomwright.base.quantity import Phrase, Value, with_part
from boomwright.report.model import Table, column

#: begin of the name of each case
_NAME: Final = "design wind, case "


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCases:
    """The winds that checks share, each with its name."""

    wind: Value  #: design wind of the plan
    #: what is shared, with its name; what holds another one comes first (n_cases, 2)
    named: tuple[tuple[Phrase, str], ...]

    def name_in(self, basis: Value) -> Value:
        """Name the case in place of all that it rests on."""
        for case, name in self.named:
            basis = with_part(basis, case, name)
        return with_part(basis, self.wind, "design wind")

    def table(self) -> Table[tuple[Phrase, str]]:
        """Say what each case is."""
        return Table(
            name="load-cases",
            caption="Load cases",
            columns=(
                column("case", lambda pair: pair[1].removeprefix(_NAME)),
                column("wind, ice, and how they act", lambda pair: self._less(pair[0])),
            ),
            items=sorted(self.named, key=lambda pair: pair[1]),
            group="margins",
            sentences=True,
            folded=True,
        )

    def _less(self, case: Phrase) -> Value:
        """A case without what the smaller ones in it say."""
        for other, name in self.named:
            if other != case:
                case = with_part(case, other, name)  # type: ignore[assignment]
        return with_part(case, self.wind, "design wind")


def load_cases(bases: Iterable[Value], *, wind: Value) -> LoadCases:
    """Find what two or more bases say alike of the wind."""
    bases = tuple(bases)
    counts = Counter(part for basis in bases for part in set(_on(basis, wind)))
    shared = dict.fromkeys(part for basis in bases for part in _widest(basis, wind, counts))
    letters = (f"{_NAME}{letter}" for letter in ascii_uppercase)
    named = list(zip(shared, letters, strict=False))
    return LoadCases(wind=wind, named=tuple(sorted(named, key=lambda pair: -_size(pair[0]))))


def _on(value: Value, wind: Value) -> Iterator[Phrase]:
    """Parts of a value that say more of the wind than its name, wide before narrow."""
    if isinstance(value, Phrase) and value != wind and _holds(value, wind):
        yield value
        for part in value.values.values():
            yield from _on(part, wind)


def _widest(value: Value, wind: Value, counts: Counter[Phrase]) -> Iterator[Phrase]:
    if not isinstance(value, Phrase) or value == wind:
        return
    if counts[value] > 1:
        yield value
        return
    for part in value.values.values():
        yield from _widest(part, wind, counts)


def _holds(value: Value, part: Value) -> bool:
    if not isinstance(value, Phrase):
        return False
    return any(each == part or _holds(each, part) for each in value.values.values())


def _size(value: Value) -> int:
    if not isinstance(value, Phrase):
        return 1
    return 1 + sum(_size(each) for each in value.values.values())

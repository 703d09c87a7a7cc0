"""Load cases: what several checks rest on alike, named once and told once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from string import ascii_uppercase

from boomwright.base.quantity import Phrase, Value, listed, phrase, with_parts
from boomwright.base.records import dataclass
from boomwright.report.model import Table, column

#: what the wind of the members is called, and that of what stands below the beams
_DESIGN, _BELOW, _CASE = "design wind", "unfactored wind", ", case "


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCases:
    """The winds that checks share, each with its name."""

    #: winds of the plan, each with what it is called (n_winds,)
    winds: tuple[tuple[Value, str], ...]
    #: what is shared, with its name; what holds another one comes first (n_cases, 2)
    named: tuple[tuple[Phrase, str], ...]

    def name_in(self, basis: Value) -> Value:
        """Name the case in place of all that it rests on."""
        return with_parts(basis, (*self.named, *self.winds))

    @property
    def told(self) -> Value:
        """Each wind with its name."""
        said = [
            phrase("{name}: {wind}", name=name.capitalize(), wind=wind) for wind, name in self.winds
        ]
        return phrase("{winds}.", winds=listed(said, between="; "))

    def table(self) -> Table[tuple[Phrase, str]]:
        """Say what each case is."""
        return Table(
            name="load-cases",
            caption="Load cases",
            columns=(
                column("case", lambda pair: pair[1].rpartition(_CASE)[2]),
                column("wind, ice, and how they act", lambda pair: self._less(pair[0])),
            ),
            items=sorted(self.named, key=lambda pair: pair[1].rpartition(_CASE)[2]),
            group="margins",
            sentences=True,
            folded=True,
        )

    def _less(self, case: Phrase) -> Value:
        """A case without what the smaller ones in it say."""
        others = tuple(pair for pair in self.named if pair[0] != case)
        return with_parts(case, (*others, *self.winds))


def load_cases(bases: Iterable[Value], *, wind: Value, below: Value = "") -> LoadCases:
    """Find what two or more bases say alike of the wind.

    Args:
        bases: what checks and loads rest on
        wind: design wind of the plan
        below: wind of what stands below the beams; empty where there is none
    """
    bases = tuple(bases)
    winds = [(wind, _DESIGN)]
    if below and below != wind:
        winds.append((below, _BELOW))
    known = [wind for wind, _ in winds]
    counts = Counter(part for basis in bases for part in set(_on(basis, known)))
    shared = dict.fromkeys(part for basis in bases for part in _widest(basis, known, counts))
    named = [
        (part, f"{next(name for each, name in winds if _holds(part, each))}{_CASE}{letter}")
        for part, letter in zip(shared, ascii_uppercase, strict=False)
    ]
    named.sort(key=lambda pair: -_size(pair[0]))
    return LoadCases(winds=tuple(winds), named=tuple(named))


def _on(value: Value, winds: Sequence[Value]) -> Iterator[Phrase]:
    """Parts of a value that say more of a wind than its name, wide before narrow."""
    if isinstance(value, Phrase) and value not in winds and _holds_any(value, winds):
        yield value
        for part in value.values.values():
            yield from _on(part, winds)


def _holds_any(value: Value, winds: Sequence[Value]) -> bool:
    return any(_holds(value, wind) for wind in winds)


def _widest(value: Value, winds: Sequence[Value], counts: Counter[Phrase]) -> Iterator[Phrase]:
    if not isinstance(value, Phrase) or value in winds:
        return
    if counts[value] > 1:
        yield value
        return
    for part in value.values.values():
        yield from _widest(part, winds, counts)


def _holds(value: Value, part: Value) -> bool:
    if not isinstance(value, Phrase):
        return False
    return any(each == part or _holds(each, part) for each in value.values.values())


def _size(value: Value) -> int:
    if not isinstance(value, Phrase):
        return 1
    return 1 + sum(_size(each) for each in value.values.values())

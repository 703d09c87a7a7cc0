"""A place written down from what its owner says; what is not said stands there as an example."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import Any, Final

from boomwright.base import UnitSystem
from boomwright.base.records import dataclass
from boomwright.plan import PLAN_VERSION, where_key
from boomwright.plan.reading_habit import spoken_system

#: rows of a list that the form has
ROWS: Final = 3

_HEAD: Final = """\
# A place: what you have, what is allowed, and what you want.
# Take the # away from a line and write your own value. What you leave out is asked, never guessed.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A key of a place: how it is asked for, and an example for who did not say it."""

    key: str
    metric: str  #: example as TOML
    us: str | None = None  #: the same for readers of feet; None for the same, empty for none
    words: str = ""
    asked: str = ""  #: name of what is typed; empty where only the file says it
    number: bool = False  #: whether it is a plain number


#: tables of a place with their lines, in the order of the file
_TABLES: Final[dict[str, tuple[str, tuple[_Line, ...]]]] = {
    "site": (
        "Where it will stand.",
        (
            _Line(key="position", metric='"51.40 N, 0.95 W"', us='"40.10 N, 83.20 W"',
                  words="off a map; or locator = your locator square"),
            _Line(key="ground", metric='"medium dry"', asked="ground",
                  words='such as "wet", "medium dry" or "very dry"'),
            _Line(key="elevation", metric='"70 m"', us='"800 ft"', words="above the sea"),
            _Line(key="wind", metric='"22.5 m/s"', us='"105 mph"', asked="wind",
                  words="of the building code; your building office knows it"),
            _Line(key="ice", metric='"5 mm"', us='"1/4 in"', asked="ice", words="around a wire"),
        ),
    ),
    "site.wind_basis": (
        "What that wind is, as the building office says it.",
        (
            _Line(key="kind", metric='"characteristic"', us='"ultimate"', asked="kind"),
            _Line(key="edition", metric='"EN 1991-1-4"', us='"ASCE 7-16"', asked="edition"),
            _Line(key="exposure", metric="", us='"B"', asked="exposure",
                  words="B among houses, C open land, D at the water"),
            _Line(key="terrain", metric='"III"', us="", asked="terrain",
                  words="0 at the sea, II open land, III among houses, IV in town"),
            _Line(key="orography", metric="1", us="", asked="orography", number=True,
                  words="1 on flat ground"),
            _Line(key="topography", metric="", us="1", words="1 on flat ground"),
        ),
    ),
    "site.ice_basis": (
        "What goes with the ice.",
        (
            _Line(key="gust", metric='"18 m/s"', us='"40 mph"', words="gust that comes with it"),
            _Line(key="mapped", metric="false", words="true where it is read off a code's map"),
        ),
    ),
    "place": (
        "What is allowed and wanted.",
        (
            _Line(key="bands", metric='["20 m"]', words="the most wanted first"),
            _Line(key="region", metric="1", us="2", asked="region", number=True,
                  words="ITU region: 1 Europe and Africa, 2 the Americas, 3 Asia and Oceania"),
            _Line(key="highest", metric='"9 m"', us='"30 ft"', asked="highest",
                  words="highest part allowed, above ground, on a roof too"),
            _Line(key="lot", metric='["24 m", "15 m"]', us='["80 ft", "50 ft"]',
                  words="length and width of the clear ground"),
            _Line(key="least", metric='"-3 dB"',
                  words="least worth against a flat dipole at 10 m (33 ft)"),
        ),
    ),
    "place.standing": (
        "What can carry an antenna already; one such block for each.",
        (
            _Line(key="name", metric='"the two limes"', us='"the two maples"'),
            _Line(key="kind", metric='"trees"',
                  words='or "light pole", "house bracket", "tilting tube", "tower" ...'),
            _Line(key="height", metric='"11 m"', us='"36 ft"'),
        ),
    ),
    "support": (
        "The soil.",
        (
            _Line(key="soil", metric='"clay"', words='or "sand", "sandy gravel"'),
            _Line(key="frost_depth", metric='"0.6 m"', us='"30 in"'),
        ),
    ),
    "reach.target": (
        "Whom you want to reach; one such block for each.",
        (
            _Line(key="name", metric='"Azores"'),
            _Line(key="position", metric='"38.5 N, 28.0 W"', words="or locator"),
        ),
    ),
    "permits": (
        "What the offices ask.",
        (
            _Line(key="country", metric='"GB"', us='"US"'),
            _Line(key="boundary", metric='"6 m"', us='"20 ft"',
                  words="from the foot of the support to the nearest boundary"),
            _Line(key="walkway", metric='"11 m"', us='"36 ft"', words="to the nearest public way"),
            _Line(key="power_lines_surveyed", metric="true", words="once the place was walked"),
        ),
    ),
    "transmitter": ("", (_Line(key="power", metric='"100 W"', asked="power"),)),
    "prices": (
        "Money. boomwright advise --blank writes the list of prices to fill in.",
        (
            _Line(key="currency", metric='"EUR"', us='"USD"', asked="currency"),
            _Line(key="budget", metric="800", asked="budget", number=True),
            _Line(key="list", metric='"prices.csv"', asked="list"),
            _Line(key="tax", metric='"0 %"', words="0 where the prices hold it"),
            _Line(key="concrete_minimum", metric='"0 m3"', us='"0 yd3"', words="least delivered"),
            _Line(key="hire", metric="{ deliveries = 2, crane_days = 0, climber_days = 0, "
                                     "permits = 0, engineer_stamps = 0 }"),
        ),
    ),
    "raising": (
        "Who is there on the day.",
        (
            _Line(key="ground_crew", metric="4", asked="ground_crew", number=True,
                  words="people on the ground"),
            _Line(key="trained_climbers", metric="0", asked="trained_climbers", number=True),
            _Line(key="forecast_gust", metric='"3 m/s"', us='"8 mph"',
                  words="for the hours of the lift"),
        ),
    ),
}  # fmt: skip
#: everything that may be typed
ASKED: Final = (
    "title",
    *(line.asked for _, lines in _TABLES.values() for line in lines if line.asked),
    "place",
    "bands",
    "lot_length",
    "lot_width",
    *(f"{key}_{row}" for row in range(ROWS) for key in ("target", "where", "stands", "tall")),
)
#: tables that stand there once for each of a row
_ROWED: Final = ("place.standing", "reach.target")


def place_text(typed: Mapping[str, str], *, system: UnitSystem | None = None) -> str:
    """Write the text of a place; what is left empty stands there as an example behind a #.

    Args:
        typed: texts by the names of ``ASKED``
        system: units of the examples; None for those that were typed
    """
    said = {key: text.strip() for key, text in typed.items() if text.strip()}
    system = spoken_system(said.values()) if system is None else system
    # A place without bands is refused with its remedy where it is read.
    bands = [band.strip() for band in said.get("bands", "").split(",") if band.strip()]
    title = said.get("title", f"Station for {', '.join(bands)}")
    lines = [f"boomwright = {PLAN_VERSION}", f"title = {_literal(title)}"]
    for table, (words, keys) in _TABLES.items():
        lines += ["", *([f"# {words}"] if words else [])]
        if table in _ROWED:
            rows = [*(_standing(said) if table == "place.standing" else _targets(said))]
            for row in rows or [{}]:
                lines += _written(f"[[{table}]]", keys, row, system)
            continue
        known = {line.key: _plain(said[line.asked]) if line.number else said[line.asked]
                 for line in keys if line.asked in said}  # fmt: skip
        if table == "site" and "place" in said:
            known[where_key(said["place"])] = said["place"]
        if table == "place":
            known["bands"] = bands
            if "lot_length" in said or "lot_width" in said:
                known["lot"] = [said.get("lot_length", ""), said.get("lot_width", "")]
        lines += _written(f"[{table}]", keys, known, system)
    return _HEAD + "\n".join(lines) + "\n"


def _written(
    header: str, keys: tuple[_Line, ...], known: Mapping[str, Any], system: UnitSystem
) -> list[str]:
    """Lines of a table: what is known, and examples of the rest behind a #."""
    lines = [header if known else f"# {header}"]
    where = {"position", "locator"} & set(known)
    for line in keys:
        key = next(iter(where)) if line.key == "position" and where else line.key
        example = line.metric if system == "metric" or line.us is None else line.us
        words = f"  # {line.words}" if line.words else ""
        if key in known:
            lines.append(f"{key} = {_literal(known[key])}{words}")
        elif example:
            lines.append(f"# {key} = {example}{words}")
    return lines


def _literal(value: Any) -> str:
    """A value as TOML."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007F")


def _plain(text: str) -> Any:
    """A number as TOML has it; what is none stays as typed and is refused with its remedy."""
    with suppress(ValueError):
        value = float(text.replace(",", "."))
        return int(value) if value.is_integer() else value
    return text


def _standing(said: Mapping[str, str]) -> Iterator[dict[str, str]]:
    """What stands there already, one row after another."""
    rows = [row for row in range(ROWS) if f"tall_{row}" in said]
    for number, row in enumerate(rows):
        kind = said.get(f"stands_{row}", "")
        yield {"name": f"{kind} {number + 1}", "kind": kind, "height": said[f"tall_{row}"]}


def _targets(said: Mapping[str, str]) -> Iterator[dict[str, str]]:
    """What is to be reached, one row after another."""
    for row in range(ROWS):
        where = said.get(f"where_{row}")
        if where is not None:
            yield {"name": said.get(f"target_{row}", where), where_key(where): where}

"""A subject's facts, pictures, tables and notices as data for the template."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from boomwright.charts import ReadingTable, ShownPicture, ShownSubject
from boomwright.render.book.fonts import FONT_FAMILY
from boomwright.report.wording import clean, first_upper

#: width of one user unit on paper [pt]
_POINTS_PER_UNIT = 0.8
_FAMILY = re.compile(r'font-family="[^"]*"')
_NUMBER = re.compile(r"^[+−±]?[0-9].*|^$|^nowhere$|^not known$")
_DESCRIPTION = re.compile(r"<desc[^>]*>([^<]*)</desc>")
#: share of the width that the shortest column gets, in letters
_LEAST_LETTERS, _MOST_LETTERS = 8, 24
#: a cell of more letters is a sentence: it wraps, at the left, and its column gets more room
_SENTENCE, _WIDEST = 28, 60


def shown_chapter(subject: ShownSubject, *, cite: Callable[[str], str] = str) -> dict[str, Any]:
    """Turn a subject into data for the template.

    Returns
    -------
    dict[str, Any]
        plain lists, dictionaries and strings; notices go to the back of the book
    """
    return {
        "title": clean(subject.title),
        "facts": [[clean(label), clean(cite(value))] for label, value in subject.facts],
        "pictures": [_picture(picture) for picture in subject.pictures],
        "tables": [
            {
                "caption": clean(each.caption),
                "note": clean(each.note),
                "table": table_data(each.table, cite),
            }
            for each in subject.tables
        ],
    }


def _picture(picture: ShownPicture) -> dict[str, Any]:
    said = _DESCRIPTION.search(picture.svg)
    return {
        "svg": _FAMILY.sub(f'font-family="{FONT_FAMILY}"', picture.svg),
        "caption": clean(f"{picture.words}. {picture.caption}"),
        "alt": clean(said.group(1)) if said else clean(picture.words),
        "width": picture.units * _POINTS_PER_UNIT,
    }


def table_data(table: ReadingTable, cite: Callable[[str], str] = str) -> dict[str, Any]:
    """Turn a table into data for the template, its columns as wide as what stands in them."""
    header = [_head(title) for title in table.header]
    rows = [[cite(cell) for cell in row] for row in table.rows]
    columns = list(zip(header, *rows, strict=True))
    longest = [max(len(cell) for cell in column[1:] or ("",)) for column in columns]
    words = [max(len(word) for word in column[0].split()) for column in columns]
    numeric = [
        long <= _SENTENCE and all(_NUMBER.match(cell) for cell in column[1:])
        for long, column in zip(longest, columns, strict=True)
    ]
    return {
        "groups": [{"title": clean(title), "span": 1} for title in header],
        "units": ["" for _ in header],
        "shares": [_share(long, word) for long, word in zip(longest, words, strict=True)],
        "align": ["right" if each else "left" for each in numeric],
        "rows": [[clean(cell) for cell in row] for row in rows],
    }


def _head(title: str) -> str:
    """Begin a column's title with a capital, unless it begins with a symbol such as dB."""
    return first_upper(title) if title.partition(" ")[0].strip(",").islower() else title


def _share(longest: int, word: int) -> float:
    """Width of a column by its longest cell and the longest word of its head."""
    # Heads are set bolder than cells.
    wanted = max(longest, word + 1, _LEAST_LETTERS)
    more = 0.2 * max(0, wanted - 2 * _MOST_LETTERS)
    return float(min(min(wanted, _MOST_LETTERS) + more, _WIDEST))

"""A subject's facts, pictures, tables and notices as data for the template."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from xml.etree import ElementTree

from boomwright.charts import ReadingTable, ShownPicture, ShownSubject
from boomwright.render.book.pictures import print_svg
from boomwright.render.rows import column_widths
from boomwright.report.wording import clean, first_upper

#: width of one user unit on paper [pt]
_POINTS_PER_UNIT = 0.8


def shown_chapter(subject: ShownSubject) -> dict[str, Any]:
    """Turn a subject into data for the template.

    Returns:
        plain lists, dictionaries and strings; notices go to the back of the book
    """
    return {
        "title": clean(subject.title),
        "facts": [[clean(label), clean(value)] for label, value in subject.facts],
        "pictures": [picture_data(picture) for picture in subject.pictures],
        "tables": [
            {
                "caption": clean(each.caption),
                "note": clean(each.note),
                "table": table_data(each.table),
            }
            for each in subject.tables
        ],
    }


def picture_data(picture: ShownPicture) -> dict[str, Any]:
    """Turn a picture into data for the template."""
    root = ElementTree.fromstring(picture.svg)  # noqa: S314 - our own drawing
    said = root.findtext("{*}desc")
    # Most pictures have their title drawn in them.
    headed = any(each.text == picture.words for each in root.iterfind(".//{*}text"))
    told = (
        [picture.caption] if headed and picture.caption else [f"{picture.words}.", picture.caption]
    )
    return {
        "svg": print_svg(picture.svg),
        "caption": clean(" ".join(told)),
        "words": clean(picture.words),
        "alt": clean(said or picture.words),
        "width": picture.units * _POINTS_PER_UNIT,
    }


def table_data(table: ReadingTable) -> dict[str, Any]:
    """Turn a table into data for the template, its columns as wide as what stands in them."""
    header = [_head(title) for title in table.header]
    shares, numeric = column_widths(replace(table, header=tuple(header)))
    return {
        "groups": [{"title": clean(title), "span": 1} for title in header],
        "units": ["" for _ in header],
        "shares": list(shares),
        "align": ["right" if each else "left" for each in numeric],
        "rows": [[clean(cell) for cell in row] for row in table.rows],
        "headings": sorted(table.headings),
    }


def _head(title: str) -> str:
    """Begin a column's title with a capital, unless it begins with a symbol such as dB."""
    return first_upper(title) if title.partition(" ")[0].strip(",").islower() else title

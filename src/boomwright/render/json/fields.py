"""Fields of a result as plain data: the key is the field's name, with its unit behind it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from boomwright.base import Notice, written_notices
from boomwright.base.quantity import PerReader, PerSystem, Phrase, keyed, write
from boomwright.render.rows import plain


def fields(item: object, *keys: str) -> dict[str, Any]:
    """Take fields of a result, each under its key.

    Args:
        keys: ``weight_n`` takes the field ``weight``, or ``weight_n`` where there is one of
            that name

    Returns:
        numbers, texts and lists; what has no finite value is None
    """
    return {key: _told(_named(item, key)) for key in keys}


def _told(value: object) -> Any:
    """Sentences become text in metric units, as all figures of a document are SI."""
    if isinstance(value, Phrase | PerSystem | PerReader):
        return write(value, system="metric", cite=keyed)
    if isinstance(value, tuple):
        return [_told(each) for each in value]
    return plain(value)


def _named(item: object, key: str) -> object:
    name = key
    while name and not hasattr(item, name):
        name = name.rpartition("_")[0]
    # A key that names no field is a fault of ours, told with its whole name.
    return getattr(item, name or key)


def notice_rows(notices: Iterable[Notice]) -> list[dict[str, Any]]:
    """Write notices."""
    rows = [asdict(notice) for notice in written_notices(notices, system="metric", cite=keyed)]
    # What to write into the plan stands in its text.
    return [
        {key: value for key, value in row.items() if key not in {"how", "places"}} for row in rows
    ]

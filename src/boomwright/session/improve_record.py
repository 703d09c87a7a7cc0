"""What searches found, kept beside the plan, so that the book can tell it of the beam it prints.

A record belongs to the dimensions of a beam. A beam that was changed since has none, and nothing
is told of it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from boomwright.parts import Beam
from boomwright.render.json.improve import improve_document
from boomwright.session.files import OWN_RECORD, FileRefusedError, read_file, save_bytes
from boomwright.study.improve import ImproveResult

_FORMAT = 1
#: records kept, the newest ones
_KEPT = 12


def record_path(path: Path) -> Path:
    """Name the file that keeps what searches found.

    Parameters
    ----------
    path
        the plan file, e.g. ``plan.toml``
    """
    return path.with_name(f"{path.stem}.found.json")


def beam_name(beam: Beam) -> str:
    """Name a beam by what a search settles: band, metal, tubes, places and lengths."""
    tubes = [
        (each.role, round(each.position, 4),
         [(round(s.diameter, 6), round(s.wall, 6), round(s.length, 4)) for s in each.half])
        for each in beam.elements
    ]  # fmt: skip
    told = (beam.name, beam.band, beam.design_frequency, beam.material.name, tubes)
    return hashlib.sha256(repr(told).encode()).hexdigest()[:32]


def keep_record(path: Path, beam: Beam, found: Mapping[str, Any]) -> None:
    """Keep something that was found about a beam, beside what is known of it already.

    Parameters
    ----------
    found
        plain data by name: ``search``, ``compared`` or ``tolerance``

    Raises
    ------
    OSError
        when it cannot be written
    """
    records = _records(path)
    name = beam_name(beam)
    own = {**records.pop(name, {}), **found}
    newest = {**dict(list(records.items())[1 - _KEPT :]), name: own}
    document = {"boomwright_found": _FORMAT, "records": newest}
    save_bytes(record_path(path), json.dumps(document).encode())


def keep_found(path: Path, result: ImproveResult) -> None:
    """Keep all that a search found about its beam.

    Raises
    ------
    OSError
        when it cannot be written
    """
    document = improve_document(result)
    apart = {name: document.pop(name) for name in ("compared", "tolerance")}
    told = {name: value for name, value in apart.items() if value}
    keep_record(path, result.after, {"search": document, **told})


def find_record(path: Path, beam: Beam) -> dict[str, Any]:
    """Read what was found about a beam as it stands.

    Returns
    -------
    dict
        plain data by name; empty when nothing was found, or it cannot be read
    """
    found: dict[str, Any] = _records(path).get(beam_name(beam), {})
    return found


def _records(path: Path) -> dict[str, Any]:
    """All records; a file that cannot be read is as good as none, and is written anew."""
    try:
        document = json.loads(read_file(record_path(path), kind=OWN_RECORD))
        records = document["records"] if document["boomwright_found"] == _FORMAT else {}
    except (FileRefusedError, OSError, ValueError, KeyError, TypeError, RecursionError):
        return {}
    return {
        name: entry
        for name, entry in (records.items() if isinstance(records, dict) else ())
        if isinstance(entry, dict)
    }

"""The file beside the plan from which a search goes on after it was broken off."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from boomwright.design import SearchState, Wish, state_from
from boomwright.parts import Beam
from boomwright.session.files import OWN_RECORD, read_file, save_bytes
from boomwright.study.starting import RequestError

_FORMAT = 1


def checkpoint_path(path: Path) -> Path:
    """Name the file that keeps a search.

    Parameters
    ----------
    path
        the plan file, e.g. ``plan.toml``
    """
    return path.with_name(f"{path.stem}.search.json")


def search_name(*, beam: Beam, wish: Wish, frontier: bytes) -> str:
    """Name what is searched, so that no search goes on from another's state."""
    frontier_digest = hashlib.sha256(frontier).hexdigest()
    return hashlib.sha256(repr((beam, wish, frontier_digest)).encode()).hexdigest()[:32]


def save_checkpoint(path: Path, *, name: str, states: Mapping[int, SearchState]) -> None:
    """Keep a search, in one step.

    Raises
    ------
    OSError
        when it cannot be written
    """
    document = {
        "boomwright_search": _FORMAT,
        "search": name,
        "states": {str(count): state.document() for count, state in states.items()},
    }
    save_bytes(path, json.dumps(document).encode())


def load_checkpoint(path: Path, *, name: str) -> dict[int, SearchState]:
    """Read a search back.

    Raises
    ------
    RequestError
        when there is none, or it is of another search
    WishError
        when a state in it cannot be read
    FileRefusedError
        when it is no regular file
    OSError
        when it cannot be read
    """
    if not path.exists():
        message = f"{path}: no search was broken off here -> leave out --resume"
        raise RequestError(message)
    document = _document(path)
    if document.get("search") != name:
        message = (
            f"{path}: this search was for another beam or other wishes than the plan's now -> "
            "undo the change, or search anew without --resume"
        )
        raise RequestError(message)
    return {int(count): state_from(state) for count, state in document["states"].items()}


def _document(path: Path) -> dict[str, Any]:
    try:
        document = json.loads(read_file(path, kind=OWN_RECORD))
        known = document["boomwright_search"] == _FORMAT and all(
            count.isdecimal() for count in document["states"]
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        known = False
    if not known:
        message = f"{path}: this is no search of this version -> search anew without --resume"
        raise RequestError(message)
    return dict(document)

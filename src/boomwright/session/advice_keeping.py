"""What is done of a run of advice, kept in a file beside the place until the run is finished."""

from __future__ import annotations

import json
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from boomwright.base import Notice
from boomwright.session.files import OWN_RECORD, read_file, save_bytes
from boomwright.study.advice.keeping import Record
from boomwright.study.requests import RequestError

_FORMAT = 1


def unfinished_path(place: Path) -> Path:
    """Name the file that keeps an unfinished run of advice.

    Args:
        place: the place's file, e.g. ``place.toml``
    """
    return place.with_name(f"{place.stem}.advice.json")


class AdviceKeeper:
    """Keeps stations in a file as they are judged; a full disk does not end the run."""

    def __init__(self, place: Path, *, resume: bool) -> None:
        self._path = unfinished_path(place)
        self._resume = resume
        self._name = ""
        self._records: dict[str, Record] = {}
        self.notices: tuple[Notice, ...] = ()

    def kept(self, name: str) -> Mapping[str, Record]:
        """Records of an earlier run; none where it is not to be gone on with.

        Raises:
            RequestError: when there is no such run, or it was for another place, table or prices
            FileRefusedError: when it is no regular file
            OSError: when it cannot be read
        """
        self._name = name
        if not self._resume:
            return {}
        if not self._path.exists():
            raise RequestError(
                f"{self._path}: no advice was broken off here", remedy="leave out --resume"
            )
        try:
            document = json.loads(read_file(self._path, kind=OWN_RECORD))
            known = document["boomwright_advice"] == _FORMAT
            stations = {str(key): dict(record) for key, record in document["stations"].items()}
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
            known = False
        if not known:
            raise RequestError(
                f"{self._path}: this is no advice of this version", remedy="leave out --resume"
            )
        if document["place"] != name:
            raise RequestError(
                f"{self._path}: this was for the place, the table or the prices as they were then",
                remedy="leave out --resume",
            )
        self._records = stations
        return dict(stations)

    def keep(self, station: str, record: Record) -> None:
        """Keep the record of a station."""
        self._records[station] = record
        if self.notices:
            return
        document = {
            "boomwright_advice": _FORMAT,
            "place": self._name,
            "stations": self._records,
        }
        try:
            save_bytes(self._path, json.dumps(document).encode())
        except OSError as error:
            text = (
                f"What is done could not be kept in {self._path.name} ({error.strerror}), so it "
                "cannot be resumed; the advice itself is not affected."
            )
            self.notices = (Notice(code="advise.not-kept", text=text, severity="note"),)

    def finish(self) -> None:
        """Drop the file of a run that came to its end."""
        with suppress(OSError):
            self._path.unlink(missing_ok=True)

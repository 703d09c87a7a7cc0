"""Which units a plan's writer thinks in, so that answers come in the same ones."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from boomwright.base import UnitSystem
from boomwright.plan.read import parse_toml

#: long lengths tell the habit; tubes are sold in inches in metric countries too, so that
#: inches and millimetres count only where nothing else was written
_FEET = re.compile(r"\d\s*(?:ft|')(?![a-z])")
_METRES = re.compile(r"\d\s*m$")
_INCHES = re.compile(r"\d\s*(?:in|\")$")
_MILLIMETRES = re.compile(r"\d\s*[mc]m$")
#: keys whose metres name a band, in feet or not
_NAMES_BANDS = {"band", "bands"}


def written_system(text: str) -> UnitSystem:
    """Tell whether a plan was written in metric or in US units.

    Returns:
        the system that most lengths are written in; metric where they tie

    Raises:
        PlanError: when the text is no TOML
    """
    return spoken_system(_strings(parse_toml(text)))


def spoken_system(words: Iterable[str]) -> UnitSystem:
    """Tell which units a few lengths were given in.

    Returns:
        the system that most of the lengths are in; metric where they tie
    """
    written = [word.strip() for word in words]
    for us, metric in ((_FEET, _METRES), (_INCHES, _MILLIMETRES)):
        votes = [sum(bool(each.search(word)) for word in written) for each in (us, metric)]
        if votes[0] != votes[1]:
            return "us" if votes[0] > votes[1] else "metric"
    return "metric"


def _strings(value: object) -> Iterator[str]:
    """Every string of a parsed plan."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, each in value.items():
            if key not in _NAMES_BANDS:
                yield from _strings(each)
    elif isinstance(value, list):
        for each in value:
            yield from _strings(each)

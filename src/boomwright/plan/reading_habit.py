"""Which units a plan's writer thinks in, so that answers come in the same ones."""

from __future__ import annotations

import re
from collections.abc import Iterable

from boomwright.base import UnitSystem

#: long lengths tell the habit; tubes are sold in inches in metric countries too, so that
#: inches and millimetres count only where nothing else was written
_FEET = re.compile(r"\d\s*(?:ft|')(?![a-z])")
_METRES = re.compile(r"\d\s*m$")
_INCHES = re.compile(r"\d\s*(?:in|\")$")
_MILLIMETRES = re.compile(r"\d\s*[mc]m$")
#: keys whose metres name a band, in feet or not
NAMES_BANDS = {"band", "bands"}


def spoken_system(words: Iterable[str]) -> UnitSystem:
    """Tell which units most of a few lengths were given in; metric where they tie."""
    written = [word.strip() for word in words]
    for us, metric in ((_FEET, _METRES), (_INCHES, _MILLIMETRES)):
        votes = [sum(bool(each.search(word)) for word in written) for each in (us, metric)]
        if votes[0] != votes[1]:
            return "us" if votes[0] > votes[1] else "metric"
    return "metric"

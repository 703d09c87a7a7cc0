"""A direction over ground, clockwise from true north, as several tables use it."""

from __future__ import annotations

import math
from typing import Any, Final

from boomwright.plan.directions import HEADING_EXAMPLE, parse_heading
from boomwright.plan.faults import Place
from boomwright.plan.format import quantity_text
from boomwright.plan.kinds import Parsed


class Heading(Parsed):
    """A heading; a bare 0 is north, any other bare number has no unit."""

    __slots__ = ()

    def read(self, raw: Any, at: Place) -> Any:
        """Read a heading; None when at fault [rad]."""
        is_number = isinstance(raw, int | float) and not isinstance(raw, bool)
        if is_number and raw == 0:
            return 0.0
        if is_number:
            message = "a heading without a unit could be degrees or radians"
            at.fault(message, remedy=f'write it as "{HEADING_EXAMPLE}"')
            return None
        return Parsed.read(self, raw, at)


def _text(value: float) -> str:
    return quantity_text(value % math.tau, "deg", digits=14)


#: what a key that holds a heading is made of
HEADING: Final = Heading(
    parse=parse_heading,
    example=HEADING_EXAMPLE,
    pattern=r"^\s*([NESWnesw]{1,3}|[+-]?[0-9.]+\s*(deg|degrees|rad|°))\s*$",
    write=_text,
)

"""What a result says, written out for a reader of metric units."""

from __future__ import annotations

import copy
from dataclasses import fields, is_dataclass
from typing import Any

from boomwright.base.quantity import PerSystem, Phrase, Quantity, keyed, write
from boomwright.structure import StructureReport
from boomwright.structure import check_structure as check


def told(value: Any) -> Any:
    """Copy a result with every phrase and quantity in it written."""
    if isinstance(value, Phrase | PerSystem | Quantity):
        return write(value, system="metric", cite=keyed)
    if isinstance(value, tuple | list) and not hasattr(value, "_fields"):
        return type(value)(told(each) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        made = copy.copy(value)
        for each in fields(value):
            object.__setattr__(made, each.name, told(getattr(value, each.name)))
        return made
    return value


def check_structure(**given: Any) -> StructureReport:
    """Check a structure and write what it says."""
    made: StructureReport = told(check(**given))
    return made

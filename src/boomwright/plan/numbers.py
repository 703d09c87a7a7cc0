"""Kinds of number a plan field can hold: with a unit, or pure."""

from __future__ import annotations

import math
import re
from typing import Any

from boomwright.base.quantity import PerReader
from boomwright.base.records import dataclass
from boomwright.plan.faults import Place
from boomwright.plan.kinds import Leaf, Schema, wrong_type
from boomwright.plan.quantity import UNIT_ASKED, QuantityError, examples_text, parse_quantity
from boomwright.plan.units import EXAMPLES, PHYSICAL, SI_UNIT, UNITS_OF, Dimension


def _number_text(value: float) -> str:
    return f"{value:.6g}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity(Leaf):
    """A number with a unit."""

    dimension: Dimension  #: what is wanted
    low: float = -math.inf  #: limits, both allowed unless ``above_low`` [SI unit of the dimension]
    high: float = math.inf  #: limits, both allowed unless ``above_low`` [SI unit of the dimension]
    above_low: bool = False  #: whether the value must lie above ``low``, not on it

    def read(self, raw: Any, at: Place) -> float | None:
        """Read a text with unit or a plain SI number; None when at fault [SI]."""
        if not isinstance(raw, str | int | float):
            at.fault(wrong_type(raw, f"a {self.dimension}"), remedy=examples_text(self.dimension))
            return None
        try:
            value = parse_quantity(raw, self.dimension, wavelength=at.wavelength or None)
        except QuantityError as error:
            at.fault(error.message, remedy=error.remedy)
            return None
        except ValueError:  # a wavelength of NaN: its own fault is already listed
            return None
        return value if self._within(value, raw, at) else None

    def _within(self, value: float, raw: Any, at: Place) -> bool:
        unit = SI_UNIT[self.dimension]
        least, most = PHYSICAL[self.dimension]
        too_low = value <= self.low if self.above_low else value < self.low
        too_small = 0.0 < abs(value) < least
        if not too_low and not too_small and value <= min(self.high, most):
            return True
        if too_low:
            word = "greater than" if self.above_low else "at least"
            limit = self.low
        elif too_small:
            word = "at least" if self.above_low or self.low >= least else "0, or at least"
            limit = least
        else:
            word, limit = "at most", min(self.high, most)
        text = f"{_number_text(limit)} {unit}".rstrip()
        if self.dimension == "length" and 0.0 < limit < 0.01:
            text = f"{_number_text(1e3 * limit)} mm"
        message = f"the {self.dimension} must be {word} {text}"
        remedy = examples_text(self.dimension)
        if not isinstance(raw, str) and value > self.high:
            remedy = f"a number without a unit is taken in {unit}: was the unit forgotten? {remedy}"
        at.fault(message, remedy=remedy)
        return False

    def schema(self) -> Schema:
        """Text with one of the units, or a number."""
        number: Schema = {"type": "number"}
        if self.dimension in UNIT_ASKED:
            number = {"const": 0}
        elif self.above_low and self.low == 0.0:
            number["minimum"] = PHYSICAL[self.dimension][0]
        elif math.isfinite(self.low):
            number["exclusiveMinimum" if self.above_low else "minimum"] = self.low
        if self.dimension not in UNIT_ASKED:
            number["maximum"] = min(self.high, PHYSICAL[self.dimension][1])
        units = sorted(UNITS_OF[self.dimension], key=len, reverse=True)
        if self.dimension == "length":
            units.append("wl")
        any_unit = "|".join(re.escape(unit) for unit in units)
        if self.dimension == "ratio":
            any_unit += "|"
        sign = r"[+-]?\s*" if self.low < 0 else r"\+?\s*"
        text = {"type": "string", "pattern": rf"^\s*{sign}[0-9.].*?({any_unit})\s*$"}
        return {"anyOf": [text, number], "examples": list(EXAMPLES[self.dimension])}


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Leaf):
    """A pure number."""

    low: float = -math.inf  #: limits, both allowed [-]
    high: float = math.inf  #: limits, both allowed [-]
    whole: bool = False  #: whether only whole numbers will do

    def read(self, raw: Any, at: Place) -> float | None:
        """Read a TOML number; None when at fault [SI]."""
        wanted = "whole number" if self.whole else "number"
        misfit = isinstance(raw, bool) or not isinstance(raw, int if self.whole else int | float)
        remedy = f"write a {wanted}"
        if math.isfinite(self.low) and math.isfinite(self.high):
            span = f"{_number_text(self.low)} to {_number_text(self.high)}"
            remedy = f"write a {wanted} from {span}"
        if misfit:
            bare = PerReader(file=f"{remedy} without quotes", forms=remedy)
            at.fault(wrong_type(raw, f"a {wanted}"), remedy=bare)
            return None
        if not self.low <= raw <= self.high or raw != raw or abs(raw) > 1e300:
            at.fault("the number is out of range", remedy=remedy)
            return None
        return raw if self.whole else float(raw)

    def schema(self) -> Schema:
        """A JSON number within the limits."""
        schema: Schema = {"type": "integer" if self.whole else "number"}
        if math.isfinite(self.low):
            schema["minimum"] = self.low
        if math.isfinite(self.high):
            schema["maximum"] = self.high
        return schema

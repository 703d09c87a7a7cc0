"""Wind as an engineer gives it: peak pressures at heights, by whatever code rules at the site."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

from boomwright.base.quantity import Value, listed, phrase
from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError, require_not_negative, require_positive
from boomwright.structure.weather.en_wind import AIR_DENSITY
from boomwright.structure.weather.partial_factors import FactoredWind
from boomwright.structure.wording import pressure, span


@dataclass(frozen=True, slots=True, kw_only=True)
class StatedWind(FactoredWind):
    """Peak pressures that somebody answers for."""

    #: height [m] and peak pressure there [Pa], heights rising (n_points, 2)
    points: tuple[tuple[float, float], ...]
    by: str  #: who gave them, and when
    code: str  #: by which code
    given_factored: bool = False  #: whether the factor on wind is in them already

    def __post_init__(self) -> None:
        if not self.points:
            msg = "no pressure is given: write at least one height with its pressure"
            raise StructureInputError(msg)
        for height, value in self.points:
            require_not_negative(place="height of a stated pressure", value=height, unit="m")
            require_positive(place="stated pressure", value=value, unit="Pa")
        for (low, _), (high, _) in pairwise(self.points):
            if not high > low:
                msg = f"a pressure at {high:g} m follows one at {low:g} m: let the heights rise"
                raise StructureInputError(msg)
        if not (self.by and self.code):
            msg = "stated pressures need the name of who gave them and the code they are by"
            raise StructureInputError(msg)

    @property
    def topography(self) -> float:
        """Hill on the pressure: whoever gave the pressures has seen to it [-]."""
        return 1.0

    @property
    def gust(self) -> float:
        """Speed at 10 m that gives the stated pressure in standard air [m/s]."""
        lowest, highest = self.points[0][0], self.points[-1][0]
        return sqrt(2.0 * self.pressure(min(max(10.0, lowest), highest)) / AIR_DENSITY)

    @property
    def text(self) -> Value:
        """The basis in one line, to stand beside every figure."""
        stated = listed(
            [
                phrase("{value} at {height}", value=pressure(value), height=span(height))
                for height, value in self.points
            ]
        )
        given = "factored" if self.given_factored else "unfactored"
        return phrase(
            "{kind} wind, {given} peak pressure {stated}, {code}, by {by}{factor}", kind=self.kind,
            given=given, stated=stated, code=self.code, by=self.by, factor=self.factor_text,
        )  # fmt: skip

    def pressure(self, height: float) -> float:
        """Peak pressure, without the factor on wind [Pa].

        Below the lowest height its pressure stands; between two it grows evenly.

        Raises:
            StructureInputError: above the highest height, where nobody has said anything
        """
        divided = self.factors.wind if self.given_factored else 1.0
        points = self.points
        if height <= points[0][0]:
            return points[0][1] / divided
        for (low, less), (high, more) in pairwise(points):
            if height <= high:
                return (less + (more - less) * (height - low) / (high - low)) / divided
        if height <= points[-1][0] * (1.0 + 1e-9):
            return points[-1][1] / divided
        said = phrase(
            "the stated pressures end at {last}, and the station reaches {height}: ask {by} for "
            "the pressure there", last=span(points[-1][0]), height=span(height), by=self.by,
        )  # fmt: skip
        raise StructureInputError(said)

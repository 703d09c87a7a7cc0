"""A new plan from a few wishes, and reading quantities as people type them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

from boomwright.base import BoomwrightError, UnitSystem
from boomwright.base.records import dataclass
from boomwright.plan import QuantityError, parse_quantity, read_plan, rewrite, starter_plan
from boomwright.plan.bands import Region
from boomwright.plan.read import parse_toml


class RequestError(BoomwrightError):
    """A request that cannot be met, with its value and the remedy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a person says before there is a plan, as typed."""

    band: str  #: amateur band, such as ``20 m``
    further_bands: tuple[str, ...] = ()  #: bands that share a frame of wire with it (n_bands,)
    elements: int = 3  #: number of elements
    shape: str = ""  #: shape of wire, such as ``hexagon``, or empty for a beam of tubes
    boom: str = ""  #: longest boom with its unit, or empty for no limit
    height: str = ""  #: boom above ground with its unit, or empty for a usual one
    heading: float = 0.0  #: direction of fire in degrees, clockwise from true north [deg]
    ground: str = "medium dry"  #: ground class, such as ``medium dry``
    position: str = ""  #: latitude and longitude or locator, or empty
    title: str = ""  #: title of the plan, or empty for one made from the band
    region: Region = 1  #: ITU region, for the edges of the band
    system: UnitSystem = "metric"  #: units the plan is written in

    @property
    def for_writer(self) -> dict[str, Any]:
        """What every first plan is written from, under the names that its writers have for it.

        Raises:
            RequestError: when the height cannot be read
        """
        return {
            "band": self.band,
            "height": read_quantity(self.height, "length", noun="height") if self.height else None,
            "heading_deg": self.heading,
            "ground": self.ground,
            "position": self.position,
            "title": self.title,
            "units": self.system,
            "region": self.region,
        }


def starter_text(wishes: Wishes) -> str:
    """Write a plan by the trade's first guess, with so many elements on such a boom."""
    boom = read_quantity(wishes.boom, "length", noun="boom") if wishes.boom else None
    return first_guess(wishes, elements=wishes.elements, boom=boom)


def first_guess(wishes: Wishes, *, elements: int, boom: float | None) -> str:
    """Write a plan by the trade's first guess.

    Args:
        boom: longest boom; None for no limit [m]

    Raises:
        RequestError: when a wish cannot be read or met
    """
    try:
        return starter_plan(**wishes.for_writer, element_count=elements, boom_limit=boom)
    except QuantityError as error:
        raise RequestError(error.message, remedy=error.remedy) from None


def read_frequencies(texts: Sequence[str]) -> tuple[float, ...]:
    """Read frequencies as people write them [Hz].

    Args:
        texts: each with its unit, such as ``14.175 MHz``
    """
    return tuple(read_quantity(text, "frequency", noun="frequency") for text in texts)


def read_resistance(text: str) -> float:
    """Read a resistance as people write it [ohm].

    Args:
        text: with or without its unit, such as ``50`` or ``50 ohm``
    """
    try:
        return float(text)
    except ValueError:
        return read_quantity(text, "resistance", noun="reference resistance")


def read_quantity(
    text: str, dimension: Literal["length", "frequency", "resistance"], *, noun: str
) -> float:
    """Read a quantity as people write it [SI unit of the dimension].

    Args:
        noun: what it is for, said when it cannot be read

    Raises:
        RequestError: when it has no unit or one of another dimension
    """
    try:
        return parse_quantity(text, dimension)
    except QuantityError as error:
        raise RequestError(f"{noun}: {error.message} ({text})", remedy=error.remedy) from None


def with_further_beam(text: str, new: str) -> str:
    """Append the beam of a new plan to a plan; what stands in the plan stays as it is.

    Whatever else the new plan has, site, line and supports, the plan has of its own.
    """
    plan = read_plan(text)
    (beam,) = parse_toml(new)["beam"]
    names = {each.name for each in plan.beams}
    name, number = beam["name"], 2
    while name in names:
        name, number = f"{beam['name']} {number}", number + 1
    # What was about the one beam there was says so from now on.
    own = parse_toml(text.removeprefix("\ufeff"))
    about = {f"{word}.beam": plan.beams[0].name for word in ("wish", "measured")
             if len(plan.beams) == 1 and "beam" not in own.get(word, {"beam": ""})}  # fmt: skip
    changed = rewrite(text, about | {f"beam[{len(plan.beams)}]": {**beam, "name": name}})
    read_plan(changed)
    return changed

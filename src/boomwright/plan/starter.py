"""A starter plan by the trade's first guess, to be computed and improved from there."""

from __future__ import annotations

import json
import math

from boomwright.base import SPEED_OF_LIGHT, UnitSystem, feet_inches_sixteenths
from boomwright.base.quantity_text import quantity_text
from boomwright.base.unit_text import inches_sixteenths
from boomwright.plan.bands import Region, band_edges
from boomwright.plan.directions import checked_locator, parse_position, where_key
from boomwright.plan.format import default_unit, stepped_text
from boomwright.plan.kinds import nearest
from boomwright.plan.quantity import QuantityError
from boomwright.plan.tables.root import PLAN_VERSION
from boomwright.solver import GROUND_CLASSES

# The trade's first guess for a beam of plain tube about a thousandth of a wavelength thick
# {common-practice-first-guess}: lengths in wavelengths and as parts of the driven element.
_DRIVEN_WL = 0.473
_REFLECTOR_PART = 1.05
_DIRECTOR_PART = 0.95
_SPACING_WL = 0.15
_TIGHTEST_WL = 0.04
_DIAMETER_WL = 0.0012

_MOST_ELEMENTS = 40

#: remark above such a plan
FIRST_GUESS = (
    "# A first guess, not computed yet: driven element 0.473 wavelengths (the usual figure for\n"
    "# tube of one diameter), reflector 5 % longer, directors 5 % shorter, spaced evenly.\n"
    "# Elements of telescoping tube come out about 1 to 2 % longer: give them as\n"
    '# half = [["diameter", "exposed length"], ...] from the boom outwards, and compute again.\n'
)


def _text(value: str) -> str:
    return json.dumps(value, ensure_ascii=False)


def checked_band(
    band: str | tuple[float, float], design: float | None, region: Region
) -> tuple[float, float, float]:
    """Edges of a band and the design frequency in it [Hz] (3,).

    Args:
        band: amateur band such as ``20 m``, or lowest and highest frequency [Hz]
        design: design frequency; None for the middle of the band [Hz]

    Raises:
        QuantityError: when there is none
    """
    low, high = band_edges(band, region=region) if isinstance(band, str) else band
    if not (math.isfinite(low) and math.isfinite(high) and 0 < low < high):
        message = "the band must run from a lower to a higher frequency"
        raise QuantityError(message, 'give a band such as "20 m", or two frequencies')
    centre = (low + high) / 2 if design is None else design
    if not low <= centre <= high:
        message = f"the design frequency {centre / 1e6:.6g} MHz lies outside the band"
        raise QuantityError(message, f"give one from {low / 1e6:.6g} to {high / 1e6:.6g} MHz")
    return low, high, centre


def _spacing(count: int, boom_limit: float | None, wavelength: float) -> float:
    if not 2 <= count <= _MOST_ELEMENTS:
        message = f"{count} elements were asked for"
        raise QuantityError(message, f"ask for 2 to {_MOST_ELEMENTS} elements")
    spacing = _SPACING_WL * wavelength
    if boom_limit is None:
        return spacing
    if not math.isfinite(boom_limit):
        raise QuantityError("the boom limit is not a finite length", "give it in metres, or none")
    spacing = min(spacing, boom_limit / (count - 1))
    if spacing < _TIGHTEST_WL * wavelength:
        needed = _TIGHTEST_WL * wavelength * (count - 1)
        message = f"a boom of {boom_limit:.2f} m is too short for {count} elements"
        raise QuantityError(message, f"allow {needed:.2f} m or more, or take fewer elements")
    return spacing


class PlanWriter:
    """Quantities in the reader's units, as TOML strings."""

    def __init__(self, units: UnitSystem) -> None:
        self.units = units

    def length(self, value: float) -> str:
        """Length to the millimetre or the sixteenth of an inch.

        Args:
            value: [m]
        """
        if self.units == "us" and value:
            return json.dumps(feet_inches_sixteenths(value))
        unit = default_unit(value, "length")
        return json.dumps(stepped_text(round(value, 3), unit, dimension="length"))

    def diameter(self, value: float) -> str:
        """Diameter of a tube or width of a gap.

        Args:
            value: [m]
        """
        if self.units == "us":
            return json.dumps(inches_sixteenths(value))
        return json.dumps(stepped_text(round(value, 4), "mm", dimension="length"))

    def wire(self, value: float) -> str:
        """Diameter of a wire or thickness of a wall, to the hundredth.

        Args:
            value: [m]
        """
        if self.units == "us":
            return json.dumps(f"{value / 0.0254:.3f} in")
        return json.dumps(stepped_text(round(value, 5), "mm", dimension="length"))

    def force(self, value: float) -> str:
        """Force to the newton or the pound-force.

        Args:
            value: [N]
        """
        return json.dumps(quantity_text(value, unit="N", system=self.units, form=".0f"))

    @staticmethod
    def frequency(value: float) -> str:
        """Frequency in megahertz.

        Args:
            value: [Hz]
        """
        return json.dumps(stepped_text(value, "MHz", dimension="frequency"))


def _element_lines(
    count: int, spacing: float, wavelength: float, diameter: float, write: PlanWriter
) -> list[str]:
    driven = _DRIVEN_WL * wavelength
    parts = [("reflector", _REFLECTOR_PART), ("driven", 1.0)]
    parts += [("director", _DIRECTOR_PART)] * (count - 2)
    lines: list[str] = []
    for index, (role, part) in enumerate(parts):
        lines += [
            "",
            "  [[beam.element]]",
            f'  role = "{role}"',
            f"  at = {write.length(index * spacing)}",
            f"  diameter = {write.diameter(diameter)}",
            f"  length = {write.length(part * driven)}",
        ]
    return lines


def site_lines(ground: str, position: str) -> list[str]:
    """Open the site.

    Raises:
        QuantityError: unknown ground, or a position that cannot be read
    """
    if ground not in GROUND_CLASSES:
        close = nearest(ground, GROUND_CLASSES)
        message = "this ground is not known"
        listed = ", ".join(GROUND_CLASSES)
        remedy = f'did you mean "{close}"? ' if close else ""
        raise QuantityError(message, f"{remedy}write one of {listed}")
    lines = ["[site]"]
    if position:
        key = where_key(position)
        if key == "locator":
            checked_locator(position)
        else:
            parse_position(position)
        lines.append(f"{key} = {_text(position)}")
    return [*lines, f"ground = {_text(ground)}"]


def band_lines(
    name: str,
    frequencies: tuple[float, float, float],
    height: float,
    heading_deg: float,
    write: PlanWriter,
) -> list[str]:
    """Open a beam: its name, band, height and heading.

    Args:
        frequencies: edges of the band, then the design frequency [Hz] (3,)
        height: boom above ground [m]
        heading_deg: direction of fire, clockwise from true north [deg]
    """
    low, high, centre = frequencies
    return [
        "[[beam]]",
        f"name = {_text(name)}",
        "# Band edges differ by ITU region, country and licence: check your own first.",
        f"band = [{write.frequency(low)}, {write.frequency(high)}]",
        f"design = {write.frequency(centre)}",
        f"height = {write.length(height)}  # boom above ground",
        f'heading = "{heading_deg:.10g} deg"  # clockwise from true north',
    ]


def starter_plan(
    *,
    band: str | tuple[float, float],
    design: float | None = None,
    element_count: int = 3,
    boom_limit: float | None = None,
    title: str = "",
    name: str = "",
    height: float | None = None,
    heading_deg: float = 0.0,
    ground: str = "medium dry",
    position: str = "",
    material: str = "6061-T6",
    units: UnitSystem = "metric",
    region: Region = 1,
) -> str:
    """Write a starter plan by the trade's first guess {common-practice-first-guess}.

    Args:
        band: amateur band such as ``20 m``, or lowest and highest frequency [Hz]
        design: design frequency; None for the middle of the band [Hz]
        boom_limit: longest boom; None for no limit [m]
        title: title; empty for one made from the band
        name: name of the beam; empty for the band
        height: boom above ground; None for half a wavelength, but 8 m at least [m]
        heading_deg: direction of fire, clockwise from true north [deg]
        ground: ground class, e.g. ``medium dry``
        position: latitude and longitude as the plan writes them, or empty
        units: ``metric`` or ``us``
    """
    low, high, centre = checked_band(band, design, region)
    wavelength = SPEED_OF_LIGHT / centre
    spacing = _spacing(element_count, boom_limit, wavelength)
    label = band.strip() if isinstance(band, str) else f"{centre / 1e6:.6g} MHz"
    write = PlanWriter(units)
    boom_height = max(8.0, round(wavelength / 2, 1)) if height is None else height
    gap = min(0.04, round(0.01 * wavelength, 3))
    diameter = round(min(0.025, max(0.005, _DIAMETER_WL * wavelength)), 3)
    lines = [
        FIRST_GUESS,
        f"boomwright = {PLAN_VERSION}",
        f"title = {_text(title or f'{element_count} elements for {label}')}",
        "",
        *site_lines(ground, position),
        "",
        *band_lines(name or label, (low, high, centre), boom_height, heading_deg, write),
        f"material = {_text(material)}",
        f'feed = {{ kind = "split", gap = {write.diameter(gap)} }}',
        "# A metal boom makes elements act shorter. Say how they are held, for instance:",
        f'# mount = {{ kind = "insulated above", boom = [{write.diameter(2.0 * diameter)}], '
        f"clearance = {write.diameter(0.5 * diameter)} }}",
        *_element_lines(element_count, spacing, wavelength, diameter, write),
    ]
    return "\n".join(lines) + "\n"

"""What the Waves sheet shows, field by field."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareRow:
    """One element's part of the wave."""

    label: str = field(metadata=helped("Role, numbered when there are several."))
    role: str = field(metadata=helped("reflector, driven, director or wires."))
    sentence: str = field(metadata=helped("What its current and its wave do, in one sentence."))


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldGrid:
    """The complex field on a grid, one layer for each share."""

    along: tuple[float, float, int] = field(
        metadata=helped("First and last place along the heading in metres, and their number.")
    )
    across: tuple[float, float, int] = field(
        metadata=helped("First and last place sideways or upwards in metres, and their number.")
    )
    places: tuple[float, ...] = field(
        metadata=helped("Places of the elements along the boom in metres.")
    )
    full_colour: float = field(metadata=helped("Field strength painted with full colour, V/m."))
    values: str = field(
        metadata=helped(
            "Peak field in V/m, base64 of little-endian 32-bit numbers: for each share, row by "
            "row from the lowest, real and imaginary part in turn."
        )
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """Gain in all directions and the beam it belongs to."""

    azimuth_deg: tuple[float, ...] = field(
        metadata=helped("Azimuths, counter-clockwise from the heading.")
    )
    elevation_deg: tuple[float, ...] = field(metadata=helped("Elevations."))
    gain_dbi: tuple[tuple[float, ...], ...] = field(
        metadata=helped("Gain in dBi, one row for each elevation.")
    )
    elements: tuple[tuple[float, float, str], ...] = field(
        metadata=helped("Place along the boom and half length in metres, and role.")
    )
    wavelength: float = field(metadata=helped("Wavelength in metres."))


@dataclass(frozen=True, slots=True, kw_only=True)
class WavesContext:
    """Everything the Waves sheet shows."""

    sentence: str = field(metadata=helped("How the waves add up, in one sentence."))
    shares: tuple[ShareRow, ...] = field(metadata=helped("The elements' parts, in plan order."))
    figures: dict[str, str] = field(
        metadata=helped("SVG of what stands around each moving picture, by name.")
    )
    grids: dict[str, FieldGrid] = field(metadata=helped("The field of each moving picture."))
    solid: Solid | None = field(metadata=helped("The pattern in space; none until computed."))
    power: float = field(metadata=helped("Power at the feed the fields hold for, in watts."))

"""What the Beam sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from dataclasses import dataclass, field

from boomwright.base import Fault, Notice
from boomwright.web.pictures import Key
from boomwright.web.readout import Readout
from boomwright.web.service import Saving


def helped(text: str) -> dict[str, str]:
    """Attach the help text of a context field.

    Parameters
    ----------
    text
        one sentence [-]

    Returns
    -------
    dict[str, str]
        field metadata [-]
    """
    return {"help": text}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLink:
    """A sheet in the frame's row of sheets."""

    noun: str = field(metadata=helped("The trade's noun for the subject."))
    address: str = field(metadata=helped("Path of the sheet."))
    current: bool = field(metadata=helped("Whether it is the sheet shown."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Slider:
    """A value that is pulled or typed."""

    value: float = field(metadata=helped("Value in SI."))
    low: float = field(metadata=helped("Left end in SI."))
    high: float = field(metadata=helped("Right end in SI."))
    step: float = field(metadata=helped("Step of an arrow key in SI."))
    text: str = field(metadata=helped("Value with its unit, as it may be typed."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A typed value with its unit."""

    place: str = field(metadata=helped("Dotted place in the plan file."))
    label: str = field(metadata=helped("What a screen reader calls it."))
    text: str = field(metadata=helped("Value with its unit, in the units shown."))


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementRow:
    """One element in the table of dimensions."""

    label: str = field(metadata=helped("Role, numbered when there are several."))
    role: str = field(metadata=helped("reflector, driven or director."))
    position: float = field(metadata=helped("Place along the boom in metres."))
    length: float = field(metadata=helped("Length from tip to tip in metres."))
    at: Field = field(metadata=helped("Place along the boom."))
    tip_to_tip: Field = field(metadata=helped("Length from tip to tip."))
    tubes: tuple[tuple[Field, Field], ...] = field(
        metadata=helped("Diameter and exposed length of each tube of a half, from the boom out.")
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The numbers behind a figure."""

    caption: str = field(metadata=helped("What the table holds."))
    columns: tuple[str, ...] = field(metadata=helped("Headings with units."))
    rows: tuple[tuple[str, ...], ...] = field(metadata=helped("Cells as text, row by row."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Download:
    """A file made from the plan."""

    label: str = field(metadata=helped("What the file is."))
    address: str = field(metadata=helped("Path it is fetched from."))


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamContext:
    """Everything the Beam sheet shows."""

    sheet: str = field(metadata=helped("Noun of this sheet."))
    sheets: tuple[SheetLink, ...] = field(metadata=helped("All sheets, in the order of the job."))
    title: str = field(metadata=helped("Owner's title of the plan."))
    file_name: str = field(metadata=helped("Name of the plan file, without a folder."))
    beam: int = field(metadata=helped("Number of the beam shown, from 0."))
    beams: tuple[str, ...] = field(metadata=helped("Names of all beams of the plan."))
    system: str = field(metadata=helped("Units shown: metric or us."))
    revision: int = field(metadata=helped("Number that grows with every change of the plan."))
    numbers: tuple[Readout, ...] = field(
        metadata=helped("Gain, front-to-back, SWR across the band and take-off angle, with bands.")
    )
    frequency: Slider = field(metadata=helped("Frequency looked at, in Hz; not part of the plan."))
    height: Slider = field(metadata=helped("Boom above ground, in metres."))
    elements: tuple[ElementRow, ...] = field(metadata=helped("Dimensions, in plan order."))
    figures: dict[str, str] = field(
        metadata=helped("SVG by name; those of the whole band are absent until computed.")
    )
    keys: dict[str, tuple[Key, ...]] = field(
        metadata=helped("What the curves of the round figures are, by figure.")
    )
    tables: dict[str, Table] = field(metadata=helped("Numbers behind the figures, by name."))
    notices: tuple[Notice, ...] = field(metadata=helped("Doubts and cautions."))
    faults: tuple[Fault, ...] = field(metadata=helped("Why something could not be computed."))
    saving: Saving = field(metadata=helped("Whether the plan is in its file."))
    undo_label: str = field(metadata=helped("What undo takes back, or empty."))
    redo_label: str = field(metadata=helped("What redo does again, or empty."))
    downloads: tuple[Download, ...] = field(metadata=helped("Files made from the plan."))

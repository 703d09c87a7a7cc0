"""What stands around every sheet, field by field: sheets, plan view, four numbers, saving."""

from __future__ import annotations

from typing import Any, Literal

from boomwright.base import Fault, VerdictWord
from boomwright.base.records import dataclass, field
from boomwright.web.readout import Readout
from boomwright.web.saving import Saving
from boomwright.web.sheets.context_parts import Field, Slider, helped

MarkState = Literal["done", "doubtful", "missing"] | VerdictWord


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How far a sheet's subject has come, or what of it stands against the plan."""

    state: MarkState = field(
        metadata=helped("done, doubtful or missing; the verdict where it is not within.")
    )
    text: str = field(metadata=helped("Why, in a few words."))
    tally: str = field(default="", metadata=helped("How many checks have that verdict, or empty."))


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLink:
    """A sheet in the frame's row of sheets."""

    noun: str = field(metadata=helped("The trade's noun for the subject."))
    address: str = field(metadata=helped("Path of the sheet."))
    current: bool = field(metadata=helped("Whether it is the sheet shown."))
    mark: Mark | None = field(
        metadata=helped("How far its subject is; none for tools of the page.")
    )


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
class Download:
    """A file made from the plan."""

    label: str = field(metadata=helped("What the file is."))
    address: str = field(metadata=helped("Path it is fetched from."))


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictLine:
    """An exceeded check."""

    text: str = field(metadata=helped("What it is, its share of the limit, what to change."))
    noun: str = field(metadata=helped("Noun of the sheet that shows it."))
    address: str = field(metadata=helped("Path of that sheet."))


@dataclass(frozen=True, slots=True, kw_only=True)
class VerdictContext:
    """The one verdict of the plan."""

    revision: int | None = field(
        metadata=helped("State of the plan it belongs to; none while it is being checked.")
    )
    word: str = field(
        metadata=helped("exceeded, not checked, ask or within; empty while being checked.")
    )
    text: str = field(metadata=helped("The verdict in one line, with its counts."))
    exceeded: tuple[VerdictLine, ...] = field(metadata=helped("Every exceeded check, worst first."))
    open: str = field(metadata=helped("What is not checked or to be asked, counted by subject."))


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameContext:
    """Everything around a sheet that is the same on all of them."""

    sheet: str = field(metadata=helped("Noun of this sheet."))
    sheets: tuple[SheetLink, ...] = field(metadata=helped("All sheets, in the order of the job."))
    title: str = field(metadata=helped("Owner's title of the plan."))
    verdict: VerdictContext = field(metadata=helped("The one verdict of the plan."))
    file_name: str = field(metadata=helped("Name of the plan file, without a folder."))
    beam: int = field(metadata=helped("Number of the beam shown, from 0."))
    beams: tuple[str, ...] = field(metadata=helped("Names of all beams of the plan."))
    system: str = field(metadata=helped("Units shown: metric or us."))
    revision: int = field(metadata=helped("Number that grows with every change of the plan."))
    numbers: tuple[Readout, ...] = field(
        metadata=helped("Gain, front-to-rear, SWR, take-off: as measured where that is known.")
    )
    bands: tuple[tuple[str, str], ...] = field(
        metadata=helped("Further bands of the beam, as measured where that is known.")
    )
    frequency: Slider = field(metadata=helped("Frequency looked at, in Hz; not part of the plan."))
    height: Slider = field(metadata=helped("Boom above ground, in metres."))
    elements: tuple[ElementRow, ...] = field(metadata=helped("Dimensions, in plan order."))
    plan_view: str = field(metadata=helped("SVG of the beam seen from above, to scale."))
    mast_view: str = field(metadata=helped("SVG of all beams from above; empty for one beam."))
    faults: tuple[Fault, ...] = field(metadata=helped("Why something could not be computed."))
    saving: Saving = field(metadata=helped("Whether the plan is in its file."))
    undo_label: str = field(metadata=helped("What undo takes back, or empty."))
    redo_label: str = field(metadata=helped("What redo does again, or empty."))
    downloads: tuple[Download, ...] = field(metadata=helped("Files made from the plan."))
    lesson: dict[str, Any] | None = field(
        metadata=helped(
            "Step of the lesson the plan belongs to: title, number, count, say, do, look, beam, "
            "and at its end what to try and the next lesson."
        )
    )

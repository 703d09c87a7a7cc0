"""Collecting faults: every place of the plan knows its path and where to report."""

from __future__ import annotations

import json
import re
from functools import cached_property

from boomwright.base import Fault, UnitSystem
from boomwright.base.quantity import InPlan, PerReader, Phrase, Value, phrase
from boomwright.base.records import dataclass
from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.plan.layout import Layout, Path
from boomwright.plan.reading_habit import NAMES_BANDS, spoken_system

_SHOWN = 60
_BARE = re.compile(r"[A-Za-z0-9_-]{1,40}")
_STEP = re.compile(r"\.([A-Za-z0-9_-]+)|\[([0-9]{1,6})\]")


def path_text(path: Path) -> str:
    """Write a path such as ``beam[0].element[2].length``; ``plan`` for the root."""
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step}]"
        else:
            shown = step if _BARE.fullmatch(step) else json.dumps(step[:40])
            text += f".{shown}" if text else shown
    return text or "plan"


def split_path(text: str) -> Path | None:
    """Read a path written with dots and brackets; None when this is no path.

    Args:
        text: for instance ``beam[0].element[2].length``
    """
    dotted = f".{text}"
    steps = list(_STEP.finditer(dotted))
    if not steps or "".join(step[0] for step in steps) != dotted or steps[0][1] is None:
        return None
    return tuple(step[1] if step[1] is not None else int(step[2]) for step in steps)


def shown(text: str) -> str:
    """Shorten a value as written and hide what does not print."""
    line = " ".join(text[: 2 * _SHOWN].split())
    printable = "".join(ch if ch.isprintable() else "\ufffd" for ch in line)
    return f"{printable[:_SHOWN]}..." if len(printable) > _SHOWN else printable


def key_words(key: str) -> str:
    """Write a key as words."""
    return key.replace("_", " ")


def written(key: str, value: str = "") -> PerReader:
    """Name a key, and what to write there, as a file and as a form has it.

    Args:
        key: dotted where it is in a table of its own
        value: as the file has it, text in quotes; empty for the key alone
    """
    file = f"{key} = {value}" if value else key
    return PerReader(file=file, forms=" ".join((key_words(key), value.strip('"'))).rstrip())


def table_named(name: str, *, many: bool = False) -> PerReader:
    """Name a table as a file and as a form has it.

    Args:
        name: dotted name
        many: whether the plan may have several
    """
    last = key_words(name.rpartition(".")[2])
    return PerReader(file=str(InPlan(name, many=many)), forms=f"the {last}")


def write_one(key: str, options: str) -> Phrase:
    """Ask for one of several values of a key: ``write kind = "split" or "gamma"``."""
    return phrase("write {it}", it=written(key, options))


class FaultList:
    """Faults in the order found, each with line and value taken from the text.

    Args:
        layout: places in the text
    """

    def __init__(self, layout: Layout) -> None:
        self._layout = layout
        self._faults: dict[Fault, None] = {}

    @cached_property
    def system(self) -> UnitSystem:
        """The units that most lengths of the text are written in."""
        layout = self._layout
        written = [layout.written(path) for path in layout.spans if not NAMES_BANDS & {*path}]
        return spoken_system(each[1:-1] for each in written if each[:1] in {'"', "'"})

    def add(self, path: Path, message: Value, remedy: Value, *, missing: bool = False) -> None:
        """Note one fault."""
        fault = Fault(
            path=path_text(path),
            message=message,
            value=shown(self._layout.written(path)),
            remedy=remedy,
            line=self._layout.line(path),
            missing=missing,
        )
        self._faults[fault] = None

    def sorted(self) -> tuple[Fault, ...]:
        """Faults from the top of the text down."""
        return tuple(sorted(self._faults, key=lambda fault: fault.line or 10**9))


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place of the plan while it is being read."""

    faults: FaultList  #: where to report
    path: Path = ()  #: keys and indices from the root
    #: what ``wl`` means here; None where it has no meaning, NaN where the design frequency that
    #: would tell is itself at fault [m]
    wavelength: float | None = None

    def child(self, *steps: str | int) -> Place:
        """Go to a key or index below."""
        return Place(faults=self.faults, path=(*self.path, *steps), wavelength=self.wavelength)

    def far(self, length: float) -> str:
        """Write a length in metres, or in feet where the plan is in those."""
        us = self.faults.system == "us"
        return f"{length / (12.0 * METRES_PER_INCH):.5g} ft" if us else f"{length:g} m"

    def wide(self, length: float) -> str:
        """Write a length in millimetres, or in inches where the plan is in those."""
        us = self.faults.system == "us"
        return f"{length / METRES_PER_INCH:.4g} in" if us else f"{1e3 * length:.4g} mm"

    def fault(self, message: Value, *, remedy: Value, missing: bool = False) -> None:
        """Report a fault here; ``missing`` where nothing is written."""
        self.faults.add(self.path, message, remedy, missing=missing)

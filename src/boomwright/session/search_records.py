"""What searches found, kept beside the plan, so that page and book can tell it of the beam.

A record belongs to the dimensions of a beam. A beam that was changed since has none, and nothing
is told of it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.files import FileRefusedError
from boomwright.charts import ShownSubject
from boomwright.charts.beam.spacing_comparison import SpacingCurves
from boomwright.design import Allowance, Spread, Tolerance
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.render.json.improve import improve_document
from boomwright.report.improve.found import (
    WORST,
    Found,
    FoundBeam,
    FoundCount,
    FoundElement,
    FoundSearch,
    Worst,
)
from boomwright.session.files import OWN_RECORD, read_file, save_bytes
from boomwright.solver import PatternCut
from boomwright.study.improve import ImproveResult

if TYPE_CHECKING:
    from boomwright.report.model import Canvas

_FORMAT = 1
#: records kept, the newest ones
_KEPT = 12


def record_path(path: Path) -> Path:
    """Name the file that keeps what searches found."""
    return path.with_name(f"{path.stem}.found.json")


def beam_name(beam: Beam) -> str:
    """Name a beam by what a search settles: band, metal, tubes, places and lengths."""
    tubes = [
        (each.role, round(each.position, 4),
         [(round(s.diameter, 6), round(s.wall, 6), round(s.length, 4)) for s in each.half])
        for each in beam.elements
    ]  # fmt: skip
    told = (beam.name, beam.band, beam.design_frequency, beam.material.name, tubes)
    return hashlib.sha256(repr(told).encode()).hexdigest()[:32]


def keep_record(path: Path, beam: Beam, found: Mapping[str, Any]) -> None:
    """Keep something that was found about a beam, beside what is known of it already.

    Args:
        found: plain data by name: ``search``, ``compared`` or ``tolerance``

    Raises:
        OSError: when it cannot be written
    """
    records = _records(path)
    name = beam_name(beam)
    own = {**records.pop(name, {}), **found}
    newest = {**dict(list(records.items())[1 - _KEPT :]), name: own}
    document = {"boomwright_found": _FORMAT, "records": newest}
    save_bytes(record_path(path), json.dumps(document).encode())


def keep_found(path: Path, result: ImproveResult) -> None:
    """Keep all that a search found about its beam.

    Raises:
        OSError: when it cannot be written
    """
    document = improve_document(result)
    apart = {name: document.pop(name) for name in ("compared", "tolerance")}
    told = {name: value for name, value in apart.items() if value}
    keep_record(path, result.after, {"search": document, **told})


def find_record(path: Path, beam: Beam) -> Found:
    """Read what was found about a beam as it stands; what cannot be read was not found."""
    kept = _records(path).get(beam_name(beam), {})
    try:
        return Found(
            search=_search(kept["search"]) if "search" in kept else None,
            compared=tuple(map(_curves, kept.get("compared", ()))),
            tolerance=_tolerance(kept["tolerance"]) if kept.get("tolerance") else None,
        )
    except (KeyError, TypeError, ValueError, IndexError, AttributeError):
        return Found()


def shown_record(path: Path, beam: Beam, *, canvas: Canvas) -> ShownSubject | None:
    """Draw what was found about a beam as it stands; None when nothing was."""
    from boomwright.render.laid import lay_out
    from boomwright.report.improve import found_report

    found = find_record(path, beam)
    if found == Found():
        return None
    return lay_out(found_report(found, name=beam.name), canvas=canvas)


def found_for_book(
    plan: Plan, *, path: Path | None, system: UnitSystem
) -> tuple[ShownSubject, ...]:
    """Draw what was found of every beam as it stands, in the colours of print.

    Args:
        path: its file, beside which it is kept; None when there is none
    """
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.report.model import Canvas

    if path is None:
        return ()
    canvas = Canvas(palette=PRINT_PALETTE, system=system)
    shown = (shown_record(path, beam, canvas=canvas) for beam in plan.beams)
    return tuple(each for each in shown if each is not None)


def _records(path: Path) -> dict[str, Any]:
    """All records; a file that cannot be read is as good as none, and is written anew."""
    try:
        document = json.loads(read_file(record_path(path), kind=OWN_RECORD))
        records = document["records"] if document["boomwright_found"] == _FORMAT else {}
    except (FileRefusedError, OSError, ValueError, KeyError, TypeError, RecursionError):
        return {}
    return {
        name: entry
        for name, entry in (records.items() if isinstance(records, dict) else ())
        if isinstance(entry, dict)
    }


def _search(kept: Mapping[str, Any]) -> FoundSearch:
    return FoundSearch(
        seed=kept["seed"],
        finished=kept["finished"],
        wish=tuple(kept["wish"]),
        before=_beam(kept["before"]),
        after=_beam(kept["after"]),
        counts=tuple(
            FoundCount(
                boom=one["boom_m"],
                worst=_worst(one["worst"]),
                **{name: one[name] for name in ("elements", "kept", "starts", "agreeing")},
            )
            for one in kept["searches"]
        ),
        chosen=kept["chosen"],
    )


def _beam(kept: Mapping[str, Any]) -> FoundBeam:
    elements = tuple(
        FoundElement(
            role=each["role"], at=each["at_m"], length=each["length_m"], tip=each.get("tip_m")
        )
        for each in kept["elements"]
    )
    return FoundBeam(elements=elements, boom=kept["boom_m"], worst=_worst(kept["worst"]))


def _worst(kept: Mapping[str, float]) -> Worst:
    gain, back, rear, swr = (kept[name] for name in WORST)
    return gain, back, rear, swr


def _curves(kept: Mapping[str, Any]) -> SpacingCurves:
    return SpacingCurves(
        spacing=kept["spacing"],
        places=tuple(kept["at_m"]),
        worst=_worst(kept["worst"]),
        kept=kept["kept"],
        frequencies=np.array(kept["frequency_hz"]),
        gain_dbi=np.array(kept["gain_dbi"]),
        swr=np.array(kept["swr"]),
        azimuth=PatternCut(
            plane="azimuth",
            at_deg=0.0,
            angle_deg=np.array(kept["azimuth_deg"]),
            gain_dbi=np.array(kept["azimuth_gain_dbi"]),
        ),
    )


def _tolerance(kept: Mapping[str, Any]) -> Tolerance:
    gain, back, swr = kept["nominal"]
    return Tolerance(
        nominal=(gain, back, swr),
        cut_within=kept["cut_within_m"],
        allowance=Allowance(**kept["allowance"]),
        spreads=tuple(
            Spread(
                cause=one["cause"],
                lengthening=one["lengthening_m"],
                gain_db=(one["gain_db"][0], one["gain_db"][1]),
                front_to_back_db=(one["front_to_back_db"][0], one["front_to_back_db"][1]),
                swr=(one["swr"][0], one["swr"][1]),
            )
            for one in kept["spreads"]
        ),
    )

"""Files for other programs: cut lists, plan views, figures, one-port files.

The rooms that draw are loaded inside the functions, because computing must not wait for them.
"""

from __future__ import annotations

from pathlib import Path

from boomwright.app.computing import Computation
from boomwright.app.feed import feed_touchstone
from boomwright.app.feed_results import FeedResult
from boomwright.app.files import save_bytes
from boomwright.app.reach_results import ReachResult
from boomwright.app.verdict import build_stamp
from boomwright.base import UnitSystem
from boomwright.parts import Beam
from boomwright.reach import BeamReadings


def write_drawings(
    computation: Computation, folder: Path, *, system: UnitSystem
) -> tuple[Path, ...]:
    """Write each beam's cut list and plan view in forms other programs read.

    Parameters
    ----------
    folder
        where to; made when missing
    system
        unit system of a stamp; the files themselves hold both or millimetres

    Raises
    ------
    OSError
        when one cannot be written
    """
    from boomwright import book

    written = []
    plan = computation.plan
    stamp = build_stamp(plan, system=system)
    for number, beam in enumerate(plan.beams, start=1):
        stem, boom = file_stem(beam, number=number), plan.boom_of(beam.name)
        for name, data in (
            (f"{stem}-cut-list.csv", book.cut_list_csv(beam=beam, boom=boom, stamp=stamp)),
            (f"{stem}-plan-view.dxf", book.plan_view_dxf(beam=beam, boom=boom, stamp=stamp)),
        ):
            save_bytes(folder / name, data)
            written.append(folder / name)
    return tuple(written)


def write_figures(
    computation: Computation,
    folder: Path,
    *,
    system: UnitSystem,
    reach: ReachResult | None = None,
) -> tuple[Path, ...]:
    """Write every figure of every beam as SVG.

    Parameters
    ----------
    folder
        where to; made when missing
    reach
        what reach says of the plan; None leaves its pictures out

    Raises
    ------
    OSError
        when one cannot be written
    """
    written = []
    stamp = build_stamp(computation.plan, system=system)
    for number, readings in enumerate(computation.beams, start=1):
        stem = file_stem(readings.beam, number=number)
        for name, svg in _drawn(readings, system=system, stamp=stamp).items():
            path = folder / f"{stem}-{name}.svg"
            save_bytes(path, svg.encode())
            written.append(path)
    return (*written, *(write_reach_figures(reach, folder, system=system) if reach else ()))


def write_reach_figures(
    result: ReachResult, folder: Path, *, system: UnitSystem
) -> tuple[Path, ...]:
    """Write every picture of reach as SVG.

    Parameters
    ----------
    folder
        where to; made when missing

    Raises
    ------
    OSError
        when one cannot be written
    """
    from boomwright.app.reach_pictures import show_reach
    from boomwright.figures import LIGHT

    written = []
    for number, each in enumerate(result.beams):
        stem = file_stem(each.beam, number=number + 1)
        shown = show_reach(
            result, number=number, palette=LIGHT, system=system, together=number == 0
        )
        for picture in shown.pictures:
            path = folder / f"{stem}-reach-{picture.name}.svg"
            save_bytes(path, picture.svg.encode())
            written.append(path)
    return tuple(written)


def _drawn(readings: BeamReadings, *, system: UnitSystem, stamp: str) -> dict[str, str]:
    from boomwright import figures

    drawn = {
        "plan-view": figures.plan_view(beam=readings.beam, system=system, stamp=stamp),
        "swr": figures.sweep_chart(readings=readings, system=system),
        "impedance": figures.impedance_chart(readings=readings, system=system),
        "gain": figures.gain_chart(readings=readings, system=system),
        "azimuth": figures.azimuth_pattern(cuts=[readings.azimuth_pattern], system=system),
        "elevation": figures.elevation_pattern(cuts=[readings.elevation_pattern], system=system),
        "currents": figures.current_chart(currents=readings.currents, system=system),
        "phasors": figures.current_phasors(currents=readings.currents, system=system),
    }
    for index in range(len(readings.beam.elements)):
        drawn[f"element-{index + 1}"] = figures.element_detail(
            beam=readings.beam, index=index, system=system, stamp=stamp
        )
    over = readings.over_ground
    if over is not None:
        drawn["lobes"] = figures.lobe_chart(over_ground=over, system=system)
        drawn["azimuth-over-ground"] = figures.azimuth_pattern(
            cuts=[over.azimuth_pattern], title="Azimuth pattern over the ground", system=system
        )
        drawn["elevation-over-ground"] = figures.elevation_pattern(
            cuts=[over.elevation_pattern], title="Elevation pattern over the ground", system=system
        )
    return drawn


def write_touchstone(result: FeedResult, folder: Path) -> tuple[Path, ...]:
    """Write both ends of each beam's line as Touchstone files.

    Parameters
    ----------
    folder
        where to; made when missing

    Raises
    ------
    OSError
        when one cannot be written
    """
    written = []
    for index, each in enumerate(result.beams):
        stem = file_stem(each.beam, number=index + 1)
        for name, text in feed_touchstone(result, number=index).items():
            path = folder / f"{stem}-{name}"
            save_bytes(path, text.encode("ascii", "replace"))
            written.append(path)
    return tuple(written)


def file_stem(beam: Beam, *, number: int) -> str:
    """Turn the owner's name of a beam into the start of a file name.

    Parameters
    ----------
    number
        its number in the plan, used when nothing of the name is left
    """
    kept = "".join(c if c.isascii() and c.isalnum() else " " for c in beam.name)
    return "-".join(kept.split()) or f"beam-{number}"

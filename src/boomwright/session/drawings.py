"""Files for other programs: cut lists, plan views, figures, one-port files.

The rooms that draw are loaded inside the functions, because computing must not wait for them.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.parts import Assembly, Beam
from boomwright.reach import BeamReadings
from boomwright.session.files import save_bytes
from boomwright.study.computing import Computation
from boomwright.study.feed import feed_touchstone
from boomwright.study.feed_parts.results import AsMeasured, FeedResult, NotMeasured
from boomwright.study.reach_parts.results import ReachResult
from boomwright.study.verdict import build_stamp

if TYPE_CHECKING:
    from boomwright.report.model import Report
    from boomwright.study.frontier import TradeOff
    from boomwright.study.improve import ImproveResult


def write_drawings(
    computation: Computation, folder: Path, *, system: UnitSystem
) -> tuple[Path, ...]:
    """Write each beam's cut list and plan view in forms other programs read.

    Args:
        system: unit system of drawings and stamps; a cut list holds both

    Raises:
        OSError: when one cannot be written
    """
    from boomwright.export.cut_list_table import cut_list_csv
    from boomwright.export.drawing_dxf import plan_view_dxf

    written = []
    plan = computation.plan
    stamp = build_stamp(plan, system=system)
    for number, beam in enumerate(plan.beams, start=1):
        stem = file_stem(beam, number=number)
        for name, data in (
            (f"{stem}-cut-list.csv", cut_list_csv(plan, beam, stamp=stamp)),
            (f"{stem}-plan-view.dxf", plan_view_dxf(plan, beam, system=system, stamp=stamp)),
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

    Args:
        reach: what reach says of the plan; None leaves its pictures out

    Raises:
        OSError: when one cannot be written
    """
    from boomwright.plan.resolve import station_assembly
    from boomwright.report.build.shop import rounded_beam, shop_elements

    written = []
    plan, stamp = computation.plan, build_stamp(computation.plan, system=system)
    station = station_assembly(plan)
    pairs = zip(computation.beams, computation.as_measured, strict=True)
    for number, (readings, measured) in enumerate(pairs, start=1):
        beam, stem = readings.beam, file_stem(readings.beam, number=number)
        shop = shop_elements(station.of(beam.name), beam=beam, boom=plan.boom_of(beam.name))
        built = rounded_beam(shop, beam=beam, system=system)
        for name, svg in _drawn(
            readings, built, measured, station, system=system, stamp=stamp
        ).items():
            path = folder / f"{stem}-{name}.svg"
            save_bytes(path, svg.encode())
            written.append(path)
    return (*written, *(write_reach_figures(reach, folder, system=system) if reach else ()))


def write_reach_figures(
    result: ReachResult, folder: Path, *, system: UnitSystem
) -> tuple[Path, ...]:
    """Write every picture of reach as SVG.

    Raises:
        OSError: when one cannot be written
    """
    from boomwright.report.reach import reach_report

    written: list[Path] = []
    for number, each in enumerate(result.beams):
        report = reach_report(result, number=number, together=number == 0)
        start = f"{file_stem(each.beam, number=number + 1)}-reach-"
        written += _write_pictures(report, folder, system=system, start=start, width=520.0)
    return tuple(written)


def write_comparison(result: ImproveResult, folder: Path) -> tuple[Path, ...]:
    """Write the pictures of even against free spacing as SVG; none when it was not compared.

    Raises:
        OSError: when one cannot be written
    """
    from boomwright.report.improve import improve_report

    return _write_pictures(improve_report(result), folder, system="metric")


def write_trade_off(made: TradeOff, folder: Path, *, system: UnitSystem) -> tuple[Path, ...]:
    """Write the picture of a trade-off as SVG.

    Raises:
        OSError: when it cannot be written
    """
    from boomwright.report.improve import trade_off_report

    ending = f"-{made.elements}-elements"
    return _write_pictures(trade_off_report(made), folder, system=system, ending=ending)


def _write_pictures(
    report: Report,
    folder: Path,
    *,
    system: UnitSystem,
    start: str = "",
    ending: str = "",
    width: float = 600.0,
) -> tuple[Path, ...]:
    from boomwright.charts import LIGHT
    from boomwright.report.model import Canvas

    canvas = Canvas(palette=LIGHT, system=system, width=width)
    written = []
    for picture in report.pictures:
        written.append(folder / f"{start}{picture.name}{ending}.svg")
        save_bytes(written[-1], picture.draw(canvas).encode())
    return tuple(written)


def _drawn(
    readings: BeamReadings,
    built: Beam,
    measured: AsMeasured | NotMeasured,
    station: Assembly,
    *,
    system: UnitSystem,
    stamp: str,
) -> dict[str, str]:
    """Draw readings of a beam, and the beam in the lengths of its build sheets."""
    from boomwright import charts
    from boomwright.report.beam.measured import seen_readings, seen_words

    drawn = {
        "plan-view": charts.plan_view(beam=built, station=station, system=system, stamp=stamp),
        "swr": charts.sweep_chart(
            readings=seen_readings(readings, measured),
            title=f"SWR, {seen_words(readings, measured)}",
        ),
        "impedance": charts.impedance_chart(readings=readings),
        "gain": charts.gain_chart(readings=readings),
        "azimuth": charts.azimuth_pattern(cuts=[readings.azimuth_pattern]),
        "elevation": charts.elevation_pattern(cuts=[readings.elevation_pattern]),
        "currents": charts.current_chart(currents=readings.currents, system=system),
        "phasors": charts.current_phasors(currents=readings.currents),
    }
    for index in range(len(built.elements)):
        drawn[f"element-{index + 1}"] = charts.element_detail(
            beam=built, index=index, system=system, stamp=stamp
        )
    over = readings.over_ground
    if over is not None:
        drawn["lobes"] = charts.lobe_chart(over_ground=over, system=system)
        drawn["azimuth-over-ground"] = charts.azimuth_pattern(
            cuts=[over.azimuth_pattern], title="Azimuth pattern over the ground"
        )
        drawn["elevation-over-ground"] = charts.elevation_pattern(
            cuts=[over.elevation_pattern], title="Elevation pattern over the ground"
        )
    return drawn


def write_touchstone(result: FeedResult, folder: Path) -> tuple[Path, ...]:
    """Write both ends of each beam's line as Touchstone files.

    Raises:
        OSError: when one cannot be written
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

    Args:
        number: its number in the plan, used when nothing of the name is left
    """
    kept = "".join(c if c.isascii() and c.isalnum() else " " for c in beam.name)
    return "-".join(kept.split()) or f"beam-{number}"

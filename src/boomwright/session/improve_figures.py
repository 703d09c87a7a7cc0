"""The pictures of a search and of the trade-off, as files."""

from __future__ import annotations

from pathlib import Path

from boomwright.base import UnitSystem
from boomwright.charts.frontier import trade_off_chart
from boomwright.charts.spacing_comparison import (
    spacing_gain_chart,
    spacing_pattern,
    spacing_swr_chart,
)
from boomwright.render.json.improve import compared_document
from boomwright.report.improve import trade_off_curves
from boomwright.report.improve.records import spacing_curves
from boomwright.session.files import save_bytes
from boomwright.study.frontier import TradeOff
from boomwright.study.improve import ImproveResult


def write_trade_off(made: TradeOff, folder: Path, *, system: UnitSystem) -> Path:
    """Write the picture of a trade-off.

    Parameters
    ----------
    folder
        where to; made when missing

    Raises
    ------
    OSError
        when it cannot be written
    """
    svg = trade_off_chart(curves=trade_off_curves(made), elements=made.elements, system=system)
    path = folder / f"trade-off-{made.elements}-elements.svg"
    save_bytes(path, svg.encode())
    return path


def write_comparison(result: ImproveResult, folder: Path) -> tuple[Path, ...]:
    """Write the pictures of even against free spacing; none when it was not compared.

    Parameters
    ----------
    folder
        where to; made when missing

    Raises
    ------
    OSError
        when one cannot be written
    """
    if not result.compared:
        return ()
    compared = spacing_curves([compared_document(one) for one in result.compared])
    made = (
        (folder / "spacing-gain.svg", spacing_gain_chart(compared=compared)),
        (folder / "spacing-pattern.svg", spacing_pattern(compared=compared)),
        (folder / "spacing-swr.svg", spacing_swr_chart(compared=compared)),
    )
    for path, svg in made:
        save_bytes(path, svg.encode())
    return tuple(path for path, _ in made)

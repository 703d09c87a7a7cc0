"""How far a finished beam may be off, as a sentence and a table."""

from __future__ import annotations

from boomwright.base import UnitSystem
from boomwright.charts.tables import ReadingTable
from boomwright.design import Tolerance

_CAUSES = {
    "cutting": "lengths as cut",
    "placing": "places along the boom",
    "tube": "diameters of the tubes",
    "droop": "elements that hang down",
    "wet": "rain on the elements",
    "ice": "ice on the elements",
    "neighbour": "the other antennas of the plan",
}


def tolerance_sentence(*, made: Tolerance, system: UnitSystem) -> str:
    """Say how finely to cut.

    Parameters
    ----------
    system
        ``metric`` or ``us`` lengths
    """
    allowed = made.allowance
    other: UnitSystem = "us" if system == "metric" else "metric"
    first, second = (_small(made.cut_within, system=each) for each in (system, other))
    return (
        f"Cut every half to within ± {first} ({second}): 19 of 20 beams then lose at most "
        f"{allowed.gain_db:g} dB of gain, {allowed.front_to_back_db:g} dB of front-to-back ratio "
        f"and {allowed.swr:g} in SWR, the worst in the band."
    )


def tolerance_table(*, made: Tolerance, system: UnitSystem) -> ReadingTable:
    """Give what each cause does to the worst figures in the band.

    Parameters
    ----------
    system
        ``metric`` or ``us`` lengths
    """
    return ReadingTable(
        header=("cause", "acts like halves longer by", "gain, dB", "front to back, dB", "SWR"),
        rows=tuple(
            (
                _CAUSES.get(spread.cause, spread.cause),
                _small(spread.lengthening, system=system) if spread.lengthening else "",
                *(
                    _span(low, high)
                    for low, high in (spread.gain_db, spread.front_to_back_db, spread.swr)
                ),
            )
            for spread in made.spreads
        ),
    )


def _small(length: float, *, system: UnitSystem) -> str:
    """Lengths of millimetres, where the next sixteenth of an inch would be too coarse."""
    if system == "metric":
        return f"{_rounded(1e3 * length, 1):.1f} mm"
    return f"{_rounded(length / 0.0254, 2):.2f} in"


def _rounded(value: float, decimals: int) -> float:
    """Round without a minus before nothing."""
    return round(value, decimals) + 0.0


def _span(low: float, high: float) -> str:
    least, most = _rounded(low, 2), _rounded(high, 2)
    return f"{least:+.2f}" if most - least < 5e-3 else f"{least:+.2f} to {most:+.2f}"

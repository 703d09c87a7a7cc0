"""The frontier: what beams of so many elements on such a boom can reach, computed beforehand.

Each cell holds the best worst-in-band gain under a demand on the front-to-rear ratio, with a
standing wave ratio of 2 at most behind a hairpin that matches 50 ohm at mid-band, the driven
element between reflector and first director in length, and the design that reaches it. Figures
are those of the full solver for the design as it is stored. All lengths are in wavelengths,
elements are plain tubes without loss.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.design.match_in_place import MatchInPlace
from boomwright.design.space import WishError
from boomwright.design.targets import Targets, reflection_loss_db

Integers = NDArray[np.int64]

#: half length of resonance of each diameter: own computation [wavelengths]
RESONANCES_WL = (0.24247, 0.24103, 0.2389, 0.2355, 0.23061)
#: what the cells stand for
COUNTS = tuple(range(2, 17))
BOOMS_WL = (
    *(0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.65, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5),
    *(3.2, 4.0, 5.0),
)
DIAMETERS_WL = (1e-4, 10.0**-3.5, 1e-3, 10.0**-2.5, 1e-2)
BANDWIDTHS = (0.0, 0.01, 0.025, 0.05)
REARS_DB = (0.0, 12.0, 16.0, 20.0, 25.0)
#: demands that hold in every cell
MOST_SWR = 2.0
LEAST_RESISTANCE = 12.5
CLOSEST_WL = 0.07
MATCHED_TO = 50.0
#: a boom longer than this for each spacing is of no more use
_WIDEST_WL = 0.42
#: more elements than this are held on the booms, tubes and bands that such arrays have: least boom
#: for each spacing, numbers in the lists
_LONG_ARRAY = 8
_LONG_STEP_WL = 0.2
_LONG_DIAMETERS, _LONG_BANDWIDTHS = (2, 3, 4), (0, 1, 2)
#: units of the stored figures: 0.001 dB or ohm, 1e-4 wavelengths along the boom, 1e-5 across
_FIGURE_STEP, PLACE_STEP, HALF_STEP = 1e-3, 1e-4, 1e-5
#: designs whose spacings differ by less belong to one branch and may be mixed [wavelengths]
_SAME_BRANCH = 0.04


def boom_numbers(*, count: int) -> tuple[int, ...]:
    """Booms that make sense for a number of elements."""
    shortest = (_LONG_STEP_WL if count > _LONG_ARRAY else CLOSEST_WL) * (count - 1)
    longest = _WIDEST_WL * (count - 1) + 1e-9
    return tuple(i for i, boom in enumerate(BOOMS_WL) if shortest <= boom <= longest)


def axis_numbers(
    *, count: int
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    """Booms, diameters, bandwidths and rear demands held for a number of elements.

    Returns:
        numbers in their lists, rising (4,)
    """
    diameters, bandwidths = tuple(range(len(DIAMETERS_WL))), tuple(range(len(BANDWIDTHS)))
    if count > _LONG_ARRAY:
        diameters, bandwidths = _LONG_DIAMETERS, _LONG_BANDWIDTHS
    return boom_numbers(count=count), diameters, bandwidths, tuple(range(len(REARS_DB)))


def cell_targets(*, bandwidth: float, rear_db: float) -> Targets:
    """What is wanted in a cell.

    Args:
        bandwidth: width of the band over its middle [-]
        rear_db: front-to-rear ratio demanded, 0 for none [dB]
    """
    return Targets(
        gain_weight=1.0,
        least_front_to_rear_db=rear_db if rear_db > 0.0 else -np.inf,
        most_swr=MOST_SWR if bandwidth > 0.0 else np.inf,
        fed=MatchInPlace(kind="hairpin", reference=MATCHED_TO),
        resistance=(LEAST_RESISTANCE, np.inf),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FrontierTable(ReadOnlyArrays):
    """All cells."""

    #: number of elements, and numbers of the boom, diameter, bandwidth and rear demand within their
    #: lists (c, 5)
    cell: Integers
    gain_dbi: Floats  #: worst in the band [dB] (c,)
    front_to_rear_db: Floats  #: worst in the band [dB] (c,)
    swr: Floats  #: largest in the band after the match (c,)
    resistance: Floats  #: feed-point resistance at mid-band [ohm] (c,)
    kept: NDArray[np.bool_]  #: whether all demands are kept [-] (c,)
    positions: Floats  #: places along the boom [wavelengths] (c, 16)
    half_lengths: Floats  #: half lengths [wavelengths] (c, 16)

    def packed(self) -> dict[str, NDArray[Any]]:
        """Write the table as small arrays for a file [-] (c, ...)."""
        return {
            "cell": self.cell.astype(np.uint8),
            "kept": self.kept,
            "gain_dbi": np.round(self.gain_dbi / _FIGURE_STEP).astype(np.int16),
            "front_to_rear_db": np.round(self.front_to_rear_db / _FIGURE_STEP).astype(np.int16),
            "swr": np.round(np.minimum(self.swr, 60.0) / _FIGURE_STEP).astype(np.uint16),
            "resistance": np.round(np.minimum(self.resistance, 650.0) * 100.0).astype(np.uint16),
            "positions": np.round(self.positions / PLACE_STEP).astype(np.uint16),
            "half_lengths": np.round(self.half_lengths / HALF_STEP).astype(np.uint16),
        }


def frontier_table(arrays: Mapping[str, Any]) -> FrontierTable:
    """Read a table back from the arrays of a file."""
    return FrontierTable(
        cell=np.asarray(arrays["cell"]).astype(np.int64),
        kept=np.asarray(arrays["kept"]).astype(bool),
        gain_dbi=np.asarray(arrays["gain_dbi"]) * _FIGURE_STEP,
        front_to_rear_db=np.asarray(arrays["front_to_rear_db"]) * _FIGURE_STEP,
        swr=np.asarray(arrays["swr"]) * _FIGURE_STEP,
        resistance=np.asarray(arrays["resistance"]) / 100.0,
        positions=np.asarray(arrays["positions"]) * PLACE_STEP,
        half_lengths=np.asarray(arrays["half_lengths"]) * HALF_STEP,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FrontierPoint:
    """What a boom can reach, read from the frontier."""

    gain_dbi: float  #: worst-in-band gain, interpolated [dBi]
    front_to_rear_db: float  #: worst front-to-rear ratio of the design given [dB]
    swr: float  #: largest standing wave ratio of the design given, after a match [-]
    resistance: float  #: feed-point resistance of the design given [ohm]
    kept: bool  #: whether the demand on the rear is kept there
    positions: Floats  #: places of a design on or next to the frontier [wavelengths] (n_elements,)
    half_lengths: Floats  #: its half lengths [wavelengths] (n_elements,)


def short_of(*, targets: Targets, front_to_rear_db: float, swr: float, resistance: float) -> Floats:
    """How far worst figures fall short of a cell's demands, below 0 when they are kept.

    Args:
        front_to_rear_db: [dB]
        swr: [-]
        resistance: at the feed [ohm]

    Returns:
        front-to-rear ratio, loss by reflection, resistance at the feed [dB] (3,)
    """
    return np.array(
        [
            targets.least_front_to_rear_db - front_to_rear_db,
            reflection_loss_db(swr=swr) - reflection_loss_db(swr=targets.most_swr),
            10.0 * np.log10(targets.resistance[0] / resistance),
        ]
    )


def frontier_at(
    *,
    table: FrontierTable,
    count: int,
    boom_wl: float,
    diameter_wl: float = 1e-3,
    bandwidth: float = 0.0,
    front_to_rear_db: float = 0.0,
) -> FrontierPoint:
    """Read the frontier.

    The gain is interpolated in boom, diameter and bandwidth; the design is that of the next
    shorter boom, the next wider band and the next higher demand on the rear, so that it keeps
    what is asked, with lengths mixed between two diameters.

    Args:
        boom_wl: boom from first to last element [wavelengths]
        diameter_wl: diameter of the elements [wavelengths]
        bandwidth: width of the band over its middle [-]
        front_to_rear_db: front-to-rear ratio demanded over the band, 0 for none [dB]

    Raises:
        WishError: when the frontier does not reach there
    """
    booms = boom_numbers(count=count) if count in COUNTS else ()
    if not booms or boom_wl < BOOMS_WL[booms[0]] * (1.0 - 1e-9):
        low = BOOMS_WL[booms[0]] if booms else 0.0
        raise WishError(
            f"the frontier holds {COUNTS[0]} to {COUNTS[-1]} elements and, for {count}, booms from "
            f"{low:.2f} wavelengths, not {boom_wl:.3f}",
            remedy="search instead",
        )
    booms, diameters, bandwidths, demands = axis_numbers(count=count)
    widest = BANDWIDTHS[bandwidths[-1]]
    if not (1e-6 <= diameter_wl <= 0.05 and 0.0 <= bandwidth <= widest * (1 + 1e-9)):
        raise WishError(
            f"the frontier holds bands up to {100 * widest:g} % and plain tubes, not "
            f"{100 * bandwidth:.2f} % and {diameter_wl:g} wavelengths",
            remedy="search instead",
        )
    along = _between([BOOMS_WL[i] for i in booms], boom_wl)
    thick = _between(
        [float(np.log(DIAMETERS_WL[i])) for i in diameters], float(np.log(diameter_wl))
    )
    wide = _between([BANDWIDTHS[i] for i in bandwidths], bandwidth)
    asked = int(np.searchsorted([REARS_DB[i] for i in demands], front_to_rear_db - 1e-9))
    beyond = asked >= len(demands)
    demand = demands[min(asked, len(demands) - 1)]
    rows = {tuple(cell): row for row, cell in enumerate(table.cell.tolist())}

    def row(boom: int, diameter: int, band: int) -> int:
        return rows[(count, booms[boom], diameters[diameter], bandwidths[band], demand)]

    gain = sum(
        share_b * share_d * share_w * float(table.gain_dbi[row(b, d, w)])
        for b, share_b in along
        for d, share_d in thick
        for w, share_w in wide
    )
    boom, band = along[0][0], wide[-1][0]
    one, two = row(boom, thick[0][0], band), row(boom, thick[-1][0], band)
    nearest = one if thick[0][1] >= 0.5 else two
    apart = np.abs(table.positions[one] - table.positions[two])[:count].max()
    mixed = bool(one != two and apart < _SAME_BRANCH)
    share = thick[-1][1] if mixed else float(nearest == two)
    places = (1.0 - share) * table.positions[one] + share * table.positions[two]
    halves = (1.0 - share) * table.half_lengths[one] + share * table.half_lengths[two]
    return FrontierPoint(
        gain_dbi=gain,
        front_to_rear_db=float(table.front_to_rear_db[nearest]),
        swr=float(table.swr[nearest]),
        resistance=float(table.resistance[nearest]),
        kept=bool(table.kept[nearest]) and not beyond,
        positions=places[:count],
        half_lengths=halves[:count],
    )


def widest_held(*, count: int) -> float:
    """Widest band that the frontier holds for a number of elements, over its middle [-]."""
    return BANDWIDTHS[axis_numbers(count=count)[2][-1]]


def _between(grid: list[float], value: float) -> list[tuple[int, float]]:
    """Neighbours of a value in a grid and their shares; one alone on a node or outside."""
    place = int(np.clip(np.searchsorted(grid, value), 0, len(grid) - 1))
    if place == 0 or value >= grid[-1] or abs(grid[place] - value) < 1e-12:
        return [(place, 1.0)]
    share = (value - grid[place - 1]) / (grid[place] - grid[place - 1])
    return [(place - 1, 1.0 - share), (place, share)]


def start_from(
    *, table: FrontierTable, resonances: Floats, boom_wl: float, diameter_wl: float, band: float
) -> tuple[Floats, Floats] | None:
    """Take a design off the frontier for other tubing, each element by its own resonance.

    Args:
        resonances: half length of resonance of each element [m] (n_elements,)
        boom_wl: [wavelengths]
        diameter_wl: mean diameter of the elements [wavelengths]
        band: width of the band over its middle [-]

    Returns:
        positions [wavelengths] and half lengths [m] (n_elements,); None beyond the frontier
    """
    thick = float(np.clip(diameter_wl, DIAMETERS_WL[0], DIAMETERS_WL[-1]))
    try:
        point = frontier_at(
            table=table,
            count=len(resonances),
            boom_wl=boom_wl,
            diameter_wl=thick,
            bandwidth=min(band, widest_held(count=len(resonances))),
        )
    except WishError:
        return None
    own = float(np.interp(np.log(thick), np.log(DIAMETERS_WL), RESONANCES_WL))
    return point.positions, point.half_lengths / own * resonances

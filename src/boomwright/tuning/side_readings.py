"""What a current probe and a distant signal add to the sweeps."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.solver import BeamSolution, element_currents, gain_dbi
from boomwright.tuning.antenna import Bench
from boomwright.tuning.installation import after_changes
from boomwright.tuning.readings import SideReading

#: step of the difference quotients, in wavelengths
_STEP = 3e-4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SideSlopes:
    """A reading beside the sweeps, and how it goes with the tips."""

    reading: SideReading  #: the reading
    planned: float  #: its value for the antenna as planned, mixed units [-, dB]
    slopes: Mapping[str, float]  #: its change by key, mixed units [1/m, dB/m]

    def predicted(self, amounts: Floats, index: Mapping[str, int]) -> Floats:
        """Its value for deviations from the plan (n,).

        Args:
            amounts: deviations, mixed units (n, causes)
            index: place of each key among them
        """
        found = np.full(len(amounts), self.planned)
        for key, slope in self.slopes.items():
            found += slope * amounts[:, index[key]]
        return found


def side_slopes(*, bench: Bench, readings: tuple[SideReading, ...]) -> tuple[SideSlopes, ...]:
    """Solve what each reading would be, and how it goes with the tips."""
    solved: dict[tuple[float, str], BeamSolution] = {}
    step = _STEP * bench.installation.beam.wavelength

    def solution(frequency: float, key: str) -> BeamSolution:
        if (frequency, key) not in solved:
            changes = {key: step} if key else {}
            moved = after_changes(installation=bench.installation, changes=changes)
            # Mirrored halves fed as if split: currents and pattern are those of the elements.
            plain = replace(moved, shape=None)
            solved[frequency, key] = bench.solution(plain, np.array([frequency]))
        return solved[frequency, key]

    found = []
    for reading in readings:
        base = side_value(solution(reading.frequency, ""), reading)
        slopes = {}
        for number in range(len(bench.installation.beam.elements)):
            key = f"tip.{number}"
            slopes[key] = (side_value(solution(reading.frequency, key), reading) - base) / step
        found.append(SideSlopes(reading=reading, planned=base, slopes=slopes))
    return tuple(found)


def side_value(solution: BeamSolution, reading: SideReading) -> float:
    """What a reading would be of a solved beam, mixed units [-, dB]."""
    if reading.kind == "front to back":
        return float(front_to_back_db(solution=solution)[0])
    return float(np.log(np.abs(middle_currents(solution=solution, at=0)[reading.element])))


def front_to_back_db(*, solution: BeamSolution) -> Floats:
    """Gain towards the heading over the gain exactly backwards, both at the horizon.

    Returns:
        front-to-back ratio, ground left out as it acts alike both ways [dB] (f,)
    """
    gains = gain_dbi(solution=solution, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2))
    found: Floats = gains[:, 0] - gains[:, 1]
    return found


def middle_currents(*, solution: BeamSolution, at: int) -> Complexes:
    """Current in the middle of every element over that of the driven one.

    Returns:
        ratios, as two current probes would show them [A/A] (n_elements,)
    """
    found = element_currents(solution=solution, at=at, points=2)
    middle = np.array([each.middle for each in found])
    ratios: Complexes = middle / middle[solution.beam.driven_index]
    return ratios

"""A changed installation as a solved beam, where more than its impedance is wanted."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.solver import BeamSolution, conductor_loss, element_currents, gain_dbi, moments
from boomwright.tuning.installation import Installation
from boomwright.tuning.predicting import Predictor

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


def solution_of(
    *, predictor: Predictor, installation: Installation, frequencies: Floats
) -> BeamSolution:
    """Solve a changed installation.

    Args:
        frequencies: [Hz] (f,)
    """
    currents = predictor.currents(installation=installation, frequencies=frequencies)
    impedance = 1.0 / currents.admittance[:, 0, 0]
    unknowns = currents.unknowns[:, :, 0] * impedance[:, None]
    return BeamSolution(
        beam=installation.beam,
        currents=currents,
        impedance=impedance,
        source=moments(assembly=currents.assembly, unknowns=unknowns, frequencies=frequencies),
        accepted=0.5 * impedance.real,
        lost=conductor_loss(currents=currents, weights=impedance[:, None]),
    )


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
    middle = np.array([each.current[1] for each in found])
    ratios: Complexes = middle / middle[solution.beam.driven_index]
    return ratios

"""What a beam really does over its band, by the full solver."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.design.setting_up import check_frequencies
from boomwright.design.targets import Targets
from boomwright.parts import Beam
from boomwright.solver import (
    Preparer,
    gain_dbi,
    prepare_run,
    solve_beam,
    standing_wave_ratio,
    working_detail,
)

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: rear azimuths are looked at this closely [rad]
_REAR_STEP = np.radians(1.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BandFigures:
    """Figures of a beam in free space over its band."""

    frequencies: Floats  #: frequencies [Hz] (f,)
    impedance: Complexes  #: feed-point impedance [ohm] (f,)
    swr: Floats  #: standing wave ratio, after the match when one is assumed (f,)
    gain_dbi: Floats  #: gain towards the heading at the wished take-off angle [dBi] (f,)
    front_to_back_db: Floats  #: gain ahead over the gain exactly backwards [dB] (f,)
    front_to_rear_db: Floats  #: gain ahead over the strongest gain in the rear as wished [dB] (f,)

    def __post_init__(self) -> None:
        for name in ("frequencies", "swr", "gain_dbi", "front_to_back_db", "front_to_rear_db"):
            object.__setattr__(self, name, read_only(getattr(self, name)))
        object.__setattr__(self, "impedance", read_only(self.impedance, complex))

    @property
    def worst(self) -> tuple[float, float, float, float]:
        """Smallest gain, front-to-back and front-to-rear ratio, largest SWR [dBi, dB, dB, -]."""
        return (
            float(self.gain_dbi.min()),
            float(self.front_to_back_db.min()),
            float(self.front_to_rear_db.min()),
            float(self.swr.max()),
        )


def band_figures(
    *,
    beam: Beam,
    targets: Targets,
    frequencies: Floats | None = None,
    prepare: Preparer = prepare_run,
) -> BandFigures:
    """Compute what counts of a beam.

    Args:
        frequencies: frequencies; None for 21 over the band and the design frequency [Hz] (f,)
    """
    chosen = check_frequencies(beam=beam) if frequencies is None else frequencies
    solution = solve_beam(
        beam=beam,
        frequencies=chosen,
        detail=working_detail(frequency=float(max(*beam.band, *chosen))),
        prepare=prepare,
    )
    ahead = gain_dbi(
        solution=solution, azimuth=np.zeros(1), elevation=np.array([targets.take_off])
    )[:, 0]
    rear = np.arange(targets.rear_from, np.pi + _REAR_STEP / 2.0, _REAR_STEP)
    rear[-1] = np.pi
    behind = gain_dbi(solution=solution, azimuth=rear, elevation=np.zeros(len(rear)))
    impedance = solution.impedance
    at = int(np.abs(chosen - beam.design_frequency).argmin())
    return BandFigures(
        frequencies=chosen,
        impedance=impedance,
        swr=_swr(impedance, chosen, at, targets),
        gain_dbi=ahead,
        front_to_back_db=ahead - behind[:, -1],
        front_to_rear_db=ahead - behind.max(axis=1),
    )


def _swr(impedance: Complexes, frequencies: Floats, design: int, targets: Targets) -> Floats:
    """Standing wave ratio as wished: directly, or after a match at one frequency."""
    if targets.fed is not None:
        plain = replace(targets.fed, correction=None)
        share = np.abs(
            plain.reflection(
                impedance=impedance[None],
                at_design=impedance[design : design + 1],
                ratio=frequencies / frequencies[design],
            )[0]
        )
        return np.asarray((1.0 + share) / np.maximum(1.0 - share, 1e-6))
    if targets.match == "direct":
        return standing_wave_ratio(impedance=impedance, reference=targets.reference_resistance)
    at = impedance[design]
    return standing_wave_ratio(impedance=impedance - 1j * at.imag, reference=float(at.real))

"""What a beam really does over its band, by the full solver."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import Notice, ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.setting_up import check_frequencies
from boomwright.design.targets import Targets, reflection_loss_db
from boomwright.parts import Beam
from boomwright.solver import (
    Preparer,
    gain_dbi,
    prepare_run,
    solve_beam,
    standing_wave_ratio,
    working_detail,
)

#: rear azimuths are looked at this closely [rad]
_REAR_STEP = np.radians(1.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BandFigures(ReadOnlyArrays):
    """Figures of a beam in free space over its band."""

    frequencies: Floats  #: frequencies [Hz] (f,)
    impedance: Complexes  #: feed-point impedance [ohm] (f,)
    swr: Floats  #: standing wave ratio, after the match when one is assumed (f,)
    gain_dbi: Floats  #: gain towards the heading at the wished take-off angle [dBi] (f,)
    front_to_back_db: Floats  #: gain ahead over the gain exactly backwards [dB] (f,)
    front_to_rear_db: Floats  #: gain ahead over the strongest gain in the rear as wished [dB] (f,)

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


#: limits are missed when figures as they are printed miss them: by so much [dB], and an SWR [-]
SAID_DB, SAID_SWR = 0.01, 0.005


def shortfalls(*, beam: Beam, figures: BandFigures, targets: Targets) -> Floats:
    """What limits are missed by, below 0 when they are kept.

    Returns:
        gain, front-to-rear ratio, loss by reflection, resistance at the feed [dB] (4,)
    """
    gain, _, rear, swr = figures.worst
    at = int(np.argmin(np.abs(figures.frequencies - beam.design_frequency)))
    ohms = float(figures.impedance[at].real)
    low, high = targets.resistance
    under = 10.0 * math.log10(low / ohms) if low > 0.0 else -math.inf
    over = 10.0 * math.log10(ohms / high) if high < math.inf else -math.inf
    return np.array(
        [
            targets.least_gain_dbi - gain,
            targets.least_front_to_rear_db - rear,
            reflection_loss_db(swr=swr) - reflection_loss_db(swr=targets.most_swr),
            max(under, over),
        ]
    )


def missed_notices(*, beam: Beam, figures: BandFigures, targets: Targets) -> tuple[Notice, ...]:
    """Say which limits the full solver finds missed."""
    gain, _, rear, swr = figures.worst
    at = int(np.argmin(np.abs(figures.frequencies - beam.design_frequency)))
    told = (
        ("gain", f"{gain:.2f} dBi"),
        ("front-to-rear ratio", f"{rear:.2f} dB"),
        ("SWR", f"{swr:.2f}"),
        ("resistance at the feed", f"{figures.impedance[at].real:.2f} ohm"),
    )
    short = shortfalls(beam=beam, figures=figures, targets=targets)
    return tuple(
        Notice(
            code="design.check-falls-short",
            text=f"The full solver finds the {name} just short of the limit: what the search "
            "leaves out and the step of the cut account for it. Cut finer, or relax the limit.",
            severity="limit",
            value=value,
        )
        for (name, value), missing in zip(told, short, strict=True)
        if (swr > targets.most_swr + SAID_SWR if name == "SWR" else SAID_DB < missing < math.inf)
    )

"""Places with people held against the limits: computed near field and far-field formula.

The near field comes from whoever solved the antenna, as E and H for one watt; here power,
duty and averaging are put to it, both methods are compared with every limit, and the stricter
result of the two is kept.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass
from boomwright.permits.exposure import (
    ExposureRatio,
    exposure_ratio,
    far_field_power_density,
    plane_wave_fields,
)
from boomwright.permits.exposure_limits import (
    ExposureGroup,
    ExposureLimit,
    fcc_limit,
    icnirp_limit,
)

#: average power over the window of a standard, by the window in seconds [W]
AveragePower = Callable[[float], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceField:
    """Fields at one place, for one watt accepted by the antenna."""

    place: str  #: what people there call it
    group: ExposureGroup  #: ``general`` or ``occupational``: who is there
    distance: float  #: horizontal distance from the mast [m]
    #: distance from the middle of the antenna to the nearest looked-at point of the body [m]
    slant: float
    electric: float  #: greatest effective electric field over the body, for one watt [V/m]
    magnetic: float  #: greatest effective magnetic field over the body, for one watt [A/m]
    electric_mean: float  #: electric field, its square averaged over the body, for one watt [V/m]
    magnetic_mean: float  #: magnetic field, its square averaged over the body, for one watt [A/m]


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitCheck:
    """One place held against one limit by both methods."""

    place: PlaceField
    limit: ExposureLimit
    power: float  #: average power in the window of the limit [W]
    near: ExposureRatio  #: ratios of the computed near field where it is greatest on the body
    #: the same averaged over the body, as whole-body limits allow {oet-65, section 2}
    #: {icnirp-2020}; it stands beside and never governs
    averaged: ExposureRatio
    #: ratios of the far-field formula with its 1.6-fold ground reflection, the main lobe taken to
    #: point at the place
    far: ExposureRatio

    @property
    def governing(self) -> float:
        """Larger of both methods, the near field at its greatest, 1 at the limit [-]."""
        known = [r for r in (self.near.governing, self.far.governing) if r is not None]
        return max(known)

    @property
    def method(self) -> str:
        """Which method governs: ``near field`` or ``far-field formula``."""
        near, far = self.near.governing or 0.0, self.far.governing or 0.0
        return "near field" if near >= far else "far-field formula"

    @property
    def applies(self) -> bool:
        """Whether the limit is that of the people who are there."""
        return self.limit.group == self.place.group

    @property
    def margin_db(self) -> float:
        """Power that could be added before the limit, negative when exceeded [dB]."""
        return -10.0 * math.log10(max(self.governing, 1e-12))


def every_limit(*, frequency: float) -> tuple[ExposureLimit, ...]:
    """List the limits people are held against: both standards, both groups."""
    groups: tuple[ExposureGroup, ...] = ("general", "occupational")
    return tuple(
        make(frequency=frequency, group=group)
        for make in (fcc_limit, icnirp_limit)
        for group in groups
    )


def check_place(
    place: PlaceField,
    *,
    frequency: float,
    peak_gain_dbi: float,
    average_power: AveragePower,
    limits: Sequence[ExposureLimit] = (),
) -> tuple[LimitCheck, ...]:
    """Hold one place against every limit.

    Args:
        peak_gain_dbi: greatest free-space gain, for the far-field formula [dBi]
        average_power: average power at the antenna over a window [W]
        limits: limits; all of :func:`every_limit` when empty

    Returns:
        one entry a limit {oet-65, section 2} (n_limits,)
    """
    found = []
    for limit in limits or every_limit(frequency=frequency):
        power = average_power(limit.averaging_time)
        root = math.sqrt(power)
        density = far_field_power_density(
            power=power, gain_dbi=peak_gain_dbi, distance=place.slant, reflection="partial"
        )
        electric, magnetic = plane_wave_fields(power_density=density)
        found.append(
            LimitCheck(
                place=place,
                limit=limit,
                power=power,
                near=exposure_ratio(
                    limit,
                    electric_field=place.electric * root,
                    magnetic_field=place.magnetic * root,
                ),
                averaged=exposure_ratio(
                    limit,
                    electric_field=place.electric_mean * root,
                    magnetic_field=place.magnetic_mean * root,
                ),
                far=exposure_ratio(limit, electric_field=electric, magnetic_field=magnetic),
            )
        )
    return tuple(found)


def strictest_share(
    *,
    electric: NDArray[np.float64],
    magnetic: NDArray[np.float64],
    limits: Sequence[ExposureLimit],
    power: Mapping[float, float],
) -> NDArray[np.float64]:
    """Part of the strictest of some limits that fields use.

    Args:
        electric: effective electric field for one watt [V/m] (...)
        magnetic: effective magnetic field for one watt [A/m] (...)
        power: average power by averaging time, [s] and [W] [-]

    Returns:
        squared ratio, 1 at the limit, the largest over limits and both fields [-] (...)
    """
    share = np.zeros(np.shape(electric))
    for limit in limits:
        mean = power[limit.averaging_time]
        for field, level in ((electric, limit.electric_field), (magnetic, limit.magnetic_field)):
            if level is not None:
                share = np.maximum(share, mean * (field / level) ** 2)
    return share

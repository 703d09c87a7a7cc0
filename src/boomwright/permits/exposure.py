"""Holding a field or a power density against an exposure limit; average power; far field.

The far-field formulas of {oet-65, section 2} do not hold close to an antenna; there the computed
near field (E and H) is held against the limits instead.
"""

from __future__ import annotations

import math
from typing import Final, Literal

from boomwright.base import VACUUM_IMPEDANCE
from boomwright.base.records import dataclass
from boomwright.permits.exposure_limits import ExposureLimit
from boomwright.permits.findings import PermitFinding, Verdict

Reflection = Literal["none", "full", "partial"]

#: field factor squared for no, full and EPA's 1.6-fold ground reflection {oet-65, eq. 4 to 8}
REFLECTION_FACTOR: Final[dict[Reflection, float]] = {
    "none": 1.0,
    "full": 4.0,
    "partial": 1.6**2,
}

#: average over peak envelope power by kind of emission {oet-65b, Table 2}, from memory
EMISSION_DUTY: Final[dict[str, float]] = {
    "carrier": 1.0,
    "frequency modulation": 1.0,
    "data, keyed tones": 1.0,
    "morse": 0.4,
    "single sideband, unprocessed": 0.2,
    "single sideband, processed": 0.4,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureRatio:
    """Exposure over limit, as squares of fields or as power density; 1 is the limit."""

    limit: ExposureLimit  #: limit it was held against
    electric: float | None  #: (E / limit)^2, or None when not known [-]
    magnetic: float | None  #: (H / limit)^2, or None when not known [-]
    power: float | None  #: S / limit, or None when not known [-]

    @property
    def governing(self) -> float | None:
        """Largest of the known ratios, None when there is none [-]."""
        known = [r for r in (self.electric, self.magnetic, self.power) if r is not None]
        return max(known) if known else None


def exposure_ratio(
    limit: ExposureLimit,
    *,
    electric_field: float | None = None,
    magnetic_field: float | None = None,
    power_density: float | None = None,
) -> ExposureRatio:
    """Hold averaged fields or power density against a limit.

    Args:
        electric_field: rms electric field averaged over the limit's time, or None [V/m]
        magnetic_field: rms magnetic field averaged over the limit's time, or None [A/m]
        power_density: averaged power density, or None [W/m^2]

    Notes:
        Where the standard has no field level (above 300 MHz in America, above 2 GHz in the
        guidelines) fields are turned into power density by E^2/eta and eta H^2; the larger counts.
        Power density alone is never turned into a verdict where the standard has none for it.
    """
    electric = magnetic = power = None
    powers: list[float] = []
    if electric_field is not None:
        if limit.electric_field is not None:
            electric = (electric_field / limit.electric_field) ** 2
        else:
            powers.append(electric_field**2 / VACUUM_IMPEDANCE)
    if magnetic_field is not None:
        if limit.magnetic_field is not None:
            magnetic = (magnetic_field / limit.magnetic_field) ** 2
        else:
            powers.append(magnetic_field**2 * VACUUM_IMPEDANCE)
    if power_density is not None:
        powers.append(power_density)
    if powers and limit.power_density is not None:
        power = max(powers) / limit.power_density
    return ExposureRatio(limit=limit, electric=electric, magnetic=magnetic, power=power)


def _exposure_verdict(ratio: ExposureRatio, *, near_field: bool) -> tuple[Verdict, str]:
    governing = ratio.governing
    if governing is None:
        return "not checked", (
            "The standard has no power density here: give E and H from the computed near field."
        )
    if governing > 1.0:
        return "exceeded", (
            "Keep people further away, lower the power, raise the antenna or shorten the "
            "transmissions, then compute again."
        )
    # Close to an antenna E and H are not tied together, so one alone settles nothing.
    if near_field and (ratio.electric is None or ratio.magnetic is None):
        return "ask", "Close to the antenna both E and H are needed, and one of them is missing."
    return "within", (
        "Computed, not measured: holds for the stated power, duty and place only, "
        "contact with conductors not included."
    )


def exposure_finding(
    ratio: ExposureRatio, *, place: str, near_field: bool, whom_to_ask: str
) -> PermitFinding:
    """Put an exposure ratio into words.

    Args:
        near_field: True within a wavelength or so of any antenna part, where E and H both count
    """
    limit = ratio.limit
    verdict, text = _exposure_verdict(ratio, near_field=near_field)
    levels = [
        f"E {limit.electric_field:.4g} V/m" if limit.electric_field is not None else "",
        f"H {limit.magnetic_field:.4g} A/m" if limit.magnetic_field is not None else "",
        f"S {limit.power_density:.4g} W/m²" if limit.power_density is not None else "",
    ]
    shown = "" if ratio.governing is None else f"{100.0 * ratio.governing:.3g} % of the limit"
    return PermitFinding(
        use=ratio.governing,
        subject=f"Exposure at {place}, {limit.frequency / 1e6:g} MHz, {limit.group}, {limit.body}",
        verdict=verdict,
        value=shown,
        limit=", ".join(level for level in levels if level)
        + f", averaged over {limit.averaging_time / 60.0:g} min",
        basis=limit.standard,
        whom_to_ask=whom_to_ask,
        dated=limit.dated,
        text=text,
        seen=limit.seen,
        source=limit.source,
    )


def transmit_share(*, transmit: float, listen: float, averaging_time: float) -> float:
    """Largest share of any averaging window spent transmitting.

    Args:
        transmit: length of each transmission [s]
        listen: pause after each transmission [s]
        averaging_time: window of the standard [s]

    Returns:
        worst share over all windows, 0 to 1 [-]

    Raises:
        ValueError: when a time is negative or the window is not positive
    """
    if transmit < 0.0 or listen < 0.0 or averaging_time <= 0.0:
        msg = "transmit and listen must be 0 s or more and the averaging window above 0 s"
        raise ValueError(msg)
    if transmit == 0.0:
        return 0.0
    # The worst window starts with a transmission.
    whole, rest = divmod(averaging_time, transmit + listen)
    return (whole * transmit + min(rest, transmit)) / averaging_time


def average_power(*, peak_envelope_power: float, emission_duty: float, share: float) -> float:
    """Power averaged over the standard's window [W].

    Args:
        peak_envelope_power: peak envelope power at the antenna [W]
        emission_duty: average over peak power while transmitting, 0 to 1 [-]
        share: share of the window spent transmitting, 0 to 1 [-]

    Raises:
        ValueError: when duty or share lies outside 0 to 1
    """
    for name, value in (("emission_duty", emission_duty), ("share", share)):
        if not 0.0 <= value <= 1.0:
            raise ValueError(f"{name} is {value}; it must lie between 0 and 1")
    return peak_envelope_power * emission_duty * share


def far_field_power_density(
    *, power: float, gain_dbi: float, distance: float, reflection: Reflection
) -> float:
    """Far-field power density {oet-65, section 2}: k EIRP / (4 pi R^2) [W/m^2].

    Args:
        power: average power at the antenna [W]
        gain_dbi: gain towards the place [dBi]
        distance: from the antenna to the place [m]
        reflection: ``none`` (k = 1), ``full`` (k = 4) or ``partial`` (1.6-fold field, k = 2.56)
    """
    effective = power * math.pow(10.0, gain_dbi / 10.0)
    return REFLECTION_FACTOR[reflection] * effective / (4.0 * math.pi * distance**2)


def distance_to_limit(
    *, power: float, gain_dbi: float, power_density: float, reflection: Reflection
) -> float:
    """Distance at which the far-field formula meets a power density {oet-65, section 2}.

    Args:
        power: average power at the antenna [W]
        gain_dbi: gain towards the place [dBi]
        power_density: power density of the limit [W/m^2]
        reflection: ``none``, ``full`` or ``partial``

    Returns:
        distance; not to be relied upon within about a wavelength of the antenna [m]
    """
    at_one_metre = far_field_power_density(
        power=power, gain_dbi=gain_dbi, distance=1.0, reflection=reflection
    )
    return math.sqrt(at_one_metre / power_density)


def plane_wave_fields(*, power_density: float) -> tuple[float, float]:
    """E and H of a plane wave, far from the antenna only.

    Args:
        power_density: [W/m^2]

    Returns:
        rms electric field [V/m] and magnetic field [A/m]
    """
    electric = math.sqrt(power_density * VACUUM_IMPEDANCE)
    return electric, electric / VACUUM_IMPEDANCE

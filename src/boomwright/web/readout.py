"""Results as the few words and numbers a reader takes in at a glance."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from boomwright.base import UnitSystem, feet_inches_sixteenths, inches_sixteenths
from boomwright.base.records import dataclass, replace

if TYPE_CHECKING:
    from boomwright.reach import OverGround
    from boomwright.solver import SweepPoint
    from boomwright.study.feed_parts.results import AsMeasured


@dataclass(frozen=True, slots=True, kw_only=True)
class Readout:
    """One of the four numbers."""

    name: str  #: short stable name
    label: str
    value: str  #: the number, empty while it is being computed
    unit: str
    band: str  #: its error band
    note: str  #: where it holds, and what belongs to it


def band_text(half_width: float, *, decimals: int, unit: str = "") -> str:
    """Write an error band, rounded up so that it never looks narrower than it is.

    Args:
        half_width: half width of the band [any unit]
        unit: its unit, or empty
    """
    if not math.isfinite(half_width):
        return "band unknown"
    scale = 10**decimals
    # The small allowance keeps 0.05 from becoming 0.06 through its binary form.
    shown = max(math.ceil(half_width * scale - 1e-9), 1) / scale
    return f"± {shown:.{decimals}f}{f' {unit}' if unit else ''}"


def signed(value: float, decimals: int) -> str:
    """Write a number with a true minus sign and no minus zero [same unit].

    Args:
        value: the number [any unit]
    """
    text = f"{value:.{decimals}f}"
    return text.lstrip("-") if not text.strip("-0.") else text.replace("-", "−")


def megahertz(frequency: float) -> str:
    """Write a frequency in megahertz.

    Returns:
        megahertz to the kilohertz [MHz]
    """
    return f"{frequency / 1e6:.3f} MHz"


def long_length(length: float, *, system: UnitSystem) -> str:
    """Write a length of the size of a boom."""
    return f"{length:.3f} m" if system == "metric" else feet_inches_sixteenths(length)


def tube_size(diameter: float, *, system: UnitSystem) -> str:
    """Write a tube's diameter.

    Args:
        diameter: outer diameter [m]
    """
    if system == "metric":
        return f"{diameter * 1e3:.2f}".rstrip("0").rstrip(".") + " mm"
    fraction = inches_sixteenths(diameter)
    exact = abs(diameter / 0.0254 * 16 - round(diameter / 0.0254 * 16)) < 1e-6
    return fraction if exact else f"{diameter / 0.0254:.3f} in"


def four_numbers(
    *,
    point: SweepPoint,
    over_ground: OverGround | None,
    sweep: tuple[SweepPoint, ...],
    swr_words: str = "",
) -> tuple[Readout, ...]:
    """Write the four numbers that are always in sight.

    Args:
        over_ground: lobes over the ground, or None in free space
        sweep: figures over the band; empty while they are being computed (n_frequencies,)
        swr_words: where the standing wave ratio holds, or empty
    """
    at = megahertz(point.frequency)
    return (
        Readout(
            name="gain",
            label="Gain, free space",
            value=signed(point.gain_dbi, 2),
            unit="dBi",
            band=band_text(point.gain_error_db, decimals=2, unit="dB"),
            note=f"free space, {at}",
        ),
        Readout(
            name="rear",
            label="Front-to-back, free space",
            value=signed(point.front_to_back_db, 1),
            unit="dB",
            band=band_text(point.front_to_back_error_db, decimals=1, unit="dB"),
            note=f"worst to the rear {signed(point.front_to_rear_db, 1)} dB",
        ),
        _swr_readout(point=point, sweep=sweep, words=swr_words),
        _take_off(over_ground),
    )


def _rear_error(point: SweepPoint, ratio: float) -> float:
    """Band of another front-to-rear ratio than the one exactly backwards [dB].

    What the field behind may be off by is a share of the field ahead: it moves a deep null by much
    and a broad lobe by little.
    """
    off = 10.0 ** (-point.front_to_back_db / 20.0) * (
        10.0 ** (point.front_to_back_error_db / 20.0) - 1.0
    )
    lobe = 20.0 * math.log10(1.0 + off * 10.0 ** (ratio / 20.0))
    return max(lobe, point.gain_error_db)


def measured_numbers(
    measured: AsMeasured, *, point: SweepPoint, over_ground: OverGround | None
) -> tuple[Readout, ...]:
    """Write the four numbers that the owner will measure.

    Args:
        point: figures in free space at the frequency looked at, for the notes
        over_ground: lobes of the beam without its match, whose bands hold with it too; None in
            free space
    """
    error = point.gain_error_db if over_ground is None else over_ground.gain_error_db
    rear, worst = measured.front_to_rear_worst, measured.swr_worst
    low, high = float(measured.frequency[0]), float(measured.frequency[-1])
    at = min(max(point.frequency, low), high)
    here = float(np.interp(at, measured.frequency, measured.swr))
    where = "at the match" if measured.line is None else "at the radio"
    kind = measured.match.kind + (", proposed" if measured.proposed else "")
    lobe = "none" if measured.take_off_deg is None else f"{signed(measured.take_off_deg, 1)}°"
    gain = "along the horizon, free space" if measured.take_off_deg is None else f"at {lobe}"
    aloft = _take_off(over_ground)
    ground = measured.ground.name or measured.ground.kind
    return (
        Readout(
            name="gain",
            label="Modelled gain"
            if measured.take_off_deg is not None
            else "Gain, free space, matched",
            value=signed(measured.gain_dbi, 2),
            unit="dBi",
            band=band_text(error, decimals=2, unit="dB"),
            note=f"{gain}; free space {signed(point.gain_dbi, 2)} "
            f"{band_text(point.gain_error_db, decimals=2, unit='dBi')}, "
            f"{megahertz(point.frequency)}",
        ),
        Readout(
            name="rear",
            label="Front-to-rear, worst in band",
            value=signed(rear[0], 1),
            unit="dB",
            band=band_text(_rear_error(point, rear[0]), decimals=1, unit="dB"),
            note=f"at {megahertz(rear[1])}",
        ),
        Readout(
            name="swr",
            label="SWR as measured, worst",
            value=swr_text(worst[0]),
            unit="",
            band=band_text(measured.match.error.swr, decimals=2),
            note=f"{swr_text(here)} at {megahertz(at)}, {where}, {kind}",
        ),
        # A beam that does not fire forward says so.
        replace(
            aloft,
            value=lobe,
            note="the plan says free space"
            if measured.take_off_deg is None
            else f"as measured, over {ground} ground",
        )
        if over_ground is None or over_ground.fires_forward
        else aloft,
    )


def swr_text(swr: float) -> str:
    """Write a standing wave ratio.

    Args:
        swr: standing wave ratio [-]
    """
    if swr < 10.0:
        return f"{swr:.2f}"
    return f"{swr:.0f}" if swr < 99.5 else ">99"


def _swr_readout(*, point: SweepPoint, sweep: tuple[SweepPoint, ...], words: str) -> Readout:
    ratios = [p.swr for p in sweep]
    value = f"{swr_text(min(ratios))} – {swr_text(max(ratios))}" if ratios else ""
    widest = max((p.swr_error for p in sweep), default=math.nan)
    return Readout(
        name="swr",
        label="SWR across the band",
        value=value,
        unit="",
        band=band_text(widest, decimals=2) if ratios else "",
        note=f"{swr_text(point.swr)} {band_text(point.swr_error, decimals=2)} "
        f"at {megahertz(point.frequency)}" + (f", {words}" if words else ""),
    )


def _take_off(over_ground: OverGround | None) -> Readout:
    if over_ground is None:
        return Readout(
            name="take-off",
            label="Take-off angle",
            value="none",
            unit="",
            band="",
            note="the plan says free space",
        )
    angles = over_ground.elevation_pattern.angle_deg
    return Readout(
        name="take-off",
        label="Take-off angle",
        value=signed(over_ground.peak_elevation_deg, 1) + "°",
        unit="",
        # The maximum is read off the computed cut, so it is known to half a step of it.
        band=band_text(float(angles[1] - angles[0]) / 2.0, decimals=1) + "°",
        note=f"{signed(over_ground.peak_gain_dbi, 2)} "
        f"{band_text(over_ground.gain_error_db, decimals=2, unit='dBi')} "
        f"over {over_ground.ground.name or over_ground.ground.kind} ground"
        f"{_elsewhere(over_ground)}",
    )


def _elsewhere(over_ground: OverGround) -> str:
    main = over_ground.main_lobe
    if over_ground.fires_forward or main.gain_dbi <= over_ground.peak_gain_dbi:
        return ""
    return (
        f"; does not fire forward: {signed(main.gain_dbi, 1)} dBi {main.way}, "
        f"{signed(main.elevation_deg, 0)}°"
    )

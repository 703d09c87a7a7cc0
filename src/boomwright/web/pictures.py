"""The figures as the page shows them: drawn by the figures room, in the page's own colours."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright import figures
from boomwright.base import UnitSystem
from boomwright.web.colours import page_palette

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.reach import BeamReadings, QuickLook

_PALETTE = page_palette()


def plan_view(beam: Beam, *, system: UnitSystem) -> str:
    """Draw the plan view.

    Parameters
    ----------
    beam
        the beam [-]
    system
        units of the dimensions [-]

    Returns
    -------
    str
        SVG text [-]
    """
    return figures.plan_view(beam=beam, palette=_PALETTE, system=system)


def azimuth(quick: QuickLook) -> str:
    """Draw the azimuth pattern, in free space and over the ground.

    Parameters
    ----------
    quick
        quick figures [-]

    Returns
    -------
    str
        SVG text [-]
    """
    cuts, labels = [quick.azimuth_pattern], ["free space"]
    if quick.over_ground is not None:
        over = quick.over_ground.azimuth_pattern
        cuts, labels = [over, *cuts], [f"over ground, {over.at_deg:.1f}° up", *labels]
    return figures.azimuth_pattern(cuts=cuts, labels=labels, palette=_PALETTE)


def elevation(readings: BeamReadings) -> str:
    """Draw the elevation pattern, over the ground when there is one.

    Parameters
    ----------
    readings
        all readings [-]

    Returns
    -------
    str
        SVG text [-]
    """
    over = readings.over_ground
    cut = over.elevation_pattern if over is not None else readings.elevation_pattern
    label = "over ground" if over is not None else "free space"
    return figures.elevation_pattern(cuts=[cut], labels=[label], palette=_PALETTE)


def sweep(readings: BeamReadings) -> str:
    """Draw the standing wave ratio over the band.

    Parameters
    ----------
    readings
        all readings [-]

    Returns
    -------
    str
        SVG text [-]
    """
    return figures.sweep_chart(readings=readings, palette=_PALETTE)


def impedance(readings: BeamReadings) -> str:
    """Draw resistance and reactance over the band.

    Parameters
    ----------
    readings
        all readings [-]

    Returns
    -------
    str
        SVG text [-]
    """
    return figures.impedance_chart(readings=readings, palette=_PALETTE)


def gain(readings: BeamReadings) -> str:
    """Draw gain and front-to-back ratio over the band.

    Parameters
    ----------
    readings
        all readings [-]

    Returns
    -------
    str
        SVG text [-]
    """
    return figures.gain_chart(readings=readings, palette=_PALETTE)


def currents(readings: BeamReadings, *, system: UnitSystem) -> str:
    """Draw the currents along the elements.

    Parameters
    ----------
    readings
        all readings [-]
    system
        units of the places [-]

    Returns
    -------
    str
        SVG text [-]
    """
    return figures.current_chart(currents=readings.currents, palette=_PALETTE, system=system)

"""What the book says in words and single numbers: title block, inputs, summary."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import UnitSystem, quantity_text
from boomwright.parts import Beam
from boomwright.plan import Site
from boomwright.plan.resolve import match_words, matched_points
from boomwright.reach import BeamReadings
from boomwright.report.wording import (
    band,
    clean,
    fixed,
    impedance_text,
    megahertz,
    metres_and_feet,
    with_band,
)
from boomwright.solver import Ground

#: label and value, both text
Fact = tuple[str, str]

_MPH = 0.44704  # mile per hour in m/s, exact {nist-sp-811}


def ground_text(ground: Ground) -> str:
    """Describe a ground."""
    if ground.kind == "free space":
        return "none (free space)"
    if ground.kind == "perfect":
        return "perfect conductor"
    constants = (
        f"relative permittivity {ground.permittivity:g}, "
        f"conductivity {ground.conductivity * 1000.0:g} mS/m"
    )
    return f"{clean(ground.name)} ({constants})" if ground.name else constants


def _angle(radians: float, *, positive: str, negative: str) -> str:
    degrees = math.degrees(radians)
    return f"{abs(degrees):.4f}° {negative if degrees < 0 else positive}"


def position_text(site: Site) -> str:
    """Write the position of the station.

    Returns
    -------
    str
        latitude and longitude, or that the plan gives none [deg]
    """
    if site.latitude is None or site.longitude is None:
        return "not given"
    north = _angle(site.latitude, positive="N", negative="S")
    return f"{north}, {_angle(site.longitude, positive='E', negative='W')}"


def wind_text(site: Site, *, system: UnitSystem) -> str:
    """Write the wind the plan states, with its basis.

    Parameters
    ----------
    system
        unit system shown first

    Returns
    -------
    str
        speed, kind, edition and exposure or terrain; stated pressures; or that the plan gives
        none [m/s, mph]
    """
    basis = site.wind_basis
    if basis.pressure:
        form = ".2f" if system == "metric" else ".1f"
        stated = ", ".join(
            f"{quantity_text(value / 1e3, unit='kPa', system=system, form=form)} at "
            f"{quantity_text(height, unit='m', system=system, form='.0f')}"
            for height, value in basis.pressure
        )
        return f"peak pressure {stated}, {clean(basis.edition)}, by {clean(basis.by)}"
    if site.wind_speed is None:
        return "not given"
    metric, us = f"{site.wind_speed:.1f} m/s", f"{site.wind_speed / _MPH:.0f} mph"
    first, second = (metric, us) if system == "metric" else (us, metric)
    said = [
        "basic 10 min mean at 10 m" if basis.european else "3 s gust at 10 m",
        f"{clean(basis.kind)} speed" if basis.kind else "basis not stated",
        clean(basis.edition),
        f"exposure {clean(basis.exposure)}" if basis.exposure and not basis.european else "",
        f"terrain {clean(basis.terrain)}" if basis.terrain and basis.european else "",
    ]
    return f"{first} ({second}), {', '.join(part for part in said if part)}"


def site_facts(site: Site, *, system: UnitSystem) -> list[Fact]:
    """List what the plan says of the site.

    Parameters
    ----------
    system
        unit system shown first
    """
    ice = site.ice_thickness
    return [
        ("Position", position_text(site)),
        ("Ground", ground_text(site.ground)),
        ("Wind", wind_text(site, system=system)),
        ("Radial ice", "not given" if ice is None else f"{fixed(ice * 1000.0, 1)} mm"),
    ]


def heading_text(beam: Beam) -> str:
    """Write the heading of a beam.

    Returns
    -------
    str
        degrees clockwise from true north [deg]
    """
    return f"{math.degrees(beam.heading) % 360.0:g}° from true north"


def _height_text(beam: Beam, *, system: UnitSystem) -> str:
    text = metres_and_feet(beam.height, system=system)
    return f"{text}, {fixed(beam.height / beam.wavelength, 2)} wavelengths"


def title_facts(beam: Beam, *, system: UnitSystem) -> list[Fact]:
    """List the title block of one beam.

    Parameters
    ----------
    system
        unit system shown first
    """
    low, high = beam.band
    return [
        ("Band", f"{fixed(low / 1e6, 3)} – {megahertz(high)}"),
        ("Design frequency", megahertz(beam.design_frequency)),
        ("Height of boom", _height_text(beam, system=system)),
        ("Heading", heading_text(beam)),
    ]


def input_facts(readings: BeamReadings, *, system: UnitSystem) -> list[Fact]:
    """List everything the figures of one beam were computed from, dimensions apart.

    Parameters
    ----------
    system
        unit system shown first
    """
    beam = readings.beam
    conductivity = beam.material.conductivity
    metal = "lossless" if math.isinf(conductivity) else f"{fixed(conductivity / 1e6, 1)} MS/m"
    gap = (
        metres_and_feet(beam.feed.gap, system=system)
        if beam.feed.gap >= 1.0
        else (f"{fixed(beam.feed.gap * 1000.0, 1)} mm")
    )
    facts = [
        *title_facts(beam, system=system),
        ("Boom length", _boom_text(beam, system=system)),
        ("Elements", str(len(beam.elements))),
        ("Element material", f"{clean(beam.material.name)}, conductivity {metal}"),
        ("Feed", f"{clean(beam.feed.kind)}, gap {gap}"),
        ("SWR reference", f"{readings.reference_resistance:g} Ω"),
    ]
    if beam.wires:
        names = ", ".join(clean(wire.name) for wire in beam.wires)
        facts.append(("Further wires", names))
    return facts


def _boom_text(beam: Beam, *, system: UnitSystem) -> str:
    text = metres_and_feet(beam.boom_length, system=system)
    return f"{text}, {fixed(beam.boom_length / beam.wavelength, 2)} wavelengths"


def matched_readings(readings: BeamReadings) -> BeamReadings:
    """Take the standing wave ratio through the plan's match, where its circuit equations tell."""
    points = matched_points(readings.beam, readings.sweep, reference=readings.reference_resistance)
    return replace(readings, sweep=points)


def _swr_row(readings: BeamReadings) -> list[str]:
    sweep = matched_readings(readings).sweep
    worst = max(sweep, key=lambda point: point.swr)
    lowest = min(point.swr for point in sweep)
    return [
        "SWR over the band",
        f"{fixed(lowest, 2)} – {fixed(worst.swr, 2)}",
        band(worst.swr_error, 2),
        f"{match_words(readings.beam)}; highest at {megahertz(worst.frequency)}, against "
        f"{readings.reference_resistance:g} Ω",
    ]


def _ground_rows(readings: BeamReadings) -> list[list[str]]:
    over = readings.over_ground
    if over is None:
        return [["Take-off angle", "none", "", "the plan says free space: no ground, no lobes"]]
    where = f"boom at {fixed(over.height, 2)} m over {ground_text(over.ground)}"
    return [
        [
            "Take-off angle",
            f"{fixed(over.peak_elevation_deg, 1)}°",
            "see note",
            "elevation of the strongest lobe towards the heading",
        ],
        [
            "Gain at the take-off angle",
            f"{fixed(over.peak_gain_dbi, 2)} dBi",
            f"{band(over.gain_error_db, 2)} dB",
            where,
        ],
        [
            "Feed impedance over ground",
            f"{impedance_text(over.impedance)} Ω",
            f"{band(over.impedance_error, 1)} Ω",
            "at the design frequency",
        ],
    ]


def summary_rows(readings: BeamReadings) -> list[list[str]]:
    """List the main figures with their error bands."""
    here = readings.free_space
    at_design = f"free space, {megahertz(here.frequency)}"
    return [
        [
            "Gain",
            f"{fixed(here.gain_dbi, 2)} dBi",
            f"{band(here.gain_error_db, 2)} dB",
            f"{at_design}, towards the heading, losses included",
        ],
        [
            "Front-to-back ratio",
            f"{fixed(here.front_to_back_db, 1)} dB",
            f"{band(here.front_to_back_error_db, 1)} dB",
            f"{at_design}, exactly backwards",
        ],
        [
            "Front-to-rear ratio",
            f"{fixed(here.front_to_rear_db, 1)} dB",
            "",
            "against the strongest gain in the rear half-plane",
        ],
        _swr_row(readings),
        *_ground_rows(readings),
        [
            "Feed impedance",
            f"{impedance_text(here.impedance)} Ω",
            f"{band(here.impedance_error, 1)} Ω",
            at_design,
        ],
        [
            "Efficiency",
            f"{fixed(here.efficiency * 100.0, 1)} %",
            "",
            "radiated over accepted power",
        ],
        [
            "Power balance",
            f"{fixed(readings.power_balance * 100.0, 4)} %",
            "",
            "mismatch, as a share of the accepted power",
        ],
    ]


def headline(readings: BeamReadings) -> list[Fact]:
    """Pick the four numbers that stand on the first page."""
    here, over = readings.free_space, readings.over_ground
    worst: Sequence[str] = _swr_row(readings)
    return [
        ("Gain, free space", f"{with_band(here.gain_dbi, here.gain_error_db, 2)} dBi"),
        (
            "Front-to-back",
            f"{with_band(here.front_to_back_db, here.front_to_back_error_db, 1)} dB",
        ),
        ("SWR over the band", f"{worst[1]} {worst[2]}"),
        ("Take-off angle", f"{fixed(over.peak_elevation_deg, 1)}°" if over else "free space"),
    ]

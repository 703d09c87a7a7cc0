"""A plausible three-element beam with made-up readings, for tests of the rooms that show things.

Nothing here is computed by the field solver: the currents are chosen by hand, the patterns
are those of sinusoidal half-wave currents with the chosen phases over a flat ground with
Fresnel reflection, and the impedances are a straight line over frequency. Never a reference.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, Notice
from boomwright.parts import MATERIALS, Beam, Element, Feed, Role, TubeSection
from boomwright.plan import Plan, Site
from boomwright.plan.resolve import station_assembly
from boomwright.reach import BeamReadings, OverGround
from boomwright.reach.readings import Lobe, MainLobe
from boomwright.report.build.shop import shop_elements
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    ElementCurrent,
    Ground,
    PatternCut,
    SweepPoint,
)

_FLOOR_DBI = -60.0


def _half(*sections: tuple[float, float]) -> tuple[TubeSection, ...]:
    return tuple(TubeSection(diameter=d, length=length) for d, length in sections)


def fake_beam() -> Beam:
    """Three stepped elements for 20 m, the lengths rounded by hand."""
    inner, middle, tip = 0.0254, 0.0222, 0.01905
    return Beam(
        name="20m",
        band=(14.000e6, 14.350e6),
        design_frequency=14.175e6,
        height=16.0,
        heading=math.radians(300.0),
        material=MATERIALS["6061-T6"],
        feed=Feed(kind="split", gap=0.040),
        elements=(
            Element(
                role="reflector",
                position=0.0,
                half=_half((inner, 1.83), (middle, 1.22), (tip, 2.35)),
            ),
            Element(
                role="driven",
                position=2.6,
                half=_half((inner, 1.83), (middle, 1.22), (tip, 2.08)),
            ),
            Element(
                role="director",
                position=5.9,
                half=_half((inner, 1.83), (middle, 1.22), (tip, 1.76)),
            ),
        ),
    )


def fake_beam_of(*, elements: int, design_frequency: float, name: str = "beam") -> Beam:
    """Make a beam of any number of elements on any band, roughly in proportion."""
    wavelength = SPEED_OF_LIGHT / design_frequency
    made = []
    place = 0.0
    for i in range(elements):
        role: Role = "reflector" if i == 0 else "driven" if i == 1 else "director"
        half_length = wavelength * (0.252 if i == 0 else 0.238 if i == 1 else 0.229 - 0.002 * i)
        thick = 0.0254 if design_frequency < 25e6 else 0.0127
        parts = [(thick, 0.35), (thick * 0.875, 0.25), (thick * 0.75, 0.40)]
        half = _half(*((d, round(share * half_length, 3)) for d, share in parts))
        made.append(Element(role=role, position=round(place, 3), half=half))
        place += wavelength * (0.13 if i == 0 else 0.08 if i == 1 else 0.2)
    return Beam(
        name=name,
        band=(design_frequency * 0.99, design_frequency * 1.012),
        design_frequency=design_frequency,
        height=16.0,
        heading=math.radians(60.0),
        material=MATERIALS["6061-T6"],
        feed=Feed(kind="split", gap=0.03),
        elements=tuple(made),
    )


def _centre_currents(*, beam: Beam, frequency: float) -> NDArray[np.complex128]:
    detune = (frequency / beam.design_frequency - 1.0) * 100.0
    currents = []
    for i, element in enumerate(beam.elements):
        spacing = (element.position - beam.elements[beam.driven_index].position) / beam.wavelength
        if element.role == "driven":
            currents.append(1.0 + 0.0j)
        elif element.role == "reflector":
            turn = math.pi - 2.0 * math.pi * abs(spacing) * 1.06 - 0.10 * detune
            currents.append(0.62 * np.exp(1j * turn))
        else:
            turn = -2.0 * math.pi * spacing * 1.28 - 0.9 - 0.12 * detune
            currents.append(0.60 * 0.97**i * np.exp(1j * turn))
    return np.array(currents)


def _intensity(
    *, beam: Beam, frequency: float, x: NDArray[np.float64], y: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Radiation intensity of the currents towards directions with cosines x, y (any scale)."""
    wave_number = 2.0 * math.pi * frequency / SPEED_OF_LIGHT
    factor = sum(
        current * np.exp(1j * wave_number * element.position * x)
        for current, element in zip(
            _centre_currents(beam=beam, frequency=frequency), beam.elements, strict=True
        )
    )
    across = np.sqrt(np.maximum(1.0 - y**2, 1e-12))
    return np.abs(factor * np.cos(0.5 * math.pi * y) / across) ** 2


def _mean_intensity(*, beam: Beam, frequency: float) -> float:
    z, weights = np.polynomial.legendre.leggauss(24)
    azimuth = np.arange(72) * math.radians(5.0)
    across = np.sqrt(1.0 - z[:, None] ** 2)
    values = _intensity(
        beam=beam, frequency=frequency, x=across * np.cos(azimuth), y=across * np.sin(azimuth)
    )
    return float(np.sum(weights[:, None] * values) / (2.0 * len(azimuth)))


def _gain_dbi(
    *,
    beam: Beam,
    frequency: float,
    azimuth_deg: NDArray[np.float64],
    elevation_deg: NDArray[np.float64],
) -> NDArray[np.float64]:
    azimuth, elevation = np.radians(azimuth_deg), np.radians(elevation_deg)
    values = _intensity(
        beam=beam,
        frequency=frequency,
        x=np.cos(elevation) * np.cos(azimuth),
        y=np.cos(elevation) * np.sin(azimuth),
    )
    mean = _mean_intensity(beam=beam, frequency=frequency)
    gain = 10.0 * np.log10(np.maximum(values / mean, 1e-12))
    return np.asarray(np.maximum(gain, _FLOOR_DBI))


def _ground_gain_db(
    *, ground: Ground, frequency: float, height: float, elevation_deg: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Height gain of a horizontal current over a flat ground, by its Fresnel coefficient."""
    sine = np.sin(np.radians(elevation_deg))
    if ground.kind == "perfect":
        reflection = -np.ones_like(sine, dtype=complex)
    else:
        root = np.sqrt(ground.complex_permittivity(frequency=frequency) - 1.0 + sine**2)
        reflection = (sine - root) / (sine + root)
    path = 4.0 * math.pi * frequency / SPEED_OF_LIGHT * height * sine
    return np.asarray(
        20.0 * np.log10(np.maximum(np.abs(1.0 + reflection * np.exp(-1j * path)), 1e-9))
    )


def _sweep_point(*, beam: Beam, frequency: float, reference: float) -> SweepPoint:
    azimuth = np.arange(0.0, 360.0, 1.0)
    gain = _gain_dbi(
        beam=beam, frequency=frequency, azimuth_deg=azimuth, elevation_deg=np.zeros_like(azimuth)
    )
    detune = (frequency / beam.design_frequency - 1.0) * 100.0
    impedance = complex(47.0 - 4.2 * detune - 0.9 * detune**2, 1.5 + 13.0 * detune)
    reflection = abs((impedance - reference) / (impedance + reference))
    forward = float(gain[0])
    return SweepPoint(
        frequency=frequency,
        impedance=impedance,
        swr=(1.0 + reflection) / (1.0 - reflection),
        gain_dbi=forward,
        front_to_back_db=forward - float(gain[180]),
        front_to_rear_db=forward - float(np.max(gain[90:271])),
        efficiency=0.985,
        impedance_error=0.6 + 0.2 * abs(detune),
        swr_error=0.03 + 0.02 * abs(detune),
        gain_error_db=0.05,
        front_to_back_error_db=0.8,
    )


def _currents(*, beam: Beam) -> tuple[ElementCurrent, ...]:
    centres = _centre_currents(beam=beam, frequency=beam.design_frequency)
    made, directors = [], 0
    for element, centre in zip(beam.elements, centres, strict=True):
        directors += element.role == "director"
        along = np.linspace(-element.half_length, element.half_length, 81)
        shape = np.sin(0.5 * math.pi * (1.0 - np.abs(along) / element.half_length))
        lag = np.exp(-0.05j * np.abs(along) / element.half_length)
        label = f"director {directors}" if element.role == "director" else element.role
        made.append(
            ElementCurrent(
                label=label, place=element.position, along=along, current=centre * shape * lag
            )
        )
    return tuple(made)


def _over_ground(*, beam: Beam, ground: Ground) -> OverGround:
    frequency = beam.design_frequency

    def cut(azimuth: NDArray[np.float64], elevation: NDArray[np.float64]) -> NDArray[np.float64]:
        gain = _gain_dbi(
            beam=beam, frequency=frequency, azimuth_deg=azimuth, elevation_deg=elevation
        ) + _ground_gain_db(
            ground=ground, frequency=frequency, height=beam.height, elevation_deg=elevation
        )
        return np.asarray(np.maximum(gain, _FLOOR_DBI))

    elevation = np.arange(0.0, 180.5, 0.5)
    gain = cut(np.zeros_like(elevation), elevation)
    front = gain[: len(gain) // 2 + 1]
    middle = front[1:-1]
    tops = np.flatnonzero((middle > front[:-2]) & (middle >= front[2:])) + 1
    dips = np.flatnonzero((middle < front[:-2]) & (middle <= front[2:])) + 1
    best = int(np.argmax(front))
    azimuth = np.arange(0.0, 361.0, 1.0)
    peak_elevation = float(elevation[best])
    return OverGround(
        ground=ground,
        height=beam.height,
        impedance=48.5 + 3.0j,
        impedance_error=0.3,
        peak_gain_dbi=float(front[best]),
        peak_elevation_deg=peak_elevation,
        gain_error_db=0.1,
        lobes=tuple(
            Lobe(elevation_deg=float(elevation[i]), gain_dbi=float(front[i])) for i in tops
        ),
        nulls_deg=tuple(float(elevation[i]) for i in dips),
        elevation_pattern=PatternCut(
            plane="elevation", at_deg=0.0, angle_deg=elevation, gain_dbi=gain
        ),
        azimuth_pattern=PatternCut(
            plane="azimuth",
            at_deg=peak_elevation,
            angle_deg=azimuth,
            gain_dbi=cut(azimuth, np.full_like(azimuth, peak_elevation)),
        ),
        main_lobe=MainLobe(
            azimuth_deg=0.0, elevation_deg=peak_elevation, gain_dbi=float(front[best])
        ),
    )


def fake_readings(*, over_ground: bool = True, beam: Beam | None = None) -> BeamReadings:
    """Make every reading of :func:`fake_beam`, or of the beam given, by array factor alone."""
    beam = beam or fake_beam()
    reference = 50.0
    frequencies = np.linspace(*beam.band, 15)
    degrees = np.arange(0.0, 361.0, 1.0)
    flat = np.zeros_like(degrees)
    ground = GROUND_CLASSES["medium dry"] if over_ground else FREE_SPACE
    return BeamReadings(
        beam=beam,
        reference_resistance=reference,
        sweep=tuple(
            _sweep_point(beam=beam, frequency=float(f), reference=reference) for f in frequencies
        ),
        free_space=_sweep_point(beam=beam, frequency=beam.design_frequency, reference=reference),
        power_balance=2e-5,
        azimuth_pattern=PatternCut(
            plane="azimuth",
            at_deg=0.0,
            angle_deg=degrees,
            gain_dbi=_gain_dbi(
                beam=beam,
                frequency=beam.design_frequency,
                azimuth_deg=degrees,
                elevation_deg=flat,
            ),
        ),
        elevation_pattern=PatternCut(
            plane="elevation",
            at_deg=0.0,
            angle_deg=degrees,
            gain_dbi=_gain_dbi(
                beam=beam,
                frequency=beam.design_frequency,
                azimuth_deg=flat,
                elevation_deg=degrees,
            ),
        ),
        currents=_currents(beam=beam),
        over_ground=_over_ground(beam=beam, ground=ground) if over_ground else None,
        notices=(
            Notice(
                code="fake.readings",
                text="These figures are made up for a test; do not build from them.",
                severity="doubt",
            ),
        ),
    )


def fake_station(beam):
    """Every part of a plan that holds a beam alone."""
    return station_assembly(Plan(title="", site=Site(ground=FREE_SPACE), beams=(beam,)))


def shop_of(beam):
    """Elements of a beam as they are cut, read off the parts of a plan that holds it alone."""
    return shop_elements(fake_station(beam).of(beam.name), beam=beam)

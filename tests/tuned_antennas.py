"""Antennas that several tuning tests measure, and what a meter shows of them."""

from dataclasses import replace
from functools import cache

import numpy as np
from scipy.interpolate import BarycentricInterpolator

from antennas import beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import COAX_TYPES, GammaShape, HairpinShape, SeriesCapacitor
from boomwright.solver import FREE_SPACE
from boomwright.tuning import Bench, Installation, after_changes, at_line, at_meter

DESIGN = 14.175e6
BAND = (14.0e6, 14.35e6)
FREQUENCIES = np.linspace(*BAND, 31)


def station(*, ground=FREE_SPACE, height=14.0, line_length=18.0, line="RG-213"):
    """Three elements with a hairpin, matched to better than 1.05 in free space."""
    wavelength = SPEED_OF_LIGHT / DESIGN
    three = beam(
        lengths=[length * wavelength for length in (0.494, 0.4673, 0.445)],
        places=[place * wavelength for place in (0.0, 0.14, 0.30)],
        diameter=0.022,
        driven=1,
        frequency=DESIGN,
        height=height,
        material="6061-T6",
    )
    return Installation(
        beam=replace(three, band=BAND),
        ground=ground,
        shape=HairpinShape(length=0.598, rod_diameter=0.00635, spacing=0.05, gap=0.022),
        line=COAX_TYPES[line] if line else None,
        line_length=line_length if line else 0.0,
        feed_error=0.015,
    )


def gamma_dipole():
    """A 6 m dipole with a gamma rod and its capacitor, near a match, in free space."""
    frequency, wavelength = 50.2e6, SPEED_OF_LIGHT / 50.2e6
    one = beam(
        lengths=[0.475 * wavelength], places=[0.0], diameter=0.016, driven=0,
        frequency=frequency, height=9.0, material="6061-T6",
    )  # fmt: skip
    return Installation(
        beam=replace(one, band=(50.0e6, 50.8e6)),
        shape=GammaShape(rod_length=0.4606, rod_diameter=0.006, spacing=0.05, capacitance=20.5e-12),
        stages=(SeriesCapacitor(capacitance=20.5e-12),),
        line=COAX_TYPES["RG-213"],
        line_length=12.0,
        feed_error=0.02,
    )


@cache
def _at_nodes(installation):
    low, high = installation.beam.band[0] * 0.98, installation.beam.band[1] * 1.02
    nodes = 0.5 * (low + high) - 0.5 * (high - low) * np.cos(np.pi * np.arange(9) / 8)
    return nodes, Bench(installation).impedance(installation, nodes)


def sweep_of(planned, errors, frequencies):
    """Reflection at the meter with errors, by full solutions, without noise."""
    built = after_changes(installation=planned, changes=errors)
    metal = replace(built, line=None, line_length=0.0)
    nodes, solved = _at_nodes(metal)
    port = BarycentricInterpolator(nodes, solved)(frequencies)
    start = at_line(installation=built, impedance=port, frequencies=frequencies)
    return at_meter(installation=built, impedance=start, frequencies=frequencies)


def swr_of(planned, errors):
    """Standing wave ratio where the line begins, at the design frequency."""
    errors = {key: value for key, value in errors.items() if not key.startswith("line.")}
    at = np.array([planned.beam.design_frequency])
    bare = replace(planned, line=None, line_length=0.0, reference=planned.target)
    size = float(np.abs(sweep_of(bare, errors, at))[0])
    return (1.0 + size) / (1.0 - size)

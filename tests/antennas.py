"""Antennas that several tests build, straight from the solver's own parts."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import FeedLoad
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.solver import (
    Detail,
    GapPlace,
    Mirror,
    PlacedRun,
    Port,
    RunShape,
    WirePath,
    WireSystem,
    assemble,
    moments,
    solve_beam,
    solve_currents,
    wire_network,
    working_detail,
)

DATA = Path(__file__).parent / "validation" / "data"


def read_data(name):
    """Read a table of reference figures."""
    return tomllib.loads((DATA / name).read_text(encoding="utf-8"))


def solved_beam(antenna, *frequencies, **more):
    """Solve a beam in the working detail of the highest frequency.

    Without a frequency it is solved at its design frequency, in the detail of its band.
    """
    at, finest = frequencies, max(frequencies, default=max(antenna.band))
    return solve_beam(
        beam=antenna,
        frequencies=np.array(at or (antenna.design_frequency,)),
        detail=working_detail(frequency=finest),
        **more,
    )


def rod(*, half, radius, gap, end="closed tip"):
    """Half of a uniform rod fed in its middle, mirrored at y = 0."""
    return stepped_rod(sections=((half, radius),), gap=gap, end=end)


def stepped_rod(*, sections, gap, end="closed tip"):
    """Half of a rod of tubes (length, radius), fed in its middle, mirrored at y = 0."""
    shape = RunShape(sections=tuple(sections), gaps=((0.0, gap),), start="mirror", end=end)
    run = PlacedRun(shape=shape, origin=(0.0, 0.0, 0.0), direction=(0.0, 1.0, 0.0))
    return WireSystem(runs=(run,), mirrors=(Mirror(axis=1),), ports=(Port(run=0),))


def rods_in_parallel(*, halves, radius, places, gaps, end="closed tip"):
    """Halves of parallel uniform rods, all mirrored at y = 0, each with a gap if it has one."""
    runs = tuple(
        PlacedRun(
            shape=RunShape(
                sections=((half, radius),),
                gaps=((0.0, gap),) if gap else (),
                start="mirror",
                end=end,
            ),
            origin=(place, 0.0, 0.0),
            direction=(0.0, 1.0, 0.0),
        )
        for half, place, gap in zip(halves, places, gaps, strict=True)
    )
    ports = tuple(Port(run=number) for number, gap in enumerate(gaps) if gap)
    return WireSystem(runs=runs, mirrors=(Mirror(axis=1),), ports=ports)


def solve(system, *, frequency, detail=None):
    """Solve a system at one frequency."""
    detail = detail or working_detail(frequency=frequency)
    assembly = assemble(system=system, detail=detail, highest_frequency=frequency)
    return solve_currents(assembly=assembly, frequencies=np.array([frequency]))


def impedance(system, *, frequency, detail=None):
    """Impedance at the only port of a system."""
    return complex(1.0 / solve(system, frequency=frequency, detail=detail).admittance[0, 0, 0])


def radiation(currents, *, port=0):
    """Moments for one volt at a port, and the power it delivers."""
    source = moments(
        assembly=currents.assembly,
        unknowns=currents.unknowns[:, :, port],
        frequencies=currents.frequencies,
    )
    return source, 0.5 * float(currents.admittance[0, port, port].real)


def beam(*, lengths, places, diameter, driven, frequency, gap=None, height=0.0, material="perfect"):
    """Build a beam of uniform elements; full lengths and places in metres."""
    elements = tuple(
        Element(
            role="driven" if index == driven else "reflector" if index < driven else "director",
            position=place,
            half=(TubeSection(diameter=diameter, length=length / 2.0),),
        )
        for index, (length, place) in enumerate(zip(lengths, places, strict=True))
    )
    return of_elements(
        elements,
        frequency=frequency,
        gap=diameter if gap is None else gap,
        height=height,
        material=material,
    )


def of_elements(elements, *, frequency, gap, height=0.0, material="perfect"):
    """Make a beam of its elements."""
    return Beam(
        name="test",
        band=(frequency, frequency),
        design_frequency=frequency,
        height=height,
        heading=0.0,
        material=MATERIALS[material],
        feed=Feed(kind="split", gap=gap),
        elements=tuple(elements),
    )


def beam_in_wavelengths(*, lengths, spacings, diameter, driven, frequency=SPEED_OF_LIGHT):
    """Build a beam from figures in wavelengths; at 299.79 MHz a wavelength is one metre."""
    wavelength = SPEED_OF_LIGHT / frequency
    places = np.concatenate([[0.0], np.cumsum(spacings)]) * wavelength
    return beam(
        lengths=[length * wavelength for length in lengths],
        places=places.tolist(),
        diameter=diameter * wavelength,
        driven=driven,
        frequency=frequency,
    )


def wire(points, radius, *, name="wire", conductivity=math.inf):
    """Make a wire of one radius through some points."""
    points = np.asarray(points, dtype=float)
    return WirePath(
        name=name,
        points=points,
        radii=np.full(len(points) - 1, radius),
        conductivity=conductivity,
    )


def fed(*wires, along, width, path=0, perfect_ground=False):
    """Join wires into a system with one gap."""
    return wire_network(
        paths=wires,
        gaps=(GapPlace(path=path, along=along, width=width),),
        perfect_ground=perfect_ground,
    )


def plain_detail(*, wavelength, degree=4):
    """A detail without any grading, for thin wires whose edges do not matter."""
    return Detail(
        first=0.0,
        ratio=math.inf,
        step=0.0,
        degree=degree,
        short_degree=degree,
        long_piece=0.06 * wavelength,
        edge_degree=degree,
        step_degree=2,
        longest=0.25 * wavelength,
    )


def resonant_load(*, frequency: float, impedance: complex, quality: float) -> FeedLoad:
    """A resistance with a reactance that rises steadily: Z + j 2 Q R (f - f0) / f0."""
    off = np.linspace(-0.1 / 2.0, 0.1 / 2.0, 201)
    return FeedLoad(
        frequency=frequency * (1.0 + off),
        impedance=impedance + 2j * quality * complex(impedance).real * off,
    )

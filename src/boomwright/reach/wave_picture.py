"""The wave in the air around a beam: who sends what, and how it adds up.

A picture is a grid of complex field values for every element on its own; the total is their
sum. The phase is held against the current at the feed, the strength belongs to a stated power.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, read_only
from boomwright.parts import Beam
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.pattern_grid import PatternGrid, pattern_grid
from boomwright.reach.wave_field import CLOSE_WAVELENGTHS, field_along, ground_rest
from boomwright.solver import (
    BeamSolution,
    Ground,
    Preparer,
    Sources,
    element_currents,
    gain_dbi,
    near_sources,
    prepare_run,
    solve_beam,
    working_detail,
)
from boomwright.solver.half_space import image_factor

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: power at the feed the pictures hold for [W]
PICTURE_POWER = 100.0
#: how far the level picture reaches behind, ahead and to each side of the beam [wavelengths]
_BEHIND, _AHEAD, _ASIDE = 1.1, 2.1, 1.0
#: height of the upright picture above the beam, and ahead of it [wavelengths]
_ABOVE, _UPRIGHT_AHEAD = 1.5, 3.0
#: points of a picture on each wavelength
_POINTS = 26
#: the level picture lies this far above the elements, clear of their close field [wavelengths]
_CLEARANCE = 0.02
#: step of the cut the lobes are read from [deg]
_LOBE_STEP = 0.5
#: a run lies on an element when it is this near its axis [m]
_ON_AXIS = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one element sends, held against what the driven element sends.

    Parameters
    ----------
    label
        role and number, ``driven element``, or ``further wires`` [-]
    role
        ``reflector``, ``driven``, ``director`` or ``wires`` [-]
    place
        position along the boom [m]
    current
        current at its middle over that of the driven element; 0 for further wires [A/A]
    forward
        its wave far ahead, at the horizon, over the driven element's [-]
    backward
        the same far behind [-]
    """

    label: str
    role: str
    place: float
    current: complex
    forward: complex
    backward: complex


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WavePlane:
    """The field component along the elements on a grid.

    Parameters
    ----------
    kind
        ``level`` (seen from above) or ``upright`` (through boom and heading) [-]
    along
        places along the heading, from the boom's zero [m] (u,)
    across
        level: places to the left of the heading; upright: heights above ground, or above the
        boom in free space [m] (v,)
    height
        height of a level plane above ground, or above the boom in free space [m]
    shares
        field of each share, peak, for ``PICTURE_POWER`` [V/m] (n_shares, v, u)
    """

    kind: Literal["level", "upright"]
    along: Floats
    across: Floats
    height: float
    shares: Complexes

    def __post_init__(self) -> None:
        object.__setattr__(self, "along", read_only(self.along))
        object.__setattr__(self, "across", read_only(self.across))
        object.__setattr__(self, "shares", read_only(self.shares, complex))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WavePicture:
    """The wave around a beam at one frequency.

    Parameters
    ----------
    beam
        the beam [-]
    ground
        the ground below it [-]
    frequency
        frequency [Hz]
    power
        power at the feed the fields hold for [W]
    shares
        each element's part, in plan order, further wires last [-] (n_shares,)
    level
        seen from above [-]
    upright
        cut through boom and heading [-]
    pattern
        gain in all directions [-]
    lobes
        elevation [deg] and gain [dBi] of the lobes forward, lowest first; none in free space
        (n_lobes, 2)
    """

    beam: Beam
    ground: Ground
    frequency: float
    power: float
    shares: tuple[Share, ...]
    level: WavePlane
    upright: WavePlane
    pattern: PatternGrid
    lobes: tuple[tuple[float, float], ...]


def wave_picture(
    *, beam: Beam, ground: Ground, frequency: float, prepare: Preparer = prepare_run
) -> WavePicture:
    """Compute the wave around a beam.

    Parameters
    ----------
    beam
        the beam [-]
    ground
        ground below it [-]
    frequency
        frequency [Hz]
    prepare
        prepares one run of wire [-]

    Returns
    -------
    WavePicture
        the wave [-]

    Raises
    ------
    SolverError
        when the geometry is refused
    """
    solution = solve_beam(
        beam=beam,
        frequencies=np.array([frequency]),
        detail=working_detail(frequency=max(*beam.band, frequency)),
        ground=ground,
        prepare=prepare,
    )
    senders = _senders(solution)
    wavelength = SPEED_OF_LIGHT / frequency
    lift = 0.0 if np.isfinite(solution.currents.assembly.system.ground_height) else beam.height
    in_the_air = ground.kind != "free space"
    boom = beam.height if in_the_air else 0.0
    strength = float(np.sqrt(PICTURE_POWER / solution.accepted[0]))
    lays = [_laying(solution, sender, lift if in_the_air else 0.0) for sender in senders]
    level, upright = _fill(
        (
            _level_plane(beam, boom, wavelength),
            _upright_plane(beam, boom, wavelength, in_the_air=in_the_air),
        ),
        lays,
        ground,
        wavelength,
        strength,
    )
    return WavePicture(
        beam=beam,
        ground=ground,
        frequency=frequency,
        power=PICTURE_POWER,
        shares=_shares(beam, senders, lays, wavelength, solution),
        level=level,
        upright=upright,
        pattern=pattern_grid(solution=solution, ground=ground, height=beam.height),
        lobes=_lobes(solution, ground, beam.height) if in_the_air else (),
    )


def _lobes(
    solution: BeamSolution, ground: Ground, height: float
) -> tuple[tuple[float, float], ...]:
    angle = np.arange(0.0, 90.0 + _LOBE_STEP / 2.0, _LOBE_STEP)
    gain = gain_dbi(
        solution=solution,
        azimuth=np.zeros(len(angle)),
        elevation=np.radians(angle),
        ground=ground,
        height=height,
    )[0]
    lobes, _ = forward_lobes(elevation_deg=angle, gain_dbi=gain)
    return tuple((float(place), float(level)) for place, level in lobes)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sender:
    """An element, or all further wires, with the runs that model it."""

    label: str
    role: str
    place: float
    runs: tuple[int, ...]


def _senders(solution: BeamSolution) -> list[_Sender]:
    placed = solution.currents.assembly.system.runs
    left = set(range(len(placed)))
    found = []
    directors = sum(e.role == "director" for e in solution.beam.elements)
    number = 0
    for element in solution.beam.elements:
        label: str = "driven element" if element.role == "driven" else element.role
        if element.role == "director":
            number += 1
            label = f"director {number}" if directors > 1 else label
        mine = tuple(
            run
            for run in sorted(left)
            if abs(placed[run].origin[0] - element.position) < _ON_AXIS
            and abs(placed[run].origin[2]) < _ON_AXIS
            and abs(abs(placed[run].direction[1]) - 1.0) < _ON_AXIS
        )
        left -= set(mine)
        found.append(_Sender(label=label, role=element.role, place=element.position, runs=mine))
    if left:
        found.append(
            _Sender(label="further wires", role="wires", place=0.0, runs=tuple(sorted(left)))
        )
    return found


def _laying(solution: BeamSolution, sender: _Sender, lift: float) -> Callable[[float], Sources]:
    """Lay the short currents of one sender only, for one ampere at the feed."""
    assembly = solution.currents.assembly
    rows = np.zeros(assembly.offsets[-1], dtype=bool)
    for run in sender.runs:
        rows[assembly.offsets[run] : assembly.offsets[run + 1]] = True
    alone = replace(assembly, expand=np.where(rows[:, None], assembly.expand, 0.0))
    unknowns = solution.currents.unknowns[0, :, 0] * solution.impedance[0]

    def lay(nearest: float) -> Sources:
        every = near_sources(
            assembly=alone,
            unknowns=unknowns,
            frequency=float(solution.frequencies[0]),
            nearest=nearest,
        )
        kept = np.abs(every.moments).any(axis=1)
        return replace(
            every, points=every.points[kept] + [0.0, 0.0, lift], moments=every.moments[kept]
        )

    return lay


def _level_plane(beam: Beam, boom: float, wavelength: float) -> WavePlane:
    places = [element.position for element in beam.elements]
    start, end = min(places) - _BEHIND * wavelength, max(places) + _AHEAD * wavelength
    side = _ASIDE * wavelength
    step = wavelength / _POINTS
    along = np.linspace(start, end, int((end - start) / step) + 1)
    across = np.linspace(-side, side, 2 * int(side / step) + 1)
    return WavePlane(
        kind="level",
        along=along,
        across=across,
        height=boom + _CLEARANCE * wavelength,
        shares=np.zeros((0, len(across), len(along)), dtype=complex),
    )


def _upright_plane(beam: Beam, boom: float, wavelength: float, *, in_the_air: bool) -> WavePlane:
    places = [element.position for element in beam.elements]
    start = min(places) - _BEHIND * wavelength
    end = max(places) + _UPRIGHT_AHEAD * wavelength
    low = 0.0 if in_the_air else -_ASIDE * wavelength
    high = boom + _ABOVE * wavelength if in_the_air else _ASIDE * wavelength
    step = wavelength / _POINTS
    along = np.linspace(start, end, int((end - start) / step) + 1)
    across = np.linspace(low, high, int((high - low) / step) + 1)
    return WavePlane(
        kind="upright",
        along=along,
        across=across,
        height=boom,
        shares=np.zeros((0, len(across), len(along)), dtype=complex),
    )


def _grid(plane: WavePlane, clear: float, places: list[float]) -> Floats:
    """Points of a plane, those in a wire pushed out to its clearance."""
    along, across = np.meshgrid(plane.along, plane.across)
    points = np.zeros((along.size, 3))
    points[:, 0] = along.ravel()
    if plane.kind == "level":
        points[:, 1], points[:, 2] = across.ravel(), plane.height
        return points
    points[:, 2] = across.ravel()
    for place in places:
        away = points[:, [0, 2]] - [place, plane.height]
        reach = np.hypot(away[:, 0], away[:, 1])
        inside = reach < clear
        ray = np.where(reach[:, None] > 0.0, away / np.maximum(reach, 1e-12)[:, None], [0.0, 1.0])
        points[inside] = np.column_stack(
            [
                place + clear * ray[inside, 0],
                np.zeros(inside.sum()),
                plane.height + clear * ray[inside, 1],
            ]
        )
    return points


def _fill(
    planes: tuple[WavePlane, ...],
    lays: list[Callable[[float], Sources]],
    ground: Ground,
    wavelength: float,
    strength: float,
) -> list[WavePlane]:
    clear = _CLEARANCE * wavelength
    coarse = [lay(CLOSE_WAVELENGTHS * wavelength) for lay in lays]
    places = [float(each.points[:, 0].mean()) for each in coarse]
    clouds = [_grid(plane, clear, places) for plane in planes]
    image: complex = 0.0 if ground.kind == "free space" else 1.0
    rest = None
    if ground.kind == "real":
        image = image_factor(ground=ground, frequency=coarse[0].frequency)
        rest = ground_rest(sources=coarse, points=clouds, ground=ground)
    filled = []
    for plane, points in zip(planes, clouds, strict=True):
        fields = [
            field_along(
                lay=lay,
                points=points,
                clearance=clear,
                wavelength=wavelength,
                image=image,
                rest=rest,
            ).reshape(len(plane.across), len(plane.along))
            for lay in lays
        ]
        filled.append(replace(plane, shares=strength * np.stack(fields)))
    return filled


def _shares(
    beam: Beam,
    senders: list[_Sender],
    lays: list[Callable[[float], Sources]],
    wavelength: float,
    solution: BeamSolution,
) -> tuple[Share, ...]:
    wavenumber = 2.0 * np.pi / wavelength
    ahead, behind = [], []
    for lay in lays:
        sources = lay(CLOSE_WAVELENGTHS * wavelength)
        moment, place = sources.moments[:, 1], sources.points[:, 0]
        ahead.append(complex((moment * np.exp(1j * wavenumber * place)).sum()))
        behind.append(complex((moment * np.exp(-1j * wavenumber * place)).sum()))
    middle = [
        complex(each.current[len(each.current) // 2])
        for each in element_currents(solution=solution, at=0, points=3)
    ]
    # Further wires have no middle.
    middle += [0.0j] * (len(senders) - len(middle))
    driven = beam.driven_index
    return tuple(
        Share(
            label=sender.label,
            role=sender.role,
            place=sender.place,
            current=middle[i] / middle[driven],
            forward=ahead[i] / ahead[driven],
            backward=behind[i] / behind[driven],
        )
        for i, sender in enumerate(senders)
    )

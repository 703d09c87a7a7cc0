"""Solving a beam with its braid, and the choke that is enough."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.feed.braid import Braid, BraidSolution, pattern_gain_dbi
from boomwright.feed.field_model import FieldSetting, solve_wires, whole_system
from boomwright.feed.field_shapes import SplitShape
from boomwright.parts import Beam
from boomwright.solver import (
    Currents,
    GapPlace,
    Moments,
    WirePath,
    beam_paths,
    far_field,
    moments,
    radial_paths,
)
from boomwright.solver.currents import current_on_run

#: azimuths of the pattern
_AZIMUTHS = 360
#: width of the choke's gap in the braid [m]
_CHOKE_GAP = 0.02
#: places on each stretch of braid at which its current is read
_READ_POINTS = 200
#: chokes tried for the smallest one that is enough [ohm]
_CHOKES: Final = np.geomspace(1.0, 1e6, 241)
#: elevations searched for the main lobe over ground [rad]
_ELEVATIONS: Final = np.radians(np.arange(0.5, 90.0, 0.5))


def solve_braid(
    *,
    beam: Beam,
    braid: Braid,
    frequency: float | None = None,
    setting: FieldSetting | None = None,
) -> BraidSolution:
    """Solve a split beam with the outside of its line as a wire.

    The braid is tied to the half of the driven element at negative y, as the line's shield is
    without a balun, and to the radials of an upright one; the choke sits in its first stretch.

    Args:
        frequency: frequency; None takes the design frequency [Hz]
        setting: ground and memory; None is free space
    """
    setting = setting or FieldSetting()
    at = np.array([beam.design_frequency if frequency is None else frequency])
    plain = solve_wires(
        beam=beam,
        system=SplitShape(gap=beam.feed.gap).wires(beam=beam, setting=setting),
        frequencies=at,
        setting=setting,
    )
    split = SplitShape(gap=beam.feed.gap).modelled_gap(beam=beam)
    path, choke_at = braid_path(beam=beam, braid=braid, setting=setting, split=split)
    elements = beam_paths(beam=beam, halves=False, joint=-float(path.points[0, 1]))
    driven = beam.elements[beam.driven_index]
    feed_at = driven.half_length
    if driven.upright:
        elements, feed_at = (*elements, *radial_paths(beam=beam)), split
    system = whole_system(
        beam=beam,
        paths=(*elements, path),
        gaps=(
            GapPlace(path=beam.driven_index, along=feed_at, width=split),
            GapPlace(path=len(elements), along=choke_at, width=_CHOKE_GAP),
        ),
        setting=setting,
    )
    currents = solve_wires(beam=beam, system=system, frequencies=at, setting=setting).currents
    azimuth = np.arange(_AZIMUTHS) * 2.0 * np.pi / _AZIMUTHS
    lifted = plain.source.lifted(height=beam.height)
    elevation = _lobe_elevation(lifted, setting)
    level = np.full(_AZIMUTHS, elevation)
    vertical, horizontal = far_field(
        source=lifted, azimuth=azimuth, elevation=level, ground=setting.ground
    )
    return BraidSolution(
        beam=beam,
        braid=braid,
        frequency=float(at[0]),
        elevation=elevation,
        azimuth=azimuth,
        plain_gain_dbi=pattern_gain_dbi(vertical[0], horizontal[0], float(plain.accepted[0])),
        plain_impedance=complex(plain.impedance[0]),
        admittance=currents.admittance[0],
        fields=_fields(currents, beam, azimuth, level, setting),
        braid_current=_currents_on(currents, path),
    )


def _fields(
    currents: Currents, beam: Beam, azimuth: Floats, elevation: Floats, setting: FieldSetting
) -> Complexes:
    """Far field of one volt at each port."""
    found = []
    for port in range(2):
        source = moments(
            assembly=currents.assembly,
            unknowns=currents.unknowns[:, :, port],
            frequencies=currents.frequencies,
        ).lifted(height=beam.height)
        vertical, horizontal = far_field(
            source=source, azimuth=azimuth, elevation=elevation, ground=setting.ground
        )
        found.append((vertical[0], horizontal[0]))
    return np.array(found)


def _lobe_elevation(source: Moments, setting: FieldSetting) -> float:
    if setting.ground.kind == "free space":
        return 0.0
    vertical, horizontal = far_field(
        source=source,
        azimuth=np.zeros_like(_ELEVATIONS),
        elevation=_ELEVATIONS,
        ground=setting.ground,
    )
    strength = np.abs(vertical[0]) ** 2 + np.abs(horizontal[0]) ** 2
    return float(_ELEVATIONS[int(np.argmax(strength))])


def braid_path(
    *, beam: Beam, braid: Braid, setting: FieldSetting, split: float
) -> tuple[WirePath, float]:
    """The line as a wire, from the driven element to its lower end.

    Args:
        split: width of the split it is tied beside [m]

    Returns:
        the wire [-], and the place of the choke along it [m]

    Raises:
        BoomwrightError: naming what cannot be and the remedy
    """
    element = beam.elements[beam.driven_index]
    tube = element.half[0].diameter
    aside = 0.0 if element.upright else max(split, tube, 2.0 * braid.diameter)
    turn = element.corners[1]
    if (
        element.bent
        and not element.upright
        and turn[1] < 3.0 * aside
        and turn[0] == element.position
    ):
        # Wire that turns this near its feed has the braid at the turn: nothing runs beside it.
        aside = turn[1]
    least = max(2.0 * _CHOKE_GAP, 2.0 * tube, 2.0 * braid.diameter)
    middle = element.corners[0][2]
    grounded = braid.grounded
    if grounded and setting.ground.kind != "perfect":
        msg: Value = (
            "braid: a lower end bonded to earth is modelled over perfect ground only; take "
            "perfect ground, or end the line above real ground"
        )
        raise BoomwrightError(msg)
    down = beam.height + middle - braid.drop if grounded else braid.down
    if braid.drop < least or down < least:
        raise BoomwrightError(
            phrase(
                "braid: {drop} down from the element and {down} down the mast; give each at least "
                "{least}",
                drop=Quantity(braid.drop, "sawn length"),
                down=Quantity(down, "sawn length"),
                least=Quantity(least, "sawn length"),
            )
        )
    x, low = element.position, middle - braid.drop
    if element.upright:
        x = element.corners[0][0]
    points = [(x, -aside, middle), (x, -aside, low)]
    if abs(braid.mast_at - x) > 2.0 * braid.diameter:
        points.append((braid.mast_at, -aside, low))
        x = braid.mast_at
    points.append((x, -aside, low - down))
    path = WirePath(
        name="braid",
        points=np.array(points),
        radii=np.full(len(points) - 1, braid.diameter / 2.0),
        conductivity=beam.material.conductivity,
    )
    return path, braid.drop / 2.0


def _currents_on(currents: Currents, path: WirePath) -> Complexes:
    """Current along a path for one volt at each port, at even places on each straight stretch."""
    assembly = currents.assembly
    raw = assembly.raw(currents.unknowns[0])
    share = (np.arange(_READ_POINTS) + 0.5) / _READ_POINTS
    found = []
    for index, placed in enumerate(assembly.system.runs):
        start = np.array(placed.origin)
        end = start + placed.shape.length * np.array(placed.direction)
        if _on_path(path, start, end):
            unknowns = raw[assembly.offsets[index] : assembly.offsets[index + 1]]
            along = share * placed.shape.length
            mesh = assembly.runs[index].mesh
            found.append(current_on_run(mesh=mesh, unknowns=unknowns, along=along))
    return np.concatenate(found).T


def _on_path(path: WirePath, start: Floats, end: Floats) -> bool:
    """Whether a run lies on one of the stretches of a path."""
    for first, last in zip(path.points[:-1], path.points[1:], strict=True):
        along = (last - first) / np.linalg.norm(last - first)
        off = [
            float(np.linalg.norm(spot - first - ((spot - first) @ along) * along))
            for spot in (start, end)
        ]
        if max(off) < 1e-6:
            return True
    return False


def smallest_choke(
    *, solution: BraidSolution, within_db: float = 0.1, angle: float = 0.0
) -> float | None:
    """Least choking impedance from which on the pattern keeps within a limit.

    Args:
        within_db: greatest pattern change and left-right difference in the main lobe [dB]
        angle: angle of the choke's impedance, 0 for a resistance, between -90 and 90 degrees [rad]

    Returns:
        modulus of the impedance; 0 when none is needed, None when none is enough, as when the
        braid takes
            up current without being fed [ohm]

    Raises:
        BoomwrightError: for a limit that is not above 0, or an angle that is no choke's
    """
    if not (within_db > 0.0 and abs(angle) <= math.pi / 2.0):
        raise BoomwrightError(
            f"choke: limit {within_db:g} dB, angle {math.degrees(angle):g} degrees; give a "
            "limit above 0 and an angle between -90 and 90 degrees"
        )
    # Rounding turns the cosine of a right angle slightly negative.
    turn = complex(max(math.cos(angle), 0.0), math.sin(angle))

    def harm(size: float) -> float:
        return solution.reading(choke=size * turn).harm_db

    # A reactive choke can resonate with the braid: what counts is the last crossing.
    over = [size for size in _CHOKES if harm(float(size)) > within_db]
    if not over:
        return 0.0 if harm(0.0) <= within_db else float(_CHOKES[0])
    if over[-1] == _CHOKES[-1]:
        return None
    low = float(over[-1])
    high = float(_CHOKES[int(np.searchsorted(_CHOKES, low)) + 1])
    for _ in range(30):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if harm(middle) > within_db else (low, middle)
    return high

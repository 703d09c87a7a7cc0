"""What metal at the middle of an element does to it: boom, plate and clamp as an inductance.

The current of an element is all but even over the little length of a mount, and its potential
there all but nothing. So metal near its middle acts through the magnetic field alone: it keeps
the field out of itself and takes inductance away, as if the element were shorter. With the
boom thin against the wavelength that is a static boundary-value problem; its solutions stand
here, in units of the permeability of vacuum.

A line current that crosses a long round bar at right angles, at h from its axis, loses
R f(h/R); f is a series in modified Bessel functions {bar-under-line-current}. Through the bar, it
loses what the bar's metal took up of its field, closed in elliptic form, and what the bar turns
aside outside and, where it is a tube, inside. A sheet of metal that carries no current of
its own between wire and bar follows from the conformal map of a strip; one that touches the
wire is a thicker wire of its own logarithmic capacity.

Held against a full solution of element, boom and plate in three dimensions
{surface-moments-mounts}: within 15 % where the boom is thinner than 0.04 wavelengths. The half
widths say more, as published corrections for elements through a boom differ up to threefold
{nbs-tn-688} {common-practice-boom-correction}.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from boomwright.base import VACUUM_PERMEABILITY, VACUUM_PERMITTIVITY
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam, Element, Mount
from boomwright.solver.series_inductance import Stretch

#: R/h and f h/R of a line current that crosses a round bar of radius R at the distance h of the
#: axes {bar-under-line-current}
_NEARNESS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.94, 0.97)
_LOSS = (0.375, 0.37551, 0.37793, 0.3828, 0.3906, 0.40206, 0.41843, 0.4421, 0.4782, 0.50462, 0.5417,
         0.58643, 0.64098)  # fmt: skip
#: through the middle of a thin tube: what is turned aside outside and inside, in radii
#: {bar-under-line-current}
_OUTSIDE, _INSIDE = 0.11836, 0.13662
#: width of a plate and equivalent radius of it with a tube that lies on it, both in radii of
#: the tube {tube-on-plate}; wider plates tend to a quarter of their width
_PLATE_WIDTH = (0.0, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 16.0, 24.0)
_ON_PLATE = (1.0, 1.010, 1.0734, 1.1966, 1.3609, 1.7568, 2.1978, 3.1346, 4.1016, 6.068)
#: half widths, as shares of what is computed: for elements above, the three-dimensional
#: solution and how well a mount is known; for those through, the published figures as well
_SPREAD = {
    "insulated above": 0.3,
    "bonded above": 0.4,
    "insulated through": 0.6,
    "bonded through": 0.8,
}
_PLATE_SPREAD = 0.3
#: and with the boom's radius in radians of the wave
_SPREAD_BY_PHASE = 2.0
#: a case outside what was checked counts with this many times its half width
_UNCHECKED = 2.0
#: thickest boom that was checked [wavelengths]
_THICKEST_WL = 0.04
#: elements that were checked, in radii of the boom, and plates, in diameters of it
_CHECKED_ELEMENTS = (0.1, 0.6)
_WIDEST_PLATE = 3.0
#: nearest axis that was checked, in radii of the boom, and the nearest that is computed
_CHECKED_NEAREST = 1.15
_NEAREST = 1.03
#: wall of a boom and hole in it when they are not said, in diameters of the boom and of the
#: element {common-practice-magnitudes}
_USUAL_WALL = 0.06
_USUAL_HOLE = 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class MountEffect:
    """What a mount does to its element."""

    #: in series with the middle of the element; negative, as metal takes inductance away [H]
    inductance: float
    half_width: float  #: of its band [H]
    #: most that the mount puts across a feed that splits the element; it is not in the currents [F]
    capacitance: float
    #: in words, what lies outside the cases that were held against a full solution
    unchecked: tuple[str, ...] = ()


def mount_stretches(*, mount: Mount, half: tuple[tuple[float, float], ...]) -> tuple[Stretch, ...]:
    """Inductance of a mount, spread over the middle of its element.

    Args:
        half: length and radius of the tubes of one half [m]

    Returns:
        stretches from the middle [m] and [H/m]
    """
    radius = half[0][1]
    reach = mount.boom_radius
    if reach == 0.0:
        return ((0.0, radius, mount.added / (2.0 * radius)),) if mount.added else ()
    total = _boom_inductance(mount, radius) + mount.added
    return ((0.0, reach, total / (2.0 * reach)), *_plate_stretches(mount, half))


def mount_effect(*, element: Element, wavelength: float) -> MountEffect | None:
    """What its mount does to an element, with a band.

    Returns:
        None when the plan does not say how the element is held
    """
    mount = element.mount
    if mount is None:
        return None
    if mount.boom_radius == 0.0:
        return MountEffect(inductance=mount.added, half_width=0.0, capacitance=0.0)
    half = tuple((section.length, section.diameter / 2.0) for section in element.half)
    boom = _boom_inductance(mount, half[0][1])
    stretches = _plate_stretches(mount, half)
    plate = 2.0 * sum((end - start) * each for start, end, each in stretches)
    unchecked = _unchecked(mount, half[0][1], wavelength)
    phase = 2.0 * math.pi * mount.boom_radius / wavelength
    spread = (_SPREAD[mount.kind] + _SPREAD_BY_PHASE * phase) * abs(boom)
    spread += _unsaid(mount, half[0][1]) + _PLATE_SPREAD * abs(plate)
    return MountEffect(
        inductance=boom + plate + mount.added,
        half_width=spread * (_UNCHECKED if unchecked else 1.0),
        capacitance=0.0 if mount.bonded else _capacitance(mount, half[0][1]),
        unchecked=unchecked,
    )


def acts_longer(*, inductance: float, element: Element) -> float:
    """Length that acts like a small inductance at the middle of a half-wave element.

    Args:
        inductance: in series with its middle [H]

    Returns:
        change of the whole length, 2 pi L / (mu0 (ln(length/radius) - 1)), from the slope of
        the reactance
            of a thin element {common-practice-open-line} [m]
    """
    logarithm = sum(each.length * math.log(each.diameter / 2.0) for each in element.half)
    slenderness = math.log(element.length) - logarithm / element.half_length - 1.0
    return 2.0 * math.pi * inductance / (VACUUM_PERMEABILITY * slenderness)


def mount_edges(*, beam: Beam) -> tuple[Beam, ...]:
    """The same beam at the edges of what is known of its mounts.

    Returns:
        one for each kind of mount, all elements so held at the edge of their band: an error of
        a mount is
            the same for all that are made alike (n_kinds,)
    """
    effects = [mount_effect(element=each, wavelength=beam.wavelength) for each in beam.elements]
    held = [
        (element.mount.kind, effect.half_width)
        if element.mount is not None and effect is not None and effect.half_width > 0.0
        else ("", 0.0)
        for element, effect in zip(beam.elements, effects, strict=True)
    ]
    return tuple(
        replace(
            beam,
            elements=tuple(
                _with_added(element, half_width) if own == kind else element
                for element, (own, half_width) in zip(beam.elements, held, strict=True)
            ),
        )
        for kind in dict.fromkeys(kind for kind, _ in held if kind)
    )


def feed_capacitance(*, beam: Beam) -> float:
    """Most that its mount puts across the feed of a split element.

    Returns:
        0 where the element is not split, or nothing is known of its mount [F]
    """
    effect = mount_effect(element=beam.elements[beam.driven_index], wavelength=beam.wavelength)
    return 0.0 if effect is None or not beam.feed.cuts_element else effect.capacitance


def _with_added(element: Element, added: float) -> Element:
    mount = element.mount
    if mount is None:
        return element
    return replace(element, mount=replace(mount, added=mount.added + added))


def _boom_inductance(mount: Mount, radius: float) -> float:
    """Inductance that the boom adds to its element; negative [H]."""
    boom = mount.boom_radius
    if mount.above:
        return -VACUUM_PERMEABILITY * boom * _loss_above(mount, radius, _clearance(mount, radius))
    loss = _field_taken(radius, boom) + _OUTSIDE * boom
    if not mount.bonded:
        loss -= _left_inside(mount, radius, _wall(mount))
    return -VACUUM_PERMEABILITY * loss


def _loss_above(mount: Mount, radius: float, clearance: float) -> float:
    """The f of a line current over the boom, in radii of it."""
    boom = mount.boom_radius
    apart = max(mount.boom[0] / 2.0 + clearance + radius, _NEAREST * boom)
    return float(np.interp(boom / apart, _NEARNESS, _LOSS)) * boom / apart


def _field_taken(radius: float, boom: float) -> float:
    """Field energy of the current around a wire inside a bar that it crosses [m].

    The integral of H^2 / I^2 over the bar, without the wire; it comes to one of a complete
    elliptic integral over its modulus, here as a series.
    """
    share = min(radius / boom, 1.0)
    square = share * share
    series = square * (1.0 / 8.0 + square * (3.0 / 256.0 + square * 5.0 / 1536.0))
    return boom * (math.log(4.0 / share) - 1.0 + series) / math.pi


def _left_inside(mount: Mount, radius: float, wall: float) -> float:
    """Field energy that stays around an insulated element inside the boom and its holes [m]."""
    boom = mount.boom_radius
    hole = (mount.hole or 2.0 * _USUAL_HOLE * radius) / 2.0
    inner = boom - wall
    through = math.log(hole / radius) / math.pi
    if inner <= hole:
        return boom * through
    return _field_taken(radius, inner) - _INSIDE * inner + wall * through


def _wall(mount: Mount) -> float:
    return mount.boom[1] if len(mount.boom) > 1 else _USUAL_WALL * mount.boom[0]


def _clearance(mount: Mount, radius: float) -> float:
    """Clearance as given; else half the element's diameter over what lies below [m]."""
    if mount.clearance is not None:
        return mount.clearance
    return radius + (mount.plate[2] if len(mount.plate) > 2 else 0.0)


def _unsaid(mount: Mount, radius: float) -> float:
    """Half width for a clearance or a wall that is not said [H]."""
    boom = mount.boom_radius
    if mount.above and mount.clearance is None:
        at = _clearance(mount, radius)
        taken, touching, far = (
            _loss_above(mount, radius, each) for each in (at, 0.0, at + 2.0 * radius)
        )
        return VACUUM_PERMEABILITY * boom * max(touching - taken, taken - far)
    if mount.kind == "insulated through" and len(mount.boom) < 2:
        taken, thick = (_left_inside(mount, radius, share * boom) for share in (0.0, 0.25))
        return VACUUM_PERMEABILITY * abs(taken - thick) / 2.0
    return 0.0


def _plate_stretches(mount: Mount, half: tuple[tuple[float, float], ...]) -> tuple[Stretch, ...]:
    """Plate and clamp along the element: thicker wire where they touch it, else a screen."""
    reaches = [part[0] / 2.0 for part in (mount.plate, mount.clamp) if part]
    edges = np.cumsum([0.0, *(length for length, _ in half)])
    longest = min(max(reaches, default=0.0), float(edges[-1]))
    borders = sorted({0.0, longest, *(min(x, longest) for x in (*reaches, *edges.tolist()))})
    found = []
    for start, end in pairwise(borders):
        radius = half[int(np.searchsorted(edges[1:-1], start, side="right"))][1]
        ratios = [1.0]
        if mount.plate and end <= mount.plate[0] / 2.0 + 1e-12:
            ratios.append(_plate_ratio(mount, radius))
        if mount.clamp and end <= mount.clamp[0] / 2.0 + 1e-12:
            ratios.append(mount.clamp[1] / 2.0 / radius)
        lost = VACUUM_PERMEABILITY / (2.0 * math.pi) * math.log(max(ratios))
        if lost > 0.0:
            found.append((start, end, -lost))
    return tuple(found)


def _plate_ratio(mount: Mount, radius: float) -> float:
    """How many times thicker a tube acts in front of a plate, or on it."""
    width = mount.plate[1] / radius
    if mount.bonded:
        ratio = float(np.interp(width, _PLATE_WIDTH, _ON_PLATE))
        return ratio * max(width / _PLATE_WIDTH[-1], 1.0)
    # A line current before a strip without net current, mapped on the outside of a circle: with
    # rho its image, the field is as of a wire 1 / (1 - rho^-4) times as thick.
    slope = 2.0 * _to_plate(mount, radius) / mount.plate[1]
    image = slope + math.sqrt(slope * slope + 1.0)
    return 1.0 / (1.0 - math.pow(image, -4.0))


def _to_plate(mount: Mount, radius: float) -> float:
    """Axis of the element over the face of its plate, which it cannot pass through [m]."""
    thickness = mount.plate[2] if len(mount.plate) > 2 else 0.0
    return max(_clearance(mount, radius) + radius - thickness, 1.02 * radius)


def _capacitance(mount: Mount, radius: float) -> float:
    """Two halves in series over metal below each: tubes over a plane, or in their holes [F]."""
    boom = mount.boom_radius
    if mount.above:
        near = _to_plate(mount, radius) if mount.plate else _clearance(mount, radius) + radius
        reach = max(mount.plate[0] / 2.0 if mount.plate else 0.0, boom)
        share = math.acosh(max(near / radius, 1.02))
    else:
        hole = (mount.hole or 2.0 * _USUAL_HOLE * radius) / 2.0
        reach = boom
        share = math.log(max(hole / radius, 1.05))
        share = boom / (
            _wall(mount) / share + (boom - _wall(mount)) / math.log(4.0 * boom / radius)
        )
    return math.pi * VACUUM_PERMITTIVITY * reach / share


def _unchecked(mount: Mount, radius: float, wavelength: float) -> tuple[str, ...]:
    boom = mount.boom_radius
    low, high = _CHECKED_ELEMENTS
    found = []
    if 2.0 * boom > _THICKEST_WL * wavelength:
        found.append(f"a boom thicker than {_THICKEST_WL:g} wavelengths")
    if not low <= radius / boom <= high:
        found.append(f"an element not {low:g} to {high:g} times as thick as its boom")
    apart = mount.boom[0] / 2.0 + _clearance(mount, radius) + radius
    if mount.above and apart < _CHECKED_NEAREST * boom:
        found.append("an element all but touching its boom")
    if mount.plate and mount.plate[1] > _WIDEST_PLATE * 2.0 * boom:
        found.append(f"a plate wider than {_WIDEST_PLATE:g} booms")
    return tuple(found)

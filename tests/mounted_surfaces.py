"""Elements with booms and plates as triangles, for the tests of mounts."""

from __future__ import annotations

import numpy as np

from surface_moments import LIGHT, MU, Mesh, impedance

#: pieces around the eighth or half of a tube that is meshed
_AROUND = 6
#: boom to either side of the element, in its radii
_REACH = 30.0


def _steps(first, ratio, largest, start, end):
    places, step = [start], first
    while places[-1] + 1.5 * step < end:
        places.append(places[-1] + step)
        step = min(step * ratio, largest)
    return np.array([*places, end])


def _round(angle):
    """A polygon through points a little further out acts as the round tube does."""
    turn = angle[1] - angle[0]
    return np.sqrt(0.5 * turn / np.sin(0.5 * turn))


def _tube(mesh, radius, height, places, angle):
    out = radius * _round(angle)
    mesh.add(
        np.array([[[out * np.sin(t), y, height - out * np.cos(t)] for t in angle] for y in places])
    )


def _lost(without, present, frequency, at):
    """Inductance that metal takes away, over the permeability of vacuum [m]."""
    # A port off the middle sees the reactance there over the square of the current.
    share = np.cos(2.0 * np.pi * frequency * at / LIGHT) ** 2
    return -(present - without).imag * share / (2.0 * np.pi * frequency * MU)


def lost_above(*, frequency, length, radius, boom, clearance, plate=(), bonded=False, square=False):
    """Inductance lost by an element over a boom; ``plate`` is length, width and thickness."""
    height = boom + clearance + radius
    at = max(2.0 * boom, plate[0] / 2.0 + boom if plate else 0.0)
    near = plate[0] / 2.0 if plate else 0.0
    over = np.linspace(0.0, near, max(6, int(near / (0.35 * boom))) + 1) if plate else np.zeros(1)
    places = np.concatenate(
        [
            over[:-1],
            _steps(0.3 * boom, 1.25, 0.5 * boom, near, at)[:-1],
            _steps(0.4 * boom, 1.25, 0.016 * LIGHT / frequency, at, length / 2.0),
        ]
    )
    angle = np.linspace(0.0, np.pi, _AROUND)
    seen = []
    for with_metal in (False, True):
        mesh = Mesh()
        _tube(mesh, radius, height, places, angle)
        if with_metal:
            if plate:
                level = boom + plate[2] if not bonded else height - radius * _round(angle)
                across = np.array([0.0, *np.linspace(0.35 * radius, plate[1] / 2.0, 5)])
                mesh.add(np.array([[[x, y, level] for x in across] for y in over]))
            along = _steps(0.3 * boom, 1.3, 4.0 * boom, 0.0, _REACH * boom)
            turn = np.pi * np.linspace(0.0, 1.0, 13) ** 1.3
            edge = [(boom * np.sin(t), boom * np.cos(t)) for t in turn]
            if square:
                corners = [(0, 1), (1, 1), (1, -1), (0, -1)]
                sides = zip(corners[:-1], corners[1:], (3, 6, 3), strict=True)
                edge = [
                    (boom * (a[0] + s * (b[0] - a[0])), boom * (a[1] + s * (b[1] - a[1])))
                    for a, b, count in sides
                    for s in np.arange(count) / count
                ] + [(0.0, -boom)]
            mesh.add(np.array([[[x, y, z] for y, z in edge] for x in along]))

        def fed(point):
            return abs(np.hypot(point[0], point[2] - height) - radius) < 0.2 * radius

        seen.append(impedance(mesh, frequency=frequency, fed=fed, at=at))
    return _lost(*seen, frequency, at)


def _curve(radius, hole, angle):
    """Where a tube of radius ``hole`` along y meets the bar, by the angle on the unrolled bar."""
    low, high = np.full(angle.shape, 0.9999 * hole), np.full(angle.shape, 1.5708 * hole)
    for _ in range(60):
        way = 0.5 * (low + high)
        round_bar = np.sin(np.minimum(way * np.sin(angle) / radius, np.pi / 2.0))
        inside = (way * np.cos(angle)) ** 2 + (radius * round_bar) ** 2 < hole**2
        low, high = np.where(inside, way, low), np.where(inside, high, way)
    return way


def _on_bar(radius, along, around):
    return np.stack(
        [along, radius * np.cos(around / radius), radius * np.sin(around / radius)], axis=-1
    )


def _bar(mesh, radius, hole, reach):
    """An eighth of a bar along x with a hole around y."""
    angle = np.linspace(0.0, np.pi / 2.0, _AROUND + 1)
    quarter = np.pi * radius / 2.0
    inner = _curve(radius, hole, angle)
    outer = quarter / np.maximum(np.cos(angle), np.sin(angle))
    way = inner * (outer / inner) ** np.linspace(0.0, 1.0, _AROUND + 1)[:, None]
    along, around = way * np.cos(angle), np.minimum(way * np.sin(angle), quarter)
    mesh.add(_on_bar(radius, np.minimum(along, quarter), around))
    far = around[-1, : _AROUND // 2 + 1]
    places = _steps(0.5 * radius, 1.3, 4.0 * radius, quarter, reach)
    mesh.add(np.array([_on_bar(radius, np.full(len(far), x), far) for x in places]))


def lost_through(*, frequency, length, radius, boom, bonded, wall=0.0, hole=0.0):
    """Inductance lost by an element through the middle of a boom."""
    at, angle = 2.0 * boom, np.linspace(0.0, np.pi / 2.0, _AROUND + 1)
    tip = _steps(0.4 * boom, 1.25, 0.016 * LIGHT / frequency, at, length / 2.0)
    fine = 0.7 * radius if bonded else 0.25 * (hole - radius) + 0.1 * radius
    outside = boom + _steps(fine, 1.3, 0.4 * boom, 0.0, boom)
    inside = boom - _steps(fine, 1.3, 0.4 * boom, 0.0, boom)[::-1]
    seen = []
    for with_metal in (False, True):
        mesh = Mesh()
        cut = with_metal and bonded
        places = np.concatenate([[] if cut else inside[:-1], outside[:-1], tip])
        way = _curve(boom, radius, angle)
        meet = _on_bar(boom, way * np.cos(angle), way * np.sin(angle))
        turn = np.arctan2(meet[:, 2], meet[:, 0])
        rings = []
        for y in places:
            # On the boom the ring is where both tubes meet; it straightens out to the port.
            lean = (at - y) / (at - boom) if cut and y < at else 0.0
            level = y + lean * (meet[:, 1] - boom)
            rings.append(np.stack([radius * np.cos(turn), level, radius * np.sin(turn)], axis=-1))
        mesh.add(np.array(rings))
        if with_metal:
            _bar(mesh, boom, radius if bonded else hole, _REACH * boom)
        if with_metal and wall > 0.0:
            _bar(mesh, boom - wall, hole, 5.0 * boom)
            edges = []
            for bar in (boom, boom - wall):
                way = _curve(bar, hole, angle)
                edges.append(_on_bar(bar, way * np.cos(angle), way * np.sin(angle)))
            share = np.linspace(0.0, 1.0, 3)[:, None, None]
            mesh.add(edges[0] + share * (edges[1] - edges[0]))

        def fed(point):
            return abs(np.hypot(point[0], point[2]) - radius) < 0.05 * radius

        seen.append(impedance(mesh, frequency=frequency, fed=fed, at=at, flat=True))
    return _lost(*seen, frequency, at)

"""Parts of line and earth: cable by its length, loop and drip loop, arresters, rods, strap."""

from __future__ import annotations

import math

from boomwright.base.records import dataclass, replace
from boomwright.parts.hardware import (
    CABLE,
    CONTROL_CABLE,
    CONTROL_MASS,
    DRIP_LOOP,
    EARTH_CLEAR,
    EARTH_ROD,
    LINE_MASS,
    LineHardware,
    given_or,
    whose,
)
from boomwright.parts.part import Part, weighed
from boomwright.parts.solids import Bar, Point, bent
from boomwright.parts.support_parts import GROUND

_TRADE = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRun:
    """Feed line, control cable and earth as the plan gives them."""

    name: str  #: line as bought
    length: float  #: from radio to antenna, loop included [m]
    hardware: LineHardware  #: cable and rods as their makers state
    loop: float = 0.0  #: part of it that is the rotation loop [m]
    connectors: int = 0
    control: float = 0.0  #: control cable of the rotator [m]
    legs: int = 0  #: legs of the tower with a rod each
    rods: int = 0  #: further earth rods
    bonding: float = 0.0  #: strap or wire of the earth system [m]
    arresters: int = 0
    cores: int = 0  #: ferrite cores of the choke at the feed
    top: float = 0.0  #: top of the support that it runs up, where the loop begins [m]
    on_booms: float = 0.0  #: part of it that runs along booms [m]
    clear: float = 0.0  #: how far footing and support reach from their axis [m]
    #: direction of the row of earth rods, clear of the guys, clockwise from true north [rad]
    turn: float = 0.0


def line_parts(run: LineRun) -> tuple[Part, ...]:
    """List what runs between station and antenna, and the earth."""
    base = Part(mark="", name="", role="line", carrier=GROUND, group="line", form="cable",
                material="as bought", known="assumed", basis=_TRADE)  # fmt: skip
    counted = (
        ("LC", "connector", "connector", run.connectors),
        ("LA", "lightning arrester", "lightning arrester", run.arresters),
        ("LF", "ferrite core", "choke core", run.cores),
    )
    own = run.hardware
    size, mass = given_or(own.diameter, CABLE), given_or(own.mass, LINE_MASS)
    bought = replace(base, **whose(own.diameter, own.mass))
    loops = _loops(run, bought, size, mass)
    apart = run.on_booms + sum(each.quantity for each in loops)
    parts = [
        # Bought whole: what loops and booms take is weighed there.
        replace(bought, mark="L", name=run.name, solids=_up(run, size, 1.0),
                mass=mass * max(0.0, run.length - apart), price_key=run.name,
                quantity=run.length, unit="m"),
        *loops,
    ]  # fmt: skip
    if run.control > 0.0:
        parts.append(
            replace(base, mark="LR", name="control cable of the rotator", role="control cable",
                    solids=_up(run, given_or(own.control_diameter, CONTROL_CABLE), -1.0),
                    mass=given_or(own.control_mass, CONTROL_MASS) * run.control,
                    price_key="rotator control cable", quantity=run.control, unit="m",
                    **whose(own.control_diameter, own.control_mass))
        )  # fmt: skip
    parts += [
        replace(base, mark=mark, name=name, role=name, form="bought", mass=None, price_key=key,
                quantity=float(number), known="plan", basis="")
        for mark, name, key, number in counted
        if number > 0
    ]  # fmt: skip
    for k, (x, y) in enumerate(_rod_places(run)):
        long, thick = given_or(own.earth_rod, EARTH_ROD)
        bar = Bar(start=(x, y, 0.0), end=(x, y, -long), diameter=thick)
        parts.append(
            replace(base, mark=f"ER{k + 1}", name=f"earth rod {k + 1}", role="earth rod",
                    group="earth", form="rod", material="galvanized steel", solids=(bar,),
                    mass=weighed("galvanized steel", (bar,)), price_key="earth rod with clamp",
                    bonded=True, quantity=1.0, **whose(own.earth_rod, own.earth_from))
        )  # fmt: skip
    if run.bonding > 0.0:
        parts.append(
            replace(base, mark="EB", name="bonding strap or wire", role="earth", group="earth",
                    form="strand", material="copper", mass=None, price_key="bonding strap",
                    quantity=run.bonding, unit="m", bonded=True, known="plan", basis="")
        )  # fmt: skip
    return tuple(parts)


def _rod_places(run: LineRun) -> list[tuple[float, float]]:
    """Places of the earth rods: one beside each leg, the others a rod's length apart in a row."""
    long = given_or(run.hardware.earth_rod, EARTH_ROD)[0]
    out = run.clear + given_or(run.hardware.earth_from, EARTH_CLEAR)
    legs = [(out, run.turn + 2.0 * math.pi * k / run.legs) for k in range(run.legs)]
    first = out + (long if legs else 0.0)
    row = [(first + long * k, run.turn) for k in range(run.rods)]
    return [(far * math.cos(turn), -far * math.sin(turn)) for far, turn in (*legs, *row)]


def _loops(run: LineRun, base: Part, size: float, mass: float) -> list[Part]:
    """Rotation loop below the beam, and the drip loop where the line leaves the support."""
    if run.top <= 0.0:
        return []
    usual = given_or(run.hardware.drip_loop, DRIP_LOOP)
    drip = min(usual, max(0.0, run.length - run.loop - run.on_booms))
    rows = (("LL", "rotation loop of the feed line", run.loop, run.top),
            ("LD", "drip loop of the feed line", drip, 0.5 * usual))  # fmt: skip
    return [
        replace(base, mark=mark, name=name, solids=_hanging(long, top, size),
                mass=mass * long, quantity=long, unit="m")
        for mark, name, long, top in rows
        if long > 0.0
    ]  # fmt: skip


def _hanging(long: float, top: float, size: float) -> tuple[Bar, ...]:
    """A half circle of cable that hangs from a height outside of the support."""
    steps, radius = 8, long / math.pi
    # Its straight pieces are as long together as the cable.
    corner = 0.5 * math.pi * radius / steps / math.sin(0.5 * math.pi / steps)
    angles = [math.pi * k / steps for k in range(steps + 1)]
    points: list[Point] = [
        (0.3, 0.1 + corner * (1.0 - math.cos(a)), top - corner * math.sin(a)) for a in angles
    ]
    return bent(tuple(points), diameter=size)


def _up(run: LineRun, size: float, side: float) -> tuple[Bar, ...]:
    """The stretch of a cable that runs up the support; the rest has no place of its own."""
    if run.top <= 0.0:
        return ()
    return (Bar(start=(0.3, 0.1 * side, 0.0), end=(0.3, 0.1 * side, run.top), diameter=size),)

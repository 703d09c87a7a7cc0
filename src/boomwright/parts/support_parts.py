"""Parts of what carries the beams: mast, what turns it, tower or pole, guys, anchors, base.

Everything stands in the frame of the foot: x to the north, y to the west, z up from the ground.
"""

from __future__ import annotations

import math

from boomwright.base.records import dataclass, replace
from boomwright.parts.hardware import (
    ANCHOR_ROD,
    BEARING_MASS,
    BEARING_SIZE,
    GRIP_MASS,
    GUY_RING,
    OUTLINE,
    REBAR_RATE,
    RING_HIGH,
    RING_MASS,
    RING_OVER,
    ROTATOR_MASS,
    ROTATOR_SIZE,
    SHELF,
    TURNBUCKLE_MASS,
    SupportHardware,
    given_or,
    whose,
)
from boomwright.parts.part import Cut, Fastener, Part, density_of, weighed
from boomwright.parts.solids import Bar, Block, Point, Solid, between
from boomwright.parts.tubes import TubeKind

#: carriers of what stands on the ground and of the rotating mast, named as no beam is
GROUND, MAST = "#ground", "#mast"
_TRADE = "common practice"
#: upright bars that the steel of a footing is drawn as
_BARS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class MastTube:
    """The rotating mast."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    foot: float  #: lower end above ground [m]
    bearing: float  #: top bearing above ground [m]
    top: float  #: upper end above ground [m]
    material: str
    #: whether the plan says how far it goes down to its rotator
    foot_known: bool = True
    bearing_mass: float | None = None  #: mass of its top bearing as its maker states it [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pole:
    """A tube that stands in the ground."""

    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    height: float  #: height above ground [m]
    material: str
    foot: float = 0.0  #: lower end above ground where brackets hold it [m]
    brackets: tuple[float, ...] = ()  #: heights of the brackets that hold it [m] (n_brackets,)


@dataclass(frozen=True, slots=True, kw_only=True)
class LatticeTower:
    """A tower as its maker sold it."""

    height: float  #: height [m]
    section: float  #: length of one section as bought [m]
    section_known: bool = True  #: whether the plan gives that length
    mass: float | None = None  #: mass of the whole tower [kg]
    faces: int = 0  #: faces and legs, 3 or 4; 0 while its steel is not given
    face_width: float = 0.0  #: from leg middle to leg middle [m]
    leg: float = 0.0  #: outer diameter of a leg [m]

    @property
    def across(self) -> float:
        """Distance of a leg's outside from the axis; 0 while its width is not given [m]."""
        if self.faces < 3:
            return 0.0
        return self.face_width / (2.0 * math.sin(math.pi / self.faces)) + 0.5 * self.leg


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyRing:
    """One ring of guys."""

    height: float  #: where the guys hold the support [m]
    radius: float  #: anchors out from the support [m]
    count: int
    first: float  #: direction of the first anchor, clockwise from true north [rad]
    anchor_height: float  #: anchors above the foot [m]
    strand: str  #: strand as bought
    diameter: float  #: outer diameter of the strand [m]
    mass: float  #: mass of one metre [kg/m]

    @property
    def anchor_key(self) -> tuple[float, float, float, int]:
        """Rings that agree in this share their anchors [m, m, rad, -]."""
        return (self.radius, self.anchor_height, self.first, self.count)

    @property
    def length(self) -> float:
        """Straight length of one guy [m]."""
        return math.hypot(self.height - self.anchor_height, self.radius)

    def anchors(self) -> tuple[Point, ...]:
        """Places of the anchors (n_guys, 3) [m]."""
        turns = [self.first + 2.0 * math.pi * k / self.count for k in range(self.count)]
        return tuple(
            (self.radius * math.cos(a), -self.radius * math.sin(a), self.anchor_height)
            for a in turns
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ConcreteBlock:
    """A footing, or the block of one anchor."""

    width: float  #: side along x, or diameter [m]
    length: float  #: side along y [m]
    high: float  #: height of the concrete [m]
    top: float  #: upper side above ground, negative below it [m]
    is_round: bool = False

    @property
    def volume(self) -> float:
        """Concrete [m^3]."""
        flat = math.pi / 4.0 * self.width**2 if self.is_round else self.width * self.length
        return flat * self.high


def _on_ground(role: str, group: str, **further: object) -> Part:
    made = Part(mark="", name="", role=role, carrier=GROUND, group=group, form="bought",
                material="galvanized steel")  # fmt: skip
    return replace(made, **further)  # type: ignore[arg-type]


def mast_parts(mast: MastTube) -> tuple[Part, ...]:
    """List the mast, as it turns."""
    bar = Bar(start=(0.0, 0.0, mast.foot), end=(0.0, 0.0, mast.top), diameter=mast.diameter,
              bore=mast.diameter - 2.0 * mast.wall)  # fmt: skip
    material = mast.material if density_of(mast.material) is not None else "steel"
    kind = TubeKind(material=mast.material, diameter=mast.diameter, wall=mast.wall)
    return (
        Part(
            mark="M", name="mast", role="mast", carrier=MAST, group="mast", form="tube",
            material=material, solids=(bar,), mass=weighed(material, (bar,)), drag="round",
            cut=Cut(kind=kind, sawn=bar.length, exposed=mast.top - mast.bearing,
                    overlap=mast.bearing - mast.foot),
            price_key=f"mast {1000 * mast.diameter:.1f} x {1000 * mast.wall:.1f} mm",
            quantity=bar.length, unit="m", bonded=True,
            basis="" if mast.foot_known else "how far it goes down to its rotator is not given",
        ),
    )  # fmt: skip


def turning_parts(
    mast: MastTube, *, rotator: bool, rotator_mass: float | None = None, hardware: SupportHardware
) -> tuple[Part, ...]:
    """List bearing, rotator and the shelf that holds it.

    Args:
        rotator_mass: mass as its maker states it; None when it is not given [kg]
    """
    across, high = given_or(hardware.bearing, BEARING_SIZE)
    bearing = Block(middle=(0.0, 0.0, mast.bearing - 0.5 * high), size=(across, across, high))
    base = _on_ground("bearing", "turning gear", joins=("mast", "support"), known="assumed",
                      basis=_TRADE, material="as bought")  # fmt: skip
    parts = [
        _as_stated(replace(base, mark="TB", name="top bearing", solids=(bearing,),
                           price_key="top bearing"), mast.bearing_mass, BEARING_MASS),
    ]  # fmt: skip
    if rotator:
        wide, tall = given_or(hardware.rotator, ROTATOR_SIZE)
        side, thick = given_or(hardware.shelf, SHELF)
        box = Block(middle=(0.0, 0.0, mast.foot - 0.5 * tall), size=(wide, wide, tall))
        shelf = Block(middle=(0.0, 0.0, mast.foot - tall - 0.5 * thick),
                      size=(side, side, thick))  # fmt: skip
        parts += [
            _as_stated(replace(base, mark="RO", name="rotator", role="rotator", solids=(box,),
                               price_key="rotator with control box"), rotator_mass, ROTATOR_MASS),
            replace(base, mark="SH", name="rotator shelf or cage", role="shelf", form="plate",
                    material="galvanized steel", solids=(shelf,),
                    mass=weighed("galvanized steel", (shelf,)),
                    price_key="rotator shelf or cage", **whose(hardware.shelf)),
        ]  # fmt: skip
    return tuple(parts)


def _as_stated(part: Part, mass: float | None, usual: float) -> Part:
    """Weigh a bought part as its maker states, else as the trade does."""
    if mass is None:
        return replace(part, mass=usual, known="assumed", basis=_TRADE)
    return replace(part, mass=mass, known="maker", basis="")


def pole_parts(pole: Pole, *, buried: float = 0.0) -> tuple[Part, ...]:
    """List the pole.

    Args:
        buried: length of it in its footing [m]
    """
    bar = Bar(start=(0.0, 0.0, pole.foot - buried), end=(0.0, 0.0, pole.height),
              diameter=pole.diameter,
              bore=pole.diameter - 2.0 * pole.wall)  # fmt: skip
    material = pole.material if density_of(pole.material) is not None else "steel"
    kind = TubeKind(material=pole.material, diameter=pole.diameter, wall=pole.wall)
    return (
        _on_ground(
            "pole", "support", mark="PO", name="pole", form="tube", material=material,
            solids=(bar,), mass=weighed(material, (bar,)), drag="round", bonded=True,
            cut=Cut(kind=kind, sawn=bar.length, exposed=bar.length - buried, overlap=buried),
            price_key=f"support tube {1000 * pole.diameter:.1f} x {1000 * pole.wall:.1f} mm",
            quantity=bar.length, unit="m",
        ),
        *(
            _on_ground(
                "house bracket", "support", mark=f"HB{k}", name=f"house bracket {k}",
                price_key="house bracket with its fixings", known="unknown",
                basis="its maker's figures are not given",
            )
            for k in range(1, len(pole.brackets) + 1)
        ),
    )  # fmt: skip


def tower_parts(tower: LatticeTower) -> tuple[Part, ...]:
    """List the sections of a tower, each drawn by its legs."""
    count = max(1, math.ceil(tower.height / tower.section - 1e-9))
    shaped = tower.faces >= 3
    # Without its width it is drawn by an outline, which nothing is held against.
    drawn = tower if shaped else replace(tower, faces=3, face_width=OUTLINE[0], leg=OUTLINE[1])
    parts = []
    for k in range(count):
        low, high = k * tower.section, min((k + 1) * tower.section, tower.height)
        share = (high - low) / tower.height
        parts.append(
            _on_ground(
                "tower section" if shaped else "tower outline", "support",
                mark=f"TS{k + 1}", name=f"tower section {k + 1}",
                solids=_legs(drawn, low, high), drag="round", bonded=True,
                mass=None if tower.mass is None else tower.mass * share,
                price_key="tower section", known="maker", basis=_unsaid_of(tower),
            )
        )  # fmt: skip
    return tuple(parts)


def _unsaid_of(tower: LatticeTower) -> str:
    mass = "" if tower.mass is not None else "the mass of the tower is not given"
    section = "" if tower.section_known else "the length of its sections is the usual one"
    return "; ".join(filter(None, (mass, section)))


def _legs(tower: LatticeTower, low: float, high: float) -> tuple[Solid, ...]:
    out = tower.across - 0.5 * tower.leg
    turns = [2.0 * math.pi * k / tower.faces for k in range(tower.faces)]
    return tuple(
        Bar(start=(out * math.cos(a), out * math.sin(a), low),
            end=(out * math.cos(a), out * math.sin(a), high), diameter=tower.leg)
        for a in turns
    )  # fmt: skip


def guy_parts(
    rings: tuple[GuyRing, ...],
    *,
    from_axis: float,
    on_pole: bool = False,
    hardware: SupportHardware,
) -> tuple[Part, ...]:
    """List strands, grips and turnbuckles of every guy, and the rings that hold them to a pole.

    Args:
        from_axis: where the guys start, out from the axis of the support [m]
        on_pole: whether they hold a pole; to a tower its maker's own brackets hold them
    """
    parts = []
    for level, ring in enumerate(rings, start=1):
        if on_pole:
            parts.append(_guy_ring(ring, level, from_axis, hardware))
        for k, anchor in enumerate(ring.anchors(), start=1):
            out = from_axis / ring.radius
            start = (anchor[0] * out, anchor[1] * out, ring.height)
            bar = Bar(start=start, end=anchor, diameter=ring.diameter)
            base = _on_ground("guy", f"guy {level}.{k}", joins=("support", "anchors"))
            parts += [
                replace(
                    base, mark=f"G{level}.{k}", name=f"guy {k} of ring {level}", form="strand",
                    # What lies between the axis and the outside of the support goes round it.
                    solids=(bar,), mass=ring.mass * ring.length, drag="round",
                    cut=Cut(kind=TubeKind(material=ring.strand, diameter=ring.diameter),
                            sawn=ring.length, exposed=bar.length),
                    price_key=f"guy strand {ring.strand}", quantity=ring.length, unit="m",
                ),
                replace(
                    base, mark=f"GG{level}.{k}", name="two guy grips with thimbles",
                    role="guy grip",
                    solids=_ends(bar, 2.0 * GRIP_MASS / 7850.0, both=True),
                    mass=2.0 * GRIP_MASS, price_key="guy grip", quantity=2.0,
                    fasteners=(Fastener(name="thimble", count=2),), known="assumed", basis=_TRADE,
                ),
                replace(
                    base, mark=f"GT{level}.{k}", name="turnbuckle", role="turnbuckle",
                    solids=_ends(bar, TURNBUCKLE_MASS / 7850.0, both=False),
                    mass=TURNBUCKLE_MASS, price_key="turnbuckle", known="assumed", basis=_TRADE,
                ),
            ]  # fmt: skip
    return tuple(parts)


def _guy_ring(ring: GuyRing, level: int, pole: float, hardware: SupportHardware) -> Part:
    """Plate round a pole with a clamp under it, which the guys of one level are shackled to.

    Args:
        pole: radius of the pole [m]
    """
    wide, thick = given_or(hardware.guy_ring, GUY_RING)
    plate = Bar(start=(0.0, 0.0, ring.height - 0.5 * thick),
                end=(0.0, 0.0, ring.height + 0.5 * thick),
                diameter=2.0 * (pole + wide), bore=2.0 * pole)  # fmt: skip
    return _on_ground(
        "guy ring", "support", mark=f"GR{level}", name=f"guy ring of level {level}",
        form="plate", solids=(plate,), mass=weighed("galvanized steel", (plate,)), bonded=True,
        price_key="guy ring with clamp", **whose(hardware.guy_ring),
    )  # fmt: skip


def _ends(guy: Bar, volume: float, *, both: bool) -> tuple[Solid, ...]:
    """Short bars of some volume in all at the lower end of a guy, or at both ends."""
    share = min(0.5 / guy.length, 0.4)
    size = math.sqrt(4.0 * volume / math.pi / (share * guy.length) / (2.0 if both else 1.0))
    low, high = (between(guy.start, guy.end, each) for each in (1.0 - share, share))
    lower = Bar(start=low, end=guy.end, diameter=size)
    return (Bar(start=guy.start, end=high, diameter=size), lower) if both else (lower,)


def ground_parts(
    rings: tuple[GuyRing, ...],
    *,
    base: ConcreteBlock | None,
    anchor: ConcreteBlock | None,
    hardware: SupportHardware,
    bolted: bool = True,
) -> tuple[Part, ...]:
    """List footing, anchor blocks and their rods, each with its steel.

    Args:
        bolted: whether the support is bolted to its footing, not set in it
    """
    parts: list[Part] = []
    if base is not None:
        parts += _concrete("CB", "footing", base, (0.0, 0.0), 0.0, hardware)
    if base is not None and bolted:
        parts.append(
            _on_ground("anchor bolts", "base", mark="CBA", name="anchor bolts and template",
                       price_key="anchor bolts and template", unit="set", known="unknown",
                       basis="the drawing of the tower's maker decides")
        )  # fmt: skip
    places: dict[tuple[float, float, float, int], GuyRing] = {}
    for ring in rings:
        places.setdefault(ring.anchor_key, ring)
    number = 0
    for ring in places.values():
        for x, y, z in ring.anchors():
            number += 1
            turn = math.atan2(y, x)
            deep = 0.0 if anchor is None else anchor.top
            rod = Bar(start=(x, y, z), end=(x, y, min(z - 0.5, deep - 0.3)),
                      diameter=given_or(hardware.anchor_rod, ANCHOR_ROD))  # fmt: skip
            parts.append(
                _on_ground(
                    "anchor", "anchors", mark=f"A{number}", name=f"guy anchor {number}",
                    form="rod", solids=(rod,), mass=weighed("galvanized steel", (rod,)),
                    price_key="guy anchor", **whose(hardware.anchor_rod),
                )
            )  # fmt: skip
            if anchor is not None:
                parts += _concrete(
                    f"CA{number}", f"anchor block {number}", anchor, (x, y), turn, hardware
                )
    return tuple(parts)


def _concrete(
    mark: str, name: str, block: ConcreteBlock, place: tuple[float, float], turn: float,
    hardware: SupportHardware,
) -> list[Part]:  # fmt: skip
    x, y = place
    solid: Solid
    if block.is_round:
        solid = Bar(start=(x, y, block.top - block.high), end=(x, y, block.top),
                    diameter=block.width)  # fmt: skip
    else:
        solid = Block(middle=(x, y, block.top - 0.5 * block.high),
                      size=(block.width, block.length, block.high), turn=turn)  # fmt: skip
    rate = given_or(hardware.steel, REBAR_RATE)
    base = _on_ground("concrete", "base", joins=("support", "anchors"))
    return [
        replace(
            base, mark=mark, name=name, form="concrete", material="concrete", solids=(solid,),
            mass=weighed("concrete", (solid,)), conductor=False, price_key="concrete",
            quantity=block.volume, unit="m3",
        ),
        replace(
            base, mark=f"{mark}S", name=f"steel in {name}", role="reinforcement", form="rod",
            material="steel", solids=_rebar(block, place, rate), mass=rate * block.volume,
            price_key="reinforcing steel",
            quantity=rate * block.volume, unit="kg", **whose(hardware.steel),
        ),
    ]  # fmt: skip


def _rebar(block: ConcreteBlock, place: tuple[float, float], rate: float) -> tuple[Solid, ...]:
    """Upright bars that hold the steel of a block, where its maker's drawing gives no cage."""
    x, y = place
    high = 0.8 * block.high
    size = math.sqrt(4.0 * rate * block.volume / 7850.0 / math.pi / (_BARS * high))
    out = 0.3 * min(block.width, block.length)
    low = block.top - 0.9 * block.high
    turns = [2.0 * math.pi * k / _BARS for k in range(_BARS)]
    return tuple(
        Bar(start=(x + out * math.cos(a), y + out * math.sin(a), low),
            end=(x + out * math.cos(a), y + out * math.sin(a), low + high), diameter=size)
        for a in turns
    )  # fmt: skip


def ring_parts(
    beam: str, *, height: float, across: float, mass: float | None, hardware: SupportHardware
) -> tuple[Part, ...]:
    """List the ring mount on which one beam turns round the support.

    Args:
        height: height of the beam's boom [m]
        across: outside of the support from its axis [m]
        mass: mass as its maker states it; None when it is not given [kg]
    """
    over, high = given_or(hardware.ring_mount, (RING_OVER, RING_HIGH))
    size = 2.0 * (across + over)
    solids = (
        Bar(start=(0.0, 0.0, height - high), end=(0.0, 0.0, height - 2.0 * high),
            diameter=size, bore=2.0 * across),
    )  # fmt: skip
    return (
        _as_stated(
            _on_ground(
                "ring mount", "turning gear", mark=f"RM {beam}", name=f"ring mount of {beam}",
                solids=solids if across > 0.0 else (), joins=("support", "mast plate"),
                price_key="ring mount with motor and control box",
            ),
            mass, RING_MASS,
        ),
    )  # fmt: skip

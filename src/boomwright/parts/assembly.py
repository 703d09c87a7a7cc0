"""The assembly: every part of the station once, in one place, with what is assumed of it."""

from __future__ import annotations

import math
from typing import Final

from boomwright.base.records import dataclass, replace
from boomwright.parts.part import Part
from boomwright.parts.solids import Bar, Block, Point, Solid, lowest_beyond, reach_of
from boomwright.parts.support_parts import GROUND, MAST

#: groups that parts of any carrier may be fastened to
_COMMON: Final = frozenset({"mast", "support", "anchors", "turning gear", "base"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """A frame that parts stand in: the ground, the mast, or one beam.

    x of a beam runs along its boom from the rear end, of ground and mast to the north; y to the
    left of that, z up. The ground's datum is the foot of the support; everything that turns does
    so about the vertical over it.
    """

    name: str
    #: its datum in the frame of the foot; None while its place is not known [m] (3,)
    origin: Point | None
    heading: float = 0.0  #: direction of its x, clockwise from true north [rad]
    rotor: str = ""  #: carriers of one rotor turn together; empty for what stands
    missing: str = ""  #: what its place lacks, in words
    rear: float = 0.0  #: where its x begins on the axis that the plan counts places on [m]
    #: where the vertical that it turns about may stand while its place is not known: at its clamp
    #: or balance point, else at either end [m] (n_stands, 2)
    stands: tuple[tuple[float, float], ...] = ()

    def at_foot(self, point: Point) -> Point:
        """Place a point of this frame in the frame of the foot.

        Args:
            point: in this frame [m] (3,)
        """
        x0, y0, z0 = self.origin or (0.0, 0.0, 0.0)
        a, b = math.cos(self.heading), math.sin(self.heading)
        x, y, z = point
        return (x0 + a * x + b * y, y0 - b * x + a * y, z0 + z)

    @property
    def axis(self) -> tuple[float, float] | None:
        """Where the vertical over the foot stands, along x and y; None while unknown [m] (2,)."""
        if self.origin is None:
            return None
        x, y, _ = self.origin
        a, b = math.cos(self.heading), math.sin(self.heading)
        return (-a * x + b * y, -b * x - a * y)

    @property
    def axes(self) -> tuple[tuple[float, float], ...]:
        """Where the vertical that it turns about may stand in this frame [m] (n_axes, 2)."""
        return self.stands if self.axis is None else (self.axis,)

    def solid_at_foot(self, solid: Solid) -> Solid:
        """Place a solid of this frame in the frame of the foot."""
        if isinstance(solid, Bar):
            return replace(solid, start=self.at_foot(solid.start), end=self.at_foot(solid.end))
        return Block(
            middle=self.at_foot(solid.middle), size=solid.size, turn=solid.turn - self.heading
        )

    def solid_from_foot(self, solid: Solid) -> Solid:
        """Place a solid of the frame of the foot in this frame, whose own place is known."""
        x, y = self.axis or (0.0, 0.0)
        back = Carrier(
            name=self.name, origin=(x, y, -(self.origin or (0.0, 0.0, 0.0))[2]),
            heading=-self.heading,
        )  # fmt: skip
        return back.solid_at_foot(solid)


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """Every part of the station once."""

    parts: tuple[Part, ...]  #: numbered from 1 in this order (n_parts,)
    carriers: tuple[Carrier, ...]  #: ground first, then the mast, then the beams (n_carriers,)

    def __post_init__(self) -> None:
        names = {carrier.name for carrier in self.carriers}
        keys = [(part.carrier, part.mark) for part in self.parts]
        if len(set(keys)) < len(keys) or not {part.carrier for part in self.parts} <= names:
            doubled = sorted({key for key in keys if keys.count(key) > 1})
            raise ValueError(f"parts of one carrier need marks of their own: {doubled}")

    def carrier(self, name: str) -> Carrier:
        """Find a carrier by its name."""
        return next(each for each in self.carriers if each.name == name)

    def of(self, carrier: str, *roles: str) -> tuple[Part, ...]:
        """Parts of one carrier, all of them or those of some roles."""
        return tuple(
            part
            for part in self.parts
            if part.carrier == carrier and (not roles or part.role in roles)
        )

    def built(self, beam: str) -> tuple[Part, ...]:
        """Parts of one beam, with what lies on and in the ground at its foot, in its frame."""
        carrier = self.carrier(beam)
        at_foot = self.of(GROUND, "radial", "box")
        buried = [part for part in at_foot if part.mark.startswith(f"{beam} ")]
        return (
            *self.of(beam),
            *(
                replace(part, solids=tuple(map(carrier.solid_from_foot, part.solids)))
                for part in buried
            ),
        )

    def on_axes(self, beam: str) -> tuple[Part, ...]:
        """Parts of one beam, with its radials in the ground, on the axes of its plan."""
        axes = Carrier(name=beam, origin=(self.carrier(beam).rear, 0.0, 0.0))
        return tuple(
            replace(part, solids=tuple(map(axes.solid_at_foot, part.solids)))
            for part in self.built(beam)
        )

    def mass(self, carrier: str) -> float | None:
        """Mass of everything on one carrier; None while that of a part is not known [kg]."""
        masses = [part.mass for part in self.of(carrier)]
        return None if None in masses else sum(mass for mass in masses if mass is not None)

    def balance(self, beam: str, *, without: str = "") -> float | None:
        """Balance point of a beam from the rear end of its boom.

        Args:
            without: role of the parts that are left out

        Returns:
            place along the boom; None while a mass is not known [m]
        """
        moment = whole = 0.0
        for part in self.of(beam):
            if part.role == without:
                continue
            if not part.solids:  # a plate whose place is not known hangs at the balance point
                continue
            if part.mass is None:
                return None
            whole += part.mass
            moment += part.mass * centre_of(part)[0]
        return moment / whole if whole > 0.0 else None

    def reach(self, carrier: str) -> float:
        """Radius of the circle that everything on one carrier sweeps.

        Returns:
            farthest outside of any part from what it turns about; while nobody knows where that
            is, from the worse end [m]
        """
        solids = [solid for part in self.of(carrier) for solid in part.solids]
        axes = self.carrier(carrier).axes
        return max((reach_of(solid, axis) for solid in solids for axis in axes), default=0.0)

    def lowest_beyond(self, distance: float) -> tuple[float, Part] | None:
        """Find the lowest part of any beam further out than a circle round the foot.

        Args:
            distance: radius of that circle [m]

        Returns:
            its lowest height above the foot [m] and the part; None where nothing reaches so far
        """
        found: tuple[float, Part] | None = None
        for carrier in self.carriers:
            if carrier.origin is None or carrier.name in {GROUND, MAST}:
                continue
            for part in self.of(carrier.name):
                for solid in part.solids:
                    low = lowest_beyond(carrier.solid_at_foot(solid), distance)
                    if low is not None and (found is None or low < found[0]):
                        found = low, part
        return found

    def joined(self, one: Part, other: Part) -> bool:
        """Whether two parts are made to touch."""
        same = one.carrier == other.carrier
        if one.group == other.group and (same or one.group in _COMMON):
            return True
        return any(
            (b.group in a.joins and (same or b.group in _COMMON or b.carrier in {GROUND, MAST}))
            or f"{b.carrier}/{b.group}" in a.joins
            for a, b in ((one, other), (other, one))
        )


def centre_of(part: Part) -> Point:
    """Centre of mass of a part whose solids weigh alike, in the frame of its carrier.

    Raises:
        ValueError: for a part without solids
    """
    if not part.solids:
        raise ValueError(f"{part.mark} has no place")
    if len(part.solids) == 1:  # most parts: a beam is balanced with them over and over
        return part.solids[0].middle
    volumes = [solid.volume for solid in part.solids]
    whole = sum(volumes)
    x = y = z = 0.0
    for volume, solid in zip(volumes, part.solids, strict=True):
        weight = volume / whole if whole else 1.0 / len(volumes)
        along, across, up = solid.middle
        x, y, z = x + weight * along, y + weight * across, z + weight * up
    return (x, y, z)

"""Tubes, elements and beams as geometry, in the beam's own axes.

x runs along the boom towards the heading, y along the elements, z up; the boom axis is
at y = z = 0. Heights and headings belong to the beam as a whole.
"""

from __future__ import annotations

import math
from collections import Counter
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, ReadOnlyArrays
from boomwright.base.records import dataclass, replace
from boomwright.parts.bends import Corner, closed_corners, crossing, cut_to
from boomwright.parts.hardware import Hardware, Way
from boomwright.parts.materials import Material
from boomwright.parts.mounts import Insulation, Mount

Role = Literal["reflector", "driven", "director"]
#: what hangs on the feed of a beam that is not in use: ``common`` where it shares the feed point of
#: the one that is; empty when nobody said
IdleFeed = Literal["", "open", "shorted", "matched", "common"]


#: what a rounded size may be off; a tube that is thicker than its bore by more does not go in [m]
_ROUNDED = 1e-4


#: coil on its form with capacitor and clamps, where nobody has weighed and measured it [kg], [m]
#: {common-practice-hardware}
_TRAP_MASS, _TRAP_DIAMETER = 0.5, 0.06


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeSection:
    """One exposed length of tube in an element half."""

    diameter: float  #: outer diameter [m]
    length: float  #: exposed length, overlap not counted [m]
    wall: float = 0.0  #: wall thickness, 0 when not given [m]

    def takes(self, inner: TubeSection) -> bool:
        """Whether the next tube outwards goes into this one; True while no wall is known.

        One size with a thicker wall towards the boom is a tube with a second one pushed in.
        """
        if math.isclose(self.diameter, inner.diameter, rel_tol=1e-9):
            return 0.0 < inner.wall < self.wall - 1e-9
        return self.wall <= 0.0 or inner.diameter <= self.diameter - 2.0 * self.wall + _ROUNDED


@dataclass(frozen=True, slots=True, kw_only=True)
class Trap:
    """A coil and a capacitor side by side, in both halves of an element alike."""

    place: float  #: distance of its middle from the boom [m]
    width: float  #: length of tube that it replaces [m]
    inductance: float  #: of the coil [H]
    capacitance: float  #: of the capacitor [F]
    quality: float  #: quality factor of the coil [-]
    mass: float | None = None  #: of one trap; None for the usual [kg]
    diameter: float | None = None  #: of its body; None for the usual [m]
    length: float | None = None  #: of its body; None for the tube that it replaces [m]
    #: bending moment that its maker rates its body for; None when not given [N m]
    allowed_moment: float | None = None

    @property
    def resonance(self) -> float:
        """Frequency at which coil and capacitor resonate [Hz]."""
        return 1.0 / (2.0 * math.pi * math.sqrt(self.inductance * self.capacitance))

    @property
    def weighs(self) -> float:
        """Mass that counts [kg]."""
        return _TRAP_MASS if self.mass is None else self.mass

    @property
    def wide(self) -> float:
        """Diameter that the wind finds [m]."""
        return _TRAP_DIAMETER if self.diameter is None else self.diameter

    @property
    def long(self) -> float:
        """Length of its body, with which it covers the tube on both sides alike [m]."""
        return self.width if self.length is None else max(self.length, self.width)


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePoint:
    """A named point of a frame that wire runs to; its mirror image across the boom goes with it."""

    name: str  #: owner's name for it; empty for the middle of an element
    place: Corner  #: x along the boom, y across, z up from the boom [m] (3,)


@dataclass(frozen=True, slots=True, kw_only=True)
class PhasingLine:
    """Line from a driven element to the point where all driven elements of a beam are fed."""

    impedance: float  #: characteristic impedance [ohm]
    length: float  #: physical length [m]
    velocity_factor: float = 1.0  #: speed on it over that of light [-]

    @property
    def delay(self) -> float:
        """Time that a wave takes along it [s]."""
        return self.length / (self.velocity_factor * SPEED_OF_LIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class PostLine:
    """Line along a post, from the feed of one beam to that of another: bought, or two wires."""

    length: float  #: along the post, from the feed where the line to the radio ends [m]
    impedance: float = 0.0  #: characteristic impedance; 0 for that of the two wires [ohm]
    wire: float = 0.0  #: diameter of each of its two wires; 0 for a bought line [m]
    spacing: float = 0.0  #: between their axes [m]
    velocity_factor: float = 1.0  #: speed on it over that of light [-]

    @property
    def ohms(self) -> float:
        """Characteristic impedance, of two parallel wires by {pozar-2012, table 2.1} [ohm]."""
        if self.impedance:
            return self.impedance
        return VACUUM_IMPEDANCE / math.pi * math.acosh(self.spacing / self.wire)

    @property
    def delay(self) -> float:
        """Time that a wave takes along it [s]."""
        return self.length / (self.velocity_factor * SPEED_OF_LIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """An element symmetric about the boom: straight and parallel to y, or bent on a frame."""

    role: Role  #: ``reflector``, ``driven`` or ``director``
    position: float  #: place along the boom [m]
    half: tuple[TubeSection, ...]  #: sections of one half, from the boom outwards (n_sections,)
    traps: tuple[Trap, ...] = ()  #: traps in each half, from the boom outwards (n_traps,)
    mount: Mount | None = None  #: how it is held on the boom; None when the plan does not say
    insulation: Insulation | None = None  #: layer around it; None for bare metal
    #: points that one half runs through, from its middle; empty for a straight element (n_points,)
    path: tuple[FramePoint, ...] = ()
    #: straight piece across the boom each side of a bent element's middle, where its feed sits [m]
    middle: float = 0.0
    phasing_line: PhasingLine | None = None  #: of one of several driven elements; None without

    @property
    def half_length(self) -> float:
        """Half length from the boom to the tip, along the wire [m]."""
        return sum(section.length for section in self.half)

    @property
    def length(self) -> float:
        """Full length from tip to tip, along the wire [m]."""
        return self.half_length if self.upright else 2.0 * self.half_length

    @property
    def bent(self) -> bool:
        """Whether it is a wire with corners on a frame."""
        return bool(self.path)

    @property
    def upright(self) -> bool:
        """Whether it stands in the plane through the boom: one wire from its foot, no mirror."""
        return bool(self.path) and all(point.place[1] == 0.0 for point in self.path)

    @property
    def closed(self) -> bool:
        """Whether it is a loop: both halves meet again across the boom."""
        return len(self.path) > 2 and self.path[-1].place[1] == 0.0 and not self.upright

    @property
    def corners(self) -> tuple[Corner, ...]:
        """Ends and corners of one half, from its middle to its tip [m] (n, 3)."""
        if not self.path:
            x = self.position
            return ((x, 0.0, 0.0), (x, self.half_length, 0.0))
        places = [point.place for point in self.path]
        if self.upright:
            return cut_to(places, self.half_length)
        straight = max(self.middle, 2.0 * self.half[0].diameter)
        if self.closed:
            return closed_corners(places, self.half_length, straight)
        return cut_to(crossing(places, straight), self.half_length)

    @property
    def reach(self) -> float:
        """Farthest from the plane through the boom [m]."""
        return max(y for _, y, _ in self.corners)

    @property
    def outline(self) -> tuple[Corner, ...]:
        """All ends and corners from tip to tip [m] (n, 3)."""
        half = self.corners
        if self.upright:
            return half
        return (*((x, -y, z) for x, y, z in half[:0:-1]), *half)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wire(ReadOnlyArrays):
    """A bent wire of one diameter: straight pieces between the given points."""

    name: str  #: owner's name for it
    diameter: float  #: outer diameter of the metal [m]
    points: NDArray[np.float64]  #: corner points x, y, z in the beam's axes [m] (n_points, 3)
    insulation: Insulation | None = None  #: layer around it; None for bare metal


@dataclass(frozen=True, slots=True, kw_only=True)
class Conductor:
    """A straight piece of mast or guy: x north, y west of the mast, z above ground."""

    name: str  #: what it is
    diameter: float  #: outer diameter [m]
    start: tuple[float, float, float]  #: one end [m] (3,)
    end: tuple[float, float, float]  #: the other [m] (3,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreader:
    """Poles from the hub of a frame to points of it, all alike."""

    to: tuple[str, ...]  #: names of the points they hold, each for both sides (n,)
    sections: tuple[TubeSection, ...]  #: from the hub outwards; wall 0 for a rod (n_sections,)
    elastic_modulus: float = 0.0  #: Young's modulus; 0 when not given [Pa]
    density: float = 0.0  #: mass density; 0 when not given [kg/m^3]
    strength: float = 0.0  #: bending strength as its maker states it; 0 when not given [Pa]

    @property
    def known(self) -> bool:
        """Whether its weight and stiffness are known."""
        return self.elastic_modulus > 0.0 and self.density > 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What wire with corners runs along, and how that is held."""

    points: tuple[FramePoint, ...] = ()  #: points of one side and the middle (n_points,)
    #: where spreaders meet along the boom, and the mast holds them; None when each starts from the
    #: boom beside its point [m]
    hub: float | None = None
    hub_mass: float = 0.0  #: of hub, clamp and feed block [kg]
    pull: float | None = None  #: in each wire in still air; None when not given [N]
    spreader: Spreader | None = None  #: its poles; None when ropes hold its points
    held: str = ""  #: ``ropes`` when trees, roofs or poles hold its ends; empty when not said
    #: post that stands on the hub and carries the middles of the wires; None without
    post: TubeSection | None = None
    hardware: Hardware | None = None  #: its insulators, cord and box; None takes the trade's
    #: breaking strength of each of those ropes; None when not given [N]
    rope_strength: float | None = None
    said_by: str = ""  #: who says that what they are tied to holds, and when; empty for nobody

    def root(self, point: FramePoint) -> Corner:
        """Where the spreader to a point starts [m] (3,)."""
        return (point.place[0] if self.hub is None else self.hub, 0.0, 0.0)

    @property
    def spreader_count(self) -> int:
        """Poles of both sides."""
        held = () if self.spreader is None else self.spreader.to
        return sum(2 if p.place[1] > 0.0 else 1 for p in self.points if p.name in held)


@dataclass(frozen=True, slots=True, kw_only=True)
class Radials:
    """Wires spread evenly around the foot of upright elements."""

    count: int  #: how many at each foot
    length: float  #: of each [m]
    diameter: float  #: of the metal [m]
    laid: Literal["buried", "elevated"]  #: on or in the ground, or from the foot through the air
    slope: float = 0.0  #: how far elevated ones fall below level [rad]
    loss_factor: float = 1.0  #: loss of the ground under them over the computed one [-]
    depth: float | None = None  #: of buried ones; None takes a spade's cut [m]

    @property
    def fall(self) -> float:
        """How far the ends of elevated ones hang below the foot [m]."""
        return 0.0 if self.laid == "buried" else self.length * math.sin(self.slope)

    @property
    def ways(self) -> tuple[Corner, ...]:
        """Direction of each from its foot, the first along the boom [-] (count, 3)."""
        level, down = math.cos(self.slope), math.sin(self.slope)
        turns = (2.0 * math.pi * each / self.count for each in range(self.count))
        return tuple((level * math.cos(turn), level * math.sin(turn), -down) for turn in turns)


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """How the driven element is fed, and the dimensions of its match as far as they are known."""

    #: ``split`` for a cut element fed straight; or its match: ``hairpin``, ``gamma``, ``tee``,
    #: ``folded``, ``quarter-wave``, ``stub``, ``L-section``
    kind: str
    #: width of the feed gap along the element; the field solver feeds an uncut element as if cut by
    #: this much [m]
    gap: float
    #: impedance of the balun on the antenna side over that on the line side; None when not given
    #: [-]
    balun: float | None = None
    #: diameter of the rods of a hairpin, gamma, tee or folded element; None when not given [m]
    rod_diameter: float | None = None
    #: distance between their axes, or from the element's axis; None when not given [m]
    rod_spacing: float | None = None
    rod_length: float | None = None  #: length of each rod; None when not given [m]
    #: capacitor of the match, in each rod of a tee; None when not given [F]
    capacitance: float | None = None
    inductance: float | None = None  #: coil of the match; None when not given [H]
    #: component of an L-section that sits at the antenna: ``series coil``, ``series capacitor``,
    #: ``shunt coil`` or ``shunt capacitor``; empty when not given
    at_antenna: str = ""
    #: characteristic impedance of the matching line and its stub; None when not given [ohm]
    section_impedance: float | None = None
    #: physical length of the matching line from the antenna; None when not given [m]
    section_length: float | None = None
    stub_length: float | None = None  #: physical length of the stub; None when not given [m]
    stub_end: str = ""  #: ``open`` or ``short``, empty when not given
    #: speed on that line over that of light; None when not given [-]
    velocity_factor: float | None = None

    @property
    def cuts_element(self) -> bool:
        """Whether the driven element is cut in the middle."""
        return self.kind not in {"gamma", "tee", "folded"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A directional antenna with parasitic elements."""

    name: str  #: owner's name for it
    band: tuple[float, float]  #: lowest and highest frequency of use [Hz] (2,)
    design_frequency: float  #: frequency the beam is designed for [Hz]
    height: float  #: boom above ground [m]
    heading: float  #: direction of fire, clockwise from true north [rad]
    material: Material  #: conductor of all elements
    feed: Feed  #: feed of the driven element
    elements: tuple[Element, ...]  #: elements, in the order of the plan (n_elements,)
    wires: tuple[Wire, ...] = ()  #: further wires (n_wires,)
    frame: Frame | None = None  #: what its wire runs along; None for straight elements alone
    radials: Radials | None = None  #: at the foot of upright elements; None without
    idle_feed: IdleFeed = ""  #: what hangs on its feed while another beam is in use
    #: name of the beam on whose two feed terminals its driven element hangs too; empty for its own
    fed_with: str = ""
    post_line: PostLine | None = None  #: line to it from those terminals; None on the same ones
    #: name of the beam on whose boom its elements sit, places counted alike; empty for its own boom
    on_boom_of: str = ""
    clamp: float | None = None  #: place of the mast along the boom; None when not given [m]
    #: way the rods of its match run along the boom; empty takes them away from the mast
    rods: Way = ""
    #: other beams on the same mast, each without its own neighbours (n_neighbours,)
    neighbours: tuple[Beam, ...] = ()
    #: mast and guys as far as they conduct (n_conductors,)
    conductors: tuple[Conductor, ...] = ()

    @property
    def bent(self) -> bool:
        """Whether any element is a wire with corners."""
        return any(element.bent for element in self.elements)

    @property
    def upright(self) -> bool:
        """Whether its elements stand on end, fed at their feet."""
        return any(element.upright for element in self.elements)

    @property
    def hung(self) -> bool:
        """Whether ropes hold all its wire, and nothing is bolted to a mast."""
        return self.bent and self.frame is not None and bool(self.frame.held)

    @property
    def boomless(self) -> bool:
        """Whether it needs no boom: all of it wire on ropes, on a hub's spreaders or upright."""
        if not all(element.bent or element.upright for element in self.elements):
            return False
        frame = self.frame
        return frame is None or frame.spreader is None or frame.hub is not None

    @property
    def all_round(self) -> bool:
        """Whether it is one upright wire, which is heard all round alike."""
        return self.upright and len(self.elements) == 1

    @property
    def stands_on_ground(self) -> bool:
        """Whether upright elements are fed against the ground and the wires in it."""
        return self.upright and self.radials is not None and self.radials.laid == "buried"

    @property
    def alone(self) -> Beam:
        """The same beam with nothing beside it."""
        if not self.neighbours and not self.conductors:
            return self
        return replace(self, neighbours=(), conductors=())

    def shares_boom(self, other: Beam) -> bool:
        """Whether two beams sit on one boom."""
        own = self.on_boom_of or self.name
        return own == (other.on_boom_of or other.name)

    def shares_feed(self, other: Beam) -> bool:
        """Whether two beams hang on one feed point."""
        return (self.fed_with or self.name) == (other.fed_with or other.name)

    @property
    def carrier(self) -> Beam | None:
        """The beam on whose spreaders the points of its frame lie; None for a frame of its own."""
        if self.frame is None or self.frame.spreader is not None or self.frame.held:
            return None
        hosts = (other for other in self.neighbours if other.name == self.on_boom_of)
        host = next(hosts, None)
        spread = host is not None and host.frame is not None and host.frame.spreader is not None
        return host if spread else None

    @property
    def carried(self) -> tuple[Beam, ...]:
        """Beams whose points lie on the spreaders of this one (n,)."""
        return tuple(
            other
            for other in self.neighbours
            if other.on_boom_of == self.name
            and replace(other, neighbours=(self.alone,)).carrier is not None
        )

    @property
    def boom_middle(self) -> float:
        """Place along the boom where the mast holds it [m]."""
        if self.frame is not None and self.frame.hub is not None:
            return self.frame.hub
        places = [element.position for element in self.elements]
        return 0.5 * (min(places) + max(places))

    @property
    def rods_forward(self) -> bool:
        """Whether the rods of its match run towards the heading.

        Where the plan does not say where the mast stands, that is the middle of the boom.
        """
        if self.rods:
            return self.rods == "forward"
        mast = self.boom_middle if self.clamp is None else self.clamp
        return self.elements[self.driven_index].position >= mast

    @property
    def wavelength(self) -> float:
        """Wavelength at the design frequency [m]."""
        return SPEED_OF_LIGHT / self.design_frequency

    @property
    def boom_length(self) -> float:
        """Distance from the first to the last element along the boom [m]."""
        places = [element.position for element in self.elements]
        return max(places) - min(places) if places else 0.0

    @property
    def driven_indices(self) -> tuple[int, ...]:
        """Indices of all driven elements, each but a single one on its phasing line (n_driven,)."""
        return tuple(i for i, element in enumerate(self.elements) if element.role == "driven")

    @property
    def driven_index(self) -> int:
        """Index of the driven element, the first where there are several."""
        return self.driven_indices[0]

    @property
    def element_labels(self) -> tuple[str, ...]:
        """Names: a role alone when it is the only one, directors numbered along the boom."""
        totals = Counter(element.role for element in self.elements)
        order = sorted(range(len(self.elements)), key=lambda i: self.elements[i].position)
        seen: Counter[str] = Counter()
        names = [""] * len(order)
        for i in order:
            role = self.elements[i].role
            seen[role] += 1
            numbered = role == "director" or totals[role] > 1
            names[i] = f"{role} {seen[role]}" if numbered else role
        return tuple(names)

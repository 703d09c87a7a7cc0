"""What the trade takes where a plan says nothing: plates, bolts, boxes, caps.

Every figure here is assumed {common-practice-hardware}. A plan overrides it under
``[beam.boom.hardware]`` or ``[beam.frame.hardware]``, ``[support.hardware]`` and
``[line.hardware]``, by a mount, or by a fitting; the build sheets list what is still assumed.
"""

from __future__ import annotations

from typing import Any, Literal, TypeVar

from boomwright.base.records import dataclass

_Given = TypeVar("_Given")
Way = Literal["", "forward", "rearward"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Hardware of one beam; empty takes what the trade does."""

    #: element plate: along the element, along the boom, thickness; empty lays it out [m] (3,)
    element_plate: tuple[float, ...] = ()
    #: mast plate: along the boom, along the mast, thickness; empty lays it out [m] (3,)
    mast_plate: tuple[float, ...] = ()
    boom_clamp: float | None = None  #: diameter that the boom's clamps are made for [m]
    mast_clamp: float | None = None  #: diameter that the mast's clamps are made for [m]
    #: sleeve in the boom: outer diameter, wall, whole length; empty takes one that fits its bore
    #: [m] (3,)
    sleeve: tuple[float, ...] = ()
    element_sleeve: float | None = None  #: wall of the sleeves in tubes of elements [m]
    #: way the rods of a match run along the boom; empty takes them away from the mast
    rods: Way = ""
    box_mass: float | None = None  #: choke or balun box at the feed [kg]
    box: tuple[float, ...] = ()  #: that box: along the boom, across it, high [m] (3,)
    capacitor_mass: float | None = None  #: capacitor of a match in its box [kg]
    capacitor_box: tuple[float, ...] = ()  #: that box: along the boom, across it, high [m] (3,)
    u_bolt: float | None = None  #: thread of the U-bolts [m]
    saddle: float | None = None  #: saddle under a tube, along it [m]
    shell: float | None = None  #: thickness of the insulating shell under a U-bolt [m]
    insulating_rod: float | None = None  #: whole rod in the gap of a cut element [m]
    tip_plug: float | None = None  #: how deep a tip plug sits in its tube [m]
    boom_cap: float | None = None  #: thickness of a boom cap [m]
    truss_material: str = ""  #: metal of the boom's truss; empty takes stainless steel
    truss_eye: tuple[float, ...] = ()  #: strip with its eye: along the boom, thickness [m] (2,)
    strap: tuple[float, ...] = ()  #: strap of a match: width, thickness [m] (2,)
    #: coupling of a second conductor: whole length, wall [m] (2,)
    coupling: tuple[float, ...] = ()
    #: spacer of a second conductor: along the element, high, from one to the next [m] (3,)
    spacer: tuple[float, ...] = ()
    end_insulator: float | None = None  #: side of the insulator at the end of a wire [m]
    end_insulator_mass: float | None = None  #: that insulator [kg]
    cord: float | None = None  #: diameter of the cord between ends of wire [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportHardware:
    """What holds a support and what turns on it; empty takes what the trade does."""

    shelf_mass: float | None = None  #: rotator shelf or cage [kg]
    guy_ring_mass: float | None = None  #: ring with its clamp, of one level of guys [kg]
    guy_grip_mass: float | None = None  #: grip with its thimble, of one end of a guy [kg]
    turnbuckle_mass: float | None = None  #: one turnbuckle with its shackles [kg]
    house_bracket_mass: float | None = None  #: one house bracket with its fixings [kg]
    anchor_bolts_mass: float | None = None  #: anchor bolts of the footing with their template [kg]
    steel: float | None = None  #: reinforcing steel in one cubic metre of concrete [kg/m^3]
    anchor_rod: float | None = None  #: diameter of the rod of a guy anchor [m]
    bearing: tuple[float, ...] = ()  #: top bearing: across, high [m] (2,)
    rotator: tuple[float, ...] = ()  #: rotator: across, high [m] (2,)
    shelf: tuple[float, ...] = ()  #: rotator shelf: side, thickness [m] (2,)
    guy_ring: tuple[float, ...] = ()  #: guy ring: beyond the pole, thickness [m] (2,)
    ring_mount: tuple[float, ...] = ()  #: ring mount: beyond the support, high [m] (2,)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineHardware:
    """Cable and earth rods as their makers state; empty takes what the trade does."""

    mass: float | None = None  #: one metre of feed line [kg/m]
    diameter: float | None = None  #: of the feed line [m]
    control_mass: float | None = None  #: one metre of control cable [kg/m]
    control_diameter: float | None = None  #: of the control cable [m]
    drip_loop: float | None = None  #: line in the drip loop [m]
    earth_rod: tuple[float, ...] = ()  #: earth rod: length, diameter [m] (2,)
    #: from the outside of footing and support to the first earth rod [m]
    earth_from: float | None = None


def given_or(given: _Given | None, usual: _Given) -> _Given:
    """What the owner gives, else what the trade takes."""
    return usual if given is None or given == () else given


def stands(proud: tuple[float, float], size: float) -> tuple[float, float]:
    """How far a screw stands out below and above [m] (2,).

    Args:
        proud: the same in its diameters [-] (2,)
        size: its diameter [m]
    """
    below, above = proud
    return below * size, above * size


def whose(*given: object) -> dict[str, Any]:
    """Whose figures a part has that is made from these: the owner's if all of them are given."""
    said = all(each not in (None, (), "") for each in given)
    return (
        {"known": "plan", "basis": ""} if said else {"known": "assumed", "basis": "common practice"}
    )


#: choke or balun box: along the boom, across, high [m]; its mass with cores [kg]
BOX_SIZE = (0.16, 0.10, 0.08)
BOX_MASS = 0.8
#: tip plug: how deep it sits in the tube [m]
PLUG_LENGTH = 0.03
#: weep hole of a boom, and of a tip beside its plug; the boom's from its end
#: {common-practice-building} [m]
WEEP, TIP_WEEP, BOOM_WEEP = 0.004, 0.003, 0.030
#: boom cap: thickness [m]
CAP_THICKNESS = 0.003
#: sleeve in a boom's joint: to either side of it, in boom diameters [-]
SLEEVE_REACH = 5.0
#: least wall of a sleeve, and play in the boom's bore [m]
SLEEVE_WALL, SLEEVE_PLAY = 0.003, 0.0005
#: insulating rod in a cut element: into each half, in its own diameters [-]
ROD_REACH = 4.0
#: insulating shell between a tube and the U-bolt that closes round it [m]
SHELL = 0.003
#: screw of a feed terminal, its hole, and the hole from the inner end where no rod decides [m]
TERMINAL, TERMINAL_HOLE, TERMINAL_PLACE = 0.005, 0.0055, 0.020
#: rod of a match: past the middle of its short or strap, which slides both ways, and at least
#: behind the hole of its terminal [m]
ROD_BEYOND, ROD_BEHIND = 0.05, 2.0 * TERMINAL_HOLE
#: how far a head, and a nut with its washer and tail, stand out, in diameters of their screw [-]
_HEAD, _NUT = 1.0, 2.0
#: how far screws stand out of what they hold, below and above: rivets, whose heads take turns;
#: screws with their head below; through bolts, whose nut may be on either side, in diameters [-]
RIVET_PROUD, SCREW_PROUD, BOLT_PROUD = (0.5, 0.5), (_HEAD, _NUT), (_NUT, _NUT)
#: from a terminal's middle to what it must clear: nut, washer and spanner [m]
TERMINAL_ROOM = 2.5 * TERMINAL
#: capacitor of a match in its box: along the boom, across, high [m]; its mass [kg]
CAPACITOR_SIZE, CAPACITOR_MASS = (0.12, 0.08, 0.06), 0.4
#: strip on the boom with the eye of its truss: along the boom, thickness [m]
TRUSS_EYE = (0.03, 0.005)
#: strap that shorts rods or ties one to its element: across its length, thickness [m]
STRAP = (0.02, 0.003)
#: block under the short of a hairpin: along the boom, across it at most; least height, width and
#: room to each rod [m] {common-practice-building}
SHORT_BLOCK = (0.04, 0.04, 0.01)
#: clip that holds a conductor under a strap: its sheet, its screw from the conductor's side [m]
CLIP, CLIP_EAR = 0.0015, 0.008
#: spacer of a second conductor: along the element, high, from one to the next at most [m]
SPACER = (0.012, 0.02, 1.0)
#: coupling over two rods that meet: whole length, wall [m]
COUPLING = (0.12, 0.002)
#: insulator at the end of a wire: its side [m], its mass [kg]
INSULATOR, INSULATOR_MASS = 0.03, 0.02
#: cord between ends of wire: diameter [m], mass of one metre by its cross section [kg/m^3]
CORD, CORD_DENSITY = 0.003, 990.0
#: saddle under a tube at each U-bolt: along the tube [m]
SADDLE = 0.03
#: plate between boom and what holds it, with its clamps, where its place is not known [kg]
MAST_PLATE_MASS = 3.0
#: half of a hub of spreaders, across and along the boom [m] {common-practice-building}
HUB_RADIUS = 0.05
#: bridle, hook and shackles that a beam is lifted with [kg]
RIGGING_MASS = 4.0
#: thrust bearing: across, high [m]; mass [kg]
BEARING_SIZE, BEARING_MASS = (0.16, 0.05), 1.5
#: rotator: across, high [m]; mass [kg]
ROTATOR_SIZE, ROTATOR_MASS = (0.19, 0.30), 8.0
#: rotator cage or shelf: across, plate thickness [m]
SHELF = (0.30, 0.006)
#: ring mount: across its ring over the support, high [m]; mass [kg]
RING_OVER, RING_HIGH, RING_MASS = 0.20, 0.12, 25.0
#: outline of a tower whose width is not given: face, leg [m]
OUTLINE = (0.30, 0.03)
#: guy hardware, each: grip, thimble and shackle, turnbuckle [kg]
GRIP_MASS, TURNBUCKLE_MASS = 0.25, 1.2
#: anchor rod: diameter, length above its block [m]
ANCHOR_ROD = 0.02
#: reinforcing steel in concrete {common-practice-estimating} [kg/m^3]
REBAR_RATE = 75.0
#: length of an earth rod, its diameter [m]
EARTH_ROD = (2.44, 0.016)
#: depth of radials in the ground {common-practice-building} [m]
RADIAL_DEPTH = 0.05
#: ring that guys hold on to round a pole: beyond the pole, thickness [m]
GUY_RING = (0.05, 0.008)
#: from the outside of footing and support to the first earth rod [m]
EARTH_CLEAR = 0.3
#: drip loop of a line where it leaves the support [m]
DRIP_LOOP = 0.5
#: mass of one metre: feed line of 10 mm, control cable [kg/m]
LINE_MASS, CONTROL_MASS = 0.16, 0.10
#: outer diameter of feed line, of control cable [m]
CABLE, CONTROL_CABLE = 0.010, 0.008

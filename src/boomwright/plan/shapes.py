"""Starter plans of wire: dipoles, loops, two-element beams on a frame, verticals.

Lengths are in wavelengths, of bare wire about 1e-4 wavelengths thick. Those of the dipoles,
single loops and verticals are the trade's first guess {common-practice-first-guess}; those of the
two-element shapes were searched for with this package's own solver, gain first, over 2.5 % of
band: no published figures of such beams were at hand. ``study.shapes`` trims them to the plan's
wire and ground.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import dataclass, field

from boomwright.base import SPEED_OF_LIGHT, UnitSystem
from boomwright.plan.bands import Region
from boomwright.plan.kinds import nearest
from boomwright.plan.quantity import QuantityError
from boomwright.plan.starter import PlanWriter, band_lines, checked_band, site_lines
from boomwright.plan.tables.root import PLAN_VERSION

Place = tuple[float, float, float]

#: usual wire, hard-drawn copper [m]
_WIRE = 0.002
#: heights of a first plan lie between these [m]
_LOW, _HIGH = 8.0, 12.0
#: ends of a sloping wire stay this far above ground [m]
_OUT_OF_REACH = 3.0
#: fall of elevated radials, which brings a quarter wave near 50 ohm [deg]
_SLOPE_DEG = 40.0
#: pull in wires on ropes and on a frame {common-practice-wire-factors} [N]
_ROPE_PULL, _FRAME_PULL = 40.0, 15.0
#: thinnest pole at its root [m], and share of its length that is usual
#: {common-practice-wire-factors}
_LEAST_POLE, _POLE_SHARE = 0.016, 0.010
#: line from the foot of the support to the radio in a first plan [m]
_LINE = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WireGuess:
    """One element of a shape, in wavelengths."""

    role: str
    length: float  #: along the wire, all of it [wavelengths]
    through: tuple[str, ...]  #: points of the frame that a half runs through
    at: float = 0.0  #: middle along the boom [wavelengths]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeGuess:
    """A shape by its points and elements, in wavelengths."""

    noun: str  #: what it is, for title and comments
    points: dict[str, Place]  #: points of the frame [wavelengths]
    elements: tuple[WireGuess, ...]
    words: tuple[str, ...]  #: what its owner should know, one line each
    reactance: float = 0.0  #: at the design frequency when trimmed [ohm]
    section: float | None = None  #: impedance of a quarter-wave section at its feed [ohm]
    radials: tuple[int, float, str] | None = None  #: how many, length [wavelengths], how laid
    spread: tuple[str, ...] = ()  #: points on spreaders; none where ropes hold the ends
    hub: float | None = None  #: where spreaders meet; None from the boom [wavelengths]
    boom: float = 0.0  #: length of a boom; 0 for none [wavelengths]
    pole: bool = True  #: whether a pole carries its middle
    height: float | None = field(default=None)  #: of its middle when that is not free [m]


def _dipole(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="flat dipole",
        points={"end": (0.0, 0.3, 0.0)},
        elements=(WireGuess(role="driven", length=0.48, through=("end",)),),
        words=("Two wires in line, tied off level. Fires both ways, broadside to the wire.",),
    )


def _vee(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="vee dipole",
        points={"end": (0.15, 0.26, 0.0)},
        elements=(WireGuess(role="driven", length=0.484, through=("end",)),),
        words=("Two level wires swept forward, 120 degrees between them.",),
    )


def _inverted_vee(wavelength: float, height: float) -> ShapeGuess:
    fall = max(0.0, height - _OUT_OF_REACH) / (0.26 * wavelength)
    slope = min(30.0, math.degrees(math.asin(min(1.0, fall))))
    down, out = 0.3 * math.sin(math.radians(slope)), 0.3 * math.cos(math.radians(slope))
    return ShapeGuess(
        noun="inverted-vee",
        points={"end": (0.0, out, -down)},
        elements=(WireGuess(role="driven", length=0.484, through=("end",)),),
        words=(
            f"One high point; the wires slope down at {slope:.0f} degrees to ropes.",
            "Keep the ends out of reach: they carry high voltage when you transmit.",
        ),
    )


def _end_loaded(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="end-loaded dipole",
        points={"end": (0.0, 0.17, 0.0), "hanging end": (0.0, 0.17, -0.12)},
        elements=(WireGuess(role="driven", length=0.49, through=("end", "hanging end")),),
        words=("A short dipole whose ends hang straight down.",),
    )


def _triangle(at: float, corner: float, name: str = "", low: float = 0.0) -> dict[str, Place]:
    return {
        f"{name}bottom": (at, 0.0, low),
        f"{name}corner": (at, corner, low),
        f"{name}top": (at, 0.0, low + corner * math.sqrt(3.0)),
    }


def _square(at: float, half: float, name: str = "") -> dict[str, Place]:
    return {
        f"{name}bottom": (at, 0.0, -half),
        f"{name}lower corner": (at, half, -half),
        f"{name}upper corner": (at, half, half),
        f"{name}top": (at, 0.0, half),
    }


_SIDES = ("lower", "upper")
#: the wire hangs so far above the mast, on its insulator or hub [m]
_INSULATED = 0.05
#: the base of a triangle crosses its boom so far above the boom's axis [m]
_OVER_BOOM = 0.1
_SECTION_WORDS = "Fed through a quarter wave of 75 ohm line, which brings it near 50 ohm."


def _square_loop(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="square loop",
        points=_square(0.0, 0.133),
        elements=(WireGuess(role="driven", length=1.062, through=tuple(_square(0.0, 1.0))),),
        words=(
            "A loop of one wave, fed in the middle of its lower side.",
            "Hang it from an arm, clear of the pole that its sides would cross.",
            _SECTION_WORDS,
        ),
        section=75.0,
    )


def _triangle_loop(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="triangular loop",
        points=_triangle(0.0, 0.179),
        elements=(WireGuess(role="driven", length=1.071, through=tuple(_triangle(0.0, 1.0))),),
        words=("A loop of one wave, point up, fed in the middle of its base.", _SECTION_WORDS),
        section=75.0,
    )


def _two_square_loops(wavelength: float, height: float) -> ShapeGuess:
    spacing, driven, reflector = SQUARE_LOOPS
    back, front = "rear ", "front "
    return ShapeGuess(
        noun="two square loops",
        points={
            **_square(0.0, reflector / 8.0, back),
            **_square(spacing, driven / 8.0, front),
        },
        elements=(
            WireGuess(role="reflector", length=reflector, through=tuple(_square(0.0, 1.0, back))),
            WireGuess(
                role="driven", length=driven, through=tuple(_square(0.0, 1.0, front)), at=spacing
            ),
        ),
        words=(
            "Two loops of one wave on crossed spreaders, the larger one behind.",
            _SECTION_WORDS,
        ),
        reactance=SQUARE_LOOPS_REACTANCE,
        spread=tuple(f"{loop}{side} corner" for loop in (back, front) for side in _SIDES),
        boom=spacing,
        section=75.0,
    )


def _two_triangle_loops(wavelength: float, height: float) -> ShapeGuess:
    spacing, driven, reflector = TRIANGLE_LOOPS
    back, front, low = "rear ", "front ", _OVER_BOOM / wavelength
    return ShapeGuess(
        noun="two triangular loops",
        points={
            **_triangle(0.0, reflector / 6.0, back, low),
            **_triangle(spacing, driven / 6.0, front, low),
        },
        elements=(
            WireGuess(role="reflector", length=reflector, through=tuple(_triangle(0.0, 1.0, back))),
            WireGuess(
                role="driven", length=driven, through=tuple(_triangle(0.0, 1.0, front)), at=spacing
            ),
        ),
        words=("Two loops of one wave, points up, the larger one behind.", _SECTION_WORDS),
        reactance=TRIANGLE_LOOPS_REACTANCE,
        spread=tuple(f"{loop}{which}" for loop in (back, front) for which in ("corner", "top")),
        boom=spacing,
        section=75.0,
    )


# Found by search with this package's own solver, bare copper wire 1e-4 wavelengths thick in free
# space, gain first with an SWR below 1.5 over 2.5 % of band (1.8 behind a section for the loops);
# lengths in wavelengths.
HEXAGON = (0.152, 0.5268, 0.4976)  #: spreader, driven element, reflector
HEXAGON_REACTANCE = 9.5
RECTANGLE = (0.3655, 0.1406, 0.4769, 0.5021)  #: width, depth, driven element, reflector
RECTANGLE_REACTANCE = 2.0
SQUARE_LOOPS = (0.1457, 1.0207, 1.0545)  #: spacing, driven loop, reflector loop
SQUARE_LOOPS_REACTANCE = 40.0
TRIANGLE_LOOPS = (0.1535, 1.0359, 1.0652)  #: the same
TRIANGLE_LOOPS_REACTANCE = 41.0


def _hexagon(wavelength: float, height: float) -> ShapeGuess:
    arm, driven, reflector = HEXAGON
    deep = arm * math.cos(math.radians(30.0))
    return ShapeGuess(
        noun="hexagon-shaped two-element wire beam",
        points={
            "front": (deep, 0.5 * arm, 0.0),
            "side": (0.0, arm, 0.0),
            "rear": (-deep, 0.5 * arm, 0.0),
        },
        elements=(
            WireGuess(
                role="reflector", length=reflector, through=("rear", "side", "front"), at=-deep
            ),
            WireGuess(role="driven", length=driven, through=("front", "side")),
        ),
        words=(
            "Six spreaders; the driven wire runs from the middle to the front ones and back along",
            "the sides, the reflector round the rear ones. Cord holds their ends apart.",
        ),
        reactance=HEXAGON_REACTANCE,
        spread=("front", "side", "rear"),
        hub=0.0,
    )


def _rectangle(wavelength: float, height: float) -> ShapeGuess:
    width, depth, driven, reflector = RECTANGLE
    return ShapeGuess(
        noun="rectangle bent back, two elements",
        points={"rear": (0.0, 0.5 * width, 0.0), "front": (depth, 0.5 * width, 0.0)},
        elements=(
            WireGuess(role="reflector", length=reflector, through=("rear", "front")),
            WireGuess(role="driven", length=driven, through=("front", "rear"), at=depth),
        ),
        words=("Two wires with their ends bent towards each other. Cord holds them apart.",),
        reactance=RECTANGLE_REACTANCE,
        spread=("rear", "front"),
        hub=0.5 * depth,
    )


def _vertical(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="ground-mounted vertical",
        points={"foot": (0.0, 0.0, 0.0), "top": (0.0, 0.0, 0.3)},
        elements=(WireGuess(role="driven", length=0.242, through=("foot", "top")),),
        words=(
            "A quarter wave over radials in the lawn. It fires all round, low, with no support",
            "but a light mast or a tree; the ground under it decides how well.",
        ),
        radials=(32, 0.25, "buried"),
        pole=False,
        height=0.1,
    )


def _raised_vertical(wavelength: float, height: float) -> ShapeGuess:
    return ShapeGuess(
        noun="vertical over elevated radials",
        points={"foot": (0.0, 0.0, 0.0), "top": (0.0, 0.0, 0.3)},
        elements=(WireGuess(role="driven", length=0.242, through=("foot", "top")),),
        words=(
            "A quarter wave on a pole over four radials that slope down. Keep them out of reach:",
            "they carry current, and high voltage at their ends.",
        ),
        radials=(4, 0.245, "elevated"),
        height=round(_OUT_OF_REACH + 0.245 * math.sin(math.radians(_SLOPE_DEG)) * wavelength, 1),
    )


#: shapes that a plan can start from, by the name that asks for them
SHAPES: dict[str, Callable[[float, float], ShapeGuess]] = {
    "dipole": _dipole,
    "vee": _vee,
    "inverted-vee": _inverted_vee,
    "end-loaded-dipole": _end_loaded,
    "hexagon": _hexagon,
    "rectangle": _rectangle,
    "square-loop": _square_loop,
    "triangle-loop": _triangle_loop,
    "two-square-loops": _two_square_loops,
    "two-triangle-loops": _two_triangle_loops,
    "vertical": _vertical,
    "raised-vertical": _raised_vertical,
}


def shape_guess(
    shape: str, *, wavelength: float, height: float | None = None
) -> tuple[ShapeGuess, float]:
    """Find a shape and the height of its middle [m].

    Args:
        wavelength: at the design frequency [m]
        height: wished for; None for a usual one [m]

    Raises:
        QuantityError: when there is no such shape
    """
    if shape not in SHAPES:
        close = nearest(shape, SHAPES)
        remedy = f'did you mean "{close}"? ' if close else ""
        message = f"this shape is not known: {shape}"
        raise QuantityError(message, f"{remedy}write one of {', '.join(SHAPES)}")
    usual = round(min(_HIGH, max(_LOW, wavelength / 2.0)), 1)
    guess = SHAPES[shape](wavelength, usual if height is None else height)
    return guess, height or guess.height or usual


def shape_plan(
    shape: str,
    *,
    band: str | tuple[float, float],
    scale: float = 1.0,
    title: str = "",
    height: float | None = None,
    heading_deg: float = 0.0,
    ground: str = "medium dry",
    position: str = "",
    units: UnitSystem = "metric",
    region: Region = 1,
) -> str:
    """Write a first plan of one shape: site, beam, feed, line and support.

    Args:
        band: amateur band such as ``20 m``, or lowest and highest frequency [Hz]
        scale: factor on the length of every element [-]
        height: of its middle above ground; None for a usual one [m]
        heading_deg: direction of fire, clockwise from true north [deg]

    Raises:
        QuantityError: unknown shape, band or ground
    """
    low, high, centre = checked_band(band, None, region)
    wavelength = SPEED_OF_LIGHT / centre
    guess, middle = shape_guess(shape, wavelength=wavelength, height=height)
    label = band.strip() if isinstance(band, str) else f"{centre / 1e6:.6g} MHz"
    write = PlanWriter(units)
    section = guess.section is not None
    feed = f'kind = "{"quarter-wave" if section else "split"}", gap = {write.diameter(0.04)}'
    if guess.section is not None:
        length = write.length(0.66 * 0.25 * wavelength)
        feed += f', section_impedance = "{guess.section:g} ohm", section_length = {length}'
        feed += ", velocity_factor = 0.66"
    lines = [
        f"# {guess.noun[0].upper()}{guess.noun[1:]}, trimmed to this wire and ground.",
        *(f"# {line}" for line in guess.words),
        f"boomwright = {PLAN_VERSION}",
        f"title = {json.dumps(title or f'{label}: {guess.noun}', ensure_ascii=False)}",
        "",
        *site_lines(ground, position),
        "",
        *band_lines(label, (low, high, centre), middle, heading_deg, write),
        'material = "copper"',
        f"feed = {{ {feed} }}",
        *_frame_lines(guess, wavelength, write),
    ]
    for element in guess.elements:
        lines += ["", *_element_lines(element, wavelength, scale, write)]
    lines += ["", "[line]", 'type = "RG-213"', f"length = {write.length(middle + _LINE)}"]
    if len(guess.elements) > 1 and not section:
        lines += [
            "",
            "# Fed straight, so the search shall keep the SWR low as it stands.",
            "[wish]",
        ]
        lines += ["swr = 1.8", "matched = false"]
    return "\n".join(lines + (_pole_lines(middle, write) if guess.pole else [])) + "\n"


def _frame_lines(guess: ShapeGuess, wavelength: float, write: PlanWriter) -> list[str]:
    """Points of the frame, and radials."""
    lines = ["", "  [beam.frame]", "  points = ["]
    for name, place in guess.points.items():
        where = ", ".join(write.length(wavelength * value) for value in place)
        lines.append(f'    ["{name}", {where}],')
    lines.append("  ]")
    lines += _held_lines(guess, wavelength, write)
    if guess.radials is not None:
        count, length, laid = guess.radials
        lines += ["", "  [beam.radials]", f"  count = {count}"]
        lines += [f"  length = {write.length(length * wavelength)}"]
        lines += [f"  diameter = {write.wire(_WIRE)}", f'  laid = "{laid}"']
        lines += [f'  slope = "{_SLOPE_DEG:g} deg"'] if laid == "elevated" else []
    return lines


def _held_lines(guess: ShapeGuess, wavelength: float, write: PlanWriter) -> list[str]:
    """What holds the points: spreaders of usual size, on a hub or a boom; or ropes."""
    if not guess.spread:
        return [f'  pull = "{_ROPE_PULL:g} N"', '  held = "ropes"']
    arm = wavelength * max(
        math.dist((guess.points[name][0] if guess.hub is None else guess.hub, 0.0, 0.0),
                  guess.points[name])
        for name in guess.spread
    )  # fmt: skip
    root = max(_LEAST_POLE, _POLE_SHARE * arm)
    tubes = ", ".join(
        f"[{write.wire(round(root * part, 3))}, {write.length(arm / 3.0 + 0.02)}, "
        f"{write.wire(0.0025)}]"
        for part in (1.0, 0.8, 0.6)
    )
    lines = []
    if guess.hub is not None:
        lines = [f"  hub = {write.length(guess.hub * wavelength)}", '  hub_mass = "2 kg"']
    return [
        *lines,
        f'  pull = "{_FRAME_PULL:g} N"',
        "    [beam.frame.spreader]",
        f"    to = {json.dumps(guess.spread)}",
        f"    sections = [{tubes}]",
        "    # Usual fibreglass tube; its maker knows better, and its strength too.",
        '    elastic_modulus = "20 GPa"',
        '    density = "1900 kg/m3"',
        *_boom_lines(guess.boom * wavelength, write),
    ]


def _boom_lines(length: float, write: PlanWriter) -> list[str]:
    if not length:
        return []
    return [
        "",
        "  [beam.boom]",
        f"  diameter = {write.diameter(0.0508)}",
        f"  wall = {write.wire(0.003)}",
        f"  length = {write.length(length + 0.2)}",
        f"  rear_end = {write.length(-0.1)}",
        '  material = "6061-T6"',
    ]


def _element_lines(
    element: WireGuess, wavelength: float, scale: float, write: PlanWriter
) -> list[str]:
    return [
        "  [[beam.element]]",
        f'  role = "{element.role}"',
        f"  at = {write.length(element.at * wavelength)}",
        f"  diameter = {write.wire(_WIRE)}",
        f"  length = {write.length(element.length * scale * wavelength)}",
        f"  through = {json.dumps(element.through)}",
    ]


def _pole_lines(height: float, write: PlanWriter) -> list[str]:
    """A steel pole to a little below the beam, with a short mast on it; the wire stays clear."""
    pole = max(1.0, height - 0.6)
    top = max(pole, height - _INSULATED)
    return [
        "",
        "[support.tube]",
        f"diameter = {write.diameter(0.0603)}",
        f"wall = {write.wire(0.0039)}",
        f"height = {write.length(pole)}",
        'material = "A53 B"',
        "",
        "[support.mast]",
        f"diameter = {write.diameter(0.0483)}",
        f"wall = {write.wire(0.0037)}",
        f"bearing = {write.length(pole)}",
        f"top = {write.length(top)}",
        'material = "A53 B"',
    ]

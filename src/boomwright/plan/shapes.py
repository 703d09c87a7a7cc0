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
from collections.abc import Callable, Sequence
from itertools import pairwise, zip_longest
from typing import Final

from boomwright.base import SPEED_OF_LIGHT, UnitSystem
from boomwright.base.records import dataclass, field, replace
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
#: a foot over buried radials stands no higher [m]
_ON_GROUND = 1.0
#: fall of elevated radials, which brings a quarter wave near 50 ohm [deg]
_SLOPE_DEG = 40.0
#: rise of the spreaders of nested hexagons, so that the middles of their wires keep apart [deg]
_RISE_DEG = 25.0
#: shapes that carry further bands on the frame of the first, and how many bands at most
NESTING: Final = {"hexagon": 3, "two-band-dipole": 2}
#: slopes of the wires of a two-band dipole, which part them [deg], and from the terminals of the
#: longer one down to the shorter one [m]
_SHALLOW_DEG, _STEEP_DEG, _TERMINALS = 15.0, 40.0, 0.1
#: usual line between driven elements and the point where they are fed [ohm] [-]
_PHASING_OHM, _PHASING_SPEED = 75.0, 0.66
#: pull in wires on ropes and on a frame {common-practice-wire-factors} [N]
_ROPE_PULL, _FRAME_PULL = 40.0, 15.0
#: the same on spreaders that rise: more would bend them up instead of carrying them [N]
_RISEN_PULL = 5.0
#: thinnest pole at its root [m], and share of its length that is usual
#: {common-practice-wire-factors}
_LEAST_POLE, _POLE_SHARE, _POLE_WALL = 0.022, 0.013, 0.0025
#: guys leave a pole at this share of its height and reach their anchors at that one [-]; their
#: tension without wind [N]
_GUYS_AT, _GUYS_OUT, _GUYS_TENSION = 0.95, 0.6, 600.0
#: longest piece of a guy, so that none comes near resonance [m] and [wavelengths]
_PIECE, _PIECE_WL = 2.0, 0.1
#: usual post of nested hexagons {common-practice-wire-factors} [m]
_POST = 0.04
#: bands that share a frame are this far apart in frequency [-]
_APART = 7.0 / 6.0
#: a driven element cut open resonates where its halves are half a wave, by about these [-]
_TWICE = (1.7, 2.4)
#: line from the foot of the support to the radio in a first plan [m]
_LINE = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pole:
    """A guyed pole with a short mast on it, and the boom of what sits on a boom."""

    tube: tuple[float, float]  #: outer diameter and wall [m] (2,)
    mast: tuple[float, float]  #: the same of the mast [m] (2,)
    boom: tuple[float, float]  #: the same of the boom [m] (2,)
    rings: int  #: rings of four guys


#: poles of a first plan, the lightest first; pipe sizes {asme-b36-10m}
POLES: Final = (
    Pole(tube=(0.0603, 0.00554), mast=(0.0483, 0.00508), boom=(0.0508, 0.003), rings=1),
    Pole(tube=(0.073, 0.00516), mast=(0.0603, 0.00554), boom=(0.0508, 0.003), rings=2),
    Pole(tube=(0.0889, 0.00549), mast=(0.073, 0.00701), boom=(0.0762, 0.003), rings=2),
    Pole(tube=(0.1143, 0.00602), mast=(0.0889, 0.00762), boom=(0.1016, 0.003), rings=2),
)


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
    #: electrical lengths of the lines to the driven elements where there are several [wavelengths]
    phasing: tuple[float, ...] = ()
    radials: tuple[int, float, str] | None = None  #: how many, length [wavelengths], how laid
    spread: tuple[str, ...] = ()  #: points on spreaders; none where ropes hold the ends
    hub: float | None = None  #: where spreaders meet; None from the boom [wavelengths]
    post: float = 0.0  #: length of a post on the hub; 0 for none [wavelengths]
    boom: float = 0.0  #: length of a boom; 0 for none [wavelengths]
    pole: bool = True  #: whether a pole carries its middle
    height: float | None = field(default=None)  #: of its middle when that is not free [m]


def _driven(length: float, *through: str) -> tuple[WireGuess, ...]:
    return (WireGuess(role="driven", length=length, through=through),)


def _sloping(wavelength: float, height: float, steepest: float = 30.0) -> ShapeGuess:
    """Two wires down from one high point, as steep as wished while their ends stay out of reach.

    Args:
        steepest: below level [deg]
    """
    fall = max(0.0, height - _OUT_OF_REACH) / (0.26 * wavelength)
    slope = min(steepest, math.degrees(math.asin(min(1.0, fall))))
    down, out = 0.3 * math.sin(math.radians(slope)), 0.3 * math.cos(math.radians(slope))
    return ShapeGuess(
        noun="inverted-vee",
        points={"end": (0.0, out, -down)},
        elements=_driven(0.484, "end"),
        words=(
            f"One high point; the wires slope down at {slope:.0f} degrees to ropes.",
            "Keep the ends out of reach: they carry high voltage when you transmit.",
        ),
    )


def _two_band_dipole(wavelength: float, height: float) -> ShapeGuess:
    """The dipole of the lower band, a hand above the terminals of the higher one."""
    shallow = _sloping(wavelength, height, _SHALLOW_DEG)
    above = _TERMINALS / wavelength
    x, out, down = shallow.points["end"]
    return replace(
        shallow,
        noun="two-band dipole",
        points={"middle": (0.0, 0.0, above), "end": (x, out, down + above)},
        elements=_driven(0.484, "middle", "end"),
        words=(
            "Two dipoles on the same two terminals, the shorter one on steeper wires below. Each",
            "band has its own current; keep the angle between the wires, it parts the bands.",
            "Keep the ends out of reach: they carry high voltage when you transmit.",
        ),
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


#: the wire hangs so far above the mast, on its insulator or hub [m]
_INSULATED = 0.05
_SECTION_WORDS = "Fed through a quarter wave of 75 ohm line, which brings it near 50 ohm."

# Found by search with this package's own solver, bare copper wire 1e-4 wavelengths thick in free
# space, gain first with an SWR below 1.5 over 2.5 % of band (1.8 behind a section for the loops);
# lengths in wavelengths.
HEXAGON = (0.152, 0.5268, 0.4976)  #: spreader, driven element, reflector
HEXAGON_REACTANCE = 9.5
# Hexagons nested on one frame, each with the others beside it as their feeds idle: found so too,
# wire by wire from the largest to the smallest and once more, with an SWR below 1.7 over the bands
# 17 and 12 m, 20 and 15 m, 20 and 10 m, 20, 17 and 15 m, and 20, 15 and 10 m. By the frequencies
# over the lowest: driven element and reflector of each in wavelengths, and its reactance by itself
# in ohm.
NESTED_HEXAGONS: Final[dict[tuple[float, ...], tuple[tuple[float, float, float], ...]]] = {
    (1.0, 1.38): ((0.5232, 0.4919, 3.9), (0.5144, 0.4922, -22.0)),
    (1.0, 1.50): ((0.5274, 0.4958, 14.3), (0.5153, 0.4963, -22.0)),
    (1.0, 2.01): ((0.5275, 0.4960, 14.1), (0.5279, 0.5085, -9.0)),
    (1.0, 1.28, 1.50): ((0.5267, 0.4955, 12.7), (0.5138, 0.4923, -22.6), (0.5104, 0.4982, -36.7)),
    (1.0, 1.50, 2.01): ((0.5274, 0.4957, 14.3), (0.5263, 0.4964, 6.7), (0.5253, 0.5045, -10.2)),
}
RECTANGLE = (0.3655, 0.1406, 0.4769, 0.5021)  #: width, depth, driven element, reflector
RECTANGLE_REACTANCE = 2.0
SQUARE_LOOPS = (0.1457, 1.0207, 1.0545)  #: spacing, driven loop, reflector loop
SQUARE_LOOPS_REACTANCE = 40.0
TRIANGLE_LOOPS = (0.1535, 1.0359, 1.0652)  #: the same
TRIANGLE_LOOPS_REACTANCE = 41.0


def _two_loops(
    noun: str, words: str, sizes: tuple[float, float, float], reactance: float,
    loop: Callable[[float, float, str], dict[str, Place]], spread: tuple[str, ...],
) -> ShapeGuess:  # fmt: skip
    """Two loops of one wave, the larger one behind.

    Args:
        sizes: spacing, driven loop and reflector loop [wavelengths] (3,)
        reactance: at the design frequency when trimmed [ohm]
        loop: points of a loop by its place, its length and the start of their names
        spread: points of each that spreaders hold
    """
    spacing, driven, reflector = sizes
    rear, front = loop(0.0, reflector, "rear "), loop(spacing, driven, "front ")
    return ShapeGuess(
        noun=noun,
        points=rear | front,
        elements=(
            WireGuess(role="reflector", length=reflector, through=tuple(rear)),
            WireGuess(role="driven", length=driven, through=tuple(front), at=spacing),
        ),
        words=(words, _SECTION_WORDS),
        reactance=reactance,
        spread=tuple(f"{which} {each}" for which in ("rear", "front") for each in spread),
        boom=spacing,
        section=75.0,
    )


def _hexagon() -> ShapeGuess:
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
            *_driven(driven, "front", "side"),
        ),
        words=(
            "Six spreaders; the driven wire runs from the middle to the front ones and back along",
            "the sides, the reflector round the rear ones. Cord holds their ends apart.",
        ),
        reactance=HEXAGON_REACTANCE,
        spread=("front", "side", "rear"),
        hub=0.0,
    )


_NESTED_WORDS = (
    "The spreaders rise, so that each band has its own level; the bands are computed beside each",
    "other. Each has its own feed point on the post; a switch there takes the line to one of them",
    "and leaves the others as idle_feed says.",
    "In place of the switch one line may lead along the post: fed_with and post_line.",
)


def _nested_hexagon(number: int, frequencies: Sequence[float]) -> ShapeGuess:
    """One of several hexagons on the same spreaders, which rise so that each has its own level.

    Args:
        frequencies: of all of them, lowest first [Hz] (n_bands,)
    """
    flat = _hexagon()
    like = min(
        (ratios for ratios in NESTED_HEXAGONS if len(ratios) == len(frequencies)),
        key=lambda ratios: max(
            abs(math.log(f / (frequencies[0] * r)))
            for f, r in zip(frequencies, ratios, strict=True)
        ),
    )
    driven, reflector, reactance = NESTED_HEXAGONS[like][number]
    level = HEXAGON[0] * math.tan(math.radians(_RISE_DEG))
    return replace(
        flat,
        points={
            "middle": (0.0, 0.0, level),
            "rear middle": (flat.points["rear"][0], 0.0, level),
            **{name: (x, y, level) for name, (x, y, _) in flat.points.items()},
        },
        elements=tuple(
            replace(each, length=length, through=(middle, *each.through))
            for each, length, middle in zip(
                flat.elements, (reflector, driven), ("rear middle", "middle"), strict=True
            )
        ),
        reactance=reactance,
        post=level,
    )


def _rectangle() -> ShapeGuess:
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


_VERTICAL = ShapeGuess(
    noun="ground-mounted vertical",
    points={"foot": (0.0, 0.0, 0.0), "top": (0.0, 0.0, 0.3)},
    elements=_driven(0.242, "foot", "top"),
    words=(
        "A quarter wave over radials in the lawn. It fires all round, low, with no support",
        "but a light mast or a tree; the ground under it decides how well.",
    ),
    radials=(32, 0.25, "buried"),
    pole=False,
    height=0.1,
)


def _two_verticals(apart: float) -> ShapeGuess:
    places = {"rear": 0.0, "front": apart}
    return replace(
        _VERTICAL,
        noun="two phased verticals",
        points={
            f"{name} {end}": (x, y, z)
            for name, x in places.items()
            for end, (_, y, z) in _VERTICAL.points.items()
        },
        elements=tuple(
            replace(_VERTICAL.elements[0], through=(f"{name} foot", f"{name} top"), at=x)
            for name, x in places.items()
        ),
        words=(
            "Two quarter waves a quarter wave apart over radials in the lawn, fired towards the",
            "front one: its line is longer, so that its current lags the other by 90 degrees.",
            "The line lengths give that at the design frequency; cut them with an analyser.",
        ),
        phasing=(0.39, 0.525),
    )


def _raised_vertical(wavelength: float, _height: float) -> ShapeGuess:
    return replace(
        _VERTICAL,
        noun="vertical over elevated radials",
        words=(
            "A quarter wave on a pole over four radials that slope down. Keep them out of reach:",
            "they carry current, and high voltage at their ends.",
        ),
        radials=(4, 0.245, "elevated"),
        pole=True,
        height=round(_OUT_OF_REACH + 0.245 * math.sin(math.radians(_SLOPE_DEG)) * wavelength, 1),
    )


#: shapes that a plan can start from, by the name that asks for them; what depends on wavelength
#: and height is made of them [m]
SHAPES: dict[str, ShapeGuess | Callable[[float, float], ShapeGuess]] = {
    "dipole": ShapeGuess(
        noun="flat dipole",
        points={"end": (0.0, 0.3, 0.0)},
        elements=_driven(0.48, "end"),
        words=("Two wires in line, tied off level. Fires both ways, broadside to the wire.",),
    ),
    "vee": ShapeGuess(
        noun="vee dipole",
        points={"end": (0.15, 0.26, 0.0)},
        elements=_driven(0.484, "end"),
        words=("Two level wires swept forward, 120 degrees between them.",),
    ),
    "inverted-vee": _sloping,
    "two-band-dipole": _two_band_dipole,
    "end-loaded-dipole": ShapeGuess(
        noun="end-loaded dipole",
        points={"end": (0.0, 0.17, 0.0), "hanging end": (0.0, 0.17, -0.12)},
        elements=_driven(0.49, "end", "hanging end"),
        words=("A short dipole whose ends hang straight down.",),
    ),
    "hexagon": _hexagon(),
    "rectangle": _rectangle(),
    "square-loop": ShapeGuess(
        noun="square loop",
        points=_square(0.0, 0.133),
        elements=_driven(1.062, *_square(0.0, 1.0)),
        words=(
            "A loop of one wave, fed in the middle of its lower side.",
            "Hang it by its upper corners from two trees or poles; cords at the lower ones keep it",
            "square. No pole in its middle: it would cross the loop.",
            _SECTION_WORDS,
        ),
        section=75.0,
        pole=False,
    ),
    "triangle-loop": ShapeGuess(
        noun="triangular loop",
        points=_triangle(0.0, 0.179),
        elements=_driven(1.071, *_triangle(0.0, 1.0)),
        words=(
            "A loop of one wave, point up, fed in the middle of its base. Hang its point from a",
            "tree or a taller pole beside it; cords at the corners of its base spread it.",
            _SECTION_WORDS,
        ),
        section=75.0,
        pole=False,
    ),
    "two-square-loops": _two_loops(
        "two square loops",
        "Two loops of one wave on crossed spreaders, the larger one behind.",
        SQUARE_LOOPS,
        SQUARE_LOOPS_REACTANCE,
        lambda at, long, name: _square(at, long / 8.0, name),
        ("lower corner", "upper corner"),
    ),
    # The boom runs through the middles of the triangles, so that the wind turns neither over it.
    "two-triangle-loops": _two_loops(
        "two triangular loops",
        "Two loops of one wave, points up, the larger one behind.",
        TRIANGLE_LOOPS,
        TRIANGLE_LOOPS_REACTANCE,
        lambda at, long, name: _triangle(at, long / 6.0, name, -long / (6.0 * math.sqrt(3.0))),
        ("corner", "top"),
    ),
    "vertical": _VERTICAL,
    "raised-vertical": _raised_vertical,
    "two-verticals": _two_verticals(0.25),
}


def _guess(shape: str, wavelength: float, height: float) -> ShapeGuess:
    found = SHAPES[shape]
    return found if isinstance(found, ShapeGuess) else found(wavelength, height)


def shape_nouns() -> tuple[tuple[str, str], ...]:
    """Say what each shape is, by the name that asks for it (n_shapes, 2)."""
    return tuple((name, _guess(name, 1.0, 0.5).noun) for name in SHAPES)


def shape_guess(
    shape: str,
    *,
    wavelength: float,
    height: float | None = None,
    frequencies: Sequence[float] = (),
    number: int = 0,
) -> tuple[ShapeGuess, float]:
    """Find a shape and the height of its middle [m].

    Args:
        wavelength: at the design frequency [m]
        height: wished for; None for a usual one [m]
        frequencies: of all bands that share its frame, lowest first; empty for one alone [Hz]
            (n_bands,)
        number: of this band among them

    Raises:
        QuantityError: when there is no such shape
    """
    if shape not in SHAPES:
        close = nearest(shape, SHAPES)
        remedy = f'did you mean "{close}"? ' if close else ""
        message = f"this shape is not known: {shape}"
        raise QuantityError(message, f"{remedy}write one of {', '.join(SHAPES)}")
    if height is not None and height > _ON_GROUND and shape == "vertical":
        message = "a ground-mounted vertical stands on the ground"
        raise QuantityError(message, "leave the height out, or take raised-vertical")
    usual = round(min(_HIGH, max(_LOW, wavelength / 2.0)), 1)
    high = usual if height is None else height
    guess = _guess(shape, wavelength, high)
    if len(frequencies) > 1 and shape == "hexagon":
        guess = _nested_hexagon(number, frequencies)
    elif number and shape != "hexagon":  # the dipole of the higher band
        guess = _sloping(wavelength, high, _STEEP_DEG)
    return guess, height or guess.height or usual


def shape_plan(
    shape: str,
    *,
    band: str | tuple[float, float],
    further: Sequence[str] = (),
    scales: Sequence[float] = (),
    phasing: Sequence[float] = (),
    title: str = "",
    height: float | None = None,
    heading_deg: float = 0.0,
    ground: str = "medium dry",
    position: str = "",
    units: UnitSystem = "metric",
    region: Region = 1,
    pole: Pole = POLES[0],
    pole_words: Sequence[str] = (),
) -> str:
    """Write a first plan of one shape: site, beam, feed, line and support.

    Args:
        band: amateur band such as ``20 m``, or lowest and highest frequency [Hz]
        further: bands that share the frame, in any order
        scales: factor on the length of every element, for each band from the lowest frequency up;
            1 where there is none [-] (n_bands,)
        phasing: lengths of the lines to the driven elements; empty for usual ones [m] (n,)
        height: of its middle above ground; None for a usual one [m]
        heading_deg: direction of fire, clockwise from true north [deg]
        pole: what carries it where a pole does, and its boom
        pole_words: what its owner should know of it, one line each
    """
    bands = nested_bands(shape, (band, *further), region)
    several = len(bands) > 1
    designs = [edges[2] for _, edges in bands]
    first = SPEED_OF_LIGHT / designs[0]
    guess, middle = shape_guess(shape, wavelength=first, height=height, frequencies=designs)
    words, noun = guess.words, guess.noun
    write, blocks = PlanWriter(units), []
    for number, (label, edges) in enumerate(bands):
        wavelength = SPEED_OF_LIGHT / edges[2]
        guess, _ = shape_guess(
            shape, wavelength=wavelength, height=middle, frequencies=designs, number=number
        )
        lines = band_lines(label, edges, middle, heading_deg, write)
        lines += ['material = "copper"', f"feed = {{ {_feed_keys(guess, wavelength, write)} }}"]
        nested = several and bool(guess.post)
        if nested:
            lines += [_idle_line(edges[2], designs)]
        if number:
            key = "on_boom_of" if nested else "fed_with"
            lines += [f"{key} = {json.dumps(bands[0][0])}"]
        lines += _frame_lines(guess, wavelength, write, pole, carried=nested and number > 0)
        scale = scales[number] if number < len(scales) else 1.0
        cut = phasing or tuple(_PHASING_SPEED * wavelength * long for long in guess.phasing)
        for element, line in zip_longest(guess.elements, cut):
            lines += ["", *_element_lines(element, wavelength, scale, line, write)]
        blocks.append(lines)
    named = ", ".join(label for label, _ in bands)
    lines = [
        f"# {noun[0].upper()}{noun[1:]}, trimmed to this wire and ground.",
        *(f"# {line}" for line in (*words, *(_NESTED_WORDS if nested else ()))),
        f"boomwright = {PLAN_VERSION}",
        f"title = {json.dumps(title or f'{named}: {noun}', ensure_ascii=False)}",
        "",
        *site_lines(ground, position),
    ]
    for block in blocks:
        lines += ["", *block]
    lines += ["", "[line]", 'type = "RG-213"', f"length = {write.length(middle + _LINE)}"]
    if len(guess.elements) > 1 and guess.section is None and not guess.phasing:
        lines += [
            "",
            "# Fed straight, so the search shall keep the SWR low as it stands.",
            "[wish]",
            *([f"beam = {json.dumps(bands[0][0])}"] if several else []),
        ]
        lines += ["swr = 1.8", "matched = false"]
    elif several:
        one = json.dumps(bands[0][0])
        lines += ["", "# The search takes one band at a time.", "[wish]", f"beam = {one}"]
    if guess.pole:
        shortest = SPEED_OF_LIGHT / bands[-1][1][2]
        lines += ["", *(f"# {line}" for line in pole_words)]
        lines += _pole_lines(middle, write, pole)
        lines += _guy_lines(middle, heading_deg, shortest, write, pole)
    return "\n".join(lines) + "\n"


def _idle_line(frequency: float, others: Sequence[float]) -> str:
    """What the switch at the post does to a feed that is not in use.

    Args:
        frequency: of the beam at whose feed it is [Hz]
        others: of all that share the frame [Hz] (n,)
    """
    low, high = _TWICE
    if any(low < other / frequency < high for other in others):
        return 'idle_feed = "shorted"  # its open halves would resonate at twice the frequency'
    return 'idle_feed = "open"'


def nested_bands(
    shape: str, bands: Sequence[str | tuple[float, float]], region: Region
) -> list[tuple[str, tuple[float, float, float]]]:
    """Label of each band, and its edges and design frequency [Hz] (3,), lowest frequency first.

    Args:
        bands: amateur bands, or lowest and highest frequencies [Hz] (n_bands,)

    Raises:
        QuantityError: when a band is not known or stands twice, or the shape does not take so many
    """
    most = NESTING.get(shape, 1)
    if shape == "two-band-dipole" and len(bands) < most:
        message = "a two-band dipole needs two bands"
        raise QuantityError(message, 'name both, such as --band "40 m" --band "20 m"')
    if len(bands) > most:
        can = ", ".join(f"{name} takes {count}" for name, count in NESTING.items())
        message = f"a {shape} is not made for {len(bands)} bands"
        raise QuantityError(message, f"ask for {most} at most; {can}")
    found = []
    for band in bands:
        edges = checked_band(band, None, region)
        label = band.strip() if isinstance(band, str) else f"{edges[2] / 1e6:.6g} MHz"
        found.append((label, edges))
    found.sort(key=lambda each: each[1][2])
    for (label, low), (_, high) in pairwise(found):
        if high[2] < _APART * low[2]:
            message = f"{label} stands twice, or too near another band, for one frame"
            raise QuantityError(message, "take bands a sixth apart in frequency or more")
    return found


def _feed_keys(guess: ShapeGuess, wavelength: float, write: PlanWriter) -> str:
    kind = "split" if guess.section is None else "quarter-wave"
    feed = f'kind = "{kind}", gap = {write.diameter(0.04)}'
    if guess.section is not None:
        length = write.length(0.66 * 0.25 * wavelength)
        feed += f', section_impedance = "{guess.section:g} ohm", section_length = {length}'
        feed += ", velocity_factor = 0.66"
    return feed


def _frame_lines(
    guess: ShapeGuess, wavelength: float, write: PlanWriter, pole: Pole, *, carried: bool
) -> list[str]:
    """Points of the frame and what holds them, and radials.

    Args:
        carried: whether the points lie on the spreaders of another beam
    """
    lines = ["", "  [beam.frame]", "  points = ["]
    for name, place in guess.points.items():
        where = ", ".join(write.length(wavelength * value) for value in place)
        lines.append(f'    ["{name}", {where}],')
    lines.append("  ]")
    if carried:
        lines += [f"  hub = {write.length((guess.hub or 0.0) * wavelength)}"]
        lines += [f'  pull = "{_RISEN_PULL:g} N"']
    else:
        lines += _held_lines(guess, wavelength, write, pole)
    if guess.radials is not None:
        count, length, laid = guess.radials
        lines += ["", "  [beam.radials]", f"  count = {count}"]
        lines += [f"  length = {write.length(length * wavelength)}"]
        lines += [f"  diameter = {write.wire(_WIRE)}", f'  laid = "{laid}"']
        lines += [f'  slope = "{_SLOPE_DEG:g} deg"'] if laid == "elevated" else []
    return lines


def _held_lines(guess: ShapeGuess, wavelength: float, write: PlanWriter, pole: Pole) -> list[str]:
    """What holds the points: spreaders of usual size, on a hub or a boom; or ropes."""
    if not guess.spread:
        return [f'  pull = "{_ROPE_PULL:g} N"', '  held = "ropes"']
    arm = wavelength * max(
        math.dist((guess.points[name][0] if guess.hub is None else guess.hub, 0.0, 0.0),
                  guess.points[name])
        for name in guess.spread
    )  # fmt: skip
    root = max(_LEAST_POLE, _POLE_SHARE * arm)
    sizes = [round(root, 3)]
    for part in (0.8, 0.6):
        sizes.append(min(round(root * part, 3), round(sizes[-1] - 2.0 * _POLE_WALL, 3)))
    tubes = ", ".join(
        f"[{write.wire(size)}, {write.length(arm / 3.0 + 0.02)}, {write.wire(_POLE_WALL)}]"
        for size in sizes
    )
    lines = []
    if guess.hub is not None:
        lines = [f"  hub = {write.length(guess.hub * wavelength)}", '  hub_mass = "2 kg"']
    if guess.post:
        post = f"{write.wire(_POST)}, {write.length(guess.post * wavelength)}, {write.wire(0.003)}"
        lines.append(f"  post = [{post}]")
    return [
        *lines,
        f'  pull = "{_RISEN_PULL if guess.post else _FRAME_PULL:g} N"',
        "    [beam.frame.spreader]",
        f"    to = {json.dumps(guess.spread)}",
        f"    sections = [{tubes}]",
        "    # Usual fibreglass tube; its maker knows better, and its strength too.",
        '    elastic_modulus = "20 GPa"',
        '    density = "1900 kg/m3"',
        *_boom_lines(guess.boom * wavelength, write, pole.boom),
    ]


def _boom_lines(length: float, write: PlanWriter, tube: tuple[float, float]) -> list[str]:
    if not length:
        return []
    diameter, wall = tube
    return [
        "",
        "  [beam.boom]",
        f"  diameter = {write.diameter(diameter)}",
        f"  wall = {write.wire(wall)}",
        f"  length = {write.length(length + 0.2)}",
        f"  rear_end = {write.length(-0.1)}",
        '  material = "6061-T6"',
    ]


def _element_lines(
    element: WireGuess, wavelength: float, scale: float, line: float | None, write: PlanWriter
) -> list[str]:
    """Lines of one element.

    Args:
        line: length of its phasing line; None without [m]
    """
    found = [
        "  [[beam.element]]",
        f'  role = "{element.role}"',
        f"  at = {write.length(element.at * wavelength)}",
        f"  diameter = {write.wire(_WIRE)}",
        f"  length = {write.length(element.length * scale * wavelength)}",
        f"  through = {json.dumps(element.through)}",
    ]
    if line is not None:
        found.append(
            f'  phasing_line = {{ impedance = "{_PHASING_OHM:g} ohm", '
            f"length = {write.length(line)}, velocity_factor = {_PHASING_SPEED} }}"
        )
    return found


def _pole_top(height: float) -> float:
    """Upper end of the pole under a beam [m]."""
    return max(0.5 * height, height - 0.6)


def _pole_lines(height: float, write: PlanWriter, pole: Pole) -> list[str]:
    """A steel pole to a little below the beam, with a short mast on it; the wire stays clear."""
    top = write.length(_pole_top(height))
    (tube, tube_wall), (mast, mast_wall) = pole.tube, pole.mast
    return [
        "[support.tube]",
        f"diameter = {write.diameter(tube)}",
        f"wall = {write.wire(tube_wall)}",
        f"height = {top}",
        'material = "A53 B"',
        "",
        "[support.mast]",
        f"diameter = {write.diameter(mast)}",
        f"wall = {write.wire(mast_wall)}",
        f"bearing = {top}",
        f"top = {write.length(height - _INSULATED)}",
        'material = "A53 B"',
    ]


def _guy_lines(
    height: float, heading_deg: float, wavelength: float, write: PlanWriter, pole: Pole
) -> list[str]:
    """Rings of four guys between the directions of fire and of the wires.

    Args:
        height: of the beam [m]
        wavelength: of the highest band [m]
    """
    top, lines = _pole_top(height), list[str]()
    for ring in range(pole.rings):
        at = _GUYS_AT * top * (pole.rings - ring) / pole.rings
        lines += [
            "",
            "[[support.guy]]",
            f"height = {write.length(at)}",
            f"radius = {write.length(_GUYS_OUT * top)}",
            'strand = "3/16 in EHS"',
            f"tension = {write.force(_GUYS_TENSION)}",
            "count = 4",
            f'first = "{(heading_deg + 45.0) % 360.0:g} deg"',
            f"longest_piece = {write.length(min(_PIECE, _PIECE_WL * wavelength))}",
        ]
    return lines

"""Beams of our own for the feed in the field."""

from __future__ import annotations

from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection


def element(role: str, position: float, *half: tuple[float, float]) -> Element:
    """Element from diameters and lengths in metres."""
    return Element(
        role=role,
        position=position,
        half=tuple(TubeSection(diameter=d, length=length) for d, length in half),
    )


def beam(name: str, design: float, band: tuple[float, float], *elements: Element) -> Beam:
    """Beam of 6061-T6 at 15 m."""
    return Beam(
        name=name,
        band=band,
        design_frequency=design,
        height=15.0,
        heading=0.0,
        material=MATERIALS["6061-T6"],
        feed=Feed(kind="split", gap=0.02),
        elements=elements,
    )


THREE_FOR_20 = beam(
    "three elements for 20 m",
    14.15e6,
    (14.0e6, 14.35e6),
    element("reflector", 0.0, (0.0318, 1.2), (0.0254, 1.8), (0.01905, 2.33)),
    element("driven", 2.7, (0.0318, 1.2), (0.0254, 1.8), (0.01905, 2.05)),
    element("director", 6.3, (0.0318, 1.2), (0.0254, 1.8), (0.01905, 1.82)),
)
TWO_FOR_15 = beam(
    "two elements for 15 m",
    21.2e6,
    (21.0e6, 21.45e6),
    element("reflector", 0.0, (0.0254, 1.5), (0.01905, 2.12)),
    element("driven", 2.0, (0.0254, 1.5), (0.01905, 1.86)),
)
FIVE_FOR_6 = beam(
    "five elements for 6 m",
    50.15e6,
    (50.0e6, 50.5e6),
    element("reflector", 0.0, (0.0127, 1.485)),
    element("driven", 1.1, (0.0127, 1.41)),
    element("director", 1.9, (0.0127, 1.365)),
    element("director", 3.4, (0.0127, 1.345)),
    element("director", 5.3, (0.0127, 1.335)),
)
#: beam, diameter of the gamma rod and distance of its axis [m]
GAMMAS = (
    (THREE_FOR_20, 0.0127, 0.11),
    (TWO_FOR_15, 0.0095, 0.09),
    (FIVE_FOR_6, 0.006, 0.045),
)

"""Dimensions of feeds that are solved in the field, and their wires.

Rods hang below the element (negative z); hairpins lie along the boom.
"""

from __future__ import annotations

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass, replace
from boomwright.feed.field_model import (
    FieldSetting,
    check_spacing,
    mirrored_system,
    whole_system,
)
from boomwright.parts import Beam
from boomwright.solver import GapPlace, WirePath, WireSystem, beam_paths, beam_wires

#: share of the short wire between element and rod that is the port of a gamma
_GAMMA_GAP_SHARE = 0.2
#: a split is modelled no narrower than this share of the element's centre diameter, as in
#: the solver's own beams
_NARROWEST_SPLIT = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitShape:
    """An element split in the middle, nothing else."""

    gap: float  #: width of the split [m]

    def modelled_gap(self, *, beam: Beam) -> float:
        """Width of the port: a narrower split changes its own edge capacitance only [m]."""
        return _split(beam, self.gap)

    def wires(self, *, beam: Beam, setting: FieldSetting) -> WireSystem:
        """Lay out the wires: those of the beam by itself, whatever its feed."""
        split = replace(beam.alone, feed=replace(beam.feed, gap=self.gap))
        return beam_wires(beam=split, ground=setting.ground)


@dataclass(frozen=True, slots=True, kw_only=True)
class GammaShape:
    """A rod from the element's middle to a strap, one side only."""

    rod_diameter: float  #: diameter of the rod, and of the strap [m]
    spacing: float  #: distance between the axes of element and rod [m]
    rod_length: float  #: from the element's middle to the strap (the tap) [m]
    capacitance: float  #: in series with the rod at its fed end [F]

    def wires(self, *, beam: Beam, setting: FieldSetting) -> WireSystem:
        """Lay out the wires."""
        _check_rod("gamma", beam, self.rod_diameter, self.spacing)
        rod = _rod_path(
            beam,
            diameter=self.rod_diameter,
            corners=(
                (0.0, 0.0),
                (0.0, -self.spacing),
                (self.rod_length, -self.spacing),
                (self.rod_length, 0.0),
            ),
        )
        paths = (*beam_paths(beam=beam, halves=False, joint=self.rod_length), rod)
        gap = GapPlace(
            path=len(paths) - 1,
            along=self.spacing / 2.0,
            width=_GAMMA_GAP_SHARE * self.spacing,
        )
        return whole_system(beam=beam, paths=paths, gaps=(gap,), setting=setting)


@dataclass(frozen=True, slots=True, kw_only=True)
class TeeShape:
    """A rod to either side, fed between their inner ends."""

    rod_diameter: float  #: diameter of the rods and straps [m]
    spacing: float  #: distance between the axes of element and rods [m]
    rod_length: float  #: of each rod, from the element's middle to its strap [m]
    capacitance: float  #: in series with each rod [F]
    gap: float  #: distance of the rods' inner ends [m]

    def wires(self, *, beam: Beam, setting: FieldSetting) -> WireSystem:
        """Lay out the wires."""
        _check_rod("tee", beam, self.rod_diameter, self.spacing)
        corners = (
            (0.0, -self.spacing),
            (self.rod_length, -self.spacing),
            (self.rod_length, 0.0),
        )
        return _rod_halves(beam, setting, self.rod_diameter, corners, self.gap)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoldedShape:
    """A fed conductor beside the whole unbroken element, joined to both of its tips."""

    conductor_diameter: float  #: diameter of the fed conductor and of the end bars [m]
    spacing: float  #: distance between the axes of element and fed conductor [m]
    gap: float  #: width of the split in the fed conductor [m]

    def wires(self, *, beam: Beam, setting: FieldSetting) -> WireSystem:
        """Lay out the wires."""
        _check_rod("folded element", beam, self.conductor_diameter, self.spacing)
        half = beam.elements[beam.driven_index].half_length
        corners = ((0.0, -self.spacing), (half, -self.spacing), (half, 0.0))
        return _rod_halves(beam, setting, self.conductor_diameter, corners, self.gap)


@dataclass(frozen=True, slots=True, kw_only=True)
class HairpinShape:
    """Two rods along the boom from both sides of a split element, shorted at their far end."""

    rod_diameter: float  #: diameter of the rods and the short [m]
    spacing: float  #: distance between the axes of the rods [m]
    length: float  #: from the element to the short [m]
    gap: float  #: width of the split in the element [m]
    forward: bool = True  #: whether the hairpin points towards the heading

    def wires(self, *, beam: Beam, setting: FieldSetting) -> WireSystem:
        """Lay out the wires.

        Raises:
            BoomwrightError: when the rods are too near to each other, or the split is wider
                than the hairpin
        """
        check_spacing(kind="hairpin", spacing=self.spacing, diameters=(self.rod_diameter,))
        element = beam.elements[beam.driven_index]
        least = max(_split(beam, self.gap), element.half[0].diameter)
        if self.spacing < least:
            raise BoomwrightError(
                phrase(
                    "hairpin: {spacing} between its rods, but split and tube take {least}; set the "
                    "rods wider apart",
                    spacing=Quantity(self.spacing, "small length"),
                    least=Quantity(least, "small length"),
                )
            )
        along = self.length if self.forward else -self.length
        x, y = element.position, self.spacing / 2.0
        rod = WirePath(
            name="hairpin",
            points=np.array([[x, y, 0.0], [x + along, y, 0.0], [x + along, 0.0, 0.0]]),
            radii=np.full(2, self.rod_diameter / 2.0),
            conductivity=beam.material.conductivity,
        )
        gap = GapPlace(path=beam.driven_index, along=0.0, width=_split(beam, self.gap))
        paths = (*beam_paths(beam=beam, halves=True, joint=y), rod)
        return mirrored_system(beam=beam, paths=paths, gaps=(gap,), setting=setting)


FeedShape = SplitShape | GammaShape | TeeShape | FoldedShape | HairpinShape


def _split(beam: Beam, gap: float) -> float:
    return max(gap, _NARROWEST_SPLIT * beam.elements[beam.driven_index].half[0].diameter)


def _check_rod(kind: str, beam: Beam, diameter: float, spacing: float) -> None:
    tube = beam.elements[beam.driven_index].half[0].diameter
    check_spacing(kind=kind, spacing=spacing, diameters=(diameter, tube))


def _rod_path(beam: Beam, *, diameter: float, corners: tuple[tuple[float, float], ...]) -> WirePath:
    """A rod in the plane across the boom through the driven element, corners as (y, z)."""
    points = np.array([(beam.elements[beam.driven_index].position, y, z) for y, z in corners])
    return WirePath(
        name="rod",
        points=points,
        radii=np.full(len(points) - 1, diameter / 2.0),
        conductivity=beam.material.conductivity,
    )


def _rod_halves(
    beam: Beam,
    setting: FieldSetting,
    diameter: float,
    corners: tuple[tuple[float, float], ...],
    gap: float,
) -> WireSystem:
    paths = (
        *beam_paths(beam=beam, halves=True, joint=corners[-1][0]),
        _rod_path(beam, diameter=diameter, corners=corners),
    )
    place = GapPlace(path=len(paths) - 1, along=0.0, width=max(gap, _NARROWEST_SPLIT * diameter))
    return mirrored_system(beam=beam, paths=paths, gaps=(place,), setting=setting)

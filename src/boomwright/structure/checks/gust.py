"""The gust factor of what stands below the beams, and of the mast: from its first frequency.

A frequency that cannot be found never counts as stiff: what needs it is not checked, and the text
says what is missing.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, pi, sqrt

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Source, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.structure.checks.findings import SiteLoads
from boomwright.structure.faults import StructureInputError
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.memory import recalled
from boomwright.structure.report import BeamReport
from boomwright.structure.support.mast import Mast
from boomwright.structure.support.sway import SwayHold, SwayMass, SwayPart, first_sway, ring_hold
from boomwright.structure.weather.basis import WindBasis
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.en_wind import EnWind, aerodynamic_decrement, structural_factor
from boomwright.structure.weather.gust import (
    BARE_POLE_DAMPING,
    FLEXIBLE_BELOW,
    GUST_TERRAIN,
    LATTICE_DAMPING,
    ON_STRUCTURE_GUST,
    POLE_GUST,
    STEEL_DAMPING,
    GustResponse,
    flexible_gust_factor,
)
from boomwright.structure.weather.ice import coat_mass
from boomwright.structure.weather.wind import SiteWind

#: what stands out by less above the support adds nothing to its sway [m]
LEAST_PROUD = 0.05
#: a house bracket taken to hold [N/m]
_BRACKET = 1e8
#: slower than this the sway is no more than a step from buckling [Hz]
SLOWEST = 0.05
_NEEDS_FREQUENCY = "its gust factor needs its first frequency, and {why}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sway:
    """A structure as the gusts meet it."""

    frequency_hz: float  #: first frequency [Hz]
    height: float  #: its top above ground [m]
    breadth: float  #: breadth square to the wind [m]
    damping: float  #: structural damping ratio [-]
    known: Value  #: how the damping is known, in words
    mass_per_length: float  #: mass of a metre in its upper third, with what it carries there [kg/m]
    pole: bool = False  #: whether it is a tube


def support_response(
    *, site: SiteLoads, beams: Sequence[BeamReport], iced: bool = False
) -> GustResponse:
    """Gust factor of tower or tube with all it carries.

    Args:
        iced: whether everything carries ice and the gust that comes with it blows
    """
    wind, tower, tube = site.nominal, site.inputs.tower, site.inputs.tube
    if wind is None:
        return GustResponse(factor=1.0, text="no wind")
    least: list[GustResponse] = []
    if (tower is not None and tower.kind == "bracketed") or (tube is not None and tube.brackets):
        # Nobody knows how stiff the bracket is: not less than the largest factor of the standard,
        # and more where the support sways slowly on a bracket that holds.
        words = "the largest gust factor of the tower standard, 1.35"
        least.append(replace(_on_another(), text=words))
    try:
        own = _response(wind, _support_sway(site, beams, iced), site.ice_gust if iced else None)
    except StructureInputError as error:
        reason = phrase(_NEEDS_FREQUENCY, why=error.said)
        return least[0] if least else GustResponse(factor=1.0, text=reason, missing=reason)
    return max([*least, own], key=lambda each: each.factor)


def mast_response(
    *, site: SiteLoads, beams: Sequence[BeamReport], nominal: bool = False, iced: bool = False
) -> GustResponse:
    """Gust factor of the mast above its top bearing: a pole that stands on another structure.

    Where that structure is a tube, it carries the mast along, and its own factor counts too; for
    a tower the tower standard has that in its factor.

    Args:
        nominal: True for the wind below the beams, False for that of the member method
    """
    mast, wind = site.inputs.mast, site.nominal if nominal else site.member
    least = _on_another()
    if mast is None or wind is None:
        return least
    gust = site.ice_gust if iced else None
    try:
        own = _response(wind, _mast_sway(site, mast, beams, iced), gust)
        found = [least, own]
        said = f"; the mast's own first sway {own.frequency_hz:.2f} Hz"
        if site.inputs.tube is not None:
            found.append(_response(wind, _support_sway(site, beams, iced), gust))
    except StructureInputError as error:
        reason = phrase(_NEEDS_FREQUENCY, why=error.said)
        return replace(least, text=reason, missing=reason)
    governing = max(found, key=lambda each: each.factor)
    return replace(governing, text=phrase("{text}{said}", text=governing.text, said=said))


def _on_another() -> GustResponse:
    words = f"gust factor {ON_STRUCTURE_GUST:g}, pole on another structure ({{memory}})"
    text = phrase(words, memory=recalled("tia-222-g-gust"))
    return GustResponse(factor=ON_STRUCTURE_GUST, text=text)


def _weight(beam: BeamReport, iced: bool) -> float:
    weight = beam.weighs(iced=iced)
    if weight is None:
        raise StructureInputError(f"the weight of {beam.name} is not known")
    return weight


def _mass(mass: float, height: float, foot: float, top: float) -> SwayMass:
    return SwayMass(height=min(max(height - foot, 1e-3), top), mass=mass)


def _masses(beams: Sequence[BeamReport], iced: bool, foot: float, top: float) -> list[SwayMass]:
    return [_mass(_weight(beam, iced) / STANDARD_GRAVITY, beam.centre, foot, top) for beam in beams]


def _mast_part(site: SiteLoads, mast: Mast, top: float, iced: bool) -> SwayPart:
    ice = coat_mass(mast.diameter, site.coat(height=mast.top_height) if iced else None)
    return SwayPart(
        top=top,
        stiffness=mast.stiffness,
        mass_per_length=mast.weight_per_length / STANDARD_GRAVITY + ice,
        # Held at bearing and rotator like a beam on two pins; where nobody says how far apart
        # they are, as far as the mast stands out.
        seat=3.0 * mast.stiffness / (mast.rotator_below or mast.proud),
    )


def _mast_sway(site: SiteLoads, mast: Mast, beams: Sequence[BeamReport], iced: bool) -> Sway:
    part = _mast_part(site, mast, mast.proud, iced)
    masses = _masses(beams, iced, mast.bearing_height, mast.proud)
    damping, known = _damping(site.inputs, bare=not beams)
    return Sway(
        frequency_hz=first_sway(parts=(part,), masses=masses),
        height=mast.top_height,
        breadth=mast.diameter,
        damping=damping,
        known=known,
        mass_per_length=_upper_mass((part,), masses),
        pole=True,
    )


def _support_sway(site: SiteLoads, beams: Sequence[BeamReport], iced: bool) -> Sway:
    inputs = site.inputs
    foot, breadth = _support_part(site, iced)
    parts, base = [foot], _sway_base(inputs)
    mast = inputs.mast
    if mast is not None and mast.top_height > base + foot.top + LEAST_PROUD:
        parts.append(_mast_part(site, mast, mast.top_height - base, iced))
    top = parts[-1].top
    masses = _masses(beams, iced, base, top)
    masses += [_mass(ring.mass, ring.height, base, top) for ring in inputs.rings if ring.mass]
    holds = _sway_holds(inputs, foot.top, base)
    if foot.seat == 0.0 and not holds:
        raise StructureInputError("a tube that can tilt at its foot stands only with guys")
    damping, known = _damping(inputs, bare=not beams and not holds)
    frequency = inputs.sway_hz
    if frequency is None:
        frequency = first_sway(parts=parts, masses=masses, holds=holds)
    elif iced:
        frequency *= sqrt(_bare_share(site, beams, parts))
    return Sway(
        frequency_hz=frequency,
        height=base + top,
        breadth=breadth,
        damping=damping,
        known=known,
        mass_per_length=_upper_mass(parts, masses),
        pole=inputs.tube is not None,
    )


def _sway_base(inputs: StructureInputs) -> float:
    """Height from which the support sways: of a tube on a house, its lowest bracket [m]."""
    brackets = None if inputs.tube is None else inputs.tube.brackets
    return 0.0 if brackets is None else brackets.sways_from


def _sway_holds(inputs: StructureInputs, top: float, base: float) -> tuple[SwayHold, ...]:
    """Guys and house brackets, as high above the base of the sway as they are."""
    holds = [ring_hold(level=level) for level in inputs.guying]
    tower, tube = inputs.tower, inputs.tube
    heights: tuple[float, ...] = ()
    if tower is not None and tower.kind == "bracketed" and tower.bracket_height is not None:
        heights = (min(tower.bracket_height, top),)
    elif tube is not None and tube.brackets is not None:
        heights = tuple(height - base for height in tube.brackets.heights if height > base)
    return (*holds, *(SwayHold(height=height, stiffness=_BRACKET) for height in heights))


def _support_part(site: SiteLoads, iced: bool) -> tuple[SwayPart, float]:
    """The tower or tube as a beam, and its breadth [m]."""
    tower, tube = site.inputs.tower, site.inputs.tube
    if tube is not None:
        ice = coat_mass(tube.diameter, site.coat(height=tube.height) if iced else None)
        part = SwayPart(
            top=tube.height - _sway_base(site.inputs),
            stiffness=tube.stiffness,
            mass_per_length=tube.weight_per_length / STANDARD_GRAVITY + ice,
            seat=inf if tube.fixed and tube.brackets is None else 0.0,
        )
        return part, tube.diameter
    if tower is None:
        raise StructureInputError("neither a tower nor a support tube is given")
    stiffness = tower.bending_stiffness
    if stiffness is None and site.inputs.sway_hz is None:
        raise StructureInputError(
            "neither that nor the tower's bending stiffness is given: ask its maker for EI, or "
            "count the sways in a calm"
        )
    if tower.weight is None:
        raise StructureInputError("the tower's weight is not given")
    whole, coat = tower.weight, site.coat(height=tower.height) if iced else None
    if coat is not None:
        ice_weight = tower.ice_weight(ice=coat)
        if ice_weight is None:
            msg = "the weight of the tower's ice is not known without its legs and braces"
            raise StructureInputError(msg)
        whole += ice_weight
    part = SwayPart(
        top=tower.height,
        # Of no account beside a frequency that is given.
        stiffness=stiffness or 1.0,
        mass_per_length=whole / STANDARD_GRAVITY / tower.height,
        # A guyed tower stands on a pin, as its guys are solved; so does one on a bracket.
        seat=0.0 if site.inputs.guying or tower.kind == "bracketed" else inf,
    )
    return part, 0.0 if tower.lattice is None else tower.lattice.face_width


def _bare_share(site: SiteLoads, beams: Sequence[BeamReport], parts: Sequence[SwayPart]) -> float:
    """Least share of bare mass in iced mass, of what stands and of what it carries [-]."""
    bare = [_support_part(site, iced=False)[0]]
    mast = site.inputs.mast
    if len(parts) > 1 and mast is not None:
        top = mast.top_height - _sway_base(site.inputs)
        bare.append(_mast_part(site, mast, top, iced=False))
    shares = [
        before.mass_per_length / after.mass_per_length
        for before, after in zip(bare, parts, strict=True)
    ]
    carried = sum(_weight(beam, iced=True) for beam in beams)
    if carried > 0.0:
        shares.append(sum(_weight(beam, iced=False) for beam in beams) / carried)
    return min(shares)


def _upper_mass(parts: Sequence[SwayPart], masses: Sequence[SwayMass]) -> float:
    """Mass of a metre in the upper third {en-1991-1-4, sec. F.4} [kg/m]."""
    top = parts[-1].top
    total = sum(each.mass for each in masses if each.height >= 2.0 * top / 3.0)
    low = 0.0
    for part in parts:
        total += part.mass_per_length * max(0.0, part.top - max(low, 2.0 * top / 3.0))
        low = part.top
    return total / (top / 3.0)


def _damping(inputs: StructureInputs, *, bare: bool) -> tuple[float, Value]:
    """Structural damping ratio, and how it is known in words."""
    if inputs.damping is not None:
        return inputs.damping, "as entered"
    joints = None if inputs.tower is None else inputs.tower.joints
    if joints is not None:
        return LATTICE_DAMPING[joints], f"lattice with {joints}, EN 1991-1-4 table F.2"
    if bare:
        memory = recalled("bare-pole-damping")
        return BARE_POLE_DAMPING, phrase("bare pole, {memory}", memory=memory)
    return STEEL_DAMPING, "steel, commentary of ASCE 7"


def _response(wind: SiteWind, sway: Sway, gust: float | None) -> GustResponse:
    frequency = max(sway.frequency_hz, SLOWEST)
    said = f"first sway {sway.frequency_hz:.2f} Hz"
    if sway.frequency_hz < SLOWEST:
        said = f"first sway under {SLOWEST} Hz, close to buckling"
    shares = (1.0, 0.5, 2.0)
    if isinstance(wind, EnWind):
        factors = [_en_factor(wind, sway, frequency, share, gust) for share in shares]
        rule, least = "cs cd of EN 1991-1-4 annex B", 1.0
    elif frequency >= FLEXIBLE_BELOW:
        factor, text = 1.0, phrase("gust factor 1, {said}", said=said)
        if sway.pole and isinstance(wind, WindBasis) and wind.edition.startswith("TIA"):
            words = f"gust factor {POLE_GUST:g} (TIA-222-G, pole{{source}}), {{said}}"
            factor, text = POLE_GUST, phrase(words, source=Source("tia-222-g"), said=said)
        return GustResponse(factor=factor, text=text, frequency_hz=sway.frequency_hz)
    else:
        factors = [_flexible(wind, sway, frequency, share, gust) for share in shares]
        rule, least = "ASCE 7 26.11.5", POLE_GUST if sway.pole else 1.0
    here, less, more = (max(least, each) for each in factors)
    return GustResponse(
        factor=here,
        text=phrase(
            "gust factor {here} ({rule}), {said}, damping {percent} ({known}; {less} "
            "at half of it, {more} at twice)", here=f"{here:.2f}", rule=rule, said=said,
            percent=f"{100.0 * sway.damping:.2g} %", known=sway.known, less=f"{less:.2f}",
            more=f"{more:.2f}",
        ),
        frequency_hz=sway.frequency_hz,
    )  # fmt: skip


def _flexible(
    wind: SiteWind, sway: Sway, frequency: float, share: float, gust: float | None
) -> float:
    # Whoever states pressures says nothing of gusts: the most gusty exposure is taken.
    exposures = (wind.exposure,) if isinstance(wind, WindBasis) else tuple(GUST_TERRAIN)
    return max(
        flexible_gust_factor(
            exposure=exposure,
            gust=wind.gust if gust is None else gust,
            height=sway.height,
            breadth=sway.breadth,
            depth=sway.breadth,
            frequency_hz=frequency,
            damping=share * sway.damping,
        ).value
        for exposure in exposures
    )


def _en_factor(
    wind: EnWind, sway: Sway, frequency: float, share: float, gust: float | None
) -> float:
    blowing = 1.0 if gust is None else gust / wind.gust
    air = 0.0
    if sway.mass_per_length > 0.0:
        air = aerodynamic_decrement(
            drag_per_length=ROUND_DRAG * sway.breadth,
            mass_per_length=sway.mass_per_length,
            mean_speed=blowing * wind.mean_speed(0.6 * sway.height),
            frequency_hz=frequency,
            air_density=wind.air_density,
        )
    return structural_factor(
        wind=wind,
        height=sway.height,
        breadth=sway.breadth,
        frequency_hz=frequency,
        decrement=2.0 * pi * share * sway.damping + air,
        speed_share=blowing,
    ).value

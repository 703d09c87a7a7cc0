"""Matches of coils and capacitors: the split element as it is, L-sections, the hairpin."""

from __future__ import annotations

import math

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, BoomwrightError, Notice
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass
from boomwright.feed.matches import FeedLoad, Match, make_match
from boomwright.feed.stages import (
    ElementTrim,
    ShuntStub,
    Stage,
    Transformer,
    series_reactance,
    shunt_susceptance,
)


def _load_at(load: FeedLoad, frequency: float) -> complex:
    return complex(load.at(frequency))


def design_split_with_balun(
    *, load: FeedLoad, frequency: float, reference: float = 50.0, ratio: float = 1.0
) -> Match:
    """Feed the split element straight, through a balun.

    Args:
        frequency: design frequency [Hz]
        ratio: impedance of the balun on the antenna side over that on the line side: 1 or 4 [-]

    Returns:
        the match; its standing wave ratio is what the element gives

    Raises:
        BoomwrightError: when the ratio is not above 0
    """
    if ratio <= 0.0:
        raise BoomwrightError(f"balun: impedance ratio {ratio:g}; give one above 0, such as 1 or 4")
    stages: tuple[Stage, ...] = (Transformer(ratio=1.0 / ratio, label="balun"),)
    return make_match(
        kind="split element with balun",
        load=load,
        frequency=frequency,
        reference=reference,
        stages=stages,
    )


def design_l_sections(
    *, load: FeedLoad, frequency: float, reference: float = 50.0
) -> tuple[Match, ...]:
    """Match with one series and one shunt component, all ways there are.

    Args:
        frequency: design frequency [Hz]

    Returns:
        two or four matches {pozar-2012, eqs. 5.3 and 5.6}

    Raises:
        BoomwrightError: when the load is matched already
    """
    z = _load_at(load, frequency)
    if abs(z - reference) < 1e-9 * reference:
        msg = f"the load is {reference:g} ohm already; leave the section out"
        raise BoomwrightError(msg, about="L-section")
    pairs = [*_shunt_at_load(z, reference=reference), *_series_at_load(z, reference=reference)]
    found = []
    for order, x, b in pairs:
        series = () if abs(x) < 1e-9 else (series_reactance(reactance=x, frequency=frequency),)
        shunt = () if abs(b) < 1e-15 else (shunt_susceptance(susceptance=b, frequency=frequency),)
        stages: tuple[Stage, ...] = (*shunt, *series) if order == "shunt" else (*series, *shunt)
        found.append(
            make_match(
                kind=f"L-section, {order} component at the antenna",
                load=load,
                frequency=frequency,
                reference=reference,
                stages=stages,
            )
        )
    return tuple(found)


def _shunt_at_load(z: complex, *, reference: float) -> list[tuple[str, float, float]]:
    """Series reactance and shunt susceptance, {pozar-2012, eq. 5.3}."""
    r, x = z.real, z.imag
    under = r * r + x * x - reference * r
    if under < 0.0:
        return []
    found = []
    for sign in (1.0, -1.0):
        b = (x + sign * math.sqrt(r / reference) * math.sqrt(under)) / (r * r + x * x)
        if abs(b) < 1e-15:
            # The load's resistance is the reference: only its reactance is taken out.
            found.append(("shunt", -x, 0.0))
        else:
            found.append(("shunt", 1.0 / b + x * reference / r - reference / (b * r), b))
    return found


def _series_at_load(z: complex, *, reference: float) -> list[tuple[str, float, float]]:
    """Series reactance and shunt susceptance, {pozar-2012, eq. 5.6}."""
    r, x = z.real, z.imag
    if r >= reference:
        return []
    return [
        (
            "series",
            sign * math.sqrt(r * (reference - r)) - x,
            sign * math.sqrt((reference - r) / r) / reference,
        )
        for sign in (1.0, -1.0)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hairpin:
    """A hairpin match and what it asks of the element."""

    match: Match
    quality: float  #: Q of the L-section that element and hairpin make [-]
    element_reactance: float  #: reactance the element must show, by shortening it [ohm]
    shunt_reactance: float  #: reactance of the hairpin [ohm]
    line_impedance: float  #: characteristic impedance of the hairpin as a line [ohm]
    length: float  #: length of the hairpin from the feed to its short [m]


def parallel_line_impedance(*, spacing: float, diameter: float) -> float:
    """Characteristic impedance of two equal round conductors in air.

    Args:
        spacing: distance between the axes, above the diameter [m]
        diameter: [m]

    Returns:
        120 arcosh(D / d) {pozar-2012, table 2.1} [ohm]

    Raises:
        BoomwrightError: when the conductors touch
    """
    if not spacing > diameter > 0.0:
        raise BoomwrightError(
            phrase(
                "parallel line: spacing {spacing}, diameter {diameter}; the axes must be more than "
                "a diameter apart",
                spacing=Quantity(spacing, "small length"),
                diameter=Quantity(diameter, "small length"),
            )
        )
    return VACUUM_IMPEDANCE / math.pi * math.acosh(spacing / diameter)


def design_hairpin(
    *,
    load: FeedLoad,
    frequency: float,
    spacing: float,
    diameter: float,
    reference: float = 50.0,
) -> Hairpin:
    """Match a low resistance with a shortened split element and a hairpin across the feed.

    Args:
        frequency: design frequency [Hz]
        spacing: distance between the axes of the hairpin's rods [m]
        diameter: diameter of the rods [m]

    Returns:
        Q = sqrt(Z0/R - 1), X_element = -R Q, X_hairpin = Z0/Q {pozar-2012, eq. 5.6}
    """
    z = _load_at(load, frequency)
    _refuse_step_down(z, reference=reference)
    quality = math.sqrt(reference / z.real - 1.0)
    element, shunt = -z.real * quality, reference / quality
    line = parallel_line_impedance(spacing=spacing, diameter=diameter)
    length = math.atan(shunt / line) * SPEED_OF_LIGHT / (2.0 * math.pi * frequency)
    stages: tuple[Stage, ...] = (
        ElementTrim(reactance=element - z.imag),
        ShuntStub(impedance=line, length=length, end="short"),
    )
    match = make_match(
        kind="hairpin",
        load=load,
        frequency=frequency,
        reference=reference,
        stages=stages,
        notices=(_trim_notice(now=z.imag, wanted=element),),
    )
    return Hairpin(
        match=match,
        quality=quality,
        element_reactance=element,
        shunt_reactance=shunt,
        line_impedance=line,
        length=length,
    )


def _refuse_step_down(z: complex, *, reference: float) -> None:
    if z.real >= reference:
        raise BoomwrightError(
            (
                f"the feed resistance is {z.real:.1f} ohm, not below {reference:g} ohm; "
                "a hairpin only steps up. Feed it straight or choose another match"
            ),
            about="hairpin",
        )


def _trim_notice(*, now: float, wanted: float) -> Notice:
    change = "shorter" if wanted < now else "longer"
    return Notice(
        code="feed.trim-element",
        text=(
            f"The driven element must be made {change} until its reactance is {wanted:.1f} ohm "
            "at the design frequency. Trim in small steps and measure each."
        ),
        value=f"{now:.1f} ohm",
        limit=f"{wanted:.1f} ohm",
        source="common-practice-trim",
    )

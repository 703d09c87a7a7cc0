"""Matches made of line: the quarter-wave section and the single stub; phasing lines."""

from __future__ import annotations

import math

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.feed.matches import FeedLoad, Match, make_match
from boomwright.feed.stages import ElementTrim, End, LineSection, ShuntStub, Stage


def phasing_line_length(*, delay: float, frequency: float, velocity_factor: float) -> float:
    """Length of the line that delays by a phase, when it is matched at its end.

    Args:
        delay: phase delay wanted; negative ones are met a turn later [rad]
        velocity_factor: speed on the line over that of light, above 0 and up to 1 [-]

    Returns:
        physical length, at least 0 [m]

    Raises:
        BoomwrightError: when the velocity factor is not between 0 and 1
    """
    if not 0.0 < velocity_factor <= 1.0:
        msg = f"phasing line: velocity factor {velocity_factor:g}; give one above 0 and up to 1"
        raise BoomwrightError(msg)
    turns = (delay % (2.0 * math.pi)) / (2.0 * math.pi) if delay < 0.0 else delay / (2.0 * math.pi)
    return turns * velocity_factor * SPEED_OF_LIGHT / frequency


def quarter_wave_impedance(*, load: float, reference: float) -> float:
    """Impedance of the quarter-wave section between two resistances.

    Args:
        load: resistance at its end [ohm]
        reference: resistance wanted [ohm]

    Returns:
        sqrt(R1 R2) {pozar-2012, eq. 2.63} [ohm]
    """
    return math.sqrt(load * reference)


def design_quarter_wave(
    *,
    load: FeedLoad,
    frequency: float,
    velocity_factor: float,
    reference: float = 50.0,
) -> Match:
    """Match with a quarter wavelength of line, the element trimmed to resonance first.

    Args:
        frequency: design frequency [Hz]
        velocity_factor: of the section [-]

    Returns:
        the match {pozar-2012, eq. 2.63}
    """
    z = complex(load.at(frequency))
    stages: tuple[Stage, ...] = (
        ElementTrim(reactance=-z.imag),
        LineSection(
            impedance=quarter_wave_impedance(load=z.real, reference=reference),
            length=velocity_factor * SPEED_OF_LIGHT / (4.0 * frequency),
            velocity_factor=velocity_factor,
        ),
    )
    return make_match(
        kind="quarter-wave section",
        load=load,
        frequency=frequency,
        reference=reference,
        stages=stages,
    )


def design_single_stub(
    *,
    load: FeedLoad,
    frequency: float,
    end: End,
    velocity_factor: float = 1.0,
    reference: float = 50.0,
) -> tuple[Match, Match]:
    """Match with one stub across the line at a distance from the antenna, both solutions.

    Args:
        frequency: design frequency [Hz]
        end: ``open`` or ``short``
        velocity_factor: of line and stub [-]
        reference: characteristic impedance of line and stub [ohm]

    Returns:
        two matches, the one nearer to the antenna first {pozar-2012, eqs. 5.9 to 5.11} (2,)

    Raises:
        BoomwrightError: when the load is matched already
    """
    z = complex(load.at(frequency))
    if abs(z - reference) < 1e-9 * reference:
        msg = f"the load is {reference:g} ohm already; leave the stub out"
        raise BoomwrightError(msg, about="stub")
    lengths = sorted(
        _stub_lengths(z, tangent=tangent, end=end, reference=reference)
        for tangent in _stub_places(z, reference=reference)
    )
    wavelength = velocity_factor * SPEED_OF_LIGHT / frequency

    def stub(place: float, length: float) -> Match:
        line = LineSection(
            impedance=reference, length=place * wavelength, velocity_factor=velocity_factor
        )
        branch = ShuntStub(
            impedance=reference,
            length=length * wavelength,
            end=end,
            velocity_factor=velocity_factor,
        )
        return make_match(
            kind="shorted stub" if end == "short" else "open stub",
            load=load,
            frequency=frequency,
            reference=reference,
            stages=(line, branch),
        )

    return stub(*lengths[0]), stub(*lengths[1])


def _stub_lengths(z: complex, *, tangent: float, end: End, reference: float) -> tuple[float, float]:
    """Place and length of the stub in wavelengths, {pozar-2012, eqs. 5.10, 5.11}."""
    seen = reference * (z + 1j * reference * tangent) / (reference + 1j * z * tangent)
    b = -(1.0 / seen).imag * reference
    # open stub: b = tan(bl); short stub: b = -cot(bl)
    angle = math.atan(b) if end == "open" else math.atan2(-1.0, b)
    return math.atan(tangent) % math.pi / (2.0 * math.pi), angle % math.pi / (2.0 * math.pi)


def _stub_places(z: complex, *, reference: float) -> tuple[float, float]:
    """Tangents of the line angle at which the conductance is right, {pozar-2012, eq. 5.9}."""
    r, x = z.real, z.imag
    root = math.sqrt(r * ((reference - r) ** 2 + x * x) / reference)
    if abs(r - reference) < 1e-9 * reference:
        # One of the two lies at a quarter wavelength: a tangent large enough for the digits.
        return -x / (2.0 * reference), 1e12
    return (x + root) / (r - reference), (x - root) / (r - reference)

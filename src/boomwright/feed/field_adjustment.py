"""A gamma at the antenna: what strap and capacitor do, and which of them to turn first."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError, ReadOnlyArrays
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.feed.field_match import FieldMatch
from boomwright.feed.field_model import FieldSetting, solve_wires
from boomwright.feed.field_shapes import GammaShape
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.spline import spline_through

#: rod lengths that are solved; the others are read off a spline through them
_SOLVED = 7
#: the picture reaches this share to both sides of the match
_SPAN = 0.25
#: a change of the capacitor that a hand does not feel [F]
_HARDLY = 0.5e-12
#: a standing wave ratio that needs no further turning
GOOD_ENOUGH = 1.1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GammaAdjustment(ReadOnlyArrays):
    """Standing wave ratio against tap and capacitor."""

    frequency: float  #: frequency of the picture [Hz]
    reference: float  #: resistance of the line [ohm]
    rod_length: NDArray[np.float64]  #: places of the strap, from the element's middle [m] (n,)
    capacitance: NDArray[np.float64]  #: values of the capacitor [F] (m,)
    swr: NDArray[np.float64]  #: standing wave ratio [-] (n, m)
    #: impedance of the wires before the capacitor at each place [ohm] (n,)
    port: NDArray[np.complex128]
    best_rod_length: float  #: place of the strap at the match [m]
    best_capacitance: float  #: capacitor at the match [F]
    resistance_slope: float  #: change of the resistance as the strap moves out [ohm/m]
    #: change of the reactance as the strap moves out, capacitor untouched [ohm/m]
    reactance_slope: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AdjustmentStep:
    """One thing to turn."""

    part: str  #: ``strap`` or ``capacitor``
    #: by how much: outwards [m] or more capacitance [F]; 0 when it must be found by turning
    change: float
    text: Value  #: what to do, in a sentence
    swr_after: float  #: standing wave ratio to be expected then [-]


def gamma_adjustment(
    *,
    match: FieldMatch,
    rod_lengths: ArrayLike | None = None,
    capacitances: ArrayLike | None = None,
    setting: FieldSetting | None = None,
) -> GammaAdjustment:
    """Solve what strap and capacitor do around a finished gamma.

    Args:
        rod_lengths: places of the strap; None takes a quarter to both sides of the match [m] (n,)
        capacitances: values of the capacitor; None takes half to twice the match [F] (m,)

    Raises:
        BoomwrightError: when the match is no gamma, or a value is not above 0
    """
    shape = match.shape
    if not isinstance(shape, GammaShape):
        raise BoomwrightError(f"adjustment: the feed is a {match.kind}; give a gamma")
    setting = setting or FieldSetting()
    best = shape.rod_length
    half = match.beam.elements[match.beam.driven_index].half_length
    lengths = np.asarray(
        best * np.linspace(1.0 - _SPAN, 1.0 + _SPAN, 41) if rod_lengths is None else rod_lengths,
        dtype=float,
    )
    values = np.asarray(
        shape.capacitance * np.geomspace(0.5, 2.0, 41) if capacitances is None else capacitances,
        dtype=float,
    )
    if not (lengths.min() > 0.0 and values.min() > 0.0 and lengths.max() < half):
        raise BoomwrightError(
            f"adjustment: rod from {lengths.min():g} to {lengths.max():g} m, capacitor from "
            f"{values.min():g} F; keep both above 0 and the rod within {half:.3f} m"
        )
    low, high = min(lengths.min(), 0.95 * best), max(lengths.max(), min(1.05 * best, 0.99 * half))
    solved = np.linspace(low, high, _SOLVED)
    spline = spline_through(
        places=solved, values=[_port(match, shape, place, setting) for place in solved]
    )
    port = spline.at(lengths)
    angular = 2.0 * math.pi * match.frequency
    seen = port[:, None] - 1j / (angular * values[None, :])
    slope = complex(spline.slope(best))
    return GammaAdjustment(
        frequency=match.frequency,
        reference=match.reference,
        rod_length=lengths,
        capacitance=values,
        swr=standing_wave_ratio(seen, reference=match.reference),
        port=port,
        best_rod_length=best,
        best_capacitance=shape.capacitance,
        resistance_slope=slope.real,
        reactance_slope=slope.imag,
    )


def _port(match: FieldMatch, shape: GammaShape, place: float, setting: FieldSetting) -> complex:
    solution = solve_wires(
        beam=match.beam,
        system=replace(shape, rod_length=float(place)).wires(beam=match.beam, setting=setting),
        frequencies=np.array([match.frequency]),
        setting=setting,
    )
    return complex(solution.impedance[0])


def adjust_by_impedance(
    *, adjustment: GammaAdjustment, measured: complex, capacitance: float | None = None
) -> tuple[AdjustmentStep, ...]:
    """What to turn first at the antenna, from the impedance measured there.

    The capacitor changes the reactance only; the strap changes both. So the strap comes first
    whenever the resistance is off, and the capacitor last.

    Args:
        measured: impedance measured at the gamma's connector at the design frequency [ohm]
        capacitance: the capacitor as it stands; None takes the match's [F]

    Returns:
        in the order to do them; empty when nothing needs turning

    Raises:
        BoomwrightError: when the measured resistance is not above 0
    """
    reference = adjustment.reference
    if not measured.real > 0.0:
        msg = f"measured {measured:.1f} ohm: the resistance must be above 0; check the bridge"
        raise BoomwrightError(msg)
    if _swr(measured, reference) <= GOOD_ENOUGH:
        return ()
    steps = []
    seen = measured
    tuned = complex(measured.real, 0.0)
    if _swr(tuned, reference) > GOOD_ENOUGH:
        # A linear step is trusted for part of the picture only; the rest is a second round.
        most = _SPAN * adjustment.best_rod_length
        move = (reference - measured.real) / adjustment.resistance_slope
        move = min(max(move, -most), most)
        seen += move * complex(adjustment.resistance_slope, adjustment.reactance_slope)
        steps.append(
            AdjustmentStep(
                part="strap",
                change=move,
                text=phrase(
                    "Slide the strap {way} by about {move}: the resistance is {resistance} and "
                    "only the strap changes it.",
                    way="out" if move > 0.0 else "in",
                    move=Quantity(abs(move), "sawn length"),
                    resistance=Quantity(measured.real, "choke impedance"),
                ),
                swr_after=_swr(seen, reference),
            )
        )
    angular = 2.0 * math.pi * adjustment.frequency
    now = adjustment.best_capacitance if capacitance is None else capacitance
    wanted = 1.0 / (angular * now) + seen.imag
    more = 1.0 / (angular * wanted) - now if wanted > 0.0 else 0.0
    steps.append(
        AdjustmentStep(
            part="capacitor",
            change=more,
            text=_capacitor_words(more, known=wanted > 0.0, after_strap=bool(steps)),
            swr_after=_swr(complex(seen.real, 0.0), reference),
        )
    )
    return tuple(steps)


def _capacitor_words(more: float, *, known: bool, after_strap: bool) -> str:
    amount = f"about {abs(more) * 1e12:.0f} pF {'more' if more > 0.0 else 'less'}"
    if not known:
        amount = "towards more capacitance"
    elif abs(more) < _HARDLY:
        amount = "hardly at all"
    if after_strap:
        return f"Then turn the capacitor, {amount}, for the lowest standing wave ratio."
    return f"Turn the capacitor, {amount}; the strap is right."


def adjust_by_swr(*, adjustment: GammaAdjustment, lowest: float) -> tuple[AdjustmentStep, ...]:
    """What to turn when only the standing wave ratio can be read.

    Turn the capacitor for the lowest reading first: what is left is the resistance, and the
    strap must move, but the reading does not say which way.

    Args:
        lowest: lowest standing wave ratio that the capacitor alone reaches [-]

    Returns:
        both ways the strap may have to move, the likelier first (2,), or empty when the reading
        is good

    Raises:
        BoomwrightError: when the ratio is below 1
    """
    if lowest < 1.0:
        raise BoomwrightError(f"standing wave ratio {lowest:g}: give the lowest reading, 1 or more")
    if lowest <= GOOD_ENOUGH:
        return ()
    reference = adjustment.reference
    found = []
    for resistance in (reference / lowest, reference * lowest):
        move = (reference - resistance) / adjustment.resistance_slope
        move = math.copysign(min(abs(move), _SPAN * adjustment.best_rod_length), move)
        found.append(
            AdjustmentStep(
                part="strap",
                change=move,
                text=phrase(
                    "Slide the strap {way} by up to {move} in small steps, turning the capacitor "
                    "for the lowest reading after each; when the lowest rises, go the other way.",
                    way="out" if move > 0.0 else "in",
                    move=Quantity(abs(move), "sawn length"),
                ),
                swr_after=1.0,
            )
        )
    return tuple(sorted(found, key=lambda step: abs(step.change)))


def _swr(impedance: complex, reference: float) -> float:
    return float(standing_wave_ratio(impedance, reference=reference))

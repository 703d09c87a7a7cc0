"""What was read, and with what kind of meter."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Literal

from boomwright.base.records import dataclass, field
from boomwright.tuning.sweep import Sweep

#: what a sweep tells of the phase: all, the size of the reactance only, or nothing
Phase = Literal["known", "unsigned", "none"]
MeterClass = Literal["careful kit", "hand-held", "plain"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter:
    """How far off a meter usually is, as standard deviations {common-practice-meter-accuracy}."""

    #: directivity, source match and tracking left over, each of either part [-]
    residual: float
    noise: float  #: scatter of either part of a reading, its middle value [-]
    noise_known: bool = False  #: whether that scatter was given, not guessed


#: classes of meter: directivity of 46, 40 and 30 dB {common-practice-meter-accuracy}
METERS: Final[Mapping[MeterClass, Meter]] = {
    "careful kit": Meter(residual=0.0035, noise=0.0015),
    "hand-held": Meter(residual=0.007, noise=0.003),
    "plain": Meter(residual=0.022, noise=0.006),
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """One sweep, and how the antenna stood when it was taken."""

    sweep: Sweep  #: the sweep, thinned
    #: changes made on purpose since the plan, by key, mixed units [-]
    moves: Mapping[str, float] = field(default_factory=dict)
    rise: float = 0.0  #: how much higher the beam hung than planned [m]
    phase: Phase = "known"  #: what the sweep tells of the phase


@dataclass(frozen=True, slots=True, kw_only=True)
class SideReading:
    """A figure read beside the last sweep, that the elements' currents tell."""

    #: logarithm of the current in the middle of an element over that of the driven one, or front
    #: to back
    kind: Literal["probe", "front to back"]
    value: float  #: natural logarithm of the ratio, or ratio, mixed units [-, dB]
    spread: float  #: its standard deviation, mixed units [-, dB]
    element: int = 0  #: element of the probe
    frequency: float = 0.0  #: frequency it was read at [Hz]

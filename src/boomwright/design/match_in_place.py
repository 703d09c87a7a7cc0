"""The match as the search sees it: what the line sees of an element whose match stands around it.

Each kind is its published circuit, tuned at the design frequency to the element as it is there;
nothing of it is a free number of the search. What the circuit leaves out, the field gives: the
difference of both reflection coefficients at a design that was solved is added to every design
near it, so that there the search sees the field itself, ground and neighbours included.
"""

from __future__ import annotations

import math
from typing import Any, Literal

import numpy as np

from boomwright.base import read_only
from boomwright.base.array_types import Complexes
from boomwright.base.records import dataclass

#: kinds of match that the search knows
MatchKind = Literal[
    "split", "hairpin", "gamma", "tee", "folded", "quarter-wave", "stub", "L-section"
]
#: kinds that are tuned to the line at the design frequency, whatever the element has there
TUNED = ("hairpin", "gamma", "tee", "quarter-wave", "stub", "L-section")
#: loss by reflection left at the design frequency, so small that tuning finds the rest [dB]
TUNED_LOSS_DB = 2e-3
#: shortest and longest rods of gamma and tee [wavelengths]
_RODS_WL = (0.004, 0.2)
#: reactance of the capacitor in series with rods at most, over the resistance wanted: more asks
#: for small capacitors at high voltage {common-practice-gamma-capacitor}
_MOST_CAPACITOR = 3.0
#: share of an impedance by which slopes are taken
_STEP = 1e-5
#: ways in which an impedance is off: not, up and down in its real and in its imaginary part
_WAYS = (0.0, 1.0, -1.0, 1j, -1j)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MatchInPlace:
    """A kind of match with what is fixed of it."""

    kind: MatchKind
    reference: float  #: resistance that the match is to show: of the line, times the balun [ohm]
    step_up: float = 1.0  #: step of the impedance by rods along the element [-]
    line: float = 0.0  #: characteristic impedance of rods and element as a shorted line [ohm]
    #: electrical length of a folded element's conductor at the design frequency [rad]
    angle: float = math.pi / 2.0
    stub_end: Literal["short", "open"] = "short"  #: end of a stub
    #: impedance [ohm] and electrical length at the design frequency [rad] of a quarter-wave line
    #: that stays as it is; None for one made for each design (2,)
    section: tuple[float, float] | None = None
    #: component of an L-section at the antenna, empty for either
    at_antenna: str = ""
    #: reflection coefficient in the field less that of the circuit, at each frequency of the
    #: search (f,)
    correction: Complexes | None = None

    def __post_init__(self) -> None:
        if self.correction is not None:
            object.__setattr__(self, "correction", read_only(self.correction, complex))

    @property
    def tuned(self) -> bool:
        """Whether it is tuned to the line at the design frequency."""
        return self.kind in TUNED and self.section is None

    def reflection(self, *, impedance: Any, at_design: Any, ratio: Any, xp: Any = np) -> Any:
        """Reflection coefficient on the line.

        Args:
            impedance: of the element as if split [ohm] (b, f)
            at_design: the same at the design frequency [ohm] (b,)
            ratio: frequencies over the design frequency [-] (f,)

        Returns:
            coefficient, correction included (b, f)
        """
        seen = self._seen(impedance, at_design[:, None], ratio, xp)
        found = (seen - self.reference) / (seen + self.reference)
        return found if self.correction is None else found + xp.asarray(self.correction)

    def reflection_slopes(
        self, *, impedance: Any, at_design: Any, ratio: Any, xp: Any = np
    ) -> tuple[Any, Any, Any]:
        """Reflection coefficient with its slopes, the match tuned anew to every change.

        Returns:
            coefficient (b, f), slopes in real and imaginary part of the impedance (2, b, f), and
            in those at the design frequency (2, b, f) [1/ohm]
        """
        ways = xp.asarray(_WAYS)[:, None, None]
        size, size_design = _STEP * xp.abs(impedance), _STEP * xp.abs(at_design)
        # As it is and off by each way, then by each way at the design frequency, all at once.
        seen = xp.concat([impedance + ways * size, 0.0 * ways[1:] + impedance], axis=0)
        design = xp.concat(
            [0.0 * ways[:, :, 0] + at_design, at_design + ways[1:, :, 0] * size_design], axis=0
        )
        shape = seen.shape
        found = xp.reshape(
            self.reflection(
                impedance=xp.reshape(seen, (-1, shape[-1])),
                at_design=xp.reshape(design, (-1,)),
                ratio=ratio,
                xp=xp,
            ),
            shape,
        )
        own = (found[1:5:2] - found[2:5:2]) / (2.0 * size)
        return found[0], own, (found[5::2] - found[6::2]) / (2.0 * size_design[:, None])

    def _seen(self, z: Any, z0: Any, ratio: Any, xp: Any) -> Any:
        """Impedance on the line's side of the match (b, f)."""
        if self.kind == "split":
            return z
        if self.kind == "hairpin":
            # A shunt coil that takes out the susceptance at the design frequency.
            taken = (1.0 / z0).imag
            return 1.0 / (1.0 / z - 1j * xp.where(taken > 0.0, taken, 0.0 * taken) / ratio)
        if self.kind == "folded":
            stub = 2j * self.line * xp.tan(self.angle * ratio)
            stepped = self.step_up * z
            return stepped * stub / (stepped + stub)
        if self.kind == "quarter-wave" and self.section is not None:
            own, angle = self.section
            turn = 1j * xp.tan(angle * ratio)
            return own * (z + own * turn) / (own + z * turn)
        if self.kind == "quarter-wave":
            own = xp.sqrt(xp.maximum(z0.real, 0.0 * z0.real + 1e-3) * self.reference)
            turn = 1j * xp.tan(0.5 * math.pi * ratio * (1.0 - 1e-9))
            return own * (z + own * turn) / (own + z * turn)
        if self.kind == "stub":
            return self._stubbed(z, z0, ratio, xp)
        if self.kind == "L-section":
            return self._sectioned(z, z0, ratio, xp)
        return self._rodded(z, z0, ratio, xp)

    def _rodded(self, z: Any, z0: Any, ratio: Any, xp: Any) -> Any:
        """Gamma or tee: stepped-up element, rods as a shorted line, capacitor in series."""
        y0 = 1.0 / (self.step_up * z0)
        conductance = y0.real
        under = conductance / self.reference - conductance**2
        least = (0.02 / self.reference) ** 2
        wanted = -xp.sqrt(xp.where(under > least, under, least))
        needed = (wanted - y0.imag) * self.line
        angle = xp.arctan2(xp.ones_like(needed), -needed)
        low, high = (2.0 * math.pi * each for each in _RODS_WL)
        angle = xp.clip(angle, low, high)
        port0 = 1.0 / (y0 - 1j / (self.line * xp.tan(angle)))
        most = _MOST_CAPACITOR * self.reference
        taken = xp.clip(port0.imag, 0.0, most)
        port = 1.0 / (1.0 / (self.step_up * z) - 1j / (self.line * xp.tan(angle * ratio)))
        return port - 1j * taken / ratio

    def _stubbed(self, z: Any, z0: Any, ratio: Any, xp: Any) -> Any:
        """Line to the stub, then the stub {pozar-2012, eqs. 5.9 to 5.11}."""
        own, r, x = self.reference, z0.real, z0.imag
        inside = xp.sqrt(xp.maximum(r * ((own - r) ** 2 + x**2) / own, 0.0 * r))
        off = r - own
        off = xp.where(xp.abs(off) < 1e-6 * own, 1e-6 * own + 0.0 * off, off)
        places = []
        for sign in (1.0, -1.0):
            tangent = (x + sign * inside) / off
            places.append(xp.arctan(tangent) % math.pi)
        place = xp.where(places[0] < places[1], places[0], places[1])
        turn0 = 1j * xp.tan(place)
        moved0 = own * (z0 + own * turn0) / (own + z0 * turn0)
        taken = (1.0 / moved0).imag * own
        if self.stub_end == "open":
            stub = xp.arctan(-taken) % math.pi
            branch = 1j * xp.tan(stub * ratio) / own
        else:
            stub = xp.arctan2(xp.ones_like(taken), taken) % math.pi
            branch = -1j / (own * xp.tan(stub * ratio))
        turn = 1j * xp.tan(place * ratio)
        moved = own * (z + own * turn) / (own + z * turn)
        return 1.0 / (1.0 / moved + branch)

    def _sectioned(self, z: Any, z0: Any, ratio: Any, xp: Any) -> Any:
        """Coil and capacitor {pozar-2012, eqs. 5.3 and 5.6}, the one wished at the antenna."""
        own, r, x = self.reference, z0.real, z0.imag
        first = self.at_antenna or "series coil"
        if first.startswith("series"):
            sign = 1.0 if first == "series coil" else -1.0
            under = r * (own - r)
            root = xp.sqrt(xp.where(under > 1e-6 * own**2, under, 1e-6 * own**2 + 0.0 * under))
            reactance = sign * root - x
            susceptance = sign * root / (r * own)
            return 1.0 / (
                1.0 / (z + _series(reactance, ratio, xp)) + _series(susceptance, ratio, xp)
            )
        sign = -1.0 if first == "shunt coil" else 1.0
        square = r * r + x * x
        under = square - own * r
        root = xp.sqrt(xp.where(under > 1e-6 * own**2, under, 1e-6 * own**2 + 0.0 * under))
        susceptance = (x + sign * xp.sqrt(r / own) * root) / square
        after = 1.0 / (1.0 / z0 + 1j * susceptance)
        seen = 1.0 / (1.0 / z + _series(susceptance, ratio, xp))
        return seen + _series(-after.imag, ratio, xp)


def _series(value: Any, ratio: Any, xp: Any) -> Any:
    """Reactance or susceptance: above 0 it grows with frequency, below it falls."""
    return 1j * xp.where(value > 0.0, value * ratio, value / ratio)

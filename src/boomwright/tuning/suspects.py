"""Antennas with one fault each, quick to predict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base.quantity import Value
from boomwright.feed import SeriesCapacitor, SeriesInductor, ShuntInductor, ShuntStub, Stage
from boomwright.tuning.causes import Cause
from boomwright.tuning.fault_antennas import BraidFamily, FaultAntennas, LinearAntenna
from boomwright.tuning.installation import Installation, after_changes, at_line, at_meter
from boomwright.tuning.interpolating import lagrange_weights
from boomwright.tuning.knowledge import readings_of

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

FaultKind = Literal[
    "no fault",
    "loose element",
    "wet balun",
    "wrong element order",
    "braid common mode",
    "shorted match",
]

#: what is hidden in a fault: mean and spread of natural logarithms, ohm at the design frequency
#: {common-practice-faults}
_WET_LEAK = (np.log(250.0), 1.0)
_WET_REACTANCE = (np.log(250.0), 1.0)
_STRAY_REACTANCE = (np.log(5.0), 0.8)
#: braid lengths looked at, most of them followed, and the spread about each, in wavelengths
_BRAID_LOOKS = 121
_BRAID_FOLLOWED = 3
_BRAID_SPREAD = 0.05
#: impedance a braid is held against to interpolate it: half the feed voltage drives half the
#: current, so about four times the wave impedance of a wire; then its reflection turns evenly.
#: Tried from 900 to 3500: lowest error between 1200 and 1300 [ohm]
_BRAID_OHM = 1250.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Suspect:
    """An installation with one fault, quick to predict."""

    kind: FaultKind
    text: Value  #: the fault in words
    installation: Installation  #: the installation, with what the fault does to its match
    antenna: LinearAntenna  #: its antenna at the sweep's frequencies
    hidden: tuple[Cause, ...] = ()  #: values the fault hides, beside the usual causes
    #: what a braid adds at the sweep's frequencies; None without one
    braid: BraidFamily | None = None
    braid_start: float = 0.0  #: length of braid that its hidden value is counted from [m]

    def fresh(self) -> Suspect:
        """The same; it remembers nothing."""
        return self

    def sweep(self, *, changes: Mapping[str, float], frequencies: Floats) -> Complexes:
        """Reflection at the meter after some changes.

        Args:
            changes: changes by key, those of hidden values among them, mixed units [-]
            frequencies: the sweep's frequencies [Hz] (f,)
        """
        mine = {key: value for key, value in changes.items() if not key.startswith("hidden.")}
        feeder = {k: v for k, v in mine.items() if k.startswith(("stage.", "line."))}
        changed = after_changes(installation=self.installation, changes=feeder)
        impedance = self.antenna.changed(mine)
        if self.braid is not None:
            length = self.braid_start + changes["hidden.braid"]
            impedance = 1.0 / (1.0 / impedance + _added_by_braid(self.braid, length))
        if "hidden.stray" in changes:
            changed = _with_stray(changed, changes["hidden.stray"])
        start = at_line(installation=changed, impedance=impedance, frequencies=frequencies)
        if "hidden.leak" in changes:
            ratio = frequencies / changed.beam.design_frequency
            leak = 1.0 / np.exp(_WET_LEAK[0] + changes["hidden.leak"])
            water = 1j * ratio / np.exp(_WET_REACTANCE[0] + changes["hidden.water"])
            start = 1.0 / (1.0 / start + leak + water)
        return at_meter(installation=changed, impedance=start, frequencies=frequencies)


def list_suspects(
    *,
    installation: Installation,
    antennas: FaultAntennas,
    frequencies: Floats,
) -> tuple[Suspect, ...]:
    """List every fault that is looked for; the braid with a length yet to be found.

    Args:
        frequencies: the sweep's frequencies [Hz] (f,)
    """
    plain = antennas.plain.at(frequencies=frequencies)
    base = Suspect(kind="no fault", text="no fault", installation=installation, antenna=plain)
    found = [base]
    found += [
        replace(
            base, kind="loose element", text=each.text, antenna=each.at(frequencies=frequencies)
        )
        for each in antennas.loose
    ]
    found += [
        replace(
            base,
            kind="wrong element order",
            text=each.text,
            antenna=each.at(frequencies=frequencies),
        )
        for each in antennas.reordered
    ]
    wet = tuple(
        Cause(key=f"hidden.{key}", label=label, unit="log", spread=float(spread))
        for key, label, (_, spread) in (
            ("leak", "leakage of the balun", _WET_LEAK),
            ("water", "reactance of the water", _WET_REACTANCE),
        )
    )
    found.append(
        replace(
            base,
            kind="wet balun",
            text="a leak and a capacitance across the line at the balun",
            hidden=wet,
        )
    )
    found += _shorted(base)
    return (*found, _with_braid(base, antennas.braid.at(frequencies=frequencies)))


def _shorted(base: Suspect) -> list[Suspect]:
    stray = Cause(
        key="hidden.stray",
        label="stray reactance of the short",
        unit="log",
        spread=_STRAY_REACTANCE[1],
    )
    stages = base.installation.stages
    places = [
        (number, "the capacitor of the match is shorted")
        for number, stage in enumerate(stages)
        if isinstance(stage, SeriesCapacitor)
    ] + [
        (number, "the match is shorted near the feed point")
        for number, stage in enumerate(stages)
        if isinstance(stage, (ShuntStub, ShuntInductor))
    ]
    found = []
    for number, text in places:
        # The short stands as a coil whose value is set from the hidden stray reactance.
        short: Stage = (
            SeriesInductor(inductance=0.0)
            if isinstance(stages[number], SeriesCapacitor)
            else ShuntInductor(inductance=0.0)
        )
        changed = replace(
            base.installation, stages=(*stages[:number], short, *stages[number + 1 :])
        )
        found.append(
            replace(base, kind="shorted match", text=text, installation=changed, hidden=(stray,))
        )
    if not places:
        changed = replace(base.installation, stages=(*stages, ShuntInductor(inductance=0.0)))
        found.append(
            replace(
                base,
                kind="shorted match",
                text="the feed point is shorted",
                installation=changed,
                hidden=(stray,),
            )
        )
    return found


def _with_stray(installation: Installation, logarithm: float) -> Installation:
    reactance = float(np.exp(_STRAY_REACTANCE[0] + logarithm))
    inductance = reactance / (2.0 * np.pi * installation.beam.design_frequency)
    stages = tuple(
        replace(stage, inductance=inductance)
        if isinstance(stage, (SeriesInductor, ShuntInductor)) and stage.inductance == 0.0
        else stage
        for stage in installation.stages
    )
    return replace(installation, stages=stages)


def _with_braid(base: Suspect, family: BraidFamily) -> Suspect:
    wavelength = base.installation.beam.wavelength
    hidden = Cause(
        key="hidden.braid", label="length of braid", unit="m", spread=_BRAID_SPREAD * wavelength
    )
    return replace(
        base,
        kind="braid common mode",
        text="the outside of the line carries current: its choke does not work",
        hidden=(hidden,),
        braid=family,
        braid_start=float(family.lengths.mean()),
    )


def likely_braids(
    *, suspect: Suspect, frequencies: Floats, target: Floats, covariance: Floats, phase_known: bool
) -> tuple[Suspect, ...]:
    """Find the lengths of braid from which a fit should start.

    Near a quarter wave the effect turns within a few per cent of length, so lengths are looked
    at closely, with the small errors left to their covariance.

    Args:
        frequencies: the sweep's frequencies [Hz] (f,)
        target: the sweep's readings (m,)
        covariance: covariance of the readings from noise and small errors (m, m)
        phase_known: whether the phase was measured
    """
    if suspect.braid is None:
        return (suspect,)
    lengths = np.linspace(suspect.braid.lengths[0], suspect.braid.lengths[-1], _BRAID_LOOKS)
    weight = np.linalg.inv(covariance)
    costs = []
    for length in lengths.tolist():
        seen = suspect.sweep(
            changes={"hidden.braid": length - suspect.braid_start}, frequencies=frequencies
        )
        left = readings_of(seen, phase_known=phase_known) - target
        costs.append(float(left @ weight @ left))
    walled = np.r_[np.inf, costs, np.inf]
    valleys = [
        number
        for number in range(_BRAID_LOOKS)
        if walled[number + 1] <= min(walled[number], walled[number + 2])
    ]
    valleys.sort(key=lambda number: costs[number])
    return tuple(
        replace(suspect, braid_start=float(lengths[number])) for number in valleys[:_BRAID_FOLLOWED]
    )


def _added_by_braid(family: BraidFamily, length: float) -> Complexes:
    """Admittance added by a length of braid, interpolated over all lengths.

    A quarter wave of braid resonates; seen as a reflection its admittance turns evenly.
    """
    lengths = family.lengths
    at = np.clip([length], lengths[0], lengths[-1])
    scaled = family.admittance * _BRAID_OHM
    smooth = lagrange_weights(nodes=lengths, at=at)[0] @ ((1.0 - scaled) / (1.0 + scaled))
    found: Complexes = (1.0 - smooth) / (1.0 + smooth) / _BRAID_OHM
    return found

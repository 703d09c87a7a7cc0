"""A match finished in the field: dimensions to cut beside those of the circuit equations."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from functools import cached_property

import numpy as np

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.feed.field_model import FieldSetting, refuse_long_wires, solve_wires
from boomwright.feed.field_shapes import FeedShape
from boomwright.feed.matches import FeedLoad, Match, make_match
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.stages import Stage
from boomwright.parts import Beam
from boomwright.solver import BeamSolution, WireSystem, mount_edges, surrounded_beam

#: names of figures that a match of a plan has too
HALF_LENGTH, HAIRPIN_LENGTH = (
    "half-length of the driven element",
    "hairpin from the element to its short",
)
#: the finer solution is itself off a little
_SAFETY = 1.5
#: widens a band that is a single frequency, share of the frequency to each side
_LEAST_BAND = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """One figure from the circuit equations and from the field."""

    name: str  #: what it is, in words
    unit: str  #: its unit: ``m``, ``F`` or ``ohm``
    circuit: float  #: value from the circuit equations [unit]
    field: float  #: value solved in the field [unit]

    @property
    def difference(self) -> float:
        """Field less circuit [unit]."""
        return self.field - self.circuit


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldError:
    """How far the impedance at the line may be off, by cause."""

    pieces: float  #: change with finer pieces, with the factor for what those leave [ohm]
    #: what the uneven current around close conductors changes, which thin wires leave out; from the
    #: circuit equations with and without it [ohm]
    proximity: float
    mounts: float  #: change when the mounts of the elements are at the edges of their bands [ohm]
    swr: float  #: half width of the band of the standing wave ratio from all [-]

    @property
    def impedance(self) -> float:
        """All causes together, as a modulus [ohm]."""
        return self.pieces + self.proximity + self.mounts


@dataclass(frozen=True, kw_only=True, eq=False)
class Finish:
    """What an iteration hands over to be checked, swept and shown."""

    kind: str  #: name of the feed in words
    beam: Beam  #: the beam with its driven element as trimmed
    shape: FeedShape  #: dimensions of the feed
    wires: WireSystem  #: the wires that are solved
    #: lumped pieces from the wires to the line, given the load of the wires over the band
    stages: Callable[[FeedLoad], tuple[Stage, ...]]
    comparisons: tuple[Comparison, ...]  #: circuit and field values side by side (n,)
    #: on the line with the dimensions of the circuit equations, solved in the field; infinite when
    #: those cannot be built [-]
    swr_of_start: float
    #: tells what uneven currents around the wires change of the impedance at their port [ohm]
    proximity: Callable[[], complex]
    evaluations: int  #: field solutions the iteration took
    notices: tuple[Notice, ...]  #: doubts and limits


@dataclass(frozen=True, kw_only=True, eq=False)
class FieldMatch(Finish):
    """A feed finished in the field; how far it may be off is solved when somebody asks."""

    match: Match  #: the lumped pieces between wires and line
    load: FeedLoad  #: impedance of the wires at their port, over the band
    solution: BeamSolution  #: the wires solved over the band, for patterns and losses
    impedance: complex  #: seen by the line at the design frequency [ohm]
    setting: FieldSetting  #: what it was solved in

    @property
    def frequency(self) -> float:
        """Design frequency [Hz]."""
        return self.match.frequency

    @property
    def reference(self) -> float:
        """Resistance the line wants to see [ohm]."""
        return self.match.reference

    @property
    def swr(self) -> float:
        """On the line at the design frequency [-]."""
        return float(standing_wave_ratio(self.impedance, reference=self.reference))

    @cached_property
    def finer_impedance(self) -> complex:
        """Seen by the line with finer pieces [ohm]."""
        return self._through(_at_design(self.beam, self.wires, self.setting, finer=True))

    @cached_property
    def error(self) -> FieldError:
        """How far the impedance may be off."""
        seen, port = self.impedance, complex(self.load.at(self.frequency))
        pieces = _SAFETY * abs(self.finer_impedance - seen)
        proximity = abs(self._through(port + self.proximity()) - seen)
        mounts = 0.0
        for edge in mount_edges(beam=self.beam):
            wires = self.shape.wires(beam=edge, setting=self.setting)
            port = _at_design(edge, wires, self.setting, finer=False)
            mounts += abs(self._through(port) - seen)
        return FieldError(
            pieces=pieces,
            proximity=proximity,
            mounts=mounts,
            swr=_swr_band(seen, pieces + proximity + mounts, self.reference),
        )

    def _through(self, port: complex) -> complex:
        """What the line sees at the design frequency of an impedance at the wires' port [ohm]."""
        return complex(self.match.transform(impedance=port, frequency=self.frequency))


def finish_match(*, found: Finish, reference: float, setting: FieldSetting) -> FieldMatch:
    """Sweep a match over the band."""
    beam, frequency = found.beam, found.beam.design_frequency
    # Whoever asks how far it may be off has no refusal to reckon with.
    whole = surrounded_beam(system=found.wires, beam=beam)
    refuse_long_wires(beam=beam, system=whole, frequencies=[frequency], finer=True)
    at = band_frequencies(beam=beam, points=setting.band_points)
    solution = solve_wires(beam=beam, system=found.wires, frequencies=at, setting=setting)
    load = FeedLoad(frequency=solution.frequencies, impedance=solution.impedance)
    match = make_match(
        kind=found.kind,
        load=load,
        frequency=frequency,
        reference=reference,
        stages=found.stages(load),
        notices=found.notices,
    )
    seen = match.transform(impedance=load.at(frequency), frequency=frequency)
    return FieldMatch(
        **{each.name: getattr(found, each.name) for each in fields(Finish)},
        match=match,
        load=load,
        solution=solution,
        impedance=complex(seen),
        setting=setting,
    )


def _at_design(beam: Beam, wires: WireSystem, setting: FieldSetting, *, finer: bool) -> complex:
    """Impedance at the wires' port at the design frequency [ohm]."""
    at = np.array([beam.design_frequency])
    solution = solve_wires(beam=beam, system=wires, frequencies=at, setting=setting, finer=finer)
    return complex(solution.impedance[0])


def _swr_band(seen: complex, error: float, reference: float) -> float:
    """Change of the standing wave ratio when the impedance moves by its error the worst way."""
    around = seen + error * np.exp(2j * np.pi * np.arange(32) / 32.0)
    ratio = standing_wave_ratio(around, reference=reference)
    here = float(standing_wave_ratio(seen, reference=reference))
    return float(np.max(np.abs(ratio - here)))


def band_frequencies(*, beam: Beam, points: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Frequencies at which a finished match is solved, the design frequency among them.

    Returns:
        rising frequencies [Hz] (f,)
    """
    design = beam.design_frequency
    low = min(*beam.band, design * (1.0 - _LEAST_BAND))
    high = max(*beam.band, design * (1.0 + _LEAST_BAND))
    return np.unique(np.append(np.linspace(low, high, points), design))

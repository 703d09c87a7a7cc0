"""A match finished in the field: dimensions to cut beside those of the circuit equations."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.feed.field_model import FieldSetting, solve_wires
from boomwright.feed.field_shapes import FeedShape
from boomwright.feed.matches import FeedLoad, Match, make_match, through_stages
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.stages import Stage
from boomwright.parts import Beam
from boomwright.solver import BeamSolution, WireSystem, mount_edges

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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FieldMatch:
    """A feed finished in the field."""

    kind: str  #: its name in words
    beam: Beam  #: the beam with its driven element as trimmed
    shape: FeedShape  #: dimensions of the feed
    wires: WireSystem  #: the wires that were solved
    match: Match  #: the lumped pieces between wires and line
    load: FeedLoad  #: impedance of the wires at their port, over the band
    solution: BeamSolution  #: the wires solved over the band, for patterns and losses
    comparisons: tuple[Comparison, ...]  #: circuit and field values side by side (n,)
    impedance: complex  #: seen by the line at the design frequency [ohm]
    swr: float  #: on the line at the design frequency [-]
    #: on the line with the dimensions of the circuit equations, solved in the field; infinite when
    #: those cannot be built [-]
    swr_of_start: float
    finer_impedance: complex  #: seen by the line with finer pieces [ohm]
    error: FieldError  #: how far the impedance may be off
    evaluations: int  #: field solutions the iteration took
    notices: tuple[Notice, ...]  #: doubts and limits

    @property
    def frequency(self) -> float:
        """Design frequency [Hz]."""
        return self.match.frequency

    @property
    def reference(self) -> float:
        """Resistance the line wants to see [ohm]."""
        return self.match.reference


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Finish:
    """What an iteration hands over to be checked, swept and shown."""

    kind: str  #: name of the feed in words
    beam: Beam  #: the beam as trimmed
    shape: FeedShape  #: dimensions found
    wires: WireSystem  #: their wires
    #: lumped pieces from the wires to the line, given the load of the wires over the band
    stages: Callable[[FeedLoad], tuple[Stage, ...]]
    comparisons: tuple[Comparison, ...]  #: circuit and field values (n,)
    swr_of_start: float  #: with the dimensions of the circuit equations [-]
    #: change of the impedance at the wires' port by uneven currents around them [ohm]
    proximity: complex
    evaluations: int  #: field solutions so far
    notices: tuple[Notice, ...]  #: doubts and limits


def finish_match(*, found: Finish, reference: float, setting: FieldSetting) -> FieldMatch:
    """Sweep a match over the band and check it with finer pieces."""
    beam = found.beam
    frequency = beam.design_frequency
    at = band_frequencies(beam=beam, points=setting.band_points)
    solution = solve_wires(beam=beam, system=found.wires, frequencies=at, setting=setting)
    load = FeedLoad(frequency=solution.frequencies, impedance=solution.impedance)
    stages = found.stages(load)
    finer = _at_design(beam, found.wires, setting, finer=True)
    port = complex(load.at(frequency))
    seen, seen_finer, seen_exact = through_stages(
        stages,
        impedance=[port, finer, port + found.proximity],
        frequency=np.full(3, frequency),
    )
    match = make_match(
        kind=found.kind,
        load=load,
        frequency=frequency,
        reference=reference,
        stages=stages,
        notices=found.notices,
    )
    pieces = _SAFETY * float(abs(seen_finer - seen))
    proximity = float(abs(seen_exact - seen))
    mounts = _mount_error(found, stages, complex(seen), setting)
    return FieldMatch(
        kind=found.kind,
        beam=beam,
        shape=found.shape,
        wires=found.wires,
        match=match,
        load=load,
        solution=solution,
        comparisons=found.comparisons,
        impedance=complex(seen),
        swr=float(standing_wave_ratio(seen, reference=reference)),
        swr_of_start=found.swr_of_start,
        finer_impedance=complex(seen_finer),
        error=FieldError(
            pieces=pieces,
            proximity=proximity,
            mounts=mounts,
            swr=_swr_band(complex(seen), pieces + proximity + mounts, reference),
        ),
        evaluations=found.evaluations,
        notices=found.notices,
    )


def _at_design(beam: Beam, wires: WireSystem, setting: FieldSetting, *, finer: bool) -> complex:
    """Impedance at the wires' port at the design frequency [ohm]."""
    at = np.array([beam.design_frequency])
    solution = solve_wires(beam=beam, system=wires, frequencies=at, setting=setting, finer=finer)
    return complex(solution.impedance[0])


def _mount_error(
    found: Finish, stages: tuple[Stage, ...], seen: complex, setting: FieldSetting
) -> float:
    """How far the mounts' bands move the impedance at the line [ohm]."""
    frequency = found.beam.design_frequency
    moved = 0.0
    for edge in mount_edges(beam=found.beam):
        wires = found.shape.wires(beam=edge, setting=setting)
        port = _at_design(edge, wires, setting, finer=False)
        moved += abs(complex(through_stages(stages, impedance=port, frequency=frequency)) - seen)
    return moved


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

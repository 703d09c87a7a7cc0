"""Predicting a sweep quickly, again and again, with small changes of the installation.

Real ground is dear to compute and changes the currents little, so its matrices are computed
once at a few frequencies and carried along: the change with height follows from the phase of
the way down and back and a difference quotient, that with the ground's constants from
difference quotients.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.parts import Beam
from boomwright.solver import (
    Currents,
    Detail,
    Ground,
    Preparer,
    assemble,
    beam_wires,
    ground_matrices,
    remembering,
    settled_feeds,
    solve_currents,
    working_detail,
)
from boomwright.tuning.installation import Installation, after_changes, at_line, at_meter
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights, way_down

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: frequencies at which the ground is computed, interpolated in between
_GROUND_NODES = 5
#: frequencies at which the antenna is solved, interpolated in between, and how many more of them
#: for a span as wide as the highest frequency
_IMPEDANCE_NODES = 9
_NODES_BY_SPAN = 150.0
#: steps of the difference quotients: height in wavelengths, constants as logarithms
_HEIGHT_STEP = 0.03
_LOG_STEP = 0.2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroundEffect:
    """Matrices that real ground adds, and how they change."""

    frequencies: Floats  #: nodes [Hz] (n,)
    height: float  #: boom above ground they were computed for [m]
    ground: Ground  #: ground they were computed for
    added: Complexes  #: matrices without the phase of the way down and back [ohm] (n, u, u)
    by_height: Complexes  #: their change per metre [ohm/m] (n, u, u)
    by_permittivity: Complexes  #: their change per logarithm of a factor [ohm] (n, u, u)
    by_conductivity: Complexes  #: their change per logarithm of a factor [ohm] (n, u, u)

    def __post_init__(self) -> None:
        for name in ("added", "by_height", "by_permittivity", "by_conductivity"):
            object.__setattr__(self, name, read_only(getattr(self, name), complex))

    def matrices(self, *, frequencies: Floats, height: float, ground: Ground) -> Complexes:
        """Matrices for a height and a ground near those computed.

        Args:
            frequencies: frequencies within the nodes [Hz] (f,)
            height: boom above ground [m]

        Returns:
            matrices to add [ohm] (f, u, u)
        """
        base = self.ground
        at_nodes = (
            self.added
            + (height - self.height) * self.by_height
            + np.log(ground.permittivity / base.permittivity) * self.by_permittivity
            + np.log(ground.conductivity / base.conductivity) * self.by_conductivity
        )
        weights = lagrange_weights(nodes=self.frequencies, at=frequencies)
        found: Complexes = np.tensordot(weights, at_nodes, axes=1)
        return found * way_down(frequencies=frequencies, height=height)[:, None, None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Predictor:
    """Predicts sweeps of one installation and its like."""

    installation: Installation  #: the installation as planned
    detail: Detail  #: how finely to cut the elements
    highest_frequency: float  #: highest frequency that will be asked for [Hz]
    prepare: Preparer  #: prepares one run
    ground_effect: GroundEffect | None  #: effect of real ground; None without one
    #: impedances already found, so that line and match change without a new solution
    solved: dict[tuple[Beam, Ground, bytes], Complexes]

    def fresh(self) -> Predictor:
        """The same with an empty memory."""
        return replace(self, prepare=remembering(), solved={})

    def currents(self, *, installation: Installation, frequencies: Floats) -> Currents:
        """Currents of a changed installation.

        Args:
            frequencies: [Hz] (f,)
        """
        assembly = assemble(
            system=beam_wires(beam=installation.beam, ground=installation.ground),
            detail=self.detail,
            highest_frequency=self.highest_frequency,
            prepare=self.prepare,
        )
        added = None
        effect = self.ground_effect
        if installation.ground.kind == "real":
            if effect is None or effect.added.shape[1] != assembly.count:
                effect = _ground_effect(
                    installation, chebyshev_nodes(frequencies, _GROUND_NODES), self
                )
            added = effect.matrices(
                frequencies=frequencies,
                height=installation.beam.height,
                ground=installation.ground,
            )
        return solve_currents(assembly=assembly, frequencies=frequencies, added=added)

    def impedance(self, *, installation: Installation, frequencies: Floats) -> Complexes:
        """Feed-point impedance of a changed installation.

        Args:
            frequencies: [Hz] (f,)

        Returns:
            impedance, before the match [ohm] (f,)
        """
        nodes = frequencies
        count = _IMPEDANCE_NODES + int(
            _NODES_BY_SPAN * (frequencies.max() - frequencies.min()) / frequencies.max()
        )
        if len(frequencies) > count:
            nodes = chebyshev_nodes(frequencies, count)
        key = (installation.beam, installation.ground, nodes.tobytes())
        if key not in self.solved:
            found = self.currents(installation=installation, frequencies=nodes)
            self.solved[key] = 1.0 / found.admittance[:, 0, 0]
        impedance = self.solved[key]
        if nodes is frequencies:
            return impedance
        interpolated: Complexes = lagrange_weights(nodes=nodes, at=frequencies) @ impedance
        return interpolated

    def sweep(self, *, changes: Mapping[str, float], frequencies: Floats) -> Complexes:
        """Reflection at the meter after some changes.

        Args:
            changes: changes of the planned installation by key, mixed units [-]
            frequencies: [Hz] (f,)
        """
        changed = after_changes(installation=self.installation, changes=changes)
        antenna = self.impedance(installation=changed, frequencies=frequencies)
        start = at_line(installation=changed, impedance=antenna, frequencies=frequencies)
        return at_meter(installation=changed, impedance=start, frequencies=frequencies)


def make_predictor(
    *,
    installation: Installation,
    lowest_frequency: float,
    highest_frequency: float,
    detail: Detail | None = None,
) -> Predictor:
    """Prepare to predict sweeps of an installation.

    Args:
        lowest_frequency, highest_frequency: limits of the frequencies that will be asked for [Hz]
        detail: how finely to cut the elements; None for the solver's working detail

    Returns:
        the predictor; with real ground its making takes seconds
    """
    # What hangs on the feeds of neighbours is settled once, not anew for every change tried.
    installation = replace(installation, beam=settled_feeds(beam=installation.beam))
    bare = Predictor(
        installation=installation,
        detail=detail or working_detail(frequency=highest_frequency),
        highest_frequency=max(highest_frequency, *installation.beam.band),
        prepare=remembering(),
        ground_effect=None,
        solved={},
    )
    if installation.ground.kind != "real":
        return bare
    # A wider sweep may be asked for later, to see what it would tell.
    margin = 0.5 * (highest_frequency - lowest_frequency)
    limits = np.array([lowest_frequency - margin, highest_frequency + margin])
    nodes = chebyshev_nodes(limits, _GROUND_NODES)
    return replace(bare, ground_effect=_ground_effect(installation, nodes, bare))


def _ground_effect(installation: Installation, nodes: Floats, predictor: Predictor) -> GroundEffect:
    beam, ground = installation.beam, installation.ground

    def added(height: float, below: Ground) -> Complexes:
        assembly = assemble(
            system=beam_wires(beam=replace(beam, height=height), ground=below),
            detail=predictor.detail,
            highest_frequency=predictor.highest_frequency,
            prepare=predictor.prepare,
        )
        found = ground_matrices(assembly=assembly, frequencies=nodes, ground=below)
        return found / way_down(frequencies=nodes, height=height)[:, None, None]

    base = added(beam.height, ground)
    step = _HEIGHT_STEP * beam.wavelength
    wetter = replace(ground, permittivity=ground.permittivity * np.exp(_LOG_STEP))
    saltier = replace(ground, conductivity=ground.conductivity * np.exp(_LOG_STEP))
    return GroundEffect(
        frequencies=nodes,
        height=beam.height,
        ground=ground,
        added=base,
        by_height=(added(beam.height + step, ground) - base) / step,
        by_permittivity=(added(beam.height, wetter) - base) / _LOG_STEP,
        by_conductivity=(added(beam.height, saltier) - base) / _LOG_STEP,
    )

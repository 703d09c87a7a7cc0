"""The mounted, matched and coupled antenna, solved in the field as the feed room solves it.

A split element is solved as a beam, a gamma, tee, hairpin or folded element with its rods as
wires among the elements; neighbours, ground and mounts stand in both.
"""

from __future__ import annotations

from dataclasses import replace

from boomwright.base.array_types import Complexes, Floats
from boomwright.feed.field_model import FieldSetting, solve_wires
from boomwright.solver import (
    BeamSolution,
    assemble,
    beam_wires,
    foot_resistance,
    ground_seen,
    remembering,
    settled_feeds,
    solution_of,
    solve_currents,
    working_detail,
)
from boomwright.tuning.installation import Installation


class Bench:
    """Solves one installation and its like, keeping what repeats.

    Args:
        installation: the installation as planned
    """

    def __init__(self, installation: Installation) -> None:
        # What hangs on the feeds of neighbours is settled once, not anew for every change tried.
        beam = settled_feeds(beam=installation.beam)
        self.installation = replace(installation, beam=beam)
        self.prepare = remembering()
        self.known: dict[tuple[Installation, bytes], Complexes] = {}

    def __reduce__(self) -> tuple[type[Bench], tuple[Installation]]:
        """Go to another process without what was kept."""
        return Bench, (self.installation,)

    def impedance(self, installation: Installation, frequencies: Floats) -> Complexes:
        """Impedance at the port of the wires, before the lumped pieces of the match [ohm] (f,).

        Args:
            frequencies: [Hz] (f,)
        """
        asked = (installation, frequencies.tobytes())
        if asked not in self.known:
            self.known[asked] = self._solved(installation, frequencies)
        return self.known[asked]

    def _solved(self, installation: Installation, frequencies: Floats) -> Complexes:
        shape, beam = installation.shape, installation.beam
        if shape is None:
            return self.solution(installation, frequencies).impedance
        setting = FieldSetting(ground=installation.ground, prepare=self.prepare)
        system = shape.wires(beam=beam, setting=setting)
        found = solve_wires(beam=beam, system=system, frequencies=frequencies, setting=setting)
        return found.impedance

    def solution(self, installation: Installation, frequencies: Floats) -> BeamSolution:
        """Solve the elements alone, fed as if split, for patterns and currents.

        Args:
            frequencies: [Hz] (f,)
        """
        beam, ground = installation.beam, installation.ground
        highest = max(float(frequencies.max()), *beam.band)
        assembly = assemble(
            system=beam_wires(beam=beam, ground=ground),
            detail=working_detail(frequency=highest),
            highest_frequency=highest,
            prepare=self.prepare,
        )
        below = None
        if ground.kind == "real" and not beam.stands_on_ground:
            below = ground_seen(assembly=assembly, frequencies=frequencies, ground=ground)
        currents = solve_currents(
            assembly=assembly,
            frequencies=frequencies,
            below=below,
            series=foot_resistance(beam=beam, ground=ground, frequencies=frequencies),
        )
        return solution_of(beam=beam, currents=currents)

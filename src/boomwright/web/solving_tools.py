"""What the page needs from outside to compute a beam; part of its tools."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.reach import BeamReadings, QuickLook, WavePicture
    from boomwright.solver import Ground


class SolvingTools(Protocol):
    """Figures, patterns and waves of a beam."""

    def quick_look(self, *, beam: Beam, ground: Ground, frequency: float) -> QuickLook:
        """Compute the figures that follow a drag; error bands may be those of the last pause.

        Parameters
        ----------
        frequency
            frequency [Hz]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

    def compute(self, *, beam: Beam, ground: Ground) -> BeamReadings:
        """Compute everything over the band.

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

    def waves(self, *, beam: Beam, ground: Ground, frequency: float) -> WavePicture:
        """Compute the wave around a beam.

        Parameters
        ----------
        frequency
            frequency [Hz]

        Raises
        ------
        SolverError
            when the geometry is refused
        """
        ...

"""Runs joined to each other are a cluster; clusters see of one another what shows outside.

What couples two clusters is smooth: it acts on the moments of their nodes and, where they pass
close by, on few more combinations of their unknowns. So a long row of elements costs little more
than its nodes, however finely its tubes are cut.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.runs.prepared_run import PreparedRun
from boomwright.solver.runs.static import RunStatics

Indices = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosePair:
    """Two runs (the second as an image) that are integrated piece by piece."""

    first: int
    second: int
    image: int  #: number of the second's image
    coaxial: bool  #: whether they are one tube, or its continuation in a mirror
    radius: float  #: added in square to the squared distance where they touch [m]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NearCoupling(ReadOnlyArrays):
    """Static coupling of two clusters that pass close by each other."""

    first: int
    second: int
    #: double integrals of 1/R over currents [m] and charges [1/m], of R over currents [m^3] and
    #: charges [m], over what shows of both (4, r_first, r_second)
    statics: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cluster(ReadOnlyArrays):
    """Some runs of a system, and what they are to each other."""

    runs: tuple[int, ...]  #: numbers of its runs
    raw: Indices  #: which of the system's raw unknowns are its own (n_raw,)
    free: Indices  #: which of the free ones (n,)
    nodes: Indices  #: which of the nodes (m,)
    expand: Floats  #: raw unknowns from the free ones (n_raw, n)
    current: Floats  #: moments of the free unknowns' currents at the nodes [m] (m, n)
    charge: Floats  #: moments of their charges [-] (m, n)
    #: what the thickness of the wires does to the moments of currents: the part that goes with k^2
    #: [m^3] and that with the second derivative [m] (2, m, n)
    ring_current: Floats
    ring_charge: Floats  #: the same for those of charges [m^2], [-] (2, m, n)
    statics: RunStatics  #: static matrices over the free unknowns
    #: conductivity [S/m] and circumference integrals [-] (n, n) of each metal
    loss: tuple[tuple[float, Floats], ...]
    home: Indices  #: which of its runs each node belongs to (m,)
    radius: Floats  #: tube radius at each node [m] (m,)
    #: 1 for runs on one axis, whose kernel has the ring's thickness in it, per image (n_images,
    #: n_runs, n_runs)
    coaxial: Floats
    #: 1 for runs where the kernel's kink is taken out of the nodes, per image (n_images, n_runs,
    #: n_runs)
    kinkless: Floats
    #: the combinations of free unknowns that show outside; None for each by itself (n, r)
    shown: Floats | None

    @property
    def seen(self) -> int:
        """Number of unknowns through which other clusters see this one."""
        return len(self.free) if self.shown is None else int(self.shown.shape[1])

    def expansion_of(self, *, run: int, runs: Sequence[PreparedRun]) -> Floats:
        """Rows of the expansion that are one run's raw unknowns.

        Args:
            run: number of the run, one of the cluster's

        Returns:
            raw unknowns of the run from the cluster's free ones (n_raw_of_run, n)
        """
        before = sum(runs[each].mesh.count for each in self.runs if each < run)
        return self.expand[before : before + runs[run].mesh.count]

    def masks(self, *, image: int, rows: Indices) -> tuple[Floats, Floats, Floats]:
        """For some nodes and all: coaxial, kinkless, and what is added to squared distances.

        Returns:
            1 or 0, 1 or 0, and sums of squared radii [m^2] (rows, m)
        """
        here = self.home[rows, None]
        coaxial = self.coaxial[image][here, self.home]
        squared = self.radius**2
        added = coaxial * (squared[rows, None] + squared)
        return coaxial, self.kinkless[image][here, self.home], added

    def outside_moments(self, *, wavenumber: Floats | float) -> tuple[Floats, Floats]:
        """Current and charge moments as another wire, or the far field, sees them.

        Args:
            wavenumber: one wavenumber or several [1/m] () or (f,)

        Returns:
            moments of current [m] and charge (m, n) or (f, m, n)
        """
        square = np.square(wavenumber)[..., None, None]
        return (
            self.current - square * self.ring_current[0] - self.ring_current[1],
            self.charge - square * self.ring_charge[0] - self.ring_charge[1],
        )

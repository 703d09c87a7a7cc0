"""Where a parameter 0..1 lies on a piece, with the root that resolves its edge."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.solver.runs.mesh import RunMesh


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Some pieces of a run (or of its mirror image) as columns, ready for broadcasting.

    ``direction`` is the axial direction of growing parameter, ``along`` the axial component of
    the current that flows with the parameter; they differ in sign only for mirror images.
    """

    z0: Floats  #: place and radius at the start [m] (n,)
    r0: Floats  #: place and radius at the start [m] (n,)
    arc: Floats  #: length along the surface [m] (n,)
    direction: Floats  #: axial and radial component of the unit tangent (n,)
    radial: Floats  #: axial and radial component of the unit tangent (n,)
    #: root of the parametrisation, negative for an edge at the start [-] (n,)
    root: NDArray[np.int64]
    #: smaller radius at both ends that is not zero: a cap counts with its rim [m] (n,)
    smallest_radius: Floats

    def some(
        self, which: NDArray[np.int64], *, mirrored: NDArray[np.bool_] | bool = False
    ) -> Pieces:
        """Pick pieces, or their images in the plane z = 0.

        Args:
            which: piece numbers [-] (n,)
            mirrored: whether to take the image, for all or for each [-] (n,)
        """
        side = np.where(mirrored, -1.0, 1.0)
        return Pieces(
            z0=side * self.z0[which],
            r0=self.r0[which],
            arc=self.arc[which],
            direction=side * self.direction[which],
            radial=self.radial[which],
            root=self.root[which],
            smallest_radius=self.smallest_radius[which],
        )

    def arc_at(self, parameter: Floats) -> tuple[Floats, Floats]:
        """Arc length from the start, and its slope.

        Args:
            parameter: parameters (n, ...)

        Returns:
            arc length and its derivative [m] (n, ...)
        """
        shape = (-1,) + (1,) * (parameter.ndim - 1)
        root = np.abs(self.root).reshape(shape)
        arc = self.arc.reshape(shape)
        most = int(root.max())
        if most == 1:
            return arc * parameter, np.broadcast_to(arc, (len(arc), *parameter.shape[1:]))
        at_start = (self.root < 0).reshape(shape)
        distance = np.where(at_start, parameter, 1.0 - parameter)
        power = np.where(root > 1, distance, 1.0)
        for order in range(2, most):
            power = np.where(root > order, power * distance, power)
        travelled = np.where(at_start, power * distance, 1.0 - power * distance)
        return arc * travelled, arc * root * power

    def parameter_at(self, arc_length: Floats) -> Floats:
        """Parameter at an arc length, the inverse of :meth:`arc_at`.

        Args:
            arc_length: arc lengths [m] (n, ...)
        """
        shape = (-1,) + (1,) * (arc_length.ndim - 1)
        inverse_root = 1.0 / np.abs(self.root).reshape(shape)
        at_start = (self.root < 0).reshape(shape)
        share = np.clip(arc_length / self.arc.reshape(shape), 0.0, 1.0)
        return np.where(at_start, share**inverse_root, 1.0 - (1.0 - share) ** inverse_root)

    def position_at(self, arc_length: Floats) -> tuple[Floats, Floats]:
        """Axial place and radius at an arc length [m] (n, ...).

        Args:
            arc_length: arc lengths [m] (n, ...)
        """
        shape = (-1,) + (1,) * (arc_length.ndim - 1)
        place = self.z0.reshape(shape) + self.direction.reshape(shape) * arc_length
        radius = self.r0.reshape(shape) + self.radial.reshape(shape) * arc_length
        return place, np.maximum(radius, 0.0)


def pieces_of(mesh: RunMesh, which: NDArray[np.int64]) -> Pieces:
    """Pick pieces of a run.

    Args:
        which: piece numbers [-] (n,)
    """
    return joined_pieces([mesh]).some(which)


def joined_pieces(meshes: Sequence[RunMesh]) -> Pieces:
    """Pieces of runs, one run behind the other."""
    z0, z1, r0, r1 = (
        np.concatenate([getattr(mesh, name) for mesh in meshes])
        for name in ("z0", "z1", "r0", "r1")
    )
    arc = np.hypot(z1 - z0, r1 - r0)
    radii = [np.where(radius > 0.0, radius, np.inf) for radius in (r0, r1)]
    return Pieces(
        z0=z0,
        r0=r0,
        arc=arc,
        direction=(z1 - z0) / arc,
        radial=(r1 - r0) / arc,
        root=np.concatenate([mesh.root for mesh in meshes]),
        smallest_radius=np.minimum(*radii),
    )

"""What is known of the errors of an installation, and what predicts a sweep from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.tuning.causes import Cause
from boomwright.tuning.installation import Installation

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


class SweepModel(Protocol):
    """Whatever predicts sweeps: an installation as planned, or one with a fault."""

    @property
    def installation(self) -> Installation:
        """The installation as planned."""

    def fresh(self) -> SweepModel:
        """The same with an empty memory."""

    def sweep(self, *, changes: Mapping[str, float], frequencies: Floats) -> Complexes:
        """Reflection at the meter after some changes.

        Args:
            changes: changes by key, mixed units [-]
            frequencies: [Hz] (f,)
        """


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Knowledge:
    """What is known of the causes: normal, with a mean and a covariance."""

    causes: tuple[Cause, ...]  #: the causes (n,)
    mean: Floats  #: most probable deviation from the plan, mixed units (n,)
    covariance: Floats  #: covariance, mixed units (n, n)

    def __post_init__(self) -> None:
        object.__setattr__(self, "mean", read_only(self.mean))
        object.__setattr__(self, "covariance", read_only(self.covariance))

    @property
    def spread(self) -> Floats:
        """Standard deviation of each cause, mixed units (n,)."""
        return np.sqrt(np.diag(self.covariance))

    def changes(self) -> dict[str, float]:
        """The mean as changes of the installation by key.

        Returns:
            amounts by key, mixed units [-]
        """
        return as_changes(self.causes, self.mean)


def as_changes(causes: tuple[Cause, ...], values: Floats) -> dict[str, float]:
    """Turn a vector of deviations into changes by key.

    Args:
        values: deviations, mixed units (n,)

    Returns:
        amounts by key, mixed units [-]
    """
    return {cause.key: float(value) for cause, value in zip(causes, values, strict=True)}


def first_knowledge(causes: tuple[Cause, ...]) -> Knowledge:
    """What is known before any sweep: no deviation, with the usual spread."""
    spreads = np.array([cause.spread for cause in causes])
    return Knowledge(causes=causes, mean=np.zeros(len(causes)), covariance=np.diag(spreads**2))


def readings_of(reflection: Complexes, *, phase_known: bool) -> Floats:
    """Turn reflections into the real readings that are fitted.

    Args:
        reflection: reflection coefficients (f,)
        phase_known: whether their phase was measured
    """
    if not phase_known:
        return np.abs(reflection)
    return np.concatenate([reflection.real, reflection.imag])

"""boomwright: plan, compute, build, raise and tune directional antennas for amateur stations.

>>> import boomwright as bw
>>> plan = bw.load("plan.toml")                                             # doctest: +SKIP
>>> result = bw.compute(plan)                                               # doctest: +SKIP
>>> result.beams[0].free_space.gain_dbi                                     # doctest: +SKIP

The package is a house of rooms, each a package with a docstring to read first. From the ground up:
``base``; ``parts``; ``solver``; ``feed``, ``structure``, ``reach``; ``design``, ``tuning``,
``permits``; ``cost``, ``raising``; ``plan``; ``study``, ``charts``; ``report``; ``render``,
``export``; ``session``; ``cli``, ``web``.
A room imports only from rooms below it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from boomwright.base import BoomwrightError, Notice, PlanError
    from boomwright.plan import Plan
    from boomwright.session.files import read as load
    from boomwright.study.computing import Computation, compute

__all__ = [
    "BoomwrightError",
    "Computation",
    "Notice",
    "Plan",
    "PlanError",
    "__version__",
    "compute",
    "load",
]

# Loaded when first used, so that the command line starts without numpy.
_HOMES = {
    "BoomwrightError": ("boomwright.base", "BoomwrightError"),
    "Computation": ("boomwright.study.computing", "Computation"),
    "Notice": ("boomwright.base", "Notice"),
    "Plan": ("boomwright.plan", "Plan"),
    "PlanError": ("boomwright.base", "PlanError"),
    "compute": ("boomwright.study.computing", "compute"),
    "load": ("boomwright.session.files", "read"),
}


def __getattr__(name: str) -> Any:
    if name == "__version__":
        from importlib.metadata import version

        return version("boomwright")
    if name in _HOMES:
        module, attribute = _HOMES[name]
        return getattr(import_module(module), attribute)
    message = f"module 'boomwright' has no attribute {name!r}"
    raise AttributeError(message)


def __dir__() -> list[str]:
    return sorted(__all__)

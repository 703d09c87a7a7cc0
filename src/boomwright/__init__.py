"""boomwright: plan, compute, build, raise and tune directional antennas for amateur stations.

>>> import boomwright as bw
>>> plan = bw.load("plan.toml")                                             # doctest: +SKIP
>>> result = bw.compute(plan)                                               # doctest: +SKIP
>>> result.beams[0].free_space.gain_dbi                                     # doctest: +SKIP
>>> bw.report_on(result)                                                    # doctest: +SKIP

Every use case is a verb here: plan in, result out; ``docs/python.md`` shows each.

The package is a house of rooms, each a package with a docstring to read first. From the ground up:
``base``; ``parts``; ``solver``; ``feed``, ``structure``, ``reach``; ``design``, ``tuning``,
``permits``, ``cost``, ``raising``; ``plan``; ``study``, ``charts``; ``report``; ``render``,
``export``; ``session``; ``cli``, ``web``.
A room imports only from rooms below it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from boomwright.base import BoomwrightError, Notice, PlanError
    from boomwright.feed import OnePort
    from boomwright.plan import Plan
    from boomwright.render.written import report_on
    from boomwright.session.files import read as load
    from boomwright.session.verbs import (
        advise,
        compute_reach,
        improve,
        make_book,
        make_proposal,
        plan_raising,
        price,
        tune,
    )
    from boomwright.study.computing import Computation, compute
    from boomwright.study.feed import feed_plan as solve_feed
    from boomwright.study.frontier_fit import ask_trade_off as frontier
    from boomwright.study.permits import permit_plan as check_permits
    from boomwright.study.structure import structure_plan as check_structure

__all__ = [
    "BoomwrightError",
    "Computation",
    "Notice",
    "OnePort",
    "Plan",
    "PlanError",
    "__version__",
    "advise",
    "check_permits",
    "check_structure",
    "compute",
    "compute_reach",
    "frontier",
    "improve",
    "load",
    "make_book",
    "make_proposal",
    "plan_raising",
    "price",
    "report_on",
    "solve_feed",
    "tune",
]


def __getattr__(name: str) -> Any:
    if name == "__version__":
        from importlib.metadata import version

        return version("boomwright")
    if name in __all__:
        # Loaded when first used, so that the command line starts without numpy.
        from boomwright.base.faces import on_demand

        return on_demand(__name__)(name)
    raise AttributeError(f"module 'boomwright' has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted(__all__)

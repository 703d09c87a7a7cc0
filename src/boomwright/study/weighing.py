"""A change of a plan held against the plan as it is: what will be measured, and what is re-cut."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from boomwright.base import PlanVerdict
from boomwright.base.files import ReadFile, no_files
from boomwright.base.records import dataclass
from boomwright.plan import read_plan
from boomwright.plan.layout import Path
from boomwright.plan.places import below, place_words
from boomwright.plan.read import parse_toml
from boomwright.solver import Preparer, prepare_run
from boomwright.study.as_measured import measure_beam
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.verdict import judge_plan


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedValue:
    """A value of the plan that a change touches, as its owner writes it."""

    name: str  #: what it is, in plain words
    before: str  #: its text now; empty where it is not given
    after: str  #: its text then; empty where it is taken out


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedPlan:
    """One side of the comparison."""

    measured: AsMeasured | NotMeasured  #: what will be measured of the beam
    verdict: PlanVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A plan before and after a change."""

    before: WeighedPlan
    after: WeighedPlan
    changes: tuple[ChangedValue, ...]  #: in the order of the plan (n_changes,)


def weigh(
    before: str,
    after: str,
    *,
    known: WeighedPlan,
    number: int,
    files: ReadFile = no_files,
    prepare: Preparer = prepare_run,
) -> Weighed:
    """Hold a changed plan against the plan as it is.

    Args:
        before, after: texts of the plans
        known: what is known of the plan as it is
        number: number of the beam that is measured, from 0
    """
    plan = read_plan(after)
    changed = WeighedPlan(
        measured=measure_beam(plan, plan.beams[min(number, len(plan.beams) - 1)], prepare=prepare),
        verdict=judge_plan(plan, files=files, prepare=prepare),
    )
    return Weighed(before=known, after=changed, changes=changed_values(before, after))


def changed_values(before: str, after: str) -> tuple[ChangedValue, ...]:
    """Find every value that differs between two plans; a table taken out is one (n_changes,).

    Args:
        before, after: texts of the plans
    """
    old, new = parse_toml(before), parse_toml(after)
    was, will = dict(_leaves(old, beside=new)), dict(_leaves(new))
    return tuple(
        ChangedValue(
            name=place_words(path, new if path in will else old),
            before=was.get(path, ""),
            after=will.get(path, ""),
        )
        for path in dict.fromkeys((*was, *will))
        if was.get(path) != will.get(path)
    )


def _leaves(node: Any, path: Path = (), *, beside: Any = ...) -> Iterator[tuple[Path, str]]:
    """Every value that is no table and no list, with its path.

    Args:
        beside: the same of the other plan; a table that it lacks counts as one value
    """
    if isinstance(node, dict) and beside is None:
        yield path, "in the plan"
    elif isinstance(node, dict | list):
        for step, value in node.items() if isinstance(node, dict) else enumerate(node):
            other = ... if beside is ... else below(beside, step)
            yield from _leaves(value, (*path, step), beside=other)
    else:
        yield path, f"{node:g}" if isinstance(node, float) else str(node)

"""Short guided lessons: each a plan and a sequence of things to try with it.

A lesson is two files in the program's own data: ``<name>.toml``, an ordinary plan, and
``<name>.steps.toml``, what to say and to try. The numbers a step speaks of stand among its claims;
the tests compute every one of them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.plan import rewrite

_ELEMENTS = "  [[beam.element]]"


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonStep:
    """One thing to see or to try."""

    say: Value  #: what to look at and what it shows
    look: str  #: sheet it is best seen on, such as ``waves``
    beam: int  #: number of the beam it speaks of, from 0
    do: Value  #: what its button does, in a few words; empty when there is nothing to do
    #: role, place and length of the elements it puts on the boom; empty leaves them
    elements: tuple[tuple[str, str, str], ...]
    #: further values it writes, by dotted place; a whole table is appended
    changes: Mapping[str, Any]
    claims: Mapping[str, str]  #: numbers it speaks of, by name, as it writes them


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """A guided lesson."""

    name: str  #: short stable name, such as ``1-dipole-alone``
    title: str
    aim: str  #: what it shows, in one sentence
    then_try: str  #: what to try with a plan of one's own afterwards
    plan_text: str  #: the plan it begins with
    steps: tuple[LessonStep, ...]  #: what to try, in order (n_steps,)


def _folder() -> Traversable:
    return files("boomwright.session") / "data" / "lessons"


@lru_cache(maxsize=1)
def lessons() -> tuple[Lesson, ...]:
    """Read all lessons."""
    names = sorted(
        (
            item.name.removesuffix(".steps.toml")
            for item in _folder().iterdir()
            if item.name.endswith(".steps.toml")
        ),
        key=lambda name: int(name.partition("-")[0]),
    )
    return tuple(_read(name) for name in names)


def _read(name: str) -> Lesson:
    folder = _folder()
    raw = tomllib.loads((folder / f"{name}.steps.toml").read_text(encoding="utf-8"))
    steps = tuple(
        LessonStep(
            say=_told(step, "say"),
            look=step["look"],
            beam=step.get("beam", 0),
            do=_told(step, "do"),
            elements=tuple((role, at, length) for role, at, length in step.get("elements", ())),
            changes=step.get("set", {}),
            claims=step.get("claims", {}),
        )
        for step in raw["step"]
    )
    return Lesson(
        name=name,
        title=raw["title"],
        aim=raw["aim"],
        then_try=raw["try"],
        plan_text=(folder / f"{name}.toml").read_text(encoding="utf-8"),
        steps=steps,
    )


def _told(step: Mapping[str, Any], key: str) -> Value:
    """Take words of a step, with the lengths that they name in braces."""
    words = " ".join(step.get(key, "").split())
    if "{" not in words:
        return words
    lengths = {
        name: Quantity(length, "lesson length" if length >= 1.0 else "sawn length")
        for name, length in step["lengths_m"].items()
    }
    return phrase(words, **lengths)


def take_step(text: str, step: LessonStep) -> str:
    """Do to a lesson's plan what a step's button does.

    Raises:
        PlanError: when the plan was changed so much that a place of the step is gone
    """
    if step.elements:
        head = text.split(_ELEMENTS, 1)[0]
        text = head + "".join(
            f'{_ELEMENTS}\n  role = "{role}"\n  at = "{at}"\n  diameter = "25 mm"\n'
            f'  length = "{length}"\n'
            for role, at, length in step.elements
        )
    return rewrite(text, dict(step.changes)) if step.changes else text

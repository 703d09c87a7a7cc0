"""What can be undone and done again, as text that outlives the program."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import astuple
from typing import Any

from boomwright.session.price_list import Beside
from boomwright.web.saving import Step

#: steps kept each way; texts are some kilobytes each
KEPT = 30


def packed(*, now: str, undo: Sequence[Step], redo: Sequence[Step]) -> str:
    """Write both ways as text.

    Args:
        undo, redo: states that can be returned to, the nearest last (n_steps,)
    """

    def steps(stack: Sequence[Step]) -> list[list[str]]:
        return [
            [step.text, step.label, *(astuple(step.beside) if step.beside else ())]
            for step in stack[-KEPT:]
        ]

    kept = {"now": now, "undo": steps(undo), "redo": steps(redo)}
    return json.dumps(kept, ensure_ascii=False)


def unpacked(kept: str, *, now: str) -> tuple[list[Step], list[Step]]:
    """Read both ways back, as far as they fit the plan as it stands; empty when they do not fit.

    Where the program ended before the plan was written, the edits missing there can be done
    again.
    """
    try:
        found = json.loads(kept)
        last = found["now"]
        undo, redo = _steps(found["undo"]), _steps(found["redo"])
    except (ValueError, TypeError, LookupError, RecursionError):
        return [], []
    if last == now:
        return undo, redo
    for place in range(len(undo) - 1, -1, -1):
        if undo[place].text == now:
            missing = undo[place:]
            after = [*(step.text for step in missing[1:]), last]
            again = [
                Step(text=text, label=step.label)
                for step, text in zip(missing, after, strict=True)
                if isinstance(text, str)
            ]
            return undo[:place], again[::-1]
    return [], []


def _steps(raw: Any) -> list[Step]:
    steps = []
    for text, label, *more in raw:
        if not all(isinstance(each, str) for each in (text, label, *more)):
            raise TypeError
        beside = None
        if more:
            name, before, after = more
            beside = Beside(name=name, before=before, after=after)
        steps.append(Step(text=text, label=label, beside=beside))
    return steps

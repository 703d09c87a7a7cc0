"""Places of a plan by name: ``beam[0].element[2].length`` to keys and indices and back."""

from __future__ import annotations

from boomwright.base import Fault, PlanError
from boomwright.plan.faults import path_text, shown, split_path
from boomwright.plan.kinds import Kind, nearest
from boomwright.plan.layout import Path
from boomwright.plan.spec import TableSpec
from boomwright.plan.tables.root import ROOT


def place_error(path: str, message: str, *, remedy: str, value: str = "") -> PlanError:
    """Make the error for one place.

    Args:
        value: offending value, or empty
    """
    return PlanError((Fault(path=path, message=message, remedy=remedy, value=value),))


def parse_path(text: str) -> Path:
    """Read a place such as ``beam[0].element[2].length``.

    Raises:
        PlanError: not a place
    """
    path = split_path(text)
    if path is None:
        message = "this is not a place in a plan"
        raise place_error(shown(text), message, remedy='write it as "beam[0].element[2].length"')
    return path


def kind_at(path: Path) -> Kind:
    """Find what a place of a plan holds.

    Raises:
        PlanError: no such place in any plan, with the nearest key
    """
    kind: Kind = ROOT
    for depth, step in enumerate(path):
        below = kind.below(step)
        if below is None:
            known = [entry.key for entry in kind.fields] if isinstance(kind, TableSpec) else []
            close = nearest(str(step), known)
            remedy = f'did you mean "{close}"?' if close else f"known here: {', '.join(known)}"
            message = "no plan has this place"
            raise place_error(path_text(path[: depth + 1]), message, remedy=remedy)
        kind = below
    return kind
